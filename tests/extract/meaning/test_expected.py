"""What is missing from a row of marks, or too weak to be one."""

from __future__ import annotations

from dataclasses import replace

import pytest
from by_hand import OCTAVES, SIZE, chart, frequency_scale, frequency_words, mark, sheet, word, x_of, y_of

from octavo.extract.chart import Mark
from octavo.extract.choices import Choices
from octavo.extract.meaning import mean
from octavo.extract.meaning.expected import aided_beneath, axis_goes_on, doubtful_beyond, gaps, weak_marks
from octavo.extract.meaning.symbols.convention import Convention
from octavo.interpret.record import Conduction, Ear, Measure, Seen, Threshold
from octavo.interpret.symbols import SYMBOL_SETS

ASHA = Convention(SYMBOL_SETS["asha-1990"], frozenset(), False)
BSA = Convention(SYMBOL_SETS["bsa-2018"], frozenset(), False)


def row_of(
    ear: Ear, *frequencies: float, conduction: Conduction = "air", masked: bool = False, measure: Measure = "threshold"
) -> tuple[Threshold, ...]:
    return tuple(
        Threshold(ear, conduction, masked, float(hz), 30.0, measure=measure) for hz in frequencies
    )  # fmt: skip


def both(*frequencies: float) -> tuple[Threshold, ...]:
    return row_of("right", *frequencies) + row_of("left", *frequencies)


def named(thresholds: tuple[Threshold, ...], printed: tuple[float, ...] = OCTAVES) -> set[tuple[object, ...]]:
    remarks = gaps(thresholds, (frequency_scale(printed),))
    assert all(r.code == "missing-expected" for r in remarks)
    return {(r.ear, r.conduction, r.frequency_hz) for r in remarks}


WHOLE = both(250, 500, 1000, 2000, 4000, 8000)


def test_nothing_is_missing_from_whole_rows() -> None:
    # ASHA 2005: 750, 1500, 3000 and 6000 Hz as needed, so they are not expected of themselves
    assert named(WHOLE) == set()


def test_an_octave_left_out_by_both_ears_may_be_missing() -> None:
    assert named(both(250, 500, 2000, 4000, 8000)) == {("right", "air", 1000), ("left", "air", 1000)}


@pytest.mark.parametrize("hz", [250, 8000])
def test_a_row_that_ends_before_the_printed_octaves_do_may_lack_a_mark(hz: float) -> None:
    shorter = tuple(t for t in WHOLE if t.frequency_hz != hz)
    assert named(shorter) == {("right", "air", hz), ("left", "air", hz)}


def test_what_the_form_does_not_print_is_not_expected_at_the_ends() -> None:
    assert named(both(500, 1000, 2000, 4000), (500, 1000, 2000, 4000)) == set()


def test_an_axis_of_which_only_a_part_was_read_lacks_the_octaves_of_speech() -> None:
    # any audiogram holds 500 to 4000 Hz; seen where an axis was read as ending at 1000 Hz
    assert ("right", "air", 4000) in named(both(250, 500, 1000), (250, 500, 1000))


def test_the_last_extended_frequency_may_be_missing_where_others_were_tested() -> None:
    high = (*OCTAVES, 10000, 12500, 16000)
    lacking = both(250, 500, 1000, 2000, 4000, 8000, 10000, 12500)
    assert named(lacking, high) == {("right", "air", 16000), ("left", "air", 16000)}


def test_where_nothing_was_read_at_the_printed_extended_frequencies_the_first_is_named() -> None:
    assert named(WHOLE, (*OCTAVES, 10000, 12500)) == {("right", "air", 10000), ("left", "air", 10000)}


def test_what_only_the_other_ear_has_may_be_missing() -> None:
    assert named(WHOLE + row_of("right", 3000)) == {("left", "air", 3000)}


def test_an_ear_without_any_air_mark_may_have_been_missed_whole() -> None:
    missing = named(row_of("right", 250, 500, 1000, 2000, 4000, 8000))
    # a copy that has lost its air, in a pale ink, has lost its bone too
    assert {(ear, conduction) for ear, conduction, _ in missing} == {("left", "air"), ("left", "bone")}


def test_the_bone_of_an_ear_of_whose_air_most_is_missing_may_be_missing_too() -> None:
    right = row_of("right", 250, 500, 1000, 2000, 4000, 8000)
    assert ("left", "bone", None) in named(right)
    assert ("left", "bone", None) in named(right + row_of("left", 1000, 2000))
    assert ("left", "bone", None) not in named(right + row_of("left", 250, 500, 1000, 2000))


