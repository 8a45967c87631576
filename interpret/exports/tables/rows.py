"""From a record to the rows of its tables."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from ...record import Audiogram, PageRecord
from .columns import FINDING_COLUMNS

Cell = str | float | int | bool | None
Row = tuple[Cell, ...]
"""One value a column, in the order of the columns."""

_APART = ";"
_IN_PAGE = 5
"""So many columns say which audiogram of which page a row belongs to."""


def threshold_rows(record: PageRecord) -> Iterator[Row]:
    """Give one row a threshold, in the order of the record; the columns are ``THRESHOLD_COLUMNS``."""
    for number, audiogram in enumerate(record.audiograms, 1):
        place = _place(record, audiogram, number)
        for t in audiogram.thresholds:
            seen = t.seen
            at = (None, None) if seen is None or seen.at is None else seen.at
            yield (
                *place, record.source.taken_by, audiogram.symbol_set, t.ear, t.conduction, t.masked, t.aided,
                t.measure, t.frequency_hz, t.level_db_hl, t.response, t.standing, t.probability,
                _APART.join(t.why_ask) or None, None if seen is None else seen.chart, *at,
                None if seen is None else seen.frequency_hz, None if seen is None else seen.level_db_hl,
            )  # fmt: skip


def finding_rows(record: PageRecord) -> Iterator[Row]:
    """Give one row a finding that stands in the record; the columns are ``FINDING_COLUMNS``."""
    for number, audiogram in enumerate(record.audiograms, 1):
        place = _place(record, audiogram, number)
        for found in audiogram.findings.get("found", ()):
            yield (*place, *(_cell(found, column.name) for column in FINDING_COLUMNS[_IN_PAGE:]))


def _place(record: PageRecord, audiogram: Audiogram, number: int) -> Row:
    return record.source.name, record.source.sha256, record.source.page, number, audiogram.tested_on


def _cell(found: dict[str, Any], name: str) -> Cell:
    if name in ("low", "high"):
        low, high = found.get("range", (None, None))
        return low if name == "low" else high
    if name == "at_least":
        return bool(found.get(name))
    value = found.get(name)
    if isinstance(value, list):
        return _APART.join(f"{one:g}" if isinstance(one, int | float) else str(one) for one in value)
    if isinstance(value, dict):
        return _APART.join(f"{key}={number:g}" for key, number in value.items())
    return value
