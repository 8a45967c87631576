"""The score's definitions, on records made by hand; they are those of the page record's description."""

from dataclasses import replace

import pytest
from cases import known
from score import Score, score

from octavo.interpret.record import Audiogram, PageRecord, Remark, Source, Standing, Threshold

SOURCE = Source("page.pdf", "0" * 64, 1, 1, "drawn")
TRUTH = (
    known("right", "air", 500, 20),
    known("right", "air", 1000, 30),
    known("left", "air", 1000, 45, masked=True),
    known("left", "bone", 1000, 60, response=False),
)


def record(*values: Threshold, remarks: tuple[Remark, ...] = (), standing: Standing = "ask") -> PageRecord:
    return PageRecord(SOURCE, standing, (Audiogram(thresholds=values),) if values else (), remarks=remarks)


def doubtful(value: Threshold, *codes: str) -> Threshold:
    return replace(value, standing="ask", why_ask=codes)


def counts(result: Score) -> tuple[int, ...]:
    return result.exact, result.within_5, result.wrong, result.missed, result.invented, result.silent, result.sure


def test_a_perfect_sure_reading_is_exact_and_sure_throughout() -> None:
    assert counts(score([record(*TRUTH)], TRUTH)) == (4, 4, 0, 0, 0, 0, 4)


def test_a_right_value_that_is_asked_for_is_exact_but_not_sure() -> None:
    assert counts(score([record(*TRUTH[:3], doubtful(TRUTH[3]))], TRUTH)) == (4, 4, 0, 0, 0, 0, 3)


def test_one_step_off_is_wrong_within_5_and_silent_when_sure() -> None:
    off = replace(TRUTH[0], level_db_hl=25.0)
    assert counts(score([record(off, *TRUTH[1:])], TRUTH)) == (3, 4, 1, 0, 0, 1, 3)


def test_one_step_off_is_not_silent_when_asked_for() -> None:
    off = doubtful(replace(TRUTH[0], level_db_hl=25.0))
    assert counts(score([record(off, *TRUTH[1:])], TRUTH)) == (3, 4, 1, 0, 0, 0, 3)


def test_two_steps_off_is_not_within_5() -> None:
    off = replace(TRUTH[0], level_db_hl=10.0)
    assert score([record(off, *TRUTH[1:])], TRUTH).within_5 == 3


@pytest.mark.parametrize(
    "change",
    [
        {"ear": "right"},
        {"conduction": "air"},
        {"masked": True},
        {"aided": True},
        {"response": True},
        {"measure": "ucl"},
    ],
)
def test_one_misread_trait_is_one_silent_wrong_value(change: dict[str, object]) -> None:
    misread = replace(TRUTH[3], **change)  # the traits differ in type
    assert counts(score([record(*TRUTH[:3], misread)], TRUTH)) == (3, 3, 1, 0, 0, 1, 3)


def test_another_frequency_is_a_missed_and_an_invented_value() -> None:
    moved = replace(TRUTH[0], frequency_hz=750.0)
    assert counts(score([record(moved, *TRUTH[1:])], TRUTH)) == (3, 3, 0, 1, 1, 2, 3)


def test_a_value_read_twice_is_invented_once() -> None:
    assert counts(score([record(*TRUTH, TRUTH[0])], TRUTH)) == (4, 4, 0, 0, 1, 1, 4)


def test_two_ears_swapped_at_one_frequency_are_two_wrong_values() -> None:
    truth = (known("right", "air", 1000, 20), known("left", "air", 1000, 60))
    swapped = (replace(truth[0], ear="left"), replace(truth[1], ear="right"))
    assert counts(score([record(*swapped)], truth)) == (0, 0, 2, 0, 0, 2, 0)


def test_a_missed_value_is_silent_where_nothing_names_it() -> None:
    assert counts(score([record(*TRUTH[:3])], TRUTH)) == (3, 3, 0, 1, 0, 1, 3)


@pytest.mark.parametrize(
    ("ear", "conduction", "silent"), [("left", "bone", 0), ("right", "bone", 1), ("left", "air", 1)]
)
def test_a_remark_must_name_ear_and_conduction_of_the_missed_value(ear: str, conduction: str, silent: int) -> None:
    remark = replace(Remark("missing-expected", "text"), ear=ear, conduction=conduction)
    assert score([record(*TRUTH[:3], remarks=(remark,))], TRUTH).silent == silent


def test_a_remark_of_another_code_does_not_name_a_missed_value() -> None:
    remark = Remark("implausible", "text", ear="left", conduction="bone")
    assert score([record(*TRUTH[:3], remarks=(remark,))], TRUTH).silent == 1


def test_a_value_with_the_code_missing_expected_names_its_missed_neighbours() -> None:
    neighbour = known("left", "bone", 500, 40)
    result = score([record(*TRUTH[:3], doubtful(neighbour, "missing-expected"))], (*TRUTH, neighbour))
    assert (result.missed, result.silent) == (1, 0)


@pytest.mark.parametrize(("standing", "silent"), [("ask", 0), ("sure", 4)])
def test_nothing_read_is_silent_only_where_the_page_stands_as_sure(standing: Standing, silent: int) -> None:
    result = score([record(standing=standing)], TRUTH)
    assert (result.missed, result.silent) == (4, silent)


def test_an_error_in_reading_misses_all_but_silently_nothing() -> None:
    assert counts(score([], TRUTH)) == (0, 0, 0, 4, 0, 0, 0)


def test_an_invented_value_on_a_page_without_audiogram_is_silent_when_sure() -> None:
    assert counts(score([record(TRUTH[0], doubtful(TRUTH[1]))], ())) == (0, 0, 0, 0, 2, 1, 0)


def test_values_of_several_pages_count_together() -> None:
    assert counts(score([record(*TRUTH[:2]), record(*TRUTH[2:])], TRUTH)) == (4, 4, 0, 0, 0, 0, 4)


def test_scores_add_up_over_files() -> None:
    both = score([record(*TRUTH)], TRUTH) + score([record(*TRUTH[:3])], TRUTH)
    assert (both.total, both.exact, both.missed, both.silent, len(both.faults)) == (8, 7, 1, 1, 1)
