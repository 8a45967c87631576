"""What does not fit together on a page, told without lowering any standing."""

from __future__ import annotations

import pytest
from invented_pages import asked, page, value
from invented_tests import srt

from octavo.interpret.finding import Finding
from octavo.interpret.findings import findings, with_findings
from octavo.interpret.record import Audiogram, PrintedAverage, Side, Threshold

HZ = (250, 500, 1000, 2000, 4000)


def curve(ear: Side, *levels: float) -> tuple[Threshold, ...]:
    return tuple(value(ear, hz, db) for hz, db in zip(HZ, levels, strict=True))


def of(code: str, audiogram: Audiogram) -> tuple[Finding, ...]:
    return findings(audiogram).of(code)


def test_every_doubt_of_a_value_is_a_finding_with_its_rule() -> None:
    values = (value("right", 1000, 30), value("right", 1000, 45, "bone"), value("left", 8000, 120))
    found = of("implausible-value", Audiogram(thresholds=values))
    assert [(one.ear, one.frequency_hz, one.rule.split(",")[0]) for one in found] == [
        ("right", 1000, "bone worse than air by 10 dB or more"),
        ("left", 8000, "beyond the device's reach"),
    ]


# Common practice: an unmasked curve 40 to 60 dB below the other ear's may be its shadow.
@pytest.mark.parametrize(
    ("left", "told"),
    [
        ((55, 60, 65, 70, 75), ["left"]),  # 50 dB below everywhere
        ((45, 60, 65, 70, 65), ["left"]),  # 40 to 50 dB
        ((40, 60, 65, 70, 75), []),  # 35 dB at 250 Hz
        ((45, 50, 60, 75, 85), []),  # 40 to 60 dB, not alike within 15 dB
    ],
)
def test_a_curve_like_the_other_ear_s_far_below_it_is_told(left: tuple[float, ...], told: list[str]) -> None:
    audiogram = Audiogram(thresholds=(*curve("right", 5, 10, 15, 20, 25), *curve("left", *left)))
    assert [one.ear for one in of("shadow-curve", audiogram)] == told


def test_a_masked_curve_is_no_shadow() -> None:
    masked = tuple(value("left", hz, db + 50, masked=True) for hz, db in zip(HZ, (5, 10, 15, 20, 25), strict=True))
    assert of("shadow-curve", Audiogram(thresholds=(*curve("right", 5, 10, 15, 20, 25), *masked))) == ()


def test_a_shadow_with_a_value_to_look_at_could_be_none() -> None:
    left = (asked("left", 250, 55, "faint"), *curve("left", 55, 60, 65, 70, 75)[1:])
    [found] = of("shadow-curve", Audiogram(thresholds=(*curve("right", 5, 10, 15, 20, 25), *left)))
    # 50 dB below, give or take 10, against 50 dB elsewhere: always 40 to 60 and alike within 10.
    assert (found.word, found.could_be, found.standing) == ("met", (), "ask")


@pytest.mark.parametrize(
    ("air", "word"), [(40, "not heard where air was"), (45, "not heard where air was"), (60, "at the vibrator's limit")]
)
def test_low_bone_without_a_response_beside_heard_air_is_told(air: float, word: str) -> None:
    values = (value("right", 250, air), value("right", 250, 45, "bone", response=False))
    [found] = of("low-bone-not-heard", Audiogram(thresholds=values))
    assert (found.word, found.frequency_hz) == (word, 250)


def test_bone_not_heard_at_1_khz_or_beside_unheard_air_is_left_alone() -> None:
    values = (
        value("right", 1000, 80), value("right", 1000, 70, "bone", response=False),
        value("left", 500, 120, response=False), value("left", 500, 60, "bone", response=False),
    )  # fmt: skip
    assert of("low-bone-not-heard", Audiogram(thresholds=values)) == ()


def printed(ear: Side, level: float, *, sure: bool = True) -> PrintedAverage:
    return PrintedAverage(ear, (500, 1000, 2000), level, standing="sure" if sure else "ask")


# The right ear gives (10 + 15 + 25) / 3 = 16.67: printed rounded or cut it is 17 or 16.
@pytest.mark.parametrize(("level", "told"), [(17, 0), (16, 0), (16.7, 0), (18, 1), (15, 1)])
def test_a_printed_average_that_the_values_do_not_give_is_told(level: float, told: int) -> None:
    audiogram = Audiogram(thresholds=curve("right", 5, 10, 15, 25, 30), printed_averages=(printed("right", level),))
    assert len(of("printed-average-differs", audiogram)) == told


def test_a_missing_or_unheard_frequency_gives_no_verdict_on_a_printed_average() -> None:
    values = (*curve("right", 5, 10, 15, 25, 30)[:3], value("right", 2000, 110, response=False))
    for some in (values, values[:3]):
        assert of("printed-average-differs", Audiogram(thresholds=some, printed_averages=(printed("right", 90),))) == ()


def test_a_value_to_look_at_may_explain_a_printed_average() -> None:
    values = (value("right", 500, 10), asked("right", 1000, 15, "faint"), value("right", 2000, 25))
    [found] = of("printed-average-differs", Audiogram(thresholds=values, printed_averages=(printed("right", 20),)))
    # 20 would be right with 25 dB at 1 kHz.
    assert (found.word, found.could_be, found.rests_on) == ("met", ("not met", "met"), (1000,))


def test_printed_averages_that_fit_crosswise_say_that_the_ears_may_be_swapped() -> None:
    values = (*curve("right", 5, 10, 15, 20, 30), *curve("left", 40, 40, 50, 60, 70))
    for right, left, told in ((50, 15, 1), (15, 50, 0), (50, 50, 0), (90, 80, 0)):
        averages = (printed("right", right), printed("left", left))
        assert len(of("ears-may-be-swapped", Audiogram(thresholds=values, printed_averages=averages))) == told


def test_speech_thresholds_that_fit_crosswise_say_it_too() -> None:
    values = (*curve("right", 5, 10, 15, 20, 30), *curve("left", 40, 40, 50, 60, 70))
    assert len(of("ears-may-be-swapped", Audiogram(thresholds=values, speech=(srt("right", 50), srt("left", 15))))) == 1
    assert of("ears-may-be-swapped", Audiogram(thresholds=values, speech=(srt("right", 15), srt("left", 50)))) == ()


def test_what_does_not_fit_lowers_no_standing() -> None:
    values = (*curve("right", 5, 10, 15, 20, 25), *curve("left", 55, 60, 65, 70, 75))
    record = page(Audiogram(thresholds=values, printed_averages=(printed("right", 40),)))
    told = with_findings(record)
    assert {one["code"] for one in told.audiograms[0].findings["found"]} >= {"shadow-curve", "printed-average-differs"}
    assert (told.standing, told.audiograms[0].thresholds) == ("sure", values)
