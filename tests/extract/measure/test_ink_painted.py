"""The account of ink on painted pages of the training families: quiet where all was seen, else not."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from pathlib import Path

import numpy as np
import pytest

from octavo.extract.chart import MeasuredChart, Unexplained
from octavo.extract.eyes import see
from octavo.extract.intake import pages
from octavo.extract.measure import measure
from octavo.extract.measure.ink import Axes, unexplained_ink
from octavo.extract.page import Page
from octavo.extract.sheet import Sheet
from octavo.extract.sightings import MarkSight, Sightings
from octavo.extract.straighten import straighten
from octavo.tools.painter import paint, render
from octavo.tools.painter.spoiling import spoil, write_file

PAGES = (
    ("keyed", "drawn", 7403), ("beside", "scan", 7402), ("one-ear", "copy", 7404), ("report", "fax-fine", 7401),
    ("penned", "photo", 7403), ("small", "scan", 7406),
)  # fmt: skip
"""Family, way and seed: pages with arrows, of seeds that the account was not built on."""
ARROWS = (
    *PAGES[:2], PAGES[5], ("report", "fax-fine", 9401), ("penned", "photo", 9403), ("keyed", "drawn", 10403),
    ("beside", "scan", 11402), ("small", "scan", 11406),
)  # fmt: skip
"""Of the same families and ways, with the seeds above and up to four thousand later, all pages that hold arrows."""
SUFFIX = {"drawn": ".pdf", "fax-fine": ".tif", "photo": ".jpg"}
DROPPED = 4
"""Marks a chart that are left out, one at a time."""
CLEAR = 0.6
SHARE_NOTICED = 0.85
SHARE_ARROWS_NOTICED = 0.4
"""Arrows that lie under joins and other marks, are shorter than half a mark, or are flicks of a pen are not noticed."""


@dataclass(frozen=True)
class Seen:
    sheet: Sheet
    sightings: Sightings
    chart: MeasuredChart

    def marks(self) -> tuple[MarkSight, ...]:
        return tuple(s for s in self.sightings.marks if s.area == self.chart.area)

    def account(self, marks: tuple[MarkSight, ...]) -> tuple[Unexplained, ...]:
        axes = Axes(self.chart.frequency, self.chart.level, self.chart.bend)
        area = self.sightings.areas[self.chart.area]
        return unexplained_ink(self.sheet.pixels, self.sheet.words, marks, area, axes)


@pytest.fixture(scope="module")
def charts(tmp_path_factory: pytest.TempPathFactory) -> list[Seen]:
    folder = tmp_path_factory.mktemp("ink")
    return [seen for family, way, seed in PAGES for seen in look_at(folder, family, way, seed)]


@pytest.fixture(scope="module")
def with_arrows(tmp_path_factory: pytest.TempPathFactory) -> list[Seen]:
    folder = tmp_path_factory.mktemp("arrows")
    return [seen for family, way, seed in ARROWS for seen in look_at(folder, family, way, seed)]


def look_at(folder: Path, family: str, way: str, seed: int) -> Iterator[Seen]:
    page, file = paint(family, seed), folder / f"{family}{SUFFIX.get(way, '.png')}"
    if way == "drawn":
        file.write_bytes(page.pdf)
    else:
        write_file(spoil(render(page.pdf, 300), way, seed, dpi=300), way, file)
    read = next(iter(pages(file)))
    assert isinstance(read, Page)
    sheet = straighten(read)
    sightings = see(sheet)
    for chart in measure(sheet, sightings):
        yield Seen(sheet, sightings, chart)


def alone(mark: MarkSight, others: tuple[MarkSight, ...]) -> bool:
    """Say whether a mark's box is clear of all others but those at its own place, which are dropped with it."""
    return not any(all(abs(o.at[i] - mark.at[i]) < 0.45 * (o.size[i] + mark.size[i]) for i in (0, 1)) for o in others)


def within(mark: MarkSight, chart: MeasuredChart) -> bool:
    beside = 0.3 * chart.frequency.octave_px
    return chart.frequency.anchors[0][1] - beside < mark.at[0] < chart.frequency.anchors[-1][1] + beside


def test_where_all_marks_were_seen_nothing_is_unexplained(charts: list[Seen]) -> None:
    assert len(charts) >= len(PAGES)
    assert [seen.chart.unexplained for seen in charts] == [()] * len(charts)


def test_most_marks_that_stand_alone_are_noticed_when_they_are_not_seen(charts: list[Seen]) -> None:
    rng = np.random.default_rng(7)
    noticed = []
    for seen in charts:
        clear = [m for m in seen.marks() if m.score > CLEAR and within(m, seen.chart)]
        dropped = 0
        for mark in (clear[i] for i in rng.permutation(len(clear))):
            rest = tuple(m for m in seen.marks() if math.dist(m.at, mark.at) > 0.25 * max(mark.size))
            if dropped == DROPPED or not alone(mark, tuple(m for m in rest if m.score >= 0.16)):
                continue
            dropped += 1
            noticed.append(any(math.dist(ink.at, mark.at) < 0.8 * max(mark.size) for ink in seen.account(rest)))
    assert len(noticed) >= 2 * len(PAGES)
    assert sum(noticed) / len(noticed) >= SHARE_NOTICED


def test_two_of_five_arrows_that_are_not_seen_make_their_marks_doubtful(with_arrows: list[Seen]) -> None:
    noticed = []
    for seen in with_arrows:
        for mark in [m for m in seen.marks() if m.score > CLEAR and max(m.arrows) > CLEAR][:DROPPED]:
            blind = tuple(
                replace(m, arrows=(0.0, 0.0, 0.0)) if math.dist(m.at, mark.at) < 0.35 * max(mark.size) else m
                for m in seen.marks()
            )
            noticed.append(any(ink.hangs_from == mark.at for ink in seen.account(blind)))
    assert len(noticed) >= 25
    assert sum(noticed) / len(noticed) >= SHARE_ARROWS_NOTICED
