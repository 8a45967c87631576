"""One file from end to end, with the intake and the road played by stand-ins."""

from __future__ import annotations

import pickle
from collections.abc import Callable, Iterator

import numpy as np
import pytest

import octavo
from octavo.extract.choices import Choices
from octavo.extract.intake import PageFailure
from octavo.extract.page import Page
from octavo.interpret.errors import (
    InternalFault,
    LockedFile,
    MissingFile,
    MissingProgram,
    MisuseError,
    OctavoError,
    PageGivenUp,
    PagesLeftUnread,
    UnreadableFile,
)
from octavo.interpret.record import PageRecord, Source, Threshold
from octavo.tools import reading

MakeRecord = Callable[..., PageRecord]
Outcome = PageRecord | Exception
Play = Callable[[list[Outcome]], None]


def page_of(number: int, pages: int) -> Page:
    source = Source("page.tif", "0" * 64, number, pages, "scan")
    return Page(source=source, pixels=np.zeros((4, 4, 3), np.uint8), dpi=None)


@pytest.fixture
def play(monkeypatch: pytest.MonkeyPatch) -> Play:
    """Give a function that sets what the road makes of each page: a record, or an exception that it raises."""

    def set_up(outcomes: list[Outcome]) -> None:
        def pages(path: object) -> Iterator[Page]:
            return (page_of(number, len(outcomes)) for number in range(1, len(outcomes) + 1))

        def read_page(page: Page, choices: Choices, *, observer: object = None) -> PageRecord:
            outcome = outcomes[page.source.page - 1]
            if isinstance(outcome, Exception):
                raise outcome
            return outcome

        monkeypatch.setattr(reading, "pages", pages)
        monkeypatch.setattr(reading, "read_page", read_page)

    return set_up


def test_the_face_gives_one_record_a_page_in_page_order(play: Play, make_record: MakeRecord) -> None:
    play([make_record(page=n, pages=3) for n in (1, 2, 3)])
    assert [record.source.page for record in octavo.read("page.tif")] == [1, 2, 3]


def test_the_records_of_the_face_carry_findings(play: Play, make_record: MakeRecord) -> None:
    play([make_record()])
    (record,) = octavo.read("page.tif")
    assert record.audiograms[0].findings != {}


def test_an_unknown_symbol_set_is_misuse_and_names_the_known_ones(play: Play) -> None:
    play([])
    with pytest.raises(MisuseError, match=r"there is no symbol set 'martian'\. Choose one of asha-1990, bsa-2018"):
        octavo.read("page.tif", symbols="martian")


def test_a_page_that_fails_loses_no_other_page_s_record(play: Play, make_record: MakeRecord) -> None:
    play([make_record(page=1, pages=3), UnreadableFile("the image is cut short", "Scan it again"), make_record(page=3)])
    told = "page.tif: 1 of 3 pages gave no reading; the first, page 2: the image is cut short. Scan it again."
    with pytest.raises(PagesLeftUnread, match=f"^{told}$") as caught:
        octavo.read("page.tif")
    assert [record.source.page for record in caught.value.records] == [1, 3]
    assert [str(error) for error in caught.value.errors] == ["page.tif, page 2: the image is cut short. Scan it again."]


def test_the_error_of_a_file_with_one_page_is_raised_as_it_is(play: Play) -> None:
    play([PageGivenUp("it takes too long", "Scan it again")])
    with pytest.raises(PageGivenUp, match=r"^page\.tif: it takes too long\. Scan it again\.$"):
        octavo.read("page.tif")


def test_what_every_page_lacks_is_told_for_every_page(play: Play) -> None:
    play([MissingProgram("Tesseract is missing", "Install it")] * 2)
    with pytest.raises(PagesLeftUnread, match="2 of 2 pages") as caught:
        octavo.read("page.tif")
    assert [type(error) for error in caught.value.errors] == [MissingProgram, MissingProgram]


