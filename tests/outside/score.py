"""How well a reading says what a page says: the counts, and every single fault.

The words are the page record's. A value is right when ear, conduction, masking, aiding, measure, frequency, level and
response all are. *Silent* is a wrong, missing or invented threshold that no person is asked to look at.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import Literal

from octavo.interpret.record import PageRecord, Threshold

Kind = Literal["wrong", "missed", "invented"]
_Sameness = Callable[[Threshold], object]


@dataclass(frozen=True, slots=True)
class Fault:
    """One threshold that was not read as the page has it; ``truth`` is None where it was invented."""

    kind: Kind
    silent: bool
    truth: Threshold | None
    reading: Threshold | None

    def __str__(self) -> str:
        told = " to ".join(in_words(one) for one in (self.truth, self.reading) if one is not None)
        return f"{'SILENT ' if self.silent else ''}{self.kind}: {told}"


@dataclass(frozen=True, slots=True)
class Score:
    """Counts of thresholds over one or more files; scores add up.

    ``within_5`` are all in order but a level at most 5 dB off (the exact ones among them); ``sure`` are right and
    stand as sure; ``total`` are the true thresholds. ``exact + wrong + missed == total``.
    """

    exact: int = 0
    within_5: int = 0
    missed: int = 0
    invented: int = 0
    silent: int = 0
    sure: int = 0
    total: int = 0
    faults: tuple[Fault, ...] = ()

    @property
    def wrong(self) -> int:
        """Thresholds that were read, but not as the page has them."""
        return self.total - self.exact - self.missed

    def __add__(self, other: Score) -> Score:
        return Score(
            self.exact + other.exact,
            self.within_5 + other.within_5,
            self.missed + other.missed,
            self.invented + other.invented,
            self.silent + other.silent,
            self.sure + other.sure,
            self.total + other.total,
            self.faults + other.faults,
        )


def score(records: Sequence[PageRecord], truth: Iterable[Threshold]) -> Score:
    """Hold the reading of one file against what stands on it.

    Parameters
    ----------
    records : sequence of PageRecord
        The reading; empty where reading ended in an error (which is loud, so that nothing missed is silent).
    truth : iterable of Threshold
        What the file says; standing and evidence are not looked at.

    Returns
    -------
    Score
        The counts and the faults.

    Notes
    -----
    A reading and a true value belong together when they are equal; then, among those left, when they differ in level
    or response alone (nearest level first), in masking or aiding beside, and last when they stand at one place
    (frequency and level) and differ in ear or conduction. A mark read at another frequency is a missed and an invented
    one. So one misread mark is one wrong value, and no fault can hide another.
    """
    left, read = list(truth), [one for record in records for gram in record.audiograms for one in gram.thresholds]
    total, nothing_read = len(left), not read
    right = _pair(left, read, _all_of_it)
    level_off = _pair(left, read, _slot)
    wrong = level_off + _pair(left, read, _mark) + _pair(left, read, _spot)
    faults = [Fault("wrong", reading.standing == "sure", true, reading) for true, reading in wrong]
    faults += [Fault("missed", not _is_asked(one, records, nothing_read), one, None) for one in left]
    faults += [Fault("invented", one.standing == "sure", None, one) for one in read]
    near = [t for t, r in level_off if t.response == r.response and abs(t.level_db_hl - r.level_db_hl) <= 5]
    return Score(
        exact=len(right),
        within_5=len(right) + len(near),
        missed=len(left),
        invented=len(read),
        silent=sum(fault.silent for fault in faults),
        sure=sum(reading.standing == "sure" for _, reading in right),
        total=total,
        faults=tuple(faults),
    )


def in_words(one: Threshold) -> str:
    """Name a value for a person: ``right air masked 1000 Hz 35 dB``, ``?`` where it is to be asked for."""
    parts = [one.ear, one.conduction, "masked" if one.masked else "", "aided" if one.aided else ""]
    parts += ["" if one.measure == "threshold" else one.measure, f"{one.frequency_hz:g} Hz", f"{one.level_db_hl:g} dB"]
    parts += ["" if one.response else "no response", "?" if one.standing == "ask" else ""]
    return " ".join(part for part in parts if part)


def _all_of_it(one: Threshold) -> object:
    return _slot(one), one.level_db_hl, one.response


def _slot(one: Threshold) -> object:
    return one.ear, one.conduction, one.masked, one.aided, one.measure, one.frequency_hz


def _mark(one: Threshold) -> object:
    return one.ear, one.conduction, one.measure, one.frequency_hz


def _spot(one: Threshold) -> object:
    return one.frequency_hz, one.level_db_hl


def _pair(truth: list[Threshold], read: list[Threshold], same: _Sameness) -> list[tuple[Threshold, Threshold]]:
    """Take the pairs that are the same out of both lists, nearest levels first."""
    close = [
        (abs(t.level_db_hl - r.level_db_hl), t.response != r.response, i, j)
        for i, t in enumerate(truth)
        for j, r in enumerate(read)
        if same(t) == same(r)
    ]
    pairs: list[tuple[int, int]] = []
    for _, _, i, j in sorted(close):
        if all(i != a and j != b for a, b in pairs):
            pairs.append((i, j))
    out = [(truth[i], read[j]) for i, j in pairs]
    taken_truth, taken_read = {i for i, _ in pairs}, {j for _, j in pairs}
    truth[:] = [one for i, one in enumerate(truth) if i not in taken_truth]
    read[:] = [one for j, one in enumerate(read) if j not in taken_read]
    return out


def _is_asked(missed: Threshold, records: Sequence[PageRecord], nothing_read: bool) -> bool:
    """Tell whether a person will look for the missed value.

    Either a value or a remark with the code ``missing-expected`` names its ear and conduction, or nothing at all was
    read and the page stands as ask.
    """
    if nothing_read:
        return all(record.standing == "ask" for record in records)
    wanted = missed.ear, missed.conduction
    by_remark = any(
        remark.code == "missing-expected" and (remark.ear, remark.conduction) == wanted
        for record in records
        for remark in record.remarks
    )
    return by_remark or any(
        "missing-expected" in value.why_ask and (value.ear, value.conduction) == wanted
        for record in records
        for gram in record.audiograms
        for value in gram.thresholds
    )
