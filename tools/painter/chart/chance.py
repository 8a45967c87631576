"""Scales and looks by chance, for training pages: nearly everything about a chart varies."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import Literal, TypeVar

import numpy as np

from .. import fonts
from ..pen import BLACK, Colour
from .axes import HIGH, INTER_OCTAVES, OCTAVES, Scale
from .look import LabelForm, Lettering, Look, Rule, Ruling, Shape, Strokes

T = TypeVar("T")
DASHES: tuple[tuple[float, ...], ...] = ((2, 2), (4, 3), (1, 2), (0.6, 1.8), (6, 2, 1, 2), (3, 1.5))
SETS = ("asha-1990", "bsa-2018", "leaflet-de", "triangle-bone", "jis-t-1201")
MARK_FACES = (
    "DejaVuSans",
    "DejaVuSans-Bold",
    "STIXGeneral",
    "Roboto-Regular",
    "SourceSansPro-Regular",
    "DejaVuSansMono",
)
_FORMS: tuple[LabelForm, ...] = ("plain", "khz", "khz-bare", "khz-comma", "k", "K", "space", "comma")
FREQUENCY_CAPTIONS = (
    "Frequency (Hz)",
    "Frequency in Hz",
    "Hz",
    "FREQUENCY (Hz)",
    "Frequency [Hz]",
    "Frequenz (Hz)",
    "Fréquence (Hz)",
    "Test frequency, Hz",
    "Pitch (Hz)",
)
KHZ_CAPTIONS = ("Frequency (kHz)", "kHz", "Frequency in kHz", "Frequenz (kHz)", "FREQUENCY kHz")
LEVEL_CAPTIONS = (
    "Hearing level (dB HL)",
    "Hearing Level in dB",
    "dB HL",
    "dB",
    "HEARING LEVEL (dB)",
    "Hörverlust (dB)",
    "Level, dB HL",
    "Hearing threshold level (dB)",
    "Niveau (dB HL)",
)


def pick(rng: np.random.Generator, options: Sequence[T], odds: Sequence[float] | None = None) -> T:
    """Choose one of the options."""
    if odds is None:
        return options[int(rng.integers(len(options)))]
    return options[int(rng.choice(len(options), p=np.array(odds) / sum(odds)))]


def grey(rng: np.random.Generator, low: float, high: float) -> Colour:
    """Choose a grey between two lightnesses, at times with a tint."""
    value = rng.uniform(low, high)
    if rng.random() < 0.7:
        return (value, value, value)
    tint = rng.uniform(-0.12, 0.12, 3)
    red, green, blue = (float(v) for v in np.clip(value + tint, 0, 1))
    return (red, green, blue)


def any_scale(rng: np.random.Generator, *, equal: float = 0.2, high: float = 0.08, free: float = 0.25) -> Scale:
    """Invent a scale; ``equal``, ``high`` and ``free`` are the odds of equal spacing, high frequencies, free aspect."""
    spacing: Literal["log", "equal"] = "equal" if rng.random() < equal else "log"
    start = 125 if rng.random() < 0.65 else 250
    inters = [hz for hz in INTER_OCTAVES if hz >= 1500 or start == 125 or rng.random() < 0.7]
    how = rng.random()
    inters = [] if how < 0.2 else [hz for hz in inters if hz >= 3000] if how < 0.3 else inters
    printed = [hz for hz in OCTAVES if hz >= start] + inters
    if rng.random() < high:
        last = pick(rng, (12500, 16000, 20000))
        extended = [hz for hz in HIGH if hz <= last]
        keep = extended if spacing == "equal" else [hz for hz in extended if hz in (10000, 12500, 16000, 20000)]
        printed += keep
    low = int(pick(rng, (-20, -10, 0), (0.15, 0.7, 0.15)))
    high_level = int(pick(rng, (90, 100, 110, 120, 130), (0.05, 0.1, 0.25, 0.5, 0.1)))
    margin_side = float(pick(rng, (0.0, 0.25, 0.5, 1.0), (0.4, 0.2, 0.3, 0.1)))
    margin_level = float(pick(rng, (0.0, 5.0, 10.0), (0.75, 0.15, 0.1)))
    ratio = float(rng.uniform(0.6, 1.8)) if rng.random() < free else 1.0
    if spacing == "equal":
        ratio = float(rng.uniform(1.0, 2.2))
    return Scale(
        printed=tuple(sorted(printed)),
        levels=(low, high_level),
        spacing=spacing,
        halfway=bool(rng.random() < 0.4),
        ratio=ratio,
        margin=(margin_side, margin_side, margin_level if rng.random() < 0.5 else 0.0, margin_level),
    )


def any_lettering(rng: np.random.Generator, size: float) -> Lettering:
    """Invent the words along the axes."""
    face = fonts.load(pick(rng, fonts.faces_for("train")))
    form = pick(rng, _FORMS, (0.52, 0.1, 0.05, 0.05, 0.12, 0.04, 0.06, 0.06))
    in_khz = form.startswith("khz")
    return Lettering(
        face=face,
        size=size,
        colour=grey(rng, 0.0, 0.35),
        label_form=form,
        frequency_side=pick(rng, ("above", "below", "both"), (0.55, 0.35, 0.1)),
        level_side=pick(rng, ("left", "right", "both"), (0.8, 0.06, 0.14)),
        gap=float(rng.uniform(2.5, 7)),
        inter_labelled=bool(rng.random() < 0.6),
        inter_size=float(pick(rng, (1.0, 0.85, 0.7))),
        inter_row=bool(rng.random() < 0.15),
        level_every=int(pick(rng, (10, 20), (0.85, 0.15))),
        frequency_caption=pick(rng, KHZ_CAPTIONS if in_khz else FREQUENCY_CAPTIONS) if rng.random() < 0.85 else None,
        level_caption=pick(rng, LEVEL_CAPTIONS) if rng.random() < 0.88 else None,
        caption_size=size * float(rng.uniform(0.85, 1.25)),
        level_caption_turned=bool(rng.random() < 0.7),
        title_face=fonts.load(fonts.FACES[face].bold),
        title_size=size * float(rng.uniform(1.1, 1.6)),
    )


def _bands(rng: np.random.Generator) -> tuple[tuple[float, float, Colour, str], ...]:
    edges = (-10, 20, 40, 70, 90, 120) if rng.random() < 0.5 else (-10, 25, 40, 55, 70, 90, 120)
    names = ("normal", "mild", "moderate", "moderately severe", "severe", "profound")
    if len(edges) == 6:
        names = ("normal", "mild", "moderate", "severe", "profound")
    words = rng.random() < 0.5
    base = np.array(pick(rng, ((0.9, 0.95, 1.0), (0.92, 0.97, 0.9), (1.0, 0.96, 0.85), (0.93, 0.93, 0.93))))
    alternate = rng.random() < 0.5
    bands = []
    for k, (low, high) in enumerate(pairwise(edges)):
        shade = base if not alternate or k % 2 == 0 else np.ones(3)
        if not alternate:
            shade = 1 - (1 - base) * (0.3 + 0.25 * k)
        red, green, blue = (float(v) for v in np.clip(shade, 0, 1))
        bands.append((float(low), float(high), (red, green, blue), names[k] if words else ""))
    return tuple(bands)


def any_ruling(rng: np.random.Generator, scale: Scale) -> Ruling:
    """Invent the lines of a chart."""
    bare = rng.random()
    width = float(rng.uniform(0.25, 1.1))
    colour = grey(rng, 0.0, 0.8)
    if rng.random() < 0.1:
        colour = pick(rng, ((0.55, 0.75, 0.55), (0.6, 0.7, 0.9), (0.9, 0.65, 0.55), (0.3, 0.5, 0.35)))
    solid = Rule(width, colour)
    dashed = Rule(width, colour, pick(rng, DASHES))
    none = Rule(0.0)
    frame = Rule(width * float(rng.uniform(1.0, 2.2)), grey(rng, 0.0, 0.4))
    main = solid if rng.random() < 0.8 else dashed
    inter = pick(rng, (dashed, Rule(width * 0.6, colour), solid, none), (0.5, 0.15, 0.1, 0.25))
    minor = Rule(width * 0.6, grey(rng, 0.6, 0.85), pick(rng, ((), (1, 2)))) if rng.random() < 0.15 else none
    low, high = scale.levels
    bands = tuple((max(a, low), min(b, high), c, w) for a, b, c, w in _bands(rng) if a < high and b > low)
    return Ruling(
        octave=none if bare < 0.06 else main,
        inter=none if bare < 0.06 else inter,
        level=none if bare < 0.06 or 0.06 < bare < 0.09 else main,
        frame=frame,
        frame_sides="axes" if bare < 0.06 else pick(rng, ("box", "axes", "none"), (0.8, 0.1, 0.1)),
        level_every=int(pick(rng, (10, 20), (0.9, 0.1))),
        minor=minor,
        zero=Rule(width * 2.4, grey(rng, 0.0, 0.3)) if rng.random() < 0.2 else none,
        tick=float(rng.uniform(2, 5)) if bare < 0.06 or rng.random() < 0.2 else 0.0,
        ticks_inward=bool(rng.random() < 0.2),
        overhang=float(rng.uniform(2, 6)) if rng.random() < 0.1 else 0.0,
        bands=bands if rng.random() < 0.18 else (),
        speech=grey(rng, 0.85, 0.95) if rng.random() < 0.08 else None,
    )


def _join(rng: np.random.Generator, width: float) -> tuple[Rule | None, Rule | None]:
    dash = pick(rng, DASHES)
    style = rng.random()
    if style < 0.12:
        return None, None
    if style < 0.5:
        return Rule(width), Rule(width, dash=dash)
    if style < 0.85:
        return Rule(width), Rule(width)
    return Rule(width, dash=dash), Rule(width, dash=dash)


def any_strokes(rng: np.random.Generator, symbol_set: str, *, mono: bool) -> Strokes:
    """Invent the pen: marks, arrows and joining lines."""
    one_ink = mono or rng.random() < 0.2
    hand = rng.random() < 0.12
    centred = symbol_set == "leaflet-de"
    width = float(rng.uniform(0.4, 1.2) if rng.random() < 0.5 else rng.uniform(0.8, 2.5))
    reds = ((0.85, 0.1, 0.1), (1.0, 0.0, 0.0), (0.7, 0.05, 0.1), (0.9, 0.25, 0.2), (0.8, 0.0, 0.3), (1.0, 0.3, 0.3))
    blues = ((0.1, 0.2, 0.8), (0.0, 0.0, 1.0), (0.0, 0.3, 0.6), (0.25, 0.35, 0.75), (0.1, 0.1, 0.5), (0.2, 0.5, 0.9))
    bone = Rule(width * 0.6, dash=pick(rng, DASHES))
    return Strokes(
        height_db=float(rng.uniform(5, 14) if rng.random() < 0.3 else rng.uniform(6.5, 10)),
        width=width,
        process=pick(rng, ("stroke", "outline", "font", "polygon"), (0.5, 0.2, 0.2, 0.1)),
        mark_face=fonts.load(pick(rng, MARK_FACES)),
        round_corners=bool(rng.random() < 0.5),
        white_inside=bool(rng.random() < 0.3),
        red=pick(rng, reds),
        blue=pick(rng, blues),
        neutral=grey(rng, 0.0, 0.25) if rng.random() < 0.5 else BLACK,
        one_ink=one_ink,
        beside=float(rng.uniform(0.08, 0.3)) * (not centred),
        shape=Shape(
            angle=float(rng.uniform(0.35, 0.75)),
            bracket=float(rng.uniform(0.22, 0.5)),
            cross=float(rng.uniform(0.75, 1.1)),
            triangle=float(rng.uniform(0.9, 1.2)),
            square=float(rng.uniform(0.85, 1.0)),
            foot=float(rng.uniform(0.4, 0.8)),
            half_filled=bool(rng.random() < 0.3),
            wedges_upright=bool(rng.random() < 0.5),
            sides=int(pick(rng, (12, 16, 24, 40))),
        ),
        wobble_db=float(rng.uniform(0.3, 0.9)) if hand else 0.0,
        arrow_head=pick(rng, ("open", "filled", "half"), (0.5, 0.35, 0.15)),
        arrow_length=float(rng.uniform(0.7, 1.5)),
        arrow_slant=float(rng.uniform(0.5, 1.4)),
        join=_join(rng, float(np.clip(width * rng.uniform(0.5, 1.1), 0.4, 1.8))),
        bone_join=pick(rng, ((None, None), (bone, bone)), (0.75, 0.25)),
        join_stops=bool(rng.random() < 0.25),
        join_over=bool(rng.random() < 0.3),
    )


def any_look(rng: np.random.Generator, scale: Scale, *, size: float, mono: bool, symbol_set: str | None = None) -> Look:
    """Invent a whole look for a chart of this scale; ``size`` is the size of its labels in points."""
    chosen = symbol_set or pick(rng, SETS, (0.5, 0.2, 0.1, 0.1, 0.1))
    return Look(chosen, any_lettering(rng, size), any_ruling(rng, scale), any_strokes(rng, chosen, mono=mono))
