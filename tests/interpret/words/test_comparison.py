"""Words for tests against each other."""

from __future__ import annotations

from dataclasses import replace

from invented_pages import asked, page, value

from octavo.interpret.record import Audiogram, PageRecord, Report, Threshold
from octavo.interpret.rules.change.comparison import compare, sittings_of
from octavo.interpret.settings import Settings
from octavo.interpret.words.comparison import WIDTH, comparison_text
from octavo.interpret.words.languages import LANGUAGES

HZ = (500, 1000, 2000, 3000, 4000, 6000)


def sheet(date: str, levels: tuple[float, ...], *more: Threshold, born: str | None = "1979-03-14") -> PageRecord:
    values = tuple(value("right", hz, db) for hz, db in zip(HZ, levels, strict=False))
    record = page(Audiogram(date, thresholds=(*values, *more)), report=Report(patient="Ines Invented", born=born))
    return replace(record, source=replace(record.source, name=f"harbour-lane-{date}.pdf", sha256=date[3] * 64))


def told(old: PageRecord, new: PageRecord, settings: Settings | None = None, language: str = "en") -> str:
    return comparison_text(compare(sittings_of((old, new)), settings), LANGUAGES[language])


OLD, NEW = sheet("2019-01-10", (10, 10, 10, 15, 20, 20)), sheet("2021-01-10", (10, 20, 25, 30, 40, 20))


def test_old_new_and_change_stand_below_one_another() -> None:
    lines = told(OLD, NEW).splitlines()
    at = lines.index("Right, air, dB HL")
    assert lines[at + 1].split() == ["Hz", "500", "1k", "2k", "3k", "4k", "6k"]
    assert lines[at + 2].split() == ["old", "10", "10", "10", "15", "20", "20"]
    assert lines[at + 3].split() == ["new", "10", "20", "25", "30", "40", "20"]
    assert lines[at + 4].split() == ["change", "0", "+10", "+", "+15", "++", "+15", "++", "+20", "++", "0"]


def test_the_shift_is_named_by_its_rule() -> None:
    # Means at 2, 3 and 4 kHz 15 and 31.7 dB.
    text = " ".join(told(OLD, NEW).split())
    assert "Standard threshold shift, 29 CFR 1910.95: right met, 16.7 dB (old mean 15, new mean 31.7)" in text


def test_without_sex_it_says_that_age_was_not_corrected_for() -> None:
    assert "no age correction" in told(OLD, NEW)
    with_age = told(OLD, NEW, Settings(sex="female"))
    assert "no age correction" not in with_age
    assert "appendix F" in with_age


def test_a_value_to_look_at_and_one_not_heard_are_marked() -> None:
    new = sheet("2021-01-10", (10, 20), asked("right", 2000, 25, "faint"), value("right", 3000, 90, response=False))
    change = next(line for line in told(OLD, new).splitlines() if line.strip().startswith("change"))
    assert change.split() == ["change", "0", "+10", "+", "+15", "++?", ">+75", "++"]


def test_nobody_is_named_and_lines_fit() -> None:
    text = told(OLD, NEW, Settings(sex="male"))
    assert "Invented" not in text
    assert max(map(len, text.splitlines())) <= WIDTH


def test_spanish_is_spanish() -> None:
    text = told(OLD, NEW, language="es")
    assert "2021-01-10 (harbour-lane-2021-01-10.pdf, edad 42) comparada con 2019-01-10" in text.replace("\n", " ")
    assert "quizá peor" in text
