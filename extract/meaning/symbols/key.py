"""Which symbol set does a page's printed key describe."""

from __future__ import annotations

import re
from dataclasses import replace
from itertools import pairwise

from ....interpret.symbols import SYMBOL_SETS, Glyph, Meaning, SymbolSet
from ...eyes import key_words
from ...likeness import Likeness
from ...sightings import KeyLine

BONE = re.compile(rf"(?i)\b({key_words.BONE})\b")
AIR = re.compile(rf"(?i)\b({key_words.AIR})\b")
MASKED = re.compile(
    r"(?i)\b(mask|masked|vertäubt|maskiert|masqu\w*|enmascarad\w*|gemaskeerd|mascherat[ao]|mascarad[ao]|maskerad)\b"
)
UNMASKED = re.compile(
    r"(?i)\b((?:un|not[ -])mask|(?:un|not[ -])masked|non[ -]mas(?:qu|ch)\w*|nicht|ohne|sin|sans|without|sem|não|senza|"
    r"zonder|niet|utan|unvertäubt|unmaskiert|ongemaskeerd|omaskerad)\b"
)
LIKE_MASKED = Likeness(
    ("masked", "unmasked", "vertäubt", "unvertäubt", "maskiert", "masquée", "enmascarada", "gemaskeerd",
     "ongemaskeerd", "mascherata", "mascarada", "maskerad", "omaskerad"), 0.6,
)  # fmt: skip
"""What a word that was read with slips, or in two, may have been."""
LOUD = re.compile(rf"(?i)\b({key_words.LOUD})\b")
COMFORTABLE = re.compile(rf"(?i)\b({key_words.COMFORTABLE})\b")
SAID_OF_LETTERS: dict[Glyph, re.Pattern[str]] = {
    "letter-u": LOUD,
    "letter-s": re.compile(r"(?i)\b(sound ?field|free ?field|freifeld|champ libre|campo libre)\b(?!.*\baided\b)"),
    "letter-a": re.compile(r"(?i)\baided\b"),
}
"""Words that a key prints beside letters which every set means alike that has them."""
RIGHT = re.compile(rf"(?i)\b({key_words.RIGHT}|r)\b")
LEFT = re.compile(rf"(?i)\b({key_words.LEFT}|l)\b")

DIFFERING: frozenset[Glyph] = frozenset(
    glyph
    for known in SYMBOL_SETS.values()
    for glyph, meaning in known.meanings.items()
    if any(other.meanings.get(glyph, meaning) != meaning for other in SYMBOL_SETS.values())
)
"""Shapes that mean different things in different sets."""
TWINS: dict[Glyph, Glyph] = {
    "bracket-left": "bracket-right", "angle-left": "angle-right", "foot-right": "foot-left",
    "half-bracket-right": "half-bracket-left",
}  # fmt: skip
"""Shapes that are each other's mirror image: what a key says of one ear's, it says of the other's."""
ENOUGH = 3
"""So many shapes explained settle the set whatever else the page shows."""
SHORT = 4
"""Shorter words are no word for masking."""
CLEAR = 0.6
"""A specimen's score from which it may deny a set."""
SLIPS = 1 / 6
"""So many specimens may contradict a set for each that agrees: a shape beside a key's words may be seen amiss."""


def sets_of_key(lines: tuple[KeyLine, ...], marks: frozenset[Glyph] | None = None) -> tuple[str, ...]:
    """Choose the symbol sets that say of every specimen what the key says.

    Parameters
    ----------
    lines : tuple of KeyLine
        The key's specimens with their words.
    marks : frozenset of str, optional
        The shapes of the page's marks: a short key will do that explains all that sets differ on.

    Returns
    -------
    tuple of str
        The ids of those that contradict no specimen, or one in six that agree, and agree with more of those that
        sets differ on than any other: of several that say the same of all shapes, one; none where the key settles
        nothing. Several are left where lines of the key were not read and the page has their shapes.
    """
    told = _told_unmasked(lines)
    worth: dict[str, int] = {}
    for name, symbols in SYMBOL_SETS.items():
        verdicts = _verdicts(symbols, lines, told)
        if verdicts.count(False) <= SLIPS * verdicts.count(True):
            worth[name] = verdicts.count(True) - verdicts.count(False)
    ranked = sorted(worth.items(), key=lambda item: -item[1])
    if not ranked or ranked[0][1] < 2:
        return ()
    tied = [name for name, score in ranked if score == ranked[0][1]]
    first = SYMBOL_SETS[tied[0]].meanings
    seen: set[Glyph] = {line.glyph for line in lines if _agrees(first.get(line.glyph), line, told) is not None}
    seen |= {twin for pair in TWINS.items() for twin in pair if seen & {*pair}}
    if not _same_of(seen, tied):
        return ()
    enough = len(seen) >= ENOUGH or (marks is not None and marks & DIFFERING <= seen)
    if not enough:
        return ()
    return (tied[0],) if _same_of(marks or frozenset(), tied) else tuple(tied)


def _same_of(glyphs: frozenset[Glyph] | set[Glyph], names: list[str]) -> bool:
    """Say whether symbol sets say the same of shapes."""
    return all(len({SYMBOL_SETS[name].meanings.get(glyph) for name in names}) < 2 for glyph in glyphs)


