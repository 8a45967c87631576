"""Find how the printed grid lines lie, stretch by stretch, and fit a smooth bend to them."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import numpy.typing as npt

from ..chart import Bend, FrequencyScale, LevelScale
from ..page import Pixels

STRETCHES = 10
"""Into so many pieces each line is cut; a piece gives one place."""
REACH_DB = 2.3
"""How far from its labels' place a level line is looked for; forms with lines every 5 dB allow no more."""

MOST_SPREAD = 0.12
"""Places that spread more than this share of the reach around their fit are no lines but marks, text and noise."""
CAP = 90
"""Ink darker than this counts no more."""

Found = list[tuple[float, float, float]]
"""(x, y, how far the line lies from where it should), in sheet pixels."""


def fit_bend(
    pixels: Pixels, box: tuple[float, float, float, float], frequency: FrequencyScale, level: LevelScale
) -> Bend:
    """Fit the bend of a chart's lattice.

    Parameters
    ----------
    pixels : ndarray, shape (height, width, 3), uint8
        The sheet.
    box : tuple of float
        Region of the chart in sheet pixels (left, top, right, bottom).
    frequency, level : FrequencyScale, LevelScale
        The axes as fitted to the labels.

    Returns
    -------
    Bend
        Zero where too few lines are found (a chart without a grid).
    """
    # only the chart's own region: the lines are looked for along and across it
    x0, y0, x1, y1 = (int(v) for v in box)
    frame = (max(x0 - 8, 0), max(y0 - 8, 0))
    ink = _ink(pixels[frame[1] : y1 + 9, frame[0] : x1 + 9])
    left, right = frequency.anchors[0][1], frequency.anchors[-1][1]
    low, high = level.printed
    top, bottom = level.zero_px + level.px_per_db * low, level.zero_px + level.px_per_db * high
    rows = [level.zero_px + level.px_per_db * v for v in np.arange(np.ceil(low / 10) * 10, high + 1, 10)]
    reach = REACH_DB * level.px_per_db
    down = _stretches(ink, rows, (left, right), reach, frame)
    columns = [x for _, x in frequency.anchors]
    gap = min((b - a for a, b in pairwise(columns)), default=4 * reach)
    turned = _stretches(
        np.ascontiguousarray(ink.T), columns, (top, bottom), min(reach, 0.3 * gap), (frame[1], frame[0])
    )
    across = [(y, x, d) for x, y, d in turned]
    down_fit, down_count, down_rms = _fit(down, box, len(rows), reach)
    across_fit, across_count, _ = _fit(across, box, len(columns), reach)
    return Bend(box, across_fit, down_fit, down_count + across_count, down_rms)


def _ink(pixels: Pixels) -> Pixels:
    """How much darker than paper a pixel is, in its darkest channel, shape (height, width), uint8.

    It is capped: strong, short ink (marks, joins) must not outweigh a faint line through the piece.
    """
    import cv2

    red, green, blue = cv2.split(pixels)
    darkest = cv2.min(cv2.min(red, green), blue)
    return np.minimum(cv2.bitwise_not(darkest), CAP).astype(np.uint8)


def _stretches(
    ink: Pixels, rows: list[float], span: tuple[float, float], reach: float, corner: tuple[int, int]
) -> Found:
    """Look for level lines near the given rows in pieces of the span; ``corner`` is where the ink's part begins."""
    import cv2

    height, width = ink.shape
    edges = np.linspace(max(span[0] - corner[0], 0), min(span[1] - corner[0], width - 1), STRETCHES + 1)
    margin = int(np.ceil(reach)) + 2
    places = np.array([r - corner[1] for r in rows])
    first = places.astype(int) - 2 * margin
    fits = (first >= 0) & (first + 4 * margin < height)
    places, first = places[fits], first[fits]
    window = first[:, None] + np.arange(4 * margin + 1)
    found: Found = []
    for x0, x1 in pairwise(edges):
        if x1 - x0 < 4 or not len(places):
            continue
        darkness = cv2.reduce(np.ascontiguousarray(ink[:, int(x0) : int(x1)]), 1, cv2.REDUCE_AVG, dtype=cv2.CV_32F)
        for i, centre in _lines(np.asarray(darkness, np.float32)[:, 0][window], margin):
            off = first[i] + centre - places[i]
            if abs(off) <= reach:
                found.append(((x0 + x1) / 2 + corner[0], float(places[i]) + corner[1], float(off)))
    return found


def _lines(profiles: npt.NDArray[np.float32], margin: int) -> list[tuple[int, float]]:
    """Find the line in the middle half of each profile, shape (n, 4 margin + 1): the profile's number and the place."""
    profiles = profiles - np.minimum(np.roll(profiles, 3, axis=1), np.roll(profiles, -3, axis=1))
    inner = profiles[:, margin : 3 * margin + 1]
    peak = inner.argmax(axis=1)
    height = inner.max(axis=1)
    middle = np.median(profiles, axis=1, keepdims=True)
    noise = np.median(np.abs(profiles - middle), axis=1) + 0.5
    clear = (height >= 6 * noise) & (height >= 4) & (peak > 0) & (peak < inner.shape[1] - 1)
    lines = []
    for i in np.flatnonzero(clear):
        at = margin + int(peak[i])
        near = profiles[i, at - 2 : at + 3].clip(min=0)
        lines.append((int(i), at + float((near * np.arange(-2, 3)).sum() / near.sum())))
    return lines


def _fit(
    found: Found, box: tuple[float, float, float, float], lines: int, reach: float
) -> tuple[tuple[float, ...], int, float]:
    """Fit a polynomial of the place to the misses, robustly; few stretches allow fewer terms."""
    zero = (0.0,) * 6
    if len(found) < 6:
        return zero, 0, 0.0
    x, y, miss = (np.array(v) for v in zip(*found, strict=True))
    u = (2 * x - box[0] - box[2]) / (box[2] - box[0])
    v = (2 * y - box[1] - box[3]) / (box[3] - box[1])
    terms = np.stack([np.ones_like(u), u, v, u * v, u * u, v * v], axis=1)
    count = 1 if len(found) < 12 or lines < 3 else 4 if len(found) < 30 else 6
    terms = terms[:, :count]
    weight = np.ones(len(miss))
    fit, rest, scale = np.zeros(count), np.abs(miss), 1.0
    for _ in range(12):
        root = np.sqrt(weight)[:, None]
        # a slight pull toward no bend keeps stretches from being thrown about by a handful of strays
        fit = np.linalg.lstsq(
            np.vstack([terms * root, 0.3 * np.eye(count)]),
            np.concatenate([miss * root[:, 0], np.zeros(count)]),
            rcond=None,
        )[0]
        rest = np.abs(miss - terms @ fit)
        scale = max(0.5, 1.5 * float(np.median(rest)))
        weight = 1 / (1 + (rest / scale) ** 2) ** 2
    inside = rest < 3 * scale
    if inside.sum() < 0.5 * len(found):
        return zero, 0, 0.0
    rms = float(np.sqrt(np.mean(rest[inside] ** 2)))
    if rms > max(0.7, MOST_SPREAD * reach):
        return zero, 0, 0.0
    return tuple(float(f) for f in fit) + (0.0,) * (6 - count), int(inside.sum()), rms
