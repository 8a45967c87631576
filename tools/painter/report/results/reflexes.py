"""Acoustic reflexes as a table, with their truth."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from .....interpret.record import Immittance, Reflex, Side
from ...chart.chance import pick
from ...pen import XY
from ...sheet import Sheet
from ..scribe import Setting, around
from .tables import draw_rows, put
from .traces import SIDES, joined, side_names


def draw_reflexes(
    sheet: Sheet, audiogram: int, rng: np.random.Generator, setting: Setting, at: XY, width: float
) -> float:
    """Invent and draw a table of acoustic reflexes; give the y below it.

    A contralateral row that names one ear alone may mean the ear of the probe or that of the sound: such reflexes
    stand as ``ask`` in the truth.
    """
    language = setting.language
    frequencies = pick(rng, ((500, 1000, 2000, 4000), (500, 1000, 2000), (1000,)))
    named_probe = rng.random() < 0.6
    absent, untested = language.word(rng, "absent"), language.word(rng, "not_tested")
    ears, ways = side_names(rng, setting), (language.word(rng, "ipsi"), language.word(rng, "contra"))
    probe = language.word(rng, "probe_ear")
    plan: list[tuple[Side, Side, str]] = []
    for ear, name in zip(SIDES, ears, strict=True):
        other: Side = "left" if ear == "right" else "right"
        said = probe.format(ear=name) if named_probe else name
        plan.append((ear, ear, f"{said}, {ways[0]}" if named_probe else f"{said} {ways[0]}"))
        plan.append((ear, other, f"{said}, {ways[1]}" if named_probe else f"{said} {ways[1]}"))
    rows, results = [["dB HL", *(f"{hz} Hz" for hz in frequencies)]], []
    for ear, stimulus, name in plan:
        line = [_any_reflex(rng, stimulus, hz, absent, untested) for hz in frequencies]
        rows.append([name, *(text for text, _ in line)])
        results.append((ear, stimulus, [reflex for _, reflex in line]))
    title = language.word(rng, "reflex_titles")
    boxes, y = draw_rows(sheet, rng, setting, at, rows, title=title, room=width)
    found = []
    for side in SIDES:
        reflexes = []
        for r, (ear, stimulus, line) in enumerate(results, 1):
            for c, reflex in enumerate(line, 1):
                if reflex is not None and ear == side:
                    plain = named_probe or ear == stimulus
                    standing = "sure" if plain else "ask"
                    reflexes.append(replace(reflex, standing=standing, probability=1.0, box=boxes[r][c]))
        if reflexes:
            place = around([one.box for one in reflexes if one.box])
            found.append(Immittance(side, None, tuple(reflexes), standing="sure", probability=1.0, box=place))
    record = sheet.audiograms[audiogram]
    put(sheet, audiogram, replace(record, immittance=joined(record.immittance, found)))
    return y


def _any_reflex(
    rng: np.random.Generator, stimulus: Side, hz: int, absent: str, untested: str
) -> tuple[str, Reflex | None]:
    chance = rng.random()
    if chance < 0.05:
        return untested, None
    if chance < 0.17:
        return absent, Reflex(stimulus, float(hz), None, response=False)
    if chance < 0.22:
        level = int(pick(rng, (100, 105, 110)))
        return f">{level}", Reflex(stimulus, float(hz), float(level), response=False)
    level = 5 * int(rng.integers(15, 22))
    return str(level), Reflex(stimulus, float(hz), float(level))
