"""The same test on two pages of a file: what both show must be the same."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from ...interpret.record import Audiogram, PageRecord, Threshold

CODE = "pages-differ"
Key = tuple[str, str, bool, bool, str, int]


def same_test_twice(records: Sequence[PageRecord]) -> tuple[PageRecord, ...]:
    """Hold the pages of one patient's file against each other.

    Parameters
    ----------
    records : sequence of PageRecord
        Pages of one patient, in order.

    Returns
    -------
    tuple of PageRecord
        The same pages. Where two audiograms of one known date, on two pages, give one value two levels, both stand as
        ``ask``, and their pages with them.
    """
    found = [list(record.audiograms) for record in records]
    for i, record in enumerate(records):
        for j, one in enumerate(record.audiograms):
            others = [o for k, other in enumerate(records) if k != i for o in other.audiograms]
            twins = [o for o in others if one.tested_on is not None and o.tested_on == one.tested_on]
            found[i][j] = _held(one, twins)
    return tuple(_with(record, tuple(audiograms)) for record, audiograms in zip(records, found, strict=True))


def _held(one: Audiogram, twins: Sequence[Audiogram]) -> Audiogram:
    levels: dict[Key, set[tuple[float, bool]]] = {}
    for twin in twins:
        for t in twin.thresholds:
            levels.setdefault(_key(t), set()).add((t.level_db_hl, t.response))
    values = tuple(
        _doubted(t) if levels.get(_key(t), {(t.level_db_hl, t.response)}) != {(t.level_db_hl, t.response)} else t
        for t in one.thresholds
    )
    return replace(one, thresholds=values)


def _key(t: Threshold) -> Key:
    return t.ear, t.conduction, t.masked, t.aided, t.measure, round(t.frequency_hz)


def _doubted(value: Threshold) -> Threshold:
    return replace(value, standing="ask", why_ask=tuple(dict.fromkeys((*value.why_ask, CODE))))


def _with(record: PageRecord, audiograms: tuple[Audiogram, ...]) -> PageRecord:
    asks = any(t.standing == "ask" for a in audiograms for t in a.thresholds)
    return replace(record, audiograms=audiograms, standing="ask" if asks else record.standing)
