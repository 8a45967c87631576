"""Which letters of a drawn page are marks or arrows, and which are of a text."""

from __future__ import annotations

import pytest

from octavo.extract.eyes.marks.drawn.apart import figures
from octavo.extract.eyes.marks.drawn.lettered import lettered
from octavo.extract.page import Word

BOX = (0.0, 0.0, 500.0, 500.0)


@pytest.mark.parametrize(
    ("sign", "beside", "found"),
    [("↘", "100", True), ("]", "-10", True), ("]", "dB", False), ("A", "100", False), ("↘", "250Hz", False)],
)
def test_a_sign_close_to_a_label_of_the_axis_stands_alone(sign: str, beside: str, *, found: bool) -> None:
    # seen on a page: the arrow at 8000 Hz stood beside the 100 of the right-hand axis, and its mark stood as heard
    words = (
        Word(sign, (200, 200, 225, 225), 1.0, 0, tight=True),
        Word(sign, (100, 100, 125, 125), 1.0, 0, tight=True),
        Word(beside, (240, 205, 280, 222), 1.0, 0),
    )
    assert (words[0] in [one.word for one in lettered(words, BOX)]) == found


@pytest.mark.parametrize("bracket", ["[", "]"])
def test_a_bracket_of_a_narrow_face_is_no_stroke(bracket: str) -> None:
    # Latin Modern Roman's is 0.16 of its height wide: eight bone marks behind wide circles were neither read nor told
    words = tuple(Word(bracket, (x, 200, x + 5, 230), 1.0, 0, tight=True) for x in (100, 200))
    paths = tuple(path for one in lettered(words, BOX) for path in one.paths)
    assert [figure.is_stroke for figure in figures(paths, BOX)] == [False, False]


def test_small_letters_m_are_marks_where_several_of_one_ink_stand_alone() -> None:
    # German charts mark the uncomfortable level so [tests/published/audiometric_symbols.csv]
    loud = tuple(Word("m", (x, 400, x + 20, 415), 1.0, 0, tight=True, ink=(200, 0, 0)) for x in (100, 200))
    sound = Word("m", (300, 100, 320, 115), 1.0, 0, tight=True, ink=(90, 90, 90))
    assert [one.word for one in lettered((*loud, sound), BOX)] == [*loud]
