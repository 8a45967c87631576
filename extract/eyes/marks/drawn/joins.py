"""Lines that join marks: drawn beside their marks, two of them look like a mark or an arrow themselves."""

from __future__ import annotations

import numpy as np

from ....page import DrawnPath
from .arrows import CLEAR, Alone

AT_CENTRE = 0.15
"""A join begins and ends within so many of a mark's sizes of its centre."""


def without_joins(paths: tuple[DrawnPath, ...], seen: list[Alone]) -> tuple[DrawnPath, ...]:
    """Leave out the paths whose every corner is the centre of a mark.

    Parameters
    ----------
    paths : tuple of DrawnPath
        The sheet's paths, in drawing order.
    seen : list of Alone
        The marks that they show.

    Returns
    -------
    tuple of DrawnPath
        All but those that run from one mark to another; no stroke of a mark or an arrow does.
    """
    clear = [m.sight for m in seen if m.sight.score >= CLEAR]
    if len(clear) < 2:
        return paths
    centres = np.array([m.at for m in clear])
    reach = AT_CENTRE * np.array([max(m.size) for m in clear])

    lines = [p for p in paths if p.stroke is not None and len(p.points) >= 2 and p.on_curve.all()]
    if not lines:
        return paths
    away = np.concatenate([p.points for p in lines])[:, None] - centres
    at = np.hypot(away[..., 0], away[..., 1]) < reach
    first = np.cumsum([0] + [len(p.points) for p in lines[:-1]])
    last = np.append(first[1:], len(at)) - 1
    joins = np.logical_and.reduceat(at.any(axis=1), first) & ~(at[first] & at[last]).any(axis=1)
    joined = {id(path) for path, is_join in zip(lines, joins, strict=True) if is_join}
    return tuple(path for path in paths if id(path) not in joined)
