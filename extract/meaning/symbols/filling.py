"""Tell filled marks that mean something from marks that a program filled for looks."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace

from ....interpret.symbols import SYMBOL_SETS, Glyph
from ...chart import Mark, MeasuredChart
from ...eyes.key import VOCABULARY
from ...sightings import KeyLine
from ..nearby import same_place
from .convention import PLENTY, standings
from .key import AIR, BONE, MASKED, RIGHT, UNMASKED

HOLLOW: dict[Glyph, Glyph] = {
    "circle-filled": "circle", "square-filled": "square", "triangle-filled": "triangle",
}  # fmt: skip
MEANT: frozenset[Glyph] = frozenset(g for s in SYMBOL_SETS.values() for g in s.meanings)
WORD = re.compile(r"[^\W\d_]+")
LONGEST_INITIALS = 2
FEW_HOLLOW = 0.15
"""Where filled circles mean masking, some right air is unmasked: at least so many hollow ones for each filled."""


@dataclass(frozen=True, slots=True)
class Filling:
    """The charts and the key with marks that are filled for looks turned into hollow ones."""

    charts: tuple[MeasuredChart, ...]
    key: tuple[KeyLine, ...]
    doubtful: frozenset[Glyph]
    """Hollow glyphs that stand for filled ones which may mean masking after all."""


def without_style(charts: tuple[MeasuredChart, ...], key: tuple[KeyLine, ...]) -> Filling:
    """Take filled marks for hollow ones where filling is style.

    Parameters
    ----------
    charts : tuple of MeasuredChart
        All charts of a page.
    key : tuple of KeyLine
        Its printed key.

    Returns
    -------
    Filling
        A filled shape that no symbol set has is its hollow twin. A filled circle, masked right air in BSA 2018, is an
        ordinary one where the key says so, or where hollow circles are all but missing and no other mark is BSA's
        alone; without the key, and while BSA stays possible, that is doubtful. A cross on a disc, which looks like
        one with filled wedges, is no other mark. The only filled mark of a page may be what was scribbled over.
    """
    marks = [m for c in charts for m in c.marks if m.sight.score >= PLENTY]
    styled: set[Glyph] = {glyph for glyph in HOLLOW if glyph not in MEANT}
    told = _told(key)
    glyphs = [m.sight.glyph for m in marks if not _on_disc(m, marks)]
    filled, hollow = glyphs.count("circle-filled"), glyphs.count("circle")
    bsa = any(g in glyphs for g in ("cross-filled", "foot-right", "foot-left"))
    doubtful: frozenset[Glyph] = frozenset()
    if told or (told is None and filled >= 2 and hollow <= FEW_HOLLOW * filled and not bsa):
        styled.add("circle-filled")
        plain = [_restyled(m, styled) for m in marks]
        if not told and standings(plain)["bsa-2018"].possible:
            # discs beneath most crosses may be what fills them
            crosses = [m for m in marks if m.sight.glyph in ("cross", "cross-filled")]
            on_discs = sum(_on_disc(m, marks) for m in crosses)
            doubtful = frozenset({"circle", "cross"} if on_discs and 2 * on_discs >= len(crosses) else {"circle"})
    blots: list[Glyph] = [glyph for glyph in HOLLOW if glyph in styled and glyphs.count(glyph) == 1]
    if blots and not told and sum(glyph.endswith("-filled") for glyph in glyphs) == 1:
        doubtful |= frozenset[Glyph](HOLLOW[glyph] for glyph in blots)
    return Filling(
        tuple(replace(c, marks=_all_restyled(c.marks, styled)) for c in charts),
        tuple(replace(line, glyph=HOLLOW[line.glyph]) if line.glyph in styled else line for line in key),
        doubtful,
    )


def _told(key: tuple[KeyLine, ...]) -> bool | None:
    """Say whether the key shows a filled circle as ordinary air, or as something else; None where it shows none."""
    for line in key:
        if line.glyph == "circle-filled":
            if MASKED.search(line.text) and not UNMASKED.search(line.text):
                return False
            if (AIR.search(line.text) or RIGHT.search(line.text)) and not BONE.search(line.text):
                return True if UNMASKED.search(line.text) or not _goes_on(line.text) else None
    return None


def _goes_on(text: str) -> bool:
    """Say whether words that keys do not use stand after "air": they may be "masked", read with slips."""
    found = list(AIR.finditer(text))
    after = WORD.findall(text[found[-1].end() :].lower()) if found else []
    return any(len(word) > LONGEST_INITIALS and word not in VOCABULARY for word in after)


def _on_disc(mark: Mark, marks: Sequence[Mark]) -> bool:
    return mark.sight.glyph == "cross-filled" and any(
        other.sight.glyph == "circle-filled" and other.sight.score >= PLENTY and same_place(mark, other)
        for other in marks
        if other.sight.area == mark.sight.area
    )


def _all_restyled(marks: tuple[Mark, ...], styled: set[Glyph]) -> tuple[Mark, ...]:
    """Restyle the marks of a chart; of a filled and an open cross on one styled disc the clearer stands, open."""
    if "circle-filled" in styled:
        marks = tuple(replace(m, sight=replace(m.sight, glyph="cross")) if _on_disc(m, marks) else m for m in marks)
        crosses = [m for m in marks if m.sight.glyph == "cross"]
        twins = [m for m in crosses if any(o.sight.score > m.sight.score and same_place(o, m) for o in crosses)]
        marks = tuple(m for m in marks if not any(m is twin for twin in twins))
    return tuple(_restyled(m, styled) for m in marks)


def _restyled(mark: Mark, styled: set[Glyph]) -> Mark:
    sight = mark.sight
    rivals = tuple((HOLLOW[g] if g in styled else g, s) for g, s in sight.rivals)
    glyph = HOLLOW[sight.glyph] if sight.glyph in styled else sight.glyph
    best = {g: s for g, s in sorted(rivals, key=lambda r: r[1]) if g != glyph}
    return replace(mark, sight=replace(sight, glyph=glyph, rivals=tuple(best.items())))
