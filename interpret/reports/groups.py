"""The pages of a file put together: which belong to one patient's report, and which tests it holds."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import combinations, product

from ..record import Audiogram, PageRecord, Standing
from ..settings import day
from .persons import Match, Person, match, person_in, person_of

_Links = dict[tuple[int, int], Match]


@dataclass(frozen=True, slots=True)
class DatedTest:
    """One hearing test of a report: all of one date.

    Attributes
    ----------
    tested_on : str or None
        The date, year first; None where no page states it.
    pages : tuple of int
        The pages that show it, from 1.
    audiograms : tuple of Audiogram
        What they show of it, in page order.
    standing : {"sure", "ask"}
        ``ask`` where a page without a date of its own was counted in, or a date stands as ``ask``.
    """

    tested_on: str | None
    pages: tuple[int, ...]
    audiograms: tuple[Audiogram, ...]
    standing: Standing


@dataclass(frozen=True, slots=True)
class ReportGroup:
    """The pages of one patient in one file.

    Attributes
    ----------
    records : tuple of PageRecord
        In page order.
    patient : Person
        What they say of the patient together.
    tests : tuple of DatedTest
        One for each test date, in page order.
    standing : {"sure", "ask"}
        Whether it is certain that these pages, all of them and no others of the file, are one patient's.
    why_ask : tuple of str
        Codes of ``interpret.reasons``.
    """

    records: tuple[PageRecord, ...]
    patient: Person
    tests: tuple[DatedTest, ...]
    standing: Standing
    why_ask: tuple[str, ...]

    @property
    def pages(self) -> tuple[int, ...]:
        """The pages, counted from 1."""
        return tuple(record.source.page for record in self.records)


def of_one_file(records: Iterable[PageRecord]) -> tuple[tuple[PageRecord, ...], ...]:
    """Sort records by the file that they were read from, in the order in which the files come."""
    files: dict[str, list[PageRecord]] = {}
    for record in records:
        files.setdefault(record.source.sha256, []).append(record)
    return tuple(map(tuple, files.values()))


def group_pages(records: Sequence[PageRecord]) -> tuple[ReportGroup, ...]:
    """Split and join the pages of one file by patient.

    Parameters
    ----------
    records : sequence of PageRecord
        The pages of one file in page order.

    Returns
    -------
    tuple of ReportGroup
        Every page stands in exactly one; by their first pages. Pages of people who differ are never in one group, not
        even by way of a third page that fits both.
    """
    people = [person_of(record.report) for record in records]
    links: _Links = {(a, b): _link(records, people, a, b) for a, b in combinations(range(len(records)), 2)}
    groups = [[number] for number in range(len(records))]  # by page: pages that belong together share one list
    strength: tuple[Match, ...] = ("same", "likely")
    for wanted in strength:
        for (a, b), found in sorted(links.items(), key=lambda link: link[0][1] - link[0][0]):
            if found == wanted:
                _join(groups, links, a, b)
    return tuple(_group(records, people, links, sorted(group)) for group in _each_once(groups))


def _link(records: Sequence[PageRecord], people: Sequence[Person], a: int, b: int) -> Match:
    follows = b == a + 1 and _continues(records[a], records[b])
    return match(people[a], people[b], follows=follows)


def _continues(one: PageRecord, other: PageRecord) -> bool:
    """Say whether the printed page numbers make the second page the continuation of the first."""
    before, after = numbered(one), numbered(other)
    return before is not None and after is not None and after == (before[0] + 1, before[1])


def numbered(record: PageRecord) -> tuple[int, int] | None:
    """Give the page number that the page itself prints, and of how many; None where it prints none, or several."""
    values = {fact.value for fact in record.report.facts if fact.name == "page-number"}
    if len(values) != 1:
        return None
    found = re.fullmatch(r"(\d{1,4})/(\d{1,4})", values.pop())
    return None if found is None else (int(found[1]), int(found[2]))


def _join(groups: list[list[int]], links: _Links, a: int, b: int) -> None:
    """Join the groups of two pages, unless that would bring pages together that do not agree."""
    one, other = groups[a], groups[b]
    if one is other or any(links[min(p), max(p)] in ("different", "perhaps") for p in product(one, other)):
        return
    one += other
    for page in other:
        groups[page] = one


def _each_once(groups: Sequence[list[int]]) -> list[list[int]]:
    """Give every group once, by its first page."""
    return [group for page, group in enumerate(groups) if page == min(group)]


def _group(records: Sequence[PageRecord], people: Sequence[Person], links: _Links, here: list[int]) -> ReportGroup:
    pages = tuple(records[number] for number in here)
    away = [number for number in range(len(records)) if number not in here]
    inside = [links[pair] for pair in combinations(here, 2)]
    outside = [links[min(p), max(p)] for p in product(here, away)]
    why: list[str] = []
    if not any(people[number].named for number in here):
        why.append("patient-not-named")
    if not _held_together(links, here) or any(people[number].mixed for number in here) or "likely" in outside:
        why.append("patient-uncertain")
    if "perhaps" in outside or "same" in outside or "perhaps" in inside:
        why.append("perhaps-one-patient")
    if _lacks_page(pages):
        why.append("page-missing")
    tests = tests_of(pages)
    if any(test.standing == "ask" for test in tests):
        why.append("test-date-uncertain")
    return ReportGroup(pages, person_in(pages), tests, "ask" if why else "sure", tuple(why))


def _held_together(links: _Links, here: list[int]) -> bool:
    """Say whether certain agreements alone reach every page of a group."""
    reached, fresh = {here[0]}, [here[0]]
    while fresh:
        one = fresh.pop()
        for other in here:
            if other not in reached and links[min(one, other), max(one, other)] == "same":
                reached.add(other)
                fresh.append(other)
    return len(reached) == len(here)


def _lacks_page(pages: Sequence[PageRecord]) -> bool:
    """Say whether the printed page numbers of a report show that a page of it is not in the file."""
    told = [number for number in map(numbered, pages) if number is not None]
    return any(
        {number for number, of in told if of == total} != set(range(1, total + 1)) for total in {of for _, of in told}
    )


def tests_of(pages: Sequence[PageRecord]) -> tuple[DatedTest, ...]:
    """Sort what the pages of one patient show by test date; two dates are two tests.

    Parameters
    ----------
    pages : sequence of PageRecord
        In page order.

    Returns
    -------
    tuple of DatedTest
        Audiograms without a date belong to the one test that the pages know of; where they know of several, or of none,
        they stand apart. A page that shows no audiogram belongs to the test whose date it prints.
    """
    dates = list(dict.fromkeys(date for page in pages for date in _dates(page)))
    found: dict[str | None, list[tuple[PageRecord, Audiogram | None, bool]]] = {}
    for page in pages:
        own = _dates(page)
        sure = not _date_asks(page)
        alone = own[0] if len(own) == 1 else dates[0] if len(dates) == 1 else None
        for audiogram in page.audiograms:
            stated = audiogram.tested_on if day(audiogram.tested_on) else None
            found.setdefault(stated or alone, []).append((page, audiogram, sure and stated is not None))
        if not page.audiograms:
            for date in own or ((alone,) if alone else ()):
                found.setdefault(date, []).append((page, None, sure))
    return tuple(_dated(date, parts) for date, parts in found.items())


def _dated(date: str | None, parts: Sequence[tuple[PageRecord, Audiogram | None, bool]]) -> DatedTest:
    pages = tuple(dict.fromkeys(page.source.page for page, _, _ in parts))
    sure = date is not None and all(one for _, _, one in parts)
    return DatedTest(date, pages, tuple(one for _, one, _ in parts if one is not None), "sure" if sure else "ask")


def _dates(page: PageRecord) -> list[str]:
    """Give the test dates that a page states, of its audiograms and in words."""
    told = [audiogram.tested_on for audiogram in page.audiograms]
    told += [fact.value for fact in page.report.facts if fact.name == "test-date"]
    return list(dict.fromkeys(date for date in told if date is not None and day(date) is not None))


def _date_asks(page: PageRecord) -> bool:
    return any(fact.name == "test-date" and fact.standing == "ask" for fact in page.report.facts)
