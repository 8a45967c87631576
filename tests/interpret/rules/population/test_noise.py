"""ISO 1999:2013 against the worked values of its annexes."""

from __future__ import annotations

import pytest
from invented_pages import value

from octavo.interpret.findings import findings
from octavo.interpret.record import Audiogram
from octavo.interpret.rules.population.noise import is_within, noise_shift, with_age
from octavo.interpret.settings import Noise, Settings

EXPOSED = Audiogram("2019-03-14", thresholds=(value("right", 4000, 40),))


# Annex D rounds to whole dB; the second value is the formula worked by hand to 0.1 dB.
@pytest.mark.parametrize(
    ("hz", "level", "years", "share", "printed", "worked"),
    [(4000, 90, 20, 0.5, 13, 12.9), (4000, 90, 20, 0.9, 18, 17.8), (3000, 100, 40, 0.9, 60, 59.8)],
)
def test_the_values_of_annex_d(
    hz: float, level: float, years: float, share: float, printed: int, worked: float
) -> None:
    found = noise_shift(hz, level, years, share)
    assert found == pytest.approx(worked, abs=0.05)
    assert round(found) == printed


def test_the_example_of_annex_c() -> None:
    # Men of 50 years, 90 dB(A), 30 years, worst tenth at 1, 2, 4 kHz: age 14, 21, 36 dB, noise 0, 9, 19 dB; the noise
    # at 4 kHz is compressed to 13.3 dB, since 36 + 19 exceeds 40; the means are 23.7 and 7.4 dB, together 31.1.
    age, noise = (14, 21, 36), (0, 9, 19)
    together = [with_age(h, n) for h, n in zip(age, noise, strict=True)]
    assert together[2] - age[2] == pytest.approx(13.3, abs=0.05)
    assert together[:2] == [14, 30]
    assert sum(age) / 3 == pytest.approx(23.7, abs=0.05)
    assert sum(together) / 3 == pytest.approx(31.1, abs=0.05)


@pytest.mark.parametrize(("hz", "printed"), [(1000, 0), (2000, 9), (4000, 19)])
def test_the_noise_of_annex_c_follows_from_the_tables(hz: float, printed: int) -> None:
    assert round(noise_shift(hz, 90, 30, 0.9)) == printed


def test_below_the_start_of_a_frequency_noise_adds_nothing() -> None:
    assert noise_shift(500, 93, 40, 0.9) == 0


def test_before_ten_years_the_shift_grows_with_the_logarithm_of_years() -> None:
    # N50(t) = N50(10) * lg(t + 1) / lg 11, ISO 1999:2013, 6.3: half of it after 2.317 years.
    assert noise_shift(4000, 95, 11**0.5 - 1) == pytest.approx(noise_shift(4000, 95, 10) / 2)


@pytest.mark.parametrize(("level", "years"), [(101, 10), (90, 41), (90, 0)])
def test_the_standard_ends_at_100_db_and_40_years(level: float, years: float) -> None:
    assert not is_within(level, years)
    found = findings(EXPOSED, Settings(noise=Noise(level, years))).of("noise-expectation")
    assert [one.number for one in found] == [None]


def test_nothing_is_expected_where_no_noise_is_named() -> None:
    assert findings(EXPOSED).of("noise-expectation") == ()


def test_with_age_and_sex_the_expectation_has_both() -> None:
    alone = findings(EXPOSED, Settings(noise=Noise(90, 20))).of("noise-expectation")
    both = findings(EXPOSED, Settings(noise=Noise(90, 20), age_years=60, sex="male")).of("noise-expectation")
    assert [one.frequency_hz for one in alone] == [500, 1000, 2000, 3000, 4000, 6000]
    assert alone[4].named("age_and_noise_median_db_hl") is None
    # Median of age 20.21 dB (ISO 7029:2017) and of noise 12.94 dB do not reach 40 dB: their sum.
    assert both[4].named("age_and_noise_median_db_hl") == pytest.approx(33.15, abs=0.01)
