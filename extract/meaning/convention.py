"""Decide under which symbol set a page was drawn."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass

from ...interpret.symbols import SYMBOL_SETS, Glyph, SymbolSet
from ..chart import Mark

ANGLES: frozenset[Glyph] = frozenset({"angle-left", "angle-right"})
BRACKETS: frozenset[Glyph] = frozenset({"bracket-left", "bracket-right"})
TRIANGLE: frozenset[Glyph] = frozenset({"triangle"})
FILLED: frozenset[Glyph] = frozenset({"circle-filled", "cross-filled"})
PLENTY = 0.5
"""Score from which a mark counts as evidence."""


@dataclass(frozen=True, slots=True)
class Convention:
    """The symbol set taken, and the glyphs whose meaning stays open under what the page shows."""

    symbol_set: SymbolSet
    open_glyphs: frozenset[Glyph]
    told: bool
    """Whether the page's key or the person named the set."""


def convention(marks: tuple[Mark, ...], *, key: str | None, asked: str | None) -> Convention:
    """Choose the symbol set.

    Parameters
    ----------
    marks : tuple of Mark
        Every mark of the page.
    key : str or None
        The set that the page's printed key names.
    asked : str or None
        The set to assume where the page prints no key.

    Returns
    -------
    Convention
        By the key, else by ``asked``, else by evidence: glyphs that only one set has, the ink of angle marks, and bone
        marks where no bone is tested. What the evidence leaves open is named in ``open_glyphs``.
    """
    named = key or asked
    if named is not None:
        known = SYMBOL_SETS[named]
        return Convention(known, frozenset[Glyph](m.sight.glyph for m in marks) - known.meanings.keys(), True)
    seen = [m for m in marks if m.sight.score >= PLENTY]
    count = Counter[Glyph](m.sight.glyph for m in seen)
    if count["circle-filled"] + count["cross-filled"] + count["foot-right"] + count["foot-left"] > 0:
        # where nothing else speaks for BSA and few circles are hollow, filling may be mere style
        others = count["cross-filled"] + count["foot-right"] + count["foot-left"] + count["triangle"]
        styled: frozenset[Glyph] = frozenset() if others or count["circle"] >= count["circle-filled"] else FILLED
        return Convention(SYMBOL_SETS["bsa-2018"], styled, False)
    if angles := [m for m in seen if m.sight.glyph in ANGLES]:
        return _by_angles(angles, count)
    if count["square"]:
        return Convention(SYMBOL_SETS["asha-1990"], frozenset(), False)
    if count["triangle"]:
        return _by_triangles(seen)
    if count["bracket-left"] + count["bracket-right"]:
        return _by_brackets(seen)
    return Convention(SYMBOL_SETS["asha-1990"], frozenset(), False)


def _by_angles(angles: list[Mark], count: Counter[Glyph]) -> Convention:
    """Angle marks: red points left under ASHA and right in the German-language leaflet; ink decides, else place."""
    asha = leaflet = 0
    for mark in angles:
        ink = mark.sight.ink
        if ink == "neutral":
            continue
        as_asha = (mark.sight.glyph == "angle-left") == (ink == "red")
        asha, leaflet = asha + as_asha, leaflet + (not as_asha)
    others = count["triangle"] + count["square"] + count["bracket-left"] + count["bracket-right"]
    if leaflet > asha and not others:
        return Convention(SYMBOL_SETS["leaflet-de"], frozenset() if not asha else ANGLES, False)
    return Convention(SYMBOL_SETS["asha-1990"], ANGLES if leaflet else frozenset(), False)


def _by_triangles(seen: list[Mark]) -> Convention:
    """Triangles without squares: masked right air under ASHA, unmasked bone of either ear under BSA."""
    triangles = [m for m in seen if m.sight.glyph == "triangle"]
    blue = sum(m.sight.ink == "blue" for m in triangles)
    red = sum(m.sight.ink == "red" for m in triangles)
    too_high = sum(m.frequency_hz > 6500 or m.level_db_hl > 82 for m in triangles)
    if blue and blue + red == len(triangles):
        return Convention(SYMBOL_SETS["bsa-2018"], frozenset(), False)
    if too_high and red + too_high >= len(triangles) and not blue:
        return Convention(SYMBOL_SETS["asha-1990"], frozenset(), False)
    likely = "asha-1990" if red == len(triangles) else "bsa-2018"
    return Convention(SYMBOL_SETS[likely], TRIANGLE | BRACKETS, False)


def _by_brackets(seen: list[Mark]) -> Convention:
    """Brackets alone: masked bone under ASHA and BSA, ordinary bone as taught in Japan; straight arrows tell Japan."""
    slanted = sum(max(m.sight.arrows[:2]) > 0.5 for m in seen)
    straight = sum(m.sight.arrows[2] > 0.5 for m in seen)
    likely = "jis-t-1201" if straight > slanted else "asha-1990"
    return Convention(SYMBOL_SETS[likely], BRACKETS, False)
