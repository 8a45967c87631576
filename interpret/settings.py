"""What a person asks of the values, and what is known of the listener beside them: given by options, never guessed."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Literal, get_args

from .errors import MisuseError
from .record import Audiogram, Report
from .rules.degree import DEFAULT_SCHEME, normal_limit, scheme_named

Sex = Literal["female", "male"]
NormalLimitName = Literal["adult", "child"]
GapRule = Literal["gap-10", "gap-15"]

_DAYS_A_YEAR = 365.2425
_CHILD_BELOW_YEARS = 18


@dataclass(frozen=True, slots=True)
class Noise:
    """An exposure that ISO 1999 is asked about: the daily level in dB(A), normalized to 8 h, over so many years."""

    level_dba: float
    years: float


@dataclass(frozen=True, slots=True)
class Settings:
    """The choices behind a page's findings.

    Attributes
    ----------
    scheme : str
        Id of the grading scheme.
    normal : {"adult", "child"} or None
        Which limit of normal is used; None: the child's where the listener is known to be under 18, else the adult's.
    gap_rule : {"gap-10", "gap-15"}
        The rule that names the type of a loss from air-bone gaps.
    age_years : float or None
        Age at the test; None: from the birth date, where one is known, and the test date.
    born : str or None
        Birth date, year first; None: the one that the page states.
    sex : {"female", "male"} or None
        As the published tables name their groups; None where it is not known.
    noise : Noise or None
        The exposure that the expectation of ISO 1999 is asked for.
    sudden_days_ago : float or None
        The listener says that hearing went suddenly, within 3 days, and that it began so many days ago.

    Raises
    ------
    MisuseError
        When a choice is not among those there are, or a number cannot be.
    """

    scheme: str = DEFAULT_SCHEME
    normal: NormalLimitName | None = None
    gap_rule: GapRule = "gap-10"
    age_years: float | None = None
    born: str | None = None
    sex: Sex | None = None
    noise: Noise | None = None
    sudden_days_ago: float | None = None

    def __post_init__(self) -> None:
        scheme_named(self.scheme)
        if self.normal is not None:
            normal_limit(self.normal)
        for value, kind, what in ((self.gap_rule, GapRule, "rule for gaps"), (self.sex, Sex, "sex")):
            if value is not None and value not in get_args(kind):
                raise MisuseError(f"there is no {what} named '{value}'", f"Choose one of {', '.join(get_args(kind))}")
        if self.age_years is not None and not 0 <= self.age_years <= 130:
            raise MisuseError(f"{self.age_years:g} is no age in years", "Give one from 0 to 130")
        if self.born is not None and day(self.born) is None:
            raise MisuseError(f"'{self.born}' is no date", "Write it year first, such as 1958-03-14")

    def age_at(self, audiogram: Audiogram, report: Report) -> float | None:
        """Give the listener's age at a test, years; None where it is not known.

        What was asked for comes first, then the birth date, then the age that a page without identity states.
        """
        if self.age_years is not None:
            return self.age_years
        born, tested = day(self.born or report.born), day(audiogram.tested_on)
        if born is None or tested is None:
            return _stated_age(audiogram, report)
        return (tested - born).days / _DAYS_A_YEAR if born <= tested else None

    def normal_at(self, age_years: float | None) -> NormalLimitName:
        """Give which limit of normal is used for a listener of that age."""
        if self.normal is not None:
            return self.normal
        return "child" if age_years is not None and age_years < _CHILD_BELOW_YEARS else "adult"


def _stated_age(audiogram: Audiogram, report: Report) -> float | None:
    """Give the age at this test in whole years where the record states it for this very date, and for sure."""
    ages = {
        fact.value
        for fact in report.facts
        if fact.name == "age" and fact.standing == "sure" and fact.written == audiogram.tested_on
    }
    return float(ages.pop()) if len(ages) == 1 and min(ages).isdecimal() else None


def day(text: str | None) -> date | None:
    """Read a date that is written year first, None where it is none."""
    try:
        return date.fromisoformat(text) if text else None
    except ValueError:
        return None


@dataclass(frozen=True, slots=True)
class Case:
    """All that the rules may look at: one audiogram, what its page says around it, what was asked, and what follows.

    Attributes
    ----------
    audiogram, report, settings : Audiogram, Report, Settings
        The values, the page's words, the choices.
    age_years : float or None
        The listener's age at the test, where it is known.
    normal : {"adult", "child"}
        Which limit of normal is used.
    """

    audiogram: Audiogram
    report: Report
    settings: Settings
    age_years: float | None
    normal: NormalLimitName
