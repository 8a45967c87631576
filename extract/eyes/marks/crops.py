"""The picture of one chart at the size the mark network was trained for."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from ...page import Pixels
from ...shades import of_plain, plain_of

SIDE = 544.0
"""A crop has the area of a square of this side, in crop pixels, whatever its shape."""
MULTIPLE = 16
LONGEST = 1024
LONGEST_ASKED = 1500
"""The longest side of a crop, and of one whose scale is asked for."""


@dataclass(frozen=True, slots=True)
class ChartCrop:
    """A chart's region, shape (height, width, 3), uint8, RGB; ``sheet = crop / scale + corner``, in pixels."""

    pixels: Pixels
    scale: float
    corner: tuple[float, float]

    def on_sheet(self, x: float, y: float) -> tuple[float, float]:
        """Give the sheet position of a crop position, pixel centres being whole numbers in both."""
        return (x + 0.5) / self.scale - 0.5 + self.corner[0], (y + 0.5) / self.scale - 0.5 + self.corner[1]


def crop_scale(box: tuple[float, float, float, float]) -> float:
    """Give crop pixels per sheet pixel for a chart region (left, top, right, bottom)."""
    wide, high = box[2] - box[0], box[3] - box[1]
    return min(SIDE / math.sqrt(wide * high), LONGEST / max(wide, high))


def chart_crop(pixels: Pixels, box: tuple[float, float, float, float], *, scale: float | None = None) -> ChartCrop:
    """Cut a chart's region out of a sheet and bring it to the network's size.

    Parameters
    ----------
    pixels : ndarray, shape (height, width, 3), uint8
        The sheet.
    box : tuple of float
        The region (left, top, right, bottom) in sheet pixels.
    scale : float, optional
        Crop pixels per sheet pixel; by default what the size of the region asks for.

    Returns
    -------
    ChartCrop
        Its sides are multiples of 16; where the region leaves the sheet it is white.
    """
    import cv2

    scale = crop_scale(box) if scale is None else min(scale, LONGEST_ASKED / max(box[2] - box[0], box[3] - box[1]))
    left, top = math.floor(box[0]), math.floor(box[1])
    width = MULTIPLE * math.ceil((box[2] - left) * scale / MULTIPLE)
    height = MULTIPLE * math.ceil((box[3] - top) * scale / MULTIPLE)
    right, bottom = math.ceil(left + width / scale), math.ceil(top + height / scale)
    plain = plain_of(pixels)
    part = (pixels if plain is None else plain)[max(top, 0) : bottom, max(left, 0) : right]
    beyond = max(-top, 0), max(0, bottom - pixels.shape[0]), max(-left, 0), max(0, right - pixels.shape[1])
    if any(beyond):
        part = cv2.copyMakeBorder(part, *beyond, cv2.BORDER_CONSTANT, value=(255, 255, 255))
    if scale < 0.75:
        # warpAffine samples; reducing by area first keeps thin lines
        reduced = (round(part.shape[1] * scale), round(part.shape[0] * scale))
        small = cv2.resize(part, reduced, interpolation=cv2.INTER_AREA)
        fx, fy = reduced[0] / part.shape[1], reduced[1] / part.shape[0]
    else:
        small, fx, fy = part, 1.0, 1.0
    rest_x, rest_y = scale / fx, scale / fy
    matrix = np.array([[rest_x, 0, (rest_x - 1) / 2], [0, rest_y, (rest_y - 1) / 2]])
    crop = cv2.warpAffine(
        small, matrix, (width, height), flags=cv2.INTER_LINEAR, borderMode=cv2.BORDER_CONSTANT, borderValue=(255,) * 3
    )
    crop = np.asarray(crop, np.uint8)
    return ChartCrop(crop if plain is None else of_plain(crop), scale, (float(left), float(top)))


def planes(pictures: Pixels) -> npt.NDArray[np.float32]:
    """Give pictures of one size, shape (n, height, width, 3), as (n, 3, height, width), from 0 to 1."""
    seen = np.empty((len(pictures), 3, *pictures.shape[1:3]), np.float32)
    first, *others = range(1 if pictures.strides[-1] == 0 else 3)
    for channel in (first, *others):
        np.divide(pictures[..., channel], np.float32(255), out=seen[:, channel])
    if not others:
        seen[:, 1:] = seen[:, :1]
    return seen
