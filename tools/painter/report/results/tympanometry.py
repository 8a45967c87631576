"""Tympanograms as a table of numbers, in lines, and as curves, with their truth."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from .....interpret.record import Box, Immittance
from ...chart.chance import pick
from ...pen import XY
from ...sheet import Sheet
from ..scribe import Setting, around
from .curves import draw_curves
from .tables import draw_rows, draw_words, put
from .traces import Trace, joined, side_names


def draw_tympanometry(
    sheet: Sheet,
    audiogram: int,
    rng: np.random.Generator,
    setting: Setting,
    at: XY,
    width: float,
    traces: tuple[Trace, Trace],
    *,
    curves: str = "beside",
) -> float:
    """Draw tympanograms.

    Parameters
    ----------
    curves : str
        ``none``: numbers alone; ``beside``: curves below the numbers; ``only``: curves without numbers. What stands
        on the curve alone is true, but not stated: its record stands as ``ask``.

    Returns
    -------
    float
        The y below all, in points.
    """
    left, y = at
    title = setting.language.word(rng, "tympanometry_titles")
    title += f" ({setting.language.words('probe')[0]} 226 Hz)" if rng.random() < 0.2 else ""
    found: list[Immittance] = []
    if curves != "only":
        shown = _as_printed(rng, traces)
        drawer = pick(rng, (_as_table, _as_rows, _as_lines))
        found, y = drawer(sheet, rng, setting, at, width, shown, title if rng.random() < 0.85 else None)
    else:
        sheet.pen.text((left, y + setting.size), title, setting.bold, setting.size)
        y += setting.size * 1.8
    if curves != "none":
        boxes, y = draw_curves(sheet, rng, setting, (left, y + 4), width, traces)
        if curves == "only":
            found = [_on_curve(trace, box) for trace, box in zip(traces, boxes, strict=True)]
    record = sheet.audiograms[audiogram]
    put(sheet, audiogram, replace(record, immittance=joined(record.immittance, found)))
    return y


def _on_curve(trace: Trace, box: Box) -> Immittance:
    seen = replace(trace.numbers, ear_canal_volume_ml=None, width_dapa=None, printed_type=None)
    return Immittance(trace.ear, seen, standing="ask", probability=1.0, box=box)


def _as_printed(rng: np.random.Generator, traces: tuple[Trace, Trace]) -> tuple[Trace, Trace]:
    """Leave out the numbers that this page does not print, and round the others as it does."""
    typed, wide, decimals = rng.random() < 0.75, rng.random() < 0.4, int(pick(rng, (1, 2)))

    def cut(value: float | None) -> float | None:
        return None if value is None else float(f"{value:.{decimals}f}")

    right, left = (
        Trace(
            trace.ear,
            replace(
                trace.numbers,
                printed_type=trace.numbers.printed_type if typed else None,
                width_dapa=trace.numbers.width_dapa if wide else None,
                peak_admittance_mmho=cut(trace.numbers.peak_admittance_mmho),
                ear_canal_volume_ml=cut(trace.numbers.ear_canal_volume_ml),
            ),
            decimals,
        )
        for trace in traces
    )
    return right, left


def _texts(
    rng: np.random.Generator, setting: Setting, traces: tuple[Trace, Trace], *, unit_in_head: bool
) -> list[tuple[str, list[str]]]:
    """Give what is printed: each quantity's head, and its texts ear by ear."""
    language, decimals = setting.language, traces[0].decimals
    ml = pick(rng, ("ml", "mL", "cm³")) if rng.random() < 0.6 else "mmho"
    volume_ml = ml if ml != "mmho" else "ml"
    typed = any(trace.numbers.printed_type for trace in traces)
    # without a type beside it a mere dash would not say that there is no peak
    no_peak = pick(rng, [word for word in language.words("no_peak") if typed or word != "–"])

    def headed(what: str, unit: str, numbers: list[str | None]) -> tuple[str, list[str]]:
        head = language.word(rng, what)
        texts = [no_peak if n is None else n if unit_in_head else f"{n} {unit}" for n in numbers]
        return (f"{head} ({unit})" if unit_in_head else head), texts

    def number(value: float | None, places: int) -> str | None:
        return None if value is None else setting.number(value, places)

    numbers = [trace.numbers for trace in traces]
    rows = []
    if typed:
        rows.append((language.word(rng, "type"), [str(one.printed_type) for one in numbers]))
    rows += [
        headed("volume", volume_ml, [number(one.ear_canal_volume_ml, decimals) for one in numbers]),
        headed("pressure", "daPa", [number(one.peak_pressure_dapa, 0) for one in numbers]),
        headed("admittance", ml, [number(one.peak_admittance_mmho, decimals) for one in numbers]),
    ]
    if any(one.width_dapa is not None for one in numbers):
        rows.append(headed("width", "daPa", [number(one.width_dapa, 0) for one in numbers]))
    return rows


def _true(trace: Trace, boxes: Sequence[Box | None]) -> Immittance:
    place = around([box for box in boxes if box])
    return Immittance(trace.ear, trace.numbers, standing="sure", probability=1.0, box=place)


def _as_table(
    sheet: Sheet,
    rng: np.random.Generator,
    setting: Setting,
    at: XY,
    width: float,
    traces: tuple[Trace, Trace],
    title: str | None,
) -> tuple[list[Immittance], float]:
    lines = _texts(rng, setting, traces, unit_in_head=bool(rng.random() < 0.6))
    rows = [["", *side_names(rng, setting)], *([head, *texts] for head, texts in lines)]
    boxes, y = draw_rows(sheet, rng, setting, at, rows, title=title, room=width)
    found = []
    for column, trace in enumerate(traces, 1):
        found.append(_true(trace, [line[column] for line in boxes[1:]]))
    return found, y


def _as_rows(
    sheet: Sheet,
    rng: np.random.Generator,
    setting: Setting,
    at: XY,
    width: float,
    traces: tuple[Trace, Trace],
    title: str | None,
) -> tuple[list[Immittance], float]:
    lines = _texts(rng, setting, traces, unit_in_head=True)
    names = side_names(rng, setting)
    rows = [[setting.language.word(rng, "ear"), *(head for head, _ in lines)]]
    rows += [[name, *(texts[k] for _, texts in lines)] for k, name in enumerate(names)]
    boxes, y = draw_rows(sheet, rng, setting, at, rows, title=title, room=width)
    return [_true(trace, boxes[k][1:]) for k, trace in enumerate(traces, 1)], y


def _as_lines(
    sheet: Sheet,
    rng: np.random.Generator,
    setting: Setting,
    at: XY,
    width: float,
    traces: tuple[Trace, Trace],
    title: str | None,
) -> tuple[list[Immittance], float]:
    (left, y), size = at, setting.size
    if title is not None:
        sheet.pen.text((left, y + size), title, setting.bold, size)
        y += size * 1.7
    lines, found = _texts(rng, setting, traces, unit_in_head=False), []
    margins = (left, left + width)
    for k, (name, trace) in enumerate(zip(side_names(rng, setting), traces, strict=True)):
        y += size * 1.4
        _, place = draw_words(sheet, setting, (left, y), [f"{name}:"], margins, label=True)
        said = [f"{head} {texts[k]}," for head, texts in lines]
        said[-1] = said[-1].removesuffix(",")
        boxes, place = draw_words(sheet, setting, place, said, margins)
        found.append(_true(trace, boxes))
        y = place[1]
    return found, y + size
