"""The printed key of symbols: a box of specimens with words, as one list or with a column per ear."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Literal

from ....interpret.symbols import SYMBOL_SETS, Glyph, Ink, Meaning
from .. import fonts
from ..pen import XY, Colour
from ..sheet import Sheet
from ..truth import PaintedMark
from .draw import colour_of, ink_of
from .look import Look
from .marks import draw_arrow, draw_glyph

Wording = Literal["full", "short", "trade", "german"]
_EARS: dict[Wording, dict[str, str]] = {
    "full": {
        "right": "Right ear",
        "left": "Left ear",
        "by-colour": "Either ear",
        "both": "Both ears",
        "unspecified": "Ear not named",
    },
    "short": {"right": "R", "left": "L", "by-colour": "R/L", "both": "R+L", "unspecified": "any"},
    "trade": {
        "right": "Right",
        "left": "Left",
        "by-colour": "Test ear",
        "both": "Binaural",
        "unspecified": "Unspecified",
    },
    "german": {
        "right": "Rechts",
        "left": "Links",
        "by-colour": "Prüfohr",
        "both": "Beide",
        "unspecified": "ohne Angabe",
    },
}
_KINDS: dict[Wording, dict[str, str]] = {
    "full": {
        "air": "air",
        "bone": "bone",
        "field": "loudspeaker",
        "masked": "masked",
        "aided": "aided",
        "mcl": "comfortable level",
        "ucl": "uncomfortable level",
    },
    "short": {
        "air": "air",
        "bone": "bone",
        "field": "SF",
        "masked": "mask.",
        "aided": "aid",
        "mcl": "MCL",
        "ucl": "UCL",
    },
    "trade": {
        "air": "AC",
        "bone": "BC",
        "field": "sound field",
        "masked": "masked",
        "aided": "aided",
        "mcl": "MCL",
        "ucl": "ULL",
    },
    "german": {
        "air": "Luft",
        "bone": "Knochen",
        "field": "Freifeld",
        "masked": "vertäubt",
        "aided": "mit Gerät",
        "mcl": "angenehm",
        "ucl": "unbehaglich",
    },
}


@dataclass(frozen=True, slots=True)
class KeyLook:
    """How a key is set: ``turn`` of the words, lists or two columns, its frame and its head line."""

    wording: Wording = "full"
    columns: bool = False
    frame: bool = True
    head: str | None = "Symbols"
    size: float = 8.0
    arrow_row: bool = False
    frame_colour: Colour = (0.3, 0.3, 0.3)


def _phrase(meaning: Meaning, wording: Wording, *, with_ear: bool) -> str:
    kinds = _KINDS[wording]
    what = kinds[meaning.conduction if meaning.measure == "threshold" else meaning.measure]
    words = [what] + [kinds["masked"]] * meaning.masked + [kinds["aided"]] * meaning.aided
    return (f"{_EARS[wording][meaning.ear]}, " if with_ear else "") + " ".join(words)


def _rows(look: Look, shown: Iterable[Glyph]) -> list[tuple[Glyph, Meaning]]:
    meanings = SYMBOL_SETS[look.symbol_set].meanings
    wanted = set(shown)
    return [(glyph, meaning) for glyph, meaning in meanings.items() if glyph in wanted]


def key_size(look: Look, key: KeyLook, shown: Iterable[Glyph]) -> tuple[float, float]:
    """Give the width and height in points that a key needs."""
    rows = _rows(look, shown)
    pitch = key.size * 1.6
    longest = max((_phrase(m, key.wording, with_ear=not key.columns) for _, m in rows), key=len, default="")
    width = key.size * 3 + fonts.width(look.lettering.face, longest, key.size) + 8
    lines = len(_paired(rows)) if key.columns else len(rows)
    if key.columns:
        width += key.size * 8
    return width + 6, (lines + (key.head is not None) + key.columns + key.arrow_row) * pitch + 8


def _paired(rows: list[tuple[Glyph, Meaning]]) -> list[tuple[str, list[tuple[Glyph, Meaning]]]]:
    groups: dict[tuple[str, bool, bool, str], list[tuple[Glyph, Meaning]]] = {}
    for glyph, meaning in rows:
        groups.setdefault((meaning.conduction, meaning.masked, meaning.aided, meaning.measure), []).append(
            (glyph, meaning)
        )
    return [(str(k), group) for k, group in enumerate(groups.values())]


def draw_key(
    sheet: Sheet, chart: int, audiogram: int, look: Look, at: XY, key: KeyLook, shown: Iterable[Glyph]
) -> None:
    """Draw a key with its top left corner at ``at``; its specimens go into the truth as ``in_key`` marks.

    Parameters
    ----------
    sheet : Sheet
        The page.
    chart, audiogram : int
        The chart that the key belongs to, by the numbers on the page.
    look : Look
        The chart's look: specimens are drawn as its marks are.
    at : tuple
        Top left corner in points.
    key : KeyLook
        How the key is set.
    shown : iterable of Glyph
        The glyphs that the key explains.
    """
    rows = _rows(look, shown)
    width, height = key_size(look, key, shown)
    face = look.lettering.face
    if key.frame:
        sheet.pen.rect((at[0], at[1], at[0] + width, at[1] + height), key.frame_colour, 0.6)
    pitch = key.size * 1.6
    x, y = at[0] + 6 + key.size * 0.6, at[1] + 4 + pitch * 0.6
    if key.head:
        sheet.pen.text((at[0] + 5, y + key.size * 0.35), key.head, fonts.FACES[face].bold, key.size, chart=chart)
        y += pitch
    if not key.columns:
        for glyph, meaning in rows:
            ear = meaning.ear if meaning.ear in ("right", "left") else "unspecified"
            inks: tuple[Ink, ...] = (ink_of(ear, look.strokes),)
            if meaning.ear == "by-colour" and not look.strokes.one_ink:
                inks = ("red", "blue")
            for k, ink in enumerate(inks):
                _specimen(sheet, chart, audiogram, look, glyph, ink, (x + k * key.size * 1.1, y), key.size)
            words = _phrase(meaning, key.wording, with_ear=True)
            sheet.pen.text((x + key.size * (0.9 + len(inks)), y + key.size * 0.35), words, face, key.size, chart=chart)
            y += pitch
    else:
        ears = _EARS[key.wording]
        centre = (x + key.size * 1.2, x + key.size * 6.0)
        for place, ear in zip(centre, ("right", "left"), strict=True):
            sheet.pen.text((place, y + key.size * 0.35), ears[ear], face, key.size * 0.85, anchor=0.5, chart=chart)
        y += pitch
        for _, group in _paired(rows):
            _columns_row(sheet, chart, audiogram, look, group, centre, y, key)
            y += pitch
    if key.arrow_row:
        _arrow_row(sheet, chart, look, (x, y), key)


def _columns_row(
    sheet: Sheet,
    chart: int,
    audiogram: int,
    look: Look,
    group: list[tuple[Glyph, Meaning]],
    centre: tuple[float, float],
    y: float,
    key: KeyLook,
) -> None:
    for glyph, meaning in group:
        if meaning.ear in ("right", "left"):
            side = centre[0] if meaning.ear == "right" else centre[1]
            _specimen(sheet, chart, audiogram, look, glyph, ink_of(meaning.ear, look.strokes), (side, y), key.size)
        elif meaning.ear == "by-colour":
            for side, ear in zip(centre, ("right", "left"), strict=True):
                _specimen(sheet, chart, audiogram, look, glyph, ink_of(ear, look.strokes), (side, y), key.size)
        elif glyph != "vee":
            _specimen(sheet, chart, audiogram, look, glyph, "neutral", ((centre[0] + centre[1]) / 2, y), key.size)
    words = _phrase(group[0][1], key.wording, with_ear=False)
    at = (centre[1] + key.size * 2.2, y + key.size * 0.35)
    sheet.pen.text(at, words, look.lettering.face, key.size, chart=chart)


def _arrow_row(sheet: Sheet, chart: int, look: Look, at: XY, key: KeyLook) -> None:
    strokes = replace(look.strokes, width=min(look.strokes.width, 1.0))
    box = (at[0], at[1] - key.size * 0.6, at[0], at[1] - key.size * 0.2)
    draw_arrow(sheet.pen, box, "down-right", replace(strokes, arrow_length=1.6), strokes.neutral)
    words = {"german": "keine Antwort", "short": "no resp."}.get(key.wording, "no response")
    sheet.pen.text((at[0] + key.size * 1.9, at[1] + key.size * 0.35), words, look.lettering.face, key.size, chart=chart)


def _specimen(
    sheet: Sheet, chart: int, audiogram: int, look: Look, glyph: Glyph, ink: Ink, at: XY, height: float
) -> None:
    strokes = replace(look.strokes, width=min(look.strokes.width, height / 5))
    box = draw_glyph(sheet.pen, glyph, at, height, strokes, colour_of(ink, strokes))
    size = ((box[2] - box[0]) / sheet.pen.width, (box[3] - box[1]) / sheet.pen.height)
    sheet.marks.append(
        PaintedMark(glyph, ink, None, sheet.fraction(at), size, None, None, chart, audiogram, in_key=True)
    )
