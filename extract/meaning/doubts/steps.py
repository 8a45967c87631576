"""Whether the marks of a chart go by steps finer than 5 dB, and how far off its step a machine sets a mark."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

LEAST_MACHINE_MISS_DB = 0.6
TIMES_USUAL = 6.0
"""Where marks lie on their steps, one misses its own by less than so much, or than so many times the usual miss: of
15,700 painted marks of charts whose usual miss is below 0.1 dB, 23 do not. A finer step was meant, or another mark
hides it."""
FEWEST_BETWEEN = 3
BETWEEN_SHARE = 0.3
FINE_AGREE = 0.6
"""So many marks between 5-dB steps, and such a share of all, are on 1-dB steps where their places agree on whole
decibels so well (the mean cosine of their turns): of 4,600 painted charts on 5-dB steps, printed or by hand, some 20
do."""
HAND_AGREE = 0.8
BY_CHANCE = 3.0
"""Places by chance agree so well but once in 700 charts: few marks must agree better. It is the mean cosine over its
standard deviation, the root of half the marks' number upside down."""
FINE_STEP_DB = 1.0
WHOLE_AGREE, BY_CHANCE_WHOLE, MOST_SHIFT_DB = 0.9, 7.0, 0.25
"""Levels that agree so well lie within some 0.07 dB of whole decibels; by chance so many do once in 1,100 charts (the
length of the mean of n random turns is over r with a probability of exp(-n r²)). Which whole decibel is open where all
stand farther off."""


def on_fine_steps(levels: npt.NDArray[np.float64], misses: npt.NDArray[np.float64], *, like_hand: bool) -> bool:
    """Say whether the marks that lie between 5-dB steps lie on whole decibels.

    Parameters
    ----------
    levels, misses : ndarray, shape (n,), float64
        The marks' levels before rounding, and how far each is from its 5-dB step, dB.
    like_hand : bool
        Whether they miss their steps as a hand's marks do: then they must agree better.

    Returns
    -------
    bool
        True where the clinic tested by steps of 1 or 2 dB, and the marks were measured well enough to tell.
    """
    between = levels[misses > LEAST_MACHINE_MISS_DB]
    if len(between) < max(FEWEST_BETWEEN, BETWEEN_SHARE * len(levels)):
        return False
    # a hand's marks half a decibel off their 5-dB steps speak against finer ones as well
    agree = min(float(np.cos(2 * np.pi * some / FINE_STEP_DB).mean()) for some in (between, levels))
    least = HAND_AGREE if like_hand else FINE_AGREE
    if agree > max(least, BY_CHANCE / (2 * len(between)) ** 0.5):
        return True
    (_, among), (shift, overall) = (_together(some) for some in (between, levels))
    agree = min(among, overall)
    return agree > least and len(between) * agree**2 > BY_CHANCE_WHOLE and abs(shift) < MOST_SHIFT_DB


def between_steps(misses: npt.NDArray[np.float64]) -> bool:
    """Say whether enough levels to tell of finer steps miss their 5-dB ones, by so much each, in dB."""
    return int((misses > LEAST_MACHINE_MISS_DB).sum()) >= max(FEWEST_BETWEEN, BETWEEN_SHARE * len(misses))


def on_whole_decibels(levels: npt.NDArray[np.float64]) -> float | None:
    """Give how far levels stand off whole decibels together, in dB, where they lie on these; else None."""
    shift, agree = _together(levels)
    whole = agree > WHOLE_AGREE and len(levels) * agree**2 > BY_CHANCE_WHOLE and abs(shift) < MOST_SHIFT_DB
    return shift if whole else None


def _together(levels: npt.NDArray[np.float64]) -> tuple[float, float]:
    """Give how far levels stand off whole decibels together, and how well they agree in that, from 0 to 1."""
    mean = np.exp(2j * np.pi * levels / FINE_STEP_DB).mean()
    return float(np.angle(mean)) / (2 * np.pi) * FINE_STEP_DB, float(abs(mean))


def most_by_machine_db(usual_miss_db: float) -> float:
    """Give how far off its step a mark may stand on a chart whose marks miss theirs by so much as a rule."""
    return max(LEAST_MACHINE_MISS_DB, TIMES_USUAL * usual_miss_db)
