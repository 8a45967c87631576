"""The air-bone gap at each frequency, as far as masking and the devices' limits let it be known."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from ...record import Ear, Threshold
from ..doubt import NO_LIMIT, Level, Row, Span, row_of
from ..truth import as_read
from .masking import OTHER, Due, shadows, unmasked_bone

Reason = Literal["no-bone", "masking", "limit"]
"""Why a gap cannot be told: no bone threshold, masking not shown, not heard at a device's limit."""

SMALL_GAP_DB = 10
"""A gap of this or less is none (a textbook chapter on audiologic evaluation); a larger one with unmasked bone may be
the other ear's bone."""

FELT_DB = {250: 40, 500: 60, 1000: 70}
"""From these levels on a vibrator behind the ear may be felt and not heard (ISO 8253-1:2010, 8.4)."""


@dataclass(frozen=True, slots=True)
class Gap:
    """Air and bone of one ear at one frequency.

    Attributes
    ----------
    frequency_hz : float
        Hz.
    air : Level
        The air threshold.
    bone : Level or None
        The bone threshold taken, None where there is none.
    air_read, bone_read : Span
        What each may be as the values read: open above where nothing was heard or masking is not shown.
    air_full, bone_full : Span
        The same with the doubt of values to look at.
    reasons : tuple of str
        What leaves the gap open.
    may_be_felt : bool
        The bone threshold is so loud that it may have been felt: a gap here is no proof.
    ask : bool
        A value to look at decides: air, bone, or the other ear's where masking is judged by it.
    """

    frequency_hz: float
    air: Level
    bone: Level | None
    air_read: Span
    bone_read: Span
    air_full: Span
    bone_full: Span
    reasons: tuple[Reason, ...]
    may_be_felt: bool
    ask: bool

    @property
    def db(self) -> float | None:
        """The gap as the marks stand, dB; None without bone."""
        return None if self.bone is None else self.air.db_hl - self.bone.db_hl


def gaps(thresholds: tuple[Threshold, ...], ear: Ear, due: tuple[Due, ...]) -> tuple[Gap, ...]:
    """Give air and bone of one ear at every frequency that has an air threshold.

    Parameters
    ----------
    thresholds : tuple of Threshold
        All values of one audiogram.
    ear : {"right", "left"}
        Whose gaps.
    due : tuple of Due
        Where masking is due and not shown (``masking.masking_due``).

    Notes
    -----
    Unmasked bone may be the other ear's answer, so that the true one is this or worse; where it leaves no gap over 10
    dB that makes no difference. It belongs to this ear where the other ear's masked bone is worse by 10 dB or more
    (common practice). An air threshold that may be the other ear's answer is this or worse, too.
    """
    air, masked = row_of(thresholds, ear), row_of(thresholds, ear, "bone", masked=True)
    other_masked, unmasked = row_of(thresholds, OTHER[ear], "bone", masked=True), unmasked_bone(thresholds)
    shadowed = shadows(due, ear)
    found: list[Gap] = []
    for hz, level in air.items():
        bone = masked.get(hz) or unmasked.get(hz)
        shadow = shadowed.get(hz)
        air_read, air_full = as_read(level), level.span
        reasons: list[Reason] = []
        if shadow is not None and shadow.truth.possibly:
            air_read = Span(air_read.low, NO_LIMIT)
            reasons.append("masking")
        if shadow is not None and shadow.doubted.possibly:
            air_full = Span(air_full.low, NO_LIMIT)
        bone_read, bone_full, why = _bone(hz, level, bone, masked, other_masked)
        felt = bone is not None and bone.response and bone.db_hl >= FELT_DB.get(int(hz), NO_LIMIT)
        other = other_masked.get(hz)
        ask = any(one is not None and one.ask for one in (level, bone, shadow, other))
        reasons += why
        if not level.response:
            reasons.append("limit")
        found.append(
            Gap(hz, level, bone, air_read, bone_read, air_full, bone_full, tuple(dict.fromkeys(reasons)), felt, ask)
        )
    return tuple(found)


def _bone(
    hz: float, air: Level, bone: Level | None, masked: Row, other_masked: Row
) -> tuple[Span, Span, tuple[Reason, ...]]:
    """Give what this ear's bone may be, as it reads and in full, and what leaves it open."""
    if bone is None:
        return Span(-NO_LIMIT, NO_LIMIT), Span(-NO_LIMIT, NO_LIMIT), ("no-bone",)
    read, full = as_read(bone), bone.span
    if not bone.response:
        return read, full, ("limit",)
    placed, surely_placed = _is_placed(hz, bone, masked, other_masked)
    if not surely_placed and air.span.high - full.low > SMALL_GAP_DB:
        full = Span(full.low, NO_LIMIT)
    if placed or air.db_hl - bone.db_hl <= SMALL_GAP_DB:
        return read, full, ()
    return Span(read.low, NO_LIMIT), full, ("masking",)


def _is_placed(hz: float, bone: Level, masked: Row, other_masked: Row) -> tuple[bool, bool]:
    """Tell whether the bone threshold is known to be this ear's: as the values read, and whatever their doubt."""
    if hz in masked:
        return True, True
    other = other_masked.get(hz)
    if other is None:
        return False, False
    return other.db_hl - bone.db_hl >= SMALL_GAP_DB, other.span.low - bone.span.high >= SMALL_GAP_DB
