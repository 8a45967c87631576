"""Records without direct identifiers: pseudonyms, ages, and dates moved by a secret number of days for each patient.

What is left out follows the list of the Safe Harbor method, 45 CFR 164.514(b)(2)(i): names, places, ages over 89,
record numbers, device serial numbers, and any other text that could hold one. Dates are moved and not cut to their
year, so that intervals stay true; by the letter of that rule a moved date is still a date, so a release under it drops
them, or asks an expert by 45 CFR 164.514(b)(1).
"""

from __future__ import annotations

import hashlib
import hmac
import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta

from ..errors import MisuseError
from ..reasons import REASONS, remark
from ..record import Audiogram, Fact, FactName, Immittance, PageRecord, Remark, Report
from ..settings import day
from ..symbols import SYMBOL_SETS
from .groups import ReportGroup, group_pages, tests_of
from .likeness import name_keys
from .persons import Person

SALT_LEAST_BYTES = 16
"""Shorter salts could be tried one by one."""
MOST_SHIFT_DAYS = 365
"""Dates move back by 1 to so many days: seasons are hidden, and the year stays right within one."""
OLDEST_TOLD = 89
"""Ages over 89 are given as 90+ (45 CFR 164.514(b)(2)(i)(C))."""

_MOVED: frozenset[FactName] = frozenset({"test-date", "calibration-date"})
_TRANSDUCERS = frozenset({"inserts", "supra-aural", "circumaural", "bone-vibrator", "loudspeaker"})
_CODED: dict[FactName, frozenset[str]] = {
    "sex": frozenset({"female", "male", "other"}),
    "transducer": _TRANSDUCERS,
    "reliability": frozenset({"good", "fair", "poor"}),
}
_TYPE = re.compile(r"[A-E][a-z]?\d?")
_AGE = re.compile(r"\d{1,3}")
_UNCERTAIN = frozenset({"patient-not-named", "patient-uncertain", "perhaps-one-patient"})


@dataclass(frozen=True, slots=True)
class Cover:
    """What stands for one patient: the pseudonym, and by how many days the dates move back.

    ``certain`` is false where the same patient may get another cover from another file.
    """

    pseudonym: str
    days: int
    certain: bool


def without_identity(records: Sequence[PageRecord], salt: bytes) -> tuple[PageRecord, ...]:
    """Leave out whatever says who the patient is.

    Parameters
    ----------
    records : sequence of PageRecord
        The pages of one file in page order: what one page of a report says of its patient counts for all of them.
    salt : bytes
        The secret, at least 16 bytes. With one salt a patient has the same pseudonym and the same shift everywhere.

    Returns
    -------
    tuple of PageRecord
        In the same order. No text from the page, no file name and no hash of the file is left: only numbers, codes of
        octavo's own lists, moved dates, pseudonyms, and ages in whole years, over 89 as ``90+``.

    Raises
    ------
    MisuseError
        When the salt is too short.
    """
    hidden = {id(old): new for group in group_pages(records) for old, new in _pairs(group, salt)}
    return tuple(hidden[id(record)] for record in records)


def hide(group: ReportGroup, salt: bytes) -> ReportGroup:
    """Give the same report without whatever says who the patient is; as ``without_identity``."""
    records = tuple(new for _, new in _pairs(group, salt))
    cover = cover_of(group, salt)
    return replace(group, records=records, patient=Person(name=cover.pseudonym), tests=tests_of(records))


def _pairs(group: ReportGroup, salt: bytes) -> list[tuple[PageRecord, PageRecord]]:
    cover = cover_of(group, salt)
    return [(record, _hidden(record, cover, group.patient, salt)) for record in group.records]


def cover_of(group: ReportGroup, salt: bytes) -> Cover:
    """Give what stands for the patient of a report.

    Notes
    -----
    Both are HMAC-SHA256 [1]_ of the patient's identity under the salt. The identity is name and birth date, where one
    of them is missing the record number, and then the name alone; pages that name nobody are taken by their file.

    References
    ----------
    .. [1] RFC 2104 and FIPS 180-4.
    """
    if len(salt) < SALT_LEAST_BYTES:
        raise MisuseError(f"a salt of {len(salt)} bytes is too short", f"Use {SALT_LEAST_BYTES} random bytes or more")
    first = group.records[0].source
    identity = _identity(group.patient) or f"file|{first.sha256}|{first.page}"
    patient = group.patient
    certain = bool(patient.name and patient.born) and not patient.mixed and not {"name", "born"} & patient.doubtful
    days = 1 + int.from_bytes(_keyed(salt, "days", identity)[:8]) % MOST_SHIFT_DAYS
    pseudonym = f"patient-{_keyed(salt, 'pseudonym', identity).hex()[:12]}"
    return Cover(pseudonym, days, certain and not _UNCERTAIN & set(group.why_ask))


def _identity(person: Person) -> str | None:
    name, born = _one_form(person.name or ""), day(person.born)
    number = re.sub(r"[\W_]", "", (person.record_number or "").casefold())
    if name and born is not None:
        return f"person|{name}|{born.isoformat()}"
    if number:
        return f"number|{number}"
    return f"name|{name}" if name else None


