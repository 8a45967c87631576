"""A page in the making: the pen, and the truth as it gathers."""

from __future__ import annotations

import hashlib
from dataclasses import dataclass, field, replace

from ...interpret.record import (
    Audiogram,
    Chart,
    FrequencyAxis,
    LevelAxis,
    PageRecord,
    Point,
    Report,
    Source,
    Threshold,
)
from .chart.axes import Axes
from .pen import XY, Pen
from .told_page import ToldPage
from .truth import PaintedCell, PaintedMark, PaintedPage


@dataclass(slots=True)
class Sheet:
    """Collects what is drawn on one page of ``pen`` and becomes a ``PaintedPage`` at the end."""

    pen: Pen
    audiograms: list[Audiogram] = field(default_factory=list)
    marks: list[PaintedMark] = field(default_factory=list)
    joins: list[tuple[Point, ...]] = field(default_factory=list)
    cells: list[PaintedCell] = field(default_factory=list)
    report: Report = field(default_factory=Report)
    charts: int = 0
    told: bool = False
    """All that the page says is in its truth; else only its thresholds, and what ``report`` happens to hold."""

    def fraction(self, at: XY) -> Point:
        """Turn points of the page into page fractions."""
        return at[0] / self.pen.width, at[1] / self.pen.height

    def open_audiogram(self, symbol_set: str | None, tested_on: str | None) -> int:
        """Begin the audiogram of one test date and give its number; ``symbol_set`` is None where it has no chart."""
        self.audiograms.append(Audiogram(tested_on=tested_on, symbol_set=symbol_set))
        return len(self.audiograms) - 1

    def open_chart(self, audiogram: int, axes: Axes, labels: tuple[int, int]) -> int:
        """Add a chart to an audiogram and give its number on the page."""
        left, top, right, bottom = axes.frame
        corners = ((left, top), (right, top), (right, bottom), (left, bottom))
        first, second, third, fourth = (self.fraction(corner) for corner in corners)
        hz = (axes.scale.printed[0], axes.scale.printed[-1])
        low, high = axes.scale.levels
        origin = self.fraction((axes.x(hz[0]), axes.y(low)))
        chart = Chart(
            outline=(first, second, third, fourth),
            frequency_axis=FrequencyAxis(
                "equal" if axes.scale.spacing == "equal" else "log",
                hz,
                (origin, self.fraction((axes.x(hz[1]), axes.y(low)))),
                labels[0],
                0.0,
            ),
            level_axis=LevelAxis(
                "linear", (low, high), (origin, self.fraction((axes.x(hz[0]), axes.y(high)))), labels[1], 0.0
            ),
        )
        record = self.audiograms[audiogram]
        self.audiograms[audiogram] = replace(record, charts=(*record.charts, chart))
        self.charts += 1
        return self.charts - 1

    def add_threshold(self, audiogram: int, threshold: Threshold) -> None:
        """Add a true value to an audiogram."""
        record = self.audiograms[audiogram]
        self.audiograms[audiogram] = replace(record, thresholds=(*record.thresholds, threshold))

    def finish(self, family: str, seed: int) -> PaintedPage:
        """Close the page and give it with its truth."""
        pdf = self.pen.finish()
        source = Source(f"{family}-{seed}.pdf", hashlib.sha256(pdf).hexdigest(), 1, 1, "drawn")
        return (ToldPage if self.told else PaintedPage)(
            family=family,
            seed=seed,
            pdf=pdf,
            size_pt=(self.pen.width, self.pen.height),
            record=PageRecord(source, "sure", tuple(self.audiograms), self.report),
            marks=tuple(self.marks),
            words=tuple(self.pen.words),
            joins=tuple(self.joins),
            cells=tuple(self.cells),
        )
