"""How sure a value of a table is, by what was seen of it; fitted to painted pages."""

from __future__ import annotations

import json
import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from importlib.resources import files
from typing import Literal

from .cells.cells import Cell

Way = Literal["given", "two-readings", "one-reading"]
"""How a table's words were read: they are the page's own, were read by two readers, or by one alone."""
EVIDENCE = (
    "print", "label", "print_fit", "label_fit", "agreed", "alone", "head", "name", "unlike",
)  # fmt: skip
"""What a value's chance is worked out from (``evidence_of``)."""
MOST_UNLIKE = 5.0
UNSEEN = -9.0


@dataclass(frozen=True, slots=True)
class Weighing:
    """Weights of the evidence, and the chance from which a value is sure: above 1 where none is."""

    weights: tuple[float, ...]
    constant: float
    sure_from: float

    def chance_of(self, evidence: Sequence[float]) -> float:
        """Give the chance that a value is right in all respects."""
        logit = self.constant + sum(w * e for w, e in zip(self.weights, evidence, strict=True))
        return 1 / (1 + math.exp(-min(max(logit, -30.0), 30.0)))


@dataclass(frozen=True, slots=True)
class Fitted:
    """How values in print and by hand are weighed, and the shares of right ones among those that are not.

    ``given`` is the share of right ones among values in a page's own words, ``doubted`` among those that something
    speaks against, or that only one reader saw.
    """

    in_print: Weighing
    by_hand: Weighing
    given: float
    doubted: float


@lru_cache(maxsize=1)
def fitted() -> Fitted:
    """Load what was fitted; ``certainty.json`` says to which pages."""
    data = json.loads(files("octavo.extract.table").joinpath("certainty.json").read_text("utf-8"))
    in_print, by_hand = (
        Weighing(tuple(float(one["weights"][name]) for name in EVIDENCE), one["constant"], one["sure_from"])
        for one in (data["in_print"], data["by_hand"])
    )
    return Fitted(in_print, by_hand, data["given"], data["doubted"])


def evidence_of(cells: Sequence[Cell]) -> list[tuple[float, ...]]:
    """Give what speaks for and against the level of each cell of a table, in the order of ``EVIDENCE``.

    Parameters
    ----------
    cells : sequence of Cell
        All cells of the table, row by row.

    Returns
    -------
    list of tuple of float
        For each cell: the logits of the value's chance by each network and how well it explains the picture; whether
        two readings agree, or there was but one; whether its frequency's or its name's readings differ; and how unlike
        its neighbours in the row it is, in steps of 10 dB.
    """
    found: list[tuple[float, ...]] = []
    for i, cell in enumerate(cells):
        look = cell.look
        logits = (look.as_print, look.as_label, look.print_fit, look.label_fit) if look else (UNSEEN,) * 4
        told = (float(bool(look and look.agreed)), float(bool(look and look.alone)))
        slips = (float(cell.head_slips), float(cell.name_slips))
        found.append((*logits, *told, *slips, _unlike(cells, i)))
    return found


def _unlike(cells: Sequence[Cell], at: int) -> float:
    """Say how far a level is from the nearer of its neighbours in its row, in steps of 10 dB."""
    cell = cells[at]
    near = [c for c in (*cells[max(at - 1, 0) : at], *cells[at + 1 : at + 2])
            if c.kind == "level" and (c.key.ear, c.key.conduction) == (cell.key.ear, cell.key.conduction)]  # fmt: skip
    if cell.level_db_hl is None or not near:
        return 0.0
    return min(min(abs(cell.level_db_hl - (c.level_db_hl or 0.0)) for c in near) / 10, MOST_UNLIKE)
