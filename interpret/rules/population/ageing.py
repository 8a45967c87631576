"""Where a threshold stands among people of the same age and sex without other known causes: ISO 7029:2017.

The standard describes groups. It does not say what one ear lost to age.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from statistics import NormalDist

from ...finding import Finding, standing_of
from ...record import Ear
from ...settings import Case, Sex
from ...tables import published
from ..degree import EARS
from ..doubt import NO_LIMIT, Row, row_of

EDITION = "ISO 7029:2017"
YOUNGEST_YEARS, OLDEST_YEARS = 18, 80
OLDEST_ABOVE_2_KHZ_YEARS = 70
"""Beyond this the standard's values at 3 to 8 kHz are informative only."""

_NORMAL = NormalDist()


@dataclass(frozen=True, slots=True)
class Spread:
    """How thresholds of a group lie: the median and the two half-spreads, dB relative to the median at 18 years."""

    median_db: float
    worse_db: float
    better_db: float

    def fractile(self, share: float) -> float:
        """Give the level that this share (0 to 1) of the group does not exceed, dB."""
        z = _NORMAL.inv_cdf(share)
        return self.median_db + z * (self.worse_db if z >= 0 else self.better_db)

    def share_not_worse(self, level_db: float) -> float:
        """Give the share (0 to 1) of the group whose threshold is this level or better."""
        if level_db == NO_LIMIT:
            return 1.0
        off = level_db - self.median_db
        return _NORMAL.cdf(off / (self.worse_db if off >= 0 else self.better_db))


def expected(sex: Sex, age_years: float, hz: float) -> Spread | None:
    """Give the distribution of thresholds for an age and sex.

    Parameters
    ----------
    sex : {"female", "male"}
        As the standard's tables have it.
    age_years : float
        18 to 80.
    hz : float
        125 to 8000, one of the standard's 11 frequencies.

    Returns
    -------
    Spread or None
        None outside the standard's ages or frequencies.

    Notes
    -----
    Median a*(age-18)^b; the half-spreads are polynomials of degree 5 in (age-18) [1]_.

    References
    ----------
    .. [1] ISO 7029:2017, tables 1 to 5.
    """
    row = _coefficients().get((sex, hz))
    if row is None or not YOUNGEST_YEARS <= age_years <= OLDEST_YEARS:
        return None
    since = age_years - YOUNGEST_YEARS
    worse, better = (sum(row[f"{side}_c{power}"] * since**power for power in range(6)) for side in ("su", "sl"))
    return Spread(row["a"] * since ** row["b"], worse, better)


def is_informative(age_years: float, hz: float) -> bool:
    """Tell whether the standard gives its values for this age and frequency for information only."""
    return age_years > OLDEST_ABOVE_2_KHZ_YEARS and hz >= 3000


def percentiles(row: Row, ear: Ear, sex: Sex, age_years: float) -> Iterator[Finding]:
    """Give the percentile of every air threshold of one ear.

    Yields
    ------
    Finding
        ``age-percentile``: the number is the percentage of people of that age and sex whose threshold is this one or
        better; the level is taken as relative to 0 dB HL, the median of otologically normal people of 18 years.
    """
    for hz, level in row.items():
        spread = expected(sex, age_years, hz)
        if spread is None:
            continue
        informative = ", informative only above 70 years" if is_informative(age_years, hz) else ""
        rests_on = (hz,) if level.ask else ()
        yield Finding(
            "age-percentile", f"{EDITION}{informative}", ear=ear, conduction="air", frequency_hz=hz,
            word=None, number=100 * spread.share_not_worse(level.db_hl), unit="percentile",
            low=100 * spread.share_not_worse(level.span.low), high=100 * spread.share_not_worse(level.span.high),
            numbers=(
                ("level_db_hl", level.db_hl), ("median_db_hl", spread.median_db),
                ("tenth_db_hl", spread.fractile(0.1)), ("ninetieth_db_hl", spread.fractile(0.9)),
            ),
            at_least=not level.response, standing=standing_of(rests_on), rests_on=rests_on,
            no_response_hz=() if level.response else (hz,),
        )  # fmt: skip


def conclude(case: Case) -> Iterator[Finding]:
    """Give the percentiles where age and sex are known."""
    sex = case.settings.sex
    if sex is None or case.age_years is None:
        return
    for ear in EARS:
        yield from percentiles(row_of(case.audiogram.thresholds, ear), ear, sex, case.age_years)


@cache
def _coefficients() -> dict[tuple[str, float], dict[str, float]]:
    return {
        (row["sex"], float(row["freq_hz"])): {
            name: float(value) for name, value in row.items() if name not in ("sex", "freq_hz")
        }
        for row in published("iso7029_2017_coefficients.csv")
    }
