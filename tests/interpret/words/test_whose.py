"""Which pages belong together, in words."""

from __future__ import annotations

from octavo.interpret.record import PageRecord, Report, Source
from octavo.interpret.reports.groups import group_pages
from octavo.interpret.words.whose import who_is_who


def pile(*names: str | None) -> list[PageRecord]:
    return [
        PageRecord(Source("pile\x1b.pdf", "5e" * 32, number, len(names), "scan"), "sure", report=Report(name))
        for number, name in enumerate(names, 1)
    ]


def test_pages_in_a_row_are_told_as_a_range() -> None:
    text = who_is_who(group_pages(pile(*["Kira Brandt"] * 3, "Jonas Holm", "Kira Brandt")))
    assert "- Report 1, pages 1-3, 5: no test; to check" in text
    assert "- Report 2, page 4: no test" in text


def test_nobody_is_named_and_nothing_steers_the_terminal() -> None:
    text = who_is_who(group_pages(pile("Kira Brandt", "Jonas Holm")))
    assert "Kira" not in text
    assert text.replace("\n", "").isprintable()
    assert max(map(len, text.splitlines())) <= 100


def test_a_file_that_names_nobody_says_so_once() -> None:
    text = who_is_who(group_pages(pile(None, None)))
    assert "no page says whose it is" in text
    assert text.count("\n") <= 1
