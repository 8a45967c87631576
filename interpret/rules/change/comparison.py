"""Several tests of one person in their order, and what follows from comparing each later one with the first."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from ...errors import MisuseError
from ...finding import Finding
from ...record import Audiogram, PageRecord, Report
from ...settings import Settings, day
from ..referral.worsening import worsening
from ..speech import recognition
from .occupational import Aged, shifts
from .retest import changes


@dataclass(frozen=True, slots=True)
class Sitting:
    """One test: its values, what its page says around it, and in which file it stands."""

    audiogram: Audiogram
    report: Report
    file: str

    @property
    def tested_on(self) -> str | None:
        """The date of the test, year first."""
        return self.audiogram.tested_on


@dataclass(frozen=True, slots=True)
class Comparison:
    """A later test against the baseline.

    Attributes
    ----------
    old, new : Sitting
        The baseline and the later test.
    old_age_years, new_age_years : float or None
        The listener's ages, where they are known.
    found : tuple of Finding
        The changes of thresholds and word scores, the shifts by the rules for noise at work, and what guidance says of
        hearing that worsened fast.
    """

    old: Sitting
    new: Sitting
    old_age_years: float | None
    new_age_years: float | None
    found: tuple[Finding, ...]


def sittings_of(records: Iterable[PageRecord]) -> tuple[Sitting, ...]:
    """Gather the tests of several pages, the earliest first.

    Parameters
    ----------
    records : iterable of PageRecord
        In the order in which the person named them.

    Returns
    -------
    tuple of Sitting
        By their dates where every test has one, else in the order given. Parts of one test that stand on several pages
        of one file (an ear each) are joined: same file, same date.
    """
    found: dict[tuple[str, str | None, int], Sitting] = {}
    for number, record in enumerate(records):
        for place, audiogram in enumerate(record.audiograms):
            if not audiogram.thresholds:
                continue
            source = record.source
            undated = 0 if day(audiogram.tested_on) else number * 1000 + place + 1
            key = (source.sha256, audiogram.tested_on, undated)
            known = found.get(key)
            if known is None:
                found[key] = Sitting(audiogram, record.report, source.name)
            else:
                one = known.audiogram
                joined = replace(
                    one,
                    thresholds=(*one.thresholds, *audiogram.thresholds),
                    speech=(*one.speech, *audiogram.speech),
                )
                found[key] = replace(known, audiogram=joined)
    tests = tuple(found.values())
    if all(day(test.tested_on) is not None for test in tests):
        return tuple(sorted(tests, key=lambda test: str(test.tested_on)))
    return tests


def compare(tests: tuple[Sitting, ...], settings: Settings | None = None) -> tuple[Comparison, ...]:
    """Compare every later test with the first.

    Parameters
    ----------
    tests : tuple of Sitting
        At least two, the baseline first.
    settings : Settings, optional
        Sex and birth date, for the age correction. A single age cannot be used: it belongs to one of the tests.

    Raises
    ------
    MisuseError
        When there are fewer than two tests.
    """
    if len(tests) < 2:
        raise MisuseError(
            f"{len(tests)} test was found and a comparison needs two", "Name the earlier and the later one"
        )
    asked = replace(settings or Settings(), age_years=None)
    born = asked.born or next((test.report.born for test in tests if day(test.report.born)), None)
    asked = replace(asked, born=born)
    old, *later = tests
    return tuple(_against(old, new, asked) for new in later)


def _against(old: Sitting, new: Sitting, settings: Settings) -> Comparison:
    ages = tuple(settings.age_at(test.audiogram, test.report) for test in (old, new))
    aged = None
    if settings.sex is not None and ages[0] is not None and ages[1] is not None:
        aged = Aged(settings.sex, ages[0], ages[1])
    before, after = old.audiogram.thresholds, new.audiogram.thresholds
    found = (
        *changes(before, after),
        *recognition.changes(old.audiogram, new.audiogram),
        *shifts(before, after, aged),
        *worsening(old.audiogram, new.audiogram),
    )
    return Comparison(old, new, ages[0], ages[1], found)
