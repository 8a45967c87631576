"""The tests beside the thresholds as plain dicts: speech, middle ear, emissions, printed averages."""

from __future__ import annotations

from typing import Any

from ..record import (
    Box,
    EmissionBand,
    Fact,
    Immittance,
    OtoacousticEmission,
    PrintedAverage,
    Reflex,
    Speech,
    Tympanogram,
)

_DECIMALS = 2
_PROBABILITY_DECIMALS = 4
_PLACE_DECIMALS = 5


def plain_number(value: float | None, decimals: int = _DECIMALS) -> int | float | None:
    """Round a number as the record has it: whole ones without a point, None as it is."""
    if value is None:
        return None
    rounded = round(float(value), decimals)
    return int(rounded) if rounded.is_integer() else rounded


def speech_json(speech: Speech) -> dict[str, Any]:
    """Give one speech test, keys in the order of the published field list."""
    return {
        "ear": speech.ear,
        "conduction": speech.conduction,
        "measure": speech.measure,
        "level_db_hl": plain_number(speech.level_db_hl),
        "score_percent": plain_number(speech.score_percent),
        "words": speech.words,
        "word_list": speech.word_list,
        "phonemes": speech.phonemes,
        "masked": speech.masked,
        "aided": speech.aided,
        "snr_db": plain_number(speech.snr_db),
        "response": speech.response,
        "standing": speech.standing,
        "why_ask": list(speech.why_ask),
        **_evidence(speech.probability, speech.box),
    }


def immittance_json(immittance: Immittance) -> dict[str, Any]:
    """Give the middle-ear tests of one ear."""
    return {
        "ear": immittance.ear,
        "tympanogram": None if immittance.tympanogram is None else _tympanogram(immittance.tympanogram),
        "reflexes": [_reflex(reflex) for reflex in immittance.reflexes],
        "standing": immittance.standing,
        "why_ask": list(immittance.why_ask),
        **_evidence(immittance.probability, immittance.box),
    }


def emission_json(emission: OtoacousticEmission) -> dict[str, Any]:
    """Give one measurement of otoacoustic emissions."""
    return {
        "ear": emission.ear,
        "method": emission.method,
        "bands": [_band(band) for band in emission.bands],
        "result": emission.result,
        "standing": emission.standing,
        "why_ask": list(emission.why_ask),
        **_evidence(emission.probability, emission.box),
    }


def printed_average_json(average: PrintedAverage) -> dict[str, Any]:
    """Give one average that the page prints."""
    return {
        "ear": average.ear,
        "conduction": average.conduction,
        "frequencies_hz": [plain_number(hz) for hz in average.frequencies_hz],
        "level_db_hl": plain_number(average.level_db_hl),
        "standing": average.standing,
        "why_ask": list(average.why_ask),
        **_evidence(average.probability, average.box),
    }


def fact_json(fact: Fact) -> dict[str, Any]:
    """Give one fact that the page says in words."""
    return {
        "name": fact.name,
        "value": fact.value,
        "written": fact.written,
        "standing": fact.standing,
        "why_ask": list(fact.why_ask),
        **_evidence(fact.probability, fact.box),
    }


def _evidence(probability: float, box: Box | None) -> dict[str, Any]:
    return {
        "probability": plain_number(probability, _PROBABILITY_DECIMALS),
        "box": None if box is None else [plain_number(side, _PLACE_DECIMALS) for side in box],
    }


def _tympanogram(trace: Tympanogram) -> dict[str, Any]:
    return {
        "has_peak": trace.has_peak,
        "peak_pressure_dapa": plain_number(trace.peak_pressure_dapa),
        "peak_admittance_mmho": plain_number(trace.peak_admittance_mmho),
        "ear_canal_volume_ml": plain_number(trace.ear_canal_volume_ml),
        "width_dapa": plain_number(trace.width_dapa),
        "probe_hz": plain_number(trace.probe_hz),
        "printed_type": trace.printed_type,
    }


def _reflex(reflex: Reflex) -> dict[str, Any]:
    return {
        "stimulus_ear": reflex.stimulus_ear,
        "frequency_hz": plain_number(reflex.frequency_hz),
        "level_db_hl": plain_number(reflex.level_db_hl),
        "response": reflex.response,
        "decay_percent": plain_number(reflex.decay_percent),
        "standing": reflex.standing,
        "why_ask": list(reflex.why_ask),
        **_evidence(reflex.probability, reflex.box),
    }


def _band(band: EmissionBand) -> dict[str, Any]:
    return {
        "frequency_hz": plain_number(band.frequency_hz),
        "amplitude_db_spl": plain_number(band.amplitude_db_spl),
        "noise_db_spl": plain_number(band.noise_db_spl),
        "snr_db": plain_number(band.snr_db),
        "result": band.result,
    }
