"""The quick search for the most like word against the one of the standard library (difflib)."""

from __future__ import annotations

import difflib

import numpy as np
import pytest

from octavo.extract.likeness import Likeness

KNOWN = ("threshold", "masking", "masked", "average", "reflex", "discrimination", "score", "tympanogram", "ear")


def _slipped(word: str, chance: np.random.Generator) -> str:
    letters = list(word)
    for _ in range(chance.integers(4)):
        at = chance.integers(len(letters))
        how = chance.integers(3)
        if how == 0:
            letters[at] = str(chance.choice(list("aeimnrstßé5")))
        elif how == 1 and len(letters) > 1:
            del letters[at]
        else:
            letters.insert(at, str(chance.choice(list("aeimnrst"))))
    return "".join(letters)


@pytest.mark.parametrize("least", [0.6, 0.78, 0.83])
def test_the_most_like_word_is_the_one_that_difflib_gives(least: float) -> None:
    chance = np.random.default_rng(7)
    likeness = Likeness(KNOWN, least)
    for _ in range(600):
        word = _slipped(str(chance.choice(KNOWN)), chance)
        wanted = difflib.get_close_matches(word, KNOWN, 1, least)
        assert likeness.nearest(word) == (wanted[0] if wanted else None), word


def test_no_word_is_like_none() -> None:
    assert Likeness((), 0.8).nearest("ear") is None
    assert Likeness(KNOWN, 0.8).nearest("") is None
    assert Likeness(KNOWN, 0.8).nearest("x" * 1000) is None
