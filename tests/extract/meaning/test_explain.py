"""From marks on charts made by hand to thresholds and their reasons to ask."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from by_hand import SIZE, chart, mark, row, sheet, word, x_of, y_of

from octavo.extract.chart import Mark, MeasuredChart, OneEar
from octavo.extract.choices import Choices
from octavo.extract.meaning import Reading, mean
from octavo.interpret.record import TakenBy, Threshold
from octavo.interpret.symbols import SYMBOL_SETS, Glyph, Ink

RIGHT = row("circle", {250: 10, 500: 15, 1000: 20, 2000: 40, 4000: 60, 8000: 65}, "red")
LEFT = row("cross", {250: 5, 500: 10, 1000: 15, 2000: 30, 4000: 45, 8000: 50}, "blue")


def read(*marks: Mark, symbols: str | None = None, taken_by: TakenBy = "scan", doubts: tuple[str, ...] = ()) -> Reading:
    return mean(sheet(taken_by), (), (chart(*marks, doubts=doubts),), Choices(symbols))


def thresholds(*marks: Mark, symbols: str | None = None) -> tuple[Threshold, ...]:
    return tuple(t for a in read(*marks, symbols=symbols).audiograms for t in a.thresholds)


def what(t: Threshold) -> tuple[object, ...]:
    return t.ear, t.conduction, t.masked, t.frequency_hz, t.level_db_hl, t.response


def at(found: tuple[Threshold, ...], hz: float, level: float) -> Threshold:
    (one,) = [t for t in found if (t.frequency_hz, t.level_db_hl) == (hz, level)]
    return one


def test_clear_circles_and_crosses_are_sure_and_stand_where_they_were_seen() -> None:
    found = thresholds(*RIGHT, *LEFT)
    assert [t.standing for t in found] == ["sure"] * 12
    assert {what(t) for t in found} == {
        *(("right", "air", False, m.frequency_hz, m.level_db_hl, True) for m in RIGHT),
        *(("left", "air", False, m.frequency_hz, m.level_db_hl, True) for m in LEFT),
    }
    seen = at(found, 2000, 40).seen
    assert seen is not None
    assert seen.at == pytest.approx(((x_of(2000) + 0.5) / SIZE[0], (y_of(40) + 0.5) / SIZE[1]))
    assert (seen.frequency_hz, seen.level_db_hl) == pytest.approx((2000, 40), abs=0.1)


def test_worked_case_a_a_red_angle_to_the_left_is_the_right_bone_under_asha() -> None:
    # references.md section 2, worked case (a): red `<` 0.1 octave left of 1000 Hz at 20 dB
    angle = mark("angle-left", 1000, 20, "red", beside=-0.1)
    (one,) = [t for t in thresholds(*RIGHT, *LEFT, angle, symbols="asha-1990") if t.conduction == "bone"]
    assert what(one) == ("right", "bone", False, 1000, 20, True)


def test_worked_case_a_the_same_shape_in_blue_is_the_left_bone_under_the_leaflet() -> None:
    angles = row("angle-left", {500: 10, 1000: 20, 2000: 25}, "blue", beside=-0.1)
    found = [t for t in thresholds(*RIGHT, *LEFT, *angles) if t.conduction == "bone"]
    assert {what(t)[:3] for t in found} == {("left", "bone", False)}


def test_a_red_angle_to_the_right_is_the_right_bone_under_the_leaflet() -> None:
    angles = row("angle-right", {500: 10, 1000: 20, 2000: 25}, "red")
    found = [t for t in thresholds(*RIGHT, *LEFT, *angles, symbols="leaflet-de") if t.conduction == "bone"]
    assert {what(t)[:3] for t in found} == {("right", "bone", False)}
    assert {t.frequency_hz for t in found} == {500, 1000, 2000}


def test_worked_case_b_a_red_triangle_without_a_key_asks() -> None:
    one = at(thresholds(*RIGHT, *LEFT, mark("triangle", 2000, 60, "red")), 2000, 60)
    assert one.standing == "ask"
    assert "symbol-set-unknown" in one.why_ask


@pytest.mark.parametrize(
    ("symbols", "meaning"), [("asha-1990", ("right", "air", True)), ("bsa-2018", ("right", "bone", False))]
)
def test_worked_case_b_the_named_set_settles_the_triangle(symbols: str, meaning: tuple[object, ...]) -> None:
    one = at(thresholds(*RIGHT, *LEFT, mark("triangle", 2000, 60, "red"), symbols=symbols), 2000, 60)
    assert what(one)[:3] == meaning
    assert "symbol-set-unknown" not in one.why_ask


def test_worked_case_c_an_arrow_down_left_from_a_circle_is_right_air_without_response() -> None:
    lost = mark("circle", 4000, 110, "red", arrows=(0.97, 0.01, 0.01))
    one = at(thresholds(*RIGHT[:4], *LEFT, lost), 4000, 110)
    assert what(one) == ("right", "air", False, 4000, 110, False)
    assert "arrow-uncertain" not in one.why_ask


@pytest.mark.parametrize("off", [2.0, 2.5, -2.3])
def test_a_mark_between_two_steps_asks(off: float) -> None:
    found = thresholds(*RIGHT[:5], *LEFT, mark("circle", 8000, 65 + off, "red"))
    (one,) = [t for t in found if t.ear == "right" and t.frequency_hz == 8000]
    assert one.standing == "ask"
    assert "between-steps" in one.why_ask


def test_a_level_is_read_to_its_nearest_step() -> None:
    found = thresholds(*RIGHT[:5], *LEFT, mark("circle", 8000, 66.2, "red"))
    assert at(found, 8000, 65).ear == "right"


def test_a_chart_whose_marks_all_lie_a_little_low_together_is_read_by_their_common_steps() -> None:
    lowered = [replace(m, level_db_hl=m.level_db_hl + 1.2) for m in (*RIGHT, *LEFT)]
    found = thresholds(*lowered)
    assert {what(t) for t in found} == {what(t) for t in thresholds(*RIGHT, *LEFT)}


def test_a_mark_between_two_frequencies_asks() -> None:
    found = thresholds(*RIGHT[2:], *LEFT, mark("circle", 250 * math.sqrt(2), 30, "red"))
    (one,) = [t for t in found if t.level_db_hl == 30 and t.ear == "right"]
    assert "frequency-uncertain" in one.why_ask


def test_two_marks_of_one_kind_at_one_frequency_are_asked_about() -> None:
    found = thresholds(*RIGHT, *LEFT, mark("circle", 1000, 45, "red"))
    right = [t for t in found if t.ear == "right" and t.frequency_hz == 1000]
    assert right
    assert all(t.standing == "ask" and "two-readings" in t.why_ask for t in right)


def test_a_mark_that_may_as_well_be_its_filled_twin_asks() -> None:
    doubtful = mark("circle", 8000, 65, "red", score=0.6, rivals=(("circle-filled", 0.55),))
    found = at(thresholds(*RIGHT[:5], *LEFT, doubtful), 8000, 65)
    assert "two-readings" in found.why_ask


def test_a_circle_in_the_left_ears_colour_asks() -> None:
    found = at(thresholds(*RIGHT[:5], *LEFT, mark("circle", 8000, 65, "blue")), 8000, 65)
    assert found.standing == "ask"
    assert "colour-and-shape-differ" in found.why_ask


def test_a_cross_drawn_inside_a_circle_gives_both_ears_the_level_without_a_doubt_of_colour() -> None:
    # ASHA 1990: if both air marks fall together the X is drawn inside the circle
    found = thresholds(*RIGHT[:5], *LEFT[:5], mark("circle", 8000, 70, "red"), mark("cross", 8000, 70, "blue"))
    pair = [t for t in found if t.frequency_hz == 8000]
    assert {(t.ear, t.level_db_hl) for t in pair} == {("right", 70), ("left", 70)}
    assert not any("colour-and-shape-differ" in t.why_ask for t in pair)


BLACK_AIR = (*row("circle", {500: 20, 1000: 30}), *row("cross", {500: 25, 1000: 35}))


def test_a_black_triangle_for_bone_names_no_ear_and_the_page_says_that_colour_may_be_lost() -> None:
    # BSA 2018: the unmasked bone mark names no ear but by its colour
    reading = read(*BLACK_AIR, mark("triangle", 500, 5), mark("triangle", 1000, 10), symbols="bsa-2018")
    bone = [t for a in reading.audiograms for t in a.thresholds if t.conduction == "bone"]
    assert [(t.ear, t.standing) for t in bone] == [("unspecified", "sure")] * 2
    assert ("unspecified", "bone") in {(r.ear, r.conduction) for r in reading.remarks if r.code == "missing-expected"}


def test_black_triangles_of_which_two_stand_at_one_frequency_lost_their_ears_colour_and_ask() -> None:
    triangles = (mark("triangle", 500, 5), mark("triangle", 1000, 10), mark("triangle", 1000, 40))
    found = thresholds(*BLACK_AIR, *triangles, symbols="bsa-2018")
    bone = [t for t in found if t.conduction == "bone"]
    assert len(bone) == 3
    assert all("ear-uncertain" in t.why_ask for t in bone)


def test_a_triangle_for_bone_without_ink_on_a_photo_asks() -> None:
    reading = read(*BLACK_AIR, mark("triangle", 1000, 10), symbols="bsa-2018", taken_by="photo")
    assert "ear-uncertain" in at(reading.audiograms[0].thresholds, 1000, 10).why_ask


def test_a_triangle_for_bone_on_a_chart_of_one_ear_is_that_ears() -> None:
    marks = (*row("circle", {500: 20, 1000: 30}), mark("triangle", 1000, 10))
    assert at(thresholds(*marks, symbols="bsa-2018"), 1000, 10).ear == "right"


def test_a_chart_whose_axis_is_in_doubt_has_no_sure_value() -> None:
    found = read(*RIGHT, *LEFT, doubts=("axis-uncertain",)).audiograms[0].thresholds
    assert all(t.standing == "ask" and "axis-uncertain" in t.why_ask for t in found)


def test_a_mark_that_the_set_does_not_know_is_never_sure() -> None:
    found = thresholds(*RIGHT, *LEFT, mark("square", 1000, 60, "blue"), symbols="jis-t-1201")
    assert all(t.standing == "ask" for t in found if t.level_db_hl == 60 and t.frequency_hz == 1000)


def test_a_gap_in_a_row_is_named_as_possibly_missing() -> None:
    reading = read(*(m for m in RIGHT if m.frequency_hz != 1000), *(m for m in LEFT if m.frequency_hz != 1000))
    named = {(r.code, r.ear, r.frequency_hz) for r in reading.remarks}
    assert named == {("missing-expected", "right", 1000), ("missing-expected", "left", 1000)}


def test_no_mark_of_a_clear_row_is_named_as_missing() -> None:
    assert read(*RIGHT, *LEFT).remarks == ()


def test_a_weak_mark_where_a_strong_one_was_read_is_no_missing_one() -> None:
    # strokes that cross give weak peaks of other shapes at the same place
    assert read(*RIGHT, *LEFT, mark("cross", 1000, 20, score=0.2), mark("caret", 3000, 60, score=0.2)).remarks == ()


def test_a_weak_mark_of_a_shape_that_the_chart_holds_may_be_a_missing_one() -> None:
    remarks = read(*RIGHT, *LEFT, mark("cross", 3000, 40, score=0.2)).remarks
    assert {(r.code, r.ear) for r in remarks} == {("missing-expected", "left")}


def test_the_mark_that_yields_its_slot_to_a_stronger_one_is_named_as_possibly_missing() -> None:
    remarks = read(*RIGHT, *LEFT, mark("circle", 1000, 45, "red", score=0.9)).remarks
    assert {(r.code, r.ear, r.conduction) for r in remarks} == {("missing-expected", "right", "air")}


def test_the_other_ears_mark_may_lie_beneath_one_whose_ear_only_ink_names() -> None:
    # the BSA triangle of either ear: red and blue at one place look like one mark of mixed ink
    triangle = mark("triangle", 1000, 10, "blue")
    mixed = replace(triangle, sight=replace(triangle.sight, red=0.4))
    bone = [mark("triangle", hz, 10, "blue") for hz in (500, 2000, 4000)]
    remarks = read(*RIGHT, *LEFT, *bone, mixed, symbols="bsa-2018").remarks
    assert {(r.ear, r.conduction) for r in remarks} == {("right", "bone"), ("unspecified", "bone")}


def test_a_faint_mark_asks() -> None:
    found = at(thresholds(*RIGHT[:5], *LEFT, mark("circle", 8000, 65, "red", score=0.5)), 8000, 65)
    assert found.standing == "ask"
    assert "faint" in found.why_ask


def test_a_middling_mark_that_a_stronger_shape_outshines_at_its_place_asks() -> None:
    # a filled cross and a filled circle together look like a circle and a plain cross; seen on a fax
    outshone = mark("cross", 8000, 50, "blue", score=0.63, rivals=(("circle", 0.7),))
    assert "marks-overlap" in at(thresholds(*RIGHT, *LEFT[:5], outshone), 8000, 50).why_ask


@pytest.mark.parametrize(("off", "standing"), [(1.4, "ask"), (0.4, "sure")])
def test_overlapping_marks_that_both_miss_their_steps_may_have_swapped_them(off: float, standing: str) -> None:
    # drawn a step apart, each may be read as standing at the other's step
    pair = (mark("circle", 8000, 60 + off, "red"), mark("cross", 8000, 65 - off, "blue"))
    found = [t for t in thresholds(*RIGHT[:5], *LEFT[:5], *pair) if t.frequency_hz == 8000]
    assert [t.standing for t in found] == [standing] * 2


def test_bone_far_worse_than_the_same_ears_air_asks() -> None:
    # trade rule: bone worse than air by more than test and retest is shown, never repaired
    angles = (
        *row("angle-left", {500: 15, 2000: 30}, "red", beside=-0.1),
        mark("angle-left", 1000, 45, "red", beside=-0.1),
    )
    bone = {t.frequency_hz: t for t in thresholds(*RIGHT, *LEFT, *angles) if t.conduction == "bone"}
    assert {hz: "implausible" in t.why_ask for hz, t in bone.items()} == {500: False, 1000: True, 2000: False}


def test_angle_marks_without_ink_ask_until_another_mark_of_asha_tells_their_ear() -> None:
    # references.md section 2, marks whose meaning changes, no. 2: without colour the shape alone names no ear
    grey = (*row("circle", {500: 20, 1000: 30, 2000: 30}), *row("cross", {500: 25, 1000: 35, 2000: 35}))
    angles = row("angle-left", {500: 15, 1000: 20, 2000: 20}, beside=-0.14)
    masked = row("square", {500: 45, 1000: 50, 2000: 50})
    for others, open_there in (((), True), (masked, False)):
        bone = [t for t in thresholds(*grey, *angles, *others) if t.conduction == "bone"]
        assert len(bone) == 3
        assert all(("symbol-set-unknown" in t.why_ask) == open_there for t in bone)


def test_a_chart_without_marks_has_no_thresholds() -> None:
    assert [a.thresholds for a in read().audiograms] == [()]


@pytest.mark.parametrize("set_id", sorted(SYMBOL_SETS))
def test_every_mark_of_a_named_set_gets_the_meaning_that_the_set_gives_it(set_id: str) -> None:
    for glyph, meaning in SYMBOL_SETS[set_id].meanings.items():
        ink = "red" if meaning.ear in ("right", "by-colour") else "blue" if meaning.ear == "left" else "neutral"
        (one,) = thresholds(mark(glyph, 1000, 40, ink), symbols=set_id)
        wanted = "right" if meaning.ear == "by-colour" else meaning.ear
        assert (one.ear, one.conduction, one.masked) == (wanted, meaning.conduction, meaning.masked)
        assert (one.aided, one.measure) == (meaning.aided, meaning.measure)
        assert (one.frequency_hz, one.level_db_hl) == (1000, 40)


def with_labels(low: float, high: float, step: float, row_db: float | None = None) -> MeasuredChart:
    """Make a chart with a mark each 5 dB, whose levels are printed from low to high in steps."""
    marks = [mark("circle", 1000, level, "red") for level in range(-20, 141, 5)]
    scale = replace(chart().level, printed=(low, high), levels_read=round((high - low) / step) + 1)
    return replace(chart(*marks), level=scale, row_db=row_db)


def certain_levels(made: MeasuredChart) -> tuple[float, float]:
    """Give the outermost levels that do not ask for their axis, each mark read by itself."""
    found: list[float] = []
    for one in made.marks:
        (t,) = mean(sheet(), (), (replace(made, marks=(one,)),), Choices()).audiograms[0].thresholds
        found += [t.level_db_hl] if "axis-uncertain" not in t.why_ask else []
    return min(found), max(found)


@pytest.mark.parametrize(("step", "room"), [(10, 5), (20, 10), (5, 0)])
def test_a_mark_up_to_half_a_label_step_beyond_the_printed_levels_stands_on_a_known_axis(
    step: float, room: float
) -> None:
    # common practice: a form prints the first and last line of its levels, and marks hang half a step over
    assert certain_levels(with_labels(0, 100, step)) == (0 - room, 100 + room)


@pytest.mark.parametrize(
    ("row_db", "reach"), [(120.0, (-5, 120)), (-20.0, (-20, 105)), (50.0, (-5, 105)), (None, (-5, 105))]
)
def test_the_plot_reaches_up_to_its_row_of_frequencies_and_no_farther(
    row_db: float | None, reach: tuple[float, float]
) -> None:
    assert certain_levels(with_labels(0, 100, 10, row_db)) == reach


def letter_under(text: str | None) -> tuple[Reading, list[Threshold]]:
    """Read a letter S at 3000 Hz and 30 dB over which a word was read."""
    words = () if text is None else (word(text, x_of(3000) + 5, y_of(30)),)
    marks = (*RIGHT, *LEFT, mark("letter-s", 3000, 30))
    reading = mean(sheet(words=words), (), (chart(*marks),), Choices())
    return reading, [t for t in reading.audiograms[0].thresholds if t.conduction == "field"]


@pytest.mark.parametrize("text", ["loss", "Speech", "dBs"])
def test_a_letter_inside_a_word_is_no_mark_and_nothing_to_tell(text: str) -> None:
    reading, found = letter_under(text)
    assert found == []
    assert reading.remarks == ()


@pytest.mark.parametrize("text", [None, "S", "SA"])
def test_a_lone_letter_is_a_mark(text: str | None) -> None:
    # ASHA 1990: S is a threshold in the sound field
    assert [(t.frequency_hz, t.level_db_hl) for t in letter_under(text)[1]] == [(3000, 30)]


def test_a_mark_that_is_no_letter_stays_though_a_word_was_read_over_it() -> None:
    words = (word("XOX", x_of(1000), y_of(20)),)
    found = mean(sheet(words=words), (), (chart(*RIGHT, *LEFT),), Choices()).audiograms[0].thresholds
    assert {what(t) for t in found} == {what(t) for t in thresholds(*RIGHT, *LEFT)}


@pytest.mark.parametrize(
    ("plain", "masked", "ink"),
    [("circle", "triangle", "red"), ("cross", "square", "blue"), ("angle-left", "bracket-left", "red")],
)
@pytest.mark.parametrize(("better", "asks"), [(15, True), (10, False), (-15, False)])
def test_masked_values_better_than_the_same_ears_unmasked_ask(
    plain: Glyph, masked: Glyph, ink: Ink, better: float, asks: bool
) -> None:
    # noise in the other ear makes no threshold better, but for test and retest, 10 dB (common practice)
    pair = (mark(plain, 1000, 50, ink), mark(masked, 1000, 50 - better, ink))
    found = thresholds(*pair, mark(masked, 2000, 20, ink), symbols="asha-1990")
    assert [(t.masked, "implausible" in t.why_ask) for t in found if t.frequency_hz == 1000] == [
        (False, False), (True, asks),
    ]  # fmt: skip
    assert all("implausible" not in t.why_ask for t in found if t.frequency_hz == 2000)


def test_masked_values_are_held_against_their_own_ear_and_conduction_alone() -> None:
    # the right ear's air and the left ear's bone are both worse, and say nothing of the left ear's masked air
    others = (mark("circle", 1000, 90, "red"), mark("angle-right", 1000, 80, "blue"))
    found = thresholds(*others, mark("cross", 1000, 20, "blue"), mark("square", 1000, 30, "blue"), symbols="asha-1990")
    assert ["implausible" in t.why_ask for t in found if t.masked] == [False]


@pytest.mark.parametrize(("taken_by", "titled", "standing"), [
    ("scan", None, "ask"), ("scan", "left", "ask"), ("scan", "right", "sure"), ("drawn", None, "sure"),
])  # fmt: skip
def test_a_loudness_mark_without_ink_on_a_chart_of_one_ear_asks_where_neither_colour_nor_a_title_tells(
    taken_by: TakenBy, titled: OneEar | None, standing: str
) -> None:
    circles = row("circle", {250: 20, 500: 20, 1000: 30, 2000: 40, 4000: 50, 8000: 50})
    letters = row("letter-m", {500: 60, 1000: 65, 2000: 70})
    one = replace(chart(*circles, *letters), titled=titled)
    reading = mean(sheet(taken_by), (), (one,), Choices(symbols="asha-1990"))
    loud = [t for t in reading.audiograms[0].thresholds if t.measure == "mcl"]
    assert {(t.ear, t.standing) for t in loud} == {("right", standing)}


def test_a_chart_whose_marks_stand_off_their_lines_is_in_doubt_as_a_whole() -> None:
    off = [mark("circle", hz, 20, "red", beside=0.3) for hz in (500, 1000, 2000)]
    found = thresholds(*off, mark("circle", 4000, 20, "red"), mark("circle", 250, 20, "red"))
    assert all("axis-uncertain" in t.why_ask for t in found)


def test_bone_is_named_as_missing_where_a_square_may_be_two_brackets() -> None:
    # `[` and `]` at one level, JIS T 1201's bone of both ears
    sides = (
        mark("bracket-left", 1000, 20, beside=-0.03, score=0.2),
        mark("bracket-right", 1000, 20, beside=0.03, score=0.2),
    )
    brackets = (mark("bracket-left", 2000, 30, beside=-0.1), mark("bracket-right", 2000, 30, beside=0.1))
    reading = read(*RIGHT, *LEFT, mark("square", 1000, 20), *sides, *brackets)
    missing = {(r.ear, r.conduction) for r in reading.remarks if r.code == "missing-expected"}
    assert {("right", "bone"), ("left", "bone")} <= missing


def test_a_chart_that_is_cut_off_names_every_row_as_missing_and_leaves_its_values_sure() -> None:
    reading = mean(sheet(), (), (replace(chart(*RIGHT, *LEFT), cut_off=True),), Choices())
    missing = {(r.ear, r.conduction) for r in reading.remarks if r.code == "missing-expected"}
    assert {("right", "air"), ("left", "air"), ("right", "bone"), ("left", "bone")} <= missing
    assert {t.standing for t in reading.audiograms[0].thresholds} == {"sure"}
