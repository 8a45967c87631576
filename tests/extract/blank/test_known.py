"""Words told apart: what may stay, what must go."""

from __future__ import annotations

from octavo.extract.blank.known import known_text
from octavo.extract.blank.vocabulary import vocabulary
from octavo.extract.page import Word

HEIGHT, LETTER = 20.0, 10.0


def line(y: float, *cells: str, confidence: float = 0.95) -> list[Word]:
    """Print a line of cells with wide gaps between them, words with a space."""
    words: list[Word] = []
    x = 50.0
    for cell in cells:
        for text in cell.split():
            words.append(Word(text, (x, y, x + LETTER * len(text), y + HEIGHT), confidence))
            x += LETTER * len(text) + 6
        x += 60
    return words


def kept(*lines: list[Word], names: tuple[str, ...] = ()) -> str:
    words = [word for one in lines for word in one]
    told = known_text(words, vocabulary().without(names), usual=HEIGHT)
    boxes = {word.box: word.text for word in words}
    return " ".join(boxes[box] for box in told.kept)


def test_a_table_of_results_stays() -> None:
    assert kept(line(10, "SRT (dB)", "WRS (%)"), line(60, "Right", "25", "96")) == "SRT (dB) WRS (%) Right 25 96"


def test_one_unknown_word_takes_its_whole_cell_with_it() -> None:
    assert kept(line(10, "Right ear Brandt")) == ""


def test_what_follows_a_label_of_identity_goes_whatever_it_says() -> None:
    assert kept(line(10, "Name:", "Noise List", "SRT 25")) == "SRT 25"
    assert kept(line(10, "Record no. 204 13")) == ""


def test_a_bare_number_goes_and_so_does_one_after_an_unknown_cell() -> None:
    assert kept(line(10, "54")) == ""
    assert kept(line(10, "Right", "Brandt", "25")) == "Right"


def test_a_word_in_doubt_or_of_an_odd_size_is_unknown() -> None:
    assert kept(line(10, "Right", confidence=0.3)) == ""
    assert kept([Word("Right", (0, 0, 900, 400), 0.99), *line(500, "Left ear", "Right ear", "SRT", "WRS dB")]) == (
        "Left ear Right ear SRT WRS dB"
    )


def test_a_surname_that_is_a_harmless_word_goes_where_it_is_known_as_a_name() -> None:
    assert kept(line(10, "Noise level"), names=("Noise",)) == ""
