"""Paint chart crops with their marks for the mark network."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from ....extract.eyes.axes.areas import ROOM_DB, ROOM_OCTAVES
from ....extract.eyes.marks.crops import chart_crop, crop_scale
from ....interpret.record import Chart, Point
from ....interpret.symbols import GLYPHS
from ...painter import paint, render
from ...painter.families import FAMILIES
from ...painter.spoiling.crops import spoil_crop
from ...painter.truth import PaintedPage

TILE = 512
INKS = ("red", "blue", "neutral")
ARROWS = ("down-left", "down-right", "down")


@dataclass(frozen=True, slots=True)
class Tile:
    """A training picture, shape (512, 512, 3), uint8, RGB, and its marks.

    ``marks`` has shape (n, 9), float32: x, y (tile pixels), glyph number, arrow number (-1 for none), ink number,
    width, height (tile pixels), and how far the arrow's tip lies from the mark in x and y (tile pixels, 0 for none).
    """

    pixels: npt.NDArray[np.uint8]
    marks: npt.NDArray[np.float32]


def chart_box(chart: Chart, page: tuple[float, float]) -> tuple[float, float, float, float]:
    """Give the region that the reader would cut for a chart.

    Parameters
    ----------
    chart : Chart
        A chart whose two axes are known.
    page : tuple of float
        Width and height of the page, in any unit.

    Returns
    -------
    tuple of float
        Left, top, right, bottom in the unit of ``page``.
    """
    frequency, level = chart.frequency_axis, chart.level_axis
    assert frequency is not None
    assert level is not None
    (x0, _), (x1, _) = frequency.at
    (_, y0), (_, y1) = level.at
    octave = (x1 - x0) * page[0] / math.log2(frequency.hz[1] / frequency.hz[0])
    decibel = (y1 - y0) * page[1] / (level.db_hl[1] - level.db_hl[0])
    return (
        max(0.0, x0 * page[0] - ROOM_OCTAVES * octave),
        max(0.0, y0 * page[1] - ROOM_DB * decibel),
        min(page[0], x1 * page[0] + ROOM_OCTAVES * octave),
        min(page[1], y1 * page[1] + ROOM_DB * decibel),
    )


def training_families(*, by_hand: bool = False) -> list[str]:
    """Name the training families that hold charts, or those alone that are filled in by hand.

    The blank form teaches what an empty chart is.
    """
    charts = {n: f for n, f in FAMILIES.items() if not f.tags & {"table", "facts", "facts-pen", "printed-table"}}
    kept = {n: f for n, f in charts.items() if f.split == "train" and ("none" not in f.tags or "blank" in f.tags)}
    return [n for n, f in kept.items() if not by_hand or f.tags & {"by-hand", "blank"}]


@dataclass(frozen=True, slots=True)
class Spoiled:
    """A chart's crop, spoiled: ``pixels``, shape (height, width, 3), uint8, RGB, and its marks as in ``Tile``.

    The marks' places and sizes are in its own pixels.
    """

    pixels: npt.NDArray[np.uint8]
    marks: npt.NDArray[np.float32]


def paint_tiles(family: str, seed: int) -> list[Tile]:
    """Paint one page and give a spoiled tile of each of its charts (at most two).

    Parameters
    ----------
    family : str
        One of ``training_families()``.
    seed : int
        The same seed gives the same tiles.

    Returns
    -------
    list of Tile
        Empty for a page without a chart.
    """
    rng = np.random.default_rng([4244, seed])
    return [_tile(chart, rng) for chart in spoiled_charts(family, seed)]


def spoiled_charts(family: str, seed: int) -> list[Spoiled]:
    """Paint one page, cut its charts out (at most two) with some slack, and spoil them; as for ``paint_tiles``."""
    rng = np.random.default_rng([4242, seed])
    page = paint(family, seed, mono=bool(rng.random() < 0.2))
    charts = [c for a in page.record.audiograms for c in a.charts if c.frequency_axis and c.level_axis]
    order = rng.permutation(len(charts))[:2]
    return [_spoiled(page, charts[i], rng) for i in order]


def _spoiled(page: PaintedPage, chart: Chart, rng: np.random.Generator) -> Spoiled:
    """Cut a chart out with some slack, spoil it, and follow its marks there."""
    box = np.array(chart_box(chart, page.size_pt))
    wide, high = box[2] - box[0], box[3] - box[1]
    box += rng.normal(0, 0.02, 4) * (wide, high, wide, high)
    canonical_dpi = 72 * crop_scale((float(box[0]), float(box[1]), float(box[2]), float(box[3])))
    dpi = float(np.clip(rng.uniform(100, 300), 0.8 * canonical_dpi, 2.4 * canonical_dpi))
    size = np.array([page.size_pt[0], page.size_pt[1]] * 2)
    crop = np.clip(box / size, 0, 1)
    pixels = render(page.pdf, dpi, crop=(float(crop[0]), float(crop[1]), float(crop[2]), float(crop[3])))
    full = np.ceil(np.array(page.size_pt) * dpi / 72)
    corner = np.floor(crop[:2] * full)
    spoiled, matrix = spoil_crop(pixels, rng, dpi=dpi)
    coloured = _coloured(spoiled)

    def moved(at: Point) -> tuple[float, float]:
        u, v, w = matrix @ np.array([at[0] * full[0] - 0.5 - corner[0], at[1] * full[1] - 0.5 - corner[1], 1.0])
        return float(u / w), float(v / w)

    marks = []
    for mark in page.marks:
        x, y = moved(mark.at)
        tip_x, tip_y = (x, y) if mark.arrow_tip is None else moved(mark.arrow_tip)
        marks.append((x, y, GLYPHS.index(mark.glyph), -1 if mark.arrow is None else ARROWS.index(mark.arrow),
                      INKS.index(mark.ink if coloured else "neutral"),
                      mark.size[0] * full[0], mark.size[1] * full[1], tip_x - x, tip_y - y))  # fmt: skip
    return Spoiled(spoiled, np.array(marks, np.float32).reshape(-1, 9))


def _tile(chart: Spoiled, rng: np.random.Generator) -> Tile:
    """Bring a chart to the network's size, and cut a square out of it."""
    high, wide = chart.pixels.shape[:2]
    cut = chart_crop(chart.pixels, (0.0, 0.0, float(wide - 1), float(high - 1)))
    marks = chart.marks.copy()
    marks[:, :2] = (marks[:, :2] + 0.5) * cut.scale - 0.5
    marks[:, 5:9] *= cut.scale
    return _window(cut.pixels, marks, rng)


