"""Whether a page can hold a table at all, which is asked before its words are read anew."""

from octavo.extract.page import Word
from octavo.extract.table.unread import may_hold_table

HEADS = ("125", "250", "500", "1000", "2000", "4000", "8000")


def _row(texts: tuple[str, ...], top: float) -> list[Word]:
    """Give words of a printed line, each under the one of its column."""
    return [Word(text, (100.0 + 80 * i, top, 140.0 + 80 * i, top + 20), 1.0) for i, text in enumerate(texts) if text]


def test_a_chart_alone_is_not_searched_for_names_of_a_table() -> None:
    words = [*_row(HEADS, 100), Word("Right", (20, 60, 80, 80), 1.0), Word("40", (500, 900, 530, 920), 1.0)]
    assert not may_hold_table(words, 3)


def test_a_row_of_levels_may_be_a_table() -> None:
    assert may_hold_table([*_row(HEADS, 100), *_row(("10", "15", "20"), 150)], 3)


def test_a_table_of_which_every_arrow_was_read_as_a_figure_is_not_left_out() -> None:
    """1051 is 105 with an arrow: no response at any frequency."""
    assert may_hold_table([*_row(HEADS, 100), *_row(("1051", "1101", "1151", "1201"), 150)], 3)


def test_frequencies_of_a_row_are_no_levels() -> None:
    """125 might be one: three charts side by side show it three times."""
    rows = [*_row(HEADS, 100), *_row(HEADS, 600), *_row(HEADS, 1100)]
    assert not may_hold_table(rows, 3)
