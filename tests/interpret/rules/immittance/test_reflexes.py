"""Acoustic reflexes and their pattern."""

from __future__ import annotations

from dataclasses import replace

import pytest
from invented_tests import reflex

from octavo.interpret.finding import Finding
from octavo.interpret.findings import findings
from octavo.interpret.record import Audiogram, Immittance, Reflex, Side


def of(code: str, *tests: Immittance) -> tuple[Finding, ...]:
    return findings(Audiogram(immittance=tests)).of(code)


def measured(ear: Side, *reflexes: Reflex) -> Immittance:
    return Immittance(ear, None, reflexes, "sure")


# Texts: 70 to 100 dB HL in normal ears [memory].
@pytest.mark.parametrize(
    ("level", "response", "word"), [(85, True, "present"), (100, True, "present"), (105, True, "elevated"),
                                    (110, False, "absent")],
)  # fmt: skip
def test_a_reflex_is_present_elevated_or_absent(level: float, response: bool, word: str) -> None:
    [found] = of("reflex-ipsilateral", measured("right", reflex("right", 1000, level, response=response)))
    assert (found.word, found.frequency_hz, found.number, found.at_least) == (word, 1000, level, not response)


def test_a_contralateral_reflex_is_that_of_the_stimulated_ear() -> None:
    [found] = of("reflex-contralateral", measured("left", reflex("right", 2000, 90)))
    assert found.ear == "right"


@pytest.mark.parametrize(("percent", "word"), [(49, "negative"), (50, "positive")])
def test_decay_by_half_is_positive(percent: float, word: str) -> None:
    # A textbook chapter: 0.5 or 1 kHz, a fall of 50 % or more within 10 s.
    [found] = of("reflex-decay", measured("right", reflex("left", 500, 90, decay=percent)))
    assert found.word == word
    assert of("reflex-decay", measured("right", reflex("left", 2000, 90, decay=percent))) == ()


def four(absent: set[tuple[Side, Side]]) -> tuple[Immittance, ...]:
    """Both ears stimulated and measured at three frequencies; the paths (stimulated, measured) named are absent."""
    sides: tuple[Side, Side] = ("right", "left")
    return tuple(
        measured(
            probe,
            *(
                reflex(
                    stimulus, hz, 110 if (stimulus, probe) in absent else 85, response=(stimulus, probe) not in absent
                )
                for stimulus in sides
                for hz in (500, 1000, 2000)
            ),
        )
        for probe in sides
    )


# A textbook chapter: absent whenever right is stimulated, afferent; whenever measured right, efferent or middle ear.
# The crossed ones alone by common teaching [memory].
@pytest.mark.parametrize(
    ("absent", "word"),
    [
        (set(), "all present"),
        ({("right", "right"), ("right", "left")}, "whenever the right ear is stimulated"),
        ({("left", "right"), ("left", "left")}, "whenever the left ear is stimulated"),
        ({("right", "right"), ("left", "right")}, "whenever measured in the right ear"),
        ({("right", "left"), ("left", "left")}, "whenever measured in the left ear"),
        ({("right", "left"), ("left", "right")}, "the crossed ones alone"),
        ({("right", "right"), ("right", "left"), ("left", "right"), ("left", "left")}, "all absent or elevated"),
        ({("right", "right")}, "no pattern of these"),
    ],
)  # fmt: skip
def test_the_pattern_is_named(absent: set[tuple[Side, Side]], word: str) -> None:
    [found] = of("reflex-pattern", *four(absent))
    assert (found.word, found.could_be) == (word, ())


def test_with_crossed_reflexes_alone_the_pattern_stays_open() -> None:
    tests = (
        measured("left", *(reflex("right", hz, 110, response=False) for hz in (500, 1000))),
        measured("right", *(reflex("left", hz, 85) for hz in (500, 1000))),
    )
    [found] = of("reflex-pattern", *tests)
    assert found.word is None
    assert found.could_be == ("whenever the right ear is stimulated", "whenever measured in the left ear")


def test_a_reflex_to_look_at_leaves_the_pattern_open() -> None:
    right, left = four(set())
    doubted = replace(right, reflexes=(replace(right.reflexes[0], standing="ask"), *right.reflexes[1:]))
    [found] = of("reflex-pattern", doubted, left)
    assert (found.word, found.standing) == ("all present", "ask")
    assert found.could_be == ("all present", "no pattern of these")


def test_one_path_alone_has_no_pattern() -> None:
    assert of("reflex-pattern", measured("right", reflex("right", 1000, 85))) == ()
