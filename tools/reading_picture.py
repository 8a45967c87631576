"""The reading drawn over its page, from the record alone: what was read, where, and what a person must look at."""

from __future__ import annotations

from collections.abc import Iterator

import cv2
import numpy as np

from ..extract.page import Pixels
from ..interpret.record import Audiogram, Ear, PageRecord, Point, Threshold

_Colour = tuple[int, int, int]

EAR_COLOURS: dict[Ear, _Colour] = {
    "right": (200, 0, 0),
    "left": (0, 60, 210),
    "both": (0, 120, 60),
    "unspecified": (120, 60, 150),
}
"""RGB. Red and blue as the trade has them; shape, not colour, says ``sure`` or ``ask``."""
_OUTLINE: _Colour = (0, 140, 140)
_REMARK: _Colour = (215, 120, 0)
_FONT = cv2.FONT_HERSHEY_SIMPLEX
_FADE = 0.45
"""How much of the page's own ink is kept, so that what is drawn stands out."""
_Box = tuple[float, float, float, float]
_SIDES: dict[tuple[str, str], tuple[tuple[int, int], ...]] = {
    ("right", "air"): ((0, -1), (-1, -1), (1, -1), (-1, 1), (0, 1), (-1, 0), (1, 0)),
    ("left", "air"): ((0, 1), (1, 1), (-1, 1), (1, -1), (0, -1), (1, 0), (-1, 0)),
    ("right", "bone"): ((-1, 0), (-1, -1), (-1, 1), (0, -1), (0, 1), (1, 0)),
}
_OTHER_SIDES = ((1, 0), (1, 1), (1, -1), (0, 1), (0, -1), (-1, 0))
"""Where a label may stand, seen from its mark (right, down), the best place first: apart from the other ear's."""


def draw_reading(pixels: Pixels, record: PageRecord) -> Pixels:
    """Draw a record over its page.

    Charts are outlined. Every threshold has a ring round its mark where it stands as sure, a diamond and a question
    mark where it asks; beside it stands the level, ``b`` for bone, ``m`` for masked, ``NR`` for no response.

    Parameters
    ----------
    pixels : Pixels
        The page as displayed, shape (height, width, 3), uint8, RGB; left as it is.
    record : PageRecord
        What was read from it.

    Returns
    -------
    Pixels
        A new picture of the same shape.
    """
    faded = 255 - ((255 - pixels.astype(np.uint16)) * round(_FADE * 256) >> 8)
    picture = np.ascontiguousarray(faded, dtype=np.uint8)
    for audiogram in record.audiograms:
        for chart in audiogram.charts:
            _polygon(picture, [_place(picture, corner) for corner in chart.outline], _OUTLINE)
        seen = [(threshold, _place(picture, at)) for threshold, at in _seen_on_page(audiogram)]
        taken = [_around(at, 0.8 * _radius(picture)) for _, at in seen]
        for threshold, at in seen:
            _draw_mark(picture, threshold, at)
        for threshold, at in seen:
            taken.append(_draw_label(picture, threshold, at, taken))
    for remark in record.remarks:
        if remark.at is not None:
            _polygon(picture, _diamond(_place(picture, remark.at), 1.6 * _radius(picture)), _REMARK)
    return picture


def label_of(threshold: Threshold) -> str:
    """Give the few letters that stand beside a mark: level, and what the plain air threshold is not.

    Parameters
    ----------
    threshold : Threshold
        Any threshold.

    Returns
    -------
    str
        Such as ``35``, ``40bm?`` (bone, masked, to be asked) or ``110NR`` (no response).
    """
    signs = (
        ("b", threshold.conduction == "bone"),
        ("f", threshold.conduction == "field"),
        ("m", threshold.masked),
        ("A", threshold.aided),
        (f" {threshold.measure}", threshold.measure != "threshold"),
        ("NR", not threshold.response),
        ("?", threshold.standing == "ask"),
    )
    return f"{threshold.level_db_hl:g}" + "".join(sign for sign, holds in signs if holds)


def _seen_on_page(audiogram: Audiogram) -> Iterator[tuple[Threshold, Point]]:
    for threshold in audiogram.thresholds:
        if threshold.seen is not None and threshold.seen.at is not None:
            yield threshold, threshold.seen.at


def _draw_mark(picture: Pixels, threshold: Threshold, at: Point) -> None:
    colour, radius = EAR_COLOURS[threshold.ear], _radius(picture)
    if threshold.standing == "sure":
        cv2.circle(picture, _whole(at), round(radius), colour, _pen(picture), cv2.LINE_AA)
    else:
        _polygon(picture, _diamond(at, 1.3 * radius), colour)


def _draw_label(picture: Pixels, threshold: Threshold, at: Point, taken: list[_Box]) -> _Box:
    """Write a label where it hides least of what is ``taken``, and give the box that it fills."""
    text, radius = label_of(threshold), _radius(picture)
    scale, pen = radius / 18, max(1, _pen(picture) - 1)
    (width, height), _ = cv2.getTextSize(text, _FONT, scale, pen)
    sides = _SIDES.get((threshold.ear, threshold.conduction), _OTHER_SIDES)
    boxes = [_beside(at, side, width, height, radius) for side in sides]
    box = min(boxes, key=lambda one: sum(_shared(one, other) for other in taken))
    place = _whole((box[0], box[3]))
    for colour, thick in (((255, 255, 255), pen + 3), (EAR_COLOURS[threshold.ear], pen)):
        cv2.putText(picture, text, place, _FONT, scale, colour, thick, cv2.LINE_AA)
    return box


def _beside(at: Point, side: tuple[int, int], width: float, height: float, radius: float) -> _Box:
    """Place a box of a label on a side of a mark; boxes are left, top, right, bottom in pixels."""
    away = 1.7 * radius if 0 in side else 1.2 * radius
    x = at[0] + side[0] * (away + width / 2)
    y = at[1] + side[1] * (away + height / 2)
    return x - width / 2, y - height / 2, x + width / 2, y + height / 2


def _around(at: Point, radius: float) -> _Box:
    return at[0] - radius, at[1] - radius, at[0] + radius, at[1] + radius


def _shared(one: _Box, other: _Box) -> float:
    across = min(one[2], other[2]) - max(one[0], other[0])
    down = min(one[3], other[3]) - max(one[1], other[1])
    return max(0.0, across) * max(0.0, down)


def _polygon(picture: Pixels, corners: list[Point], colour: _Colour) -> None:
    points = np.array([_whole(corner) for corner in corners], dtype=np.int32)
    cv2.polylines(picture, [points], isClosed=True, color=colour, thickness=_pen(picture), lineType=cv2.LINE_AA)


def _diamond(at: Point, radius: float) -> list[Point]:
    return [(at[0] + dx * radius, at[1] + dy * radius) for dx, dy in ((0, -1), (1, 0), (0, 1), (-1, 0))]


def _place(picture: Pixels, at: Point) -> Point:
    height, width = picture.shape[:2]
    return at[0] * width - 0.5, at[1] * height - 0.5


def _radius(picture: Pixels) -> float:
    return max(6.0, 0.0105 * picture.shape[1])


def _pen(picture: Pixels) -> int:
    return max(2, round(picture.shape[1] / 900))


def _whole(at: Point) -> tuple[int, int]:
    return round(at[0]), round(at[1])
