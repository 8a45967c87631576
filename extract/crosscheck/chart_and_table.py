"""The marks of a chart against the numbers of a table of the same test."""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from importlib.resources import files

from ...interpret.reasons import remark
from ...interpret.record import Audiogram, Remark, Threshold
from ..table.cells.cells import Key
from ..table.reading import Table

CODE, LACKING = "chart-and-table-differ", "missing-expected"
STAYS = frozenset({"test-date-uncertain"})
"""Doubts that no table of the same page can remove: it may be of the other test as well."""
OF_MASKING = frozenset({"masking-uncertain", "symbol-set-unknown"})
"""Doubts that a table removes only where it tells masking: two symbol sets may differ in that alone."""
LIKELY = 0.97
"""A number that asks of itself alone, and is right with this chance, may contradict a mark. It confirms none: what asks
makes nothing sure."""
EVEN = 0.5
"""In a table that repeats most of the chart, a number that is right more likely than not may contradict a mark,
whatever makes it ask: what its rows and columns mean is no matter of doubt there."""
OF_READING = frozenset({"low-certainty", "two-readings"})
"""Doubts of how a number is read, not of what it belongs to."""
BELONGS = 0.6
"""A table is of that test of which it repeats more than this share; where it repeats less, it may be of another date
or of ears the other way round, and what is equal by chance is no confirmation."""
FEWEST_COMMON = 3

Group = tuple[str, str, bool, str, int]
"""Ear, conduction, aided, measure and frequency: what is left of a value without its masking."""


@dataclass(frozen=True, slots=True)
class Checked:
    """Audiograms after a check, and what the check has to say."""

    audiograms: tuple[Audiogram, ...]
    remarks: tuple[Remark, ...] = ()


@lru_cache(maxsize=1)
def agreeing_right() -> float:
    """Load the share of right ones among chart values that a sure table value repeats (``certainty.json``)."""
    data = json.loads(files("octavo.extract.crosscheck").joinpath("certainty.json").read_text("utf-8"))
    return float(data["agreeing_right"])


def against_tables(audiograms: tuple[Audiogram, ...], tables: Sequence[Table], *, check: bool = True) -> Checked:
    """Hold the charts of a page against its tables.

    Parameters
    ----------
    audiograms : tuple of Audiogram
        As the charts show them.
    tables : sequence of Table
        The page's tables.
    check : bool
        False leaves all values as they are: to measure what the check is worth.

    Returns
    -------
    Checked
        A value that a table's sure value repeats in every respect stands as ``sure``, with the chance that such values
        are right, where the table repeats most values of the chart. One that a sure value contradicts stands as
        ``ask``, and a remark names both levels. What the table states and the chart does not show is added as a value
        to look at, without a chart; what it states in doubt, where the chart shows nothing of that ear, conduction and
        frequency. A table of a test that no chart shows is an audiogram of its own, to be looked at.

    Notes
    -----
    A table that tells no masking confirms no masking. Where none is sure, a value that asks but is likely (in a table
    that repeats most of the chart: likelier than not) contradicts and confirms nothing; what is doubtful beyond that
    says nothing. A masked mark where such a table has the unmasked value alone, and signs for masked ones, is doubted.
    """
    found = list(audiograms)
    remarks: list[Remark] = []
    apart: list[Audiogram] = []
    for table in tables if check else ():
        number = _belongs_to(audiograms, table)
        if number is not None and not _of_another_test(audiograms[number], table, tables):
            found[number], said = _checked(found[number], table)
            remarks += said
        elif audiograms and not any(_repeated(audiogram, table) > BELONGS for audiogram in audiograms):
            asking = tuple(replace(t, standing="ask", why_ask=("test-date-uncertain",)) for t in table.thresholds)
            apart.append(Audiogram(thresholds=asking))
    return Checked((*found, *apart), tuple(remarks))


def group_of(value: Threshold | Key) -> Group:
    """Give what a value is of, but for its masking."""
    return value.ear, value.conduction, value.aided, value.measure, round(value.frequency_hz)


