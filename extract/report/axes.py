"""Which words of a sheet belong to its charts: those in their plots, and the labels of their axes."""

from __future__ import annotations

import re
from collections.abc import Sequence

import numpy as np

from ..chart import MeasuredChart
from ..eyes.words.numbers import frequency_values, level_value
from ..page import Word

LABEL_WITHIN = 0.8
"""A number so near its place on an axis, in heights of its letters, is that axis' label."""
LABEL_REACH_OCTAVES = 1.0
"""Labels stand at most so far away from the plot."""
BESIDE = 0.8
"""A word is beside another, and those of a text one beside the other, where at most so many heights part them."""
UNITS = frozenset({"hz", "khz", "db", "hl"})
PLOT_EDGE = 0.3
"""A word belongs to a plot when its middle lies inside by more than this part of its height."""
LEAST_RANGE_DB = 40.0
"""What spans less is no audiogram: a table of reflexes has frequencies over rising levels, too."""
COLUMN_REACH_OCTAVES = 4.0
IN_COLUMN, IN_LONE_COLUMN = 4, 8
"""So many levels under each other, each at its height, are an axis: of a measured chart, and of one that was not."""
ALIGNED = 0.6
"""Labels of a column begin, end or are centred so near each other, in heights."""
EVEN = 0.35
"""Labels of an axis that was not measured stand at most so far from their even places, in heights."""
_LEVEL = re.compile(r"[-\u2013\u2212]?\d{1,3}")
_STEP_DB = 5.0
_LEAST_DB, _MOST_DB = -30.0, 140.0


def outside_charts(words: Sequence[Word], charts: Sequence[MeasuredChart]) -> tuple[Word, ...]:
    """Leave out the words that belong to charts.

    Parameters
    ----------
    words : sequence of Word
        All words of a sheet, in its pixels.
    charts : sequence of MeasuredChart
        Its charts.

    Returns
    -------
    tuple of Word
        In their order, without what stands in plots and without the labels of axes, also of those of a chart that was
        not measured.
    """
    wide = [chart for chart in charts if np.ptp(chart.level.printed) >= LEAST_RANGE_DB]
    in_columns = {id(word) for word in _lone_columns(words)}
    for chart in wide:
        in_columns |= {id(word) for word in _columns_of(words, chart)}
    return tuple(
        word
        for word in words
        if id(word) not in in_columns
        and not any(_in_plot(word, chart) or (_is_label(word, chart) and not _in_text(word, words)) for chart in wide)
    )


def _columns_of(words: Sequence[Word], chart: MeasuredChart) -> list[Word]:
    """Give the levels that stand at their heights on a chart's axis, under each other, also far from the plot."""
    reach = COLUMN_REACH_OCTAVES * chart.frequency.octave_px
    right = [word for word in words if _beside(word, chart) <= reach and _at_its_level(word, chart)]
    return [word for column in _aligned(right) if len({w.text for w in column}) >= IN_COLUMN for word in column]


def _lone_columns(words: Sequence[Word]) -> list[Word]:
    """Give the levels that stand evenly under each other, as on an axis."""
    levels = [word for word in words if _level(word) is not None and not word.upright]
    found: list[Word] = []
    for column in _aligned(levels):
        if len(column) < IN_LONE_COLUMN:
            continue
        values = np.array([_level(word) for word in column], float)
        middles = np.array([(word.box[1] + word.box[3]) / 2 for word in column])
        high = float(np.median([_height(word) for word in column]))
        per_db = np.diff(middles) / np.where(np.diff(values) == 0, np.nan, np.diff(values))
        slope = float(np.nanmedian(per_db)) if np.isfinite(per_db).any() else 0.0
        if slope * _STEP_DB * 2 < high:
            continue
        off = middles - slope * values
        even = np.abs(off - np.median(off)) < EVEN * high
        if len(set(values[even])) >= IN_LONE_COLUMN:
            found += [word for word, fits in zip(column, even, strict=True) if fits]
    return found


