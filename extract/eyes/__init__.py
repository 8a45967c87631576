"""Sheet to Sightings: words, charts by their labels, and the marks on each chart."""

from __future__ import annotations

import math
import re

from ...interpret.symbols import Glyph
from ..page import Word
from ..shades import once
from ..sheet import Sheet
from ..sightings import ChartArea, KeyLine, LabelRun, MarkSight, Sightings
from .axes.areas import chart_areas, within_frames
from .axes.joined import SIDEWAYS
from .axes.leftover import chart_like
from .axes.ruling import ruling_of
from .key import key_lines, without_specimens
from .marks.closely import looked_closely, usual_size
from .marks.crops import ChartCrop, chart_crop
from .marks.drawn.alone import take_apart
from .marks.drawn.lettered import READ, lettered
from .marks.faded import not_paler, not_through
from .marks.hand import by_hand, seen_by_hand
from .marks.network import marks_in


def see_areas(sheet: Sheet) -> tuple[ChartArea, ...]:
    """See where a sheet's charts are, which is quick beside their marks."""
    height, width = sheet.pixels.shape[:2]
    return within_frames(chart_areas(sheet.words, (width, height)), once(sheet.pixels, ruling_of))


ROOM = 0.75
"""A letter that is a mark stands so many steps of an axis' labels beyond the outermost at most."""


def see(sheet: Sheet, areas: tuple[ChartArea, ...] | None = None) -> Sightings:
    """Look at a sheet.

    Parameters
    ----------
    sheet : Sheet
        The straightened page.
    areas : tuple of ChartArea, optional
        Where its charts are (``see_areas``), where that is known.

    Returns
    -------
    Sightings
        What kind of ink is where, with scores; no values yet.
    """
    ruling = once(sheet.pixels, ruling_of)
    areas = see_areas(sheet) if areas is None else areas
    seen = [
        without_specimens(sheet, _off_labels(_marks_of(sheet, i, area), area, sheet.words))
        for i, area in enumerate(areas)
    ]
    seen = [_apart(sheet, i, areas[i], marks) for i, marks in enumerate(seen)]
    if sheet.paths:
        seen = [not_paler(sheet.pixels, marks) for marks in seen]
    marks = tuple(mark for of_area in seen for mark in of_area)
    lost = chart_like(sheet.pixels, sheet.words, areas, ruling)
    key = key_lines(sheet, areas, marks)
    return Sightings(sheet.words, areas, _off_key(marks, areas, key), key, lost)


def _apart(sheet: Sheet, number: int, area: ChartArea, marks: tuple[MarkSight, ...]) -> tuple[MarkSight, ...]:
    letters = lettered(sheet.words, area.box) if sheet.words_given else ()
    # letters in rows beside a chart say something else
    letters = tuple(one for one in letters if one.word.text not in READ or _in_plot(one.word.middle, area, ROOM))
    return take_apart(sheet.paths, sheet.words, number, area, marks, letters)


def _in_plot(at: tuple[float, float], area: ChartArea, steps: float = 0.0) -> bool:
    """Say whether a place lies within what a chart's labels span, or so many steps of theirs beyond the outermost."""
    for run in (area.frequency, area.level):
        first, last = min(run.at), max(run.at)
        room = steps * (last - first) / max(len(run.at) - 1, 1)
        if not first - room <= at[0 if run.along == "x" else 1] <= last + room:
            return False
    return True


BEYOND_STEPS, ON_SPECIMEN = 0.3, 0.5
"""A specimen of a key stands more than so many steps beyond a chart's labels; so near, in sizes, a mark is one."""


def _off_key(
    marks: tuple[MarkSight, ...], areas: tuple[ChartArea, ...], key: tuple[KeyLine, ...]
) -> tuple[MarkSight, ...]:
    """Leave out the specimens of a key beneath a plot: its lowest marks may hang over its edge as far as they stand."""
    places = [line.at for line in key if line.at is not None]

    def of_key(mark: MarkSight) -> bool:
        on_one = any(math.dist(mark.at, at) < ON_SPECIMEN * max(mark.size) for at in places)
        return on_one and not _in_plot(mark.at, areas[mark.area], BEYOND_STEPS)

    return tuple(mark for mark in marks if not of_key(mark))


