"""Invented hearing tests for the outside pages, and what an outside page is.

Nothing here draws. The shapes, limits and masking habits are those of ordinary practice (common practice, no single
source); the levels lie on 5-dB steps. This folder shares no code with the painter, and must not come to.
"""

from __future__ import annotations

import csv
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from math import log2
from pathlib import Path
from typing import Literal, TypeVar

import numpy as np

from octavo.interpret.record import Conduction, Ear, Point, Threshold

STANDARD_AUDIOGRAMS = Path(__file__).parents[1] / "published" / "standard_audiograms_bisgaard2010.csv"
"""Ten curves, 250 to 6000 Hz, dB HL. Bisgaard, Vlaming and Dahlquist 2010 (later IEC 60118-15)."""

One = TypeVar("One")
OCTAVES = (250, 500, 1000, 2000, 4000, 8000)
CLINIC = (250, 500, 750, 1000, 1500, 2000, 3000, 4000, 6000, 8000)
Outline = tuple[Point, Point, Point, Point]
Bone = Literal["none", "unmasked", "as-needed", "masked"]
BONES: tuple[Bone, ...] = ("as-needed", "as-needed", "unmasked", "none")
"""What bone conduction a page shows, as often as each stands here."""

AIR_LIMITS = {125: 70, 250: 90, 500: 110, 750: 110, 1000: 110, 1500: 110, 2000: 110, 3000: 110, 4000: 110, 6000: 105}
AIR_LIMITS |= {8000: 95}
BONE_LIMITS = {250: 45, 500: 60, 1000: 70, 2000: 70, 3000: 70, 4000: 65}
"""Where the audiometer ends, dB HL: an invented one, within the ranges of ordinary type 1 audiometers."""

_SHAPES: dict[str, tuple[float, ...]] = {  # dB above the curve's base at 250, 500, 1000, 2000, 4000, 8000 Hz
    "flat": (0, 0, 0, 0, 0, 5),
    "sloping": (0, 5, 15, 25, 40, 50),
    "steep": (0, 0, 5, 40, 65, 75),
    "rising": (35, 30, 20, 10, 5, 5),
    "notch": (0, 0, 5, 15, 45, 20),
    "trough": (0, 15, 35, 35, 15, 5),
    "corner": (55, 75, 95, 110, 115, 115),
}


@dataclass(frozen=True, slots=True)
class OutsidePage:
    """One page with what it says.

    ``places`` are the marks' centres in page fractions, in the order of ``truth``; ``outlines`` are the charts'
    plot areas as the record defines them (lowest frequency and lowest level first, then along the frequencies).
    """

    path: Path
    truth: tuple[Threshold, ...]
    charts: int
    note: str
    places: tuple[Point, ...]
    outlines: tuple[Outline, ...]


@dataclass(frozen=True, slots=True)
class Frame:
    """A plot area on a page and its axes, for the renderers that leave the geometry to whoever calls them.

    ``box`` is left, top, width, height and ``page`` width, height, in one unit, origin at the page's top left corner.
    The axes run over ``margin`` octaves (or steps, on an equal axis) beyond the first and last tick.
    """

    page: tuple[float, float]
    box: tuple[float, float, float, float]
    ticks: tuple[int, ...]
    levels: tuple[int, int] = (-10, 120)
    equal: bool = False
    margin: float = 0.5

    def x(self, hz: float, aside: float = 0.0) -> float:
        """Place a frequency; ``aside`` moves it, in octaves or steps."""
        first, last = self.along(self.ticks[0]) - self.margin, self.along(self.ticks[-1]) + self.margin
        return self.box[0] + self.box[2] * (self.along(hz) + aside - first) / (last - first)

    def y(self, db: float) -> float:
        """Place a level in dB HL."""
        return self.box[1] + self.box[3] * (db - self.levels[0]) / (self.levels[1] - self.levels[0])

    def place(self, hz: float, db: float, aside: float = 0.0) -> Point:
        """Place a mark in page fractions."""
        return self.x(hz, aside) / self.page[0], self.y(db) / self.page[1]

    @property
    def outline(self) -> Outline:
        """The plot area in page fractions."""
        left, top, width, height = self.box
        (w, h), right, bottom = self.page, left + width, top + height
        return (left / w, top / h), (right / w, top / h), (right / w, bottom / h), (left / w, bottom / h)

    def along(self, hz: float) -> float:
        """Give a frequency in the axis' own unit: log2 of Hz, or ticks from the left (between two, by octaves)."""
        if not self.equal:
            return log2(hz)
        left = max((i for i, tick in enumerate(self.ticks[:-1]) if tick <= hz), default=0)
        return left + log2(hz / self.ticks[left]) / log2(self.ticks[left + 1] / self.ticks[left])


