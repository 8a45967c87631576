"""Notes on a picture: rings, outlines and a few letters beside a place, laid so that they hide little of each other."""

from __future__ import annotations

from collections.abc import Sequence

import cv2
import numpy as np

from ..extract.page import Pixels
from ..interpret.record import Point

Colour = tuple[int, int, int]
"""RGB."""
Box = tuple[float, float, float, float]
"""Left, top, right, bottom in pixels."""
ALL_SIDES = ((1, 0), (1, 1), (1, -1), (0, 1), (0, -1), (-1, 0), (-1, 1), (-1, -1))
"""Where a note may stand, seen from its place (right, down), the best place first."""
_FURTHER = (2, 3.5, 5, 7)
_FONT = cv2.FONT_HERSHEY_SIMPLEX


def faded(pixels: Pixels, keep: float) -> Pixels:
    """Give a copy of a picture with only a share of its ink kept, so that what is drawn over it stands out."""
    pale = 255 - ((255 - pixels.astype(np.uint16)) * round(keep * 256) >> 8)
    return np.ascontiguousarray(pale, dtype=np.uint8)


class Notes:
    """What is drawn over one picture; sizes follow the picture's width.

    Parameters
    ----------
    picture : Pixels
        Shape (height, width, 3), uint8, RGB; drawn on in place.
    size : float
        Size of letters, and of the room kept round marks, as a multiple of the usual one.
    """

    def __init__(self, picture: Pixels, size: float = 1.0) -> None:
        self.picture = picture
        self.radius = size * max(6.0, 0.0105 * picture.shape[1])
        self.pen = max(2, round(picture.shape[1] / 900))
        self._taken: list[Box] = []

    def keep_clear(self, box: Box) -> None:
        """Let later notes avoid a box where they can."""
        self._taken.append(box)

    def keep_clear_round(self, at: Point, radius: float) -> None:
        """Let later notes avoid a place where they can."""
        self.keep_clear((at[0] - radius, at[1] - radius, at[0] + radius, at[1] + radius))

    def outline(self, corners: Sequence[Point], colour: Colour, *, pen: int | None = None, closed: bool = True) -> None:
        """Draw a line through points."""
        points = np.array([whole(corner) for corner in corners], dtype=np.int32)
        cv2.polylines(self.picture, [points], closed, colour, pen or self.pen, cv2.LINE_AA)

    def frame(self, box: Box, colour: Colour, *, pen: int | None = None) -> None:
        """Draw a box."""
        left, top, right, bottom = box
        self.outline([(left, top), (right, top), (right, bottom), (left, bottom)], colour, pen=pen)

    def ring(self, at: Point, radius: float, colour: Colour) -> None:
        """Draw a circle."""
        cv2.circle(self.picture, whole(at), round(radius), colour, self.pen, cv2.LINE_AA)

    def beside(
        self,
        text: str,
        at: Point,
        colour: Colour,
        sides: Sequence[tuple[int, int]] = ALL_SIDES,
        away: float = 1.7,
        *,
        far: bool = False,
    ) -> None:
        """Write letters on that side of a place where they hide least, ``away`` (in radii) from it.

        With ``far`` they may go further off where all is crowded; a thin line leads to them then.
        """
        scale, pen = self.radius / 18, max(1, self.pen - 1)
        (width, height), _ = cv2.getTextSize(text, _FONT, scale, pen)
        boxes = [self._box_beside(at, side, width, height, away) for side in sides]
        box = min(boxes, key=self._hidden)
        if far and self._hidden(box) > 0.25 * width * height:
            boxes = [self._box_beside(at, side, width, height, n * away) for n in _FURTHER for side in sides]
            box = min(boxes, key=self._hidden)
            end = min(max(at[0], box[0]), box[2]), min(max(at[1], box[1]), box[3])
            self.outline([at, end], colour, pen=1, closed=False)
        self._taken.append(box)
        for ink, thick in (((255, 255, 255), pen + 3), (colour, pen)):
            cv2.putText(self.picture, text, whole((box[0], box[3])), _FONT, scale, ink, thick, cv2.LINE_AA)

    def _hidden(self, box: Box) -> float:
        """How much of what is taken a box would hide, square pixels."""
        return sum(_shared(box, other) for other in self._taken)

    def _box_beside(self, at: Point, side: tuple[int, int], width: float, height: float, away: float) -> Box:
        gap = self.radius * (away if 0 in side else 0.7 * away)
        x = at[0] + side[0] * (gap + width / 2)
        y = at[1] + side[1] * (gap + height / 2)
        # What stands at the rim is pushed in, or it could not be read.
        x = min(max(x, width / 2), max(self.picture.shape[1] - width / 2, width / 2))
        y = min(max(y, height / 2), max(self.picture.shape[0] - height / 2, height / 2))
        return x - width / 2, y - height / 2, x + width / 2, y + height / 2


def diamond(at: Point, radius: float) -> list[Point]:
    """Give the corners of a diamond round a place."""
    return [(at[0] + dx * radius, at[1] + dy * radius) for dx, dy in ((0, -1), (1, 0), (0, 1), (-1, 0))]


def whole(at: Point) -> tuple[int, int]:
    """Give the pixel of a place."""
    return round(at[0]), round(at[1])


def _shared(one: Box, other: Box) -> float:
    across = min(one[2], other[2]) - max(one[0], other[0])
    down = min(one[3], other[3]) - max(one[1], other[1])
    return max(0.0, across) * max(0.0, down)
