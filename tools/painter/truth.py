"""What a painted page truly holds: every mark, word and joining line with its place, and the true record."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from math import dist
from typing import Literal

import numpy as np
import numpy.typing as npt

from ...interpret.record import Audiogram, Chart, Ear, PageRecord, Point, Threshold
from ...interpret.symbols import SYMBOL_SETS, Glyph, Ink

Warp = Callable[[npt.NDArray[np.float64]], npt.NDArray[np.float64]]
"""Page fractions before, shape (n, 2), to page fractions after, shape (n, 2)."""
Box = tuple[float, float, float, float]
"""Left, top, right, bottom in page fractions."""
Arrow = Literal["down-left", "down-right", "down"]


ONE_PLACE = 0.001
"""Marks nearer than this share of the page, 0.2 to 0.3 mm on A4, look like one."""


@dataclass(frozen=True, slots=True)
class PaintedMark:
    """One mark on a chart or in a printed key.

    ``at`` is the centre and ``size`` the width and height of the glyph's own ink box (the arrow not counted), both in
    page fractions. ``chart`` and ``audiogram`` count over the whole page, from 0. ``threshold`` is None for a specimen
    in a key (``in_key``).
    """

    glyph: Glyph
    ink: Ink
    threshold: Threshold | None
    at: Point
    size: tuple[float, float]
    arrow: Arrow | None
    arrow_tip: Point | None
    chart: int
    audiogram: int
    in_key: bool


@dataclass(frozen=True, slots=True)
class PaintedWord:
    """One printed word with the box of its ink; ``upright`` is the clockwise turn in degrees that makes it readable."""

    text: str
    box: Box
    upright: int
    role: Literal["frequency-label", "level-label", "other"]
    chart: int | None


@dataclass(frozen=True, slots=True)
class PaintedCell:
    """One cell of a printed table of thresholds: its text, its middle, and what it states (None for no level)."""

    text: str
    at: Point
    threshold: Threshold | None


@dataclass(frozen=True, slots=True)
class PaintedPage:
    """A page as vector PDF and the truth about it.

    ``joins`` are the poly-lines of the joining lines as drawn (gaps at marks are separate poly-lines). ``cells`` are
    those of printed tables beside a chart; where they differ from the chart, the record holds what the chart shows.
    """

    family: str
    seed: int
    pdf: bytes
    size_pt: tuple[float, float]
    record: PageRecord
    marks: tuple[PaintedMark, ...]
    words: tuple[PaintedWord, ...]
    joins: tuple[tuple[Point, ...], ...]
    cells: tuple[PaintedCell, ...] = ()

    def moved(self, warp: Warp) -> PaintedPage:
        """Carry every position of the truth through a warp of the page.

        Parameters
        ----------
        warp : callable
            Page fractions, shape (n, 2), to page fractions, shape (n, 2).

        Returns
        -------
        PaintedPage
            The same page with its positions moved; ``pdf`` and ``size_pt`` stay those of the page before.
        """
        return replace(
            self,
            record=replace(self.record, audiograms=tuple(_moved_audiogram(a, warp) for a in self.record.audiograms)),
            marks=tuple(_moved_mark(m, warp) for m in self.marks),
            words=tuple(_moved_word(w, warp) for w in self.words),
            joins=tuple(_points(join, warp) for join in self.joins),
            cells=tuple(_moved_cell(cell, warp) for cell in self.cells),
        )

    def without_colour(self) -> PaintedPage:
        """Give the truth of the page in greys: no ear where ink alone named it, unless the chart is of one ear.

        Returns
        -------
        PaintedPage
            What a perfect reader of a grey picture can name; ``pdf`` stays that of the page in colour.
        """
        ears: dict[int, set[Ear]] = {}
        for mark in self.marks:
            if mark.threshold is not None:
                ears.setdefault(mark.chart, set()).add(mark.threshold.ear)
        unnamed: dict[tuple[int, Threshold], Threshold] = {}
        for mark in self.marks:
            named = mark.threshold is not None and mark.threshold.ear in ("right", "left")
            if named and _ink_alone(mark, self.record) and len(ears[mark.chart] & {"right", "left"}) > 1:
                assert mark.threshold is not None
                unnamed[(mark.audiogram, mark.threshold)] = replace(mark.threshold, ear="unspecified")

        def of(number: int, threshold: Threshold) -> Threshold:
            return unnamed.get((number, threshold), threshold)

        audiograms = tuple(
            replace(a, thresholds=_once(of(number, t) for t in a.thresholds))
            for number, a in enumerate(self.record.audiograms)
        )
        marks = tuple(
            m if m.threshold is None else replace(m, threshold=of(m.audiogram, m.threshold)) for m in self.marks
        )
        return replace(self, record=replace(self.record, audiograms=audiograms), marks=marks)


def _once(thresholds: Iterable[Threshold]) -> tuple[Threshold, ...]:
    """Leave out marks of no named ear that lie on their like: without colour two drawn over each other are one."""
    kept: list[Threshold] = []
    for threshold in thresholds:
        twins = (k for k in kept if replace(k, seen=None) == replace(threshold, seen=None))
        if threshold.ear != "unspecified" or not any(_at_one_place(k, threshold) for k in twins):
            kept.append(threshold)
    return tuple(kept)


def _at_one_place(one: Threshold, other: Threshold) -> bool:
    places = [t.seen.at for t in (one, other) if t.seen is not None and t.seen.at is not None]
    return len(places) == 2 and dist(*places) < ONE_PLACE


def _ink_alone(mark: PaintedMark, record: PageRecord) -> bool:
    """Say whether a mark's symbol set leaves its ear to its ink."""
    symbol_set = record.audiograms[mark.audiogram].symbol_set
    meaning = SYMBOL_SETS[symbol_set].meanings.get(mark.glyph) if symbol_set is not None else None
    return meaning is not None and meaning.ear == "by-colour"


