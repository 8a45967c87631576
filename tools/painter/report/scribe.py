"""How the words of a report are set, and the noting of where each value came to stand."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from ....interpret.record import Box, Fact
from .. import fonts
from ..chart.chance import pick
from ..pen import BLACK, XY, Colour
from ..sheet import Sheet
from .cells import Cell, Piece, Told
from .languages import Language, Split

ACCENTED = "äöüßÄÖÜñáéíóúàèêîôûçâëï°’–"
"""What the four languages need beyond ASCII."""


@dataclass(frozen=True, slots=True)
class Setting:
    """How a page sets its words; ``ending`` follows every label, ``tick`` is how a box is ticked."""

    language: Language
    split: Split
    face: str
    bold: str
    size: float
    ending: str = ":"
    label_colour: Colour = BLACK
    labels_bold: bool = True
    tick: str = "cross"

    @property
    def label_face(self) -> str:
        """The face of labels."""
        return self.bold if self.labels_bold else self.face

    def number(self, value: float, decimals: int = 0) -> str:
        """Write a number with the language's decimal sign, and a hyphen for minus."""
        text = f"{value:.{decimals}f}"
        text = text.removeprefix("-") if float(text) == 0 else text
        return text.replace(".", ",") if self.language.comma else text


def faces_with_accents(split: Split) -> tuple[str, ...]:
    """Name the faces of a split that can write all four languages."""
    return tuple(name for name in fonts.faces_for(split) if fonts.has(name, ACCENTED))


def any_setting(rng: np.random.Generator, language: Language, split: Split, *, size: float) -> Setting:
    """Choose how a page sets its words."""
    face = fonts.load(pick(rng, faces_with_accents(split)))
    endings = (" :", ":", "") if language.code == "fr" else (":", "")
    return Setting(
        language,
        split,
        face,
        fonts.load(fonts.FACES[face].bold),
        size,
        ending=pick(rng, endings, (0.5, 0.3, 0.2) if len(endings) == 3 else (0.75, 0.25)),
        label_colour=pick(rng, (BLACK, (0.3, 0.3, 0.3), (0.1, 0.2, 0.45), (0.0, 0.35, 0.35)), (0.6, 0.2, 0.1, 0.1)),
        labels_bold=bool(rng.random() < 0.45),
        tick=pick(rng, ("cross", "check", "filled")),
    )


class Scribe:
    """Writes a report's cells on a sheet and states its facts, with their places, once all are written."""

    def __init__(self, sheet: Sheet, told: Told, setting: Setting) -> None:
        self.sheet, self.told, self.setting = sheet, told, setting
        self._places: dict[int, list[Box]] = {}
        self._words: dict[int, list[str]] = {}

    def label(self, at: XY, text: str, size: float | None = None, *, anchor: float = 0.0) -> float:
        """Write a label and give its width."""
        setting = self.setting
        words = text + setting.ending
        return self.sheet.pen.text(
            at, words, setting.label_face, size or setting.size, setting.label_colour, anchor=anchor
        )

    def label_width(self, text: str, size: float | None = None) -> float:
        """Say how wide a label is."""
        return fonts.width(self.setting.label_face, text + self.setting.ending, size or self.setting.size)

    def value_width(self, cell: Cell) -> float:
        """Say how wide a cell's value is on one line."""
        face, size = self.setting.face, self.setting.size
        if cell.boxes:
            return sum(fonts.width(face, word, size) + 2.3 * size for word, _ in cell.boxes)
        return fonts.width(face, "  ".join(piece.text for piece in cell.pieces), size)

    def value(self, at: XY, cell: Cell, *, width: float | None = None) -> float:
        """Write a cell's value from its base line on; give the y of the last line's base line.

        ``width`` is where it turns to a new line; by default it stays on one.
        """
        if cell.boxes:
            self._tick_boxes(at, cell)
            return at[1]
        x, y = at
        for piece in cell.pieces:
            for line in self._lines(piece, width):
                if x > at[0] and line is not piece.text:
                    x = at[0]
                self._write((x, y), line, piece.fact)
                y += self.setting.size * 1.4
            y -= self.setting.size * 1.4
            x += fonts.width(self.setting.face, piece.text + "  ", self.setting.size)
        return y

    def finish(self) -> None:
        """State every fact that was written, in reading order, in the sheet's report."""
        found = []
        for number, told in enumerate(self.told.facts):
            if number not in self._places:
                continue
            box = around(self._places[number])
            standing = "ask" if told.open else "sure"
            found.append(Fact(told.name, told.value, " ".join(self._words[number]), box, 1.0, standing))
        add_facts(self.sheet, found)

    def _lines(self, piece: Piece, width: float | None) -> list[str]:
        if width is None or fonts.width(self.setting.face, piece.text, self.setting.size) <= width:
            return [piece.text]
        lines = [""]
        for word in piece.text.split(" "):
            longer = f"{lines[-1]} {word}".strip()
            if lines[-1] and fonts.width(self.setting.face, longer, self.setting.size) > width:
                lines.append(word)
            else:
                lines[-1] = longer
        return lines

    def ink(self, at: XY, text: str) -> Box:
        """Set the words of a fact's value on the page."""
        return write(self.sheet, at, text, self.setting.face, self.setting.size)

    def _write(self, at: XY, text: str, fact: int | None) -> None:
        if fact is None:
            write(self.sheet, at, text, self.setting.face, self.setting.size)
        else:
            self._note(fact, self.ink(at, text), text)

    def _note(self, fact: int, box: Box, text: str) -> None:
        self._places.setdefault(fact, []).append(box)
        self._words.setdefault(fact, []).append(text)

    def _tick_boxes(self, at: XY, cell: Cell) -> None:
        x, size = at[0], self.setting.size
        for word, ticked in cell.boxes:
            side = size * 0.78
            square = (x, at[1] - side, x + side, at[1])
            _tick_box(self.sheet, square, self.setting.tick if ticked else "")
            start = x + side + size * 0.4
            box = write(self.sheet, (start, at[1]), word, self.setting.face, size)
            if ticked and cell.fact is not None:
                self._note(cell.fact, around((box, fractions(self.sheet, square))), word)
            x = start + fonts.width(self.setting.face, word, size) + size * 1.1


