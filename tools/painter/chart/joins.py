"""Joining lines: the marks of one ear from frequency to frequency, broken where nothing was heard."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

from ..patient import Tone
from ..pen import XY
from ..sheet import Sheet
from .axes import Axes
from .look import Look, Rule


def draw_joins(sheet: Sheet, axes: Axes, look: Look, placed: Sequence[tuple[Tone, XY]]) -> None:
    """Join the air marks, and where the look says so the bone marks, of each ear; record every line drawn.

    Where a frequency has both a masked and an unmasked mark, the line goes through the masked one, which holds.
    """
    strokes = look.strokes
    for number, ear in enumerate(("right", "left")):
        for conduction, rules in (("air", strokes.join), ("bone", strokes.bone_join)):
            rule = rules[number]
            if rule is None:
                continue
            best: dict[float, tuple[Tone, XY]] = {}
            for tone, at in placed:
                if (tone.ear, tone.conduction, tone.measure) != (ear, conduction, "threshold"):
                    continue
                if tone.frequency_hz not in best or tone.masked:
                    best[tone.frequency_hz] = (tone, at)
            colour = strokes.neutral if strokes.one_ink else (strokes.red, strokes.blue)[number]
            _draw(sheet, axes, look, [best[hz] for hz in sorted(best)], Rule(rule.width, colour, rule.dash))


def _draw(sheet: Sheet, axes: Axes, look: Look, row: Sequence[tuple[Tone, XY]], rule: Rule) -> None:
    runs: list[list[XY]] = [[]]
    for tone, at in row:
        if tone.response:
            runs[-1].append(at)
        else:
            runs.append([])
    radius = look.strokes.height_db * axes.db_pt * 0.5 + 1.0 if look.strokes.join_stops else 0.0
    for run in runs:
        for line in _trimmed(run, radius) if radius else [run]:
            if len(line) > 1:
                sheet.pen.corners(round_ends=False, round_joins=True)
                sheet.pen.path(line, rule.colour, rule.width, rule.dash)
                sheet.joins.append(tuple(sheet.fraction(at) for at in line))


def _trimmed(run: Sequence[XY], radius: float) -> list[list[XY]]:
    lines = []
    for (x0, y0), (x1, y1) in pairwise(run):
        length = math.hypot(x1 - x0, y1 - y0)
        if length > 2 * radius + 1:
            share = radius / length
            dx, dy = (x1 - x0) * share, (y1 - y0) * share
            lines.append([(x0 + dx, y0 + dy), (x1 - dx, y1 - dy)])
    return lines
