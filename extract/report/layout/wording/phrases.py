"""The wordings that say something of a value beside them, in all languages, and where they stand."""

from __future__ import annotations

import functools
import tomllib
from collections.abc import Sequence
from typing import Literal

from ..tokens import Token
from ..vocabulary import LABELS, bare, parts_of

Meaning = Literal["earlier", "norm", "since", "beyond", "about", "place", "link", "quantity", "hearing"]


@functools.cache
def wordings(meaning: Meaning) -> tuple[tuple[str, ...], ...]:
    """Give the wordings of a meaning in all languages (``wording.toml``), each in its bare parts."""
    told = tomllib.loads((LABELS / "wording.toml").read_text("utf-8"))[meaning]
    texts = (text for of_language in told.values() for text in of_language)
    return tuple(dict.fromkeys(tuple(bare(part) for part in parts_of(text)) for text in texts))


@functools.cache
def words_of(meaning: Meaning) -> frozenset[str]:
    """Give every single word of a meaning's wordings."""
    return frozenset(word for one in wordings(meaning) for word in one)


def spoken(tokens: Sequence[Token]) -> list[str]:
    """Give the bare words, numbers and signs of tokens."""
    return [bare(part) for one in tokens for part in parts_of(one.text)]


def says(words: Sequence[str], meaning: Meaning) -> bool:
    """Say whether a wording of a meaning stands among words."""
    known = _by_first_word(meaning)
    return any(
        tuple(words[at : at + len(one)]) == one for at, word in enumerate(words) if word in known for one in known[word]
    )


@functools.cache
def _by_first_word(meaning: Meaning) -> dict[str, list[tuple[str, ...]]]:
    known: dict[str, list[tuple[str, ...]]] = {}
    for one in wordings(meaning):
        known.setdefault(one[0], []).append(one)
    return known


def begins(words: Sequence[str], meaning: Meaning) -> bool:
    """Say whether words begin with a wording of a meaning."""
    return any(tuple(words[: len(one)]) == one for one in wordings(meaning))


def ends(words: Sequence[str], meaning: Meaning) -> bool:
    """Say whether words end with a wording of a meaning."""
    return any(tuple(words[-len(one) :]) == one for one in wordings(meaning))


def ear_behind(cell: Sequence[Token], at: int) -> int | None:
    """Give where the ear stands that words such as "in the" join to the value before it; None where none does."""
    joined = False
    for number in range(at + 1, len(cell)):
        one = cell[number]
        if one.kind == "label" and one.meanings & {"right", "left", "both"}:
            return number if joined else None
        if one.kind == "unit":
            continue
        small = one.text[:1].islower() and not one.glued
        if one.kind == "sign" or not small or not words_of("place").issuperset(spoken([one])):
            return None
        joined = True
    return None
