"""The values of a chart against the averages that the page prints, and against the speech recognition threshold."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

from ...interpret.record import Audiogram, PrintedAverage, Threshold

CODE = "printed-average-differs"
LEAST, CHANCE = 0.6, 0.05
"""An average whose letters are so sure, and that sure values give to its last digit, was misread by chance no oftener
than the part of numbers that would fit: two whole ones in some forty, times its doubt."""
ROUNDING_DB = 0.06
OFF_DB = 1.0
"""A printed average is rounded to whole dB, or cut: it lies less than this from the true one."""


def against_averages(audiogram: Audiogram) -> Audiogram:
    """Hold the values of an audiogram against its printed averages.

    Parameters
    ----------
    audiogram : Audiogram
        With ``printed_averages``; those that ask themselves say nothing of the values.

    Returns
    -------
    Audiogram
        Where the values that an average names, every one heard, give another one, it and they stand as ``ask``. Masked
        values stand before unmasked ones of the same frequency, as in the average. An average that asks for its
        letters alone is sure where sure values give it.
    """
    doubted: set[int] = set()
    averages: list[PrintedAverage] = []
    for one in audiogram.printed_averages:
        differs = _differs(one, audiogram.thresholds)
        if differs and one.standing == "sure":
            doubted |= differs
        averages.append(_asking(one) if differs else _borne_out(one, audiogram.thresholds))
    values = tuple(_doubted(t) if i in doubted else t for i, t in enumerate(audiogram.thresholds))
    return replace(audiogram, thresholds=values, printed_averages=tuple(averages))


def _differs(one: PrintedAverage, values: tuple[Threshold, ...]) -> set[int]:
    """Give the values that an average names by their numbers, where they give another one; else none."""
    used = _used(one, values)
    return set(used) if used and abs(_mean(used, values) - one.level_db_hl) >= OFF_DB else set()


def _borne_out(one: PrintedAverage, values: tuple[Threshold, ...]) -> PrintedAverage:
    """Let an average stand whose letters alone are in doubt, where values that are sure give just this number."""
    if one.why_ask != ("low-certainty",) or one.probability < LEAST:
        return one
    used = _used(one, values)
    if not used or any(values[i].standing != "sure" for i in used):
        return one
    mean = _mean(used, values)
    whole = float(one.level_db_hl).is_integer()
    fits = one.level_db_hl in (math.floor(mean), math.floor(mean + 0.5)) if whole else False
    if not fits and abs(mean - one.level_db_hl) > ROUNDING_DB:
        return one
    doubt = CHANCE * (1 - one.probability)
    return replace(one, standing="sure", why_ask=(), probability=round(1 - doubt, 4))


def _used(one: PrintedAverage, values: tuple[Threshold, ...]) -> list[int]:
    """Give the values that an average is of; none where one is missing or was not heard."""
    used: list[int] = []
    for hz in one.frequencies_hz:
        there = list(_named(one, values, hz))
        if not there:
            return []
        used.append(max(there, key=lambda i: values[i].masked))
    return used if all(values[i].response for i in used) else []


def _mean(used: list[int], values: tuple[Threshold, ...]) -> float:
    return sum(values[i].level_db_hl for i in used) / len(used)


def _named(one: PrintedAverage, values: tuple[Threshold, ...], hz: float) -> Iterator[int]:
    wanted = (one.ear, one.conduction, hz, "threshold", False)
    for i, t in enumerate(values):
        if (t.ear, t.conduction, t.frequency_hz, t.measure, t.aided) == wanted:
            yield i


def _asking(one: PrintedAverage) -> PrintedAverage:
    return replace(one, standing="ask", why_ask=tuple(dict.fromkeys((*one.why_ask, CODE))))


def _doubted(value: Threshold) -> Threshold:
    return replace(value, standing="ask", why_ask=tuple(dict.fromkeys((*value.why_ask, CODE))))
