"""What must hold of the findings on speech, middle ear and emissions, whatever the tests say."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from typing import TypeVar

from hypothesis import given, settings
from hypothesis import strategies as st

from octavo.interpret.finding import Finding
from octavo.interpret.findings import findings
from octavo.interpret.record import (
    Audiogram,
    Ear,
    EmissionBand,
    Immittance,
    OtoacousticEmission,
    PrintedAverage,
    Reflex,
    Side,
    Speech,
    Threshold,
    Tympanogram,
)
from octavo.interpret.rules.speech.recognition import GRADES

SIDES: tuple[Side, Side] = ("right", "left")
OTHER: dict[str, Side] = {"right": "left", "left": "right"}
SCORE = st.integers(0, 25).map(lambda right: 4.0 * right)
LEVEL = st.integers(0, 20).map(lambda steps: 5.0 * steps)
STANDING = st.sampled_from(("sure", "sure", "sure", "ask"))
Test = TypeVar("Test", Speech, Immittance, OtoacousticEmission)


def speech_of(ear: Side) -> st.SearchStrategy[list[Speech]]:
    words = st.builds(
        Speech, st.just(ear), st.just("word-recognition"), LEVEL, SCORE, st.sampled_from((25, 50, None)),
        standing=STANDING,
    )  # fmt: skip
    srt = st.builds(Speech, st.just(ear), st.just("srt"), LEVEL, standing=STANDING)
    return st.tuples(st.lists(words, max_size=3), st.lists(srt, max_size=1)).map(lambda two: [*two[0], *two[1]])


def immittance_of(ear: Side) -> st.SearchStrategy[list[Immittance]]:
    trace = st.builds(
        Tympanogram, st.sampled_from((True, False, None)), st.none() | st.integers(-300, 100).map(float),
        st.none() | st.integers(0, 30).map(lambda n: n / 10), st.none() | st.integers(2, 40).map(lambda n: n / 10),
    )  # fmt: skip
    reflexes = st.lists(
        st.builds(Reflex, st.sampled_from(SIDES), st.sampled_from((500.0, 1000.0, 2000.0)), LEVEL, st.booleans(),
                  standing=STANDING), max_size=6,
    )  # fmt: skip
    one = st.builds(Immittance, st.just(ear), st.none() | trace, reflexes.map(tuple), STANDING)
    return st.lists(one, max_size=1)


def emissions_of(ear: Side) -> st.SearchStrategy[list[OtoacousticEmission]]:
    band = st.builds(EmissionBand, st.sampled_from((1000.0, 2000.0, 4000.0)), snr_db=st.none() | LEVEL)
    result = st.sampled_from(("pass", "refer", None))
    one = st.builds(
        OtoacousticEmission, st.just(ear), st.sampled_from(("dpoae", "teoae")),
        st.lists(band, max_size=3, unique_by=lambda b: b.frequency_hz).map(tuple), result, STANDING,
    )  # fmt: skip
    return st.lists(one, max_size=1)


@st.composite
def audiograms(draw: st.DrawFn) -> Audiogram:
    values = tuple(
        Threshold(ear, "air", False, hz, draw(LEVEL), response=draw(st.integers(0, 9)) > 0, standing=draw(STANDING))
        for ear in SIDES
        for hz in (500.0, 1000.0, 2000.0, 4000.0)
    )
    return Audiogram(
        thresholds=values,
        speech=tuple(one for ear in SIDES for one in draw(speech_of(ear))),
        immittance=tuple(one for ear in SIDES for one in draw(immittance_of(ear))),
        otoacoustic=tuple(one for ear in SIDES for one in draw(emissions_of(ear))),
        printed_averages=tuple(
            PrintedAverage(ear, (500.0, 1000.0, 2000.0), draw(LEVEL), standing=draw(STANDING)) for ear in SIDES
        ),
    )


def swapped(audiogram: Audiogram) -> Audiogram:
    return replace(
        audiogram,
        thresholds=tuple(replace(one, ear=OTHER[one.ear]) for one in audiogram.thresholds),
        speech=tuple(replace(one, ear=OTHER[one.ear]) for one in audiogram.speech),
        immittance=tuple(
            replace(
                one, ear=OTHER[one.ear],
                reflexes=tuple(replace(reflex, stimulus_ear=OTHER[reflex.stimulus_ear]) for reflex in one.reflexes),
            )
            for one in audiogram.immittance
        ),
        otoacoustic=tuple(replace(one, ear=OTHER[one.ear]) for one in audiogram.otoacoustic),
        printed_averages=tuple(replace(one, ear=OTHER[one.ear]) for one in audiogram.printed_averages),
    )  # fmt: skip


def word_swapped(word: str | None) -> str | None:
    if word is None:
        return None
    return word.replace("right", "#").replace("left", "right").replace("#", "left")


def told(finding: Finding, *, mirror: bool) -> tuple[object, ...]:
    ear: Ear | None = OTHER[finding.ear] if mirror and finding.ear in OTHER else finding.ear
    words = [finding.word, *sorted(finding.could_be)]
    number = None if finding.number is None else round(finding.number, 6)
    return (
        finding.code, finding.rule, ear, finding.frequency_hz, finding.standing, number,
        tuple(sorted(map(str, (word_swapped(word) if mirror else word for word in words)))),
    )  # fmt: skip


PARTS = (
    "srt",
    "word",
    "rollover",
    "tymp",
    "ear-canal",
    "reflex",
    "emissions",
    "printed",
    "ears-may",
    "refer",
    "implant",
)


def of_these(audiogram: Audiogram) -> list[Finding]:
    return [one for one in findings(audiogram).found if one.code.startswith(PARTS)]


@given(audiograms())
@settings(max_examples=50, deadline=None)
def test_swapped_ears_swap_every_finding(audiogram: Audiogram) -> None:
    here = Counter(told(one, mirror=True) for one in of_these(audiogram))
    assert here == Counter(told(one, mirror=False) for one in of_these(swapped(audiogram)))


def doubted(tests: tuple[Test, ...]) -> tuple[Test, ...]:
    return tuple(replace(one, standing="ask") for one in tests)


@given(audiograms())
@settings(max_examples=50, deadline=None)
def test_doubting_every_test_makes_no_finding_surer(audiogram: Audiogram) -> None:
    every = replace(
        audiogram,
        speech=doubted(audiogram.speech),
        immittance=doubted(audiogram.immittance),
        otoacoustic=doubted(audiogram.otoacoustic),
    )
    after: dict[tuple[object, ...], list[Finding]] = {}
    for one in of_these(every):
        after.setdefault((one.code, one.rule, one.ear, one.frequency_hz), []).append(one)
    for one in of_these(audiogram):
        others = after[one.code, one.rule, one.ear, one.frequency_hz]
        words = set(one.could_be) or ({one.word} if one.word is not None else set())
        assert any(words <= {*other.could_be, other.word} for other in others), one
        assert one.standing == "sure" or all(other.standing == "ask" for other in others)


@given(SCORE, SCORE)
def test_a_better_score_never_has_a_worse_grade(one: float, other: float) -> None:
    names = [name for name, _ in GRADES]

    def grade(score: float) -> int:
        speech = (Speech("right", "word-recognition", 60, score, 25, standing="sure"),)
        return names.index(str(findings(Audiogram(speech=speech)).of("word-recognition")[0].word))

    low, high = sorted((one, other))
    assert grade(low) >= grade(high)
