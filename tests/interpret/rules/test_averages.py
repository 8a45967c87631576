"""Pure-tone averages against published worked values, and their rules for what is missing or not heard."""

from __future__ import annotations

import csv
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from invented_pages import asked, value

from octavo.interpret.errors import MisuseError
from octavo.interpret.record import Threshold
from octavo.interpret.rules.averages import AVERAGES, average

PUBLISHED = Path(__file__).parents[2] / "published"


def standard_audiograms() -> dict[str, tuple[Threshold, ...]]:
    """Bisgaard, Vlaming and Dahlquist 2010 (later IEC 60118-15), as right air thresholds."""
    with (PUBLISHED / "standard_audiograms_bisgaard2010.csv").open(encoding="utf-8", newline="") as table:
        return {
            row.pop("name"): tuple(value("right", float(hz.removeprefix("hz")), float(db)) for hz, db in row.items())
            for row in csv.DictReader(table)
        }


STANDARD = standard_audiograms()

# Worked by hand from the published curves, rounded to 0.01 dB.
WORKED = {
    "0.5-1-2": {"N1": 11.67, "N2": 26.67, "N3": 41.67, "N4": 58.33, "N5": 75, "N6": 85, "N7": 101.67,
                "S1": 11.67, "S2": 33.33, "S3": 56.67},
    "0.5-1-2-4": {"N1": 16.25, "N2": 31.25, "N3": 46.25, "N4": 62.5, "N5": 76.25, "N6": 88.75, "N7": 102.5,
                  "S1": 22.5, "S2": 48.75, "S3": 62.5},
    "0.5-1-2-3": {"N1": 13.75, "N2": 30, "N3": 45, "N4": 61.25, "N5": 76.25, "N6": 87.5, "N7": 102.5,
                  "S1": 16.25, "S2": 43.75, "S3": 62.5},
    "0.25-0.5-1-2-4": {"N1": 15, "N2": 29, "N3": 44, "N4": 61, "N5": 74, "N6": 86, "N7": 100,
                       "S1": 20, "S2": 43, "S3": 56},
}  # fmt: skip


@pytest.mark.parametrize(
    ("rule", "name", "expected"),
    [(rule, name, db) for rule, values in WORKED.items() for name, db in values.items()],
)
def test_the_averages_of_the_standard_audiograms(rule: str, name: str, expected: float) -> None:
    found = average(STANDARD[name], rule, "right")
    assert found.db_hl == pytest.approx(expected, abs=0.005)  # the worked values are rounded to 0.01 dB


# N3 of the same set. Four-part A and six-part: a Japanese audiology textbook. Two best: Fletcher 1950, common
# practice. 2-3-4 kHz: 29 CFR 1904.10.
@pytest.mark.parametrize(
    ("rule", "expected"),
    [("0.5-1-1-2", 41.25), ("0.5-1-1-2-2-4", 45.83), ("two-best-of-0.5-1-2", 37.5), ("2-3-4", 55.0)],
)
def test_the_less_usual_averages_of_n3(rule: str, expected: float) -> None:
    found = average(STANDARD["N3"], rule, "right")
    assert found.db_hl == pytest.approx(expected, abs=0.005)


def test_a_missing_frequency_leaves_no_average_and_is_named() -> None:
    values = (value("right", 500, 30), value("right", 2000, 40))
    found = average(values, "0.5-1-2-4", "right")
    assert found.db_hl is None
    assert found.missing_hz == (1000, 4000)


def test_the_two_best_are_not_taken_from_two_values_only() -> None:
    found = average((value("right", 500, 30), value("right", 2000, 40)), "two-best-of-0.5-1-2", "right")
    assert found.db_hl is None
    assert found.missing_hz == (1000,)


def test_no_response_enters_as_at_least() -> None:
    values = (value("left", 500, 50), value("left", 1000, 60), value("left", 2000, 100, response=False))
    found = average(values, "0.5-1-2", "left")
    assert (found.db_hl, found.at_least, found.no_response_hz) == (70, True, (2000,))


