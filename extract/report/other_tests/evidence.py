"""How far a value read from words may be trusted: what speaks against it, and whether it may stand as sure."""

from __future__ import annotations

import functools
import json
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from ....interpret.record import Box, Standing
from ...sheet import Sheet
from ..layout.cells import box_of
from ..layout.tokens import Token

Kind = Literal["speech", "tympanogram", "reflex", "emission", "average"]
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
    """What was measured of a kind of value: ``right`` of clean values, and the least confidence that counts as clean.

    ``least`` is above 1 where no value of this kind has been shown to be right often enough to stand alone.
    """

    right: float
    least: float


def judge(sheet: Sheet, kind: Kind, tokens: Iterable[Token], why: Iterable[str]) -> Evidence:
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
    """
    seen = list(tokens)
    trust = _trust()[kind][_source(sheet)]
    confidence = min(token.confidence for token in seen)
    cut = not sheet.words_given and any(_at_edge(sheet, token) for token in seen)
    clean = confidence >= trust.least and all(token.agreed for token in seen) and not cut
    codes = tuple(dict.fromkeys((*why, *(() if clean else ("low-certainty",)))))
    probability = trust.right if not codes else min(trust.right, 0.5 if why else 0.9 * confidence)
    return Evidence("ask" if codes else "sure", codes, round(probability, 4), on_page(sheet, seen))


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
