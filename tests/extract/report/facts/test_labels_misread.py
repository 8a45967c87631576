"""Labels with misread letters: whatever may be misread is still found, however labels are looked for."""

from __future__ import annotations

import pytest

from octavo.extract.page import Word
from octavo.extract.report.facts.printed.labels import labels_of
from octavo.extract.report.facts.printed.pairs import pairs_of
from octavo.extract.report.facts.printed.spelling import slips_allowed
from octavo.extract.report.facts.printed.vocabulary import Phrase, vocabulary
from octavo.extract.report.facts.texts import fits
from octavo.extract.report.lines import lines_of

PHRASES = [phrase for phrase in vocabulary().labels if slips_allowed(len(phrase.letters))]


def meanings(letters: str) -> set[str]:
    """Read a label of these letters, and a value."""
    words = (Word(f"{letters}:", (10, 10, 10 + 8 * len(letters), 24), 0.9), Word("x", (500, 10, 508, 24), 0.9))
    return {name for label in labels_of(lines_of(words)) for name in label.names}


@pytest.mark.parametrize("at", [0, 3, -1])
def test_a_label_with_a_letter_misread_dropped_or_added_is_found_wherever_that_is(at: int) -> None:
    """By the rule of ``slips_allowed``: a wording of five letters is known with one of them misread."""
    lost: list[Phrase] = []
    for phrase in PHRASES[::7]:
        letters = phrase.letters
        k = at % len(letters)
        spoiled = (
            letters[:k] + "x" + letters[k + 1 :],
            letters[:k] + letters[k + 1 :],
            letters[:k] + "x" + letters[k:],
        )
        # another wording may be nearer still: what counts is that a label was found
        lost += [phrase for one in spoiled if not meanings(one)]
    assert not lost


def row(y: float, *words: str) -> list[Word]:
    """Words of a line with single spaces; "|" leaves a wide gap."""
    found, x = [], 40.0
    for text in words:
        if text == "|":
            x += 60
            continue
        found.append(Word(text, (x, y, x + 10 * len(text), y + 16), 0.95))
        x += 10 * len(text) + 6
    return found


def test_labels_of_a_page_without_colons_end_at_a_space_where_there_are_several() -> None:
    lines = lines_of((
        *row(10, "Name", "Petra", "Tarrant", "|", "D.O.B.", "03/11/1995", "|", "Patient", "no.", "325008"),
        *row(40, "Examination", "date", "04/06/2012", "|", "Audiometer", "Gannet", "12"),
    ))  # fmt: skip
    names = [sorted(label.names) for label in labels_of(lines)]
    assert names == [["patient-name"], ["birth-date"], ["record-number"], ["test-date"], ["audiometer"]]


def test_a_sentence_that_begins_like_a_label_announces_nothing() -> None:
    lines = lines_of((*row(10, "Patient", "reports", "ringing"), *row(40, "Date", "palms", "grow", "here")))
    assert labels_of(lines) == ()


def said(*rows: list[Word]) -> list[tuple[str, str]]:
    """Give every fact's name that the rows announce, and the words that they do it with."""
    lines = lines_of([word for one in rows for word in one])
    return [(next(iter(pair.label.names)), pair.text) for pair in pairs_of(lines, labels_of(lines), fits)]


def test_a_value_below_its_label_that_is_worded_like_a_label_is_a_value() -> None:
    page = said(row(10, "Name:", "Ada"), row(40, "Born:", "1980-03-02"), row(70, "Reason:"), row(100, "Follow-up"),
                row(130, "Remarks:", "none"))  # fmt: skip
    assert ("reason", "Follow-up") in page


def test_a_german_choice_two_letters_short_of_a_label_is_no_label() -> None:
    """``schlecht`` (poor) is not ``Geschlecht`` (sex)."""
    page = said(row(10, "Name:", "Ada"), row(40, "Geb.:", "1980-03-02"), row(70, "Datum:", "2019-03-02"),
                row(100, "Zuverlässigkeit:"), row(130, "schlecht"))  # fmt: skip
    assert ("reliability", "schlecht") in page


