"""The record as one line of JSON: the published form of a reading."""

from __future__ import annotations

import json
import re
from typing import Any

from ..errors import InternalFault
from ..record import (
    Audiogram,
    Chart,
    FrequencyAxis,
    LevelAxis,
    PageRecord,
    Point,
    Remark,
    Report,
    Seen,
    Source,
    Threshold,
)
from .from_json import from_json
from .other_tests_json import emission_json, fact_json, immittance_json, printed_average_json, speech_json

__all__ = ["from_json", "to_json", "to_json_line"]

_PLACE_DECIMALS = 5
_PROBABILITY_DECIMALS = 4
_MISFIT_DECIMALS = 4
_READING_DECIMALS = 2
_NEEDS_ESCAPE = re.compile("[\x7f-\x9f\u2028\u2029\ud800-\udfff]")


def to_json_line(record: PageRecord) -> str:
    """Write a record as one line of JSON, without the line's end.

    Parameters
    ----------
    record : PageRecord
        Any record; page fractions are rounded to 5 decimals (0.002 mm on A4), probabilities to 4, unrounded
        readings to 2 (Hz and dB).

    Returns
    -------
    str
        Text that UTF-8 can hold, with no character that any program takes for a line end, keys in the order of the
        published field list.

    Raises
    ------
    InternalFault
        When a finding holds something that JSON cannot say (not a number, an infinity, an object).
    """
    try:
        line = json.dumps(to_json(record), ensure_ascii=False, allow_nan=False, separators=(", ", ": "))
    except (TypeError, ValueError) as fault:
        raise InternalFault(f"the record cannot be written as JSON ({fault})", "Report this with the page") from fault
    # A file name may hold bytes that are not UTF-8; they stay readable as escapes, and the line stays one line.
    return _NEEDS_ESCAPE.sub(lambda found: f"\\u{ord(found[0]):04x}", line)


def to_json(record: PageRecord) -> dict[str, Any]:
    """Give the record as plain dicts, lists, strings and numbers, keys in the order of the published field list."""
    return {
        "schema": record.schema,
        "source": _source(record.source),
        "standing": record.standing,
        "audiograms": [_audiogram(audiogram) for audiogram in record.audiograms],
        "report": _report(record.report),
        "remarks": [_remark(remark) for remark in record.remarks],
    }


def _number(value: float, decimals: int) -> int | float:
    rounded = round(float(value), decimals)
    return int(rounded) if rounded.is_integer() else rounded


def _reading(value: float | None) -> int | float | None:
    return None if value is None else _number(value, _READING_DECIMALS)


def _point(point: Point) -> list[int | float]:
    return [_number(point[0], _PLACE_DECIMALS), _number(point[1], _PLACE_DECIMALS)]


def _source(source: Source) -> dict[str, Any]:
    return {
        "name": source.name,
        "sha256": source.sha256,
        "page": source.page,
        "pages": source.pages,
        "taken_by": source.taken_by,
    }


def _audiogram(audiogram: Audiogram) -> dict[str, Any]:
    told: dict[str, Any] = {
        "tested_on": audiogram.tested_on,
        "symbol_set": audiogram.symbol_set,
        "charts": [_chart(chart) for chart in audiogram.charts],
        "thresholds": [_threshold(threshold) for threshold in audiogram.thresholds],
        "speech": [speech_json(one) for one in audiogram.speech],
        "immittance": [immittance_json(one) for one in audiogram.immittance],
        "otoacoustic": [emission_json(one) for one in audiogram.otoacoustic],
        "findings": audiogram.findings,
    }
    if audiogram.printed_averages:
        told["printed_averages"] = [printed_average_json(one) for one in audiogram.printed_averages]
    return told


def _chart(chart: Chart) -> dict[str, Any]:
    frequency, level = chart.frequency_axis, chart.level_axis
    return {
        "outline": [_point(corner) for corner in chart.outline],
        "frequency_axis": None if frequency is None else _axis(frequency, "hz", frequency.hz),
        "level_axis": None if level is None else _axis(level, "db_hl", level.db_hl),
    }


def _axis(axis: FrequencyAxis | LevelAxis, unit: str, ends: tuple[float, float]) -> dict[str, Any]:
    return {
        "scale": axis.scale,
        unit: [_number(ends[0], _READING_DECIMALS), _number(ends[1], _READING_DECIMALS)],
        "at": [_point(end) for end in axis.at],
        "labels_read": axis.labels_read,
        "worst_misfit": _number(axis.worst_misfit, _MISFIT_DECIMALS),
    }


def _threshold(threshold: Threshold) -> dict[str, Any]:
    return {
        "ear": threshold.ear,
        "conduction": threshold.conduction,
        "masked": threshold.masked,
        "aided": threshold.aided,
        "measure": threshold.measure,
        "frequency_hz": _number(threshold.frequency_hz, _READING_DECIMALS),
        "level_db_hl": _number(threshold.level_db_hl, _READING_DECIMALS),
        "response": threshold.response,
        "standing": threshold.standing,
        "probability": _number(threshold.probability, _PROBABILITY_DECIMALS),
        "why_ask": list(threshold.why_ask),
        "seen": None if threshold.seen is None else _seen(threshold.seen),
    }


def _seen(seen: Seen) -> dict[str, Any]:
    return {
        "chart": seen.chart,
        "at": None if seen.at is None else _point(seen.at),
        "frequency_hz": _reading(seen.frequency_hz),
        "level_db_hl": _reading(seen.level_db_hl),
    }


def _report(report: Report) -> dict[str, Any]:
    return {
        "patient": report.patient,
        "born": report.born,
        "transducer": report.transducer,
        "reliability": report.reliability,
        "facts": [fact_json(fact) for fact in report.facts],
    }


def _remark(remark: Remark) -> dict[str, Any]:
    place = {
        "ear": remark.ear,
        "conduction": remark.conduction,
        "frequency_hz": _reading(remark.frequency_hz),
        "chart": remark.chart,
        "at": None if remark.at is None else _point(remark.at),
    }
    known = {key: value for key, value in place.items() if value is not None}
    return {"code": remark.code, "text": remark.text, **known}
