"""Printed pure-tone averages that agree with the thresholds, each with its rule beside it."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from .....interpret.record import PrintedAverage
from ...chart.chance import pick
from ...patient import TestedEar, Tone
from ...pen import XY
from ...sheet import Sheet
from ..scribe import Setting
from .tables import draw_rows, draw_words, put

RULES: tuple[tuple[float, ...], ...] = (
    (500, 1000, 2000),
    (500, 1000, 2000, 4000),
    (500, 1000, 2000, 3000),
    (1000, 2000, 4000),
)
BOTH: tuple[TestedEar, ...] = ("right", "left")


def level_of(tones: Sequence[Tone], ear: str, hz: float) -> float | None:
    """Give an ear's air conduction threshold, the masked one where both stand there; None without a response."""
    found = [
        tone
        for tone in tones
        if (tone.ear, tone.conduction, tone.measure, tone.frequency_hz, tone.aided)
        == (ear, "air", "threshold", hz, False)
    ]
    found.sort(key=lambda tone: tone.masked)
    return found[-1].level_db_hl if found and found[-1].response else None


def average_of(tones: Sequence[Tone], ear: str, rule: tuple[float, ...]) -> float | None:
    """Average an ear's air conduction thresholds; None where one of them is missing."""
    levels = [level_of(tones, ear, hz) for hz in rule]
    known = [level for level in levels if level is not None]
    return sum(known) / len(known) if len(known) == len(levels) else None


def tone_averages(tones: Sequence[Tone]) -> dict[str, float]:
    """Give each ear's average of 500, 1000 and 2000 Hz, where it has one."""
    found = {ear: average_of(tones, ear, RULES[0]) for ear in BOTH}
    return {ear: value for ear, value in found.items() if value is not None}


@dataclass(frozen=True, slots=True)
class _Shown:
    ear: TestedEar
    rule: tuple[float, ...]
    text: str
    level: float


def _rounded(average: float, decimals: int) -> float:
    """Round half away from zero, as people do."""
    scale = 10**decimals
    return math.copysign(math.floor(abs(average) * scale + 0.5) / scale, average)


def rule_words(rng: np.random.Generator, setting: Setting, rule: tuple[float, ...]) -> str:
    """Name the frequencies of an average."""
    if rng.random() < 0.5:
        numbers = [setting.number(hz / 1000, 1 if hz % 1000 else 0) for hz in rule]
        # commas between numbers that hold commas themselves would be no list
        joint = "/" if setting.language.comma else pick(rng, (", ", "/", "-"))
        return f"{joint.join(numbers)} kHz"
    return f"{pick(rng, ('/', ', ')).join(f'{hz:.0f}' for hz in rule)} Hz"


def draw_averages(
    sheet: Sheet,
    audiogram: int,
    rng: np.random.Generator,
    setting: Setting,
    at: XY,
    width: float,
    tones: Sequence[Tone],
) -> float:
    """Print averages of the thresholds with their truth; give the y below them, or the same y where there is none."""
    decimals = int(rng.random() < 0.4)
    rules = [RULES[int(k)] for k in sorted(rng.permutation(len(RULES))[: 1 + int(rng.random() < 0.3)])]
    shown = []
    for rule in rules:
        for ear in BOTH:
            average = average_of(tones, ear, rule)
            if average is not None:
                level = _rounded(average, decimals)
                shown.append(_Shown(ear, rule, setting.number(level, decimals), level))
    if not shown:
        return at[1]
    label = setting.language.word(rng, "average")
    named = {rule: f"{label} ({rule_words(rng, setting, rule)})" for rule in rules}
    # a table in a narrow column would be set too small to read
    drawer = _as_table if rng.random() < 0.4 and width > 260 else _as_lines
    found, y = drawer(sheet, rng, setting, at, width, shown, named)
    record = sheet.audiograms[audiogram]
    put(sheet, audiogram, replace(record, printed_averages=(*record.printed_averages, *found)))
    return y


def _true(one: _Shown, box: tuple[float, float, float, float] | None) -> PrintedAverage:
    return PrintedAverage(one.ear, one.rule, one.level, standing="sure", probability=1.0, box=box)


def _as_table(
    sheet: Sheet,
    rng: np.random.Generator,
    setting: Setting,
    at: XY,
    width: float,
    shown: list[_Shown],
    named: dict[tuple[float, ...], str],
) -> tuple[list[PrintedAverage], float]:
    which = int(rng.integers(4))
    heads = [setting.language.words(ear, "ears")[which] for ear in BOTH]
    rows, places = [["dB HL", *heads]], {}
    for rule, name in named.items():
        line = [name]
        for column, ear in enumerate(BOTH, 1):
            here = [one for one in shown if (one.rule, one.ear) == (rule, ear)]
            line.append(here[0].text if here else "")
            if here:
                places[(len(rows), column)] = here[0]
        if any(line[1:]):
            rows.append(line)
        else:
            places = {place: one for place, one in places.items() if place[0] != len(rows)}
    boxes, y = draw_rows(sheet, rng, setting, at, rows, room=width)
    return [_true(one, boxes[r][c]) for (r, c), one in places.items()], y


def _as_lines(
    sheet: Sheet,
    rng: np.random.Generator,
    setting: Setting,
    at: XY,
    width: float,
    shown: list[_Shown],
    named: dict[tuple[float, ...], str],
) -> tuple[list[PrintedAverage], float]:
    (left, y), size = at, setting.size
    unit, ending = pick(rng, ("dB HL", "dB")), setting.ending
    which = int(rng.integers(4))
    found, margins = [], (left, left + width)
    for rule, name in named.items():
        here = [one for one in shown if one.rule == rule]
        if not here:
            continue
        y += size * 1.5
        label, bracket, hz = name.partition(" (")
        _, place = draw_words(sheet, setting, (left, y), [label, f"{bracket.strip()}{hz}{ending}"], margins, label=True)
        for one in here:
            ear = setting.language.words(one.ear, "ears")[which]
            words = [f"{ear}{ending}", f"{one.text} {unit}" + ("," if one is not here[-1] else "")]
            boxes, place = draw_words(sheet, setting, place, words, margins)
            found.append(_true(one, boxes[-1]))
        y = place[1]
    return found, y + size
