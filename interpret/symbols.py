"""Glyphs that may stand on a chart, and the conventions that give them a meaning.

A glyph is a shape and nothing more. Only a symbol set makes it an ear, a conduction and a masking.
Sources stand with each set; the same table with a mark of certainty for every row is
``tests/published/audiometric_symbols.csv``.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, get_args

from .record import Conduction, Ear, Measure

Glyph = Literal[
    "circle",
    "cross",
    "triangle",
    "square",
    "circle-filled",
    "cross-filled",
    "triangle-filled",
    "square-filled",
    "angle-left",
    "angle-right",
    "bracket-left",
    "bracket-right",
    "caret",
    "vee",
    "half-bracket-right",
    "half-bracket-left",
    "letter-s",
    "letter-a",
    "letter-m",
    "letter-u",
    "foot-right",
    "foot-left",
]
"""Shape names. ``angle-left`` is ``<``, ``bracket-left`` is ``[``, ``caret`` a point up, ``vee`` a point down;
``half-bracket-right`` a bar on top with a stroke down at its right end; ``cross-filled`` an X with filled wedges;
``foot-right`` an L, ``foot-left`` its mirror image."""

GLYPHS: tuple[Glyph, ...] = get_args(Glyph)

Ink = Literal["red", "blue", "neutral"]


@dataclass(frozen=True, slots=True)
class Meaning:
    """What a glyph says under one symbol set; ``ear`` "by-colour" means that only the ink names the ear."""

    ear: Ear | Literal["by-colour"]
    conduction: Conduction
    masked: bool = False
    aided: bool = False
    measure: Measure = "threshold"


@dataclass(frozen=True, slots=True)
class SymbolSet:
    """One published convention: an id, a name for people, its source, and the meaning of every glyph it has."""

    id: str
    name: str
    source: str
    meanings: dict[Glyph, Meaning]
    beside_line: frozenset[Glyph]
    """Glyphs drawn beside the frequency line rather than on it."""


_ASHA: dict[Glyph, Meaning] = {
    "circle": Meaning("right", "air"),
    "cross": Meaning("left", "air"),
    "triangle": Meaning("right", "air", masked=True),
    "square": Meaning("left", "air", masked=True),
    "angle-left": Meaning("right", "bone"),
    "angle-right": Meaning("left", "bone"),
    "bracket-left": Meaning("right", "bone", masked=True),
    "bracket-right": Meaning("left", "bone", masked=True),
    "caret": Meaning("unspecified", "bone"),
    "vee": Meaning("unspecified", "bone"),
    "half-bracket-right": Meaning("right", "bone", masked=True),
    "half-bracket-left": Meaning("left", "bone", masked=True),
    "letter-s": Meaning("both", "field"),
    "letter-a": Meaning("both", "field", aided=True),
    "letter-m": Meaning("by-colour", "air", measure="mcl"),
    "letter-u": Meaning("by-colour", "air", measure="ucl"),
}
_BSA: dict[Glyph, Meaning] = {
    "circle": Meaning("right", "air"),
    "cross": Meaning("left", "air"),
    "circle-filled": Meaning("right", "air", masked=True),
    "cross-filled": Meaning("left", "air", masked=True),
    "triangle": Meaning("by-colour", "bone"),
    "bracket-left": Meaning("right", "bone", masked=True),
    "bracket-right": Meaning("left", "bone", masked=True),
    "foot-right": Meaning("right", "air", measure="ucl"),
    "foot-left": Meaning("left", "air", measure="ucl"),
}
_LEAFLET: dict[Glyph, Meaning] = {
    "circle": Meaning("right", "air"),
    "cross": Meaning("left", "air"),
    "angle-right": Meaning("right", "bone"),
    "angle-left": Meaning("left", "bone"),
}
_TRIANGLE_BONE: dict[Glyph, Meaning] = {
    "circle": Meaning("right", "air"),
    "cross": Meaning("left", "air"),
    "triangle": Meaning("by-colour", "bone"),
    "letter-m": Meaning("by-colour", "air", measure="ucl"),
}
_JIS: dict[Glyph, Meaning] = {
    "circle": Meaning("right", "air"),
    "cross": Meaning("left", "air"),
    "bracket-left": Meaning("right", "bone"),
    "bracket-right": Meaning("left", "bone"),
}

_BESIDE: frozenset[Glyph] = frozenset(
    {"angle-left", "angle-right", "bracket-left", "bracket-right", "half-bracket-left", "half-bracket-right"}
)

SYMBOL_SETS: dict[str, SymbolSet] = {
    s.id: s
    for s in (
        SymbolSet("asha-1990", "ASHA 1990", "ASHA, Guidelines for Audiometric Symbols, 1990", _ASHA, _BESIDE),
        SymbolSet("bsa-2018", "BSA 2018", "BSA, Recommended Procedure: pure-tone audiometry, 2018", _BSA, _BESIDE),
        SymbolSet("leaflet-de", "German-language leaflet", "a German-language guide for schools", _LEAFLET, _BESIDE),
        SymbolSet("triangle-bone", "triangles for bone", "a European research project page", _TRIANGLE_BONE, _BESIDE),
        SymbolSet("jis-t-1201", "JIS T 1201 as taught", "a Japanese audiology textbook", _JIS, _BESIDE),
    )
}


def ear_of(meaning: Meaning, ink: Ink) -> Ear:
    """Name the ear of a mark: by its shape, or by its ink where the set leaves the ear to the colour."""
    if meaning.ear != "by-colour":
        return meaning.ear
    ears: dict[Ink, Ear] = {"red": "right", "blue": "left", "neutral": "unspecified"}
    return ears[ink]
