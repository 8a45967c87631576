"""How probable it is that a word was read right, by what three readers say of it and how sure each of them is."""

from __future__ import annotations

import json
import math
import re
from dataclasses import dataclass
from functools import lru_cache
from importlib.resources import files

from ..eyes.words.reader import LOOKALIKES
from ..page import Word
from .layout.vocabulary import plain, vocabulary

NUMBER = re.compile(r"[-+>(\[]?\d[\d.,:/]*[%*)\]]?")
"""What is printed as a number."""
ALIKE = frozenset("S5O0I1lB8Z2G6Q")
"""Capitals and digits that look like each other: in a code all readers may take one for the other."""
CAPITALS = re.compile(r"[A-Z][A-Zl]{1,3}[.,;:]?")
UNTOLD = 0.9
"""No few capitals are likelier to be right that may be digits: every reader takes them for letters, as for a word."""
LEAST_LABEL = 3
"""Fewer capitals may be a label by chance."""
ACCENT = 0.8
"""An accent that Tesseract does not see is trusted from this confidence of our network for print on: of 68 below it, on
painted pages, seven were none."""
NAMES = (
    "print", "label", "recognised", "print-against", "label-against", "recognised-against", "print-recognised",
    "print-label", "recognised-label", "all", "recognised-loosely", "label-loosely", "unrecognised", "number", "code",
    "short", "accent",
)  # fmt: skip
BEFORE, BEHIND = ",;:?!'|_`", ".,:;?!'|_`"
"""What a reader makes of specks, rules and its neighbours' ends around a word: of these no number's meaning hangs on
any, as it would on a minus or a decimal point before it."""
UNSEEN = 0.9
"""No word is likelier to be right that our networks did not find."""


@dataclass(frozen=True, slots=True)
class Said:
    """What one reader says of a word, an empty text where it saw none, and how sure it is, from 0 to 1."""

    text: str
    confidence: float


def trust_in(text: str, readers: tuple[Said, Said, Said]) -> float:
    """Give the chance that every letter and sign of a word is right.

    Parameters
    ----------
    text : str
        What the word is taken to say.
    readers : tuple of Said
        What our network for print, our network for labels (small letters without most accents) and Tesseract say.
    """
    weights, constant = _weights()
    score = constant + sum(w * e for w, e in zip(weights, evidence_of(text, readers), strict=True))
    chance = 1 / (1 + math.exp(-max(min(score, 30.0), -30.0)))
    printed, _, recognised = readers
    accent = not text.isascii() and recognised.text.isascii() and printed.confidence < ACCENT
    digits = CAPITALS.fullmatch(text) and ALIKE & set(text) and not _is_label(text)
    return min(chance, UNTOLD) if accent or digits else chance


def _is_label(text: str) -> bool:
    """Say whether some capitals are a label as a whole: digits in the place of letters would make it none."""
    bare = text.rstrip(".,;:")
    return len(bare) >= LEAST_LABEL and vocabulary().match([bare])[0] > 0


def evidence_of(text: str, readers: tuple[Said, Said, Said]) -> tuple[float, ...]:
    """Say what speaks for and against a word, in the order of ``NAMES``."""
    said = _same(text)
    printed, label, recognised = (_same(one.text) for one in readers)
    by_print = printed == said
    by_label = plain(label) == plain(said).lower()
    by_program = recognised == said or (not said.isascii() and plain(recognised) == plain(said))
    sure = [_logit(one.confidence) for one in readers]
    against = [max(one, 0.0) for one in sure]
    letters = _letters(said)
    return (
        by_print * sure[0], by_label * sure[1], by_program * sure[2],
        -(not by_print) * against[0], -(not by_label) * against[1], -(not by_program and recognised != "") * against[2],
        by_print and by_program, by_print and by_label, by_program and by_label, by_print and by_program and by_label,
        not by_program and letters != "" and _letters(recognised) == letters,
        not by_label and letters != "" and _letters(label) == letters,
        not recognised, NUMBER.fullmatch(said) is not None, _is_code(said), len(letters) <= 1, not said.isascii(),
    )  # fmt: skip


def chance_of(word: Word) -> float:
    """Give the chance that a word is right: 1 where the file itself gave it, little where one reader alone saw it."""
    if word.chance is not None:
        return word.chance
    return 1.0 if word.confidence >= 1.0 and not word.others else min(UNSEEN, word.confidence)


def _same(text: str) -> str:
    """Leave out spaces and stops around a word, and take dashes and quotes of all lengths for one."""
    whole = "".join(text.split()).translate(LOOKALIKES)
    return whole.rstrip(BEHIND).lstrip(BEFORE) or whole


def _letters(text: str) -> str:
    return "".join(c for c in plain(text).lower() if c.isalnum())


def _is_code(text: str) -> bool:
    """Say whether capitals and digits stand together that may be taken for each other: "AC5" for "ACS"."""
    capitals = any(c.isalpha() for c in text) and not any(c.islower() for c in text)
    return capitals and len(text) > 1 and any(c in ALIKE for c in text)


def _logit(chance: float) -> float:
    chance = min(max(chance, 1e-3), 1 - 1e-4)
    return math.log(chance / (1 - chance))


@lru_cache(maxsize=1)
def _weights() -> tuple[tuple[float, ...], float]:
    """Load the fitted weights (``trust.json``, with their provenance)."""
    told = json.loads(files("octavo.extract.report").joinpath("trust.json").read_text("utf-8"))
    return tuple(float(told["weights"][name]) for name in NAMES), float(told["constant"])
