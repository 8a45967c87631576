"""Which pages of a file belong together."""

from __future__ import annotations

from itertools import combinations
from typing import TypedDict

from hypothesis import given
from hypothesis import strategies as st

from octavo.interpret.record import PageRecord
from octavo.interpret.reports.groups import group_pages
from octavo.interpret.reports.persons import Person, match, person_of

from .invented_people import fact, page


class Who(TypedDict):
    name: str
    record: str
    born: str


KIRA: Who = {"name": "Kira Brandt", "record": "HL-20413", "born": "1958-03-04"}
JONAS: Who = {"name": "Jonas Holm", "record": "HL-31177", "born": "1971-11-20"}


def pages_of(*records: PageRecord) -> list[tuple[int, ...]]:
    return [group.pages for group in group_pages(records)]


def test_a_chart_page_and_its_continuation_are_one_report() -> None:
    first = page(1, **KIRA, of="1/2", tested_on=("2019-03-14",))
    second = page(2, name="Brandt, Kira", of="2/2", tested_on=())
    (group,) = group_pages([first, second])
    assert (group.pages, group.standing, group.why_ask) == ((1, 2), "sure", ())
    assert [(test.tested_on, test.pages) for test in group.tests] == [("2019-03-14", (1, 2))]


def test_two_dates_are_two_tests_of_one_report() -> None:
    (group,) = group_pages([page(1, **KIRA, tested_on=("2019-03-14",)), page(2, **KIRA, tested_on=("2021-06-02",))])
    assert [(test.tested_on, test.pages, test.standing) for test in group.tests] == [
        ("2019-03-14", (1,), "sure"),
        ("2021-06-02", (2,), "sure"),
    ]


def test_two_patients_are_two_reports() -> None:
    groups = group_pages([page(1, **KIRA), page(2, **JONAS), page(3, **KIRA)])
    assert [group.pages for group in groups] == [(1, 3), (2,)]
    assert not {"patient-uncertain", "perhaps-one-patient"} & {code for group in groups for code in group.why_ask}


def test_one_letter_off_is_joined_and_asked() -> None:
    (group,) = group_pages([page(1, **KIRA), page(2, name="Kira Brandl", born=KIRA["born"])])
    assert (group.pages, group.standing) == ((1, 2), "ask")
    assert "patient-uncertain" in group.why_ask


def test_a_name_alone_joins_but_asks() -> None:
    (group,) = group_pages([page(1, **KIRA), page(3, name="Kira Brandt")])
    assert "patient-uncertain" in group.why_ask


def test_the_same_name_with_another_birth_date_is_kept_apart_and_asked() -> None:
    groups = group_pages(
        [page(1, name="Kira Brandt", born="1958-03-04"), page(2, name="Kira Brandt", born="1990-09-21")]
    )
    assert [group.pages for group in groups] == [(1,), (2,)]
    assert all("perhaps-one-patient" in group.why_ask for group in groups)


def test_a_page_that_fits_two_patients_never_joins_them() -> None:
    twins = [
        page(1, name="Ann Holm", record="A-100"),
        page(2, name="Ann Holm"),
        page(3, name="Ann Holm", record="B-977"),
    ]
    groups = group_pages(twins)
    assert not any({1, 3} <= set(group.pages) for group in groups)
    assert all(group.standing == "ask" for group in groups)


def test_a_page_that_names_nobody_stands_alone_and_asks() -> None:
    groups = group_pages([page(1, **KIRA), page(2)])
    assert [group.pages for group in groups] == [(1,), (2,)]
    assert "patient-not-named" in groups[1].why_ask


def test_a_numbered_continuation_that_names_nobody_is_joined_and_asked() -> None:
    (group,) = group_pages([page(1, **KIRA, of="1/2"), page(2, of="2/2", tested_on=())])
    assert group.pages == (1, 2)
    assert "patient-uncertain" in group.why_ask


def test_a_missing_page_is_told() -> None:
    (group,) = group_pages([page(1, **KIRA, of="1/3"), page(2, **KIRA, of="3/3")])
    assert "page-missing" in group.why_ask


def test_a_doubtful_name_joins_nothing_for_certain_and_parts_nothing_for_certain() -> None:
    doubtful = page(2, fact("patient-name", "Kira Brandt", "ask"), fact("birth-date", "1958-03-04"))
    (group,) = group_pages([page(1, **KIRA), doubtful])
    assert "patient-uncertain" in group.why_ask
    other = page(2, fact("patient-name", "Jonas Holm", "ask"))
    assert pages_of(page(1, **KIRA), other) == [(1,), (2,)]
    assert all("perhaps-one-patient" in group.why_ask for group in group_pages([page(1, **KIRA), other]))


def test_a_doubtful_birth_date_does_not_undo_what_name_and_number_settle() -> None:
    born = fact("birth-date", "1958-03-04", "ask")
    first, second = (page(n, born, name="Kira Brandt", record="HL-20413") for n in (1, 2))
    (group,) = group_pages([first, second])
    assert group.patient.doubtful == {"born"}
    assert "patient-uncertain" not in group.why_ask
    other = page(2, fact("birth-date", "1971-11-20", "ask"), name="Jonas Holm", record="X-7")
    groups = group_pages([first, other])
    assert [one.pages for one in groups] == [(1,), (2,)]
    assert not {"patient-uncertain", "perhaps-one-patient"} & {code for one in groups for code in one.why_ask}


def test_a_page_that_names_two_people_is_not_certain() -> None:
    both = page(1, fact("patient-name", "Kira Brandt"), fact("patient-name", "Jonas Holm"))
    assert not person_of(both.report).certain


def test_undated_audiograms_belong_to_the_one_date_and_are_asked() -> None:
    (group,) = group_pages([page(1, **KIRA, tested_on=("2019-03-14",)), page(2, **KIRA)])
    assert [(test.tested_on, test.pages, test.standing) for test in group.tests] == [("2019-03-14", (1, 2), "ask")]


NAMES = st.sampled_from(["Kira Brandt", "Brandt, Kira", "Kira Brandl", "Jonas Holm", "Ann Holm", None])
NUMBERS = st.sampled_from(["HL-1001", "HL-1002", "HL-7777", None])
BORN = st.sampled_from(["1958-03-04", "1958-04-03", "1990-12-30", None])


@given(st.lists(st.tuples(NAMES, NUMBERS, BORN), max_size=6))
def test_every_page_is_in_one_group_and_people_who_differ_share_none(said: list[tuple[str | None, ...]]) -> None:
    records = [page(n, name=name, record=record, born=born) for n, (name, record, born) in enumerate(said, 1)]
    groups = group_pages(records)
    assert sorted(number for group in groups for number in group.pages) == list(range(1, len(records) + 1))
    for group in groups:
        people = [person_of(record.report) for record in group.records]
        assert not any(match(a, b) in ("different", "perhaps") for a, b in combinations(people, 2))


@given(st.tuples(NAMES, NUMBERS, BORN), st.tuples(NAMES, NUMBERS, BORN), st.booleans())
def test_matching_does_not_depend_on_the_order(one: tuple, other: tuple, follows: bool) -> None:
    assert match(Person(*one), Person(*other), follows=follows) == match(Person(*other), Person(*one), follows=follows)
