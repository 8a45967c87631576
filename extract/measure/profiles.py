"""How dark the pieces of a chart are across its lines, and where lines stand out of them."""

from __future__ import annotations

from collections.abc import Callable
from itertools import pairwise

import numpy as np
import numpy.typing as npt

from ..page import Pixels

STRETCHES = 10
"""Into so many pieces each line is cut; a piece gives one place."""
FAINTEST, CLEAR = np.float32(4.0), np.float32(6.0)
"""A line is darker than the paper beside it by so many grey levels, and by so many times the noise."""

Place = tuple[float, float]
Profile = npt.NDArray[np.float32]
Found = list[tuple[float, float, float]]
"""(x, y, how far the line lies from where it was expected), in sheet pixels."""


def pieces_of(ink: Pixels, span: Place, corner: tuple[int, int]) -> list[tuple[float, Profile]]:
    """Cut the span into pieces; give where each is across, and how dark it is at each place down."""
    import cv2

    edges = np.linspace(max(span[0] - corner[0], 0), min(span[1] - corner[0], ink.shape[1] - 1), STRETCHES + 1)
    pieces: list[tuple[float, Profile]] = []
    for x0, x1 in pairwise(edges):
        if x1 - x0 >= 4:
            part = np.ascontiguousarray(ink[:, int(x0) : int(x1)])
            darkness = np.asarray(cv2.reduce(part, 1, cv2.REDUCE_AVG, dtype=cv2.CV_32F), np.float32)
            pieces.append((float(x0 + x1) / 2 + corner[0], darkness[:, 0]))
    return pieces


def stretches_of(
    pieces: list[tuple[float, Profile]],
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


def beside_more(profile: npt.NDArray[np.float32]) -> npt.NDArray[np.float32]:
    """Give how much darker each place is than the darker of those three pixels to either side."""
    return profile - np.minimum(np.roll(profile, 3, axis=-1), np.roll(profile, -3, axis=-1))


def _lines(profiles: npt.NDArray[np.float32], margin: int) -> list[tuple[int, float]]:
    """Find the line in the middle half of each profile, shape (n, 4 margin + 1): the profile's number and the place."""
    profiles = beside_more(profiles)
    inner = profiles[:, margin : 3 * margin + 1]
    peak = inner.argmax(axis=1)
    clear = np.flatnonzero((inner.max(axis=1) >= clear_of(profiles)) & (peak > 0) & (peak < inner.shape[1] - 1))
    return list(zip(clear.tolist(), centred(profiles[clear], margin + peak[clear]).tolist(), strict=True))


def clear_of(profiles: npt.NDArray[np.float32]) -> npt.NDArray[np.float32]:
    """Give how high a line stands out of each profile, shape (n, length), at the least."""
    half = profiles.shape[1] // 2  # np.median, which halves between two middle places, takes long
    middle = np.partition(profiles, half, axis=1)[:, half, None]
    noise = np.partition(np.abs(profiles - middle), half, axis=1)[:, half] + 0.5
    return np.maximum(FAINTEST, CLEAR * noise)


def centred(profiles: npt.NDArray[np.float32], at: npt.NDArray[np.intp]) -> npt.NDArray[np.float64]:
    """Give where the line is that is darkest at a whole place ``at`` of each profile: the middle of its darkness."""
    beside = np.arange(-2, 3)
    places = (at[:, None] + beside).clip(0, profiles.shape[1] - 1)
    near = np.take_along_axis(profiles, places, axis=1).clip(min=0)
    return np.asarray(at + (near * beside).sum(axis=1) / near.sum(axis=1), np.float64)
