"""Tympanograms that stand on the page as drawn curves alone: where the trace peaks, and how high. They always ask."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
import numpy.typing as npt

from ....interpret.record import Immittance, Side, Tympanogram
from ...sheet import Sheet
from ..layout.context import Layout
from ..layout.ears import heads_in
from ..layout.tokens import Row, Token
from .evidence import on_page

FEWEST = 4
"""So many labels make an axis of pressures; two make one of admittances."""
EVEN = 0.25
"""Labels of an axis stand evenly, but for this part of their step."""
LEAST_STEP_DAPA, MOST_ADMITTANCE = 50.0, 10.0
BESIDE, OVER = 6.0, 4.0
"""Labels of the admittance stand at most so many heights left of the plot, an ear's name so many above it."""
INK = 0.5
"""A pixel this dark, between the plot's paper and its darkest ink, is the trace's; grids are lighter."""
EDGE = 0.02
"""The plot's frame is left out: this part of its sides."""
LOW = 0.12
"""A trace that the plot's lower edge hides comes out of it within this part of the plot's height."""
WHOLE = 0.97
"""Share of the columns between its ends in which a trace must be seen."""
RULED = 0.85
"""A row or column that is dark over more than this part is a printed line."""
FLAT_MMHO = 0.1
"""A trace that rises by less has no peak (octavo's choice: instruments print none below about this)."""
PRESSURE_STEP = 5.0
CHANCE = 0.7
"""Of a value from a curve, by hand count on training pages; it asks in any case."""


@dataclass(frozen=True, slots=True)
class _Axis:
    """A straight axis: ``value = at_zero + per_px * place``, over its printed range, and its labels."""

    at_zero: float
    per_px: float
    first: float
    last: float
    tokens: tuple[Token, ...]

    def value(self, place: float) -> float:
        return self.at_zero + self.per_px * place


def read_curves(layout: Layout, sheet: Sheet, known: Sequence[Side]) -> tuple[Immittance, ...]:
    """Measure the tympanograms of the ears of which no numbers were read.

    Parameters
    ----------
    layout : Layout
        The page's lines.
    sheet : Sheet
        The page they stand on.
    known : sequence of str
        The ears whose numbers the page prints.

    Returns
    -------
    tuple of Immittance
        One an ear, all standing as ``ask``; an ear that no plot names is left out.
    """
    found: dict[Side, Immittance] = {}
    for number, row in enumerate(layout.rows):
        for pressures in _pressure_axes(layout, number, row):
            ear = _ear(layout, number, pressures)
            heights = _height_axis(layout, number, pressures)
            if ear is None or heights is None or ear in known or ear in found:
                continue
            trace = _trace(sheet, pressures, heights)
            if trace is not None:
                box = on_page(sheet, (*pressures.tokens, *heights.tokens))
                found[ear] = Immittance(
                    ear, trace, (), "ask", ("from-curve",), probability=CHANCE, box=box
                )  # fmt: skip
    return tuple(found[ear] for ear in ("right", "left") if ear in found)


def _pressure_axes(layout: Layout, number: int, row: Row) -> Iterator[_Axis]:
    """Find the rows of pressures on a line: evenly spaced, with nought and below it, daPa beside or under them."""
    near = layout.rows[max(number - 1, 0) : number + 3]
    if not any(token.unit == "daPa" for line in near for token in line.tokens):
        return
    runs: list[list[Token]] = [[]]
    for token in row.tokens:
        if token.kind == "number" and token.value is not None and token.unit in (None, "daPa"):
            if runs[-1] and token.value <= (runs[-1][-1].value or 0.0):
                runs.append([])
            runs[-1].append(token)
    for run in runs:
        axis = _axis(run, [token.middle for token in run], FEWEST)
        values = [token.value or 0.0 for token in run]
        if axis is not None and min(values) < 0 <= max(values) and values[1] - values[0] >= LEAST_STEP_DAPA:
            yield axis


def _axis(tokens: Sequence[Token], places: Sequence[float], fewest: int) -> _Axis | None:
    """Fit a straight axis to labels; nothing where they do not stand evenly by their values."""
    if len(tokens) < fewest:
        return None
    values = np.array([token.value or 0.0 for token in tokens])
    at = np.array(places)
    if len(set(values)) < len(values) or np.ptp(at) == 0:
        return None
    per_px, at_zero = np.polyfit(at, values, 1)
    step = min(abs(a - b) for a, b in pairwise(values))
    if np.abs(at_zero + per_px * at - values).max() > EVEN * step:
        return None
    return _Axis(float(at_zero), float(per_px), float(at.min()), float(at.max()), tuple(tokens))