def test_bone_marks_from_most_of_which_something_hangs_may_hide_others() -> None:
    asked = tuple(replace(t, why_ask=("arrow-uncertain",)) for t in row_of("left", 500, 1000, conduction="bone"))
    plain = row_of("left", 2000, 4000, conduction="bone")
    assert ("left", "bone", None) in named(WHOLE + asked + plain[:1])
    assert ("left", "bone", None) not in named(WHOLE + asked + plain)


def test_on_a_picture_whose_ink_of_one_ear_was_lost_every_value_is_asked_for() -> None:
    # air is always tested where bone is (ASHA 2005): where only bone was read, thin strokes were lost, arrows too
    octaves = (500.0, 1000.0, 2000.0, 4000.0)
    bone = tuple(mark("angle-left", hz, 30, beside=-0.12) for hz in octaves)
    left = tuple(mark("cross", hz, 30) for hz in (250.0, *octaves, 8000.0))
    right = tuple(mark("circle", hz, 20) for hz in (250.0, *octaves, 8000.0))

    def asked(*marks: Mark) -> set[bool]:
        (audiogram,) = mean(sheet(), (), (chart(*marks),), Choices(symbols="asha-1990")).audiograms
        return {"faint" in t.why_ask for t in audiogram.thresholds}

    assert asked(*bone, *left) == {True}
    assert asked(*bone, *left, *right) == {False}


def test_an_unmasked_mark_may_lie_beneath_the_masked_one_where_a_row_has_both_elsewhere() -> None:
    both = tuple(replace(t, masked=True) for t in row_of("right", 500, 1000, 2000, 4000))
    plain = tuple(t for t in WHOLE if (t.ear, t.frequency_hz) != ("right", 4000))
    assert named(plain + both) == {("right", "air", 4000)}


@pytest.mark.parametrize(("masked", "told"), [((250, 500, 2000, 4000), {1000}), ((500, 2000, 4000), set()),
                                              ((250, 500, 1000, 2000), set())])  # fmt: skip
def test_a_masked_mark_may_lie_on_the_unmasked_one_between_others_that_have_both(
    masked: tuple[int, ...], told: set[int]
) -> None:
    # a photo's squares at 750 and 1000 Hz lay on crosses, and nothing was said of them
    assert named(WHOLE + row_of("left", *masked, masked=True)) == {("left", "air", hz) for hz in told}


def test_bone_whose_ear_is_uncertain_may_be_the_other_ear_s() -> None:
    # a red triangle on a blue one: at two frequencies the one that was seen asked, and nothing was said of the other
    right = row_of("right", 500, 1000, 2000, 4000, conduction="bone")
    doubtful = tuple(replace(t, standing="ask", why_ask=("ear-uncertain",)) for t in right[1:2])
    assert named(WHOLE + right) == set()
    assert named((*WHOLE, right[0], *doubtful, *right[2:])) == {("left", "bone", 1000)}


def test_bone_that_only_the_other_ear_has_unmasked_may_lie_beneath_it() -> None:
    # a red triangle beneath a blue one, in a row whose masked bone stands at that frequency
    right, left = (row_of(ear, 500, 1000, 2000, 4000, conduction="bone") for ear in ("right", "left"))
    masked = (replace(right[-1], masked=True), replace(left[-1], masked=True))
    assert named(WHOLE + right[:-1] + left + masked) == {("right", "bone", 4000)}


def test_air_and_bone_are_rows_of_their_own() -> None:
    assert named(WHOLE + row_of("right", 500, 1000, 2000, 4000, conduction="bone")) == set()


def test_bone_is_expected_from_500_to_4000_hz() -> None:
    # ASHA 2005: bone at octaves from 250 to 4000 Hz
    assert named(WHOLE + row_of("right", 500, 1000, 2000, conduction="bone")) == {("right", "bone", 4000)}


def test_an_octave_left_out_of_masked_bone_alone_may_be_missing() -> None:
    bone = row_of("right", 500, 1000, 2000, 4000, conduction="bone")
    masked = row_of("right", 500, 1000, 4000, conduction="bone", masked=True)
    assert named(WHOLE + bone + masked) == {("right", "bone", 2000)}


def test_a_gap_in_bone_that_names_no_ear_may_be_of_either_ear() -> None:
    missing = named(WHOLE + row_of("unspecified", 500, 1000, 4000, conduction="bone"))
    assert missing == {(ear, "bone", 2000) for ear in ("unspecified", "right", "left")}


@pytest.mark.parametrize("measure", ["ucl", "mcl"])
def test_a_loudness_level_left_out_or_of_one_ear_alone_may_be_missing(measure: Measure) -> None:
    loud = row_of("right", 500, 1000, 4000, measure=measure)
    missing = named(WHOLE + loud)
    assert ("right", "air", 2000) in missing
    assert ("left", "air", 500) in missing


def test_nothing_is_missing_where_nothing_was_read() -> None:
    assert gaps((), ()) == ()


