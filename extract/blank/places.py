"""Boxes of a sheet as pixels of its masks, and as fractions of the page."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from ..sheet import Sheet

Box = tuple[float, float, float, float]
"""Left, top, right, bottom."""
Mask = npt.NDArray[np.bool_]
"""Shape (height, width) of the picture that it belongs to."""


def pixels_of(box: Box, edge: float, mask: Mask) -> tuple[slice, slice]:
    """Give the pixels of a mask that a box in pixels takes, with an edge around it."""
    height, width = mask.shape
    top, bottom = (min(max(round(v), 0), height) for v in (box[1] - edge, box[3] + edge + 1))
    left, right = (min(max(round(v), 0), width) for v in (box[0] - edge, box[2] + edge + 1))
    return slice(top, bottom), slice(left, right)


def fractions_of(sheet: Sheet, box: Box) -> Box:
    """Give the upright box in page fractions that holds a box of the sheet."""
    places = [sheet.on_page(x, y) for x in (box[0], box[2]) for y in (box[1], box[3])]
    xs, ys = [min(max(x, 0.0), 1.0) for x, _ in places], [min(max(y, 0.0), 1.0) for _, y in places]
    return min(xs), min(ys), max(xs), max(ys)


def on_sheet(sheet: Sheet, box: Box) -> Box:
    """Give the box in sheet pixels that holds a box in page fractions."""
    wide, high = sheet.page_size
    corners = np.array([[x * wide - 0.5, y * high - 0.5, 1.0] for x in (box[0], box[2]) for y in (box[1], box[3])])
    places = corners @ np.linalg.inv(sheet.to_page).T
    (left, top), (right, bottom) = (edge(places[:, :2] / places[:, 2:], axis=0) for edge in (np.min, np.max))
    return float(left), float(top), float(right), float(bottom)


def same_place(one: Box, other: Box) -> bool:
    """Say whether a box lies mostly on another one."""
    wide, high = min(one[2], other[2]) - max(one[0], other[0]), min(one[3], other[3]) - max(one[1], other[1])
    return min(wide, high) > 0 and wide * high > 0.5 * (one[2] - one[0]) * (one[3] - one[1])


def holds(outer: Box, inner: Box, edge: float = 1.0) -> bool:
    """Say whether a box lies within another one, but for an edge."""
    return (
        outer[0] - edge <= inner[0] and outer[1] - edge <= inner[1]
        and inner[2] <= outer[2] + edge and inner[3] <= outer[3] + edge
    )  # fmt: skip
