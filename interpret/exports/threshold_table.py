"""The thresholds of one ear as a table of plain text, in the trade's form."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from ..record import Ear, Threshold

WIDTH = 100
INDENT = 2
"""What is printed is at most 100 characters wide; a table leaves room to be set in by two."""

EAR_NAMES: dict[Ear, str] = {
    "right": "Right ear",
    "left": "Left ear",
    "both": "Both ears together (loudspeaker)",
    "unspecified": "Ear not named",
}
"""The ears in the order in which they are shown."""

_CONDUCTION_ORDER = ("air", "bone", "field")
_MEASURES = {"threshold": "", "mcl": "most comfortable", "ucl": "uncomfortable"}
_USUAL_HZ = (250, 500, 1000, 2000, 4000, 8000)


@dataclass(frozen=True, slots=True)
class Signs:
    """The signs that stand in the cells of a table."""

    no_response: str
    ask: str
    nothing: str


SIGNS = Signs(no_response="↓", ask="?", nothing="·")
ASCII_SIGNS = Signs(no_response="v", ask="?", nothing=".")

Row = tuple[int, str, bool, bool]


def frequency_label(hz: float) -> str:
    """Write a frequency as the trade does on a chart: 250, 750, 1k, 1.5k, 8k, 12.5k."""
    return f"{hz:g}" if hz < 1000 else f"{hz / 1000:g}k"


def level_label(threshold: Threshold, signs: Signs = SIGNS) -> str:
    """Write a level as it stands in a cell: ``35``, ``35?`` to be checked, ``110↓`` no response at that level."""
    arrow = "" if threshold.response else signs.no_response
    return f"{threshold.level_db_hl:g}{arrow}{signs.ask if threshold.standing == 'ask' else ''}"


def kind_label(threshold: Threshold) -> str:
    """Name what was measured: ``air``, ``bone, masked``, ``field, aided``, ``air, uncomfortable``."""
    words = (
        threshold.conduction,
        "masked" if threshold.masked else "",
        "aided" if threshold.aided else "",
        _MEASURES[threshold.measure],
    )
    return ", ".join(word for word in words if word)


def threshold_table(
    thresholds: Sequence[Threshold], ear: Ear, signs: Signs = SIGNS, *, named: Callable[[Threshold], str] | None = None
) -> list[str]:
    """Lay out the values of one ear.

    Parameters
    ----------
    thresholds : sequence of Threshold
        All values of one audiogram.
    ear : str
        Whose values.
    signs : Signs
        What stands for no response, a value to check, and no value.
    named : callable, optional
        Names the kind of a value at the head of its row; in English by default.

    Returns
    -------
    list of str
        Lines of at most 98 characters: a head with the frequencies, then a row for each kind of value; where the
        frequencies do not fit, a second block below. Empty where the ear has no value. Two values for one place stand
        side by side with a slash.
    """
    here = [t for t in thresholds if t.ear == ear]
    if not here:
        return []
    rows = sorted({_row(t): (named or kind_label)(t) for t in here}.items())
    usual = _USUAL_HZ if ear in ("right", "left") else ()
    columns = sorted({*usual, *(t.frequency_hz for t in here)})
    cells = {
        (row, hz): _cell([t for t in here if (_row(t), t.frequency_hz) == (row, hz)], signs)
        for row, _ in rows
        for hz in columns
    }
    label_width = max(len("Hz"), *(len(label) for _, label in rows)) + 2
    width = max(7, *(len(cell) + 1 for cell in cells.values()))
    fits = max(1, (WIDTH - INDENT - label_width) // width)
    lines: list[str] = []
    for start in range(0, len(columns), fits):
        block = columns[start : start + fits]
        lines += [""] if lines else []
        lines.append("Hz".ljust(label_width) + "".join(_aligned(frequency_label(hz)).rjust(width) for hz in block))
        for row, label in rows:
            lines.append(label.ljust(label_width) + "".join(cells[row, hz].rjust(width) for hz in block))
    return lines


def _cell(values: Sequence[Threshold], signs: Signs) -> str:
    if len(values) == 1:
        value = values[0]
        number = f"{value.level_db_hl:g}"
        return _aligned(number, level_label(value, signs).removeprefix(number))
    return "/".join(level_label(t, signs) for t in values) or _aligned(signs.nothing)


def _aligned(number: str, signs: str = "") -> str:
    """Leave room for two signs, so that the numbers of a column stand below one another."""
    return f"{number}{signs:<2}"


def _row(threshold: Threshold) -> Row:
    return (
        _CONDUCTION_ORDER.index(threshold.conduction),
        threshold.measure.replace("threshold", ""),
        threshold.aided,
        threshold.masked,
    )
