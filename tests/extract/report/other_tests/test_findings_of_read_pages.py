"""The findings on speech, middle ear and emissions follow from pages that were read, and keep their doubt."""

from __future__ import annotations

from printed_by_hand import read

from octavo.interpret.findings import findings
from octavo.interpret.record import Audiogram, Threshold

TONES = tuple(
    Threshold(ear, "air", False, hz, 25, standing="sure", probability=1.0)
    for ear in ("right", "left")
    for hz in (500, 1000, 2000, 4000)
)
PAGE = """
Speech audiometry
                 Right        Left
SRT (dB HL)      25           55
WRS (%)          92           48
Level (dB HL)    65           70
Words            25           25

Tympanometry
                           Right        Left
Type                       A            B
Peak pressure (daPa)       -15          NP
Static admittance (mmho)   0.8          NP
Ear canal volume (mL)      1.1          1.0

Acoustic reflexes
dB HL                500 Hz    1000 Hz   2000 Hz
Probe right, ipsi    85        90        85
Probe right, contra  NR        NR        NR
Probe left, ipsi     NR        NR        NR
Probe left, contra   85        90        85

PTA (0.5, 1, 2 kHz)  R: 25 dB HL  L: 40 dB HL
"""


def audiogram() -> Audiogram:
    (found,) = read(PAGE).into((Audiogram(thresholds=TONES),))
    return found


def test_speech_findings_follow_from_a_read_page() -> None:
    found = findings(audiogram())
    # 92 and 48 % of 25 words differ: Thornton and Raffin 1978 give 72 to 100 % for 92 (their table, 25 words)
    assert [one.word for one in found.of("word-recognition-between-ears")] == ["different"]
    # Brandy 2002: within 6 dB good, beyond 12 dB poor
    assert {one.ear: one.word for one in found.of("srt-agreement") if "Brandy" in one.rule} == {
        "right": "good",
        "left": "poor",
    }


def test_middle_ear_findings_follow_from_a_read_page() -> None:
    found = findings(audiogram())
    assert {one.ear for one in found.of("tympanogram-type")} == {"right", "left"}
    # reflexes absent whenever the left ear hears the sound (textbook chapter)
    assert [one.word for one in found.of("reflex-pattern")] == ["whenever the left ear is stimulated"]


def test_a_printed_average_that_the_values_do_not_give_is_told() -> None:
    found = findings(audiogram()).of("printed-average-differs")
    assert [(one.ear, one.standing) for one in found] == [("left", "sure")]


def test_findings_on_a_value_that_asks_ask_too() -> None:
    (doubtful,) = read(PAGE.replace("WRS (%)", "WRS    ")).into((Audiogram(thresholds=TONES),))
    assert {one.standing for one in findings(doubtful).of("word-recognition")} == {"ask"}
