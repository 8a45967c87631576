"""The speech intelligibility index against the standard's example and other implementations' values."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from octavo.interpret.rules.audibility.speech_index import (
    OCTAVE,
    THIRD_OCTAVE,
    TWO_EARS_DB,
    at_centres,
    speech_index,
    table,
)

PUBLISHED = Path(__file__).parents[3] / "published"


def flat(db: float, method: str = THIRD_OCTAVE) -> list[float]:
    return [db] * len(table(method).centres_hz)


def standard(name: str) -> dict[float, float]:
    with (PUBLISHED / "standard_audiograms_bisgaard2010.csv").open(encoding="utf-8", newline="") as rows:
        row = next(row for row in csv.DictReader(rows) if row.pop("name") == name)
    return {float(hz.removeprefix("hz")): float(db) for hz, db in row.items()}


def test_example_c_1_of_the_standard() -> None:
    # ANSI S3.5-1997, example C.1, by octaves: printed 0.504; worked by hand 0.50396.
    found = speech_index(OCTAVE, (50, 40, 40, 30, 20, 0), (70, 65, 45, 25, 1, -15), flat(0, OCTAVE)).value
    assert found == pytest.approx(0.504, abs=0.001)
    assert found == pytest.approx(0.50396, abs=0.00001)


def test_the_inputs_of_example_c_2_by_third_octaves() -> None:
    # 54 dB in every band, noise 40, 30, 20, then 0 dB; speech-intelligibility-index 1.0.2 gives 0.8514.
    noise = (40, 30, 20, *[0] * 15)
    assert speech_index(THIRD_OCTAVE, flat(54), noise, flat(0)).value == pytest.approx(0.8514, abs=0.0001)


# The two-ear values stand in the tests of speech-intelligibility-index 1.0.2; the other was computed with it.
@pytest.mark.parametrize(
    ("effort", "threshold", "expected"),
    [("normal", 0, 0.9958), ("normal", -TWO_EARS_DB, 0.9969), ("shout", -TWO_EARS_DB, 0.9177)],
)
def test_a_normal_ear_in_quiet(effort: str, threshold: float, expected: float) -> None:
    speech = table(THIRD_OCTAVE).speech_db[effort]
    assert speech_index(THIRD_OCTAVE, speech, None, flat(threshold)).value == pytest.approx(expected, abs=0.0001)


# Computed with the same package.
@pytest.mark.parametrize(
    ("method", "loss", "expected"),
    [
        *((THIRD_OCTAVE, db, value) for db, value in
          ((10, 0.9816), (20, 0.9500), (30, 0.7015), (40, 0.3823), (50, 0.0807), (60, 0.0))),
        *((OCTAVE, db, value) for db, value in ((0, 0.9876), (20, 0.9510), (40, 0.3942))),
    ],
)  # fmt: skip
def test_a_flat_loss(method: str, loss: float, expected: float) -> None:
    speech = table(method).speech_db["normal"]
    assert speech_index(method, speech, None, flat(loss, method)).value == pytest.approx(expected, abs=0.0001)


# Computed with the same package; thresholds between the tested ones by the logarithm of frequency, ends held.
@pytest.mark.parametrize(
    ("name", "expected"),
    [("N1", 0.8794), ("N2", 0.6179), ("N3", 0.2834), ("N4", 0.0185), ("S1", 0.7661), ("S2", 0.4656), ("S3", 0.1785)],
)
def test_the_standard_audiograms(name: str, expected: float) -> None:
    speech = table(THIRD_OCTAVE).speech_db["normal"]
    found = speech_index(THIRD_OCTAVE, speech, None, at_centres(standard(name)))
    assert found.value == pytest.approx(expected, abs=0.0001)


@pytest.mark.parametrize("method", [THIRD_OCTAVE, OCTAVE])
def test_the_importances_sum_to_one(method: str) -> None:
    assert sum(table(method).importance) == pytest.approx(1.0)


def test_an_ear_that_hears_nothing_gets_nothing() -> None:
    speech = table(THIRD_OCTAVE).speech_db["normal"]
    assert speech_index(THIRD_OCTAVE, speech, None, flat(float("inf"))).value == 0


def test_between_two_frequencies_the_logarithm_counts() -> None:
    levels = at_centres({500: 20, 2000: 40})
    centres = table(THIRD_OCTAVE).centres_hz
    assert levels[centres.index(1000)] == pytest.approx(30)
    assert (levels[0], levels[-1]) == (20, 40)


LEVELS = st.lists(st.floats(-10, 120), min_size=18, max_size=18)


@given(LEVELS, st.integers(0, 17), st.floats(0, 60), st.booleans())
def test_raising_a_threshold_never_improves_audibility(levels: list[float], band: int, by: float, noisy: bool) -> None:
    speech = table(THIRD_OCTAVE).speech_db["normal"]
    noise = speech if noisy else None
    worse = [level + (by if at == band else 0) for at, level in enumerate(levels)]
    assert speech_index(THIRD_OCTAVE, speech, noise, worse).value <= (
        speech_index(THIRD_OCTAVE, speech, noise, levels).value + 1e-12
    )
