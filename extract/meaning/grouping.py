"""Which charts of a page are one test: two charts with an ear each, unless their dates say that they are two tests."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from ...interpret.record import Threshold
from ..chart import FrequencyScale, MeasuredChart, OneEar
from ..page import Word

ChartEar = Literal["right", "left", "none"] | None
"""The only ear of a chart; ``none`` where it holds no value, None where it shows both or names none."""
Doubt = Literal["test-date-uncertain", "axis-uncertain"]
DATE = re.compile(r"(?<!\d)(\d{4}[-./]\d{1,2}[-./]\d{1,2}|\d{1,2}[-./]\d{1,2}[-./](?:\d{4}|\d{2}))(?!\d)")
ENOUGH_SURE = 4
MOSTLY = 0.7
"""Share of a chart's values that name one ear where it may be that ear's chart, with marks misread."""
STRAY = 0.15
"""Share of a chart's values that may name the other ear and be strays on a chart of one ear."""
MOST_STRAYS = 2
TITLE_DB = 30.0
"""How far above its plot a chart's title may stand, as a level difference: over labels and a caption; a letterhead
stands higher."""
SURE_DATE = 0.93
"""Dates read less surely tell no two tests apart; they make the values ask."""
MOST_YEARS = 15
"""Two tests printed on one page are not farther apart; a date of birth is."""
SAME_OFFSET_DB = 6.0
"""How far two dates may stand apart in their charts and be the same line of the same form."""

SAME_SIZE = 0.06
"""Logarithm of how far the scales of two charts of one form may differ, by the fit and by a page's tilt."""


@dataclass(frozen=True, slots=True)
class OneTest:
    """The charts of one test by their numbers, and why all their values are doubtful, where they are."""

    charts: tuple[int, ...]
    doubt: Doubt | None = None


