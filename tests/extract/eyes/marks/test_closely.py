"""A close look at single marks: its pictures, and how it is weighed with what was seen of the chart as a whole."""

from __future__ import annotations

import numpy as np
import pytest
from by_hand import mark

from octavo.extract.eyes.marks import closely
from octavo.extract.eyes.marks.closely import SIDE, USUAL_PX, Odds, Windows, looked_closely, trust, usual_size, windows
from octavo.extract.sightings import MarkSight
from octavo.interpret.symbols import GLYPHS, Glyph
from octavo.tools.painter import paint, render

WHITE = np.full((900, 900, 3), 255, np.uint8)
BOX = (0.0, 0.0, 899.0, 899.0)


def sight(glyph: Glyph, score: float, *rivals: tuple[Glyph, float], hz: float = 1000, db: float = 40) -> MarkSight:
    made = mark(glyph, hz, db, score=score).sight
    return MarkSight(made.area, glyph, made.at, made.size, score, rivals, 0.0, 0.0, (0.2, 0.0, 0.0))


def with_odds(monkeypatch: pytest.MonkeyPatch, **odds: float) -> list[int]:
    """Let the close look give these log odds for glyphs and -8 for all else; say how many pictures it was given."""
    given: list[int] = []

    def looked(pictures: Windows) -> Odds:
        given.append(len(pictures))
        out = np.full((len(pictures), len(GLYPHS) + 3), -8.0, np.float32)
        for name, value in odds.items():
            out[:, GLYPHS.index(name.replace("_", "-"))] = value
        return out

    monkeypatch.setattr(closely, "close_odds", looked)
    return given


def test_a_picture_has_its_place_in_the_middle_and_a_usual_mark_of_24_pixels() -> None:
    pixels = WHITE.copy()
    pixels[400:460, 300:360] = 0  # a square of 60 pixels about (329.5, 429.5)
    (cut,) = windows(pixels, BOX, np.array([[329.5, 429.5]]), 60.0)
    dark = np.argwhere(cut[:, :, 0] < 128)
    assert cut.shape == (SIDE, SIDE, 3)
    assert dark.mean(axis=0) == pytest.approx(((SIDE - 1) / 2, (SIDE - 1) / 2), abs=0.6)
    assert np.ptp(dark[:, 0]) + 1 == pytest.approx(USUAL_PX, abs=1)


def test_a_place_at_the_edge_of_the_sheet_has_white_beyond_it() -> None:
    (cut,) = windows(np.zeros_like(WHITE), BOX, np.array([[0.0, 450.0]]), 60.0)
    assert cut[SIDE // 2, 5].min() == 255
    assert cut[SIDE // 2, SIDE - 5].max() == 0


def test_a_close_look_that_agrees_raises_a_score_and_one_that_does_not_lowers_it(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    with_odds(monkeypatch, circle=6.0)
    (circle,) = looked_closely(WHITE, BOX, (sight("circle", 0.6),))
    (cross,) = looked_closely(WHITE, BOX, (sight("cross", 0.6),))
    assert cross.score < 0.6 < circle.score
    assert (cross.striking, circle.striking) == (0.6, circle.score)  # what is no mark is ink all the same
    assert max(circle.arrows) < 0.2  # the close look sees no arrow
    assert dict(cross.rivals)["circle"] > 0.12  # it alone sees a circle there


def test_what_neither_look_believes_is_left_out(monkeypatch: pytest.MonkeyPatch) -> None:
    with_odds(monkeypatch)
    assert looked_closely(WHITE, BOX, (sight("circle", 0.13),)) == ()


def test_marks_at_one_place_are_looked_at_once(monkeypatch: pytest.MonkeyPatch) -> None:
    given = with_odds(monkeypatch, circle=4.0, cross=4.0)
    marks = (sight("circle", 0.7, ("cross", 0.6)), sight("cross", 0.6, ("circle", 0.7)), sight("cross", 0.7, hz=2000))
    assert len(looked_closely(WHITE, BOX, marks)) == 3
    assert given == [2]


def test_a_chart_without_marks_is_not_looked_at(monkeypatch: pytest.MonkeyPatch) -> None:
    given = with_odds(monkeypatch)
    assert looked_closely(WHITE, BOX, ()) == ()
    assert given == []


def test_weights_of_both_looks_are_fitted_and_positive() -> None:
    for one in (trust().glyph, trust().arrow):
        assert 0 < one.close < one.whole < 1
        assert one.together(0.5, -3.0) < one.together(0.5, 3.0)


def test_a_usual_mark_is_told_by_the_clear_ones() -> None:
    assert usual_size(tuple(sight("circle", 0.8, hz=hz) for hz in (500, 1000))) is None
    assert usual_size(tuple(sight("circle", 0.8, hz=hz) for hz in (500, 1000, 2000))) == pytest.approx(14)


def test_the_network_sees_what_the_painter_drew() -> None:
    # truth: the painter's own marks of a training family, at their true places
    page = paint("single", 4)
    pixels = render(page.pdf, 200)
    high, wide = pixels.shape[:2]
    marks = [m for m in page.marks if m.arrow is None]
    places = np.array([(m.at[0] * wide - 0.5, m.at[1] * high - 0.5) for m in marks])
    size = float(np.median([max(m.size[0] * wide, m.size[1] * high) for m in marks]))
    odds = closely.close_odds(windows(pixels, (0.0, 0.0, wide - 1.0, high - 1.0), places, size))
    right = [float(row[GLYPHS.index(m.glyph)]) > 0 for row, m in zip(odds, marks, strict=True)]
    assert len(right) > 8
    assert sum(right) >= 0.9 * len(right)


def test_more_places_than_are_looked_at_together_are_all_seen() -> None:
    pictures = np.random.default_rng(3).integers(0, 256, (closely.AT_ONCE + 3, SIDE, SIDE, 3), np.uint8)
    odds = closely.close_odds(pictures)
    assert odds[-1] == pytest.approx(closely.close_odds(pictures[-1:])[0], abs=1e-3)
    assert odds[0] == pytest.approx(closely.close_odds(pictures[:1])[0], abs=1e-3)