def _one_form(name: str) -> str:
    """Give one form for all spellings that are compared as the same: ü, ue and u alike."""
    parts = min(name_keys(name), key=lambda form: (sum(map(len, form)), form))
    return " ".join(sorted(re.sub("([aou])e", r"\1", part).replace("aa", "a") for part in parts))


def _keyed(salt: bytes, use: str, text: str) -> bytes:
    return hmac.new(salt, f"octavo|{use}|{text}".encode("utf-8", "surrogatepass"), hashlib.sha256).digest()


def _hidden(record: PageRecord, cover: Cover, patient: Person, salt: bytes) -> PageRecord:
    code = _keyed(salt, "file", f"{cover.pseudonym}|{record.source.sha256}").hex()
    source = replace(record.source, name=f"{cover.pseudonym}-file-{code[:8]}", sha256=code)
    remarks = [_registered(one) for one in record.remarks if one.code in REASONS]
    if not cover.certain:
        remarks.append(remark("pseudonym-uncertain"))
    return PageRecord(
        source,
        record.standing,
        tuple(_audiogram(one, cover) for one in record.audiograms),
        _report(record, cover, patient),
        tuple(remarks),
        record.schema,
    )


def _registered(one: Remark) -> Remark:
    return replace(one, text=f"{REASONS[one.code].text}.")


def _codes(why_ask: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(code for code in why_ask if code in REASONS)


def _audiogram(one: Audiogram, cover: Cover) -> Audiogram:
    return replace(
        one,
        tested_on=moved(one.tested_on, cover.days),
        symbol_set=one.symbol_set if one.symbol_set in SYMBOL_SETS else None,
        thresholds=tuple(replace(t, why_ask=_codes(t.why_ask)) for t in one.thresholds),
        speech=tuple(replace(s, word_list=None, why_ask=_codes(s.why_ask)) for s in one.speech),
        immittance=tuple(map(_immittance, one.immittance)),
        otoacoustic=tuple(replace(o, why_ask=_codes(o.why_ask)) for o in one.otoacoustic),
        printed_averages=tuple(replace(a, why_ask=_codes(a.why_ask)) for a in one.printed_averages),
        findings={},
    )


def _immittance(one: Immittance) -> Immittance:
    trace = one.tympanogram
    if trace is not None and not _TYPE.fullmatch(trace.printed_type or ""):
        trace = replace(trace, printed_type=None)
    reflexes = tuple(replace(reflex, why_ask=_codes(reflex.why_ask)) for reflex in one.reflexes)
    return replace(one, tympanogram=trace, reflexes=reflexes, why_ask=_codes(one.why_ask))


def moved(text: str | None, days: int) -> str | None:
    """Move a date, year first, back by a number of days; None where it is none, or would leave the calendar."""
    when = day(text)
    try:
        return None if when is None else (when - timedelta(days)).isoformat()
    except OverflowError:
        return None


def _report(record: PageRecord, cover: Cover, patient: Person) -> Report:
    told = record.report
    facts = [fact for fact in (_fact(one, cover) for one in told.facts) if fact is not None]
    ages = _ages(record, cover, patient) or [one for one in map(_age_as_printed, told.facts) if one is not None]
    return Report(
        patient=cover.pseudonym,
        born=None,
        transducer=told.transducer if _is_coded("transducer", told.transducer) else None,
        reliability=told.reliability if _is_coded("reliability", told.reliability) else None,
        facts=(*facts, *ages),
    )


def _is_coded(name: FactName, value: str | None) -> bool:
    return value is not None and set(value.split(", ")) <= _CODED[name]


def _fact(fact: Fact, cover: Cover) -> Fact | None:
    """Give a fact that may stay, without the words of the page; None for every other."""
    value: str | None = None
    if fact.name in _MOVED:
        value = moved(fact.value, cover.days)
    elif fact.name in _CODED and _is_coded(fact.name, fact.value):
        value = fact.value
    return None if value is None else replace(fact, value=value, written=value, why_ask=_codes(fact.why_ask))


def _ages(record: PageRecord, cover: Cover, patient: Person) -> list[Fact]:
    """Give the age at each test of a page, with the moved date of the test as what is written."""
    born = day(patient.born)
    tested = [one.tested_on for one in record.audiograms]
    tested += [fact.value for fact in record.report.facts if fact.name == "test-date"]
    ages: list[Fact] = []
    for when in dict.fromkeys(day(text) for text in tested):
        if born is not None and when is not None and born <= when:
            standing = "ask" if patient.mixed or "born" in patient.doubtful else "sure"
            text = _told_age(age_in_years(born, when))
            ages.append(Fact("age", text, moved(when.isoformat(), cover.days) or "", None, 1.0, standing))
    return ages


def _age_as_printed(fact: Fact) -> Fact | None:
    if fact.name != "age" or not _AGE.fullmatch(fact.value):
        return None
    text = _told_age(int(fact.value))
    return replace(fact, value=text, written=text, why_ask=_codes(fact.why_ask))


def age_in_years(born: date, when: date) -> int:
    """Give an age in whole years on a day; who was born on 29 February becomes older on 1 March in common years."""
    return when.year - born.year - ((when.month, when.day) < (born.month, born.day))


def _told_age(years: int) -> str:
    return f"{OLDEST_TOLD + 1}+" if years > OLDEST_TOLD else str(years)
