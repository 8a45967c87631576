"""A page whose title says that an audiogram is on it, and of whose chart nothing can be read."""

from __future__ import annotations

import numpy as np
import pytest
from by_hand import page, word

from octavo.extract.choices import Choices
from octavo.extract.page import Word
from octavo.extract.report.layout.wording.titles import titled_audiogram
from octavo.extract.road import read_page

TEXT = tuple(word(text, 120 + 90 * i, 400) for i, text in enumerate(("Name:", "Date:", "Examiner:", "Remarks:", "ear")))


def title(*texts: str, height: float = 30.0) -> tuple[Word, ...]:
    return tuple(word(text, 200 + 220 * i, 100, height=height) for i, text in enumerate(texts))


@pytest.mark.parametrize("text", ["AUDIOGRAM", "Audiogramme", "Audiograma", "Tonaudiogramm", "TONSCHWELLENAUDIOGRAMM"])
def test_a_lost_chart_under_its_title_is_told(text: str) -> None:
    # seen on a black-and-white scan of a brown form: labels and grid were gone, and the page passed as none
    record = read_page(page(np.full((1200, 1000, 3), 255, np.uint8), (*TEXT, *title(text))), Choices())
    assert {remark.code for remark in record.remarks} == {"chart-not-read"}
    assert record.standing == "ask"


@pytest.mark.parametrize(
    "words",
    [title("Speech", "audiogram"), title("Tympanogram"), title("Audiologist"), title("Sprachaudiogramm")],
    ids=lambda words: " ".join(w.text for w in words),
)
def test_titles_of_other_sheets_name_no_audiogram(words: tuple[Word, ...]) -> None:
    assert not titled_audiogram((*TEXT, *words))


def test_a_letter_may_speak_of_an_audiogram_that_is_elsewhere() -> None:
    record = read_page(
        page(np.full((1200, 1000, 3), 255, np.uint8), (*TEXT, *title("the", "audiogram", height=14))), Choices()
    )
    assert {remark.code for remark in record.remarks} == {"no-audiogram"}
