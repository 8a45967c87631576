"""Series of marks for freely drawn charts: which glyphs, in which ink and style, at which levels."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from ....interpret.symbols import Glyph, Ink
from ..chart.axes import INTER_OCTAVES, Axes
from ..chart.chance import DASHES, pick
from ..pen import Colour
from .mark import ArrowStyle, any_arrow
from .palette import Inks, lighter
from .style import MarkStyle, any_style

ODDS: dict[Glyph, float] = {
    "circle": 0.5,
    "cross": 0.5,
    "triangle": 0.7,
    "square": 0.7,
    "circle-filled": 2.3,
    "cross-filled": 2.2,
    "triangle-filled": 3.8,
    "square-filled": 3.1,
    "angle-left": 1.0,
    "angle-right": 1.0,
    "bracket-left": 0.8,
    "bracket-right": 0.8,
    "caret": 2.1,
    "vee": 2.2,
    "half-bracket-right": 2.6,
    "half-bracket-left": 2.2,
    "letter-s": 2.0,
    "letter-a": 1.8,
    "letter-m": 1.5,
    "letter-u": 1.5,
    "foot-right": 2.0,
    "foot-left": 2.4,
}
"""How often a series has a glyph: those that are rare on real forms stand here more often than the common ones."""
_LEFT: frozenset[Glyph] = frozenset({"angle-left", "bracket-left", "half-bracket-right"})
_RIGHT: frozenset[Glyph] = frozenset({"angle-right", "bracket-right", "half-bracket-left"})
COMMON: frozenset[Glyph] = frozenset(
    {"circle", "cross", "triangle", "square", "angle-left", "angle-right", "bracket-left", "bracket-right"}
)
_LETTERS: frozenset[Glyph] = frozenset({"letter-s", "letter-a", "letter-m", "letter-u"})


@dataclass(frozen=True, slots=True)
class Dials:
    """What a kind of freely drawn page has more or less of: odds from 0 to 1, but for the range of ``series``."""

    series: tuple[int, int] = (2, 6)
    together: float = 0.4
    letters: float = 0.3
    notes: float = 0.25
    legend: float = 0.25
    second_test: float = 0.1
    heavy: float = 0.3
    common: bool = False
    """Only the glyphs that most forms have."""


@dataclass(frozen=True, slots=True)
class Series:
    """Marks of one glyph, (Hz, dB HL) each; ``join`` is the width of their joining line (0: none)."""

    glyph: Glyph
    ink: Ink
    colour: Colour
    style: MarkStyle
    levels: tuple[tuple[float, float], ...]
    beside: float
    join: float
    dash: tuple[float, ...]
    arrow: ArrowStyle
    unheard: float
    side: int


def _levels(rng: np.random.Generator, axes: Axes, step: int) -> dict[float, float]:
    low, high = axes.scale.levels
    frequencies = set(axes.scale.printed)
    if axes.scale.spacing == "log":
        frequencies |= {hz for hz in INTER_OCTAVES if axes.scale.printed[0] < hz < axes.scale.printed[-1]}
    level = float(rng.uniform(low, high - 10))
    drift, levels = float(rng.uniform(-4, 12)), {}
    for hz in sorted(frequencies):
        level += float(rng.normal(drift, 9))
        if not low <= level <= high:
            # turned back at the edges: marks would pile up there
            level, drift = float(rng.uniform(low, high)), -drift
        levels[hz] = float(np.clip(step * round(level / step), low, high))
    return levels


def _glyphs(rng: np.random.Generator, count: int, *, letters: bool, common: bool) -> list[Glyph]:
    options: list[Glyph] = [
        glyph for glyph in ODDS if glyph in COMMON or (not common and (letters or glyph not in _LETTERS))
    ]
    odds = np.array([ODDS[glyph] for glyph in options])
    chosen = rng.choice(len(options), size=min(count, len(options)), replace=False, p=odds / odds.sum())
    return [options[int(k)] for k in chosen]


def any_series(rng: np.random.Generator, axes: Axes, dials: Dials, inks: Inks, *, letters: bool = True) -> list[Series]:
    """Invent the series of a chart; ``letters`` is whether letters may be marks on it."""
    count = int(rng.integers(dials.series[0], dials.series[1] + 1))
    height_db = float(rng.uniform(3, 16)) if rng.random() < 0.5 else float(rng.uniform(4, 10))
    # hair-thin to a third of the mark: evenly on a log scale, whatever the size
    stroke = float(np.exp(rng.uniform(np.log(0.03), np.log(0.33))))
    beside, join = float(pick(rng, (0.0, rng.uniform(0.02, 0.12), rng.uniform(0.08, 0.35)))), rng.random() < 0.7
    joint_width = float(rng.uniform(0.3, 1.3) if rng.random() < 0.6 else rng.uniform(1, 3))
    arrow_share = float(pick(rng, (0.0, 0.1, 0.45)))
    step = int(pick(rng, (5, 1, 2), (0.88, 0.08, 0.04)))
    found: list[Series] = []
    earlier: list[dict[float, float]] = []
    every_letter = rng.random() < dials.letters
    for number, glyph in enumerate(_glyphs(rng, count, letters=letters, common=dials.common)):
        levels = _levels(rng, axes, step)
        if earlier and rng.random() < dials.together:
            shared = earlier[int(rng.integers(len(earlier)))]
            same = float(rng.uniform(0.3, 1.0))
            levels = {hz: shared[hz] if rng.random() < same else own for hz, own in levels.items()}
        earlier.append(levels)
        side = 0 if glyph in _LEFT else 1 if glyph in _RIGHT else int(rng.integers(0, 2))
        side = int(rng.integers(0, 3)) if rng.random() < 0.2 else side
        ink, colour = inks.of(side)
        height = max(axes.db_pt * float(np.clip(height_db * rng.uniform(0.75, 1.3), 3, 16)), 2.2)
        share = float(np.clip(stroke * rng.uniform(0.75, 1.3), 0.15 / height, 0.333))
        style = any_style(rng, glyph, height, share, letters=0.9 if every_letter else 0.08)
        shift = beside * (-1 if glyph in _LEFT else 1 if glyph in _RIGHT else 0)
        kept = tuple((hz, level) for hz, level in levels.items() if rng.random() < 0.72)
        found.append(
            Series(
                glyph,
                ink,
                colour,
                style,
                kept,
                shift + (float(rng.uniform(-0.2, 0.2)) if rng.random() < 0.1 else 0.0),
                min(joint_width, 0.35 * height) if join and (number < 2 or rng.random() < 0.25) else 0.0,
                pick(rng, ((), *DASHES), (6, 1, 1, 1, 1, 1, 1)),
                any_arrow(rng, height),
                arrow_share,
                side,
            )
        )
    return found


def second_test(rng: np.random.Generator, series: Sequence[Series], axes: Axes) -> list[Series]:
    """Give the same series at other levels in a lighter ink, as a test of another date on the same chart."""
    share, again = float(rng.uniform(0.25, 0.5)), []
    for one in series:
        levels = _levels(rng, axes, 5)
        kept = tuple((hz, level) for hz, level in levels.items() if rng.random() < 0.7)
        again.append(
            Series(
                one.glyph,
                one.ink,
                lighter(one.colour, share),
                one.style,
                kept,
                one.beside,
                one.join,
                pick(rng, ((), (3, 2), (1, 2))),
                one.arrow,
                one.unheard,
                one.side,
            )
        )
    return again
