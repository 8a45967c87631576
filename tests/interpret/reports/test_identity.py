"""Records without identity: nothing of the patient is left, and what is left can still be worked with."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from octavo.interpret.errors import MisuseError
from octavo.interpret.exports.as_json import from_json, to_json_line
from octavo.interpret.exports.redraw import redrawn_svg
from octavo.interpret.exports.tables import FINDING_COLUMNS, THRESHOLD_COLUMNS, csv_of, finding_rows, threshold_rows
from octavo.interpret.findings import with_findings
from octavo.interpret.record import Audiogram, Fact, FactName, Immittance, PageRecord, Remark, Speech, Tympanogram
from octavo.interpret.reports.groups import group_pages
from octavo.interpret.reports.identity import age_in_years, cover_of, hide, moved, without_identity
from octavo.interpret.settings import Settings
from octavo.interpret.words.clinician import for_clinician
from octavo.interpret.words.languages import language
from octavo.interpret.words.patient import for_patient
from octavo.interpret.words.summary import summary

from .invented_people import VALUE, fact, page

SALT = b"sixteen bytes or more of salt"
SECRET = st.text("ЖЩЮЯФЦ", min_size=4, max_size=9)
DATES = st.dates(date(1900, 1, 1), date(2030, 12, 31))
FREE: tuple[FactName, ...] = (
    "patient-name", "record-number", "tester", "place", "reason", "note", "audiometer", "test-time", "sex",
    "transducer", "reliability", "page-number", "age",
)  # fmt: skip


@st.composite
def telling_pages(draw: st.DrawFn) -> tuple[PageRecord, list[str]]:
    """Draw a page with secrets in every place where a page's words can stand, and give the secrets."""
    secrets = [draw(SECRET) for _ in range(12)]
    born, tested, dated = sorted(draw(st.lists(DATES, min_size=3, max_size=3, unique=True)))
    facts = [fact(draw(st.sampled_from(FREE)), secret) for secret in secrets[:6]]
    facts += [fact("birth-date", born.isoformat()), replace(fact("test-date", tested.isoformat()), written=secrets[6])]
    speech = Speech("right", "srt", 30, word_list=secrets[7])
    drum = Immittance("left", Tympanogram(printed_type=secrets[8]), why_ask=(secrets[9],))
    values = (replace(VALUE, standing="ask", why_ask=(secrets[9],)),)
    audiograms = tuple(
        Audiogram(when, secrets[10], (), values, (speech,), (drum,), findings={"found": secrets[10]})
        for when in (tested.isoformat(), dated.isoformat(), secrets[10])
    )
    base = page(1)
    about = replace(
        base.report, patient=secrets[0], born=born.isoformat(), transducer=secrets[1], reliability=secrets[2],
        facts=tuple(facts),
    )  # fmt: skip
    remarks = (Remark("skewed", secrets[11]), Remark(secrets[11], secrets[11]))
    source = replace(base.source, name=f"{secrets[3]}.pdf", sha256="ab" * 32)
    # Further apart than any shift, so that no moved date is one of the page's own.
    assume(min(tested - born, dated - tested) > timedelta(366))
    secrets += [day.isoformat() for day in (born, tested, dated)] + ["ab" * 32]
    return PageRecord(source, "ask", audiograms, about, remarks), secrets


def outputs(record: PageRecord) -> str:
    """Everything that octavo writes of a record."""
    found = with_findings(record, Settings())
    return "\n".join(
        (
            to_json_line(record),
            to_json_line(found),
            summary(record),
            for_patient(record, Settings(), language("en")),
            for_clinician(record, Settings(), language("es")),
            csv_of(THRESHOLD_COLUMNS, threshold_rows(record)).decode(),
            csv_of(FINDING_COLUMNS, finding_rows(found)).decode(),
            redrawn_svg(record),
            repr(record),
        )
    )


@given(telling_pages())
def test_no_identifier_is_left_in_any_output(told: tuple[PageRecord, list[str]]) -> None:
    record, secrets = told
    (hidden,) = without_identity([record], SALT)
    text = outputs(hidden)
    assert not [secret for secret in secrets if secret in text]
    # The test can fail: the page as it was read does say them.
    assert all(secret in repr(record) for secret in secrets)


@given(telling_pages(), st.binary(min_size=16, max_size=40))
def test_what_is_left_is_a_sound_record_and_always_the_same(told: tuple[PageRecord, list[str]], salt: bytes) -> None:
    record, _ = told
    (hidden,) = without_identity([record], salt)
    assert hidden == without_identity([record], salt)[0]
    assert from_json(to_json_line(hidden)) == hidden
    assert [len(a.thresholds) for a in hidden.audiograms] == [len(a.thresholds) for a in record.audiograms]


@given(st.lists(DATES, min_size=2, max_size=6), st.binary(min_size=16, max_size=20))
def test_the_days_between_tests_of_one_patient_are_kept_across_files(days: list[date], salt: bytes) -> None:
    new: list[date] = []
    for number, when in enumerate(days):
        name = ("Kira Brandt", "BRANDT, KIRA", "Frau Kira Brandt")[number % 3]
        record = page(1, name=name, born="1890-03-04", tested_on=(when.isoformat(),), record=f"X{number}")
        record = replace(record, source=replace(record.source, name=f"{number}.pdf", sha256=f"{number:064x}"))
        (hidden,) = without_identity([record], salt)
        new.append(date.fromisoformat(hidden.audiograms[0].tested_on or ""))
    assert [a - b for a, b in zip(new, days, strict=True)] == [new[0] - days[0]] * len(days)
    assert timedelta(-365) <= new[0] - days[0] <= timedelta(-1)


