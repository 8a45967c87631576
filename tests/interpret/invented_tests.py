"""Invented tests beside the thresholds: speech, middle ear, emissions of the Harbour Lane clinic."""

from __future__ import annotations

from invented_pages import page, value

from octavo.interpret.record import (
    Audiogram,
    EmissionBand,
    Immittance,
    OtoacousticEmission,
    PageRecord,
    PrintedAverage,
    Reflex,
    Side,
    Speech,
    Tympanogram,
)


def srt(ear: Side, level: float, *, standing: str = "sure") -> Speech:
    """A speech recognition threshold."""
    return Speech(ear, "srt", level, standing="sure" if standing == "sure" else "ask")


def words(ear: Side, score: float, *, of: int | None = 50, at: float = 70, standing: str = "sure") -> Speech:
    """A word recognition score of so many words at a level."""
    return Speech(
        ear, "word-recognition", at, score_percent=score, words=of, standing="sure" if standing == "sure" else "ask"
    )


def trace(
    pressure: float | None, admittance: float | None, volume: float | None, *, peak: bool | None = True
) -> Tympanogram:
    """A tympanogram by its numbers."""
    return Tympanogram(peak, pressure, admittance, volume)


def reflex(stimulus_ear: Side, hz: float, level: float, *, response: bool = True, decay: float | None = None) -> Reflex:
    """An acoustic reflex that stands as sure."""
    return Reflex(stimulus_ear, hz, level, response, decay, "sure")


def full_page() -> PageRecord:
    """A page that holds every kind of test, one of each."""
    audiogram = Audiogram(
        "2020-11-02",
        "asha-1990",
        thresholds=tuple(value("right", hz, 20) for hz in (500, 1000, 2000, 4000)),
        speech=(srt("right", 20), words("right", 96)),
        immittance=(Immittance("right", trace(-20, 0.8, 1.1), (reflex("left", 1000, 85),), "sure"),),
        otoacoustic=(OtoacousticEmission("right", "dpoae", (EmissionBand(2000, 8, -4, 12, "pass"),), "pass", "sure"),),
        printed_averages=(PrintedAverage("right", (500, 1000, 2000), 20, standing="sure"),),
    )
    return page(audiogram)
