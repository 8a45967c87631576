"""The long straight lines of a sheet: what frames a chart, and what its grid reaches to."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
import numpy.typing as npt

from ...page import Pixels
from ...shades import darkest_of, plain_of, reduced
from ...spots import spots_in

LONGEST_PX = 1200
"""Lines are looked for in a picture whose long side is this, or near it where the half of the sheet's is."""
NEAR_HALF = 0.03
LENGTH = 1 / 8
"""A line is long from this share of the picture's long side."""

THROUGH = 0.6
"""A line runs through a box from this share of its width: the ends of broken ones are not straight."""
STRAY = 5
"""A line that goes on does so in its own row or in the two on either side: sheets are not quite straight."""

Box = tuple[float, float, float, float]


@dataclass(frozen=True, eq=False)  # without slots, which leave no room for what is kept
class Ruling:
    """Masks of the lines that go up and that go along, shape (height, width), uint8, 1 where one is.

    ``scale`` is their pixels per sheet pixel.
    """

    upright: Pixels
    level: Pixels
    scale: float

    @cached_property
    def frames(self) -> tuple[Box, ...]:
        """The boxes (left, top, right, bottom), in sheet pixels, of lines that meet one another."""
        import cv2

        joined = cv2.dilate(self.upright | self.level, np.ones((5, 5), np.uint8))
        _, stats, _ = spots_in(np.asarray(joined, np.uint8))
        return tuple(
            (left / self.scale, top / self.scale, (left + wide) / self.scale, (top + high) / self.scale)
            for left, top, wide, high, _ in stats[1:].tolist()
        )

    def going_on(self, box: Box, beyond: Box, *, along: int) -> int:
        """Count the lines that run through a box and on through one beside it, from side to side.

        The boxes are in sheet pixels and of one height for lines that run level (``along`` 0), else of one width.
        """
        import cv2

        through, further = (self._through(b, along) for b in (box, beyond))
        near = np.asarray(cv2.dilate(through.astype(np.uint8), np.ones((STRAY, 1), np.uint8)), np.bool_).ravel()
        both = np.concatenate(([False], near & further))
        return int((both[1:] & ~both[:-1]).sum())

    def _through(self, box: Box, along: int) -> npt.NDArray[np.bool_]:
        """Say for each row, or column, of a box whether a line runs through it."""
        left, top, right, bottom = (max(round(side * self.scale), 0) for side in box)
        inside = (self.level if along == 0 else self.upright)[top:bottom, left:right]
        return np.asarray(inside.mean(axis=1 - along) > THROUGH) if inside.size else np.zeros(inside.shape[along], bool)

    def without(self, box: Box) -> Ruling:
        """Give the lines outside a box in sheet pixels."""
        left, top, right, bottom = (max(round(side * self.scale), 0) for side in box)
        upright, level = self.upright.copy(), self.level.copy()
        upright[top:bottom, left:right] = level[top:bottom, left:right] = 0
        return Ruling(upright, level, self.scale)

    def grids(self, least: int) -> Ruling:
        """Give the lines that meet one another, at least so many each way: not shadows, edges of paper or rules."""
        import cv2

        count, parts = cv2.connectedComponents(cv2.dilate(self.upright | self.level, np.ones((5, 5), np.uint8)))
        kept = np.zeros_like(self.upright)
        for number in range(1, count):
            mine = np.asarray(parts == number, np.uint8)
            if min(Ruling(self.upright & mine, self.level & mine, self.scale).counts()) >= least:
                kept |= mine
        return Ruling(self.upright & kept, self.level & kept, self.scale)

    def counts(self) -> tuple[int, int]:
        """Count the lines that go up and those that go along; lines nearer than 1/120 of the sheet are one."""
        import cv2

        counts = []
        for axis, lines in enumerate((self.upright, self.level)):
            _, _, centres = spots_in(np.asarray(cv2.dilate(lines, np.ones((3, 3), np.uint8)), np.uint8))
            across = np.sort(centres[1:, axis])
            counts.append(1 + int((np.diff(across) > max(lines.shape) / 120).sum()) if len(across) else 0)
        return counts[0], counts[1]


def ruling_of(pixels: Pixels) -> Ruling:
    """Find the lines of a sheet that are longer than an eighth of it.

    Parameters
    ----------
    pixels : ndarray, shape (height, width, 3), uint8
        The sheet, straightened: a line must keep to its row or column.
    """
    import cv2

    scale = min(1.0, LONGEST_PX / max(pixels.shape[:2]))
    scale = 0.5 if abs(scale - 0.5) < NEAR_HALF else scale  # ten times as quick
    plain = plain_of(pixels)
    darkest = darkest_of(reduced(pixels if plain is None else plain, scale))
    ink = cv2.adaptiveThreshold(darkest, 1, cv2.ADAPTIVE_THRESH_MEAN_C, cv2.THRESH_BINARY_INV, 25, 6)
    side = int(max(darkest.shape) * LENGTH) // 2 * 2 + 1
    masks = []
    for kernel, join in (((1, side), (9, 1)), ((side, 1), (1, 9))):
        joined = cv2.morphologyEx(ink, cv2.MORPH_CLOSE, np.ones(join, np.uint8))
        masks.append(_runs(np.asarray(joined, np.uint8), kernel))
    return Ruling(masks[0], masks[1], scale)


def _runs(ink: Pixels, kernel: tuple[int, int]) -> Pixels:
    """Open a mask of noughts and ones by a kernel (width, height): by sums, which cost the same whatever its length."""
    import cv2

    inked = cv2.boxFilter(ink, cv2.CV_16U, kernel, normalize=False, borderType=cv2.BORDER_REPLICATE)
    whole = np.asarray(inked == kernel[0] * kernel[1], np.uint8)
    reached = cv2.boxFilter(whole, cv2.CV_16U, kernel, normalize=False, borderType=cv2.BORDER_CONSTANT)
    return np.asarray(reached > 0, np.uint8)


def covered(box: Box, by: Box) -> float:
    """Give the share of a box that another covers."""
    wide = min(box[2], by[2]) - max(box[0], by[0])
    high = min(box[3], by[3]) - max(box[1], by[1])
    return max(wide, 0.0) * max(high, 0.0) / max((box[2] - box[0]) * (box[3] - box[1]), 1e-9)