def test_a_page_that_the_intake_could_not_open_is_given_in_its_place(
    monkeypatch: pytest.MonkeyPatch, make_record: MakeRecord
) -> None:
    def pages(path: object) -> Iterator[Page | PageFailure]:
        yield PageFailure(1, 2, UnreadableFile("it is damaged", "Scan it again", file="page.tif", page=1))
        yield page_of(2, 2)

    def read_page(page: Page, choices: Choices, *, observer: object = None) -> PageRecord:
        return make_record(page=page.source.page, pages=2)

    monkeypatch.setattr(reading, "pages", pages)
    monkeypatch.setattr(reading, "read_page", read_page)
    first, second = reading.read_pages("page.tif", Choices())
    assert str(first) == "page.tif, page 1: it is damaged. Scan it again."
    assert isinstance(second, PageRecord)


@pytest.mark.parametrize("error", [MissingFile("there is no such file", "Check"), LockedFile("it is locked", "Unlock")])
def test_an_error_of_the_whole_file_keeps_its_kind_and_names_the_file(
    error: OctavoError, monkeypatch: pytest.MonkeyPatch
) -> None:
    def pages(path: object) -> Iterator[Page]:
        raise error

    monkeypatch.setattr(reading, "pages", pages)
    with pytest.raises(type(error), match=r"^in/page\.tif: "):
        octavo.read("in/page.tif")


def test_a_fault_of_the_road_is_told_by_its_kind_and_place_but_not_by_its_words(play: Play) -> None:
    # The words of a library's exception may quote the page, and the page names a patient.
    play([ValueError("Jane Example, born 1950"), ValueError("Jane Example")])
    first, second = reading.read_pages("page.tif", Choices())
    assert isinstance(first, InternalFault)
    assert str(first) == "page.tif, page 1: octavo failed here (ValueError). Report this; other pages are not affected."
    assert isinstance(first.__cause__, ValueError)
    assert isinstance(second, InternalFault)


def test_a_fault_of_the_intake_is_an_internal_fault_of_the_file(monkeypatch: pytest.MonkeyPatch) -> None:
    def pages(path: object) -> Iterator[Page]:
        raise ZeroDivisionError

    monkeypatch.setattr(reading, "pages", pages)
    with pytest.raises(InternalFault, match=r"^page\.tif: octavo failed here \(ZeroDivisionError\)"):
        octavo.read("page.tif")


def test_want_of_memory_gives_the_page_up(play: Play, make_record: MakeRecord) -> None:
    play([MemoryError(), make_record(page=2, pages=2)])
    first, second = reading.read_pages("page.tif", Choices())
    assert isinstance(first, PageGivenUp)
    assert isinstance(second, PageRecord)


def test_ctrl_c_is_not_taken_for_a_fault(monkeypatch: pytest.MonkeyPatch) -> None:
    def stop(page: Page, choices: Choices, *, observer: object = None) -> PageRecord:
        raise KeyboardInterrupt

    def pages(path: object) -> Iterator[Page]:
        yield page_of(1, 1)

    monkeypatch.setattr(reading, "pages", pages)
    monkeypatch.setattr(reading, "read_page", stop)
    with pytest.raises(KeyboardInterrupt):
        list(reading.read_pages("page.tif", Choices()))


def test_pages_left_unread_survive_the_way_between_processes(make_record: MakeRecord) -> None:
    # The errors of a worker come back pickled.
    error = PagesLeftUnread(
        (UnreadableFile("it is damaged", "Scan it again", page=2),), (make_record(pages=2),), file="page.tif"
    )
    again = pickle.loads(pickle.dumps(error))
    assert str(again) == str(error)
    assert again.records == error.records
    assert str(again.at(file="in/page.tif")).startswith("in/page.tif: 1 of 2 pages")


def test_a_value_that_hardly_can_be_so_asks_and_the_page_with_it(play: Play, make_record: MakeRecord) -> None:
    # Bone worse than air by 10 dB or more is doubted (interpret.rules.plausibility): no hearing has it.
    air = Threshold("right", "air", False, 1000, 20, standing="sure", probability=0.9999)
    bone = Threshold("right", "bone", False, 1000, 45, standing="sure", probability=0.9999)
    play([make_record("sure", thresholds=(air, bone)), make_record("sure", page=2)])
    doubted, plain = octavo.read("page.tif")
    assert [t.standing for t in doubted.audiograms[0].thresholds] == ["sure", "ask"]
    assert doubted.audiograms[0].thresholds[1].why_ask == ("implausible",)
    assert (doubted.standing, plain.standing) == ("ask", "sure")
