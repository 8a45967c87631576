"""Find how the printed grid lines lie, stretch by stretch, and fit a smooth bend to them."""

from __future__ import annotations

from collections.abc import Callable
from itertools import pairwise

import numpy as np
import numpy.typing as npt

from ..chart import Bend, FrequencyScale, LevelScale
from ..page import Pixels
from .keystone import keystone

STRETCHES = 10
"""Into so many pieces each line is cut; a piece gives one place."""
REACH_DB = 2.3
"""How far from its labels' place a level line is looked for; forms with lines every 5 dB allow no more."""

MOST_SPREAD = 0.12
"""Places that spread more than this share of the reach around their fit are no lines but marks, text and noise."""
CAP = 90
"""Ink darker than this counts no more."""

AGAIN = 1.0
"""Lines more than so many decibels from where they were looked for are looked for once more, where they were found."""

Box = tuple[float, float, float, float]
Leaning = tuple[tuple[float, ...], tuple[float, ...]]
"""The coefficients ``across`` and ``down`` of a bend that the labels alone tell."""
UPRIGHT: Leaning = ((0.0,) * 6, (0.0,) * 6)

WELL_COVERED = 0.5
"""Where fewer of the level lines' pieces are found, the sheet may lie in perspective."""
LEAST_COVER = 0.2
"""Where a lean that the ink suggests makes fewer pieces of level lines agree, it is chance."""

Place = tuple[float, float]
Numbers = npt.NDArray[np.float64]
Found = list[tuple[float, float, float]]
"""(x, y, how far the line lies from where it was expected), in sheet pixels."""


