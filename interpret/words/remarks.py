"""A page's remarks in words: what is said again and again of one row of marks is said once."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ..exports.threshold_table import EAR_NAMES
from ..reasons import REASONS
from ..record import PageRecord, Point, Remark

_MOST_PLACES = 3
"""So many places are named; a person finds the rest on the page."""


def remarks_told(record: PageRecord) -> Iterator[str]:
    """Say the remarks of a page.

    Parameters
    ----------
    record : PageRecord
        The reading of one page.

    Yields
    ------
    str
        One text for all remarks of one code on one ear, conduction and chart, with their frequencies and places, and
        what to do; in the order of the first of each.
    """
    together: dict[tuple[object, ...], list[Remark]] = {}
    for remark in record.remarks:
        if record.audiograms or remark.code != "no-audiogram":
            key = remark.code, remark.text, remark.ear, remark.conduction, remark.chart
            together.setdefault(key, []).append(remark)
    for alike in together.values():
        where = ", ".join(_where(alike))
        first = alike[0]
        do = f" {REASONS[first.code].do}." if first.code in REASONS else ""
        yield f"{where + ': ' if where else ''}{first.text}{do}"


def place_told(at: Point) -> str:
    """Say where on a page something stands."""
    return f"{at[0]:.0%} across, {at[1]:.0%} down"


def listed(words: Sequence[str]) -> str:
    """Join words as a sentence does: ``a, b and c``."""
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"


def _where(alike: Sequence[Remark]) -> Iterator[str]:
    first = alike[0]
    if first.ear is not None:
        yield EAR_NAMES[first.ear]
    if first.conduction is not None:
        yield first.conduction
    frequencies = sorted({remark.frequency_hz for remark in alike if remark.frequency_hz is not None})
    if frequencies:
        yield f"{listed([f'{hz:g}' for hz in frequencies])} Hz"
    if first.chart is not None:
        yield f"chart {first.chart + 1}"
    places = list(dict.fromkeys(place_told(remark.at) for remark in alike if remark.at is not None))
    if places:
        more = len(places) - _MOST_PLACES
        yield "; ".join(places[:_MOST_PLACES]) + (f"; and {more} more" if more > 0 else "")
