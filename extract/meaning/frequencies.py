"""Give each mark its frequency and step: by nearness, by the common distance beside the line, by the hand's habit."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

import numpy as np

from ...interpret.symbols import Glyph
from ..chart import FrequencyScale, Mark, MeasuredChart
from ..eyes.words.numbers import STANDARD_HZ
from .doubts.steps import FINE_STEP_DB, LEAST_MACHINE_MISS_DB, most_by_machine_db, on_fine_steps
from .nearby import ACCEPT

LEFT_OF_LINE: frozenset[Glyph] = frozenset({"angle-left", "bracket-left", "half-bracket-right"})
RIGHT_OF_LINE: frozenset[Glyph] = frozenset({"angle-right", "bracket-right", "half-bracket-left"})
HALF_WAY = {187.5: (125, 250), 375.0: (250, 500), 750.0: (500, 1000), 1500.0: (1000, 2000), 3000.0: (2000, 4000),
            6000.0: (4000, 8000), 12000.0: (8000, 16000)}  # fmt: skip
COMMON = frozenset({250.0, 500.0, 1000.0, 2000.0, 4000.0})
SELDOM = frozenset(
    {187.5, 375.0, 5000.0, 9000.0, 10000.0, 11200.0, 12000.0, 12500.0, 14000.0, 16000.0, 18000.0, 20000.0}
)
"""Frequencies that count only where the chart prints them: marks there are rare, and near neighbours mislead."""
NEAR_TWINS = {12000.0: 12500.0, 12500.0: 12000.0}
"""Frequencies whose labels look alike: a mark between the two may be of either, whichever was read."""
COLUMNS_HZ = tuple(hz for hz in STANDARD_HZ if hz not in SELDOM)
"""The frequencies that forms have columns for [common practice]."""


@dataclass(frozen=True, slots=True)
class Placed:
    """A mark's frequency, how far it stands from that frequency's place in octaves, and how near the next one is.

    ``margin`` is the distance to the second-best frequency over the distance to the best and second together, 0.5
    where both are equally near and 1 where the mark stands exactly.
    """

    frequency_hz: float
    miss_octaves: float
    margin: float


STEP_DB = 5.0
SURE_LEVEL_MISS_DB = 1.6
SURE_FREQUENCY_MISS = 0.09
"""How far from its step (dB) and its frequency (octaves) a mark may stand and be sure. Of 724 values of 5,600 painted
pages that miss their place by 0.075 and more, and have no other near, none is of another frequency."""
HAND_LEVEL_MISS_DB = 2.2
LOOSE_LEVEL_MISS_DB = 2.0
HAND_FREQUENCY_MISS = 0.1
"""The same for a hand, and for a looser one: hand-drawn marks miss their step by about 1 dB, at times by 2, and are
placed to some 0.2 dB; past 2.5 dB nobody can tell [common practice]."""
LEAST_OF_HAND_DB = 0.3
MOST_OF_HAND_DB = 1.1
"""A hand's misses: their median at least (machines set marks closer), and their root mean square at most: beyond it the
hand is too loose to tell steps."""
NO_STEPS_DB = 1.3
"""Marks that miss their steps by so much (root mean square) know of no steps: places by chance miss them by 1.44 dB. Of
313 painted photos of charts by hand 7 do, all with wrong levels: their grid leans and was not found; of 592 scans 4."""
FEWEST_OF_HAND = 8

SetBy = Literal["unknown", "machine", "hand", "loose-hand"]


@dataclass(frozen=True, slots=True)
class Habit:
    """How the marks of a chart were set.

    ``shift_db`` is how far all stand off their steps together (0 where they do not agree). ``set_by`` says by what they
    miss their steps: as machines do, as a steady or a looser hand, or that they are too few to tell. ``no_steps`` says
    that they miss them as places by chance would; ``fine``, that the test went by steps of 1 or 2 dB. ``usual_miss_db``
    is the median of the misses. ``exact`` says that a machine's own paths set the marks exactly on their frequencies'
    lines, and ``between`` that it set them between steps and what their steps are is open (see ``doubts.plotted``).
    """

    shift_db: float
    set_by: SetBy
    no_steps: bool = False
    fine: bool = False
    usual_miss_db: float = SURE_LEVEL_MISS_DB
    exact: bool = False
    between: bool = False

    @staticmethod
    def of(levels: list[float]) -> Habit:
        """Find the habit of marks at these levels, dB HL before rounding, whatever their frequencies."""
        if not levels:
            return Habit(0.0, "unknown")
        shift = _common_shift_db(levels)
        misses = np.array([_miss_db(v, shift) for v in levels])
        usual, middle = math.sqrt(float(np.mean(misses**2))), float(np.median(misses))
        set_by: SetBy = "hand" if usual <= MOST_OF_HAND_DB else "loose-hand"
        if len(levels) < FEWEST_OF_HAND:
            set_by = "unknown"
        elif middle < LEAST_OF_HAND_DB:
            set_by = "machine"
        no_steps = set_by in ("hand", "loose-hand") and usual >= NO_STEPS_DB
        fine = on_fine_steps(np.array(levels) - shift, misses, like_hand=set_by == "hand")
        return Habit(shift, set_by, no_steps, fine, middle)

    @property
    def by_hand(self) -> bool:
        """Whether a steady hand set them."""
        return self.set_by == "hand"

    @property
    def finer(self) -> bool:
        """Whether the test went by steps finer than 5 dB, known or not."""
        return self.fine or self.between

    def step_of(self, level_db: float) -> float:
        """Give the step that a level belongs to."""
        step = FINE_STEP_DB if self.fine else STEP_DB
        return step * round((level_db - self.shift_db) / step)

    def miss_db(self, level_db: float) -> float:
        """Give how far a level is from its step."""
        return _miss_db(level_db, self.shift_db, FINE_STEP_DB if self.fine and self.exact else STEP_DB)

    @property
    def sure_level_miss_db(self) -> float:
        """How far from its step a mark may stand and be sure."""
        if self.set_by == "loose-hand":
            return LOOSE_LEVEL_MISS_DB
        if self.exact:
            return LEAST_MACHINE_MISS_DB
        return HAND_LEVEL_MISS_DB if self.by_hand else min(SURE_LEVEL_MISS_DB, most_by_machine_db(self.usual_miss_db))

    @property
    def sure_frequency_miss(self) -> float:
        """How far from its frequency's place a mark may stand and be sure, in octaves."""
        return HAND_FREQUENCY_MISS if self.by_hand else SURE_FREQUENCY_MISS