BESIDE: frozenset[Glyph] = frozenset({
    "angle-left", "angle-right", "bracket-left", "bracket-right", "half-bracket-left", "half-bracket-right",
})  # fmt: skip
BESIDE_SIZES = 1.2
"""Marks that are drawn beside the line of their frequency, and how far from it at most, in sizes of the mark."""


def _off_labels(marks: tuple[MarkSight, ...], area: ChartArea, words: tuple[Word, ...]) -> tuple[MarkSight, ...]:
    """Leave out what is a character of a label, or stands beyond the levels, where axes have their titles.

    The noughts of "10" and "100" look like small circles.
    """
    columns = [run for run in (area.level, *area.more) if run.kind == "level" and run.along == "y"]
    rows = [run for run in (area.frequency, *area.more) if run.kind == "frequency"]
    boxes = [box for run in (area.frequency, area.level, *area.more) for box in _label_boxes(run)]
    boxes += [box for run in columns for box in _printed_boxes(run, words)]
    boxes += [box for run in rows for box in _grouped_boxes(run, words)]
    sideways = [box for run in rows for box in _sideways_boxes(run, words)]
    return tuple(
        m
        for m in marks
        if not any(
            abs(m.at[0] - x) < half and abs(m.at[1] - y) < 0.6 * high and max(m.size) < 1.4 * high
            for x, y, half, high in boxes
        )
        and not any(_beyond(m, run, area.frequency) for run in columns)
        and not any(_beyond_row(m, run, area.level) for run in rows)
        and not any(_within(m, box) for box in sideways)
    )


def _beyond(mark: MarkSight, levels: LabelRun, frequencies: LabelRun) -> bool:
    """Say whether a mark stands beyond a column of levels that stands beside all frequencies: no mark can.

    But bone marks stand beside their line, and those of the last frequency may cover its levels and reach past them.
    """
    if frequencies.along != "x":
        return False
    first, last = min(frequencies.at), max(frequencies.at)
    reach = BESIDE_SIZES * max(mark.size) if mark.glyph in BESIDE else 0.0
    before, behind = levels.across < first, levels.across > last
    beyond_first = before and mark.at[0] < min(levels.across, first - reach)
    return beyond_first or (behind and mark.at[0] > max(levels.across, last + reach))


def _beyond_row(mark: MarkSight, frequencies: LabelRun, levels: LabelRun) -> bool:
    """Say whether a mark stands beyond a row of frequencies that stands above or below all levels, as keys do.

    Above, a level may have gone unread that stands over the row: a mark there stands no step farther.
    """
    if frequencies.along != "x" or levels.along != "y" or len(levels.at) < 2:
        return False
    first, last = min(levels.at), max(levels.at)
    reach = frequencies.text_height
    step = (last - first) / (len(levels.at) - 1)
    above = frequencies.across < first and mark.at[1] < frequencies.across - max(reach, step)
    return above or (frequencies.across > last and mark.at[1] > frequencies.across + reach)


def _printed_boxes(run: LabelRun, words: tuple[Word, ...]) -> list[tuple[float, float, float, float]]:
    """Give the middles of the words of a column's labels, half their width, and their height."""
    high = run.text_height
    wide = (0.3 * max(len(f"{value:g}") for value in run.values) + 0.5) * high
    found = []
    for word in words:
        (left, top, right, bottom), number = word.box, word.text.strip("+-\u2212").isdigit()
        x, y = (left + right) / 2, (top + bottom) / 2
        if number and abs(x - run.across) < wide and any(abs(y - at) < 0.5 * high for at in run.at):
            found.append((x, y, (right - left) / 2 + 0.1 * high, high))
    return found


def _grouped_boxes(run: LabelRun, words: tuple[Word, ...]) -> list[tuple[float, float, float, float]]:
    """Give places as ``_label_boxes`` does of a row's words that are the thousands of "1 000", read whole or not."""
    high = run.text_height
    found = []
    for word in words:
        left, top, right, bottom = word.box
        if GROUPED.fullmatch(word.text) and abs((top + bottom) / 2 - run.across) < 0.5 * high:
            found.append(((left + right) / 2, (top + bottom) / 2, (right - left) / 2 + 0.1 * high, high))
    return found