def _tick_box(sheet: Sheet, square: Box, tick: str) -> None:
    pen, (left, top, right, bottom) = sheet.pen, square
    side = right - left
    pen.rect(square, BLACK, max(0.5, side * 0.08))
    if tick == "cross":
        low, far = side * 0.15, side * 0.85
        pen.line((left + low, top + low), (left + far, top + far), BLACK, side * 0.13)
        pen.line((left + low, top + far), (left + far, top + low), BLACK, side * 0.13)
    elif tick == "check":
        hook = ((0.15, 0.5), (0.4, 0.88), (1.1, -0.1))
        pen.path([(left + side * x, top + side * y) for x, y in hook], BLACK, side * 0.15)
    elif tick == "filled":
        inner = side * 0.2
        pen.rect((left + inner, top + inner, right - inner, bottom - inner), None, fill=BLACK)


def write(
    sheet: Sheet, at: XY, text: str, face: str, size: float, colour: Colour = BLACK, *, anchor: float = 0.0
) -> Box:
    """Write one line and give the box of its ink, in page fractions."""
    first = len(sheet.pen.words)
    sheet.pen.text(at, text, face, size, colour, anchor=anchor)
    return around([word.box for word in sheet.pen.words[first:]])


def around(boxes: Sequence[Box]) -> Box:
    """Give the box that holds all of these."""
    lefts, tops, rights, bottoms = zip(*boxes, strict=True)
    return min(lefts), min(tops), max(rights), max(bottoms)


def fractions(sheet: Sheet, box: Box) -> Box:
    """Turn a box in points into page fractions."""
    (left, top), (right, bottom) = sheet.fraction(box[:2]), sheet.fraction(box[2:])
    return left, top, right, bottom


def add_facts(sheet: Sheet, facts: Sequence[Fact]) -> None:
    """Add facts to the sheet's report, all in reading order, and repeat the four values that stand beside them."""
    together = sorted(
        (*sheet.report.facts, *facts), key=lambda f: (round(f.box[1], 2), f.box[0]) if f.box else (0.0, 0.0)
    )
    values = {fact.name: fact.value for fact in reversed(together)}
    sheet.report = replace(
        sheet.report,
        patient=values.get("patient-name"),
        born=values.get("birth-date"),
        transducer=values.get("transducer"),
        reliability=values.get("reliability"),
        facts=tuple(together),
    )
