"""How a hand moves: from the points that it means to pass to the path that it takes, and its speed along it."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
import numpy.typing as npt

Points = npt.NDArray[np.float64]
"""Shape (n, 2), x to the right and y down."""


@dataclass(frozen=True, slots=True, eq=False)
class Intent:
    """One stroke as it is meant: the points to pass, and how early the hand turns to the next one, 0 to 0.8.

    ``filled`` is for the area inside a stroke, blackened.
    """

    via: Points
    rounding: float
    filled: bool = False


@dataclass(frozen=True, slots=True, eq=False)
class Path:
    """Where the pen went: points, shape (n, 2), and its speed there, shape (n,), 1 on the average."""

    points: Points
    speed: npt.NDArray[np.float64]
    filled: bool = False


@lru_cache(maxsize=128)
def shares(count: int) -> npt.NDArray[np.float64]:
    """Give ``count`` even steps from 0 to 1, shape (count,), not to be written to."""
    steps = np.linspace(0.0, 1.0, count)
    steps.flags.writeable = False
    return steps


def travel(intent: Intent, *, places: int = 7) -> Path:
    """Move a hand through a stroke.

    Parameters
    ----------
    intent : Intent
        The stroke; with ``rounding`` 0 the hand rests at every point, with more its movements overlap in time and
        corners become curves.
    places : int
        How many places a movement the path is given at; letters need fewer than marks.

    Returns
    -------
    Path
        From the first to the last point.

    Notes
    -----
    Each piece from one point to the next is a movement of least jerk [1]_; overlapping ones add up. A piece takes a
    time that grows with the root of its length, since long strokes are written faster.

    References
    ----------
    .. [1] Flash and Hogan, Journal of Neuroscience 5(7), 1985, 1688-1703.
    """
    pieces = intent.via[1:] - intent.via[:-1]
    lasts = np.sqrt(np.hypot(pieces[:, 0], pieces[:, 1])) + 1e-6
    starts = np.concatenate(([0.0], np.cumsum(lasts * (1 - intent.rounding))[:-1]))
    count = min(max(places + 3, places * len(pieces)), 60)
    times = shares(count) * float((starts + lasts).max())
    done = np.clip((times[:, None] - starts) / lasts, 0, 1)
    done = done**3 * (10 - 15 * done + 6 * done**2)
    points = intent.via[0] + done @ pieces
    steps = points[1:] - points[:-1]
    paces = np.hypot(steps[:, 0], steps[:, 1])
    speed = np.concatenate((paces[:1], (paces[1:] + paces[:-1]) / 2, paces[-1:]))
    return Path(points, speed / max(float(speed.mean()), 1e-9), intent.filled)


def shaken(path: Path, reach: float, rng: np.random.Generator) -> Path:
    """Let the hand tremble by ``reach``, in the unit of the path."""
    if reach <= 0:
        return path
    along = 2 * math.pi * shares(len(path.points))[:, None, None]
    waves = rng.uniform(2, 9, (3, 2))
    phases = rng.uniform(0, 2 * math.pi, (3, 2))
    shake = np.sin(along * waves + phases).sum(axis=1)
    return Path(path.points + reach / 2 * shake, path.speed, path.filled)


def moved(path: Path, matrix: Points, shift: tuple[float, float]) -> Path:
    """Turn, lean and stretch a path by a matrix, shape (2, 2), then shift it."""
    return Path(path.points @ matrix.T + np.array(shift), path.speed, path.filled)
