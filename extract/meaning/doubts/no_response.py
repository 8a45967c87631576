"""Whether a word beside a mark says that there was no response, where others hang an arrow from it."""

from __future__ import annotations

import math
import re
from dataclasses import replace

from ....interpret.reach import LEAST_END_DB
from ....interpret.record import Point, Threshold
from ...chart import MeasuredChart
from ...page import Word
from ...sheet import Sheet
from ...sightings import MarkSight
from ..nearby import ACCEPT
from ..slots import asked

NO_RESPONSE = re.compile(r"(n\.?r[.?:]*)+", re.IGNORECASE)
"""No response [common practice]; the words of two marks side by side may be read as one."""
CUT_SHORT = re.compile(r"[nrmkpbh]{0,2}n[nrmkpbh]{0,2}[.?:]*", re.IGNORECASE)
"""What is left of those letters where a thick pen or a copy ran them together."""
ASIDE = 0.6
"""A word's middle is so far from the mark's that it stands beside, in sizes: else the mark was read as letters."""
FROM_ALL = 2.5
"""A word so far from every mark, in sizes, is of a note: on five painted pages by hand one `nr` in a remark, 2.9 to 15
sizes off, made 77 values ask beside whose marks something was written, none of them rightly."""
BESIDE = 0.8
"""So near to a mark's centre, less half its size, a word's box begins that is written beside it, in sizes."""

Box = tuple[float, float, float, float]


def no_response_written(sheet: Sheet, chart: MeasuredChart, thresholds: list[Threshold]) -> list[Threshold]:
    """Ask about values that stand as heard although a word beside their mark says that they were not.

    Parameters
    ----------
    sheet : Sheet
        For its words, and for positions on the page.
    chart : MeasuredChart
        The chart.
    thresholds : list of Threshold
        The chart's values.

    Returns
    -------
    list of Threshold
        The same; a value whose mark is the nearest to such a word is given as not heard. Where a chart has such words,
        a word beside a mark that could not be read may be one too, and a value at the level of another that was not
        heard may have lost its word: it is the audiometer's limit.
    """
    sights = [mark.sight for mark in chart.marks]
    told = [w for w in sheet.words if NO_RESPONSE.fullmatch(w.text.strip()) and _overlap(w.box, chart.box)]
    told = [w for w in told if not _on_a_mark(w, sights) and not _of_a_note(w, sights)]
    if not told:
        return _perhaps_written(sheet, chart, thresholds)
    places = {_place(t) for t in thresholds}
    read = [s for s in sights if sheet.on_page(*s.at) in places and not any(_holds(w, s) for w in told)]
    nearest = {min(read, key=lambda s, w=w: _gap(w, s)).at for w in told if read}
    maybe = [w for w in sheet.words if not any(map(str.isdigit, w.text)) and not _on_a_mark(w, sights)]
    beside = {sheet.on_page(*s.at): s.at in nearest for s in read if any(_gap(w, s) < BESIDE for w in maybe)}
    limits = {(t.conduction, t.level_db_hl) for t in thresholds if _place(t) in beside}
    beside |= {
        at: beside.get(at, False)
        for t in thresholds
        if (at := _place(t)) is not None and (t.conduction, t.level_db_hl) in limits
    }
    return [
        replace(asked(t, "arrow-uncertain"), response=t.response and not beside[at])
        if t.response and (at := _place(t)) is not None and at in beside
        else t
        for t in thresholds
    ]


def _perhaps_written(sheet: Sheet, chart: MeasuredChart, thresholds: list[Threshold]) -> list[Threshold]:
    """Ask about loud values beside whose mark, clear of any other, some letters of such a word are read."""
    sights = [mark.sight for mark in chart.marks if mark.sight.score >= ACCEPT]
    words = [w for w in sheet.words if CUT_SHORT.fullmatch(w.text.strip()) and _overlap(w.box, chart.box)]
    words = [w for w in words if all(_aside(w, s) > ASIDE for s in sights)]
    beside = {sheet.on_page(*s.at) for s in sights if any(_gap(w, s) < BESIDE for w in words)}
    return [
        asked(t, "arrow-uncertain")
        if t.response and _place(t) in beside and t.level_db_hl >= LEAST_END_DB.get(t.conduction, math.inf)
        else t
        for t in thresholds
    ]


def _aside(word: Word, sight: MarkSight) -> float:
    """Give how far a word's middle is from a mark's, in sizes of the mark."""
    left, top, right, bottom = word.box
    return math.dist(((left + right) / 2, (top + bottom) / 2), sight.at) / max(sight.size)


def _place(threshold: Threshold) -> Point | None:
    return threshold.seen.at if threshold.seen is not None else None


def _gap(word: Word, sight: MarkSight) -> float:
    """Give how far a word's box is from a mark's, in sizes of the mark."""
    left, top, right, bottom = word.box
    across, down = max(left - sight.at[0], sight.at[0] - right, 0.0), max(top - sight.at[1], sight.at[1] - bottom, 0.0)
    return float(max(across, down) / max(sight.size)) - 0.5


def _of_a_note(word: Word, sights: list[MarkSight]) -> bool:
    """Say whether a word stands far from all marks."""
    return all(_gap(word, s) > FROM_ALL for s in sights if s.score >= ACCEPT)


def _on_a_mark(word: Word, sights: list[MarkSight]) -> bool:
    """Say whether a word is a mark that was read as letters; letters that were seen as one are none."""
    marks = (s for s in sights if s.score >= ACCEPT and not s.glyph.startswith("letter"))
    return any(_holds(word, s) for s in marks)


def _holds(word: Word, sight: MarkSight) -> bool:
    left, top, right, bottom = word.box
    return left <= sight.at[0] <= right and top <= sight.at[1] <= bottom


def _overlap(one: Box, other: Box) -> bool:
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]
