"""When the tests of a page were done: dates that stand over charts, and which date is whose test's."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from ....interpret.record import Audiogram, Box, Fact
from ...chart import MeasuredChart
from ..lines import Line
from .draft import Draft
from .printed.pairs import Pair
from .values.dates import WrittenDate, dates_in

OVER = 0.3
"""A date over a chart is at most so far from its plot, in parts of the plot's height."""
BESIDE = 0.1
"""Its middle may lie so far outside the plot's sides, in parts of the plot's width."""


def dates_over_charts(
    lines: Sequence[Line], charts: Sequence[MeasuredChart], pairs: Sequence[Pair]
) -> list[tuple[Draft, WrittenDate]]:
    """Find dates without a label that stand over charts, as the title of the chart's test.

    Parameters
    ----------
    lines : sequence of Line
        All lines.
    charts : sequence of MeasuredChart
        The charts, in sheet pixels.
    pairs : sequence of Pair
        What labels announce is left out.

    Returns
    -------
    list of tuple
        Each date with what it may mean. Where every chart has one, they are the tests' dates; a single one may be
        another date as well and is asked about.
    """
    taken = {word.box for pair in pairs for word in pair.words}
    found: dict[int, tuple[Draft, WrittenDate]] = {}
    over: dict[int, set[int]] = {}
    for number, line in enumerate(lines):
        for place, cell in enumerate(line.cells):
            dates = [] if any(word.box in taken for word in cell.words) else dates_in(cell.text)
            if len(dates) != 1 or not dates[0].days:
                continue
            for k, chart in enumerate(charts):
                if _over(cell.box, chart):
                    key = 1000 * number + place
                    text = cell.text[dates[0].start : dates[0].end]
                    found[key] = (Draft("test-date", "", text, cell.words, None, None, strict=True), dates[0])
                    over.setdefault(k, set()).add(key)
    each = len(charts) > 1 and len(over) == len(charts) and all(len(keys) == 1 for keys in over.values())
    each = each and len(found) == len(charts)
    if each:
        return list(found.values())
    return [(replace(draft, why_ask=("label-uncertain",)), date) for draft, date in found.values()]


def _over(box: Box, chart: MeasuredChart) -> bool:
    left, right = chart.frequency.anchors[0][1], chart.frequency.anchors[-1][1]
    top, bottom = sorted(chart.level.zero_px + db * chart.level.px_per_db for db in chart.level.printed)
    x, reach = (box[0] + box[2]) / 2, BESIDE * (right - left)
    return left - reach < x < right + reach and 0 < top - box[3] < OVER * (bottom - top)


def with_dates(
    audiograms: tuple[Audiogram, ...], facts: Sequence[Fact], *, unread: bool = False
) -> tuple[Audiogram, ...]:
    """Give every audiogram the date of its test, where that is certain.

    Parameters
    ----------
    audiograms : tuple of Audiogram
        The page's tests.
    facts : sequence of Fact
        Its facts.
    unread : bool, optional
        Whether a chart of the page was not read: the page's date may be that of its test.

    Returns
    -------
    tuple of Audiogram
        The only test takes the page's one date. Of several tests each takes the one date that stands over its charts,
        where each has one of its own: a date over some of them only may be the report's. Whatever is not sure gives
        no date.
    """
    dates = [fact for fact in facts if fact.name == "test-date"]
    if len(audiograms) == 1 and not unread:
        values = {fact.value for fact in dates}
        sure = len(values) == 1 and all(fact.standing == "sure" for fact in dates)
        return (replace(audiograms[0], tested_on=values.pop()),) if sure else audiograms
    own = [[fact for fact in dates if _of_test(fact, one)] for one in audiograms]
    if any(len(some) != 1 for some in own) or len({id(some[0]) for some in own}) < len(own):
        return audiograms
    values = [some[0].value if some[0].standing == "sure" else None for some in own]
    return tuple(replace(one, tested_on=value) for one, value in zip(audiograms, values, strict=True))


def _of_test(fact: Fact, audiogram: Audiogram) -> bool:
    if fact.box is None:
        return False
    x, foot = (fact.box[0] + fact.box[2]) / 2, fact.box[3]
    for chart in audiogram.charts:
        xs, ys = [p[0] for p in chart.outline], [p[1] for p in chart.outline]
        reach = BESIDE * (max(xs) - min(xs))
        over = 0 < min(ys) - foot < OVER * (max(ys) - min(ys))
        if over and min(xs) - reach < x < max(xs) + reach:
            return True
    return False
