"""Otoacoustic emissions as tables of bands, with their truth."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from .....interpret.record import Box, EmissionBand, EmissionMethod, EmissionResult, OtoacousticEmission, Side
from ...chart.chance import pick
from ...pen import XY
from ...sheet import Sheet
from ..scribe import Setting, around, write
from .tables import draw_rows, put
from .traces import SIDES, side_names

_BANDS: dict[EmissionMethod, tuple[tuple[float, ...], ...]] = {
    "dpoae": ((1000, 2000, 3000, 4000), (1000, 1500, 2000, 3000, 4000, 6000), (2000, 3000, 4000, 5000)),
    "teoae": ((1000, 1500, 2000, 3000, 4000), (1000, 2000, 3000, 4000)),
}
_LEAST_SNR_DB = 6.0
"""From here on a band counts as passed [common practice]."""


@dataclass(frozen=True, slots=True)
class _Page:
    """What this page prints of every band."""

    levels: bool
    verdicts: bool
    overall: bool
    in_khz: bool
    decimals: int


def draw_emissions(
    sheet: Sheet, audiogram: int, rng: np.random.Generator, setting: Setting, at: XY, width: float
) -> float:
    """Invent and draw both ears' emissions; give the y below them, in points."""
    method: EmissionMethod = "dpoae" if rng.random() < 0.65 else "teoae"
    page = _Page(
        levels=bool(rng.random() < 0.7),
        verdicts=bool(rng.random() < 0.6),
        overall=bool(rng.random() < 0.6),
        in_khz=bool(rng.random() < 0.5),
        decimals=int(rng.random() < 0.5),
    )
    bands = pick(rng, _BANDS[method])
    title = setting.language.word(rng, method, "emission_titles")
    words = (setting.language.word(rng, "pass"), setting.language.word(rng, "refer"))
    (left, y), found = at, []
    heads = _heads(rng, setting, page, method)
    for ear, name in zip(SIDES, side_names(rng, setting), strict=True):
        values = [_band(rng, hz, page) for hz in bands]
        rows = [heads, *(_row(setting, page, value, words) for value in values)]
        boxes, y = draw_rows(sheet, rng, setting, (left, y), rows, title=f"{title} – {name}", room=width)
        places = [box for line in boxes[1:] for box in line if box]
        result: EmissionResult | None = None
        if page.overall:
            result = "pass" if sum((v.snr_db or 0) >= _LEAST_SNR_DB for v in values) > 0.7 * len(values) else "refer"
            y, box = _verdict(sheet, setting, (left, y), setting.language.word(rng, "result"), words, result)
            places.append(box)
        y += setting.size * 0.8
        found.append(_true(ear, method, values, result, places))
    record = sheet.audiograms[audiogram]
    put(sheet, audiogram, replace(record, otoacoustic=(*record.otoacoustic, *found)))
    return y


def _true(
    ear: Side,
    method: EmissionMethod,
    bands: Sequence[EmissionBand],
    result: EmissionResult | None,
    places: Sequence[Box],
) -> OtoacousticEmission:
    return OtoacousticEmission(
        ear, method, tuple(bands), result, standing="sure", probability=1.0, box=around(list(places))
    )


def _verdict(
    sheet: Sheet, setting: Setting, at: XY, label: str, words: tuple[str, str], result: EmissionResult
) -> tuple[float, Box]:
    y = at[1] + setting.size * 1.2
    along = sheet.pen.text((at[0], y), label + setting.ending, setting.label_face, setting.size) + setting.size * 0.6
    text = words[0] if result == "pass" else words[1]
    return y + setting.size * 0.6, write(sheet, (at[0] + along, y), text, setting.face, setting.size)


def _band(rng: np.random.Generator, hz: float, page: _Page) -> EmissionBand:
    # adding 0.0 turns a rounded minus nought into nought
    noise = round(float(rng.normal(-12, 4)), page.decimals) + 0.0
    level = round(noise + float(rng.uniform(-3, 20)), page.decimals) + 0.0
    snr = round(level - noise, page.decimals) + 0.0
    result: EmissionResult | None = ("pass" if snr >= _LEAST_SNR_DB else "refer") if page.verdicts else None
    shown = (level, noise) if page.levels else (None, None)
    return EmissionBand(hz, shown[0], shown[1], snr, result)


def _heads(rng: np.random.Generator, setting: Setting, page: _Page, method: EmissionMethod) -> list[str]:
    language = setting.language

    def head(what: str) -> str:
        # two tones (f1, f2) and a distortion product belong to DPOAE alone
        words = [word for word in language.words(what) if method == "dpoae" or not {"f2", "DP"} & set(word.split())]
        return pick(rng, words)

    found = [head("band" if page.in_khz else "band_hz")]
    found += [head("amplitude"), language.word(rng, "noise")] if page.levels else []
    found.append(language.word(rng, "snr"))
    return [*found, language.word(rng, "result")] if page.verdicts else found


def _row(setting: Setting, page: _Page, value: EmissionBand, words: tuple[str, str]) -> list[str]:
    hz = value.frequency_hz
    found = [setting.number(hz / 1000, 1) if page.in_khz else f"{hz:.0f}"]
    numbers = (value.amplitude_db_spl, value.noise_db_spl, value.snr_db)
    found += [setting.number(number, page.decimals) for number in numbers if number is not None]
    return [*found, words[0] if value.result == "pass" else words[1]] if page.verdicts else found
