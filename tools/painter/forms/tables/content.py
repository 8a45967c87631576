"""What goes into printed tables: invented tests, slips of the pen, and the truth of what is printed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from .....interpret.record import Audiogram, Seen
from ...chart.chance import pick
from ...chart.convention import true_threshold
from ...patient import TestPlan, Tone, hearing_test
from ...sheet import Sheet
from ...truth import PaintedCell
from ..form import BOTH
from .printed import Cell
from .wording import Signs

MASKED_SIGNS = ("row", "none", "*", "m", "[]", "()")
UNHEARD_SIGNS = ("+", ">", "NR", "bare", "down")
UNTESTED_SIGNS = ("", "-", "–", "DNT", "CNT", "n.t.")


def any_test(rng: np.random.Generator, frequencies: Sequence[float], *, bone: float, field: float = 0.0) -> list[Tone]:
    """Invent a test for a table; ``bone`` and ``field`` are the odds of each."""
    plan = TestPlan(
        tuple(frequencies), (-10, 120), ears=BOTH, field=bool(rng.random() < field), busy=float(rng.uniform(0.2, 0.9))
    )
    tones = hearing_test(rng, plan)
    wanted = {"air", "field"} | ({"bone"} if rng.random() < bone else set())
    return [tone for tone in tones if tone.conduction in wanted and tone.measure == "threshold"]


def any_signs(rng: np.random.Generator, *, arrows: bool, masked: Sequence[str] = MASKED_SIGNS) -> Signs:
    """Choose how cells are written; ``arrows`` where the face has one."""
    unheard = [sign for sign in UNHEARD_SIGNS if arrows or sign != "down"]
    return Signs(pick(rng, masked), pick(rng, unheard), pick(rng, UNTESTED_SIGNS))


def with_slip(rng: np.random.Generator, tones: Sequence[Tone], odds: float) -> list[Tone]:
    """Give the results with one level typed wrong, at these odds."""
    found = list(tones)
    if found and rng.random() < odds:
        k = int(rng.integers(len(found)))
        level = found[k].level_db_hl
        off = [step for step in (-20, -10, -5, 5, 10, 20) if -10 <= level + step <= 120]
        found[k] = replace(found[k], level_db_hl=level + pick(rng, off))
    return found


def with_lost_mark(rng: np.random.Generator, tones: Sequence[Tone], odds: float) -> list[Tone]:
    """Give the results with one left out, at these odds."""
    found = list(tones)
    if len(found) > 4 and rng.random() < odds:
        found.pop(int(rng.integers(len(found))))
    return found


def stated(sheet: Sheet, cell: Cell, signs: Signs) -> PaintedCell:
    """Give the truth of a cell: what its table says, which is no masking where it does not tell it."""
    threshold = None
    if cell.tone is not None and (cell.tone.response or signs.unheard != "bare"):
        masked = cell.tone.masked and signs.masked != "none"
        seen = Seen(None, sheet.fraction(cell.at), None, None)
        threshold = replace(true_threshold(cell.tone, cell.tone.ear, seen), masked=masked)
    return PaintedCell(cell.text, sheet.fraction(cell.at), threshold)


def record(sheet: Sheet, date: str, cells: Sequence[Cell], signs: Signs) -> None:
    """Add an audiogram that only a table states."""
    sheet.audiograms.append(Audiogram(tested_on=date))
    for cell in cells:
        threshold = stated(sheet, cell, signs).threshold
        if threshold is not None:
            sheet.add_threshold(len(sheet.audiograms) - 1, threshold)


def keep(sheet: Sheet, cells: Sequence[Cell], signs: Signs) -> None:
    """Remember the cells of a table beside a chart."""
    sheet.cells += [stated(sheet, cell, signs) for cell in cells]
