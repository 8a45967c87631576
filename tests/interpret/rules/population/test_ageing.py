"""ISO 7029:2017 against values that were worked from its tables apart from octavo, and its limits."""

from __future__ import annotations

import csv
from pathlib import Path
from typing import cast

import pytest
from hypothesis import given
from hypothesis import strategies as st
from invented_pages import asked, value

from octavo.interpret.rules.doubt import row_of
from octavo.interpret.rules.population.ageing import expected, is_informative, percentiles
from octavo.interpret.settings import Sex

PUBLISHED = Path(__file__).parents[3] / "published"
WORST_MISS_DB = 0.05  # the tables' values are rounded to 0.01 dB


def worked() -> list[dict[str, str]]:
    with (PUBLISHED / "iso7029_2017_worked_values.csv").open(encoding="utf-8", newline="") as table:
        return list(csv.DictReader(table))


def test_every_worked_value_is_met() -> None:
    misses: list[tuple[dict[str, str], float]] = []
    for row in worked():
        spread = expected(cast("Sex", row["sex"]), float(row["age_years"]), float(row["freq_hz"]))
        assert spread is not None
        told = (spread.median_db, spread.fractile(0.9), spread.fractile(0.1), spread.worse_db, spread.better_db)
        columns = ("median_db", "p90_worse_db", "p10_better_db", "su_db", "sl_db")
        misses += [
            (row, miss)
            for column, db in zip(columns, told, strict=True)
            if (miss := abs(db - float(row[column]))) > WORST_MISS_DB
        ]
    assert misses == []


def test_the_worked_values_cover_both_sexes_and_all_frequencies() -> None:
    assert len({(row["sex"], row["freq_hz"]) for row in worked()}) == 22


# The reference data of a general acoustics library.
def test_the_two_values_of_the_library_s_own_data() -> None:
    at_4, at_1 = expected("male", 60, 4000), expected("male", 60, 1000)
    assert at_4 is not None
    assert at_1 is not None
    assert at_4.median_db == pytest.approx(20.2085, abs=0.0001)
    assert at_1.worse_db == pytest.approx(10.1533, abs=0.0001)


# Medians and worst tenth at 60 years, 125 to 8000 Hz, rounded to 0.1 dB.
@pytest.mark.parametrize(
    ("sex", "share", "levels"),
    [
        ("male", 0.5, (4.3, 5.5, 6.0, 6.8, 7.8, 10.2, 12.5, 16.6, 20.2, 25.9, 30.4)),
        ("female", 0.5, (5.9, 5.9, 6.5, 7.2, 7.9, 9.3, 10.6, 13.1, 15.3, 19.4, 23.0)),
        ("male", 0.9, (13.5, 14.7, 16.3, 18.5, 20.9, 25.7, 30.1, 37.3, 43.6, 52.9, 60.3)),
    ],
)
def test_sixty_years(sex: Sex, share: float, levels: tuple[float, ...]) -> None:
    hertz = (125, 250, 500, 750, 1000, 1500, 2000, 3000, 4000, 6000, 8000)
    for hz, db in zip(hertz, levels, strict=True):
        spread = expected(sex, 60, hz)
        assert spread is not None
        assert spread.fractile(share) == pytest.approx(db, abs=0.0501)


@pytest.mark.parametrize(("age", "hz"), [(17, 1000), (81, 1000), (40, 12500)])
def test_beyond_the_standard_there_is_no_expectation(age: float, hz: float) -> None:
    assert expected("female", age, hz) is None


def test_above_70_the_high_frequencies_are_informative() -> None:
    assert is_informative(71, 3000)
    assert not is_informative(70, 3000)
    assert not is_informative(75, 2000)


def test_the_median_stands_at_half() -> None:
    spread = expected("male", 60, 4000)
    assert spread is not None
    assert spread.share_not_worse(spread.median_db) == pytest.approx(0.5)
    assert spread.share_not_worse(spread.fractile(0.9)) == pytest.approx(0.9)


def test_a_threshold_gets_its_percentile_and_its_doubt() -> None:
    row = row_of((value("right", 1000, 10), asked("right", 4000, 20, "faint")), "right")
    plain, doubted = percentiles(row, "right", "male", 60)
    assert plain.number == pytest.approx(58.4, abs=0.1)  # (10 - 7.85) / 10.15 = 0.212 deviations above the median
    assert (doubted.standing, doubted.rests_on) == ("ask", (4000,))
    assert doubted.low is not None
    assert doubted.number is not None
    assert doubted.high is not None
    assert doubted.low < doubted.number < doubted.high


def test_no_response_is_at_least_and_open_above() -> None:
    found = next(percentiles(row_of((value("left", 4000, 100, response=False),), "left"), "left", "male", 60))
    assert (found.at_least, found.high) == (True, 100)


@given(
    st.sampled_from(("male", "female")), st.floats(18, 80), st.sampled_from((500.0, 2000.0, 8000.0)),
    st.floats(-10, 110), st.floats(-10, 110),
)  # fmt: skip
def test_a_worse_threshold_never_has_a_lower_percentile(sex: Sex, age: float, hz: float, a: float, b: float) -> None:
    spread = expected(sex, age, hz)
    assert spread is not None
    low, high = sorted((a, b))
    assert spread.share_not_worse(low) <= spread.share_not_worse(high)
