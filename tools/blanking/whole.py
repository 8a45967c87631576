"""One file blanked: its pages read, covered, and refused as a whole where one of them is in doubt."""

from __future__ import annotations

import os
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Generic, TypeVar

from ...extract.blank import BlankedPage, Doubt, Told, blank_page
from ...extract.blank.vocabulary import vocabulary
from ...extract.chart import MeasuredChart
from ...extract.choices import Choices
from ...extract.eyes.negative import positive
from ...extract.intake import PageFailure, pages
from ...extract.page import Page
from ...extract.road import read_page
from ...extract.sheet import Sheet
from ...interpret.errors import OctavoError
from ...interpret.record import Box, FactName, PageRecord
from ..reading import own_fault

Made = TypeVar("Made")
_HARMLESS: frozenset[FactName] = frozenset({"sex", "transducer", "reliability"})
_NAMES: frozenset[FactName] = frozenset({"patient-name", "tester", "place"})


@dataclass(frozen=True, slots=True)
class BlankedFile(Generic[Made]):
    """What blanking a file gave.

    ``pages`` is what was made of each covered page, in page order; ``doubts`` are the page numbers, from 1, each with
    what is in doubt there. Where there is a doubt, nothing may be given out. ``share`` is how much of them is black.
    """

    pages: tuple[Made, ...]
    doubts: tuple[tuple[int, Doubt], ...]
    share: float


@dataclass(frozen=True, slots=True)
class SeenPage:
    """A page's record, and of the steps to it the straightened sheet and its measured charts."""

    record: PageRecord
    sheet: Sheet
    charts: tuple[MeasuredChart, ...]


def blank_file(
    path: str | os.PathLike[str],
    choices: Choices,
    make: Callable[[BlankedPage], Made],
    *,
    also: Mapping[int, tuple[Box, ...]] | None = None,
    progress: Callable[[int, int], None] | None = None,
) -> BlankedFile[Made]:
    """Cover every page of a file.

    Parameters
    ----------
    path : str or os.PathLike
        The file.
    choices : Choices
        The languages to expect.
    make : callable
        What to keep of a covered page: its picture is not held longer than that.
    also : mapping of int to tuple of Box, optional
        By page, from 1: areas in page fractions that a person wants to be covered, whatever stands there.
    progress : callable, optional
        Called after each page with its number and how many there are.

    Raises
    ------
    OctavoError
        When a page cannot be read: a file is blanked whole or not at all.
    """
    name = os.fsdecode(path)
    names: frozenset[str] = frozenset()
    try:
        while True:
            made, heard = _once(path, choices, make, also or {}, progress, names)
            if not (heard - names) & _harmless_words():
                return made
            names |= heard  # a name that is also a harmless word was read later than some page was covered
    except OctavoError as error:
        raise error.at(file=name) from error
    except Exception as fault:
        raise own_fault(fault).at(file=name) from fault


def _once(
    path: str | os.PathLike[str],
    choices: Choices,
    make: Callable[[BlankedPage], Made],
    also: Mapping[int, tuple[Box, ...]],
    progress: Callable[[int, int], None] | None,
    names: frozenset[str],
) -> tuple[BlankedFile[Made], frozenset[str]]:
    made: list[Made] = []
    doubts: list[tuple[int, Doubt]] = []
    heard, black = names, 0.0
    for page in pages(path):
        if isinstance(page, PageFailure):
            raise page.error
        number = page.source.page
        page = positive(page)
        seen = read_to_blank(page, choices)
        heard |= _name_words(seen.record)
        told = Told(tuple(sorted(heard)), _identifiers(seen.record), also.get(number, ()))
        one = blank_page(page, seen.sheet, seen.charts, choices, told)
        doubts += [(number, doubt) for doubt in one.doubts]
        black += float(one.covered.mean())
        made.append(make(one))
        if progress is not None:
            progress(number, page.source.pages)
    return BlankedFile(tuple(made), tuple(doubts), black / max(len(made), 1)), heard


def read_to_blank(page: Page, choices: Choices) -> SeenPage:
    """Read a page, and keep what covering it needs."""
    caught: dict[str, object] = {}
    record = read_page(page, choices, observer=caught.__setitem__)
    sheet, charts = caught["sheet"], caught["charts"]
    assert isinstance(sheet, Sheet)
    assert isinstance(charts, tuple)
    return SeenPage(record, sheet, charts)


def _name_words(record: PageRecord) -> frozenset[str]:
    words = [word for fact in record.report.facts if fact.name in _NAMES for word in fact.value.casefold().split()]
    return frozenset(word.strip(".,;:") for word in words)


def _identifiers(record: PageRecord) -> tuple[Box, ...]:
    facts = record.report.facts
    return tuple(fact.box for fact in facts if fact.box is not None and fact.name not in _HARMLESS)


def _harmless_words() -> frozenset[str]:
    known = vocabulary()
    return known.tests | known.plain
