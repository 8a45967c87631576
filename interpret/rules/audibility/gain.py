"""What a published rule would give a hearing aid as its first gain: an indication, no fitting."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from ...finding import Finding, standing_of
from ...settings import Case
from ..degree import EARS, NORMAL_LIMITS
from ..doubt import Span, row_of
from ..gap.air_bone_gap import gaps
from ..gap.loss_type import CONDUCTIVE, GAP_RULES, MIXED, loss_type
from ..gap.masking import attenuation_of, masking_due

RULE = "NAL-R, Byrne and Dillon 1986"
NOT_FOR_CONDUCTIVE = "not for conductive parts"
K_DB: Mapping[float, float] = {250: -17, 500: -8, 1000: 1, 2000: -1, 3000: -2, 4000: -2, 6000: -2}
_MEAN_HZ = (500.0, 1000.0, 2000.0)
_SEVERE_SUM_DB = 180


def nal_r_gain(hz: float, level_db_hl: float, three_sum_db: float) -> float:
    """Give the insertion gain at one frequency, dB.

    Parameters
    ----------
    hz : float
        One of ``K_DB``.
    level_db_hl : float
        The air threshold there, dB HL.
    three_sum_db : float
        The sum of the thresholds at 500, 1000 and 2000 Hz, dB HL.

    Notes
    -----
    X + 0.31*H + k with X = 0.05*sum, or 9 + 0.116*(sum - 180) above 180 dB; a negative gain is 0. Byrne and Dillon
    1986, as in a public reference implementation; k at 3 kHz from another public one.
    """
    severe = three_sum_db > _SEVERE_SUM_DB
    x = 9 + 0.116 * (three_sum_db - _SEVERE_SUM_DB) if severe else 0.05 * three_sum_db
    return max(x + 0.31 * level_db_hl + K_DB[hz], 0.0)


def conclude(case: Case) -> Iterator[Finding]:
    """Give ``gain-indication`` for every frequency of an ear that is beyond normal limits.

    Yields
    ------
    Finding
        The number is the insertion gain, dB. One finding without a number where the loss is known to have a conductive
        part: the rule is not made for it. None for an ear within normal limits, or whose 0.5, 1 and 2 kHz are not all
        known and heard.
    """
    normal_db = NORMAL_LIMITS[case.normal].db_hl
    due = None
    for ear in EARS:
        row = row_of(case.audiogram.thresholds, ear)
        heard = {hz: level for hz, level in row.items() if level.response}
        if any(hz not in heard for hz in _MEAN_HZ) or all(heard[hz].db_hl <= normal_db for hz in K_DB if hz in heard):
            continue
        if due is None:
            due = masking_due(case.audiogram.thresholds, attenuation_of(case.report.transducer))
        kind = loss_type(gaps(case.audiogram.thresholds, ear, due), GAP_RULES[case.settings.gap_rule], normal_db)
        if kind is not None and kind.word in (CONDUCTIVE, MIXED):
            yield Finding(
                "gain-indication", RULE, ear=ear, word=NOT_FOR_CONDUCTIVE, standing=standing_of(kind.ask_hz),
                rests_on=kind.ask_hz,
            )  # fmt: skip
            continue
        three = Span(sum(heard[hz].span.low for hz in _MEAN_HZ), sum(heard[hz].span.high for hz in _MEAN_HZ))
        asked_three = tuple(hz for hz in _MEAN_HZ if heard[hz].ask)
        for hz in (hz for hz in K_DB if hz in heard):
            level = heard[hz]
            rests_on = tuple(sorted({*asked_three, *((hz,) if level.ask else ())}))
            yield Finding(
                "gain-indication", RULE, ear=ear, frequency_hz=hz, unit="dB",
                number=nal_r_gain(hz, level.db_hl, sum(heard[one].db_hl for one in _MEAN_HZ)),
                low=nal_r_gain(hz, level.span.low, three.low), high=nal_r_gain(hz, level.span.high, three.high),
                standing=standing_of(rests_on), rests_on=rests_on,
            )  # fmt: skip
