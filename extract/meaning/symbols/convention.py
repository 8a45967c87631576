"""Decide under which symbol set a page was drawn: every set that the marks do not speak against stays possible."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

from ....interpret.symbols import SYMBOL_SETS, Glyph, Meaning, SymbolSet
from ...chart import Mark
from ...sightings import alike
from .doubles import without_doubles
from .likely import ANGLES, BRACKETS, brackets_apart, denied_by_bone, likely, only_air
from .triangles import denied_as
from .two_brackets import all_may_be_two, may_be_two

FILLED: frozenset[Glyph] = frozenset({"circle-filled", "cross-filled"})
TELLING: frozenset[Glyph] = frozenset({*ANGLES, *BRACKETS, *FILLED, "triangle", "square", "foot-right", "foot-left"})
"""Glyphs that speak against a set without them. Letters, and the rare forehead marks, are borrowed by any form."""
PLENTY = 0.5
"""Score from which a mark counts as evidence."""
NOTHING, WHOLE = 0.4, 0.9
"""Scores at which a mark counts nothing and whole; between them in proportion."""
AGAINST = 1.6
"""Count that speaks a set out: two clear marks or three middling ones, never one alone."""
LACKING = 3
"""Of sets that nothing speaks against, one that lacks so many marks more is less likely: letters tell them apart."""
OUTLIERS = 0.25
"""Share of what speaks for a set that may be false glyphs and speak against it."""
BLURRED, FEW_HOLLOW = 0.3, 0.34
"""Share of a filled circle's score from which it looks hollow as well; and so few hollow ones for each filled
hardly are an ear's unmasked air."""
ROW = 3
"""So many marks of an ear's masked air are a row of it."""
INKED = 0.5
"""Share of a glyph's marks that are red or blue from which their ink says what the glyph means: a pencil on a photo in
warm light looks blue here and there."""

Turned = Literal["no", "open", "likely"]


@dataclass(frozen=True, slots=True)
class Convention:
    """The symbol set taken, and the glyphs whose meaning stays open under what the page shows."""

    symbol_set: SymbolSet
    open_glyphs: frozenset[Glyph]
    told: bool
    """Whether the page's key or the person named the set."""
    in_colour: bool = False
    """Whether marks of the page are red or blue: where colour would be seen, one without it names no ear."""
    in_both_colours: bool = False
    """Whether some are red and some blue."""
    ear_open: frozenset[Glyph] = frozenset()
    """Of the open glyphs, those that say the same but of the other ear: `<` and `>`, which one text turns round."""

    @property
    def earless(self) -> frozenset[Glyph]:
        """Shapes that may not name the ear which most sets give them: angle marks that the leaflet turns round."""
        turned = self.symbol_set.meanings.get("angle-left") not in (
            None,
            SYMBOL_SETS["asha-1990"].meanings["angle-left"],
        )
        return ANGLES if turned else ANGLES & self.open_glyphs

    @property
    def bone_by_ink(self) -> bool:
        """Whether only the ink names the ear of a bone mark."""
        return any(m.ear == "by-colour" and m.conduction == "bone" for m in self.symbol_set.meanings.values())


@dataclass(frozen=True, slots=True)
class Standing:
    """What speaks for and against one set, in clear marks."""

    for_it: float
    against: float

    @property
    def possible(self) -> bool:
        """Whether what speaks against the set is too little, or may be false glyphs."""
        return self.against < AGAINST or self.against <= OUTLIERS * self.for_it


