"""Several tests of one person in their order, and what follows from comparing each later one with the first."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from itertools import combinations

from ...errors import MisuseError
from ...finding import Finding
from ...record import Audiogram, PageRecord, Report
from ...reports.groups import group_pages, of_one_file
from ...reports.persons import NOBODY, Match, Person, all_agree, match
from ...settings import Settings, day
from ..referral.worsening import worsening
from ..speech import recognition
from .occupational import Aged, shifts
from .retest import changes


@dataclass(frozen=True, slots=True)
class Sitting:
    """One test: its values, what its page says around it, in which file it stands, and whose it is."""

    audiogram: Audiogram
    report: Report
    file: str
    patient: Person = NOBODY

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
    person : str
        Whether both tests are of one person, by what their pages say (``reports.persons.Match``).
    person_asks : bool
        Something that both pages say of their patient differs, so that a person must look whether it is one.
    found : tuple of Finding
        The changes of thresholds and word scores, the shifts by the rules for noise at work, and what guidance says of
        hearing that worsened fast.
    """

    old: Sitting
    new: Sitting
    old_age_years: float | None
    new_age_years: float | None
    found: tuple[Finding, ...]
    person: Match = "unknown"
    person_asks: bool = False


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
        of one file (an ear each) are joined: same file, same patient, same date.
    """
    read = tuple(records)
    whose = _patients(read)
    found: dict[tuple[str, str | None, int, Person], Sitting] = {}
    for number, record in enumerate(read):
        for place, audiogram in enumerate(record.audiograms):
            if not audiogram.thresholds:
                continue
            source = record.source
            undated = 0 if day(audiogram.tested_on) else number * 1000 + place + 1
            patient = whose[id(record)]
            key = (source.sha256, audiogram.tested_on, undated, patient)
            known = found.get(key)
            if known is None:
                found[key] = Sitting(audiogram, record.report, source.name, patient)
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


def _patients(records: Sequence[PageRecord]) -> dict[int, Person]:
    """Give whose each record is, by the record's id; one who may be another of the same file is taken for that one.

    Unlike a pile of pages, the tests to compare were named as one person's: pages that name nobody are that person's.
    """
    whose: dict[int, Person] = {}
    for pages in of_one_file(records):
        known: list[Person] = []
        for group in group_pages(pages):
            fits = (one for one in known if match(one, group.patient) not in ("different", "perhaps"))
            patient = next(fits, group.patient)
            known += [patient] if patient not in known else []
            whose |= {id(record): patient for record in group.records}
    return whose


def compare(
    tests: tuple[Sitting, ...], settings: Settings | None = None, *, same_person: bool = False
) -> tuple[Comparison, ...]:
    """Compare every later test with the first.

    Parameters
    ----------
    tests : tuple of Sitting
        At least two, the baseline first.
    settings : Settings, optional
        Sex and birth date, for the age correction. A single age cannot be used: it belongs to one of the tests.

    same_person : bool
        Whoever asks knows that all are of one person, whatever the pages say.

    Raises
    ------
    MisuseError
        When there are fewer than two tests, or two of them are of different patients.
    """
    if len(tests) < 2:
        raise MisuseError(
            f"{len(tests)} test was found and a comparison needs two", "Name the earlier and the later one"
        )
    if not same_person:
        _refuse_others(tests)
    asked = replace(settings or Settings(), age_years=None)
    born = asked.born or next((test.report.born for test in tests if day(test.report.born)), None)
    asked = replace(asked, born=born)
    old, *later = tests
    found = tuple(_against(old, new, asked) for new in later)
    return tuple(replace(one, person_asks=False) for one in found) if same_person else found


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
    person = match(old.patient, new.patient)
    asks = person in ("likely", "perhaps") and not all_agree(old.patient, new.patient)
    return Comparison(old, new, ages[0], ages[1], found, person, asks)


def _refuse_others(tests: Sequence[Sitting]) -> None:
    for one, other in combinations(tests, 2):
        if match(one.patient, other.patient) == "different":
            files = f"{one.file} and {other.file}" if one.file != other.file else f"two reports in {one.file}"
            what = f"{files} are of different patients, by what their pages say"
            raise MisuseError(what, "Name the tests of one person")