@dataclass(frozen=True, slots=True)
class Wish:
    """What a drawing style can show: the printed frequencies and levels, bone, and masking of air."""

    frequencies: tuple[int, ...] = OCTAVES
    deepest_db_hl: int = 110
    highest_db_hl: int = -10
    bone: Bone = "as-needed"
    masked_air: bool = True


def pick(rng: np.random.Generator, options: Sequence[One]) -> One:
    """Give one of the options (the generator's own ``choice`` would turn them into numpy's types)."""
    return options[int(rng.integers(len(options)))]


def deal(program: int, seed: int, styles: Mapping[str, One]) -> tuple[np.random.Generator, str, One]:
    """Begin a page: the styles take turns with its number, all else is drawn by lot from it.

    Parameters
    ----------
    program : int
        The drawing program's own number, so that no two programs draw one test.
    seed : int
        The page's number.
    styles : mapping
        The program's styles by name.

    Returns
    -------
    tuple
        The page's source of chance, the style's name and the style.
    """
    style = list(styles)[seed % len(styles)]
    return np.random.default_rng((program, seed)), style, styles[style]


def panels(frames: Sequence[Frame]) -> list[tuple[Frame, tuple[Ear, ...]]]:
    """Say which ears each plot area shows: a single one both, of two the first the right and the second the left."""
    if len(frames) == 1:
        return [(frames[0], ("right", "left"))]
    return [(frames[0], ("right",)), (frames[1], ("left",))]


def drawn(
    path: Path, truth: tuple[Threshold, ...], frames: Sequence[Frame], note: str, beside: float = 0.0
) -> OutsidePage:
    """Say what a page holds that was drawn in ``frames``, its bone marks ``beside`` their lines (see `aside`)."""
    where = {ear: frame for frame, ears in panels(frames) for ear in ears}
    at = [(where.get(one.ear, frames[0]), one) for one in truth]
    places = tuple(frame.place(one.frequency_hz, one.level_db_hl, aside(one, beside)) for frame, one in at)
    return OutsidePage(path, truth, len(frames), note, places, tuple(frame.outline for frame in frames))


def known(
    ear: Ear, conduction: Conduction, hz: float, db: float, *, masked: bool = False, response: bool = True
) -> Threshold:
    """Give a true value: it stands as sure, for the page does say so."""
    return Threshold(ear, conduction, masked, float(hz), float(db), response=response, standing="sure", probability=1.0)


def hearing_test(rng: np.random.Generator, wish: Wish) -> tuple[Threshold, ...]:
    """Invent the test of both ears: air at all wished frequencies but a few, bone as wished.

    Parameters
    ----------
    rng : np.random.Generator
        The only source of chance.
    wish : Wish
        What the page's style can show.

    Returns
    -------
    tuple of Threshold
        Right before left, air before bone, low frequency before high; none above the page's printed levels.
    """
    shapes = dict.fromkeys(("right", "left"), pick(rng, list(_SHAPES)))
    if rng.random() < 0.4:
        shapes["left"] = pick(rng, list(_SHAPES))
    base = pick(rng, (0, 5, 5, 10, 15, 20, 30, 45))
    bases = {"right": base, "left": base + pick(rng, (0, 0, 0, 5, -5, 10, 40))}
    gaps = {"right": pick(rng, (0, 0, 0, 20, 30)), "left": pick(rng, (0, 0, 0, 0, 25))}
    tested = [hz for hz in wish.frequencies if hz in OCTAVES or rng.random() < 0.5]
    bones = {ear: _curve(rng, shapes[ear], bases[ear], tested) for ear in ("right", "left")}
    airs = {ear: {hz: bones[ear][hz] + gaps[ear] for hz in tested} for ear in ("right", "left")}
    out: list[Threshold] = []
    ears: tuple[tuple[Ear, Ear], ...] = (("right", "left"), ("left", "right"))
    for ear, other in ears:
        out += _air(ear, airs[ear], bones[other], wish)
        out += _bone(rng, ear, airs[ear], bones, other, wish)
    return tuple(one for one in out if one.level_db_hl >= wish.highest_db_hl)


