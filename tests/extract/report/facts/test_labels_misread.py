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