def only_ear(thresholds: Sequence[Threshold]) -> OneEar | None:
    """Name the ear that a chart shows alone, a few strays aside; None for a chart of both ears or of none.

    Where none of those of the other ear stands as sure, one or two are strays, or a third of the sure ones.
    """
    ears = [t.ear for t in thresholds]
    if ear := only_of(ears.count("right"), ears.count("left")):
        return ear
    sure = [t.ear for t in thresholds if t.standing == "sure"]
    asked = [t.ear for t in thresholds if t.standing != "sure"]
    alone = only_of(sure.count("right"), sure.count("left"))
    strays = asked.count("left" if alone == "right" else "right")
    return alone if len(sure) >= ENOUGH_SURE and strays <= max(MOST_STRAYS, len(sure) // 3) else None


def mostly_ear(thresholds: Sequence[Threshold]) -> OneEar | None:
    """Name the ear that most values of a chart name."""
    right, left = (sum(t.ear == ear for t in thresholds) for ear in ("right", "left"))
    if max(right, left) < MOSTLY * (right + left) or right == left:
        return None
    return "right" if right > left else "left"


def half_a_test(ears: Sequence[ChartEar], mostly: Sequence[OneEar | None]) -> bool:
    """Say whether of two charts one shows one ear alone, and the other the other ear but for more than strays.

    They may be one test, or two.
    """
    if len(ears) != 2 or sum(ear is None for ear in ears) != 1:
        return False
    whole, mixed = sorted(range(2), key=lambda i: ears[i] is None)
    return {ears[whole], mostly[mixed]} == {"right", "left"}


def open_half(ears: Sequence[ChartEar], thresholds: Sequence[Sequence[Threshold]]) -> bool:
    """Say whether of two charts one shows one ear alone, and of the other nothing is sure.

    Whose values those are may be wrong throughout, and then they are the other ear's of the same test.
    """
    if len(ears) != 2 or sum(ear in ("right", "left") for ear in ears) != 1:
        return False
    other = thresholds[0 if ears[1] in ("right", "left") else 1]
    return bool(other) and all(t.standing != "sure" for t in other)


def only_of(right: int, left: int) -> OneEar | None:
    """Name the ear that so many values name, but for a few strays; None where both are named or none is."""
    counted: tuple[tuple[OneEar, int, int], ...] = (("right", right, left), ("left", left, right))
    for ear, own, others in counted:
        if own and others <= min(MOST_STRAYS, STRAY * (own + others)):
            return ear
    return None


def grouped(ears: Sequence[ChartEar], charts: Sequence[MeasuredChart], words: Sequence[Word]) -> list[OneTest]:
    """Group the charts of a page into tests.

    Parameters
    ----------
    ears : sequence of str or None
        The only ear of each chart, in reading order.
    charts : sequence of MeasuredChart
        The charts, for where they stand.
    words : sequence of Word
        The sheet's words, for the dates beside the charts.

    Returns
    -------
    list of OneTest
        A chart of the right ear and one of the left are one test, neighbours in reading order first. They are two
        tests where each has a date of its own in the same place and the dates differ. Where their dates differ
        otherwise they stay one test, with a doubt; so they do where they seem to be drawn at two sizes, for then an
        axis may be misread. So are a chart of one ear and one without marks that are alone on a page. Any other chart
        is a test of its own.
    """
    tests = {number: OneTest((number,)) for number in range(len(charts))}
    named: list[OneEar | None] = [None if ear == "none" else ear for ear in ears]
    for one, other in (*_pairs(named), *_with_empty(ears)):
        verdict = _tests_apart(charts[one], charts[other], words)
        if verdict != "two":
            tests[one] = OneTest((one, other), None if verdict == "one" else verdict)
            del tests[other]
    return list(tests.values())


def _pairs(ears: Sequence[OneEar | None]) -> list[tuple[int, int]]:
    """Pair charts of one ear each: neighbours where they alternate, else the first right with the first left and on."""
    alone = [i for i, ear in enumerate(ears) if ear is not None]
    rights = [i for i in alone if ears[i] == "right"]
    lefts = [i for i in alone if ears[i] == "left"]
    alternate = all(ears[a] != ears[b] for a, b in zip(alone[::2], alone[1::2], strict=False))
    if len(rights) == len(lefts) and not alternate:
        return [(min(pair), max(pair)) for pair in zip(rights, lefts, strict=True)]
    found: list[tuple[int, int]] = []
    i = 0
    while i + 1 < len(ears):
        both = ears[i] is not None and ears[i + 1] is not None and ears[i] != ears[i + 1]
        found += [(i, i + 1)] if both else []
        i += 2 if both else 1
    return found


def _with_empty(ears: Sequence[ChartEar]) -> list[tuple[int, int]]:
    """Pair a chart without values with the only other chart of the page, of one ear.

    The other ear was not tested, or the copy has lost its marks.
    """
    return [(0, 1)] if len(ears) == 2 and sum(ear == "none" for ear in ears) == 1 and None not in ears else []


def _tests_apart(one: MeasuredChart, other: MeasuredChart, words: Sequence[Word]) -> Literal["one", "two"] | Doubt:
    here, there = _dates(one, words), _dates(other, words)
    if here and there and not any(_same_date(a.text, b.text) for a in here for b in there):
        same_line = any(
            _offset(a, b) < SAME_OFFSET_DB and min(a.chance, b.chance) > SURE_DATE for a in here for b in there
        )
        return "two" if same_line else "test-date-uncertain"
    octaves = _widths(one.frequency, other.frequency)
    decibels = one.level.px_per_db / other.level.px_per_db
    alike = abs(math.log(abs(octaves))) < SAME_SIZE and abs(math.log(abs(decibels))) < SAME_SIZE
    return "one" if alike else "axis-uncertain"


def _widths(one: FrequencyScale, other: FrequencyScale) -> float:
    """Give how wide a frequency axis is beside another: between the same labels, for octaves may differ in width."""
    shared = sorted({hz for hz, _ in one.anchors} & {hz for hz, _ in other.anchors})
    if len(shared) < 2:
        return one.octave_px / other.octave_px
    low, high = shared[0], shared[-1]
    return (one.x_of(high) - one.x_of(low)) / (other.x_of(high) - other.x_of(low))


@dataclass(frozen=True, slots=True)
class _Date:
    """A date over a chart: how surely it was read, and how far from the chart's middle and top it stands, in dB."""

    text: str
    chance: float
    across: float
    down: float


def _offset(one: _Date, other: _Date) -> float:
    return max(abs(one.across - other.across), abs(one.down - other.down))


def _same_date(one: str, other: str) -> bool:
    """Say whether two dates are the same, or too many years apart to be dates of two tests."""
    years = [int(y.group()) for y in (re.search(r"\d{4}", one), re.search(r"\d{4}", other)) if y]
    if len(years) == 2 and abs(years[0] - years[1]) > MOST_YEARS:
        return True  # one of them is a date of birth
    return one == other


def _dates(chart: MeasuredChart, words: Sequence[Word]) -> list[_Date]:
    decibel = chart.level.px_per_db
    left, right = chart.frequency.anchors[0][1], chart.frequency.anchors[-1][1]
    top = chart.level.zero_px + decibel * chart.level.printed[0]
    bottom = chart.level.zero_px + decibel * chart.level.printed[1]
    found = []
    for word in words:
        said = DATE.search(word.text)
        x, y = (word.box[0] + word.box[2]) / 2, (word.box[1] + word.box[3]) / 2
        if said and left < x < right and top - TITLE_DB * abs(decibel) < y < bottom:
            found.append(_Date(said.group(), word.confidence, (x - (left + right) / 2) / decibel, (y - top) / decibel))
    return found