def _curve(rng: np.random.Generator, shape: str, base: int, tested: list[int]) -> dict[int, int]:
    known_db = dict(zip(OCTAVES, _SHAPES[shape], strict=True))
    known_db |= {125: known_db[250]}
    for low, between, high in ((500, 750, 1000), (1000, 1500, 2000), (2000, 3000, 4000), (4000, 6000, 8000)):
        known_db[between] = (known_db[low] + known_db[high]) / 2
    return {hz: max(-10, 5 * round((base + known_db[hz] + pick(rng, (-5, 0, 0, 0, 5))) / 5)) for hz in tested}


def _air(ear: Ear, air: dict[int, int], other_bone: dict[int, int], wish: Wish) -> list[Threshold]:
    out = []
    for hz, db in air.items():
        limit = min(AIR_LIMITS[hz], wish.deepest_db_hl)
        # Earphones cross over from about 40 dB on: then the other ear is masked (common practice).
        masked = wish.masked_air and db - other_bone[hz] >= 40
        out.append(known(ear, "air", hz, min(db, limit), masked=masked, response=db <= limit))
    return out


def _bone(
    rng: np.random.Generator, ear: Ear, air: dict[int, int], bones: dict[str, dict[int, int]], other: Ear, wish: Wish
) -> list[Threshold]:
    if wish.bone == "none":
        return []
    out = []
    for hz, true_db in bones[ear].items():
        if hz not in BONE_LIMITS or rng.random() < 0.2:
            continue
        db = max(-10, true_db + pick(rng, (-5, 0, 0, 0, 5)))
        limit = min(BONE_LIMITS[hz], wish.deepest_db_hl)
        needed = air[hz] - db >= 15 or db - bones[other][hz] >= 15
        masked = wish.bone == "masked" or (wish.bone == "as-needed" and needed)
        out.append(known(ear, "bone", hz, min(db, limit), masked=masked, response=db <= limit))
    return out


def standard_audiogram(name: str, *, step_db: float = 5.0) -> dict[int, float]:
    """Give one standard audiogram as it is marked on a clinical form: levels on the nearest step, halves upward.

    Parameters
    ----------
    name : str
        N1 to N7 or S1 to S3.
    step_db : float
        The form's step, dB. The published values are multiples of 2.5 dB, so rounding moves a level by at most 2.5 dB.

    Returns
    -------
    dict
        Frequency in Hz to level in dB HL; without 375 Hz, where no form has a line.
    """
    with STANDARD_AUDIOGRAMS.open(newline="", encoding="utf-8") as file:
        row = next(row for row in csv.DictReader(file) if row["name"] == name)
    exact = {int(key[2:]): float(value) for key, value in row.items() if key != "name"}
    return {hz: step_db * int(db / step_db + 0.5) for hz, db in exact.items() if hz != 375}


def standard_test(name: str) -> tuple[Threshold, ...]:
    """Give a standard audiogram as the air thresholds of both ears (the set names no ear)."""
    ears: tuple[Ear, ...] = ("right", "left")
    return tuple(known(ear, "air", hz, db) for ear in ears for hz, db in standard_audiogram(name).items())


def of(truth: Iterable[Threshold], ear: Ear, conduction: Conduction) -> list[Threshold]:
    """Give one ear's values of one conduction, low frequency first."""
    picked = (one for one in truth if one.ear == ear and one.conduction == conduction)
    return sorted(picked, key=lambda one: one.frequency_hz)


def aside(one: Threshold, by: float) -> float:
    """Give how far a mark stands beside its frequency line: right bone to the left of it, left bone to the right."""
    return {"right": -by, "left": by}.get(one.ear, 0.0) if one.conduction == "bone" else 0.0
