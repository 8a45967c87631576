"""When two word scores differ by more than chance: the binomial critical differences of Thornton and Raffin."""

from __future__ import annotations

import math
from typing import Literal

Difference = Literal["different", "borderline", "not different"]
DIFFERENCES: tuple[Difference, ...] = ("not different", "borderline", "different")

_SIGMAS_95 = 1.96


def critically_different(one_percent: float, one_words: int, other_percent: float, other_words: int) -> bool:
    """Tell whether two word recognition scores differ at the 95 % level.

    Parameters
    ----------
    one_percent, other_percent : float
        The scores, %.
    one_words, other_words : int
        How many words each list had.

    Notes
    -----
    Angular transform of the binomial variable; scores of ``n`` words differ where their angles lie more than 1.96
    standard deviations apart, the variance of each being 1 / (n + 1) [1]_. For lists of different lengths the
    variances are added. A score inside of the range is not different.

    References
    ----------
    .. [1] Thornton and Raffin, Journal of Speech and Hearing Research 21, 1978, 507-518.
    """
    apart = abs(_angle(one_percent, one_words) - _angle(other_percent, other_words))
    return apart > _SIGMAS_95 * math.sqrt(1 / (one_words + 1) + 1 / (other_words + 1))


def difference(one_percent: float, one_words: int, other_percent: float, other_words: int) -> Difference:
    """Name the difference of two scores; ``borderline`` where one word more or less would turn the verdict.

    Notes
    -----
    Simulation moves the edges of the published table in 23 % of its entries, never by more than one word (Carney and
    Schlauch 2007): so a score that is one word from an edge is told as such.
    """
    verdict = critically_different(one_percent, one_words, other_percent, other_words)
    scores = ((one_percent, one_words), (other_percent, other_words))
    for (percent, words), (fixed, fixed_words) in (scores, scores[::-1]):
        moved = (p for p in (percent + 100 / words, percent - 100 / words) if -1e-9 <= p <= 100 + 1e-9)
        if any(critically_different(p, words, fixed, fixed_words) != verdict for p in moved):
            return "borderline"
    return "different" if verdict else "not different"


def score_range(percent: float, words: int) -> tuple[float, float]:
    """Give the least and the most score of a second list of so many words that is not different, %."""
    alike = [
        100 * right / words
        for right in range(words + 1)
        if not critically_different(percent, words, 100 * right / words, words)
    ]
    return alike[0], alike[-1]


def _angle(percent: float, words: int) -> float:
    right = round(percent * words / 100)
    return math.asin(math.sqrt(right / (words + 1))) + math.asin(math.sqrt((right + 1) / (words + 1)))