def test_no_response_counts_as_the_scheme_says() -> None:
    # BIAP 02/1 bis counts a frequency not heard as 120 dB: (50 + 60 + 75 + 120) / 4.
    values = (*(value("left", hz, db) for hz, db in ((500, 50), (1000, 60), (2000, 75))),
              value("left", 4000, 105, response=False))  # fmt: skip
    found = average(values, "0.5-1-2-4", "left", no_response_db=120)
    assert (found.db_hl, found.at_least, found.no_response_hz) == (76.25, False, (4000,))


def test_a_no_response_outside_the_two_best_leaves_the_average_exact() -> None:
    values = (value("left", 500, 50), value("left", 1000, 60), value("left", 2000, 110, response=False))
    found = average(values, "two-best-of-0.5-1-2", "left")
    assert (found.db_hl, found.at_least) == (55, False)


def test_a_value_to_check_is_named_and_still_enters() -> None:
    values = (value("right", 500, 30), asked("right", 1000, 35, "faint"), value("right", 2000, 40))
    found = average(values, "0.5-1-2", "right")
    assert (found.db_hl, found.ask_hz) == (35, (1000,))


def test_the_masked_value_is_taken_before_the_unmasked_one() -> None:
    # Common practice: the unmasked value may be the other ear's answer.
    values = (*(value("left", hz, 60) for hz in (500, 1000, 2000)), value("left", 1000, 90, masked=True))
    found = average(values, "0.5-1-2", "left")
    assert (found.db_hl, found.masked_hz) == (70, (1000,))


def test_a_masked_no_response_is_taken_before_an_unmasked_answer() -> None:
    values = (
        *(value("left", hz, 60) for hz in (500, 1000, 2000)),
        value("left", 1000, 120, masked=True, response=False),
    )
    found = average(values, "0.5-1-2", "left")
    assert (found.db_hl, found.at_least) == (80, True)


def test_two_different_values_for_one_place_make_it_one_to_check() -> None:
    values = (*(value("right", hz, 30) for hz in (500, 1000, 2000)), asked("right", 1000, 60, "two-readings"))
    found = average(values, "0.5-1-2", "right")
    assert (found.db_hl, found.ask_hz) == (30, (1000,))


def test_aided_values_comfortable_levels_and_other_sides_stay_out() -> None:
    wanted = tuple(value("right", hz, 30) for hz in (500, 1000, 2000))
    one = value("right", 1000, 90)
    others = (
        replace(one, aided=True),
        replace(one, measure="mcl"),
        replace(one, measure="ucl"),
        replace(one, conduction="bone"),
        replace(one, ear="left"),
    )
    assert average(others + wanted, "0.5-1-2", "right") == average(wanted, "0.5-1-2", "right")


def test_an_unknown_average_is_refused_with_the_names_there_are() -> None:
    with pytest.raises(MisuseError, match=r"there is no average named 'PTA'\. Choose one of 0\.5-1-2, "):
        average((), "PTA", "right")


@pytest.mark.parametrize("name", AVERAGES)
def test_an_average_s_name_says_its_frequencies(name: str) -> None:
    khz = name.removeprefix("two-best-of-").split("-")
    assert [float(part) * 1000 for part in khz] == list(AVERAGES[name].frequencies_hz)


LEVELS = st.lists(st.integers(-2, 24).map(lambda steps: steps * 5.0), min_size=4, max_size=4)
HZ = (500, 1000, 2000, 4000)


@given(st.permutations(STANDARD["S2"]))
def test_the_order_of_the_values_does_not_matter(values: list[Threshold]) -> None:
    assert average(tuple(values), "0.5-1-2-4", "right") == average(STANDARD["S2"], "0.5-1-2-4", "right")


@given(LEVELS)
def test_swapped_ears_swap_their_averages(levels: list[float]) -> None:
    right = tuple(value("right", hz, db) for hz, db in zip(HZ, levels, strict=True))
    left = tuple(value("left", hz, db) for hz, db in zip(HZ, levels, strict=True))
    assert average(right, "0.5-1-2-4", "right").db_hl == average(left, "0.5-1-2-4", "left").db_hl
    assert average(right, "0.5-1-2-4", "left").db_hl is None