def _belongs_to(audiograms: Sequence[Audiogram], table: Table) -> int | None:
    """Find the test that a table repeats; None where that is not clear."""
    shares = [_repeated(audiogram, table) for audiogram in audiograms]
    if len(shares) == 1:
        return 0
    best = max(range(len(shares)), key=lambda i: shares[i], default=None)
    rivals = sum(share > BELONGS for share in shares)
    return best if best is not None and rivals == 1 and shares[best] > BELONGS else None


def _repeated(audiogram: Audiogram, table: Table, fewest: int = FEWEST_COMMON) -> float:
    """Give the share of the values of both that are equal; 0 where there are too few."""
    here = {group_of(t): t.level_db_hl for t in audiogram.thresholds}
    common = [t for t in table.thresholds if group_of(t) in here]
    equal = sum(here[group_of(t)] == t.level_db_hl for t in common)
    return equal / len(common) if len(common) >= fewest else 0.0


def _of_another_test(audiogram: Audiogram, table: Table, tables: Sequence[Table]) -> bool:
    """Say whether a table states in other numbers what another table of the page has as the chart shows it."""
    mine, groups = _repeated(audiogram, table), {group_of(t) for t in table.thresholds}
    return mine <= BELONGS and any(
        _repeated(audiogram, other) > BELONGS and any(group_of(t) in groups for t in other.thresholds)
        for other in tables
        if other is not table
    )


def _checked(audiogram: Audiogram, table: Table) -> tuple[Audiogram, list[Remark]]:
    charted: dict[Group, list[Threshold]] = {}
    stated: dict[Group, list[Threshold]] = {}
    for value in audiogram.thresholds:
        charted.setdefault(group_of(value), []).append(value)
    for value in table.thresholds:
        stated.setdefault(group_of(value), []).append(value)
    values: list[Threshold] = []
    remarks: list[Remark] = []
    confirms = _repeated(audiogram, table, 1) > BELONGS
    for value in audiogram.thresholds:
        group = group_of(value)
        after, said = _held(value, charted[group], stated.get(group, []), table, confirms=confirms)
        values.append(after)
        remarks += said
    lacking = [
        t
        for group, some in stated.items()
        for t in some
        if not _shown(t, charted.get(group, []), audiogram.thresholds, some)
    ]
    values += [
        replace(t, standing="ask", why_ask=tuple(dict.fromkeys((LACKING, *t.why_ask))))
        for t in lacking
        if t.standing == "sure" or group_of(t) not in charted or (confirms and t.masked and t.probability > EVEN)
    ]
    remarks += [
        remark(LACKING, ear=k.ear, conduction=k.conduction, frequency_hz=k.frequency_hz)
        for k in table.unheard
        if group_of(k) not in charted and not _unnamed(k, audiogram.thresholds)
    ]
    return replace(audiogram, thresholds=tuple(values)), remarks


def _held(
    value: Threshold, siblings: Sequence[Threshold], stated: Sequence[Threshold], table: Table, *, confirms: bool
) -> tuple[Threshold, list[Remark]]:
    """Hold one value of a chart against what the table states of its ear, conduction and frequency."""
    sure = [t for t in stated if t.standing == "sure"]
    certain = sure or [t for t in stated if _likely(t) or (confirms and t.probability > EVEN)]
    if not certain:
        return _held_against_signs(value, siblings, stated, table)
    same = [t for t in certain if t.masked == value.masked or not table.tells_masking]
    twins = [o for o in siblings if o.masked != value.masked]
    if any(_equal(t, value) for t in same):
        either = not table.tells_masking and any(_equal(t, o) for t in same for o in twins)
        confirmed = confirms and sure and not either
        return (_confirmed(value, masking=table.tells_masking) if confirmed else value), []
    if not same:  # the table states the other masking alone
        twin = next((t for t in certain if _equal(t, value)), None)
        if twin is not None and not any(o.masked == twin.masked for o in siblings):
            return _doubted(value, LACKING if twin.masked else CODE), [_remark(value, twin)]  # two marks on each other
        instead = value.masked and sure and table.tells_masking and not table.rows_by_masking
        return (_doubted(value), [_remark(value, None)]) if instead or _untested(value, table) else (value, [])
    if not table.tells_masking and any(_equal(t, o) for t in same for o in twins):
        return value, []  # it repeats the masked value beside this one, or the unmasked one
    # of a masked value and an unmasked one beside it, a table without signs has the masked one
    code = LACKING if not table.tells_masking and not value.masked and not twins else CODE
    return _doubted(value, code), [_remark(value, same[0])]


