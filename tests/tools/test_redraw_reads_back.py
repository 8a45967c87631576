"""A redrawn chart, given to the reader, gives the values that it was drawn from."""

from __future__ import annotations

from pathlib import Path

import pytest

import octavo
from octavo.interpret.exports.redraw import redrawn_pdf
from octavo.interpret.record import Audiogram, Conduction, PageRecord, Side, Source, Threshold


def row(ear: Side, levels: dict[int, int], conduction: Conduction = "air", *, masked: bool = False) -> list[Threshold]:
    return [Threshold(ear, conduction, masked, hz, level, standing="sure") for hz, level in levels.items()]


EQUAL_EARS = [
    *(v for ear in ("right", "left") for v in row(ear, {250: 10, 500: 15, 1000: 20, 2000: 35, 4000: 50, 8000: 60})),
    *(v for ear in ("right", "left") for v in row(ear, {250: 10, 500: 15, 1000: 20, 2000: 35, 4000: 50}, "bone")),
]
MASKED = [
    *row("right", {250: 15, 500: 10, 1000: 15, 2000: 20, 4000: 25, 8000: 30}),
    *row("left", {250: 50, 500: 55, 1000: 50, 2000: 55, 4000: 60, 8000: 65}),
    *row("left", {250: 55, 500: 60, 1000: 55, 2000: 60, 4000: 65, 8000: 70}, masked=True),
    *row("left", {250: 10, 500: 15, 1000: 15, 2000: 30, 4000: 35}, "bone", masked=True),
]
NOT_HEARD = [
    *row("right", {250: 60, 500: 75, 1000: 90, 2000: 100, 4000: 110}),
    Threshold("right", "air", False, 8000, 100, response=False, standing="sure"),
    *row("left", {250: 20, 500: 25, 1000: 30, 2000: 40}),
    Threshold("left", "air", False, 4000, 120, response=False, standing="sure"),
]


@pytest.mark.parametrize("values", [EQUAL_EARS, MASKED, NOT_HEARD], ids=["equal", "masked", "not-heard"])
def test_a_redrawn_chart_reads_as_what_it_was_drawn_from(values: list[Threshold], tmp_path: Path) -> None:
    source = Source("harbour-lane-01.pdf", "0" * 64, 1, 1, "drawn")
    drawn = PageRecord(source, "sure", (Audiogram("2024-03-01", thresholds=tuple(values)),))
    (tmp_path / "redrawn.pdf").write_bytes(redrawn_pdf([drawn]))
    [read] = octavo.read(tmp_path / "redrawn.pdf")
    [audiogram] = read.audiograms
    wanted = {key(t) for t in values}
    assert wanted <= {key(t) for t in audiogram.thresholds}
    assert {key(t) for t in audiogram.thresholds if t.standing == "sure"} <= wanted


def key(t: Threshold) -> tuple[object, ...]:
    return t.ear, t.conduction, t.masked, t.frequency_hz, t.level_db_hl, t.response
