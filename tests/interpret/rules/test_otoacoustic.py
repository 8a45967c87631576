"""Otoacoustic emissions, and whether they fit the thresholds."""

from __future__ import annotations

import pytest
from invented_pages import asked, value

from octavo.interpret.finding import Finding
from octavo.interpret.findings import findings
from octavo.interpret.record import Audiogram, EmissionBand, EmissionResult, OtoacousticEmission, Threshold

HZ = (1000, 2000, 3000, 4000)


def dpoae(*snrs: float, amplitude: float = 5, printed: EmissionResult | None = None) -> OtoacousticEmission:
    bands = tuple(EmissionBand(hz, amplitude, amplitude - snr, snr) for hz, snr in zip(HZ, snrs, strict=False))
    return OtoacousticEmission("right", "dpoae", bands, printed, "sure")


def of(code: str, one: OtoacousticEmission, *values: Threshold) -> tuple[Finding, ...]:
    return findings(Audiogram(thresholds=values, otoacoustic=(one,))).of(code)


# Common practice [memory]: 6 dB above noise and above -10 dB SPL at 3 of 4 frequencies.
@pytest.mark.parametrize(
    ("one", "word"),
    [(dpoae(6, 6, 6, 5), "pass"), (dpoae(6, 6, 5, 5), "refer"), (dpoae(10, 10, 10, 10, amplitude=-10), "refer"),
     (dpoae(10, 10, 10, 10, amplitude=-9), "pass")],
)  # fmt: skip
def test_pass_needs_three_of_four(one: OtoacousticEmission, word: str) -> None:
    assert of("emissions-dpoae", one)[0].word == word


def test_signal_to_noise_is_worked_from_the_levels_where_it_is_not_stated() -> None:
    one = OtoacousticEmission("right", "teoae", (EmissionBand(2000, 4, -2),), None, "sure")
    assert of("emissions-teoae", one)[0].word == "pass"


def test_without_numbers_the_printed_result_stands() -> None:
    one = OtoacousticEmission("right", "teoae", (), "refer", "sure")
    [found] = of("emissions-teoae", one)
    assert (found.word, found.rule) == ("refer", "as the report states")
    assert of("emissions-teoae", OtoacousticEmission("right", "teoae")) == ()


def test_a_printed_result_that_the_numbers_do_not_give_is_told() -> None:
    assert len(of("emissions-result-differs", dpoae(9, 9, 9, 9, printed="refer"))) == 1
    assert of("emissions-result-differs", dpoae(9, 9, 9, 9, printed="pass")) == ()


def test_an_emission_beside_a_raised_threshold_is_a_conflict_at_that_frequency() -> None:
    values = (value("right", 2000, 60), value("right", 4000, 40), value("left", 1000, 90))
    [found] = of("emissions-and-thresholds", dpoae(9, 9, 9, 9), *values)
    assert (found.frequency_hz, found.word, found.rule[:7]) == (2000, "met", "present")


def test_no_emission_beside_a_normal_threshold_is_a_conflict() -> None:
    [found] = of("emissions-and-thresholds", dpoae(9, 2, 9, 9), value("right", 2000, 20), value("right", 1000, 10))
    assert (found.frequency_hz, found.rule[:6]) == (2000, "absent")


def test_a_result_without_bands_is_held_against_1_2_and_4_khz() -> None:
    refer = OtoacousticEmission("right", "teoae", (), "refer", "sure")
    normal = [value("right", hz, 10) for hz in (1000, 2000, 4000)]
    assert [one.frequency_hz for one in of("emissions-and-thresholds", refer, *normal)] == [None]
    assert of("emissions-and-thresholds", refer, *normal[:2]) == ()
    assert of("emissions-and-thresholds", refer, *normal[:2], value("right", 4000, 50)) == ()


def test_a_threshold_to_look_at_makes_a_conflict_that_could_be() -> None:
    [found] = of("emissions-and-thresholds", dpoae(9, 9, 9, 9), asked("right", 2000, 35, "faint"))
    assert (found.word, found.could_be, found.standing, found.rests_on) == (
        "not met",
        ("not met", "met"),
        "ask",
        (2000,),
    )
