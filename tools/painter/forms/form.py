"""What all forms do: put a chart with its words into a box, invent its test, and add a key."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from ....interpret.record import Measure
from ....interpret.symbols import SYMBOL_SETS, Glyph
from ..chart.axes import INTER_OCTAVES, Axes, Scale, place
from ..chart.convention import plan_test
from ..chart.draw import draw_chart
from ..chart.key import KeyLook, draw_key, key_size
from ..chart.look import Look
from ..chart.ruling import room
from ..patient import TestedEar, Tone, hearing_test
from ..pen import XY, Pen
from ..sheet import Sheet

A4 = (595.28, 841.89)
LETTER = (612.0, 792.0)
Box = tuple[float, float, float, float]
BOTH: tuple[TestedEar, ...] = ("right", "left")


def new_sheet(size: tuple[float, float], *, mono: bool, landscape: bool = False) -> Sheet:
    """Begin a page of a paper size in points; ``mono`` leaves out every colour."""
    width, height = size
    return Sheet(Pen(height, width, mono=mono) if landscape else Pen(width, height, mono=mono))


def invent(
    rng: np.random.Generator,
    scale: Scale,
    look: Look,
    *,
    ears: tuple[TestedEar, ...] = BOTH,
    alone: bool = False,
    busy: float = 0.5,
    extras: float = 0.08,
    unnamed: float = 0.04,
) -> tuple[Tone, ...]:
    """Invent a test for charts of this scale and look.

    Parameters
    ----------
    rng : numpy.random.Generator
        All chance comes from it.
    scale, look : Scale, Look
        What the form can show.
    ears : tuple of str
        The ears that are tested.
    alone : bool
        Each ear has a chart of its own, so that a mark needs no colour to name its ear.
    busy : float
        How much is tested, 0 to 1.
    extras : float
        The odds of loudspeaker results, and of loudness levels, each.
    unnamed : float
        The odds that unmasked bone is drawn without naming an ear, where the set has a mark for it.

    Returns
    -------
    tuple of Tone
        Results of the whole test.
    """
    frequencies = set(scale.printed)
    if scale.spacing == "log":
        frequencies |= {hz for hz in INTER_OCTAVES if scale.printed[0] < hz < scale.printed[-1]}
    loudness: list[Measure] = [measure for measure in ("mcl", "ucl") if rng.random() < extras]
    field = bool(rng.random() < extras) and not alone
    test = plan_test(
        look.symbol_set,
        tuple(sorted(frequencies)),
        scale.levels,
        ears=ears if not alone else ears[:1],
        coloured=not look.strokes.one_ink,
        field=field,
        loudness=loudness,
        busy=busy,
    )
    if not alone and "caret" in SYMBOL_SETS[look.symbol_set].meanings and rng.random() < unnamed:
        test = replace(test, bone_by_ear=False)
    return hearing_test(rng, replace(test, ears=ears))


def seat(box: Box, scale: Scale, look: Look, anchor: tuple[float, float] = (0.5, 0.0)) -> Axes:
    """Place a chart so that it and the words round it fit into the box (points)."""
    left, top, right, bottom = room(look.lettering, look.ruling)
    return place(scale, (box[0] + left, box[1] + top, box[2] - right, box[3] - bottom), anchor=anchor)


def of_ear(tones: Sequence[Tone], ear: TestedEar) -> tuple[Tone, ...]:
    """Pick the results of one ear."""
    return tuple(tone for tone in tones if tone.ear == ear)


def shown_glyphs(sheet: Sheet, chart: int) -> set[Glyph]:
    """Give the glyphs that stand on a chart."""
    return {mark.glyph for mark in sheet.marks if mark.chart == chart and not mark.in_key}


def add_key(
    sheet: Sheet,
    audiogram: int,
    chart: int,
    look: Look,
    at: XY,
    key: KeyLook,
    *,
    all_glyphs: bool,
    limit: tuple[float, float] | None = None,
) -> bool:
    """Print a key of the chart's glyphs, or of all that its symbol set has, and tell whether it was printed.

    It is not where it would hide a mark or pass the page's edge. ``limit`` is the lower right
    corner that the key must not pass, by default a margin of the page.
    """
    shown: set[Glyph] = set(SYMBOL_SETS[look.symbol_set].meanings) if all_glyphs else shown_glyphs(sheet, chart)
    if all_glyphs:
        # rare marks are explained where they are used, not on every form
        shown -= {"caret", "vee", "half-bracket-left", "half-bracket-right"} - shown_glyphs(sheet, chart)
    width, height = key_size(look, key, shown)
    right, bottom = limit or (sheet.pen.width - 15, sheet.pen.height - 15)
    if not shown or at[0] + width > right or at[1] + height > bottom or _on_marks(sheet, chart, at, width, height):
        return False
    draw_key(sheet, chart, audiogram, look, at, key, shown)
    return True


def _on_marks(sheet: Sheet, chart: int, at: XY, width: float, height: float) -> bool:
    for mark in sheet.marks:
        x, y = mark.at[0] * sheet.pen.width, mark.at[1] * sheet.pen.height
        inside = at[0] - 12 < x < at[0] + width + 12 and at[1] - 12 < y < at[1] + height + 12
        if mark.chart == chart and not mark.in_key and inside:
            return True
    return False


def draw_pair(
    sheet: Sheet,
    audiogram: int,
    boxes: tuple[Box, Box],
    scale: Scale,
    looks: tuple[Look, Look],
    tones: Sequence[Tone],
    rng: np.random.Generator,
) -> tuple[int, int]:
    """Draw one chart per ear, the right ear's first."""
    numbers = []
    for ear, box, look in zip(BOTH, boxes, looks, strict=True):
        axes = seat(box, scale, look)
        numbers.append(draw_chart(sheet, audiogram, axes, look, of_ear(tones, ear), rng, only=ear))
    return numbers[0], numbers[1]
