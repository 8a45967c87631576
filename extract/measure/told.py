"""Mark off on a plot what was seen there: marks, words, labels, the joins between marks, and arrows."""

from __future__ import annotations

import math

import numpy as np
import numpy.typing as npt

from ...interpret.symbols import Glyph
from ..page import Pixels, Word
from ..sightings import ChartArea, MarkSight
from .plot import MARK_PX, Box, Ink, Place, Plot

OUTLINE_SCORE = 0.6
"""Only a mark so clearly seen is explained by its strokes alone, so that another's show beneath it."""
OUTLINE_PX = 6
BLUR_PX = 3.5
"""Width of the strip that a stroke explains: at least, and what blur and a careless hand add to the stroke's own."""
ROOM, UNCLEAR_ROOM = 1.1, 1.3
"""How much larger than seen a mark's box is taken; one seen less clearly is seen too small."""
OUTLINES: dict[Glyph, tuple[tuple[Place, ...], ...]] = {
    "cross": (((-1, -1), (1, 1)), ((-1, 1), (1, -1))),
    "square": (((-1, -1), (1, -1), (1, 1), (-1, 1), (-1, -1)),),
    "triangle": (((0, -1), (1, 1), (-1, 1), (0, -1)),),
    "angle-left": (((1, -1), (-1, 0), (1, 1)),),
    "angle-right": (((-1, -1), (1, 0), (-1, 1)),),
    "bracket-left": (((1, -1), (-1, -1), (-1, 1), (1, 1)),),
    "bracket-right": (((-1, -1), (1, -1), (1, 1), (-1, 1)),),
}
"""The strokes of marks within which another's may show, in halves of their width and height right and down."""
JOIN_COVER = 0.55
JOIN_BESIDE = 0.4
"""Share of the way between two marks that must have ink for a join, and that may have ink beside it."""
BESIDE_PX = 6.0
"""So far beside a join there is only paper, in pixels."""
JOIN_PX = 5
JOIN_STEPS = 41
FEWEST_STEPS = 4
"""Steps along a join that must be free of marks for it to be judged by."""
ARROW = 0.3
"""Peak of an arrow from which its ink is taken for an arrow's."""
ARROW_SLOPES = (
    tuple((-x, 1.0) for x in (0.4, 0.6, 0.8, 1.0, 1.25, 1.6)), tuple((x, 1.0) for x in (0.4, 0.6, 0.8, 1.0, 1.25, 1.6)),
    ((-0.2, 1.0), (0.0, 1.0), (0.2, 1.0)),
)  # fmt: skip
"""Ways in which an arrow down-left, down-right or straight down may point: right and down."""
ARROW_REACH = 2.6
"""How far from its mark's centre an arrow may end, in marks."""
ARROW_GAP = 0.35
"""The longest break within an arrow, and between it and its mark's box, in marks."""
BOX_END = 0.75
"""How far a mark's box reaches from its centre, slantwise, in marks."""
ARROW_PX = 7
HEAD = 0.35
"""Width of a shaft's strip in pixels, and how far an arrow's head reaches from its tip, in marks."""


def explain_marks(explained: Pixels, plot: Plot, told: list[MarkSight], *, stroke_px: float) -> None:
    """Mark off what was seen: the strokes of clear marks, the boxes of others."""
    import cv2

    thick = max(OUTLINE_PX, min(round(stroke_px + BLUR_PX), 2 * OUTLINE_PX))
    for sight in told:
        at = plot.of_sheet(*sight.at)
        clear = sight.score >= OUTLINE_SCORE
        room = ROOM if clear else UNCLEAR_ROOM
        wide, high = (0.5 * room * side * plot.scale + 1 for side in sight.size)
        inner = wide - thick / 3, high - thick / 3
        if clear and sight.glyph in OUTLINES:
            for stroke in OUTLINES[sight.glyph]:
                points = np.rint(np.array(stroke) * inner + at).astype(np.int32)
                cv2.polylines(explained, [points], False, (255,), thick)
        elif clear and sight.glyph == "circle":
            cv2.ellipse(explained, _pixel(at), _pixel((max(inner[0], 1), max(inner[1], 1))), 0, 0, 360, (255,), thick)
        elif sight.glyph in ("circle", "circle-filled"):
            cv2.ellipse(explained, _pixel(at), _pixel((wide, high)), 0, 0, 360, (255,), -1)
        else:
            corners = _pixel((at[0] - wide, at[1] - high)), _pixel((at[0] + wide, at[1] + high))
            cv2.rectangle(explained, *corners, (255,), -1)


def explain_words(explained: Pixels, plot: Plot, words: tuple[Word, ...], area: ChartArea) -> None:
    """Mark off words; a single sign may be a mark taken for a letter."""
    import cv2

    for word in words:
        if len(word.text.strip()) < 2:
            continue
        if not _overlap(word.box, area.box):
            continue
        (x0, y0), (x1, y1) = plot.of_sheet(*word.box[:2]), plot.of_sheet(*word.box[2:])
        room = 0.5 * min(x1 - x0, y1 - y0) + 2  # for the frame of a stamp
        corners = (round(x0 - room), round(y0 - room)), (round(x1 + room), round(y1 + room))
        cv2.rectangle(explained, *corners, (255,), -1)


