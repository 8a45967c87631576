"""Labels with misread letters: whatever may be misread is still found, however labels are looked for."""

from __future__ import annotations

import pytest

from octavo.extract.page import Word
from octavo.extract.report.facts.printed.labels import labels_of, slips_allowed
from octavo.extract.report.facts.printed.vocabulary import Phrase, vocabulary
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
