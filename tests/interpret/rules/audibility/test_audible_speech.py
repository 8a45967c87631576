"""Audibility of a conversation: distance, noise, regions of sounds, and what doubt and silence do."""

from __future__ import annotations

import pytest
from invented_pages import asked, value

from octavo.interpret.findings import findings
from octavo.interpret.record import Audiogram, Threshold
from octavo.interpret.rules.audibility.audible_speech import HEARD, NOT_HEARD, PARTLY, audibility
from octavo.interpret.rules.doubt import row_of

HZ = (250, 500, 1000, 2000, 4000, 8000)


def ear(*levels: float) -> tuple[Threshold, ...]:
    return tuple(value("right", hz, db) for hz, db in zip(HZ, levels, strict=False))


def indices(values: tuple[Threshold, ...], code: str) -> list[float]:
    return [one.number or 0 for one in audibility(row_of(values, "right"), "right") if one.code == code]


def words(values: tuple[Threshold, ...]) -> dict[str, str | None]:
    found = audibility(row_of(values, "right"), "right")
    return {one.code.removeprefix("speech-region-"): one.word for one in found if "region" in one.code}


def test_farther_away_less_is_heard() -> None:
    near, two, four = indices(ear(30, 30, 30, 40, 50, 60), "audibility-quiet")
    assert near > two > four


def test_at_one_metre_the_index_of_flat_losses() -> None:
    # Computed with speech-intelligibility-index 1.0.2: flat 30 dB 0.7015; by octaves flat 40 dB 0.3942.
    assert indices(ear(*[30] * 6), "audibility-quiet")[0] == pytest.approx(0.7015, abs=0.0001)
    found = next(one for one in audibility(row_of(ear(*[40] * 6), "right"), "right") if one.code == "audibility-quiet")
    assert found.named("index_by_octaves") == pytest.approx(0.3942, abs=0.0001)


def test_noise_as_loud_as_the_speech_leaves_a_normal_ear_about_half() -> None:
    # Speech and noise of one level in every band give (0 + 15) / 30 by the standard; masking from lower bands adds to
    # the noise, a few hundredths at most.
    assert 0.45 < indices(ear(*[0] * 6), "audibility-noise")[0] < 0.5


def test_a_high_frequency_loss_takes_the_hissing_sounds_first() -> None:
    found = words(ear(10, 10, 10, 30, 70, 80))
    assert (found["voice"], found["hiss"]) == (HEARD, NOT_HEARD)


def test_a_region_may_be_heard_in_part() -> None:
    assert words(ear(*[35] * 6))["voice"] == PARTLY


def test_without_a_needed_frequency_nothing_is_said_but_what_is_missing() -> None:
    found = findings(Audiogram(thresholds=ear(10, 10, 10, 10))).of("audibility-quiet")
    assert [(one.number, one.missing_hz) for one in found] == [(None, (4000,))]


def test_what_was_not_heard_can_only_lower_the_index() -> None:
    silent = (*ear(40, 40, 40, 40), value("right", 4000, 50, response=False))
    found = next(one for one in audibility(row_of(silent, "right"), "right") if one.code == "audibility-quiet")
    assert found.low is not None
    assert found.number is not None
    assert found.low < found.number == found.high


def test_a_value_to_look_at_gives_the_range() -> None:
    values = (*ear(30, 30, 30), asked("right", 2000, 40, "faint"), value("right", 4000, 50))
    found = next(one for one in audibility(row_of(values, "right"), "right") if one.code == "audibility-quiet")
    assert (found.standing, found.rests_on) == ("ask", (2000,))
    assert found.low is not None
    assert found.number is not None
    assert found.high is not None
    assert found.low < found.number < found.high
