"""What noise over years is expected to add to the thresholds of a group: ISO 1999:2013, asked for and never guessed.

The standard describes groups. It does not say what one ear lost to noise.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from functools import cache
from statistics import NormalDist

from ...finding import Finding
from ...settings import Case
from ...tables import published
from . import ageing

EDITION = "ISO 1999:2013"
MOST_YEARS, MOST_DBA = 40, 100
COMPRESSED_ABOVE_DB = 40
_FULL_FORMULA_YEARS = 10
_FRACTILES = (("tenth", 0.1), ("median", 0.5), ("ninetieth", 0.9))


def is_within(level_dba: float, years: float) -> bool:
    """Tell whether the standard covers this exposure: up to 100 dB(A) over 8 h, up to 40 years."""
    return 0 < years <= MOST_YEARS and level_dba <= MOST_DBA


def noise_shift(hz: float, level_dba: float, years: float, share: float = 0.5) -> float:
    """Give the permanent shift by noise alone that this share of the exposed group does not exceed.

    Parameters
    ----------
    hz : float
        500, 1000, 2000, 3000, 4000 or 6000.
    level_dba : float
        Daily noise exposure level, dB(A) over 8 h.
    years : float
        Duration of the exposure.
    share : float
        0.05 to 0.95; 0.9 is the worst tenth.

    Returns
    -------
    float
        dB, never below 0.

    Notes
    -----
    N50 = (u + v*lg t)*(L - L0)^2 for 10 years and more, N50(10)*lg(t + 1)/lg 11 for less; the spreads likewise are
    (X + Y*lg t)*(L - L0)^2 [1]_. Below 10 years the spreads of 10 years are taken, scaled as the median is.

    References
    ----------
    .. [1] ISO 1999:2013, 6.3, tables 1 and 3.
    """
    row = _coefficients()[hz]
    over = max(level_dba - row["L0_db"], 0.0) ** 2
    log_years = math.log10(max(years, _FULL_FORMULA_YEARS))
    scale = math.log10(years + 1) / math.log10(_FULL_FORMULA_YEARS + 1) if years < _FULL_FORMULA_YEARS else 1.0
    z = NormalDist().inv_cdf(share)
    side = ("Xu", "Yu") if z >= 0 else ("Xl", "Yl")
    median = (row["u"] + row["v"] * log_years) * over
    spread = (row[side[0]] + row[side[1]] * log_years) * over
    return max((median + z * spread) * scale, 0.0)


def with_age(age_db: float, noise_db: float) -> float:
    """Give age and noise together at one fractile, dB: their sum less H*N/120 where the sum exceeds 40 dB.

    Notes
    -----
    ISO 1999:2013, 6.1; the term matters, and is used, only where H + N is more than about 40 dB.
    """
    together = age_db + noise_db
    return together - age_db * noise_db / 120 if together > COMPRESSED_ABOVE_DB else together


def conclude(case: Case) -> Iterator[Finding]:
    """Give the expectation of ISO 1999 at each of its frequencies, where an exposure was asked about.

    Yields
    ------
    Finding
        ``noise-expectation``: the number is the median shift by noise alone, dB; beside it the best and worst tenth,
        and where age and sex are known the three fractiles of age and noise together. Without a number where the
        exposure lies outside the standard.
    """
    noise = case.settings.noise
    if noise is None:
        return
    if not is_within(noise.level_dba, noise.years):
        yield Finding("noise-expectation", f"{EDITION}: outside its range, 100 dB(A) and 40 years at most")
        return
    for hz in _coefficients():
        alone = {name: noise_shift(hz, noise.level_dba, noise.years, share) for name, share in _FRACTILES}
        numbers = [(f"noise_{name}_db", alone[name]) for name, _ in _FRACTILES]
        spread = None
        if case.settings.sex is not None and case.age_years is not None:
            spread = ageing.expected(case.settings.sex, case.age_years, hz)
        if spread is not None:
            numbers += [
                (f"age_and_noise_{name}_db_hl", with_age(spread.fractile(share), alone[name]))
                for name, share in _FRACTILES
            ]
        yield Finding(
            "noise-expectation", EDITION if spread is None else f"{EDITION} with {ageing.EDITION}", ear="both",
            conduction="air", frequency_hz=hz, number=alone["median"], unit="dB", low=alone["tenth"],
            high=alone["ninetieth"], numbers=tuple(numbers),
        )  # fmt: skip


@cache
def _coefficients() -> dict[float, dict[str, float]]:
    return {
        float(row["freq_hz"]): {name: float(value) for name, value in row.items() if name != "freq_hz"}
        for row in published("iso1999_2013_coefficients.csv")
    }
