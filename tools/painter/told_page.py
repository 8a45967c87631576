"""A painted page whose truth holds all that it says, not only its thresholds."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import TypeVar

import numpy as np

from ...interpret.record import (
    Audiogram,
    Box,
    Fact,
    Immittance,
    OtoacousticEmission,
    PageRecord,
    PrintedAverage,
    Reflex,
    Speech,
)
from .truth import PaintedPage, Warp

Stated = TypeVar("Stated", Fact, Speech, Immittance, Reflex, OtoacousticEmission, PrintedAverage)


@dataclass(frozen=True, slots=True)
class ToldPage(PaintedPage):
    """A page whose record also holds every fact and every other test that the page prints, each with its place.

    Of any other painted page those are not recorded: only its thresholds may be held against a reading. What stands as
    ``ask`` in the truth is left open by the page itself, as a date whose day and month nobody can tell apart.
    """

    def moved(self, warp: Warp) -> PaintedPage:
        """Carry every position of the truth through a warp of the page, as ``PaintedPage.moved``."""
        page = PaintedPage.moved(self, warp)
        return replace(page, record=moved_record(page.record, warp))


def moved_record(record: PageRecord, warp: Warp) -> PageRecord:
    """Carry the places of a record's facts and other tests through a warp of the page."""
    return replace(
        record,
        audiograms=tuple(_moved_audiogram(audiogram, warp) for audiogram in record.audiograms),
        report=replace(record.report, facts=moved_boxes(record.report.facts, warp)),
    )


def _moved_audiogram(audiogram: Audiogram, warp: Warp) -> Audiogram:
    return replace(
        audiogram,
        speech=moved_boxes(audiogram.speech, warp),
        immittance=tuple(
            replace(one, reflexes=moved_boxes(one.reflexes, warp)) for one in moved_boxes(audiogram.immittance, warp)
        ),
        otoacoustic=moved_boxes(audiogram.otoacoustic, warp),
        printed_averages=moved_boxes(audiogram.printed_averages, warp),
    )


def moved_boxes(values: Sequence[Stated], warp: Warp) -> tuple[Stated, ...]:
    """Carry the places of facts, or of other tests, through a warp of the page."""
    return tuple(value if value.box is None else replace(value, box=_moved(value.box, warp)) for value in values)


def _moved(box: Box, warp: Warp) -> Box:
    left, top, right, bottom = box
    corners = warp(np.array([(left, top), (right, top), (right, bottom), (left, bottom)], dtype=np.float64))
    (least_x, least_y), (most_x, most_y) = corners.min(axis=0), corners.max(axis=0)
    return float(least_x), float(least_y), float(most_x), float(most_y)
