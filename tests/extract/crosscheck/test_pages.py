"""The same test on two pages."""

from __future__ import annotations

from octavo.extract.crosscheck import same_test_twice
from octavo.interpret.record import Audiogram, PageRecord, Source, Threshold


def page(level: float, date: str | None = "2024-03-01", *, number: int = 1) -> PageRecord:
    value = Threshold("left", "air", False, 1000.0, level, standing="sure")
    source = Source("file.pdf", "0" * 64, number, 2, "drawn")
    return PageRecord(source, "sure", (Audiogram(date, thresholds=(value,)),))


def test_two_pages_of_one_test_that_differ_both_ask() -> None:
    found = same_test_twice((page(30), page(40, number=2)))
    assert [record.standing for record in found] == ["ask", "ask"]
    assert {t.why_ask for r in found for a in r.audiograms for t in a.thresholds} == {("pages-differ",)}
    assert [a.thresholds[0].level_db_hl for r in found for a in r.audiograms] == [30, 40]


def test_two_pages_that_agree_or_are_two_tests_or_undated_stay() -> None:
    for pair in (
        (page(30), page(30, number=2)),
        (page(30), page(40, "2025-03-01", number=2)),
        (page(30, None), page(40, None, number=2)),
    ):
        assert same_test_twice(pair) == pair
