"""The values of a chart against the averages that the page prints, and against the speech recognition threshold."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from ...interpret.record import Audiogram, PrintedAverage, Threshold

CODE = "printed-average-differs"
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
        values stand before unmasked ones of the same frequency, as in the average.
    """
    doubted: set[int] = set()
    averages: list[PrintedAverage] = []
    for one in audiogram.printed_averages:
        differs = _differs(one, audiogram.thresholds)
        if differs and one.standing == "sure":
            doubted |= differs
        averages.append(_asking(one) if differs else one)
    values = tuple(_doubted(t) if i in doubted else t for i, t in enumerate(audiogram.thresholds))
    return replace(audiogram, thresholds=values, printed_averages=tuple(averages))


def _differs(one: PrintedAverage, values: tuple[Threshold, ...]) -> set[int]:
    """Give the values that an average names by their numbers, where they give another one; else none."""
    used: list[int] = []
    for hz in one.frequencies_hz:
        there = list(_named(one, values, hz))
        if not there:
            return set()
        used.append(max(there, key=lambda i: values[i].masked))
    if not used or any(not values[i].response for i in used):
        return set()
    mean = sum(values[i].level_db_hl for i in used) / len(used)
    return set(used) if abs(mean - one.level_db_hl) >= OFF_DB else set()


def _named(one: PrintedAverage, values: tuple[Threshold, ...], hz: float) -> Iterator[int]:
    wanted = (one.ear, one.conduction, hz, "threshold", False)
    for i, t in enumerate(values):
        if (t.ear, t.conduction, t.frequency_hz, t.measure, t.aided) == wanted:
            yield i


def _asking(one: PrintedAverage) -> PrintedAverage:
    return replace(one, standing="ask", why_ask=tuple(dict.fromkeys((*one.why_ask, CODE))))


def _doubted(value: Threshold) -> Threshold:
    return replace(value, standing="ask", why_ask=tuple(dict.fromkeys((*value.why_ask, CODE))))