def test_a_page_that_names_the_patient_by_name_alone_gets_the_cover_of_its_report() -> None:
    first = page(1, name="Kira Brandt", record="HL-1", born="1958-03-04", of="1/2", tested_on=("2019-03-14",))
    second = page(2, name="Brandt, Kira", of="2/2", tested_on=("2019-03-14",))
    one, other = without_identity([first, second], SALT)
    assert one.report.patient == other.report.patient
    assert one.audiograms[0].tested_on == other.audiograms[0].tested_on
    assert [remark.code for remark in (*one.remarks, *other.remarks)] == []


def test_patients_and_salts_have_pseudonyms_of_their_own() -> None:
    pages = [page(1, name="Kira Brandt", born="1958-03-04"), page(2, name="Jonas Holm", born="1958-03-04")]
    names = [one.report.patient for one in without_identity(pages, SALT)]
    names += [one.report.patient for one in without_identity(pages, SALT + b"!")]
    assert len(set(names)) == 4


@pytest.mark.parametrize("spelling", ["Müller, Jürgen", "JUERGEN MUELLER", "Jurgen Muller"])
def test_spellings_that_are_the_same_name_have_one_pseudonym(spelling: str) -> None:
    plain, other = (page(1, name=name, born="1958-03-04") for name in ("Jürgen Müller", spelling))
    assert without_identity([plain], SALT)[0].report.patient == without_identity([other], SALT)[0].report.patient


def test_a_page_that_names_nobody_says_that_its_pseudonym_is_uncertain() -> None:
    (hidden,) = without_identity([page(1, tested_on=("2019-03-14",))], SALT)
    assert [remark.code for remark in hidden.remarks] == ["pseudonym-uncertain"]


# Ages by hand; the birthday of 29 February by the reading of 1 March, common practice.
@pytest.mark.parametrize(
    ("born", "when", "years"),
    [("1958-03-04", "2019-03-03", 60), ("1958-03-04", "2019-03-04", 61), ("2000-02-29", "2018-02-28", 17),
     ("2000-02-29", "2018-03-01", 18), ("2019-01-01", "2019-06-01", 0)],
)  # fmt: skip
def test_the_age_is_in_whole_years_at_the_test(born: str, when: str, years: int) -> None:
    assert age_in_years(date.fromisoformat(born), date.fromisoformat(when)) == years
    (hidden,) = without_identity([page(1, name="Kira Brandt", born=born, tested_on=(when,))], SALT)
    assert [(f.value, f.written) for f in hidden.report.facts] == [(str(years), hidden.audiograms[0].tested_on)]
    assert Settings().age_at(hidden.audiograms[0], hidden.report) == years


def test_an_age_over_89_is_given_as_90_and_more() -> None:
    # 45 CFR 164.514(b)(2)(i)(C): ages over 89 may only be given in a single category of age 90 or older.
    ages = []
    for born in ("1929-03-14", "1928-03-14", "1920-01-01"):
        (hidden,) = without_identity([page(1, name="Kira Brandt", born=born, tested_on=("2018-12-01",))], SALT)
        ages += [one.value for one in hidden.report.facts]
        assert "born" not in to_json_line(hidden).replace('"born": null', "")
    assert ages == ["89", "90+", "90+"]
    (printed,) = without_identity([page(1, fact("age", "93"))], SALT)
    assert [one.value for one in printed.report.facts] == ["90+"]


def test_codes_stay_and_words_go() -> None:
    facts: tuple[Fact, ...] = (
        fact("sex", "female"), fact("transducer", "inserts, bone-vibrator"), fact("reliability", "good"),
        fact("audiometer", "Harbour 500, serial 4711"), fact("test-time", "14:05"), fact("note", "called at home"),
    )  # fmt: skip
    (hidden,) = without_identity([page(1, *facts)], SALT)
    assert [(f.name, f.value, f.written) for f in hidden.report.facts] == [
        ("sex", "female", "female"),
        ("transducer", "inserts, bone-vibrator", "inserts, bone-vibrator"),
        ("reliability", "good", "good"),
    ]


def test_the_summary_of_a_hidden_report_knows_its_pages_and_its_moved_dates() -> None:
    (group,) = group_pages([page(1, name="Kira Brandt", born="1958-03-04", tested_on=("2019-03-14",))])
    hidden = hide(group, SALT)
    assert hidden.pages == group.pages
    assert hidden.tests[0].tested_on == moved("2019-03-14", cover_of(group, SALT).days)
    assert hidden.patient.name == hidden.records[0].report.patient


def test_a_short_salt_is_refused() -> None:
    with pytest.raises(MisuseError, match="a salt of 4 bytes is too short"):
        without_identity([page(1)], b"salt")


def test_a_date_at_the_calendars_edge_is_left_out() -> None:
    assert moved("0001-01-05", 40) is None
    assert moved("14.3.2019", 40) is None
