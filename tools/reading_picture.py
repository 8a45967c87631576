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
_LABEL_AT: dict[tuple[str, str], tuple[float, float]] = {
    ("right", "air"): (-0.3, -1.3),
    ("left", "air"): (-0.3, 2.1),
    ("right", "bone"): (-4.2, 0.5),
    ("left", "bone"): (1.7, 0.5),
}
"""Where a label begins, seen from its mark, in ring radii: apart from the labels of the other ear and conduction."""


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
        for threshold, at in _seen_on_page(audiogram):
            _draw_threshold(picture, threshold, _place(picture, at))
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


def _draw_threshold(picture: Pixels, threshold: Threshold, at: Point) -> None:
    colour, radius = EAR_COLOURS[threshold.ear], _radius(picture)
    if threshold.standing == "sure":
        cv2.circle(picture, _whole(at), round(radius), colour, _pen(picture), cv2.LINE_AA)
    else:
        _polygon(picture, _diamond(at, 1.3 * radius), colour)
    right, down = _LABEL_AT.get((threshold.ear, threshold.conduction), (1.7, -0.8))
    place = _whole((at[0] + right * radius, at[1] + down * radius))
    scale = radius / 18
    for colour_now, pen in (((255, 255, 255), 3 * _pen(picture)), (colour, max(1, _pen(picture) - 1))):
        cv2.putText(picture, label_of(threshold), place, _FONT, scale, colour_now, pen, cv2.LINE_AA)


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
