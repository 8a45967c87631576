"""How far a value read from words may be trusted: what speaks against it, and whether it may stand as sure."""

from __future__ import annotations

import functools
import json
import math
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from ....interpret.record import Box, Standing
from ...sheet import Sheet
from ..layout.cells import box_of
from ..layout.tokens import Token

Kind = Literal["speech", "tympanogram", "reflex", "emission", "average"]
SLIPS = 0.1
"""Of the ways in which a word may be misread, so many still give one that fits, at the most (octavo's choice)."""
CERTAINTY = Path(__file__).with_name("certainty.json")


@dataclass(frozen=True, slots=True)
class Evidence:
    """The standing of one value: as the record has it."""

    standing: Standing
    why_ask: tuple[str, ...]
    probability: float
    box: Box


@dataclass(frozen=True, slots=True)
class Trust:
    """What was measured of a kind of value: ``right`` of clean values, and the least chance of its words that is clean.

    ``least`` is above 1 where no value of this kind has been shown to be right often enough to stand alone.
    """

    right: float
    least: float


def judge(
    sheet: Sheet, kind: Kind, tokens: Iterable[Token], why: Iterable[str], checked: Iterable[Token] = ()
) -> Evidence:
    """Give a value its probability and standing.

    Parameters
    ----------
    sheet : Sheet
        For places on the page, and for how it was read.
    kind : str
        What kind of value it is.
    tokens : iterable of Token
        What the value was read from, at least one.
    why : iterable of str
        Reason codes that speak against it; with any of them it asks.
    checked : iterable of Token
        Those of the tokens that something else on the page bears out: they would hardly fit if they were misread.
        Labels are known words and would not either.
    """
    seen = list(tokens)
    fitting = {id(token) for token in checked}
    trust = _trust()[kind][_source(sheet)]
    letters = math.prod(1 - doubt for doubt in _doubts(seen, fitting))
    cut = not sheet.words_given and any(_at_edge(sheet, token) for token in seen)
    clean = letters >= trust.least and not cut
    codes = tuple(dict.fromkeys((*why, *(() if clean else ("low-certainty",)))))
    probability = trust.right * letters if not why else min(trust.right, 0.5)
    return Evidence("ask" if codes else "sure", codes, round(probability, 4), on_page(sheet, seen))


def _doubts(tokens: Iterable[Token], fitting: set[int]) -> Iterable[float]:
    """Give the doubt of each printed word: a word of several tokens, as "0.5/1/2", was misread once or not at all."""
    words: dict[tuple[float, float, float, int], float] = {}
    for one in tokens:
        doubt = (1 - one.chance) * (SLIPS if one.kind == "label" or id(one) in fitting else 1.0)
        word = (one.box[1], one.box[3], one.chance, one.cell)
        words[word] = max(words.get(word, 0.0), doubt)
    return words.values()


def _at_edge(sheet: Sheet, token: Token) -> bool:
    """Say whether a word stands so near the picture's side that a part of it may be cut off."""
    high = token.box[3] - token.box[1]
    return token.box[0] < high or token.box[2] > sheet.pixels.shape[1] - high


def on_page(sheet: Sheet, tokens: Iterable[Token]) -> Box:
    """Give the upright box around tokens in page fractions."""
    left, top, right, bottom = box_of(tokens)
    corners = [sheet.on_page(x, y) for x, y in ((left, top), (right, top), (right, bottom), (left, bottom))]
    xs, ys = [x for x, _ in corners], [y for _, y in corners]
    return min(xs), min(ys), max(xs), max(ys)


def _source(sheet: Sheet) -> str:
    return sheet.taken_by if sheet.taken_by in ("drawn", "photo") else "scan"


@functools.cache
def _trust() -> dict[str, dict[str, Trust]]:
    told = json.loads(CERTAINTY.read_text("utf-8"))["trust"]
    return {kind: {source: Trust(**of) for source, of in sources.items()} for kind, sources in told.items()}