def test_in_the_words_of_a_file_no_letter_is_misread() -> None:
    told = [Word(word.text, word.box) for word in row(10, "Reasom:", "tinnitus")]
    assert not labels_of(lines_of(told))


def test_a_label_whose_bracket_only_the_other_reading_saw_is_found() -> None:
    (label, value) = row(10, "Néferle:", "12/01/1947")
    label = Word(label.text, label.box, 0.9, others=(("Né(e)le:", 0.8),))
    assert [one.names for one in labels_of(lines_of([label, value]))] == [frozenset({"birth-date"})]


def read_pairs(*words: Word) -> list[tuple[list[str], str]]:
    lines = lines_of(words)
    return [(sorted(pair.label.names), pair.text) for pair in pairs_of(lines, labels_of(lines), fits)]


def test_a_number_before_a_label_is_the_last_word_of_the_value_before() -> None:
    """ "Room 4 Calibration:" gave the audiometer "borrowed from Room": the 4 passed for a letter of the label."""
    words = row(10, "Audiometer:", "borrowed", "from", "Room", "4", "Calibration:", "unknown")
    assert read_pairs(*words) == [(["audiometer"], "borrowed from Room 4"), (["calibration-date"], "unknown")]


def test_a_speck_before_a_label_leaves_it_the_first_of_its_cell() -> None:
    words = (*row(10, "F", "Patient:"), *row(34, "Ada", "Kestrel"))
    assert read_pairs(*words) == [(["patient-name"], "Ada Kestrel")]


def test_both_is_no_misread_booth() -> None:
    assert read_pairs(*row(10, "Both:", "92", "%", "at", "60", "dB")) == [(["other"], "92 % at 60 dB")]


def test_a_value_that_begins_a_pixel_before_its_label_is_not_the_column_s_before() -> None:
    """A sex was lost: "F 09" was read, since "09.01.2002" began a pixel left of "Born:"."""
    words = (*row(10, "Sex:", "|", "|", "|", "|", "Born:"),)
    born = words[-1].box[0]
    below = (Word("F", (40, 34, 50, 50), 0.95), Word("09.01.2002", (born - 1, 34, born + 100, 50), 0.95))
    assert read_pairs(*words, *below) == [(["sex"], "F"), (["birth-date"], "09.01.2002")]


def test_a_short_word_at_the_end_of_a_value_close_before_the_next_column_stays_there() -> None:
    words = (*row(10, "Place:", "|", "|", "|", "Sex:"),)
    end = words[-1].box[0] - 2
    below = (
        Word("Harbour", (40, 34, 120, 50), 0.95),
        Word("Booth", (126, 34, end - 12, 50), 0.95),
        Word("1", (end - 6, 34, end, 50), 0.95),
        Word("F", (end + 20, 34, end + 30, 50), 0.95),
    )
    assert read_pairs(*words, *below)[0] == (["place"], "Harbour Booth 1")


def test_a_value_that_begins_with_its_own_label_s_word_is_one_on_a_page_without_colons() -> None:
    """Of "Test site  Room 14" nothing was left: the room was a label for "14"."""
    words = (
        *row(10, "Name", "Petra", "Tarrant", "|", "D.O.B.", "03/11/1995", "|", "Patient", "no.", "325008"),
        *row(40, "Test", "site", "|", "Room", "14"),
        *row(70, "Examination", "date", "04/06/2012", "|", "Audiometer", "Gannet", "12"),
    )
    assert (["place"], "Room 14") in read_pairs(*words)


def test_a_word_behind_a_comma_is_no_label_without_a_colon() -> None:
    """Of "Harbour Lane, Booth1" the place "Harbour Lane" stood as sure: its last word passed for a misread label."""
    words = row(10, "Clinic:", "|", "Harbour", "Lane,", "Centre1", "|", "Audiometer:", "|", "Breakwater", "40")
    assert read_pairs(*words) == [(["place"], "Harbour Lane, Centre1"), (["audiometer"], "Breakwater 40")]
    wide = [Word(w.text, (w.box[0] + 4 * (k >= 3), *w.box[1:]), 0.95) for k, w in enumerate(words)]
    assert read_pairs(*wide)[0] == (["place"], "Harbour Lane, Centre1")
