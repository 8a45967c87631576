"""Exact confidence bounds of an error rate."""

from __future__ import annotations


def upper_bound(errors: int, trials: int, confidence: float = 0.95) -> float:
    """Give the exact one-sided upper confidence bound of an error rate.

    Parameters
    ----------
    errors, trials : int
        ``errors`` may exceed ``trials`` (invented values are no trials); the bound is 1 then, as it is without trials.
    confidence : float
        Chance that the bound holds, at the least.

    References
    ----------
    Clopper and Pearson, Biometrika 26(4), 1934, 404-413.
    """
    if errors >= trials:
        return 1.0
    from scipy.stats import beta

    return float(beta.ppf(confidence, errors + 1, trials - errors))


def lower_bound(errors: int, trials: int, confidence: float = 0.95) -> float:
    """Give the exact one-sided lower confidence bound of an error rate (see :func:`upper_bound`)."""
    if errors == 0 or trials == 0:
        return 0.0
    return 1.0 - upper_bound(max(trials - errors, 0), trials, confidence)
