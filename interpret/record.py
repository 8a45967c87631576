"""The page record: what one reading of a page is, as data (``octavo.page/1``)."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any, Literal

Ear = Literal["right", "left", "both", "unspecified"]
Side = Literal["right", "left"]
Conduction = Literal["air", "bone", "field"]
Measure = Literal["threshold", "mcl", "ucl"]
Standing = Literal["sure", "ask"]
TakenBy = Literal["drawn", "scan", "photo", "table"]
SpeechMeasure = Literal["srt", "sdt", "word-recognition", "mcl", "ucl"]
EmissionMethod = Literal["dpoae", "teoae"]
EmissionResult = Literal["pass", "refer"]
AxisScale = Literal["log", "equal", "linear"]
Point = tuple[float, float]
"""Page fractions of the page as displayed: x from the left edge, y from the top edge, both 0 to 1."""

Box = tuple[float, float, float, float]
"""Page fractions of an upright box: left, top, right, bottom."""
FactName = Literal[
    "patient-name",
    "record-number",
    "birth-date",
    "sex",
    "test-date",
    "test-time",
    "tester",
    "place",
    "audiometer",
    "calibration-date",
    "transducer",
    "reliability",
    "reason",
    "note",
    "age",
    "page-number",
]

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
class Speech:
    """One speech test of one ear.

    Attributes
    ----------
    ear, conduction : str
        As of a threshold; ``field`` is a loudspeaker.
    measure : str
        ``srt`` speech recognition threshold, ``sdt`` speech detection threshold, ``word-recognition``, ``mcl`` and
        ``ucl`` the most comfortable and the uncomfortable level for speech.
    level_db_hl : float or None
        The threshold, or the level at which words were presented.
    score_percent : float or None
        Word recognition: how many of the words (or phonemes) were right.
    words : int or None
        How many words were presented.
    word_list : str or None
        The list's name as the report prints it.
    phonemes : bool
        Phonemes were scored instead of words.
    masked : bool
        The other ear was masked.
    aided : bool
        With hearing aids.
    snr_db : float or None
        Speech level above that of the noise it was presented in, dB; None in quiet.
    response : bool
        False where a threshold was not reached at that level.
    """

    ear: Ear
    measure: SpeechMeasure
    level_db_hl: float | None = None
    score_percent: float | None = None
    words: int | None = None
    word_list: str | None = None
    phonemes: bool = False
    conduction: Conduction = "air"
    masked: bool = False
    aided: bool = False
    snr_db: float | None = None
    response: bool = True
    standing: Standing = "ask"
    why_ask: tuple[str, ...] = ()
    probability: float = 0.0
    box: Box | None = None


@dataclass(frozen=True, slots=True)
class Tympanogram:
    """The numbers of one tympanogram; None where the page does not state one.

    Attributes
    ----------
    has_peak : bool or None
        False where the trace is flat.
    peak_pressure_dapa : float or None
        Where the peak stands, daPa.
    peak_admittance_mmho : float or None
        Static admittance at the peak, the ear canal's taken off; mmho, which for the usual 226-Hz probe equals mL.
    ear_canal_volume_ml : float or None
        The equivalent volume in front of the ear drum, mL.
    width_dapa : float or None
        The pressure interval at half of the peak's height, daPa.
    probe_hz : float
        The probe tone, Hz.
    printed_type : str or None
        The type as the report prints it.
    """

    has_peak: bool | None = None
    peak_pressure_dapa: float | None = None
    peak_admittance_mmho: float | None = None
    ear_canal_volume_ml: float | None = None
    width_dapa: float | None = None
    probe_hz: float = 226.0
    printed_type: str | None = None


@dataclass(frozen=True, slots=True)
class Reflex:
    """One acoustic reflex, measured in the ear of its ``Immittance``.

    Attributes
    ----------
    stimulus_ear : str
        Which ear heard the stimulus: the measured one (ipsilateral) or the other one (contralateral).
    frequency_hz : float or None
        The tone, Hz; None for broadband noise.
    level_db_hl : float or None
        The reflex threshold, or without a response the highest level tried.
    response : bool
        A reflex was seen.
    decay_percent : float or None
        How far it fell within 10 s of a tone 10 dB above its threshold, % of its height.
    """

    stimulus_ear: Side
    frequency_hz: float | None = None
    level_db_hl: float | None = None
    response: bool = True
    decay_percent: float | None = None
    standing: Standing = "ask"
    why_ask: tuple[str, ...] = ()
    probability: float = 0.0
    box: Box | None = None


@dataclass(frozen=True, slots=True)
class Immittance:
    """The middle-ear tests measured in one ear (the one that holds the probe)."""

    ear: Side
    tympanogram: Tympanogram | None = None
    reflexes: tuple[Reflex, ...] = ()
    standing: Standing = "ask"
    why_ask: tuple[str, ...] = ()
    probability: float = 0.0
    box: Box | None = None


@dataclass(frozen=True, slots=True)
class EmissionBand:
    """The emission at one frequency: levels in dB SPL, ``snr_db`` above the noise floor, ``result`` as printed."""

    frequency_hz: float
    amplitude_db_spl: float | None = None
    noise_db_spl: float | None = None
    snr_db: float | None = None
    result: EmissionResult | None = None


@dataclass(frozen=True, slots=True)
class OtoacousticEmission:
    """One measurement of otoacoustic emissions: distortion product or transient evoked; ``result`` as printed."""

    ear: Side
    method: EmissionMethod
    bands: tuple[EmissionBand, ...] = ()
    result: EmissionResult | None = None
    standing: Standing = "ask"
    why_ask: tuple[str, ...] = ()
    probability: float = 0.0
    box: Box | None = None


@dataclass(frozen=True, slots=True)
class PrintedAverage:
    """A pure-tone average that the page itself prints: evidence to hold the read values against."""

    ear: Ear
    frequencies_hz: tuple[float, ...]
    level_db_hl: float
    conduction: Conduction = "air"
    standing: Standing = "ask"
    why_ask: tuple[str, ...] = ()
    probability: float = 0.0
    box: Box | None = None


@dataclass(frozen=True, slots=True)
class Audiogram:
    """All that the page shows of one test date."""

    tested_on: str | None = None
    symbol_set: str | None = None
    charts: tuple[Chart, ...] = ()
    thresholds: tuple[Threshold, ...] = ()
    speech: tuple[Speech, ...] = ()
    immittance: tuple[Immittance, ...] = ()
    otoacoustic: tuple[OtoacousticEmission, ...] = ()
    findings: dict[str, Any] = field(default_factory=dict)
    printed_averages: tuple[PrintedAverage, ...] = ()


@dataclass(frozen=True, slots=True)
class Fact:
    """One thing that the page says in words around its charts.

    Attributes
    ----------
    name : str
        What it is.
    value : str
        Dates by ISO 8601, year first; times as HH:MM, 24 hours; ``female``, ``male`` or ``other``; for a transducer
        ``inserts``, ``supra-aural``, ``circumaural``, ``bone-vibrator`` or ``loudspeaker``, several joined by ``, `` in
        this order; ``good``, ``fair`` or ``poor`` reliability; an age at the test in whole years, ``90+`` over 89 where
        identifiers were left out (``written`` is the test date then); a page number as ``2/3``; otherwise the words as
        printed, with single spaces.
    written : str
        As the page prints it, the label left out.
    box : tuple or None
        Where the value stands.
    probability : float
        The calibrated chance that ``value`` is right.
    """

    name: FactName
    value: str
    written: str = ""
    box: Box | None = None
    probability: float = 0.0
    standing: Standing = "ask"
    why_ask: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Report:
    """What the page says around its charts; None where it was not read.

    ``facts`` holds everything with its evidence, in reading order; the four values above it repeat those that other
    rules work with.
    """

    patient: str | None = None
    born: str | None = None
    transducer: str | None = None
    reliability: str | None = None
    facts: tuple[Fact, ...] = ()


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
