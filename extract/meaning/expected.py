"""Notice what is missing: a gap in an ear's row of marks, or ink too weak to be taken for a mark."""

from __future__ import annotations

from collections import defaultdict

from ...interpret.reasons import remark
from ...interpret.record import Conduction, Ear, Remark, Threshold
from ...interpret.symbols import Meaning
from ..chart import Mark
from ..sheet import Sheet
from .convention import Convention

OCTAVES = (250.0, 500.0, 1000.0, 2000.0, 4000.0, 8000.0)


def gaps(thresholds: tuple[Threshold, ...]) -> tuple[Remark, ...]:
    """Name the octaves that an ear's row leaves out between its first and last, and what only the other ear has.

    Common practice: both ears are tested at the same frequencies.
    """
    rows: dict[tuple[Ear, Conduction], set[float]] = defaultdict(set)
    for t in thresholds:
        if t.measure == "threshold" and t.ear in ("right", "left"):
            rows[(t.ear, t.conduction)].add(t.frequency_hz)
    found = []
    for (ear, conduction), seen in rows.items():
        other: set[float] = rows.get(("left" if ear == "right" else "right", conduction), set())
        inner = {hz for hz in OCTAVES if min(seen) <= hz <= max(seen)}
        found += [
            remark("missing-expected", ear=ear, conduction=conduction, frequency_hz=hz)
            for hz in sorted((inner | other) - seen)
        ]
    return tuple(found)


def weak_marks(sheet: Sheet, chart: int, weak: tuple[Mark, ...], convention: Convention) -> tuple[Remark, ...]:
    """Name the ear and conduction that a weak mark would have, as possibly missing there."""
    found = []
    for mark in weak:
        meaning = convention.symbol_set.meanings.get(mark.sight.glyph)
        for ear in _ears(meaning, mark):
            conduction = meaning.conduction if meaning else "air"
            found.append(
                remark(
                    "missing-expected", ear=ear, conduction=conduction, chart=chart, at=sheet.on_page(*mark.sight.at)
                )
            )
    return tuple(found)


def _ears(meaning: Meaning | None, mark: Mark) -> tuple[Ear, ...]:
    if meaning is None:
        return ("right", "left")
    if meaning.ear == "by-colour":
        return {"red": ("right",), "blue": ("left",), "neutral": ("right", "left")}[mark.sight.ink]
    return (meaning.ear,)
