"""Which charts of a page are one test: two charts with an ear each, side by side or one above the other."""

from __future__ import annotations

from ...interpret.record import Threshold


def grouped(charts: list[tuple[Threshold, ...]]) -> list[list[int]]:
    """Group the charts of a page into tests.

    Parameters
    ----------
    charts : list of tuple of Threshold
        Each chart's thresholds, in reading order.

    Returns
    -------
    list of list of int
        Numbers of the charts of each test. Neighbours of which one holds the right ear alone and the other the left
        ear alone are one test; any other chart is a test of its own.
    """
    ears = [{t.ear for t in chart if t.ear in ("right", "left")} for chart in charts]
    groups: list[list[int]] = []
    i = 0
    while i < len(charts):
        if i + 1 < len(charts) and len(ears[i]) == 1 and len(ears[i + 1]) == 1 and ears[i] != ears[i + 1]:
            groups.append([i, i + 1])
            i += 2
        else:
            groups.append([i])
            i += 1
    return groups
