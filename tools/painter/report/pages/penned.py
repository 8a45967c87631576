"""Printed forms with their facts filled in by hand."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from .....interpret.record import Box
from ...chart.chance import any_look, any_scale
from ...forms.form import A4
from ...forms.training import any_busyness, any_paper
from ...hand.filling import Filling, any_filling
from ...hand.people import a_filling
from ...hand.words.letters import ALPHABET
from ...hand.words.writing import write
from ...pen import XY
from ...sheet import Sheet
from ..cells import Cell, Told
from ..scribe import Scribe, Setting, fractions
from .bench import draw_bench_chart
from .page import ReportPage, begin


class PennedScribe(Scribe):
    """Writes every stated value by hand, as far as the hand has its letters; labels and other words are printed."""

    def __init__(self, sheet: Sheet, told: Told, setting: Setting, filling: Filling, rng: np.random.Generator) -> None:
        super().__init__(sheet, told, setting)
        self._filling, self._rng = filling, rng

    def value_width(self, cell: Cell) -> float:
        """Leave a hand the room it needs."""
        return super().value_width(cell) * (1.0 if cell.boxes else 1.8)

    def ink(self, at: XY, text: str) -> Box:
        """Write a value by hand."""
        if not set(text) <= ALPHABET:
            return super().ink(at, text)
        filling, size = self._filling, self.setting.size
        hand, tool = (filling.writer, filling.script), filling.dark
        box = write(self.sheet.pen, at, text, size * 0.85, hand, tool.nib, tool.colour, self._rng)
        assert box is not None
        return fractions(self.sheet, box)


def _filled_in(page: ReportPage, filling: Filling) -> ReportPage:
    """Have a page's facts written by hand; its notes are left out, as too long for a line."""
    told = replace(page.told, cells=tuple(cell for cell in page.told.cells if not cell.long))
    return replace(page, told=told, scribe=PennedScribe(page.sheet, told, page.setting, filling, page.rng))


def fact_pen(rng: np.random.Generator, mono: bool) -> Sheet:
    """Printed form with its facts by hand on lines, above a printed chart."""
    page = begin(rng, mono, "train", any_paper(rng), size=float(rng.uniform(8.5, 10.5)), busy=0.5)
    page = _filled_in(page, any_filling(rng, mono=mono))
    page.head(letterhead=False, title=True)
    page.cells("ruled" if rng.random() < 0.7 else "table", columns=2)
    scale = any_scale(rng, high=0.0, equal=0.1)
    look = any_look(rng, scale, size=float(rng.uniform(6.5, 8.5)), mono=mono)
    page.chart(scale, look, (page.left, page.y + 8, page.right, page.y + 320), busy=any_busyness(rng))
    return page.finish()


def slate(rng: np.random.Generator, mono: bool) -> Sheet:
    """Printed form with its facts by another hand in boxes, above a printed chart."""
    page = begin(rng, mono, "bench", A4, size=10, busy=0.5)
    page = _filled_in(page, a_filling(rng, "one", mono=mono))
    page.head(letterhead=False, title=True, centred=True)
    page.cells("boxed", columns=2)
    draw_bench_chart(page, 320, 0)
    return page.finish()
