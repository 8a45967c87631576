"""The configuration of a loss: one word for the shape of the curve, with the numbers that decided."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from itertools import product

from ...finding import Finding, standing_of
from ...record import Ear
from ...settings import Case
from ..degree import EARS, NORMAL_LIMITS, SCHEMES, grade
from ..doubt import ASK_REACH_DB, Row, asking, row_of
from .notch import notches

Levels = Mapping[float, float]
"""dB HL by frequency in Hz; what was not heard stands with the level that was not."""

WORDS = (
    "within normal limits", "flat", "rising", "gently sloping", "steeply sloping", "precipitously sloping", "trough",
    "peaked", "notched", "high-frequency", "corner",
)  # fmt: skip
"""What octavo's own rule can say."""

FLAT_DB_PER_OCTAVE, GENTLE_DB_PER_OCTAVE, STEEP_DB_PER_OCTAVE = 5, 10, 20
"""Up to here flat, gently, steeply sloping (after Carhart 1945; the numbers differ between books [memory])."""

MIDDLE_DB = 20
"""The middle this much worse than both ends is a trough, better a peak (after Carhart 1945 [memory])."""

_OCTAVES_500_TO_4000 = 3
_MOST_COMBINED = 2
_STEPS_DB = (-ASK_REACH_DB, -5.0, 0.0, 5.0, ASK_REACH_DB)


@dataclass(frozen=True, slots=True)
class ShapeRule:
    """One rule for the shape of a curve.

    Attributes
    ----------
    name : str
        Its published name.
    needs : tuple of float
        The frequencies that it cannot do without, Hz.
    words : tuple of str
        All that it can say.
    """

    name: str
    needs: tuple[float, ...]
    words: tuple[str, ...]


OCTAVO_RULE = ShapeRule("slope by octaves, after Carhart 1945", (500, 1000, 2000, 4000), WORDS)
GENES_RULE = ShapeRule(
    "15 dB rules of J Med Genet", (500, 1000, 2000, 4000), ("flat", "sloping", "low-frequency", "U-shaped", "other")
)
GENDEAF_RULE = ShapeRule(
    "GENDEAF 2001",
    (250, 500, 1000, 2000, 4000, 8000),
    ("flat", "low-frequency ascending", "mid-frequency U-shaped", "gently sloping", "steeply sloping", "other"),
)


def shape(levels: Levels, silent: frozenset[float], normal_db: float) -> str:
    """Name the shape of one curve by octavo's rule.

    Parameters
    ----------
    levels : mapping of float to float
        Air thresholds, dB HL by Hz: 500, 1000, 2000 and 4000 Hz at least.
    silent : frozenset of float
        The frequencies at which nothing was heard.
    normal_db : float
        The worst level within normal limits, dB HL.

    Returns
    -------
    str
        One of ``WORDS``, the first that applies in this order: within normal limits; corner (heard at 500 Hz or below
        alone); notched (Wilson and McArdle 2013); high-frequency (normal to 1 kHz, beyond normal above); trough or
        peaked; rising, flat, gently, steeply or precipitously sloping by dB an octave from 500 to 4000 Hz.
    """
    tested = [hz for hz in levels if 250 <= hz <= 8000]
    if all(levels[hz] <= normal_db and hz not in silent for hz in tested):
        return "within normal limits"
    high = [hz for hz in tested if hz >= 1000]
    if all(hz in silent for hz in high) and any(hz not in silent for hz in tested if hz <= 500):
        return "corner"
    if _is_notched(levels, silent):
        return "notched"
    if all(levels[hz] <= normal_db and hz not in silent for hz in tested if hz <= 1000):
        return "high-frequency"
    middle = (levels[1000] + levels[2000]) / 2
    ends = (levels.get(250, levels[500]), levels.get(8000, levels[4000]))
    if all(middle - end >= MIDDLE_DB for end in ends):
        return "trough"
    if all(end - middle >= MIDDLE_DB for end in ends):
        return "peaked"
    slope = slope_db_per_octave(levels)
    if slope < -FLAT_DB_PER_OCTAVE:
        return "rising"
    steps = (
        (FLAT_DB_PER_OCTAVE, "flat"),
        (GENTLE_DB_PER_OCTAVE, "gently sloping"),
        (STEEP_DB_PER_OCTAVE, "steeply sloping"),
    )
    return next((word for edge, word in steps if slope <= edge), "precipitously sloping")


def slope_db_per_octave(levels: Levels) -> float:
    """Give the mean slope from 500 to 4000 Hz, dB an octave, downward as positive."""
    return (levels[4000] - levels[500]) / _OCTAVES_500_TO_4000


def shape_by_15_db(levels: Levels, _silent: frozenset[float], _normal_db: float) -> str:
    """Name the shape by the table of clinical parameters in a J Med Genet paper: 15 dB decide.

    Notes
    -----
    Low-frequency: more than 15 dB worse toward the lows; sloping: more than 15 dB worse from 1 to 4 kHz; U: more than
    15 dB between the worst, in the middle, and both ends; flat: less than 15 dB over 0.5 to 4 kHz.
    """
    four = [levels[hz] for hz in (500.0, 1000.0, 2000.0, 4000.0)]
    worst_middle = max(four[1:3])
    if worst_middle - four[0] > 15 and worst_middle - four[3] > 15:
        return "U-shaped"
    if four[0] - min(four[1:]) > 15 and four[3] - four[1] <= 15:
        return "low-frequency"
    if four[3] - four[1] > 15:
        return "sloping"
    return "flat" if max(four) - min(four) < 15 else "other"


