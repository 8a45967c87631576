"""Figures of a drawn chart side by side on white paper, for the network to look at each alone."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from ....page import Pixels
from .apart import Figure

MARGIN_PX = 20
"""White around each figure on its sheet, in crop pixels."""
FINER = 4
"""Figures are drawn so many times larger, then reduced: OpenCV's lines are whole pixels wide."""
WIDEST_PX = 992


@dataclass(frozen=True, slots=True, eq=False)
class Spread:
    """Figures side by side on white: ``pixels``, shape (height, width, 3), uint8, RGB, and where each stands.

    ``cells`` are left, top, right, bottom in its pixels; a figure's corner is ``MARGIN_PX`` within its cell.
    """

    pixels: Pixels
    cells: tuple[tuple[int, int, int, int], ...]


def spread(parts: tuple[Figure, ...], scale: float) -> Spread:
    """Draw figures side by side.

    Parameters
    ----------
    parts : tuple of Figure
        At least one.
    scale : float
        Pixels of the picture per sheet pixel.

    Returns
    -------
    Spread
        Its sides are multiples of 16.
    """
    sizes = [
        (
            math.ceil((f.box[2] - f.box[0]) * scale) + 2 * MARGIN_PX,
            math.ceil((f.box[3] - f.box[1]) * scale) + 2 * MARGIN_PX,
        )
        for f in parts
    ]
    wide = int(min(WIDEST_PX, 16 * math.ceil(math.sqrt(sum(w * h for w, h in sizes)) * 1.15 / 16)))
    wide = max(wide, 16 * math.ceil(max(w for w, _ in sizes) / 16))
    cells: list[tuple[int, int, int, int] | None] = [None] * len(parts)
    x = y = row = 0
    for i in sorted(range(len(parts)), key=lambda i: -sizes[i][1]):
        w, h = sizes[i]
        if x + w > wide:
            x, y, row = 0, y + row, 0
        cells[i] = (x, y, x + w, y + h)
        x, row = x + w, max(row, h)
    high = 16 * math.ceil((y + row) / 16)
    placed = tuple(c for c in cells if c is not None)
    return Spread(_drawn(parts, placed, (wide, high), scale), placed)


def _drawn(
    parts: tuple[Figure, ...], cells: tuple[tuple[int, int, int, int], ...], size: tuple[int, int], scale: float
) -> Pixels:
    import cv2

    pixels = np.full((size[1], size[0], 3), 255, np.uint8)
    for figure, (left, top, right, bottom) in zip(parts, cells, strict=True):
        large = np.full(((bottom - top) * FINER, (right - left) * FINER, 3), 255, np.uint8)
        shift = np.array([MARGIN_PX, MARGIN_PX]) - np.array(figure.box[:2]) * scale
        for number in dict.fromkeys(p.number for p in figure.paths):
            same = [(p, o) for p, o in zip(figure.paths, figure.outlines, strict=True) if p.number == number]
            lines = [np.round(((o * scale + shift + 0.5) * FINER - 0.5) * 16).astype(np.int32) for _, o in same]
            fill, stroke = same[0][0].fill, same[0][0].stroke
            if fill is not None:
                cv2.fillPoly(large, lines, fill, cv2.LINE_AA, shift=4)
            if stroke is not None:
                thick = max(1, round(same[0][0].width_px * scale * FINER))
                cv2.polylines(large, lines, False, stroke, thick, cv2.LINE_AA, shift=4)
        pixels[top:bottom, left:right] = cv2.resize(large, (right - left, bottom - top), interpolation=cv2.INTER_AREA)
    return pixels
