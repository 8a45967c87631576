"""The type of a tympanogram from its numbers, and the numbers against published ranges."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from ...finding import Finding
from ...record import Immittance, Standing, Tympanogram
from ...settings import Case

PROBE_HZ = 226.0
"""The types and ranges are those of this probe tone."""


@dataclass(frozen=True, slots=True)
class Norms:
    """Published ranges for one group.

    Attributes
    ----------
    name : str
        Whose, and the source.
    pressure_dapa, admittance_mmho, volume_ml, width_dapa : tuple of float
        The least and the most that is normal.
    """

    name: str
    pressure_dapa: tuple[float, float]
    admittance_mmho: tuple[float, float]
    volume_ml: tuple[float, float]
    width_dapa: tuple[float, float]


# The lower limit of the pressure and the shapes are in textbook chapters (after Jerger 1970; Liden 1969); its upper
# limit and all other ranges [memory]: Margolis and Heller 1987, ASHA 1990.
ADULTS = Norms("Jerger 1970; adults, Margolis and Heller 1987", (-100, 50), (0.3, 1.4), (0.6, 1.5), (51, 114))
CHILDREN = Norms("Jerger 1970; children of 3 to 5 years, ASHA 1990", (-100, 50), (0.22, 0.81), (0.4, 1.0), (59, 151))
_CHILD_BELOW_YEARS = 6.0

FLAT = ("B, normal volume", "B, large volume", "B, small volume", "B, volume not stated")
PEAKED = ("A", "As", "Ad", "A, height not stated", "C", "peak at positive pressure")
TYPES = (*PEAKED, *FLAT)

_SCREENED_BELOW_YEARS = 7.0


def conclude(case: Case) -> Iterator[Finding]:
    """Give the findings on every tympanogram."""
    norms = norms_for(case.age_years)
    for one in case.audiogram.immittance:
        trace = one.tympanogram
        if trace is None or trace.probe_hz != PROBE_HZ:
            continue
        yield from _type_findings(one, trace, norms)
        yield from _number(one, "ear-canal-volume", trace.ear_canal_volume_ml, "mL", norms.volume_ml,
                           ("small", "normal", "large"), norms)  # fmt: skip
        yield from _number(one, "tympanogram-width", trace.width_dapa, "daPa", norms.width_dapa,
                           ("narrow", "normal", "wide"), norms)  # fmt: skip
        yield from _screening(one, trace, case.age_years)


def norms_for(age_years: float | None) -> Norms:
    """Give the ranges for an age; the adults' where it is not known."""
    return CHILDREN if age_years is not None and age_years < _CHILD_BELOW_YEARS else ADULTS


def type_of(trace: Tympanogram, norms: Norms) -> str | None:
    """Name a tympanogram's type; None where its numbers do not tell.

    Notes
    -----
    A flat trace is B, and its volume decides what may lie behind it; a peak below the pressure's range is C; one within
    it A, As (shallow) or Ad (deep) by its height. A peak above the range has no letter.
    """
    if trace.has_peak is False:
        return _flat(trace.ear_canal_volume_ml, norms)
    if trace.peak_pressure_dapa is None:
        return None
    least, most = norms.pressure_dapa
    if trace.peak_pressure_dapa < least:
        return "C"
    if trace.peak_pressure_dapa > most:
        return "peak at positive pressure"
    height = trace.peak_admittance_mmho
    if height is None:
        return "A, height not stated"
    low, high = norms.admittance_mmho
    return "As" if height < low else "Ad" if height > high else "A"


def _flat(volume_ml: float | None, norms: Norms) -> str:
    if volume_ml is None:
        return "B, volume not stated"
    low, high = norms.volume_ml
    return "B, small volume" if volume_ml < low else "B, large volume" if volume_ml > high else "B, normal volume"


def _type_findings(one: Immittance, trace: Tympanogram, norms: Norms) -> Iterator[Finding]:
    word, asks = type_of(trace, norms), one.standing == "ask"
    stated = (
        ("peak_dapa", trace.peak_pressure_dapa), ("peak_mmho", trace.peak_admittance_mmho),
        ("volume_ml", trace.ear_canal_volume_ml), ("width_dapa", trace.width_dapa),
    )  # fmt: skip
    numbers = tuple((name, number) for name, number in stated if number is not None)
    if word is not None:
        yield Finding(
            "tympanogram-type", norms.name, ear=one.ear, word=word, could_be=TYPES if asks else (),
            numbers=numbers, standing=one.standing,
        )  # fmt: skip
    printed = _letters(trace.printed_type)
    if word is not None and printed and printed != _letters(word):
        yield Finding(
            "tympanogram-type-differs", norms.name, ear=one.ear, could_be=(word, f"printed {printed}"),
            numbers=numbers, standing=one.standing,
        )  # fmt: skip


def _letters(text: str | None) -> str:
    """Give the letters of a type as it is printed or named: "Type a(s)" is As, "B, normal volume" is B."""
    plain = "".join(c for c in (text or "").split(",")[0].lower().replace("type", "") if c.isalpha())
    return plain.capitalize() if plain in ("a", "as", "ad", "b", "c") else ""


def _number(
    one: Immittance, code: str, number: float | None, unit: str, normal: tuple[float, float],
    words: tuple[str, str, str], norms: Norms,
) -> Iterator[Finding]:  # fmt: skip
    if number is None:
        return
    word = words[0] if number < normal[0] else words[2] if number > normal[1] else words[1]
    asks = one.standing == "ask"
    yield Finding(
        code, norms.name, ear=one.ear, word=word, could_be=words if asks else (), number=number, unit=unit,
        low=0 if asks else number, high=None if asks else number, standing=one.standing,
    )  # fmt: skip


def _screening(one: Immittance, trace: Tympanogram, age_years: float | None) -> Iterator[Finding]:
    """Judge by the screening criteria for children, where the age is known (ASHA 1997) [memory]."""
    if age_years is None or age_years >= _SCREENED_BELOW_YEARS:
        return
    infant = age_years < 1
    height, width = (0.2, 235.0) if infant else (0.3, 200.0)
    low = trace.peak_admittance_mmho is not None and trace.peak_admittance_mmho < height
    wide = trace.width_dapa is not None and trace.width_dapa > width
    large = trace.has_peak is False and trace.ear_canal_volume_ml is not None and trace.ear_canal_volume_ml > 1.0
    known = trace.peak_admittance_mmho is not None or trace.width_dapa is not None or large
    if not known and trace.has_peak is not False:
        return
    refer = low or wide or large or trace.has_peak is False
    standing: Standing = one.standing
    yield Finding(
        "tympanogram-screening", f"ASHA 1997, {'infants' if infant else 'from 1 year'}", ear=one.ear,
        word="refer" if refer else "pass", could_be=("pass", "refer") if standing == "ask" else (),
        standing=standing,
    )  # fmt: skip
