"""Cells of a line: which hold values, which name what stands below them, and which are titles."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import pairwise

from ...eyes.words.numbers import STANDARD_HZ
from .tokens import Box, Row, Token

PARTS = frozenset({"speech", "tympanometry", "reflexes", "emissions", "dpoae", "teoae"})
ELSEWHERE = frozenset({"tones", "other"})
VALUE_SIGNS = frozenset({"absent", "present", "not_tested", "pass", "refer", "no_peak", "yes", "no"})
"""Labels that stand where numbers do."""
AT_ONCE = frozenset({"level", "masking", "words", "list", "noise_ratio", "probe"})
"""Labels that mean the number after them in their cell, and no further one."""
LEAST_TONE_HZ = 250.0
FEWEST_WORDS = 2
"""A sentence has so many words at least that are no labels."""


def segments(row: Row) -> list[tuple[Token, ...]]:
    """Take a line apart where a cell with a label follows values."""
    parts: list[list[Token]] = [[]]
    for before, token in pairwise((None, *row.tokens)):
        assert token is not None
        new_cell = before is not None and before.cell != token.cell
        is_label = token.kind == "label" and not token.meanings & VALUE_SIGNS
        if new_cell and is_label and any(is_content(one) for one in parts[-1]):
            parts.append([])
        parts[-1].append(token)
    return [tuple(part) for part in parts]


def is_head(cell: Iterable[Token]) -> bool:
    """Say whether a cell names what stands beside or below it, and holds no value of its own."""
    tokens = list(cell)
    if not any(one.kind == "label" or one.kind == "unit" for one in tokens):
        return False
    return not any(one.kind == "number" and is_free(tuple(tokens), one) for one in tokens)


def is_title(cell: Iterable[Token]) -> bool:
    """Say whether a cell is the title of a part of the report: it names one, and nothing that is measured in it."""
    tokens = list(cell)
    meanings = frozenset(meaning for one in tokens for meaning in one.meanings)
    return bool(meanings & (PARTS | ELSEWHERE)) and is_head(tokens)


def is_sentence(cell: Sequence[Token]) -> bool:
    """Say whether a cell is a text that ends in a full stop, as "Ringing in both ears.": it heads nothing."""
    return cell[-1].text == "." and sum(one.kind == "word" for one in cell) >= FEWEST_WORDS


def box_of(tokens: Iterable[Token]) -> Box:
    """Give the box around tokens."""
    lefts, tops, rights, bottoms = zip(*(token.box for token in tokens), strict=True)
    return min(lefts), min(tops), max(rights), max(bottoms)


def is_bracketed(tokens: list[Token], token: Token) -> bool:
    """Say whether a token of a cell stands in brackets."""
    at = tokens.index(token)
    return any(one.text == "(" for one in tokens[:at]) and any(one.text == ")" for one in tokens[at:])


def is_free(part: tuple[Token, ...], token: Token) -> bool:
    """Say whether a token is a value, and not a frequency or in brackets behind a label."""
    if token.kind == "number":
        tones = [one for one in part if _may_be_tone(one)]
        named = token.unit in ("Hz", "kHz") or (token in tones and len(tones) > 1)
        return not named and not is_bracketed(list(part), token)
    return token.kind == "dash" or bool(token.meanings & VALUE_SIGNS)


def _may_be_tone(token: Token) -> bool:
    """Say whether a number without a unit is too high for a level and an audiometric frequency."""
    return (
        token.kind == "number"
        and token.unit is None
        and (token.value or 0) >= LEAST_TONE_HZ
        and token.value in STANDARD_HZ
    )


def is_content(token: Token) -> bool:
    """Say whether a token says something that is no label."""
    return token.kind in ("number", "dash", "word") or bool(token.meanings & VALUE_SIGNS)


def content_of(cell: Iterable[Token]) -> list[Token]:
    tokens = list(cell)
    if any(one.kind == "label" and not one.meanings & (VALUE_SIGNS | AT_ONCE) for one in tokens):
        return []
    return [one for one in tokens if is_content(one)]


def cells_of(tokens: Sequence[Token]) -> list[tuple[Token, ...]]:
    return [
        tuple(one for one in tokens if one.cell == number) for number in dict.fromkeys(token.cell for token in tokens)
    ]