def fit_bend(
    pixels: Pixels,
    box: Box,
    frequency: FrequencyScale,
    level: LevelScale,
    leaning: Leaning = UPRIGHT,
    held_at: tuple[float, float] | None = None,
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
    leaning : Leaning
        How the lines lean by the labels alone: that is where they are looked for first.
    held_at : tuple of float, optional
        Where the level labels stand across and the frequencies' down the sheet: there lines are at their labels.

    Returns
    -------
    Bend
        Where too few lines are found (a chart without a grid), what the labels tell.
    """
    # only the chart's own region: the lines are looked for along and across it
    x0, y0, x1, y1 = (int(v) for v in box)
    frame = (max(x0 - 8, 0), max(y0 - 8, 0))
    ink = _ink(pixels[frame[1] : y1 + 9, frame[0] : x1 + 9])
    first = Bend(box, *leaning, 0, 0.0)
    bend = _bent(ink, frame, frequency, level, first)
    if bend.cover < WELL_COVERED:
        turned = _turned_more(ink, frame, (frequency, level), first, held_at)
        other = _bent(ink, frame, frequency, level, turned) if turned is not first else bend
        bend = other if other.cover > max(bend.cover, LEAST_COVER) else bend
    # lines that lie far from where they were looked for lie farther still where the sheet goes on
    far = max(map(abs, (*bend.down, *bend.across))) > AGAIN * level.px_per_db
    return _bent(ink, frame, frequency, level, bend) if bend.lines_found and far else bend


def _bent(ink: Pixels, frame: tuple[int, int], frequency: FrequencyScale, level: LevelScale, first: Bend) -> Bend:
    """Look for the lines where a bend has them, and fit anew."""
    columns, rows, span, fall = _lines_of(frequency, level)
    reach = REACH_DB * level.px_per_db
    down = _stretches(_pieces(ink, span, frame), rows, reach, frame[1], lambda x, y: first.off(x, y)[1])
    gap = min((b - a for a, b in pairwise(columns)), default=4 * reach)
    pieces = _pieces(np.ascontiguousarray(ink.T), fall, (frame[1], frame[0]))
    turned = _stretches(pieces, columns, min(reach, 0.3 * gap), frame[0], lambda y, x: first.off(x, y)[0])
    across = [(y, x, d) for x, y, d in turned]
    down_fit, down_count, down_rms = _fit(down, first.box, len(rows), reach)
    across_fit, across_count, _ = _fit(across, first.box, len(columns), reach)
    return Bend(
        first.box,
        _sum(first.across, across_fit),
        _sum(first.down, down_fit),
        down_count + across_count,
        down_rms,
        down_count / (len(rows) * STRETCHES),
    )


def _lines_of(frequency: FrequencyScale, level: LevelScale) -> tuple[list[float], list[float], Place, Place]:
    """Give where the axes have upright lines and level ones, and from where to where these run."""
    low, high = level.printed
    rows = [level.zero_px + level.px_per_db * v for v in np.arange(np.ceil(low / 10) * 10, high + 1, 10)]
    columns = [x for _, x in frequency.anchors]
    top, bottom = level.zero_px + level.px_per_db * low, level.zero_px + level.px_per_db * high
    return columns, rows, (columns[0], columns[-1]), (top, bottom)


def _turned_more(
    ink: Pixels, frame: tuple[int, int], axes: tuple[FrequencyScale, LevelScale], first: Bend, held_at: Place | None
) -> Bend:
    """Turn a bend farther, as most of the ink that runs along and across the chart says."""
    columns, rows, span, fall = _lines_of(*axes)
    held = held_at or (span[0], fall[0])
    down = _keystone_down(ink, frame, rows, span, lambda x, y: first.off(x, y)[1], held[0], axes[1].px_per_db)
    across = _keystone_down(
        np.ascontiguousarray(ink.T),
        (frame[1], frame[0]),
        columns,
        fall,
        lambda y, x: first.off(x, y)[0],
        held[1],
        axes[1].px_per_db,
    )
    if down == across == (0.0, 0.0):
        return first
    left, top, right, bottom = first.box
    wide, high = (left + right) / 2, (top + bottom) / 2
    half = (right - left) / 2, (bottom - top) / 2
    a, b = _over(down, rows, high, half[1])
    c, d = _over(across, columns, wide, half[0])
    x, y = wide - held[0], high - held[1]
    return Bend(
        first.box,
        _sum(first.across, (y * c, y * d, half[1] * c, half[1] * d, 0.0, 0.0)),
        _sum(first.down, (x * a, half[0] * a, x * b, half[0] * b, 0.0, 0.0)),
        0,
        0.0,
    )


def _over(slopes: tuple[float, float], lines: list[float], middle: float, half: float) -> tuple[float, float]:
    """Give slopes at the first and last line as one in the middle of the chart's region and its growth to the end."""
    growth = (slopes[1] - slopes[0]) / (lines[-1] - lines[0])
    return slopes[0] + growth * (middle - lines[0]), growth * half


def _keystone_down(
    ink: Pixels,
    corner: tuple[int, int],
    rows: list[float],
    span: Place,
    leaning: Callable[[float, float], float],
    held: float,
    decibel: float,
) -> tuple[float, float]:
    pieces = _pieces(ink, span, corner)
    if not pieces:
        return 0.0, 0.0
    profiles = np.stack([_beside_more(profile) for _, profile in pieces])

    def expected(x: Numbers, y: Numbers) -> Numbers:
        return y + np.vectorize(leaning)(x, y) - corner[1]

    return keystone(profiles, np.array([x for x, _ in pieces]), np.array(rows), expected, held, decibel)


def _sum(a: tuple[float, ...], b: tuple[float, ...]) -> tuple[float, ...]:
    return tuple(p + q for p, q in zip(a, b, strict=True))


def _ink(pixels: Pixels) -> Pixels:
    """How much darker than paper a pixel is, in its darkest channel, shape (height, width), uint8.

    It is capped: strong, short ink (marks, joins) must not outweigh a faint line through the piece.
    """
    import cv2

    red, green, blue = cv2.split(pixels)
    darkest = cv2.min(cv2.min(red, green, dst=red), blue, dst=red)
    return np.asarray(np.minimum(cv2.bitwise_not(darkest, dst=red), np.uint8(CAP)), np.uint8)


def _pieces(ink: Pixels, span: Place, corner: tuple[int, int]) -> list[tuple[float, npt.NDArray[np.float32]]]:
    """Cut the span into pieces; give where each is across, and how dark it is at each place down."""
    import cv2

    edges = np.linspace(max(span[0] - corner[0], 0), min(span[1] - corner[0], ink.shape[1] - 1), STRETCHES + 1)
    pieces: list[tuple[float, npt.NDArray[np.float32]]] = []
    for x0, x1 in pairwise(edges):
        if x1 - x0 >= 4:
            part = np.ascontiguousarray(ink[:, int(x0) : int(x1)])
            darkness = np.asarray(cv2.reduce(part, 1, cv2.REDUCE_AVG, dtype=cv2.CV_32F), np.float32)
            pieces.append((float(x0 + x1) / 2 + corner[0], darkness[:, 0]))
    return pieces


def _stretches(
    pieces: list[tuple[float, npt.NDArray[np.float32]]],
    rows: list[float],
    reach: float,
    corner: float,
    leaning: Callable[[float, float], float],
) -> Found:
    """Look for level lines near the given rows in pieces of the chart, which begin at ``corner``.

    ``leaning`` says how far below its row a line is expected at (x, row); what is found is relative to that.
    """
    margin = int(np.ceil(reach)) + 2
    looked: list[tuple[float, float, float, int]] = []
    profiles = [np.empty((0, 4 * margin + 1), np.float32)]
    for x, darkness in pieces:
        places = np.array([r + leaning(x, r) - corner for r in rows])
        first = places.astype(int) - 2 * margin
        fits = np.flatnonzero((first >= 0) & (first + 4 * margin < len(darkness)))
        profiles.append(darkness[first[fits, None] + np.arange(4 * margin + 1)])
        looked += [(x, rows[i], float(places[i]), int(first[i])) for i in fits]
    found: Found = []
    for number, centre in _lines(np.concatenate(profiles), margin):
        x, row, place, first_px = looked[number]
        off = first_px + centre - place
        if abs(off) <= reach:
            found.append((x, row, off))
    return found


def _beside_more(profile: npt.NDArray[np.float32]) -> npt.NDArray[np.float32]:
    """Give how much darker each place is than the darker of those three pixels to either side."""
    return profile - np.minimum(np.roll(profile, 3, axis=-1), np.roll(profile, -3, axis=-1))


def _lines(profiles: npt.NDArray[np.float32], margin: int) -> list[tuple[int, float]]:
    """Find the line in the middle half of each profile, shape (n, 4 margin + 1): the profile's number and the place."""
    profiles = _beside_more(profiles)
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


def _fit(found: Found, box: Box, lines: int, reach: float) -> tuple[tuple[float, ...], int, float]:
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
