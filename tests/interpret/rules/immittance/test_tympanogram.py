"""Types of tympanograms by their numbers."""

from __future__ import annotations

from dataclasses import replace

import pytest
from invented_tests import trace

from octavo.interpret.finding import Finding
from octavo.interpret.findings import findings
from octavo.interpret.record import Audiogram, Immittance, Tympanogram
from octavo.interpret.rules.immittance.tympanogram import ADULTS, TYPES, type_of
from octavo.interpret.settings import Settings


def of(code: str, one: Tympanogram, age: float | None = None, *, sure: bool = True) -> tuple[Finding, ...]:
    tests = Immittance("right", one, standing="sure" if sure else "ask")
    return findings(Audiogram(immittance=(tests,)), Settings(age_years=age)).of(code)


# The five cases of a textbook chapter; the last by the ranges of Margolis and Heller 1987 [memory].
@pytest.mark.parametrize(
    ("one", "word"),
    [
        (trace(0, 0.2, 1.1), "As"), (trace(0, 2.0, 1.1), "Ad"),
        (trace(None, None, 1.0, peak=False), "B, normal volume"),
        (trace(None, None, 3.5, peak=False), "B, large volume"), (trace(-200, 0.6, 1.0), "C"),
        (trace(-20, 0.8, 1.1), "A"),
    ],
)  # fmt: skip
def test_the_textbook_s_cases(one: Tympanogram, word: str) -> None:
    assert type_of(one, ADULTS) == word


@pytest.mark.parametrize(
    ("one", "word"),
    [
        (trace(-100, 0.3, 1.0), "A"), (trace(-105, 0.3, 1.0), "C"), (trace(50, 1.4, 1.0), "A"),
        (trace(60, 0.8, 1.0), "peak at positive pressure"), (trace(0, 0.29, 1.0), "As"), (trace(0, 1.41, 1.0), "Ad"),
        (trace(None, None, 0.3, peak=False), "B, small volume"),
        (trace(None, None, None, peak=False), "B, volume not stated"),
        (trace(0, None, 1.0), "A, height not stated"), (trace(None, None, 1.0, peak=None), None),
        (trace(None, None, 1.0), None),
    ],
)  # fmt: skip
def test_the_edges_of_the_types(one: Tympanogram, word: str | None) -> None:
    assert type_of(one, ADULTS) == word


def test_children_have_ranges_of_their_own() -> None:
    # ASHA 1990, 3 to 5 years [memory]: 0.22 to 0.81 mmho.
    assert of("tympanogram-type", trace(0, 0.25, 0.7), 4)[0].word == "A"
    assert of("tympanogram-type", trace(0, 0.25, 0.7), 40)[0].word == "As"


def test_numbers_to_look_at_could_give_any_type() -> None:
    [found] = of("tympanogram-type", trace(0, 0.8, 1.0), sure=False)
    assert (found.word, found.could_be, found.standing) == ("A", TYPES, "ask")


@pytest.mark.parametrize(("printed", "told"), [("Type A", 0), ("A(s)", 1), ("b", 1), ("normal", 0), (None, 0)])
def test_a_printed_type_that_the_numbers_do_not_give_is_told(printed: str | None, told: int) -> None:
    found = of("tympanogram-type-differs", replace(trace(0, 0.8, 1.0), printed_type=printed))
    assert len(found) == told


def test_another_probe_tone_has_no_type() -> None:
    assert of("tympanogram-type", replace(trace(0, 0.8, 1.0), probe_hz=1000)) == ()


# Margolis and Heller 1987; ASHA 1990 [memory].
@pytest.mark.parametrize(("volume", "word"), [(0.5, "small"), (0.6, "normal"), (1.5, "normal"), (2.0, "large")])
def test_the_volume_is_held_against_the_adults_range(volume: float, word: str) -> None:
    [found] = of("ear-canal-volume", trace(0, 0.8, volume))
    assert (found.word, found.unit) == (word, "mL")


@pytest.mark.parametrize(("width", "word"), [(50, "narrow"), (51, "normal"), (114, "normal"), (120, "wide")])
def test_the_width_is_held_against_the_adults_range(width: float, word: str) -> None:
    assert of("tympanogram-width", replace(trace(0, 0.8, 1.0), width_dapa=width))[0].word == word


# ASHA 1997 [memory]: from 1 year refer below 0.3 mmho or beyond 200 daPa; infants 0.2 and 235.
@pytest.mark.parametrize(
    ("age", "height", "width", "word"),
    [(4, 0.3, 200, "pass"), (4, 0.29, 100, "refer"), (4, 0.5, 205, "refer"), (0.5, 0.2, 235, "pass"),
     (0.5, 0.19, 90, "refer")],
)  # fmt: skip
def test_children_are_screened(age: float, height: float, width: float, word: str) -> None:
    [found] = of("tympanogram-screening", replace(trace(0, height, 0.7), width_dapa=width), age)
    assert found.word == word


def test_a_flat_trace_refers_a_child_and_adults_are_not_screened() -> None:
    flat = trace(None, None, 0.7, peak=False)
    assert of("tympanogram-screening", flat, 4)[0].word == "refer"
    assert of("tympanogram-screening", flat, 40) == of("tympanogram-screening", flat) == ()
