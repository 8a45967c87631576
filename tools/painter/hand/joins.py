"""Joining lines by hand: freehand or with a ruler, through the marks or up to them."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

import numpy as np

from ..patient import Tone
from ..pen import XY
from ..sheet import Sheet
from .filling import Filling, JoinHabit, Tool
from .marks import draw_stroke
from .nib import Nib


def draw_hand_joins(
    sheet: Sheet,
    filling: Filling,
    placed: Sequence[tuple[Tone, XY]],
    height: float,
    rng: np.random.Generator,
) -> None:
    """Join the air marks of each ear, broken where nothing was heard, and record every line drawn.

    Where a frequency has both a masked and an unmasked mark, the line goes through the masked one, which holds.
    """
    for ear, habit in zip(("right", "left"), filling.joins, strict=True):
        if habit == "none":
            continue
        best: dict[float, tuple[Tone, XY]] = {}
        for tone, at in placed:
            fits = (tone.ear, tone.conduction, tone.measure) == (ear, "air", "threshold")
            if fits and (tone.frequency_hz not in best or tone.masked):
                best[tone.frequency_hz] = (tone, at)
        tool = filling.right if ear == "right" else filling.left
        run: list[XY] = []
        for hz in sorted(best):
            tone, at = best[hz]
            if tone.response:
                run.append(at)
                continue
            draw_run(sheet, run, habit, filling, tool, height, rng)
            run = []
        draw_run(sheet, run, habit, filling, tool, height, rng)


def draw_run(
    sheet: Sheet,
    run: Sequence[XY],
    habit: JoinHabit,
    filling: Filling,
    tool: Tool,
    height: float,
    rng: np.random.Generator,
) -> None:
    """Join marks at places in points, by one ear's habit and pen; one mark alone is not joined."""
    if len(run) < 2:
        return
    kind = tool.nib.kind
    nib = Nib(kind, max(tool.nib.width * filling.join_width, 0.4), 0.1, 0.1, skips=tool.nib.skips, fades=tool.nib.fades)
    miss = 0.0 if habit == "ruler" and filling.joins_stop else filling.join_miss * height
    points = [(x + float(rng.normal(0, miss)), y + float(rng.normal(0, miss))) for x, y in run]
    lines = [list(pair) for pair in pairwise(points)] if filling.joins_stop or habit == "ruler" else [points]
    for line in lines:
        whole = _shortened(line, 0.5 * height, rng) if filling.joins_stop else line
        if len(whole) < 2:
            continue
        if habit == "dashed":
            drawn = _bent(whole, filling.writer.bow, rng)
            dash = [float(v) for v in rng.uniform(0.6, 1.5, 8) * rng.uniform(2.5, 5)]
            sheet.pen.runs([(drawn, tool.colour, nib.width, dash)])
        elif habit == "ruler":
            drawn = draw_stroke(sheet.pen, whole, 0.0, nib, tool.colour, rng)
        else:
            bent = _bent(whole, filling.writer.bow, rng)
            drawn = draw_stroke(sheet.pen, bent, 0.35, nib, tool.colour, rng, filling.writer.tremor * height)
        sheet.joins.append(tuple(sheet.fraction(at) for at in drawn))


def _bent(line: Sequence[XY], bow: float, rng: np.random.Generator) -> list[XY]:
    """Bend every piece of a line a little, and put places along it."""
    out = [line[0]]
    for (x0, y0), (x1, y1) in pairwise(line):
        bend = float(np.clip(rng.normal(0, 0.4 * bow), -0.05, 0.05))
        for share in (0.33, 0.67, 1.0):
            rise = bend * 4 * share * (1 - share)
            out.append((x0 + (x1 - x0) * share + rise * (y0 - y1), y0 + (y1 - y0) * share + rise * (x1 - x0)))
    return out


def _shortened(line: Sequence[XY], radius: float, rng: np.random.Generator) -> list[XY]:
    """Cut a straight piece off near its marks, now and then a little too early or too late."""
    (x0, y0), (x1, y1) = line[0], line[-1]
    length = math.hypot(x1 - x0, y1 - y0)
    first, last = (radius * float(rng.uniform(0.7, 1.4)) / max(length, 1e-6) for _ in range(2))
    if first + last > 0.85:
        return []
    return [
        (x0 + (x1 - x0) * first, y0 + (y1 - y0) * first),
        (x1 - (x1 - x0) * last, y1 - (y1 - y0) * last),
    ]