def _coloured(pixels: npt.NDArray[np.uint8]) -> bool:
    return bool((pixels[::7, ::7, 0] != pixels[::7, ::7, 2]).any())


def _window(pixels: npt.NDArray[np.uint8], marks: npt.NDArray[np.float32], rng: np.random.Generator) -> Tile:
    """Cut a random square of ``TILE`` pixels out of a crop; beyond a smaller crop it is white."""
    high, wide = pixels.shape[:2]
    x0 = int(rng.integers(min(0, wide - TILE), max(0, wide - TILE) + 1))
    y0 = int(rng.integers(min(0, high - TILE), max(0, high - TILE) + 1))
    tile = np.full((TILE, TILE, 3), 255, np.uint8)
    part = pixels[max(y0, 0) : y0 + TILE, max(x0, 0) : x0 + TILE]
    tile[max(-y0, 0) : max(-y0, 0) + part.shape[0], max(-x0, 0) : max(-x0, 0) + part.shape[1]] = part
    moved = marks.copy()
    moved[:, 0] -= x0
    moved[:, 1] -= y0
    # marks that a narrow crop leaves out must not become targets on the white beside it
    seen = ((marks[:, :2] > -4) & (marks[:, :2] < (wide + 4, high + 4))).all(axis=1)
    inside = seen & ((moved[:, :2] > -4) & (moved[:, :2] < TILE + 4)).all(axis=1)
    return Tile(tile, moved[inside])
