"""Lines that join marks: drawn beside their marks, two of them look like a mark or an arrow themselves."""

from __future__ import annotations

import numpy as np

from ...page import DrawnPath
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

    def is_join(path: DrawnPath) -> bool:
        if path.stroke is None or not path.on_curve.all() or len(path.points) < 2:
            return False
        away = np.hypot(*(path.points[:, None] - centres[None]).T)
        at = [set(np.flatnonzero(column < reach)) for column in away.T]
        return all(at) and not at[0] & at[-1]

    return tuple(path for path in paths if not is_join(path))