def _points(points: tuple[Point, ...], warp: Warp) -> tuple[Point, ...]:
    moved = warp(np.asarray(points, dtype=np.float64).reshape(-1, 2))
    return tuple((float(x), float(y)) for x, y in moved)


def _point(point: Point, warp: Warp) -> Point:
    return _points((point,), warp)[0]


def _box(box: Box, warp: Warp) -> tuple[Box, tuple[Point, ...]]:
    left, top, right, bottom = box
    corners = _points(((left, top), (right, top), (right, bottom), (left, bottom)), warp)
    xs, ys = [x for x, _ in corners], [y for _, y in corners]
    return (min(xs), min(ys), max(xs), max(ys)), corners


def _moved_threshold(threshold: Threshold, warp: Warp) -> Threshold:
    if threshold.seen is None or threshold.seen.at is None:
        return threshold
    return replace(threshold, seen=replace(threshold.seen, at=_point(threshold.seen.at, warp)))


def _moved_cell(cell: PaintedCell, warp: Warp) -> PaintedCell:
    threshold = cell.threshold
    return replace(
        cell, at=_point(cell.at, warp), threshold=None if threshold is None else _moved_threshold(threshold, warp)
    )


def _moved_chart(chart: Chart, warp: Warp) -> Chart:
    first, second, third, fourth = _points(chart.outline, warp)
    frequency, level = chart.frequency_axis, chart.level_axis
    if frequency is not None:
        frequency = replace(frequency, at=(_point(frequency.at[0], warp), _point(frequency.at[1], warp)))
    if level is not None:
        level = replace(level, at=(_point(level.at[0], warp), _point(level.at[1], warp)))
    return Chart(outline=(first, second, third, fourth), frequency_axis=frequency, level_axis=level)


def _moved_audiogram(audiogram: Audiogram, warp: Warp) -> Audiogram:
    return replace(
        audiogram,
        charts=tuple(_moved_chart(chart, warp) for chart in audiogram.charts),
        thresholds=tuple(_moved_threshold(threshold, warp) for threshold in audiogram.thresholds),
    )


def _moved_mark(mark: PaintedMark, warp: Warp) -> PaintedMark:
    (x, y), (width, height) = mark.at, mark.size
    (left, top, right, bottom), _ = _box((x - width / 2, y - height / 2, x + width / 2, y + height / 2), warp)
    return replace(
        mark,
        threshold=None if mark.threshold is None else _moved_threshold(mark.threshold, warp),
        at=_point(mark.at, warp),
        size=(right - left, bottom - top),
        arrow_tip=None if mark.arrow_tip is None else _point(mark.arrow_tip, warp),
    )


def _moved_word(word: PaintedWord, warp: Warp) -> PaintedWord:
    box, corners = _box(word.box, warp)
    along = (corners[1][0] - corners[0][0], corners[1][1] - corners[0][1])
    turned = round(float(np.degrees(np.arctan2(along[1], along[0]))) / 90) * 90
    return replace(word, box=box, upright=int((word.upright - turned) % 360))
