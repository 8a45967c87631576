"""Pages covered: painted ones, whose truth says where identifiers stand, and ones with writing where it must not be."""

from __future__ import annotations

from dataclasses import replace

import cv2
import numpy as np
import pytest

from octavo.extract.blank import BlankedPage, Told, blank_page
from octavo.extract.blank import again as second_look
from octavo.extract.choices import Choices
from octavo.extract.eyes import see
from octavo.extract.measure import measure
from octavo.extract.page import Page, Pixels
from octavo.extract.road import read_page
from octavo.extract.straighten import straighten
from octavo.interpret.errors import MissingProgram
from octavo.interpret.record import Source
from octavo.tools.painter import paint, render
from octavo.tools.painter.spoiling import shown, spoil

DPI = 200
IDENTIFYING = frozenset(
    {"patient-name", "record-number", "birth-date", "test-date", "test-time", "tester", "place", "audiometer",
     "calibration-date", "reason", "note"}
)  # fmt: skip


def page_of(pixels: Pixels) -> Page:
    rgb = pixels if pixels.ndim == 3 else np.repeat(pixels[:, :, None], 3, axis=2)
    return Page(Source("page.png", "5e" * 32, 1, 1, "scan"), np.ascontiguousarray(rgb), float(DPI))


def blanked(page: Page, told: Told | None = None) -> BlankedPage:
    sheet = straighten(page)
    return blank_page(page, sheet, measure(sheet, see(sheet)), Choices(), told)


def rendered(family: str, seed: int) -> Pixels:
    return np.array(render(paint(family, seed).pdf, DPI))


def written(page: Page, text: str, at: tuple[int, int]) -> Page:
    pixels = page.pixels.copy()
    cv2.putText(pixels, text, at, cv2.FONT_HERSHEY_SIMPLEX, 1.2, (20, 20, 20), 2, cv2.LINE_AA)
    return replace(page, pixels=pixels)


def box_of(page: Page, box: tuple[float, float, float, float]) -> tuple[slice, slice]:
    height, width = page.pixels.shape[:2]
    left, top, right, bottom = np.round(np.array(box) * (width, height, width, height)).astype(int)
    return slice(top, bottom), slice(left, right)


@pytest.mark.parametrize(("family", "kind"), [("fact-lines", "scan"), ("fact-lines", "photo"), ("fact-words", "scan")])
def test_every_identifier_of_a_painted_page_is_covered_or_the_page_refused(family: str, kind: str) -> None:
    painted = paint(family, 11)
    spoiled = spoil(render(painted.pdf, DPI), kind, 11, dpi=DPI)
    page = page_of(np.asarray(spoiled.pixels))
    found = blanked(page)
    facts = [fact for fact in shown(painted, spoiled).record.report.facts if fact.name in IDENTIFYING]
    assert len(facts) > 4
    for fact in facts:
        assert fact.box is not None
        there = box_of(page, fact.box)
        ink = page.pixels[there].min(axis=2) < np.percentile(page.pixels[there].min(axis=2), 90) - 60
        assert found.doubts or found.covered[there][ink].mean() > 0.99, fact.name


def test_covered_pixels_are_black_and_the_rest_holds_no_faint_print() -> None:
    pixels = rendered("single", 3)
    cv2.putText(
        pixels, "ghost of the back", (100, pixels.shape[0] - 200), cv2.FONT_HERSHEY_SIMPLEX, 2, (246, 247, 246), 3
    )
    found = blanked(page_of(pixels))
    corner = found.pixels[-320:-150, 80:900].astype(int)
    assert np.ptp(corner.reshape(-1, 3), axis=0).max() <= 4 or (corner == 0).all(axis=2).any()
    assert (found.pixels[found.covered].max(axis=1) <= 0).mean() > 0.95


def test_a_covered_chart_gives_nearly_all_values_that_it_gave_before() -> None:
    page = page_of(rendered("small", 2))
    found = blanked(page)
    before, after = (
        {
            (t.ear, t.conduction, t.frequency_hz, t.level_db_hl)
            for audiogram in read_page(one, Choices(report=False)).audiograms
            for t in audiogram.thresholds
        }
        for one in (page, replace(page, pixels=found.pixels))
    )
    assert found.doubts == ()
    assert len(before) > 5
    # Arrows and labels that run into each other beyond the axes may be covered.
    assert len(before ^ after) <= 0.1 * len(before)


def test_a_name_within_a_plot_is_refused_and_can_be_named_to_be_covered() -> None:
    page = page_of(rendered("single", 3))
    sheet = straighten(page)
    left, top, right, bottom = (round(v) for v in measure(sheet, see(sheet))[0].box)
    at = ((left + right) // 2 - 150, bottom - (bottom - top) // 4)
    page = written(page, "Kira Brandt", at)
    found = blanked(page)
    assert found.doubts
    height, width = page.pixels.shape[:2]
    for doubt in found.doubts:
        assert "Kira" not in doubt.what
        assert abs(doubt.box[1] * height - at[1]) < 80
    area = (at[0] / width - 0.05, at[1] / height - 0.06, at[0] / width + 0.4, at[1] / height + 0.05)
    told = blanked(page, Told(also=(area,)))
    assert told.doubts == ()
    assert told.covered[at[1] - 20 : at[1], at[0] : at[0] + 200].all()


@pytest.mark.parametrize("quarters", [1, 2])
def test_a_page_on_its_side_or_head_is_covered_as_displayed(quarters: int) -> None:
    painted = paint("fact-lines", 11)
    upright = page_of(np.array(render(painted.pdf, DPI)))
    page = replace(upright, pixels=np.ascontiguousarray(np.rot90(upright.pixels, quarters)))
    found = blanked(page)
    back = np.rot90(found.covered, -quarters)
    for fact in painted.record.report.facts:
        if fact.name in IDENTIFYING and fact.box is not None:
            there = box_of(upright, fact.box)
            ink = upright.pixels[there].min(axis=2) < 120
            assert back[there][ink].mean() > 0.99, fact.name


def test_a_name_beside_the_plot_within_reach_of_its_marks_is_covered() -> None:
    page = page_of(rendered("single", 3))
    sheet = straighten(page)
    chart = measure(sheet, see(sheet))[0]
    x, y = round(chart.frequency.anchors[-1][1] + 20), round(chart.level.zero_px + 300)
    before = page.pixels
    page = written(page, "Brandt", (x, y))
    ink = (page.pixels.astype(int) - before).min(axis=2) < -100
    found = blanked(page)
    assert found.doubts or found.covered[ink].mean() > 0.99


def test_an_identifier_that_was_read_is_covered_and_within_a_chart_doubted() -> None:
    page = page_of(rendered("single", 3))
    corner = (0.05, 0.93, 0.3, 0.95)
    found = blanked(page, Told(identifiers=(corner,)))
    assert found.covered[box_of(page, corner)].all()
    sheet = straighten(page)
    left, top, right, bottom = measure(sheet, see(sheet))[0].box
    height, width = page.pixels.shape[:2]
    inside = ((left + right) / 2 / width, (top + bottom) / 2 / height)
    (doubt,) = blanked(page, Told(identifiers=((*inside, inside[0] + 0.05, inside[1] + 0.01),))).doubts
    assert doubt.what == "what was read as an identifier"


def test_without_text_recognition_nothing_is_given(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(second_look, "read_strip", lambda *_, **__: None)
    with pytest.raises(MissingProgram, match="text recognition failed, and nothing can be blanked without it"):
        blanked(page_of(rendered("single", 3)))
