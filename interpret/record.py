"""The page record: what one reading of a page is, as data (``octavo.page/1``)."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any, Literal

Ear = Literal["right", "left", "both", "unspecified"]
Conduction = Literal["air", "bone", "field"]
Measure = Literal["threshold", "mcl", "ucl"]
Standing = Literal["sure", "ask"]
TakenBy = Literal["drawn", "scan", "photo", "table"]
AxisScale = Literal["log", "equal", "linear"]
Point = tuple[float, float]
"""Page fractions of the page as displayed: x from the left edge, y from the top edge, both 0 to 1."""

SCHEMA = "octavo.page/1"


@dataclass(frozen=True, slots=True)
class Source:
    """Which page of which file was read."""

    name: str
    sha256: str
    page: int
    pages: int
    taken_by: TakenBy


@dataclass(frozen=True, slots=True)
class FrequencyAxis:
    """The frequency axis as printed: the range, where it runs, and how well its labels agree.

    ``at`` are the axis' two ends in page fractions, of the lowest and the highest frequency in ``hz``;
    ``worst_misfit`` is the largest distance of a read label from the fit, in octaves.
    """

    scale: AxisScale
    hz: tuple[float, float]
    at: tuple[Point, Point]
    labels_read: int
    worst_misfit: float


@dataclass(frozen=True, slots=True)
class LevelAxis:
    """The level axis as printed; ``worst_misfit`` is in dB."""

    scale: AxisScale
    db_hl: tuple[float, float]
    at: tuple[Point, Point]
    labels_read: int
    worst_misfit: float


@dataclass(frozen=True, slots=True)
class Chart:
    """One chart of the page; its outline starts at the lowest frequency and level and runs along the frequencies."""

    outline: tuple[Point, Point, Point, Point]
    frequency_axis: FrequencyAxis | None
    level_axis: LevelAxis | None


@dataclass(frozen=True, slots=True)
class Seen:
    """The evidence of a threshold: which chart, where on the page, and the reading before rounding."""

    chart: int | None
    at: Point | None
    frequency_hz: float | None
    level_db_hl: float | None


@dataclass(frozen=True, slots=True)
class Threshold:
    """One value read from the page, with its standing (``sure`` is taken as right without a person looking)."""

    ear: Ear
    conduction: Conduction
    masked: bool
    frequency_hz: float
    level_db_hl: float
    aided: bool = False
    measure: Measure = "threshold"
    response: bool = True
    standing: Standing = "ask"
    probability: float = 0.0
    why_ask: tuple[str, ...] = ()
    seen: Seen | None = None


@dataclass(frozen=True, slots=True)
class Audiogram:
    """All that the page shows of one test date."""

    tested_on: str | None = None
    symbol_set: str | None = None
    charts: tuple[Chart, ...] = ()
    thresholds: tuple[Threshold, ...] = ()
    speech: tuple[dict[str, Any], ...] = ()
    immittance: tuple[dict[str, Any], ...] = ()
    otoacoustic: tuple[dict[str, Any], ...] = ()
    findings: dict[str, Any] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Report:
    """What the page says around its charts; None where it was not read."""

    patient: str | None = None
    born: str | None = None
    transducer: str | None = None
    reliability: str | None = None


@dataclass(frozen=True, slots=True)
class Remark:
    """What the reading has to say beyond single values; ``code`` is registered in ``reasons``."""

    code: str
    text: str
    ear: Ear | None = None
    conduction: Conduction | None = None
    frequency_hz: float | None = None
    chart: int | None = None
    at: Point | None = None


@dataclass(frozen=True, slots=True)
class PageRecord:
    """The reading of one page."""

    source: Source
    standing: Standing
    audiograms: tuple[Audiogram, ...] = ()
    report: Report = field(default_factory=Report)
    remarks: tuple[Remark, ...] = ()
    schema: str = SCHEMA
