"""Symbol sets under which a page would show one thing by two signs."""

from __future__ import annotations

import pytest
from by_hand import row

from octavo.extract.chart import Mark
from octavo.extract.meaning.symbols.convention import convention

HERTZ = (500, 1000, 2000, 4000)
AIR = (*row("circle", dict.fromkeys(HERTZ, 20)), *row("cross", dict.fromkeys(HERTZ, 25)))
BRACKETS = (*row("bracket-left", dict.fromkeys(HERTZ, 15)), *row("bracket-right", dict.fromkeys(HERTZ, 15)))


def open_glyphs(*marks: Mark) -> set[str]:
    return set(convention((*AIR, *marks), key=(), asked=None).open_glyphs)


def test_brackets_beside_a_row_of_carets_are_masked_bone() -> None:
    # ASHA 1990: the caret is unmasked bone of no named ear; JIS T 1201 draws all unmasked bone by brackets
    carets = row("caret", dict.fromkeys(HERTZ, 10))
    chosen = convention((*AIR, *BRACKETS, *carets), key=(), asked=None)
    assert (chosen.symbol_set.id, chosen.open_glyphs) == ("asha-1990", frozenset())
    assert open_glyphs(*BRACKETS, *carets[:2]) == {"bracket-left", "bracket-right"}


@pytest.mark.parametrize(("letters", "open_there"), [(4, set()), (2, {"letter-m", "letter-u"})])
def test_the_letter_m_beside_a_row_of_u_is_comfortable_loudness(letters: int, open_there: set[str]) -> None:
    loud = row("letter-u", dict.fromkeys(HERTZ[:letters], 100))
    assert open_glyphs(*row("letter-m", dict.fromkeys(HERTZ, 60)), *loud) == open_there