def _sideways_boxes(run: LabelRun, words: tuple[Word, ...]) -> list[tuple[float, float, float, float]]:
    """Give the boxes of a row's labels that stand on their side, with room: characters together look like marks."""
    room = BESIDE_SIDEWAYS * run.text_height
    found = []
    for word in words:
        if word.upright not in SIDEWAYS:
            continue
        left, top, right, bottom = word.box
        near = any(abs((left + right) / 2 - at) < 0.5 * run.text_height for at in run.at)
        if near and top - room < run.across < bottom + room:
            found.append((left - room, top - room, right + room, bottom + room))
    return found


def _within(mark: MarkSight, box: tuple[float, float, float, float]) -> bool:
    (x, y), (wide, high) = mark.at, mark.size
    across = box[0] < x - wide / 2 and x + wide / 2 < box[2]
    return across and box[1] < y - high / 2 and y + high / 2 < box[3]


def _label_boxes(run: LabelRun) -> list[tuple[float, float, float, float]]:
    """Give the middles of a run's labels, half their width and their height, in sheet pixels."""
    boxes = []
    for value, at in zip(run.values, run.at, strict=True):
        half = (0.3 * len(f"{value:g}") + 0.1) * run.text_height  # a digit is some 0.6 of its height wide
        boxes.append((*((at, run.across) if run.along == "x" else (run.across, at)), half, run.text_height))
    return boxes


GROUPED = re.compile(r"(\d{1,2}[ .,])?000")
BESIDE_SIDEWAYS = 0.5
"""What is a part of a label on its side reaches so many text heights beyond it at most."""
SMALL_MARK_PX = 17.0
"""Marks smaller than this in a chart's crop are looked at once more, larger: shapes that overlap run together there."""
WANTED_MARK_PX = 24.0
LARGER, FEWEST_PLOTTED, CLEAR_SCORE = 1.8, 6, 0.5
"""So much larger a chart is looked at again where too few marks were seen to tell how large they are: in a thin pencil,
on a large chart, they may be too small to be seen at all. But so many must be clear marks between the axes: on a blank
form letters of titles are all that is seen."""
LEAST_LARGER, MOST_PIXELS = 1.25, 1_200_000
"""Such a look is worth it from so much larger, and takes some 0.3 GB for so many pixels."""


def _marks_of(sheet: Sheet, number: int, area: ChartArea) -> tuple[MarkSight, ...]:
    """See the marks of one chart; where no paths show them one by one, look at each closely too."""
    crop = chart_crop(sheet.pixels, area.box)
    marks = marks_in(crop, number)
    if sheet.paths:
        return marks
    if usual_size(marks) is None:
        crop, marks = _larger(sheet, number, area, crop, marks)
    close = looked_closely(sheet.pixels, area.box, _seen_twice(sheet, number, area, crop, marks))
    return not_through(sheet.pixels, close)


def _larger(
    sheet: Sheet, number: int, area: ChartArea, crop: ChartCrop, marks: tuple[MarkSight, ...]
) -> tuple[ChartCrop, tuple[MarkSight, ...]]:
    """Look at a chart larger, and take what is seen then where it is small marks."""
    high, wide = crop.pixels.shape[:2]
    scale = crop.scale * min(LARGER, math.sqrt(MOST_PIXELS / (high * wide)))
    if scale < LEAST_LARGER * crop.scale:
        return crop, marks
    larger = chart_crop(sheet.pixels, area.box, scale=scale)
    again = marks_in(larger, number)
    size = usual_size(again)
    plotted = sum(m.score >= CLEAR_SCORE and _in_plot(m.at, area) for m in again)
    small = size is not None and size * crop.scale < SMALL_MARK_PX
    return (larger, again) if small and plotted >= FEWEST_PLOTTED else (crop, marks)


def _seen_twice(
    sheet: Sheet, number: int, area: ChartArea, crop: ChartCrop, marks: tuple[MarkSight, ...]
) -> tuple[MarkSight, ...]:
    """See marks by hand with the network that knows them, and small ones larger; others as they were seen."""
    if by_hand(marks, area.level):
        return seen_by_hand(sheet.pixels, number, area, marks)
    size = usual_size(marks)
    if size is None or size * crop.scale >= SMALL_MARK_PX:
        return marks
    larger = min(2.2, WANTED_MARK_PX / (size * crop.scale))
    return marks_in(chart_crop(sheet.pixels, area.box, scale=larger * crop.scale), number)
