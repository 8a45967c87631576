"""Charts without a solid grid, as charting programs draw them: nothing but the words says how such a page lies."""

from __future__ import annotations

from collections.abc import Sequence

import cv2
import numpy as np
from by_hand import OCTAVES
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure

from octavo.extract.page import Pixels

Dashes = str | tuple[int, tuple[int, int]]
LEVELS = tuple(range(0, 121, 20))


def plotted(
    curves: Sequence[Sequence[float]] = (),
    *,
    hz: Sequence[int] = OCTAVES,
    levels: Sequence[int] = LEVELS,
    grid: Dashes = "-",
    frame: bool = True,
    level_turn: int = 0,
) -> Pixels:
    """Plot curves of circles joined by lines, a value at each frequency, on a page of 900 x 1050 pixels.

    ``level_turn`` is by how many degrees against the clock the level labels are turned.
    """
    figure = Figure(figsize=(6, 7), dpi=150)
    canvas = FigureCanvasAgg(figure)
    axes = figure.add_subplot()
    for curve in curves:
        axes.plot(range(len(hz)), curve, marker="o", color="red", mfc="none", ms=10)
    axes.set_xticks(range(len(hz)), [str(f) for f in hz])
    axes.set_yticks(list(levels))
    axes.set_ylim(max(levels) + 5, -10)
    axes.tick_params(length=0, labelsize=13)
    for label in axes.get_yticklabels():
        label.set(rotation=level_turn, verticalalignment="center")
    axes.grid(visible=True, linestyle=grid, linewidth=0.8)
    for side in axes.spines.values():
        side.set_visible(frame)
    canvas.draw()
    return np.ascontiguousarray(np.asarray(canvas.buffer_rgba())[:, :, :3])


def plotted_y(level: float) -> float:
    """Give the height in pixels at which a level of ``LEVELS`` is plotted: the axes fill 0.12 to 0.89 of the page."""
    return 1050 * (0.12 + 0.77 * (level + 10) / (LEVELS[-1] + 15)) - 0.5


def turned(picture: Pixels, degrees: float) -> Pixels:
    """Turn a picture clockwise about its middle; the page around it is white and keeps its corners."""
    height, width = picture.shape[:2]
    room = round(0.2 * max(height, width))
    wide = cv2.copyMakeBorder(picture, room, room, room, room, cv2.BORDER_CONSTANT, value=(255, 255, 255))
    middle = ((wide.shape[1] - 1) / 2, (wide.shape[0] - 1) / 2)
    matrix = cv2.getRotationMatrix2D(middle, -degrees, 1.0)
    moved = cv2.warpAffine(wide, matrix, wide.shape[1::-1], flags=cv2.INTER_CUBIC, borderValue=(255, 255, 255))
    return np.asarray(moved, np.uint8)
