"""Rows of words that are likelier numbers in even steps than frequencies: axes of distances, weeks, volumes."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

COUNTS = tuple(str(number) for number in range(21))
"""What the labels of such an axis say."""
UNLIKE = -6.0
"""The logarithm of its chance below which what a word may say tells nothing more against it."""
SLACK = 0.15
"""Columns by which a number may miss its place."""
FEWEST = 5
"""So many words make such an axis."""


def likelier_in_steps(at: npt.NDArray[np.float64], counts: npt.NDArray[np.float64], labels: dict[int, float]) -> bool:
    """Say whether words are likelier numbers that count on from column to column than the labels they were read as.

    Parameters
    ----------
    at : ndarray, shape (words,), float64
        The middles of the words of a line.
    counts : ndarray, shape (words, len(COUNTS)), float64
        How probable each number is for each word, as logarithms.
    labels : dict of int to float
        By their numbers, the words that are labels by another reading, and how probable what they are read as is.
    """
    own = np.sort(at[list(labels)])
    columns = (at - own[0]) / np.diff(own).min()
    order = [word for word in np.argsort(at) if abs(columns[word] - round(columns[word])) < SLACK]
    if len(order) < FEWEST or not set(labels) <= set(order):
        return False
    steps = np.round(columns[order]).astype(int)
    steps -= steps[0]
    if np.any(np.diff(steps) < 1) or steps[-1] >= len(COUNTS):
        return False
    mine = np.maximum(counts[order], UNLIKE)
    worths = [float(mine[range(len(order)), first + steps].sum()) for first in range(len(COUNTS) - int(steps[-1]))]
    theirs = sum(max(labels.get(int(word), UNLIKE), UNLIKE) for word in order)
    return max(worths) > theirs