def _likely(stated: Threshold) -> bool:
    return stated.probability >= LIKELY and set(stated.why_ask) <= OF_READING


def _held_against_signs(
    value: Threshold, siblings: Sequence[Threshold], stated: Sequence[Threshold], table: Table
) -> tuple[Threshold, list[Remark]]:
    """Hold a value against a cell that gives no level: not tested, or not heard at a level that is not told."""
    unheard = [k for k in table.unheard if group_of(k) == group_of(value) and _same_masking(k.masked, value, table)
               and not _other_than(value, k, siblings)]  # fmt: skip
    if (unheard and value.response) or (not unheard and not stated and _untested(value, table)):
        return _doubted(value), [_remark(value, None)]
    return value, []


def _other_than(value: Threshold, stated: Key, siblings: Sequence[Threshold]) -> bool:
    """Say whether a sign of no response tells of the masked value beside this one, which was not heard, as it says."""
    return stated.masked and not value.masked and any(o.masked and not o.response for o in siblings)


def _untested(value: Threshold, table: Table) -> bool:
    return any(group_of(k) == group_of(value) and _same_masking(k.masked, value, table) for k in table.untested)


def _same_masking(masked: bool, value: Threshold, table: Table) -> bool:
    return masked == value.masked or not table.rows_by_masking


def _equal(one: Threshold, other: Threshold) -> bool:
    return one.level_db_hl == other.level_db_hl and one.response == other.response


def _shown(
    value: Threshold, charted: Sequence[Threshold], all_of_them: Sequence[Threshold], stated: Sequence[Threshold]
) -> bool:  # fmt: skip
    """Say whether a chart shows a value of the table: with its masking, or its level where no other value has it."""
    told = {t.masked for t in stated}
    same = any(t.masked == value.masked or (_equal(t, value) and t.masked not in told) for t in charted)
    return same or _unnamed(value, all_of_them)


def _unnamed(value: Threshold | Key, charted: Sequence[Threshold]) -> bool:
    """Say whether a mark that names no ear may show a value."""
    mine = ("unspecified", value.conduction, round(value.frequency_hz))
    return any((t.ear, t.conduction, round(t.frequency_hz)) == mine for t in charted)


def _confirmed(value: Threshold, *, masking: bool) -> Threshold:
    stays = STAYS if masking else STAYS | OF_MASKING
    left = tuple(code for code in value.why_ask if code in stays)
    chance = max(value.probability, agreeing_right())
    return replace(value, probability=chance, why_ask=left, standing="ask" if left else "sure")


def _doubted(value: Threshold, code: str = CODE) -> Threshold:
    return replace(value, standing="ask", why_ask=tuple(dict.fromkeys((*value.why_ask, CODE, code))))


def _remark(value: Threshold, stated: Threshold | None) -> Remark:
    """Name both readings."""
    where = stated.seen.at if stated is not None and stated.seen is not None else None
    said = remark(CODE, ear=value.ear, conduction=value.conduction, frequency_hz=value.frequency_hz, at=where)
    shows = f"The chart shows {_level(value)}, the table {_level(stated) if stated is not None else 'no such value'}."
    return replace(said, text=shows)


def _level(value: Threshold) -> str:
    masked = ", masked" if value.masked else ""
    return f"{value.level_db_hl:g} dB HL{masked}{'' if value.response else ', not heard'}"
