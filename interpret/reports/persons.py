"""Who a page says that its patient is, and whether two pages speak of one person."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Literal

from ..record import Fact, PageRecord, Report
from .likeness import Likeness, date_likeness, name_likeness, number_likeness

Match = Literal["same", "likely", "perhaps", "different", "unknown"]
"""``same`` and ``likely`` are taken as one person, ``likely`` to be looked at; ``perhaps`` is kept apart and to be
looked at; ``unknown``: they say nothing that could be compared."""


@dataclass(frozen=True, slots=True)
class Person:
    """What pages say of their patient.

    Attributes
    ----------
    name, record_number, born : str or None
        As the pages state them; ``born`` year first.
    doubtful : frozenset of str
        Which of these do not stand as sure, or are stated in several ways.
    mixed : bool
        One page states two names, or two record numbers, that are not of one person.
    """

    name: str | None = None
    record_number: str | None = None
    born: str | None = None
    doubtful: frozenset[str] = frozenset()
    mixed: bool = False

    @property
    def certain(self) -> bool:
        """Whether all that is given stands as sure, and the pages name one person alone."""
        return not self.doubtful and not self.mixed

    @property
    def named(self) -> bool:
        """Whether anything is known of the person."""
        return any((self.name, self.record_number, self.born))


NOBODY = Person()
"""Of whom pages say nothing."""

_COMPARED: dict[str, Callable[[str, str], Likeness]] = {
    "name": name_likeness,
    "record_number": number_likeness,
    "born": date_likeness,
}
_FACTS = {"patient-name": "name", "record-number": "record_number", "birth-date": "born"}


def person_of(report: Report) -> Person:
    """Read from one page's facts who its patient is.

    Parameters
    ----------
    report : Report
        What the page says around its charts.

    Returns
    -------
    Person
        The likeliest value of each fact.
    """
    return _united(_stated(report))


def _stated(report: Report) -> list[tuple[str, str, bool, float]]:
    """Give what is stated: which thing, its value, whether it is sure, and its chance."""
    told = [(_FACTS[f.name], f.value, f.standing == "sure", f.probability) for f in report.facts if _tells(f)]
    for field, value in (("name", report.patient), ("born", report.born)):
        if value and value.strip() and not any(field == known for known, *_ in told):
            told.append((field, value, True, 1.0))
    return told


def _tells(fact: Fact) -> bool:
    return fact.name in _FACTS and bool(fact.value.strip())


def _united(told: list[tuple[str, str, bool, float]]) -> Person:
    chosen: dict[str, str] = {}
    doubtful: set[str] = set()
    mixed = False
    for field, compare in _COMPARED.items():
        values = sorted((v for v in told if v[0] == field), key=lambda v: (v[2], v[3]), reverse=True)
        if not values:
            continue
        (_, best, sure, _), *others = values
        chosen[field] = best
        # What is only perhaps read otherwise is no reason to doubt what was read for sure.
        alike = [compare(best, other) for _, other, firm, _ in others if firm or not sure]
        if not sure or any(one != "same" for one in alike):
            doubtful.add(field)
        mixed = mixed or (field != "born" and "different" in alike)
    return Person(chosen.get("name"), chosen.get("record_number"), chosen.get("born"), frozenset(doubtful), mixed)


def person_in(records: Iterable[PageRecord]) -> Person:
    """Put together what several pages of one patient say; as ``person_of``."""
    return _united([one for record in records for one in _stated(record.report)])


def match(one: Person, other: Person, *, follows: bool = False) -> Match:
    """Say whether two pages speak of one person.

    Parameters
    ----------
    one, other : Person
        As each page states them.
    follows : bool
        The two pages' printed page numbers say that one is the other's continuation.

    Returns
    -------
    {"same", "likely", "perhaps", "different", "unknown"}
        ``same`` where the record number or two facts agree and none disagrees, or the name of a continuation.
        ``likely`` where a name or a birth date alone agrees, where one fact agrees and another is one slip off, and for
        a continuation that names nobody. ``different`` where a fact disagrees and none agrees, or where the names
        disagree and no record number ties them. ``perhaps`` for all between. Where that rests on facts that stand as
        ``ask``, ``same`` becomes ``likely`` and ``different`` becomes ``perhaps``.

    Notes
    -----
    Weighed by hand, no published rule: name, birth date and record number are the usual three by which a clinic tells
    patients apart (two of them at least: WHO Collaborating Centre for Patient Safety Solutions, Patient Identification,
    Solution 2, May 2007).
    """
    alike = _likenesses(one, other)
    found = _weighed(alike, follows)
    doubtful = one.doubtful | other.doubtful
    firm: dict[str, Likeness] = {field: likeness for field, likeness in alike.items() if field not in doubtful}
    if one.mixed or other.mixed or (len(firm) < len(alike) and _weighed(firm, follows) != found):
        if found == "same":
            return "likely"
        return "perhaps" if found == "different" else found
    return found


def all_agree(one: Person, other: Person) -> bool:
    """Say whether nothing that both state differs, by a slip or more."""
    return all(found == "same" for found in _likenesses(one, other).values())


def _likenesses(one: Person, other: Person) -> dict[str, Likeness]:
    pairs = {
        "name": (one.name, other.name),
        "record_number": (one.record_number, other.record_number),
        "born": (one.born, other.born),
    }
    return {field: _COMPARED[field](a, b) for field, (a, b) in pairs.items() if a and b}


def _weighed(alike: dict[str, Likeness], follows: bool) -> Match:
    if not alike:
        return "likely" if follows else "unknown"
    told = list(alike.values())
    same, near, different = (told.count(word) for word in ("same", "near", "different"))
    if different:
        tied = same and (alike.get("name") != "different" or alike.get("record_number") == "same")
        return "perhaps" if tied else "different"
    named = alike.get("name") == "same"
    if not near and (same > 1 or alike.get("record_number") == "same" or (named and follows)):
        return "same"
    return "likely" if same else "perhaps"
