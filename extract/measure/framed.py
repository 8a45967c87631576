"""How the paper of a chart without a grid bends: as two sides of its frame do, which run as its lines would."""

from __future__ import annotations

from itertools import product

import numpy as np
import numpy.typing as npt

from .profiles import centred, clear_of

BEYOND, WITHIN = 1.5, 0.3
"""How far outside the outermost lines that were read a side may lie, and how far inside, in steps between lines."""
FEWEST_PIECES = 0.8
"""Share of a chart's pieces in which a side is found."""
JUMP, STEEP = 0.12, 0.35
"""From one piece to the next a side leaves its direction by at most that share of a step, and rises by at most this."""
SPREAD = 0.05
"""The places of both sides keep to one smooth bend within this share of a step (root mean square)."""
MOST_GROWTH = 0.8
"""The two sides come nearer to each other by at most so many steps over the chart."""
DRAWN_ALIKE = 0.4
"""The fainter of two sides of one frame is so dark, as a share of the darker: where only one side is drawn, the top of
some forms, what is followed in place of the other is noise of the paper."""
LEAST = 0.1
"""A frame that stays within this share of a step of straight bends nothing: so near the labels tell as well."""

Numbers = npt.NDArray[np.float64]
Box = tuple[float, float, float, float]
Side = list[tuple[float, float]]
"""Where a side is found: along the lines, from their labels, and down the profiles."""
Course = tuple[float, float, float]


def framed(profiles: npt.NDArray[np.float32], at: Numbers, expected: Numbers) -> Course | None:
    """Follow the first and the last side of a chart's frame.

    Parameters
    ----------
    profiles : ndarray, shape (pieces, length), float32
        How much darker each place down a piece of the chart is than those beside it.
    at : ndarray, shape (pieces,)
        Where the pieces are along the lines, from their labels, in pixels.
    expected : ndarray, shape (pieces, rows)
        The place down the profile of each line, as far as is known.

    Returns
    -------
    tuple of float or None
        The slope of the lines at the profiles' beginning, its growth for each pixel down, and their curve: how much
        lower a line lies so far along than at its label is ``(slope + growth * down) * along + curve * along ** 2``.
        None where no two sides are found that go together, or those are straight.
    """
    if expected.shape[1] < 2 or len(at) < 2:
        return None
    step = float(np.diff(expected, axis=1).mean())
    peaks = [_peaks(profile, float(least)) for profile, least in zip(profiles, clear_of(profiles), strict=True)]
    sides = _sides(peaks, at, step)
    first, last = (
        [side for side in sides if -WITHIN < out * _off(side, at, expected[:, row]) / step < BEYOND]
        for row, out in ((0, -1), (-1, 1))
    )
    dark = {id(side): _darkness(side, profiles, at) for side in (*first, *last)}
    alike = (pair for pair in product(first, last) if min(d := [dark[id(s)] for s in pair]) > DRAWN_ALIKE * max(d))
    courses = [_course(one, other) for one, other in alike]
    long, wide = float(at[-1] - at[0]), float((expected[:, -1] - expected[:, 0]).mean())
    good = [c for c, miss in courses if miss < SPREAD * step and abs(c[1]) * long * wide < MOST_GROWTH * step]
    return good[0] if good and max(np.ptp(_fall(good[0], at, down)) for down in expected.T) > LEAST * step else None


def as_terms(course: Course, box: Box, held: float, corner: float) -> tuple[float, ...]:
    """Give the terms ``down`` of a bend over a box, where labels stand at ``held`` and profiles begin at ``corner``."""
    left, top, right, bottom = box
    away, wide, high = (left + right) / 2 - held, (right - left) / 2, (bottom - top) / 2
    slope, growth, curve = course
    middle = slope + growth * ((top + bottom) / 2 - corner)
    return (
        middle * away + curve * away * away, (middle + 2 * curve * away) * wide,
        growth * high * away, growth * high * wide, curve * wide * wide, 0.0,
    )  # fmt: skip


def _fall(course: Course, along: Numbers, down: Numbers) -> Numbers:
    slope, growth, curve = course
    return (slope + growth * down) * along + curve * along**2


def _peaks(profile: npt.NDArray[np.float32], least: float) -> Numbers:
    """Give where lines are down one piece."""
    inner = profile[1:-1]
    tops = np.flatnonzero((inner >= least) & (inner >= profile[:-2]) & (inner > profile[2:])) + 1
    return centred(np.broadcast_to(profile, (len(tops), len(profile))), tops)


def _sides(peaks: list[Numbers], at: Numbers, step: float) -> list[Side]:
    """Follow every line of the middle piece to both ends of the chart; give those that reach them."""
    middle = len(peaks) // 2
    sides: list[Side] = []
    for start in peaks[middle]:
        way: Side = [(float(at[middle]), float(start))]
        for order in (range(middle + 1, len(peaks)), range(middle - 1, -1, -1)):
            way.sort(reverse=order.step > 0)
            for piece in order:
                way = _gone_on(way, float(at[piece]), peaks[piece], step)
        if len(way) >= FEWEST_PIECES * len(peaks):
            sides.append(way)
    return sides


def _gone_on(way: Side, x: float, peaks: Numbers, step: float) -> Side:
    """Put before a way the peak at which it goes on at ``x``, if there is one."""
    if not len(peaks):
        return way
    (last_x, last), *rest = way
    slope = (last - rest[0][1]) / (last_x - rest[0][0]) if rest else 0.0
    nearest = float(peaks[np.abs(peaks - last - slope * (x - last_x)).argmin()])
    astray = abs(nearest - last - slope * (x - last_x)) > (JUMP if rest else STEEP) * step
    return way if astray or abs(nearest - last) > STEEP * step else [(x, nearest), *way]


def _off(side: Side, at: Numbers, expected: Numbers) -> float:
    """Give how far below the places expected of a line a side lies, on the mean."""
    x, y = np.array(sorted(side)).T
    return float((y - np.interp(x, at, expected)).mean())


def _darkness(side: Side, profiles: npt.NDArray[np.float32], at: Numbers) -> float:
    """Give how much darker a side is than what lies beside it."""
    pieces = [int(np.abs(at - x).argmin()) for x, _ in side]
    return float(np.median([profiles[piece, round(y)] for piece, (_, y) in zip(pieces, side, strict=True)]))


def _course(one: Side, other: Side) -> tuple[Course, float]:
    """Fit how two sides run, each from its own place; give what they miss it by as well."""
    x, y = np.array([*one, *other]).T
    is_one = np.arange(len(x)) < len(one)
    down = np.where(is_one, y[is_one].mean(), y[~is_one].mean())
    terms = np.stack([is_one, ~is_one, x, down * x, x * x], axis=1).astype(np.float64)
    fit = np.linalg.lstsq(terms, y, rcond=None)[0]
    miss = float(np.sqrt(np.mean((y - terms @ fit) ** 2)))
    return (float(fit[2]), float(fit[3]), float(fit[4])), miss
