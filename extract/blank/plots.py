"""What stays of a chart: its plot, as far as its axes reach, and the labels of its axes."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import cv2
import numpy as np
import numpy.typing as npt

from ..chart import Mark, MeasuredChart
from ..eyes.words.numbers import frequency_values, level_value
from ..page import Word
from ..sheet import Sheet
from ..sightings import ArrowTip
from .places import Box, Mask, same_place

_NEAR, _REACH_OCTAVES = 0.8, 2.0
_BESIDE_OCTAVES, _BEYOND_DB = 0.4, 6.0
"""Marks of bone stand beside their frequency's line, and arrows hang below the lowest level."""


@dataclass(frozen=True, slots=True)
class ChartParts:
    """What stays of the charts of a sheet.

    ``plots`` are the pixels in which ink stays, a little beyond the axes; ``cores`` those within the axes, where words
    are not covered but doubted. ``labels`` are the boxes of the axes' labels and ``marks`` those of the marks, sheet
    pixels.
    """

    plots: Mask
    cores: Mask
    labels: tuple[Box, ...]
    marks: tuple[Box, ...]

    def beside(self, words: Iterable[Word]) -> list[Word]:
        """Give the words that are no axis labels, and no marks that were taken for words."""
        own = (*self.labels, *self.marks)
        return [word for word in words if not any(same_place(word.box, box) for box in own)]


def chart_parts(sheet: Sheet, charts: Sequence[MeasuredChart]) -> ChartParts:
    """Find what stays of the charts."""
    plots, cores = (np.zeros(sheet.pixels.shape[:2], np.uint8) for _ in range(2))
    for chart in charts:
        beside, beyond = _BESIDE_OCTAVES * chart.frequency.octave_px, _BEYOND_DB * abs(chart.level.px_per_db)
        left, top, right, bottom = _axes(chart)
        _fill(cores, (left, top, right, bottom))
        _fill(plots, (left - beside, top - beyond, right + beside, bottom + beyond))
    labels = tuple(word.box for word in sheet.words if any(_is_label(word, chart) for chart in charts))
    marks = tuple(_around(mark) for chart in charts for mark in chart.marks)
    arrows = (_arrow(tip) for chart in charts for mark in chart.marks for tip in mark.sight.tips)
    for box in (*marks, *arrows):
        _fill(plots, box)
    return ChartParts(plots.astype(bool), cores.astype(bool), labels, marks)


def _around(mark: Mark) -> Box:
    (x, y), (wide, high) = mark.sight.at, mark.sight.size
    return x - 0.6 * wide, y - 0.6 * high, x + 0.6 * wide, y + 0.6 * high


def _arrow(tip: ArrowTip) -> Box:
    (x, y), (u, v) = tip.at, tip.root
    edge = 0.3 * (abs(x - u) + abs(y - v))
    return min(x, u) - edge, min(y, v), max(x, u) + edge, max(y, v) + edge


def _fill(mask: npt.NDArray[np.uint8], box: Box) -> None:
    left, top, right, bottom = (round(side) for side in box)
    cv2.rectangle(mask, (left, top), (right, bottom), 1, cv2.FILLED)


def in_plot(word: Word, chart: MeasuredChart) -> bool:
    """Say whether the middle of a word lies within the plot, not beyond its axes."""
    x, y = chart.bend.undone((word.box[0] + word.box[2]) / 2, (word.box[1] + word.box[3]) / 2)
    left, top, right, bottom = _axes(chart)
    return left < x < right and top < y < bottom


def _is_label(word: Word, chart: MeasuredChart) -> bool:
    x, y = chart.bend.undone((word.box[0] + word.box[2]) / 2, (word.box[1] + word.box[3]) / 2)
    high = min(word.box[3] - word.box[1], word.box[2] - word.box[0]) if word.upright else word.box[3] - word.box[1]
    left, top, right, bottom = _axes(chart)
    within, reach = _NEAR * high, _REACH_OCTAVES * chart.frequency.octave_px
    at = [chart.frequency.x_of(hz) for hz, _ in frequency_values(word.text)]
    if top - reach < y < bottom + reach and any(abs(place - x) < within for place in at):
        return True
    level = level_value(word.text)
    if level is None or not left - reach < x < right + reach:
        return False
    return abs(chart.level.zero_px + level * chart.level.px_per_db - y) < within


def _axes(chart: MeasuredChart) -> Box:
    """Give the printed ranges of the axes as a box in chart coordinates."""
    (_, left), (_, right) = chart.frequency.anchors[0], chart.frequency.anchors[-1]
    top, bottom = sorted(chart.level.zero_px + db * chart.level.px_per_db for db in chart.level.printed)
    return left, top, right, bottom
