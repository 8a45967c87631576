"""Page: one page as displayed, before anything is found on it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from ..interpret.record import Source

Pixels = npt.NDArray[np.uint8]

UNMAPPED = "\ufffd"
"""Stands for a letter whose font says not which letter it is."""

SIGNS = frozenset("<‹〈>›〉[⊏]⊐○◯⚪●⚫•×✕╳✖△∆▲□☐◻■◼┐┌└┘↙↘↓OoXx^SAMUm")
"""Characters that charts use as marks, or as arrows of marks."""


@dataclass(frozen=True, slots=True)
class Word:
    """A printed word and its box (left, top, right, bottom) in pixels of the picture it was read from.

    ``upright`` is the clockwise turn in degrees (0, 90, 180, 270) at which the word reads normally. ``others`` are
    further texts that it may say, each with its chance, where it could not be read for certain. ``ink`` is its colour
    where the file tells it. ``chance`` is how probable it is that ``text`` is right, where several readers were held
    against each other. ``tight`` says that the box is that of the ink itself, by the font of the file.
    """

    text: str
    box: tuple[float, float, float, float]
    confidence: float = 1.0
    upright: int = 0
    others: tuple[tuple[str, float], ...] = ()
    ink: tuple[int, int, int] | None = None
    chance: float | None = None
    tight: bool = False

    @property
    def middle(self) -> tuple[float, float]:
        """The middle of its box."""
        return (self.box[0] + self.box[2]) / 2, (self.box[1] + self.box[3]) / 2

    @property
    def readings(self) -> tuple[tuple[str, float], ...]:
        """All texts that the word may say, the likeliest first, each with its chance."""
        return ((self.text, self.confidence), *self.others)


@dataclass(frozen=True, slots=True)
class DrawnPath:
    """A stroked or filled part of a path of a PDF page, in page pixels.

    ``points`` has shape (n, 2), float64: the vertices (of curves, the end points and control points), ``on_curve``
    shape (n,): false for a control point. Parts of one path, which are filled together, have one ``number``; numbers
    rise in the order of drawing.
    """

    points: npt.NDArray[np.float64]
    on_curve: npt.NDArray[np.bool_]
    stroke: tuple[int, int, int] | None
    fill: tuple[int, int, int] | None
    width_px: float
    dashed: bool
    number: int


@dataclass(frozen=True, slots=True)
class Page:
    """One page as displayed (EXIF turn and PDF /Rotate applied).

    ``pixels`` has shape (height, width, 3), uint8, RGB, read-only; pixel (0, 0) has its centre at (0, 0).
    The aspect is square: fax pixels were stretched. ``dpi`` is the resolution where it is known and credible.
    ``words`` is None where the page has no trusted text of its own (a scan) and OCR must read it.
    """

    source: Source
    pixels: Pixels
    dpi: float | None
    words: tuple[Word, ...] | None = None
    paths: tuple[DrawnPath, ...] = ()
    notes: tuple[str, ...] = ()
    """Remark codes (``interpret.reasons``) of what the intake met, for the record."""