def shape_by_gendeaf(levels: Levels, _silent: frozenset[float], _normal_db: float) -> str:
    """Name the shape by the recommendations of GENDEAF (Stephens 2001) [memory]: means of pairs of octaves."""
    low, mid, high = (
        (levels[one] + levels[other]) / 2 for one, other in ((250.0, 500.0), (1000.0, 2000.0), (4000.0, 8000.0))
    )
    if max(low, mid, high) - min(low, mid, high) < 15:
        return "flat"
    if mid - low > 15 and mid - high > 15:
        return "mid-frequency U-shaped"
    if low - high > 15:
        return "low-frequency ascending"
    fall = high - (levels[500] + levels[1000]) / 2
    if fall >= 30:
        return "steeply sloping"
    return "gently sloping" if fall >= 15 else "other"


_Namer = Callable[[Levels, frozenset[float], float], str]
_RULES: tuple[tuple[ShapeRule, _Namer], ...] = (
    (OCTAVO_RULE, shape), (GENES_RULE, shape_by_15_db), (GENDEAF_RULE, shape_by_gendeaf),
)  # fmt: skip


def configurations(row: Row, ear: Ear, normal_db: float) -> Iterator[Finding]:
    """Name the shape of one ear's air thresholds by every rule, octavo's first.

    Notes
    -----
    Where values are to be looked at, up to two are turned through their whole doubt in 5-dB steps together; with more
    of them the shape could be any.
    """
    levels = {hz: level.db_hl for hz, level in row.items()}
    silent = frozenset(hz for hz, level in row.items() if not level.response)
    asks = asking(row)
    for rule, name in _RULES:
        missing = tuple(hz for hz in rule.needs if hz not in levels)
        if missing:
            yield Finding("configuration", rule.name, ear=ear, missing_hz=missing, standing=standing_of(asks))
            continue
        slope = slope_db_per_octave(levels)
        spans = row[4000].span.minus(row[500].span)
        yield Finding(
            "configuration", rule.name, ear=ear, word=name(levels, silent, normal_db),
            could_be=_could_be(rule, name, levels, silent, asks, normal_db) if asks else (),
            number=slope, unit="dB/octave", low=spans.low / _OCTAVES_500_TO_4000,
            high=spans.high / _OCTAVES_500_TO_4000, standing=standing_of(asks), rests_on=asks,
            no_response_hz=tuple(sorted(silent)),
        )  # fmt: skip


PITCH_BANDS: tuple[tuple[str, tuple[float, ...]], ...] = (
    ("low", (250, 500)), ("middle", (1000, 1500, 2000)), ("high", (3000, 4000, 6000, 8000)),
)  # fmt: skip
"""What is called low, middle and high pitch, Hz (common practice)."""


def pitch_bands(row: Row, ear: Ear, scheme: str) -> Iterator[Finding]:
    """Describe each band of pitch: its least and most level, and the scheme's word for the mean between them.

    Notes
    -----
    A scheme grades its own average; its words for a band of pitch are common practice and no grade of the ear.
    """
    for name, wanted in PITCH_BANDS:
        here = {hz: row[hz] for hz in wanted if hz in row}
        if not here:
            continue
        levels = [level.db_hl for level in here.values()]
        average = sum(levels) / len(levels)
        spans = [level.span for level in here.values()]
        yield Finding(
            f"pitch-{name}", f"words of {SCHEMES[scheme].name}", ear=ear, word=grade(scheme, average),
            number=average, unit="dB HL",
            low=sum(s.low for s in spans) / len(spans), high=sum(s.high for s in spans) / len(spans),
            numbers=(
                ("least_db_hl", min(levels)), ("most_db_hl", max(levels)), ("from_hz", min(here)), ("to_hz", max(here)),
            ),
            at_least=not all(level.response for level in here.values()),
            standing=standing_of(asking(here)), rests_on=asking(here),
            no_response_hz=tuple(hz for hz, level in here.items() if not level.response),
        )  # fmt: skip


def conclude(case: Case) -> Iterator[Finding]:
    """Give the findings on the shape of each ear's curve."""
    normal_db = NORMAL_LIMITS[case.normal].db_hl
    for ear in EARS:
        row = row_of(case.audiogram.thresholds, ear)
        if row:
            yield from configurations(row, ear, normal_db)
            yield from pitch_bands(row, ear, case.settings.scheme)
            yield from notches(row, ear)


def _is_notched(levels: Levels, silent: frozenset[float]) -> bool:
    if 8000 not in levels or 8000 in silent:
        return False
    return any(levels[hz] - levels[2000] >= 10 and levels[hz] - levels[8000] >= 10
               for hz in (3000, 4000, 6000) if hz in levels)  # fmt: skip


def _could_be(
    rule: ShapeRule, name: _Namer, levels: Levels, silent: frozenset[float], asks: tuple[float, ...], normal_db: float
) -> tuple[str, ...]:
    if len(asks) > _MOST_COMBINED:
        return rule.words
    found: set[str] = set()
    for steps in product(_STEPS_DB, repeat=len(asks)):
        moved = dict(levels) | {hz: levels[hz] + step for hz, step in zip(asks, steps, strict=True)}
        found.add(name(moved, silent, normal_db))
    return tuple(word for word in rule.words if word in found) if len(found) > 1 else ()