def _verdicts(symbols: SymbolSet, lines: tuple[KeyLine, ...], told: tuple[bool, bool]) -> list[bool | None]:
    """Say of every specimen whether a set agrees with its words, but for those that stand beside another's words."""
    verdicts = [(line, _agrees(symbols.meanings.get(line.glyph), line, told)) for line in lines]
    agreed = [line for line, verdict in verdicts if verdict]
    return [verdict for line, verdict in verdicts if verdict is not False or not _seen_twice(line, agreed)]


def _seen_twice(line: KeyLine, agreed: list[KeyLine]) -> bool:
    """Say whether a specimen that a set contradicts was seen right too, as another shape with the same words.

    Its shape must be another line's as well: what is seen beside both is the one, and an echo of it.
    """
    again = any(other.glyph == line.glyph for other in agreed)
    return again and any(other.text and other.text in line.text for other in agreed if other.glyph != line.glyph)


def denied_by(lines: tuple[KeyLine, ...], symbols: SymbolSet) -> frozenset[Glyph]:
    """Give the glyphs of which a key says something other than a symbol set.

    A specimen that is seen twice denies nothing: one of them has the words of another's line, or is another shape. But
    one in each ear's ink, as bone by colour has, are two, and deny what both do.
    """
    told = _told_unmasked(lines)
    shown: dict[Glyph, list[KeyLine]] = {}
    for line in lines:
        shown.setdefault(line.glyph, []).append(line)
    return frozenset(
        glyph
        for glyph, own in shown.items()
        if (len(own) == 1 or sorted(line.ink for line in own) == ["blue", "red"])
        and all(line.score > CLEAR and _agrees(symbols.meanings.get(glyph), line, told) is False for line in own)
    )


def with_letters(symbols: SymbolSet, lines: tuple[KeyLine, ...]) -> SymbolSet:
    """Give a set with the letters of which the key itself says what they mean.

    The letter m is of the most comfortable or of the uncomfortable level, as the key says, whatever the set means by
    it: forms of any set borrow it. Other letters are those that the set leaves out, where the key says of them what
    other sets mean. A letter may be seen twice: the words beside it may begin with it.
    """
    another = {line.glyph for line in lines if len(line.text) > 1 and not _said_of_letter(line)}
    told = {
        line.glyph: meaning
        for line in lines
        if line.score > CLEAR
        and line.glyph not in another
        and _said_of_letter(line)
        and (meaning := borrowed(line.glyph))
    }
    return replace(symbols, meanings=told | symbols.meanings | loudness_told(lines))


def loudness_told(lines: tuple[KeyLine, ...]) -> dict[Glyph, Meaning]:
    """Give what a key says of the letter m, where all its lines that show it agree."""
    shown = [line for line in lines if line.glyph == "letter-m" and line.score > CLEAR]
    loud = {bool(LOUD.search(line.text)) for line in shown}
    if len(loud) != 1 or not all(LOUD.search(line.text) or COMFORTABLE.search(line.text) for line in shown):
        return {}
    return {"letter-m": Meaning("by-colour", "air", measure="ucl" if loud.pop() else "mcl")}


def _said_of_letter(line: KeyLine) -> bool:
    """Say whether a line says of a letter what every set means by it that has it."""
    return line.glyph in SAID_OF_LETTERS and bool(SAID_OF_LETTERS[line.glyph].search(line.text))


def borrowed(glyph: Glyph) -> Meaning | None:
    """Give what a glyph says that a set leaves out, where it says the same in every set that has it."""
    said = {known.meanings[glyph] for known in SYMBOL_SETS.values() if glyph in known.meanings}
    return said.pop() if len(said) == 1 else None


def _told_unmasked(lines: tuple[KeyLine, ...]) -> tuple[bool, bool]:
    """Say whether a key says of air, and of bone, that it is unmasked: a line of it without a word has lost one."""
    told = [line.text for line in lines if UNMASKED.search(line.text)]
    return any(map(AIR.search, told)), any(map(BONE.search, told))


def _masking_unread(line: KeyLine, *, in_full: bool) -> bool:
    """Say whether a line may say something of masking that was not read, or read with slips."""
    if MASKED.search(line.text) or UNMASKED.search(line.text):
        return False
    parts = line.text.casefold().split()
    together = [one + other for one, other in pairwise(parts)]
    return in_full or any(len(part) > SHORT and LIKE_MASKED.nearest(part) for part in (*parts, *together))


def _agrees(meaning: Meaning | None, line: KeyLine, told_unmasked: tuple[bool, bool]) -> bool | None:
    """Say whether a meaning is what the key's words say; None where the words say nothing of the kind."""
    bone, air, loud = (bool(p.search(line.text)) for p in (BONE, AIR, LOUD))
    # letters are borrowed by forms of any set: they tell none from another
    if (bone == air and not loud) or _said_of_letter(line):
        return None
    if meaning is None:
        return False
    if loud:
        return meaning.measure == "ucl"
    masked = bool(MASKED.search(line.text)) and not UNMASKED.search(line.text)
    right, left = bool(RIGHT.search(line.text)), bool(LEFT.search(line.text))
    if right != left and meaning.ear in ("right", "left") and (meaning.ear == "right") != right:
        return False
    told = right == left and line.ink != "neutral" and meaning.ear in ("right", "left")
    if told and (meaning.ear == "right") != (line.ink == "red"):
        return False
    if meaning.measure != "threshold" or (meaning.conduction == "bone") != bone:
        return False
    return None if _masking_unread(line, in_full=told_unmasked[bone]) else meaning.masked == masked