def convention(
    marks: tuple[Mark, ...], *, key: tuple[str, ...], asked: str | None, leaflet: Turned = "open", western: bool = False
) -> Convention:
    """Choose the symbol set.

    Parameters
    ----------
    marks : tuple of Mark
        Every mark of the page.
    key : tuple of str
        The sets that the page's printed key leaves; empty where it names none.
    asked : str or None
        The set to assume where the page prints no key.
    leaflet : {"no", "open", "likely"}
        Whether the page may follow the German leaflet, the one text that turns the angle marks round.
    western : bool
        Whether the page is known to be printed in a European language (see ``likely``).

    Returns
    -------
    Convention
        By the key, else by ``asked``, else by evidence, among the sets that a key leaves where it leaves several.
        Evidence is weighed per set (see ``standings``); a glyph that says different things in the sets that remain is
        named in ``open_glyphs``.
    """
    named = key[0] if len(key) == 1 else asked
    if named is not None:
        known = SYMBOL_SETS[named]
        return Convention(known, frozenset[Glyph](m.sight.glyph for m in marks) - known.meanings.keys(), True)
    seen = [m for m in marks if m.sight.score >= PLENTY]
    pairs = all_may_be_two(seen)
    counted = (m for m in seen if not may_be_two(m, marks) and not (pairs and m.sight.glyph == "square"))
    weighed = {name: standing for name, standing in standings(counted).items() if not key or name in key}
    fitting = [name for name, standing in weighed.items() if standing.possible]
    possible = fitting or list(weighed)
    if leaflet == "no" and "asha-1990" in possible:
        possible = [name for name in possible if name != "leaflet-de"]
    if {"asha-1990", "leaflet-de"} <= {*possible}:
        possible = [name for name in possible if name != denied_by_bone(seen)]
    possible = without_doubles(possible, seen)
    if possible == ["asha-1990"] and not key and brackets_apart(seen):
        possible = [*possible, "jis-t-1201"]
    glyphs = frozenset[Glyph](m.sight.glyph for m in marks)
    lacks = {name: sum(m.sight.glyph not in SYMBOL_SETS[name].meanings for m in seen) // LACKING for name in possible}
    wanted = likely(seen, western=western, turned=leaflet == "likely")
    best = min(possible, key=lambda name: (weighed[name].against, lacks[name], name != wanted, possible.index(name)))
    differing = frozenset[Glyph](g for g in glyphs if len(_meanings(g, possible, seen if fitting else [])) > 1)
    if not key and not _filling_backed(seen):
        differing |= glyphs & FILLED
    if leaflet == "no" and best == "leaflet-de":
        differing |= glyphs & ANGLES  # the inks say so, and the page's language and the marks' places do not
    ear_open = frozenset[Glyph](g for g in differing & ANGLES if None not in _meanings(g, possible, seen))
    if not key and best == "bsa-2018" and _filling_blurred(seen):
        differing |= glyphs & (FILLED | BRACKETS)
    return Convention(SYMBOL_SETS[best], differing, False, ear_open=ear_open)


def standings(seen: Iterable[Mark]) -> dict[str, Standing]:
    """Weigh every symbol set against the marks.

    Parameters
    ----------
    seen : iterable of Mark
        Marks that are strong enough to count.

    Returns
    -------
    dict of str to Standing
        A mark speaks against a set that lacks its glyph, whose ear its ink denies (red is right and blue is left in
        every text that names colours) where most of its glyph's marks have a colour, under which it would be bone where
        bone is not tested or worse than the better air, masked air better than unmasked, or bone of an ear whose air
        the chart lacks; it speaks for a set that has its glyph. Only glyphs of ``TELLING`` count, in proportion to
        their score; of one glyph at one frequency of a chart, the strongest.
    """
    seen = list(seen)
    telling = [m for m in seen if m.sight.glyph in TELLING]
    inked = frozenset[Glyph](g for g in TELLING if _told_by_ink([m for m in telling if m.sight.glyph == g]))
    total: dict[str, Standing] = {}
    for name, known in SYMBOL_SETS.items():
        counted: dict[tuple[bool, int, Glyph, int], float] = {}
        for mark in telling:
            denied = _denied(mark, known, seen, inked)
            weight = min((mark.sight.score - NOTHING) / (WHOLE - NOTHING), 1.0)
            place = (denied, mark.sight.area, mark.sight.glyph, round(4 * math.log2(mark.frequency_hz)))
            counted[place] = max(weight, counted.get(place, 0.0))
        pro = sum(weight for place, weight in counted.items() if not place[0])
        total[name] = Standing(pro, sum(counted.values()) - pro)
    return total


def _denied(mark: Mark, known: SymbolSet, seen: list[Mark], inked: frozenset[Glyph]) -> bool:
    meaning = known.meanings.get(mark.sight.glyph)
    if meaning is None or (mark.sight.glyph in inked and _ink_denies(mark, meaning)):
        return True
    if mark.sight.glyph in ANGLES:
        lacked = {"circle": "left", "cross": "right"}.get(only_air(mark, seen) or "")
        return meaning.ear == lacked and not _masked_throughout(mark, lacked, known, seen)
    return mark.sight.glyph == "triangle" and denied_as(mark, meaning, seen)


def _masked_throughout(mark: Mark, ear: str | None, known: SymbolSet, seen: list[Mark]) -> bool:
    """Say whether a row of an ear's masked air stands on a mark's chart, where it has no other air."""
    masked = {g for g, m in known.meanings.items() if (m.ear, m.conduction, m.masked) == (ear, "air", True)}
    return sum(o.sight.glyph in masked and o.sight.area == mark.sight.area for o in seen) >= ROW


def _ink_denies(mark: Mark, meaning: Meaning) -> bool:
    return (meaning.ear, mark.sight.ink) in {("right", "blue"), ("left", "red")}


def _meanings(glyph: Glyph, possible: list[str], seen: list[Mark]) -> set[Meaning | None]:
    """Give what a glyph may say in the possible sets, less what the ink of each of its marks denies.

    None stands among them where a possible set has no such glyph, but one that is seen and may be taken for it.
    """
    said = {name: m for name in possible if (m := SYMBOL_SETS[name].meanings.get(glyph))}
    if said and any(_another_shape(glyph, SYMBOL_SETS[name], seen) for name in possible):
        return {*said.values(), None}
    inked = _told_by_ink([m for m in seen if m.sight.glyph == glyph])
    borne = {m for m in said.values() if not inked or not all(_ink_denies(mark, m) for mark in inked)}
    return {*borne} or {*said.values()}


def _told_by_ink(shown: list[Mark]) -> list[Mark]:
    """Give the red and blue marks among those of a glyph where they are enough to say what it means."""
    inked = [m for m in shown if m.sight.ink != "neutral"]
    return inked if len(inked) >= INKED * len(shown) else []


def _another_shape(glyph: Glyph, known: SymbolSet, seen: list[Mark]) -> bool:
    """Say whether, under a set, marks of a glyph must be another one: `[` and `]` at one level look like a square."""
    others = [m.sight for m in seen if m.sight.glyph in known.meanings]
    return glyph not in known.meanings and any(alike(glyph, other.glyph) for other in others)


def _filling_blurred(seen: list[Mark]) -> bool:
    """Say whether most filled circles look hollow as well, and few are hollow: a thick pen fills small ones."""
    filled = [m.sight for m in seen if m.sight.glyph == "circle-filled"]
    blurred = sum(dict[str, float](s.rivals).get("circle", 0.0) > BLURRED * s.score for s in filled)
    circles = [m.sight for m in seen if m.sight.glyph == "circle"]
    hollow = sum(dict[str, float](s.rivals).get("circle-filled", 0.0) < s.score for s in circles)
    return 2 * blurred > len(filled) >= 2 and hollow <= FEW_HOLLOW * len(filled)


def _filling_backed(seen: list[Mark]) -> bool:
    """Say whether two marks besides filled circles are such as BSA uses; filling alone may be a program's style."""
    others = FILLED - {"circle-filled"} | {"foot-right", "foot-left", "triangle"}
    return sum(m.sight.glyph in others for m in seen) >= 2
