"""Pages with known truth and readings of them with known faults, made by hand."""

from __future__ import annotations

from collections.abc import Callable, Iterable

import pytest

from octavo.interpret.record import (
    Audiogram,
    Chart,
    Conduction,
    Ear,
    PageRecord,
    Point,
    Remark,
    Seen,
    Source,
    Standing,
    Threshold,
)
from octavo.tools.bench.suites import Sample

Value = Callable[..., Threshold]
Page = Callable[..., PageRecord]


@pytest.fixture
def value() -> Value:
    """Give a maker of thresholds, right air 1000 Hz 35 dB HL and sure unless told otherwise."""

    def make(
        ear: Ear = "right",
        conduction: Conduction = "air",
        hz: float = 1000,
        db: float = 35,
        *,
        at: Point | None = None,
        masked: bool = False,
        response: bool = True,
        standing: Standing = "sure",
        probability: float = 1.0,
        why_ask: tuple[str, ...] = (),
    ) -> Threshold:
        return Threshold(
            ear,
            conduction,
            masked,
            hz,
            db,
            response=response,
            standing=standing,
            probability=probability,
            why_ask=why_ask,
            seen=Seen(0, at, hz, db) if at else None,
        )

    return make


@pytest.fixture
def page() -> Page:
    """Give a maker of records: one audiogram of the given values, or several given as tuples of values."""

    def make(
        *values: Threshold | tuple[Threshold, ...],
        standing: Standing = "ask",
        remarks: Iterable[Remark] = (),
        dates: tuple[str | None, ...] = (),
        lefts: tuple[float, ...] = (),
    ) -> PageRecord:
        loose = tuple(one for one in values if isinstance(one, Threshold))
        groups = [one for one in values if isinstance(one, tuple)] or ([loose] if loose else [])
        audiograms = tuple(
            Audiogram(
                tested_on=dates[i] if dates else None,
                charts=(_chart(lefts[i]),) if lefts else (),
                thresholds=group,
            )
            for i, group in enumerate(groups)
        )
        source = Source("page.pdf", "0" * 64, 1, 1, "drawn")
        return PageRecord(source, standing, audiograms, remarks=tuple(remarks))

    return make


def _chart(left: float) -> Chart:
    right = left + 0.3
    return Chart(((left, 0.2), (right, 0.2), (right, 0.6), (left, 0.6)), None, None)


@pytest.fixture
def sample() -> Sample:
    """Give a sample's name; nothing is painted from it."""
    return Sample("drawn", 0, "plain", 1, mono=False, way="drawn", suffix=".pdf")