def _height_axis(layout: Layout, number: int, pressures: _Axis) -> _Axis | None:
    """Find the column of admittances left of a plot: rising from nought, just above the pressures."""
    high = layout.rows[number].height
    column: list[Token] = []
    for above in range(number - 1, -1, -1):
        beside = [
            token
            for token in layout.rows[above].tokens
            if token.kind == "number" and -high < pressures.first - token.box[2] < BESIDE * high
        ]
        if len(beside) != 1 or not 0 <= (beside[0].value or 0.0) <= MOST_ADMITTANCE:
            break
        if column and (beside[0].value or 0.0) <= (column[-1].value or 0.0):
            break
        column.append(beside[0])
    if not column or (column[0].value or 0.0) > (column[-1].value or 0.0) / 2:
        return None
    axis = _axis(column, [(token.box[1] + token.box[3]) / 2 for token in column], 2)
    return axis if axis is not None and axis.per_px < 0 else None


def _ear(layout: Layout, number: int, pressures: _Axis) -> Side | None:
    """Find the ear that is named above a plot, between its ends."""
    high = layout.rows[number].height
    top: float | None = None
    for above in range(number - 1, -1, -1):
        row = layout.rows[above]
        for head in heads_in(row.tokens):
            if pressures.first - BESIDE * high < head.token.middle < pressures.last + high and head.ear != "both":
                return head.ear
        if any(token.kind == "number" for token in row.tokens):
            top = row.top
        elif top is not None and top - row.bottom > OVER * high:
            return None
    return None


def _trace(sheet: Sheet, pressures: _Axis, heights: _Axis) -> Tympanogram | None:
    """Follow the darkest ink over the plot, and take its top; its foot at the highest pressure is the ear canal."""
    left, right, top, bottom = (round(v) for v in (pressures.first, pressures.last, heights.first, heights.last))
    wide, tall = right - left, bottom - top
    if wide < 20 or tall < 20:
        return None
    x0, x1 = left + max(2, round(EDGE * wide)), right - max(2, round(EDGE * wide))
    y0, y1 = max(top, 0) + max(2, round(EDGE * tall)), bottom - max(2, round(EDGE * tall))
    plot = sheet.pixels[y0:y1, max(x0, 0) : x1].min(axis=2).astype(np.float64)
    if not plot.size:
        return None
    paper, ink = float(np.percentile(plot, 90)), float(plot.min())
    if paper - ink < 60:
        return None
    dark = plot < paper - INK * (paper - ink)
    for token in heights.tokens:  # a ruled line at a label; elsewhere a straight row may be a flat trace
        at = round((token.box[1] + token.box[3]) / 2) - y0
        ruled = [row for row in range(max(at - 3, 0), min(at + 4, len(dark))) if dark[row].mean() > RULED]
        dark[ruled] = False
    line = _middles(dark)
    line = _completed(line, float(bottom - y0))
    if line is None:
        return None
    levels = heights.at_zero + heights.per_px * (line + y0)
    foot = float(np.nanmedian(levels[-max(3, len(levels) // 20) :]))
    rise = float(np.nanmax(levels)) - foot
    if rise < FLAT_MMHO:
        return Tympanogram(has_peak=False)
    crest = np.flatnonzero(levels >= np.nanmax(levels) - 0.03 * rise)
    peak = pressures.value(max(x0, 0) + float(crest.mean()))
    return Tympanogram(True, PRESSURE_STEP * round(peak / PRESSURE_STEP), round(rise, 2))


def _completed(line: npt.NDArray[np.float64], bottom: float) -> npt.NDArray[np.float64] | None:
    """Lay what is hidden of a trace on the plot's lower edge, where its ends run into that; else give nothing."""
    at = np.flatnonzero(~np.isnan(line))
    if len(at) < FEWEST:
        return None
    first, last = int(at[0]), int(at[-1])
    if len(at) < WHOLE * (last - first + 1):
        return None
    hidden = [end for end, is_hidden in ((first, first > 0), (last, last < len(line) - 1)) if is_hidden]
    if any(bottom - line[end] > LOW * bottom for end in hidden):
        return None
    whole = np.interp(np.arange(len(line)), at, line[at])
    whole[:first] = whole[last + 1 :] = bottom
    return whole


def _middles(ink: npt.NDArray[np.bool_]) -> npt.NDArray[np.float64]:
    """Give the middle row of the ink in every column, NaN where there is none; lines over the whole plot are left out.

    Parameters
    ----------
    ink : ndarray, shape (height, width), bool
        Where the plot is dark.
    """
    ink = ink.copy()
    ink[:, ink.mean(axis=0) > RULED] = False
    rows = np.arange(len(ink), dtype=np.float64)[:, None]
    count = ink.sum(axis=0)
    with np.errstate(invalid="ignore", divide="ignore"):
        return np.where(count > 0, (ink * rows).sum(axis=0) / count, np.nan)
