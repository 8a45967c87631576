"""Which letters of a drawn page are marks or arrows, and which are of a text."""

from __future__ import annotations

import pytest

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
