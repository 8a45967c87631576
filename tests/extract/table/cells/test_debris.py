"""What a fax leaves of a table's rules: words that nobody wrote, and a lean that no hand gave."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
from by_hand import SIZE, sheet, word

from octavo.extract.page import Word
from octavo.extract.table.cells.ink import printed
from octavo.extract.table.cells.readings import without_debris
from octavo.extract.table.reading import seen_tables
from octavo.extract.table.rows.layout import layout_of
from octavo.extract.table.rows.lines import frequency_lines

HZ = (250, 500, 1000, 2000, 4000, 8000)
ROWS = [("right", False), ("right", False), ("left", False), ("left", False)]
LEVELS = {"R": (10, 15, 20, 30, 45, 50), "L": (5, 10, 20, 35, 60, 65)}


def twice(words: Sequence[Word]) -> tuple[Word, ...]:
    return tuple(w if w.others else replace(w, others=((w.text, 0.97),)) for w in words)


def down() -> list[Word]:
    """Print a column of frequencies, and two for each ear under its name."""
    words = [word("Hz", 160, 260), word("R", 400, 220), word("L", 700, 220)]
    for x in (350.0, 450.0, 650.0, 750.0):
        words.append(word("AC" if x in (350.0, 650.0) else "BC", x, 260))
        words += [word(f"{level}", x, 300 + 40 * i) for i, level in enumerate(LEVELS["R" if x < 500 else "L"])]
    return words + [word(f"{hz}", 160, 300 + 40 * i) for i, hz in enumerate(HZ)]


def piece(text: str, other: str, x: float, y: float, *, height: float = 7.0, chances: tuple[float, float]) -> Word:
    """Read a piece of a rule as two readers do: each sees something else, and neither is certain."""
    return replace(word(text, x, y, height=height), confidence=chances[0], others=((other, chances[1]),))


def rows_of(words: Sequence[Word]) -> list[tuple[str | None, bool]]:
    """Give the ear of each row of the only table, and whether it is doubtful."""
    page = sheet(words=twice(words), pixels=np.full((SIZE[1], SIZE[0], 3), 255, np.uint8))
    (layout,) = seen_tables(page, page.words, "two-readings").layouts
    return [(row.name.ear, row.doubtful) for row in layout.rows]


def test_pieces_of_broken_rules_between_rows_make_no_column_and_no_doubt() -> None:
    """On a coarse fax "Es" and "remee" were read in a rule: a column of the left ear, and all values asked."""
    pieces = [
        piece("Es", "remee", 850, 440, chances=(0.21, 0.23)),
        piece("a", "Per", 850, 480, chances=(0.39, 0.19)),
        piece("nrsmers", "VTLA", 200, 320, chances=(0.23, 0.10)),
    ]
    assert rows_of([*down(), *pieces]) == ROWS
    assert without_debris(twice([*down(), *pieces])) == twice(down())


def test_signs_short_names_and_numbers_are_no_pieces_of_rules() -> None:
    small = [
        replace(word("=", 300, 700, height=8.0), confidence=0.5, others=(("-", 0.4),)),
        replace(word("5", 400, 700, height=9.0), confidence=0.3, others=(("5", 0.6),)),
        replace(word("L", 500, 700), confidence=0.3, others=(("I", 0.2),)),
    ]
    assert without_debris(twice([*down(), *small])) == twice([*down(), *small])


def test_a_single_word_beside_a_table_that_one_reader_saw_makes_no_column_of_an_ear() -> None:
    """A speck read as "4" stood between the frequencies and the right ear's column, which its heading then missed."""
    lone = replace(word("4", 260, 420), confidence=0.6, others=(("", 0.4),))
    assert rows_of([*down(), lone]) == ROWS


def test_print_on_a_sheet_that_still_leans_is_not_by_hand() -> None:
    """Columns of numbers 1,100 pixels apart: a lean of 3 pixels in 1,000 put each off its line, as a hand does."""
    leaning = [replace(w, box=(w.box[0], w.box[1] + 0.003 * w.box[0], w.box[2], w.box[3] + 0.003 * w.box[0]))
               for w in twice(down())]  # fmt: skip
    (line,) = frequency_lines(leaning)
    layout = layout_of(leaning, line, ())
    assert layout is not None
    assert printed(layout)
