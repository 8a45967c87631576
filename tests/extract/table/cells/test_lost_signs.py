"""Levels that stand without a sign of masking where a table has signs, and theirs may not have been read."""

from __future__ import annotations

from octavo.extract.page import Word
from octavo.extract.table.cells.cells import cells_of
from octavo.extract.table.look.levels import Look
from octavo.extract.table.rows.lines import line_of
from octavo.extract.table.rows.row import Layout, Row
from octavo.extract.table.rows.vocabulary import Name


def doubts(
    high: float, *texts: tuple[str, str], notes: dict[str, bool] | None = None, second: dict[str, str] | None = None
) -> list[tuple[str, ...]]:
    """Read one row of cells, each as the words' reader has it and as the networks do; give the doubts of each.

    ``second`` gives what the second reader of words saw where that is something else.
    """

    def word(text: str, x: float, y: float) -> Word:
        other = (second or {}).get(text, text)
        return Word(text, (x - 10, y - high / 2, x + 10, y + high / 2), others=((other, 0.9),))

    places = [100.0 + 80.0 * i for i in range(len(texts))]
    line = line_of([(word(f"{hz}", x, 50.0), float(hz)) for x, hz in zip(places, (500, 1000, 2000), strict=False)], 0)
    cells = tuple((word(text, x, 90.0),) for (text, _), x in zip(texts, places, strict=True))
    row = Row(Name(ear="right", conduction="air", known=2), 90.0, cells, doubtful=False, heir=False)
    looks = {(0, i): Look(said, 9.0, 9.0, 0.0, 0.0, agreed=True, alone=False) for i, (_, said) in enumerate(texts)}
    return [cell.doubts for cell in cells_of(Layout(line, (row,), 0), notes or {}, looks)]


def test_half_a_bracket_in_one_reading_lets_the_level_ask() -> None:
    # "55]" between two rules of a scan in print of 5 points was "[55]", masked
    found = doubts(20.0, ("[40]", "[40]"), ("55]", "55"), ("60", "60"))
    assert ["masking-uncertain" in some for some in found] == [False, True, False]


def test_print_too_small_for_brackets_asks_where_the_page_has_them() -> None:
    assert all("masking-uncertain" in some for some in doubts(10.0, ("40", "40"), ("55", "55"), notes={"[]": True}))
    assert not any(doubts(10.0, ("40", "40"), ("55", "55")))


def test_a_loud_level_that_one_reader_sees_a_sign_behind_asks_where_the_table_has_arrows() -> None:
    # "110" and "110]" for 110 with an arrow: two levels that were not heard stood as heard, and confirmed the chart's
    texts = (("110↓", "110↓"), ("105", "105"), ("20", "20"))
    found = doubts(20.0, *texts, second={"105": "105]", "20": "20]"})
    assert ["arrow-uncertain" in some for some in found] == [False, True, False]
    assert not any("arrow-uncertain" in some for some in doubts(20.0, *texts[1:], second={"105": "105]"}))
