"""Training pages with all their facts: the order of the parts is the family's, their looks are left to chance."""

from __future__ import annotations

import numpy as np

from ...chart.chance import any_look, any_scale, pick
from ...forms.training import any_busyness, any_paper
from ...sheet import Sheet
from ..fields import Layout
from .page import ReportPage, begin

_LAYOUTS: tuple[Layout, ...] = ("columns", "boxed", "above", "running", "table")


def _page(
    rng: np.random.Generator, mono: bool, *, size: tuple[float, float] = (7.5, 10), busy: float = 0.7
) -> ReportPage:
    return begin(rng, mono, "train", any_paper(rng), size=float(rng.uniform(*size)), busy=busy)


def _head(page: ReportPage) -> None:
    rng = page.rng
    page.head(letterhead=bool(rng.random() < 0.6), title=bool(rng.random() < 0.7), centred=bool(rng.random() < 0.3))


def _chart(page: ReportPage, height: float, *, left: float | None = None, right: float | None = None) -> None:
    rng = page.rng
    scale = any_scale(rng, high=0.0, equal=0.1)
    look = any_look(rng, scale, size=float(rng.uniform(6, 8.5)), mono=page.sheet.pen.mono)
    box = (page.left if left is None else left, page.y + 8, page.right if right is None else right, page.y + height)
    page.chart(scale, look, box, busy=any_busyness(rng))


def fact_lines(rng: np.random.Generator, mono: bool) -> Sheet:
    """Report with its facts in lines above one chart, averages and speech below."""
    page = _page(rng, mono)
    _head(page)
    page.cells(pick(rng, ("columns", "running")), columns=int(rng.integers(1, 4)))
    _chart(page, height := float(rng.uniform(270, 340)))
    page.y += height + 14
    if rng.random() < 0.6:
        page.averages()
    if page.has_room(90) and rng.random() < 0.8:
        page.speech()
    return page.finish()


def fact_boxes(rng: np.random.Generator, mono: bool) -> Sheet:
    """Report with its facts in ruled boxes over the page's width."""
    page = _page(rng, mono, size=(7.5, 9))
    _head(page)
    page.cells(pick(rng, ("boxed", "table")), columns=int(rng.integers(2, 5)))
    _chart(page, height := float(rng.uniform(270, 330)))
    page.y += height + 14
    if rng.random() < 0.5:
        page.averages()
    if page.has_room(100) and rng.random() < 0.7:
        page.speech()
    return page.finish()


def fact_side(rng: np.random.Generator, mono: bool) -> Sheet:
    """Report with labels above their values, a narrow chart with the averages at its side."""
    page = _page(rng, mono, size=(7.5, 9))
    _head(page)
    page.cells("above", columns=int(rng.integers(3, 5)))
    height = float(rng.uniform(280, 330))
    top, edge = page.y, page.right - 165
    _chart(page, height, right=edge)
    page.y = top + 30
    page.averages(left=edge + 12, width=150)
    if page.y < top + height - 90:
        page.speech(left=edge + 12, width=150)
    page.y = max(page.y, top + height + 14)
    if page.has_room(150) and rng.random() < 0.5:
        page.tympanometry("none")
    return page.finish()


def fact_ears(rng: np.random.Generator, mono: bool) -> Sheet:
    """Report with a chart for each ear under its facts."""
    page = _page(rng, mono)
    _head(page)
    page.cells(pick(rng, _LAYOUTS), columns=3)
    scale = any_scale(rng, high=0.0, equal=0.1)
    look = any_look(rng, scale, size=float(rng.uniform(5.5, 7)), mono=mono)
    box = (page.left - 10, page.y + 8, page.right + 10, page.y + 270)
    page.chart(scale, look, box, busy=any_busyness(rng), apart=True)
    page.y += 285
    for part in (page.averages, page.speech):
        if page.has_room(100) and rng.random() < 0.8:
            part()
    if page.has_room(170) and rng.random() < 0.5:
        page.reflexes()
    return page.finish()


def fact_foot(rng: np.random.Generator, mono: bool) -> Sheet:
    """Report with who it is about above the chart and all else below it."""
    page = _page(rng, mono)
    _head(page)
    cells = page.told.cells
    count = int(rng.integers(2, 5))
    page.cells(pick(rng, _LAYOUTS), columns=2, only=cells[:count])
    _chart(page, height := float(rng.uniform(250, 300)))
    page.y += height + 12
    if rng.random() < 0.5:
        page.averages()
    page.cells(pick(rng, _LAYOUTS), columns=int(rng.integers(1, 3)), only=cells[count:])
    if page.has_room(90) and rng.random() < 0.5:
        page.speech()
    return page.finish()


def fact_tests(rng: np.random.Generator, mono: bool) -> Sheet:
    """Report with a small chart and every other test."""
    page = _page(rng, mono, size=(7, 8.5), busy=0.5)
    _head(page)
    page.cells(pick(rng, _LAYOUTS), columns=3)
    _chart(page, height := float(rng.uniform(210, 240)))
    page.y += height + 10
    parts = [page.averages, page.speech, lambda: page.tympanometry("none"), page.reflexes]
    for part in parts:
        if page.has_room(130):
            part()
    return page.finish()


def fact_words(rng: np.random.Generator, mono: bool) -> Sheet:
    """Report of words and numbers alone, without a chart."""
    page = _page(rng, mono, size=(8.5, 11), busy=0.8)
    _head(page)
    page.cells(pick(rng, _LAYOUTS), columns=int(rng.integers(1, 3)))
    page.open()
    page.speech()
    if rng.random() < 0.8:
        page.tympanometry("none")
    if page.has_room(160) and rng.random() < 0.6:
        page.reflexes()
    return page.finish()


def fact_middle(rng: np.random.Generator, mono: bool) -> Sheet:
    """Middle-ear report: tympanograms as numbers, as curves or as both, and reflexes."""
    page = _page(rng, mono, size=(8, 10), busy=0.6)
    _head(page)
    page.cells(pick(rng, _LAYOUTS), columns=2)
    page.open()
    page.tympanometry(pick(rng, ("none", "beside", "only"), (0.2, 0.6, 0.2)))
    if page.has_room(170):
        page.reflexes()
    return page.finish()


def fact_emissions(rng: np.random.Generator, mono: bool) -> Sheet:
    """Report of otoacoustic emissions, a table for each ear."""
    page = _page(rng, mono, size=(8, 10), busy=0.6)
    _head(page)
    page.cells(pick(rng, _LAYOUTS), columns=2)
    page.open()
    page.emissions()
    return page.finish()