def test_a_weak_mark_is_named_with_its_ear_conduction_and_place() -> None:
    (said,) = weak_marks(sheet(), 0, (mark("angle-left", 1000, 20),), ASHA)
    assert (said.code, said.ear, said.conduction) == ("missing-expected", "right", "bone")
    assert said.at == pytest.approx(((x_of(1000) + 0.5) / SIZE[0], (y_of(20) + 0.5) / SIZE[1]))


def test_a_weak_mark_that_may_be_of_either_ear_is_named_for_both() -> None:
    assert [r.ear for r in weak_marks(sheet(), 0, (mark("triangle", 1000, 20),), BSA)] == [
        "right",
        "left",
        "unspecified",
    ]
    assert [r.ear for r in weak_marks(sheet(), 0, (mark("triangle", 1000, 20, "blue"),), BSA)] == [
        "left",
        "unspecified",  # its ink may be that of a mark above it
    ]


def test_labels_beyond_the_last_one_read_say_that_the_axis_goes_on() -> None:
    short = replace(chart(), frequency=frequency_scale(OCTAVES[:6]))
    assert axis_goes_on(short, frequency_words())
    assert not axis_goes_on(chart(), frequency_words())
    assert not axis_goes_on(short, frequency_words(OCTAVES[:6]))


def test_numbers_beside_the_row_of_labels_are_no_labels() -> None:
    short = replace(chart(), frequency=frequency_scale(OCTAVES[:6]))
    elsewhere = word("8000", x_of(8000), y_of(40))
    assert not axis_goes_on(short, (*frequency_words(OCTAVES[:6]), elsewhere))


def test_air_may_be_missing_where_the_axis_goes_on_beyond_its_last_label_read() -> None:
    marks = [mark("circle", hz, 20, "red") for hz in OCTAVES[1:6]] + [
        mark("cross", hz, 20, "blue") for hz in OCTAVES[1:6]
    ]
    short = replace(chart(*marks), frequency=frequency_scale(OCTAVES[:6]))
    assert mean(sheet(words=frequency_words(OCTAVES[:6])), (), (short,), Choices()).remarks == ()
    remarks = mean(sheet(words=frequency_words()), (), (short,), Choices()).remarks
    assert {(r.code, r.ear, r.conduction) for r in remarks} == {
        ("missing-expected", "right", "air"),
        ("missing-expected", "left", "air"),
    }


def test_a_doubtful_mark_beyond_the_last_label_says_that_the_axis_goes_on() -> None:
    # seen where the label of 16 kHz was lost: its marks were taken for 14 kHz or not at all
    beyond = Threshold("left", "bone", False, 4000.0, 40.0, standing="ask", seen=Seen(0, (0.5, 0.5), 4700.0, 40.0))
    short = replace(chart(), frequency=frequency_scale(OCTAVES[:6]))
    assert doubtful_beyond(short, [beyond])
    assert not doubtful_beyond(short, [replace(beyond, standing="sure")])
    assert not doubtful_beyond(chart(), [beyond])


def test_a_lone_mark_of_a_loudspeaker_tells_of_others_that_crosses_hide() -> None:
    # common practice: sound field is tested at the octaves of speech
    missing = named((*WHOLE, *row_of("both", 4000, conduction="field")))
    assert missing == {("both", "field", 500), ("both", "field", 1000), ("both", "field", 2000)}


@pytest.mark.parametrize("measure", ["ucl", "mcl"])
def test_one_loudness_mark_alone_lets_the_others_of_both_ears_be_missing(measure: Measure) -> None:
    # three uncomfortable levels beneath the thresholds at 120 dB HL of a scanned report were missed without a word;
    # loudness levels are taken at 500 to 4000 Hz (BSA 2022, uncomfortable loudness levels)
    missing = {hz for ear, _, hz in named(WHOLE + row_of("right", 500, measure=measure)) if ear == "right"}
    assert missing == {1000, 2000, 4000}
    assert ("left", "air", 500) in named(WHOLE + row_of("right", 500, measure=measure))


@pytest.mark.parametrize(
    ("said", "frequencies", "told"),
    [("Aided", (500, 1000, 2000), True), ("Air", (500, 1000, 2000), False), ("Aided", (500, 1000), False)],
)
def test_weak_triangles_in_a_row_may_be_aided_marks_where_the_page_names_them(
    said: str, frequencies: tuple[int, ...], *, told: bool
) -> None:
    # four A on circles and crosses of a scan in black were neither read nor told
    weak = tuple(mark("triangle", hz, 15, score=0.5) for hz in frequencies)
    remarks = aided_beneath(sheet(words=(word(said, 500, 1100),)), 0, weak)
    assert [(r.code, r.ear, r.conduction) for r in remarks] == [("missing-expected", "both", "field")] * told
