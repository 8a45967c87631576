"""Words beside marks that say that there was no response."""

from __future__ import annotations

from dataclasses import replace

import pytest
from by_hand import chart, mark, row, sheet, word, x_of, y_of

from octavo.extract.choices import Choices
from octavo.extract.meaning import mean
from octavo.extract.page import Word
from octavo.interpret.record import Threshold

LEVELS = {250: 30, 500: 40, 1000: 60, 2000: 90, 4000: 100}


def read(*words: Word) -> dict[float, Threshold]:
    reading = mean(sheet(words=words), (), (chart(*row("circle", LEVELS, "red"), *row("cross", LEVELS, "blue")),),
                   Choices("asha-1990"))  # fmt: skip
    return {t.frequency_hz: t for t in reading.audiograms[0].thresholds if t.ear == "right"}


def beside(text: str, hz: int, dx: float = -20.0, dy: float = 10.0) -> Word:
    return word(text, x_of(hz) + dx, y_of(LEVELS[hz]) + dy, height=9.0)


@pytest.mark.parametrize("text", ["NR", "nr", "N.R.", "NR?", "NRNR"])
def test_a_mark_beside_which_no_response_is_written_does_not_stand_as_heard(text: str) -> None:
    # ten values of a page stood as heard, surely: it printed NR where others hang an arrow
    values = read(beside(text, 4000))
    assert (values[4000].standing, values[4000].response) == ("ask", False)
    assert "arrow-uncertain" in values[4000].why_ask
    assert values[250].why_ask == ()


def test_an_unread_word_beside_a_mark_may_say_the_same_where_others_do() -> None:
    values = read(beside("NR", 4000), beside("", 2000, dx=-16.0))
    assert (values[2000].standing, values[2000].response) == ("ask", True)


def test_letters_of_it_in_a_note_far_from_all_marks_say_nothing_of_them() -> None:
    # one "nr" in a hand's remark made every mark ask beside which something was written
    note = word("nr", x_of(1000), y_of(110), height=9.0)
    values = read(note, beside("", 2000, dx=-16.0))
    assert {t.standing for t in values.values()} == {"sure"}


def test_a_value_at_a_level_that_was_not_heard_elsewhere_may_have_lost_its_word() -> None:
    marks = row("circle", {1000: 90, 2000: 90, 4000: 100}, "red")
    reading = mean(sheet(words=(word("NR", x_of(1000) - 20, y_of(90) + 10, height=9.0),)), (), (chart(*marks),),
                   Choices("asha-1990"))  # fmt: skip
    asked = {t.frequency_hz: "arrow-uncertain" in t.why_ask for t in reading.audiograms[0].thresholds}
    assert asked == {1000: True, 2000: True, 4000: False}


@pytest.mark.parametrize(("text", "asks"), [("n", True), ("NK", True), ("nnr", True), ("R", False), ("noise", False)])
def test_letters_of_it_that_ran_together_ask_where_an_audiometer_may_end(text: str, asks: bool) -> None:
    # on a copy a thick NR was read as "n": its mark stood as heard, surely
    wide = (-30.0, 4.0, -8.0, 14.0)  # as two letters are, whatever was read of them
    at = {hz: (x_of(hz), y_of(LEVELS[hz])) * 2 for hz in (500, 4000)}
    boxes = {hz: (x + wide[0], y + wide[1], u + wide[2], v + wide[3]) for hz, (x, y, u, v) in at.items()}
    values = read(*(replace(beside(text, hz), box=box) for hz, box in boxes.items()))
    assert (values[4000].standing == "ask") == asks
    assert values[4000].response
    assert values[500].standing == "sure"


@pytest.mark.parametrize("text", ["sh", "Nora", "", "90", "R"])
def test_other_words_beside_a_mark_say_nothing_of_its_response(text: str) -> None:
    assert all("arrow-uncertain" not in t.why_ask for t in read(beside(text, 4000)).values())


def test_a_mark_that_was_read_as_letters_is_no_word_beside_itself() -> None:
    values = read(word("nr", x_of(4000), y_of(100)))
    assert values[4000].response


def test_letters_that_were_seen_as_a_mark_still_say_that_there_was_no_response() -> None:
    letters = replace(mark("letter-m", 4000, 102, "red", beside=-0.2), frequency_hz=4000.0)
    measured = chart(*row("circle", LEVELS, "red"), letters)
    reading = mean(sheet(words=(beside("NR", 4000),)), (), (measured,), Choices("asha-1990"))
    (value,) = (t for t in reading.audiograms[0].thresholds if t.frequency_hz == 4000 and t.measure == "threshold")
    assert not value.response


def test_the_words_of_another_place_on_the_sheet_are_none_of_the_charts() -> None:
    assert all(t.response for t in read(word("NR", x_of(1000), 1100)).values())


def test_a_mark_keeps_its_response_where_the_word_stands_beside_another() -> None:
    both = mean(
        sheet(words=(word("NR", x_of(1000) + 18, y_of(60) + 8, height=9),)), (),
        (chart(*row("circle", LEVELS, "red"), mark("cross", 1000, 75, "blue"), mark("cross", 500, 75, "blue")),),
        Choices("asha-1990"),
    )  # fmt: skip
    heard = {(t.ear, t.frequency_hz): t.response for t in both.audiograms[0].thresholds}
    assert not heard["right", 1000]
    assert heard["left", 1000]
