"""Whether one ear is worse than the other, by several named criteria side by side: they often disagree."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from ...finding import Finding, standing_of
from ...record import Ear
from ...settings import Case
from ..doubt import Row, Span, row_of
from ..truth import (
    MET,
    NOT_MET,
    Spans,
    Truth,
    above,
    any_of,
    at_least,
    at_least_n,
    full_spans,
    judged,
    marked_spans,
    mean,
)

Test = Callable[[Spans], Truth]
"""From how much worse one ear is at each frequency (ranges, dB) to whether the criterion holds."""


@dataclass(frozen=True, slots=True)
class SymmetryRule:
    """One published criterion.

    Attributes
    ----------
    name : str
        Its published name.
    frequencies_hz : tuple of float
        The frequencies that it looks at, Hz.
    needs : {"all", "named", "tested"}
        ``all``: it cannot be applied where one of them is missing, as a mean cannot. ``named``: met by those that are
        there, but not denied while one is missing. ``tested``: it speaks of whatever was tested.
    test : callable
        The criterion for one ear being the worse one.
    checked : bool
        Its numbers were read in a public text, if only as quoted there.
    """

    name: str
    frequencies_hz: tuple[float, ...]
    test: Test
    needs: Literal["all", "named", "tested"] = "tested"
    checked: bool = True


def _any_reaching(edge: float) -> Test:
    return lambda worse: any_of(at_least(span, edge) for span in worse.values())


def _neighbours_reaching(frequencies_hz: tuple[float, ...], edge: float) -> Test:
    def test(worse: Spans) -> Truth:
        pairs = [(low, high) for low, high in pairwise(frequencies_hz) if low in worse and high in worse]
        return any_of(at_least(worse[low], edge) & at_least(worse[high], edge) for low, high in pairs)

    return test


def _two_beyond_15(worse: Spans) -> Truth:
    return at_least_n((above(span, 15) for span in worse.values()), 2)


def _neurosurgeons(worse: Spans) -> Truth:
    tested = sorted(worse)
    two = any_of(at_least(worse[low], 10) & at_least(worse[high], 10) for low, high in pairwise(tested))
    return two | any_of(at_least(span, 15) for span in worse.values())


def _mean_reaching_15(worse: Spans) -> Truth:
    return at_least(mean(worse.values()), 15)


_NICE_HZ = (500.0, 1000.0, 2000.0, 4000.0, 8000.0)
_USUAL_HZ = (250.0, 500.0, 1000.0, 2000.0, 3000.0, 4000.0, 6000.0, 8000.0)

SYMMETRY_RULES: tuple[SymmetryRule, ...] = (
    SymmetryRule("rule 3000, Saliba 2009", (3000,), _any_reaching(15), needs="all"),
    SymmetryRule("NICE NG98, 1.3.2", _NICE_HZ, _neighbours_reaching(_NICE_HZ, 15), needs="named"),
    SymmetryRule("15 dB at two frequencies, J Med Genet", _USUAL_HZ, _two_beyond_15),
    SymmetryRule("vestibular schwannoma guideline 2017, CNS", _USUAL_HZ, _neurosurgeons),
    SymmetryRule("AAO-HNS", (500, 1000, 2000, 3000), _mean_reaching_15, needs="all", checked=False),
    SymmetryRule("Sunderland", _USUAL_HZ, _neighbours_reaching(_USUAL_HZ, 20), checked=False),
    SymmetryRule("DOH, United Kingdom", (500, 1000, 2000, 4000), _any_reaching(20), needs="named", checked=False),
)
"""Saliba, Martineau and Chagnon 2009: abstract. NICE NG98 and CNS 2017: as quoted on public pages. J Med Genet: a
table of clinical parameters. The last three [memory]. Contiguous frequencies are those next to each other among what
was tested in both ears."""


def symmetry(right: Row, left: Row, rules: tuple[SymmetryRule, ...] = SYMMETRY_RULES) -> Iterator[Finding]:
    """Judge criteria, all by default, over the air thresholds of both ears.

    Yields
    ------
    Finding
        ``asymmetry``: for each criterion one finding of the worse ear where it is met or could be, else one of both
        ears; without a word where a missing or unheard frequency leaves it open.

    Notes
    -----
    The rules speak of sensorineural loss: a conductive difference is to be excluded first.
    """
    for rule in rules:
        here = [hz for hz in rule.frequencies_hz if hz in right and hz in left]
        missing = tuple(hz for hz in rule.frequencies_hz if hz not in here)
        if not here or (missing and rule.needs == "all"):
            yield Finding("asymmetry", rule.name, ear="both", missing_hz=missing)
            continue
        ours, others = {hz: right[hz] for hz in here}, {hz: left[hz] for hz in here}
        found = [
            one for one in (_of_ear(rule, ours, others, "right"), _of_ear(rule, others, ours, "left"))
            if one.word != NOT_MET or one.could_be
        ]  # fmt: skip
        if any(one.word == MET for one in found) or any(one.could_be or one.word is None for one in found):
            yield from found
            continue
        rests_on = tuple(hz for hz in here if right[hz].ask or left[hz].ask)
        # A frequency that was not tested in both ears could have met it.
        yield Finding(
            "asymmetry", rule.name, ear="both", word=None if missing and rule.needs == "named" else NOT_MET,
            missing_hz=missing, standing=standing_of(rests_on), rests_on=rests_on,
        )  # fmt: skip


def conclude(case: Case) -> Iterator[Finding]:
    """Give the findings that compare the two ears."""
    right, left = (row_of(case.audiogram.thresholds, ear) for ear in ("right", "left"))
    if right and left:
        yield from symmetry(right, left)


def _of_ear(rule: SymmetryRule, mine: Row, others: Row, ear: Ear) -> Finding:
    """Judge whether this ear is the worse one."""

    def test(here: Spans, there: Spans) -> Truth:
        return rule.test({hz: here[hz].minus(there[hz]) for hz in here})

    verdict = judged(test, mine, others)
    rests_on = tuple(hz for hz in mine if mine[hz].ask or others[hz].ask)
    marked, full = (_largest(spans(mine), spans(others), rule) for spans in (marked_spans, full_spans))
    return Finding(
        "asymmetry", rule.name, ear=ear, word=verdict.word, could_be=verdict.could_be, number=marked.low, unit="dB",
        low=full.low, high=full.high, standing=standing_of(rests_on), rests_on=rests_on,
        no_response_hz=tuple(hz for hz in mine if not (mine[hz].response and others[hz].response)),
    )  # fmt: skip


def _largest(here: Spans, there: Spans, rule: SymmetryRule) -> Span:
    """Give the number that decides: the mean difference, or the largest one."""
    worse = [here[hz].minus(there[hz]) for hz in here]
    if rule.test is _mean_reaching_15:
        return mean(worse)
    return Span(max(span.low for span in worse), max(span.high for span in worse))
