"""The shape of a curve: standard and hand-made curves by octavo's rule, and the other rules beside it."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest
from invented_pages import asked, value

from octavo.interpret.finding import Finding
from octavo.interpret.record import Threshold
from octavo.interpret.rules.doubt import row_of
from octavo.interpret.rules.shape.configuration import configurations, pitch_bands, slope_db_per_octave

PUBLISHED = Path(__file__).parents[3] / "published"
HZ = (250, 500, 1000, 2000, 4000, 8000)


def curve(*levels: float, silent_from_hz: float = 99_999) -> tuple[Threshold, ...]:
    return tuple(
        value("left", hz, db, response=hz < silent_from_hz) for hz, db in zip(HZ, levels, strict=False)
    )  # fmt: skip


def shapes(values: tuple[Threshold, ...], normal_db: float = 25) -> list[Finding]:
    return list(configurations(row_of(values, "left"), "left", normal_db))


def standard(name: str) -> tuple[Threshold, ...]:
    with (PUBLISHED / "standard_audiograms_bisgaard2010.csv").open(encoding="utf-8", newline="") as table:
        row = next(row for row in csv.DictReader(table) if row["name"] == name)
    return tuple(value("left", float(hz[2:]), float(db)) for hz, db in row.items() if hz.startswith("hz"))


# Bisgaard 2010; the word follows from the fall from 0.5 to 4 kHz over three octaves, worked by hand: N3 8.3, N4 6.7,
# N5 3.3, N7 3.3, S3 15 dB an octave; N1, N2, S1 and S2 are normal (25 dB or better) to 1 kHz. Edges after
# Carhart 1945 [memory].
@pytest.mark.parametrize(
    ("name", "word"),
    [
        ("N1", "high-frequency"), ("N2", "high-frequency"), ("N3", "gently sloping"), ("N4", "gently sloping"),
        ("N5", "flat"), ("N7", "flat"), ("S1", "high-frequency"), ("S2", "high-frequency"), ("S3", "steeply sloping"),
    ],
)  # fmt: skip
def test_the_standard_audiograms(name: str, word: str) -> None:
    assert shapes(standard(name))[0].word == word


@pytest.mark.parametrize(
    ("levels", "word"),
    [
        ((10, 15, 10, 5, 10, 15), "within normal limits"),
        ((40, 40, 45, 45, 50, 50), "flat"),
        ((60, 55, 45, 40, 35, 30), "rising"),
        ((30, 35, 55, 85, 105, 110), "precipitously sloping"),
        ((20, 30, 50, 55, 30, 25), "trough"),
        ((60, 50, 30, 30, 50, 60), "peaked"),
        ((10, 10, 10, 10, 50, 20), "notched"),
        ((10, 10, 15, 30, 50, 60), "high-frequency"),
    ],
)
def test_curves_by_octavo_s_rule(levels: tuple[float, ...], word: str) -> None:
    assert shapes(curve(*levels))[0].word == word


def test_hearing_of_the_lowest_frequencies_alone_is_a_corner() -> None:
    assert shapes(curve(85, 95, 110, 120, 120, 100, silent_from_hz=1000))[0].word == "corner"


def test_nothing_heard_at_all_is_no_corner() -> None:
    assert shapes(curve(90, 110, 120, 120, 120, 100, silent_from_hz=0))[0].word != "corner"


def test_the_slope_is_dB_an_octave() -> None:
    assert slope_db_per_octave({500: 35, 4000: 60}) == pytest.approx(25 / 3)


# The table of a J Med Genet paper: 15 dB decide. GENDEAF 2001 [memory].
@pytest.mark.parametrize(
    ("levels", "genes", "gendeaf"),
    [
        ((40, 40, 45, 45, 50, 50), "flat", "flat"),
        ((60, 55, 45, 40, 35, 30), "low-frequency", "low-frequency ascending"),
        ((30, 35, 40, 50, 60, 65), "sloping", "gently sloping"),
        ((30, 30, 40, 60, 80, 80), "sloping", "steeply sloping"),
        ((20, 25, 50, 50, 25, 20), "U-shaped", "mid-frequency U-shaped"),
    ],
)
def test_the_other_rules_stand_beside_it(levels: tuple[float, ...], genes: str, gendeaf: str) -> None:
    assert [one.word for one in shapes(curve(*levels))[1:]] == [genes, gendeaf]


def test_a_missing_frequency_leaves_no_word_and_is_named() -> None:
    found = shapes(curve(40, 40, 45, 45))
    assert (found[0].word, found[0].missing_hz) == (None, (4000,))


def test_a_value_to_look_at_gives_every_shape_that_could_be() -> None:
    values = (*curve(40, 40, 45, 45), asked("left", 4000, 50, "faint"), value("left", 8000, 55))
    found = shapes(values)[0]
    assert (found.word, found.could_be) == ("flat", ("flat", "gently sloping"))


def test_many_values_to_look_at_leave_the_shape_open() -> None:
    values = tuple(asked("left", hz, 40, "faint") for hz in HZ)
    assert len(shapes(values)[0].could_be) > 5


def test_the_bands_of_pitch_give_their_least_and_most() -> None:
    found = list(pitch_bands(row_of(curve(10, 20, 30, 40, 60, 70), "left"), "left", "clark-1981"))
    told = [(one.code, one.word, one.named("least_db_hl"), one.named("most_db_hl")) for one in found]
    assert told == [
        ("pitch-low", "normal", 10, 20),
        ("pitch-middle", "mild", 30, 40),
        ("pitch-high", "moderately severe", 60, 70),
    ]


def test_a_band_that_was_not_tested_is_left_out() -> None:
    found = pitch_bands(row_of(curve(10, 20, 30, 40), "left"), "left", "clark-1981")
    assert [one.code for one in found] == ["pitch-low", "pitch-middle"]
