"""The tests beside the thresholds in words: speech, middle ear, emissions, printed averages."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ..exports.threshold_table import EAR_NAMES, Signs
from ..reasons import REASONS
from ..record import (
    Audiogram,
    Ear,
    EmissionBand,
    Immittance,
    OtoacousticEmission,
    PrintedAverage,
    Reflex,
    Speech,
    Standing,
)

_MEASURES = {
    "srt": "speech recognition threshold",
    "sdt": "speech detection threshold",
    "word-recognition": "word recognition",
    "mcl": "most comfortable level for speech",
    "ucl": "uncomfortable level for speech",
}
_METHODS = {"dpoae": "distortion product emissions (DPOAE)", "teoae": "transient emissions (TEOAE)"}


def other_tests(audiogram: Audiogram, signs: Signs) -> Iterator[str]:
    """Say what else was tested, one line a value, those that a person must check marked.

    Parameters
    ----------
    audiogram : Audiogram
        With whatever tests it has.
    signs : Signs
        The sign of a value that asks.

    Yields
    ------
    str
        A heading and its lines for each kind of test that the audiogram has; nothing where it has none.
    """
    yield from _part("Speech", [_asked(_speech(one), one.standing, one.why_ask, signs) for one in audiogram.speech])
    middle = [line for one in audiogram.immittance for line in _immittance(one, signs)]
    yield from _part("Middle ear", middle)
    yield from _part("Otoacoustic emissions", [
        _asked(_emission(one), one.standing, one.why_ask, signs) for one in audiogram.otoacoustic
    ])  # fmt: skip
    yield from _part("Averages that the page prints", [
        _asked(_average(one), one.standing, one.why_ask, signs) for one in audiogram.printed_averages
    ])  # fmt: skip


def _part(heading: str, lines: Sequence[str]) -> Iterator[str]:
    if lines:
        yield heading
        yield from (f"  {line}" for line in lines)


def _asked(text: str, standing: Standing, why: Sequence[str], signs: Signs) -> str:
    if standing == "sure":
        return text
    told = "; ".join(REASONS[code].name for code in why if code in REASONS)
    return f"{text} {signs.ask}{f' ({told})' if told else ''}"


def _speech(one: Speech) -> str:
    how = [
        *(("aided",) if one.aided else ()),
        *(("other ear masked",) if one.masked else ()),
        *(("by loudspeaker",) if one.conduction == "field" else ()),
        *((f"in noise, {one.snr_db:+g} dB",) if one.snr_db is not None else ()),
        *((f"{one.words} {'phonemes' if one.phonemes else 'words'}",) if one.words is not None else ()),
        *((one.word_list,) if one.word_list else ()),
    ]
    level = None if one.level_db_hl is None else f"{one.level_db_hl:g} dB HL"
    if one.score_percent is not None:
        value = f"{one.score_percent:g} %{f' at {level}' if level else ''}"
    else:
        value = (level or "no level stated") if one.response else f"not reached{f' at {level}' if level else ''}"
    scored = ", phonemes" if one.phonemes and one.words is None else ""
    return f"{_ear(one.ear)}, {_MEASURES[one.measure]}{scored}: {', '.join((value, *how))}"


def _immittance(one: Immittance, signs: Signs) -> Iterator[str]:
    trace = one.tympanogram
    if trace is not None:
        told = [
            *((f"type {trace.printed_type}",) if trace.printed_type else ()),
            *(("no peak",) if trace.has_peak is False else ()),
            *_number(trace.peak_pressure_dapa, "peak at", "daPa"),
            *_number(trace.peak_admittance_mmho, "height", "mmho"),
            *_number(trace.ear_canal_volume_ml, "volume", "mL"),
            *_number(trace.width_dapa, "width", "daPa"),
            *((f"probe {trace.probe_hz:g} Hz",) if trace.probe_hz != 226 else ()),
        ]
        text = f"{_ear(one.ear)}, tympanogram: {', '.join(told) or 'no numbers stated'}"
        yield _asked(text, one.standing, one.why_ask, signs)
    for reflex in one.reflexes:
        yield _asked(_reflex(one, reflex), reflex.standing, reflex.why_ask, signs)


def _reflex(one: Immittance, reflex: Reflex) -> str:
    side = "ipsilateral" if reflex.stimulus_ear == one.ear else "contralateral"
    tone = "broadband noise" if reflex.frequency_hz is None else f"{reflex.frequency_hz:g} Hz"
    level = "" if reflex.level_db_hl is None else f"{reflex.level_db_hl:g} dB HL"
    found = (level or "present") if reflex.response else f"absent{f' to {level}' if level else ''}"
    decay = "" if reflex.decay_percent is None else f", decay {reflex.decay_percent:g} %"
    return f"{_ear(one.ear)}, {side} reflex (sound in the {reflex.stimulus_ear} ear), {tone}: {found}{decay}"


def _emission(one: OtoacousticEmission) -> str:
    told = [*((one.result,) if one.result else ()), *(_band(band) for band in one.bands)]
    return f"{_ear(one.ear)}, {_METHODS[one.method]}: {'; '.join(told) or 'nothing stated'}"


def _band(band: EmissionBand) -> str:
    told = [
        *_number(band.amplitude_db_spl, "level", "dB SPL"),
        *_number(band.noise_db_spl, "noise", "dB SPL"),
        *_number(band.snr_db, "above noise", "dB"),
        *((band.result,) if band.result else ()),
    ]
    return f"{band.frequency_hz:g} Hz {', '.join(told)}".strip()


def _average(one: PrintedAverage) -> str:
    hertz = ", ".join(f"{hz:g}" for hz in one.frequencies_hz)
    of = f"{hertz} Hz" if hertz else "frequencies not known"
    return f"{_ear(one.ear)}, {one.conduction}, {of}: {one.level_db_hl:g} dB HL"


def _number(value: float | None, name: str, unit: str) -> tuple[str, ...]:
    return () if value is None else (f"{name} {value:g} {unit}",)


def _ear(ear: Ear) -> str:
    return "Both ears" if ear == "both" else EAR_NAMES[ear]