def explain_labels(explained: Pixels, plot: Plot, area: ChartArea) -> None:
    """Mark off the labels of the axes, those of one digit too."""
    import cv2

    for run in (area.frequency, area.level, *area.more):
        for at in run.at:
            x, y = plot.of_sheet(*((at, run.across) if run.along == "x" else (run.across, at)))
            wide, high = (share * run.text_height * plot.scale + 1 for share in (1.2, 0.7))
            cv2.rectangle(explained, (round(x - wide), round(y - high)), (round(x + wide), round(y + high)), (255,), -1)


def explain_joins(explained: Pixels, ink: Ink, free: npt.NDArray[np.bool_], places: list[Place]) -> None:
    """Mark off the straight strips between marks along which most of the way, and little beside it, has ink."""
    import cv2

    if len(places) < 2:
        return
    at = np.array(places)
    thick = cv2.dilate(ink, np.ones((3, 3), np.uint8)) > 0
    first, second = np.triu_indices(len(at), 1)
    start, way = at[first], at[second] - at[first]
    long = np.hypot(way[:, 0], way[:, 1])
    fits = (long > MARK_PX) & (np.abs(way[:, 0]) > 0.4 * MARK_PX) & (np.abs(way[:, 0]) < 0.45 * ink.shape[1])
    start, way, long = start[fits], way[fits], long[fits]
    normal = np.stack([-way[:, 1], way[:, 0]], axis=1) / long[:, None]
    part = np.linspace(0, 1, JOIN_STEPS)

    def along(values: npt.NDArray[np.bool_], beside: float) -> npt.NDArray[np.bool_]:
        x = inside(start[:, :1] + beside * normal[:, :1] + way[:, :1] * part, ink.shape[1])
        y = inside(start[:, 1:] + beside * normal[:, 1:] + way[:, 1:] * part, ink.shape[0])
        return values[y, x]

    thick &= free
    both = along(thick, BESIDE_PX) & along(thick, -BESIDE_PX)
    known = np.maximum(along(free, 0).sum(axis=1), FEWEST_STEPS)
    line = (along(thick, 0).sum(axis=1) >= JOIN_COVER * known) & (both.sum(axis=1) < JOIN_BESIDE * known)
    for i in np.flatnonzero(line):
        # a mark on the way has ink on both sides of it, and is not explained by it
        near = round(0.5 * MARK_PX / long[i] * JOIN_STEPS)
        keep = np.convolve(both[i], np.ones(2 * near + 1), "same") < 0.5
        edges = np.flatnonzero(np.diff(np.concatenate([[0], keep.astype(int), [0]])))
        for first_step, end_step in edges.reshape(-1, 2):
            a, b = (start[i] + way[i] * part[step] for step in (first_step, end_step - 1))
            cv2.line(explained, _pixel((a[0], a[1])), _pixel((b[0], b[1])), (255,), JOIN_PX)


def explain_arrows(explained: Pixels, ink: Ink, plot: Plot, told: list[MarkSight]) -> None:
    """Mark off the arrows that were seen: the way of most ink from the mark on, as far as the ink goes."""
    import cv2

    thick = cv2.dilate(ink, np.ones((3, 3), np.uint8)) > 0
    for sight in told:
        at, size = plot.of_sheet(*sight.at), max(sight.size) * plot.scale
        for score, slopes in zip(sight.arrows, ARROW_SLOPES, strict=True):
            tip = _tip(thick, at, size, slopes) if score > ARROW else None
            if tip is not None:
                cv2.line(explained, _pixel(at), _pixel(tip), (255,), ARROW_PX)
                cv2.circle(explained, _pixel(tip), round(HEAD * size), (255,), -1)


def _tip(thick: npt.NDArray[np.bool_], at: Place, size: float, slopes: tuple[Place, ...]) -> Place | None:
    """Follow the ink from a mark in each way, and give where the longest run of it ends."""
    out = np.arange(0.5 * size, ARROW_REACH * size)
    most, tip = 0, None
    for right, down in slopes:
        x, y = (v / math.hypot(right, down) for v in (right, down))
        inked = out[thick[inside(at[1] + out * y, thick.shape[0]), inside(at[0] + out * x, thick.shape[1])]]
        if not len(inked) or inked[0] > (BOX_END + ARROW_GAP) * size:
            continue
        breaks = np.flatnonzero(np.diff(inked) > ARROW_GAP * size)
        end = float(inked[breaks[0]] if len(breaks) else inked[-1])
        if (count := int((inked <= end).sum())) > most:
            most, tip = count, (at[0] + end * x, at[1] + end * y)
    return tip


def _pixel(place: Place) -> tuple[int, int]:
    return round(place[0]), round(place[1])


def inside(values: npt.NDArray[np.float64], length: int) -> npt.NDArray[np.intp]:
    """Round positions to pixels, those outside to the nearest."""
    return np.minimum(np.maximum(np.rint(values).astype(np.intp), 0), length - 1)  # quicker than clip where few


def _overlap(one: Box, other: Box) -> bool:
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]