def _aligned(words: Sequence[Word]) -> list[list[Word]]:
    """Group words that begin, end or are centred under each other, from the top; a word may be in several groups."""
    groups: list[list[Word]] = []
    for place in (lambda w: w.box[0], lambda w: w.box[2], lambda w: (w.box[0] + w.box[2]) / 2):
        rest = sorted(words, key=place)
        while rest:
            near = ALIGNED * _height(rest[0])
            group = [word for word in rest if place(word) - place(rest[0]) <= near]
            groups.append(sorted(group, key=lambda w: w.box[1]))
            rest = rest[len(group) :]
    return groups


def _level(word: Word) -> float | None:
    """Give the level that a word says, as an axis is labelled."""
    text = word.text.strip(".,:;|_ ")
    value = float(re.sub(r"^\D", "-", text)) if _LEVEL.fullmatch(text) else None
    return value if value is not None and value % _STEP_DB == 0 and _LEAST_DB <= value <= _MOST_DB else None


def _at_its_level(word: Word, chart: MeasuredChart) -> bool:
    level = None if word.upright else level_value(word.text)
    y = _place(word, chart)[1]
    at = None if level is None else chart.level.zero_px + level * chart.level.px_per_db
    return at is not None and abs(at - y) < LABEL_WITHIN * _height(word)


def _beside(word: Word, chart: MeasuredChart) -> float:
    """Give how far a word stands beside the labelled part of a plot, in pixels."""
    x = _place(word, chart)[0]
    left, right = (at for _, at in (chart.frequency.anchors[0], chart.frequency.anchors[-1]))
    return max(left - x, x - right, 0.0)


def _in_plot(word: Word, chart: MeasuredChart) -> bool:
    """Say whether a word stands in a chart's plot."""
    x, y = _place(word, chart)
    left, right = (at for _, at in (chart.frequency.anchors[0], chart.frequency.anchors[-1]))
    top, bottom = _heights(chart)
    edge = PLOT_EDGE * _height(word)
    return left + edge < x < right - edge and top + edge < y < bottom - edge


def _is_label(word: Word, chart: MeasuredChart) -> bool:
    """Say whether a word stands and reads like a label of a chart's axes."""
    if word.upright:
        return False
    x, y = _place(word, chart)
    top, bottom = _heights(chart)
    beside_y = max(top - y, y - bottom, 0.0)
    within, reach = LABEL_WITHIN * _height(word), LABEL_REACH_OCTAVES * chart.frequency.octave_px
    if beside_y < reach and any(abs(chart.frequency.x_of(hz) - x) < within for hz, _ in frequency_values(word.text)):
        return True
    return _beside(word, chart) <= reach and _at_its_level(word, chart)


def _heights(chart: MeasuredChart) -> tuple[float, float]:
    top, bottom = sorted(chart.level.zero_px + db * chart.level.px_per_db for db in chart.level.printed)
    return top, bottom


def _in_text(word: Word, words: Sequence[Word]) -> bool:
    """Say whether a word follows or precedes others than units: a label of an axis stands alone, or with its unit."""
    high = _height(word)
    level = [
        other for other in words
        if not other.upright and abs(other.box[1] + other.box[3] - word.box[1] - word.box[3]) < high
    ]  # fmt: skip
    chain = [word]
    for one in chain:  # which grows while it is walked
        for other in level:
            gap = max(other.box[0] - one.box[2], one.box[0] - other.box[2])
            if gap < BESIDE * high and other not in chain:
                if sum(c.isalpha() for c in other.text) > 1 and other.text.strip(".,;:()").casefold() not in UNITS:
                    return True
                chain.append(other)
    return False


def _place(word: Word, chart: MeasuredChart) -> tuple[float, float]:
    return chart.bend.undone((word.box[0] + word.box[2]) / 2, (word.box[1] + word.box[3]) / 2)


def _height(word: Word) -> float:
    high = word.box[3] - word.box[1]
    return min(high, word.box[2] - word.box[0]) if word.upright else high