def _miss_db(level_db: float, shift_db: float, step_db: float = STEP_DB) -> float:
    off = level_db - shift_db
    return abs(off - step_db * round(off / step_db))


def _common_shift_db(levels: list[float]) -> float:
    """Find by how much all marks stand off their 5-dB steps together (0 where they do not agree)."""
    if len(levels) < 5:
        return 0.0
    turns = np.exp(2j * np.pi * np.array(levels) / STEP_DB)
    mean = turns.mean()
    if abs(mean) < 0.8:
        return 0.0
    return float(np.angle(mean) / (2 * np.pi) * STEP_DB)


@lru_cache(maxsize=64)
def places_of(scale: FrequencyScale) -> tuple[tuple[float, float], ...]:
    """List every frequency with each place where it may stand, in chart pixels; some have two (true and half way)."""
    printed = dict(scale.anchors)
    low, high = min(printed), max(printed)
    places = [(hz, x) for hz, x in scale.anchors]
    for hz, twin in NEAR_TWINS.items():
        if twin in printed and hz not in printed:
            places.append((hz, scale.x_of(hz)))
    for hz in COLUMNS_HZ:
        if hz in printed:
            continue
        if low / 2.1 <= hz <= high * 2.1:
            places.append((hz, scale.x_of(hz)))
        neighbours = HALF_WAY.get(hz)
        if neighbours and all(n in printed for n in neighbours):
            places.append((hz, (printed[neighbours[0]] + printed[neighbours[1]]) / 2))
    return tuple(sorted(places, key=lambda place: place[1]))


def by_hand(chart: MeasuredChart) -> bool:
    """Say whether a chart was filled in by hand, by where its marks stand."""
    return Habit.of([m.level_db_hl for m in chart.marks if m.sight.score >= ACCEPT]).by_hand


def side_of(glyph: Glyph) -> int:
    """Give -1 for a glyph that may stand left of its line, 1 for one right of it, else 0."""
    return -1 if glyph in LEFT_OF_LINE else 1 if glyph in RIGHT_OF_LINE else 0


def place(mark: Mark, scale: FrequencyScale, beside_px: float) -> Placed:
    """Give a mark the nearest frequency, where marks of its shape stand so far beside their lines."""
    x = mark.x - side_of(mark.sight.glyph) * beside_px
    nearest: dict[float, float] = {}
    for hz, at in places_of(scale):
        nearest[hz] = min(nearest.get(hz, math.inf), abs(x - at))
    ranked = sorted(nearest.items(), key=lambda item: item[1])
    (hz, miss), (_, second) = ranked[0], ranked[1]
    return Placed(hz, miss / scale.octave_px, second / max(miss + second, 1e-9))
