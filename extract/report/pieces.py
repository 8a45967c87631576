"""Pieces of lines, cut out of a sheet and pasted under each other into one small picture for text recognition."""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import dataclass
from statistics import median

import numpy as np

from ..page import Pixels, Word
from .growth import WORD_GAP, Mask, grown

Box = tuple[float, float, float, float]

LETTER_PX = 22.0
"""How high a word's box stands in the strip. Of 16, 20, 24 and 30, those from 20 on are read alike, and larger ones
take longer."""
GAP = 1.2
"""Widest gap within a piece, in heights of its letters."""
SHARED = 0.4
"""Words of one piece share at least this part of the lower one's height."""
UNLIKE = 2.2
"""Words of one piece are at most so many times as high as each other."""
EDGE = 0.3
"""Paper around a piece, in heights of its letters."""
LINE_REACH = 2
"""So many words to either side tell how high the line is at a word: farther away it may run askew."""
MARGIN_PX = 20
BETWEEN_PX = 12
RULED = 0.6
"""A row or column at a piece's edge that is dark over more than this part is a printed rule."""


@dataclass(frozen=True, slots=True)
class Piece:
    """Words that follow each other on a line, from left to right, and the height of their letters in sheet pixels."""

    words: tuple[Word, ...]
    height: float

    @property
    def box(self) -> Box:
        """The box around its words, with some paper, in sheet pixels."""
        pad = EDGE * self.height + 1
        boxes = [w.box for w in self.words]
        return (
            min(b[0] for b in boxes) - pad, min(b[1] for b in boxes) - pad,
            max(b[2] for b in boxes) + pad, max(b[3] for b in boxes) + pad,
        )  # fmt: skip

    def on_line(self) -> list[Box]:
        """Give the box of each word, as high as the words on both sides of it reach."""
        found: list[Box] = []
        for at, word in enumerate(self.words):
            near = self.words[max(at - LINE_REACH, 0) : at + LINE_REACH + 1]
            top, bottom = min(w.box[1] for w in near), max(w.box[3] for w in near)
            found.append((word.box[0], top, word.box[2], bottom))
        return found


@dataclass(frozen=True, slots=True)
class Strip:
    """Pieces pasted under each other.

    ``pixels`` has shape (height, width), uint8, dark on light. Row ``i`` begins at ``tops[i]`` and holds ``pieces[i]``;
    ``corners[i]`` is the sheet position of its upper left pixel and ``scales[i]`` its pixels per sheet pixel.
    """

    pixels: Pixels
    pieces: tuple[Piece, ...]
    tops: tuple[float, ...]
    corners: tuple[tuple[float, float], ...]
    scales: tuple[float, ...]

    def row_of(self, y: float) -> int | None:
        """Give the row at a height of the strip; None above the first."""
        row = bisect_right(self.tops, y + BETWEEN_PX / 2) - 1
        return row if row >= 0 else None

    def on_sheet(self, row: int, box: Box) -> Box:
        """Carry a box from the strip to the sheet."""
        (x, y), scale, top = self.corners[row], self.scales[row], self.tops[row]
        return (
            x + (box[0] - MARGIN_PX) / scale, y + (box[1] - top) / scale,
            x + (box[2] - MARGIN_PX) / scale, y + (box[3] - top) / scale,
        )  # fmt: skip


def pieces_of(words: tuple[Word, ...]) -> tuple[Piece, ...]:
    """Group level words into pieces of lines.

    Parameters
    ----------
    words : tuple of Word
        Level words in sheet pixels.

    Returns
    -------
    tuple of Piece
        From top to bottom.
    """
    rows: list[list[Word]] = []
    for word in sorted(words, key=lambda w: w.box[0]):
        fitting = [row for row in rows if _goes_on(row[-1].box, word.box)]
        if fitting:
            max(fitting, key=lambda row: row[-1].box[2]).append(word)
        else:
            rows.append([word])
    pieces = [Piece(tuple(row), median(w.box[3] - w.box[1] for w in row)) for row in rows]
    return tuple(sorted(pieces, key=lambda piece: (piece.box[1], piece.box[0])))


def _goes_on(last: Box, box: Box) -> bool:
    one, other = last[3] - last[1], box[3] - box[1]
    low, high = min(one, other), max(one, other)
    shared = min(last[3], box[3]) - max(last[1], box[1])
    return shared > SHARED * low and -0.5 * other < box[0] - last[2] < GAP * high and high < UNLIKE * low


def paste(grey: Pixels, ink: Mask, pieces: tuple[Piece, ...]) -> Strip:
    """Cut pieces out of a sheet and paste them under each other.

    Parameters
    ----------
    grey : ndarray, shape (height, width), uint8
        The sheet.
    ink : ndarray, shape (height, width), bool
        Its ink: a word beside a piece that was not found is cut out with it.
    pieces : tuple of Piece
        At least one.

    Returns
    -------
    Strip
        The picture, and where each of its rows comes from.
    """
    crops: list[Pixels] = []
    corners: list[tuple[float, float]] = []
    scales: list[float] = []
    boxes = [piece.box for piece in pieces]
    for number, piece in enumerate(pieces):
        left, top, right, bottom = _wide(number, piece, ink, boxes)
        x, y = int(max(left, 0)), int(max(top, 0))
        scale = LETTER_PX / max(piece.height, 4.0)
        crops.append(_levelled(grey[y : int(bottom) + 2, x : int(right) + 2], scale, int(EDGE * piece.height)))
        corners.append((float(x), float(y)))
        scales.append(scale)
    width = max(crop.shape[1] for crop in crops) + 2 * MARGIN_PX
    picture = np.full((sum(crop.shape[0] + BETWEEN_PX for crop in crops) + 2 * BETWEEN_PX, width), 255, np.uint8)
    tops: list[float] = []
    at = BETWEEN_PX
    for crop in crops:
        picture[at : at + crop.shape[0], MARGIN_PX : MARGIN_PX + crop.shape[1]] = crop
        tops.append(float(at))
        at += crop.shape[0] + BETWEEN_PX
    return Strip(picture, pieces, tuple(tops), tuple(corners), tuple(scales))


def _wide(number: int, piece: Piece, ink: Mask, boxes: list[Box]) -> Box:
    """Give a piece's box, wider where ink goes on beside it, up to the next piece of the line."""
    left, top, right, bottom = box = boxes[number]
    pad = EDGE * piece.height + 1
    inner = (left + pad, top + pad, right - pad, bottom - pad)
    wide = grown(ink, inner, WORD_GAP)
    middle = (left + right) / 2
    on_line = [o for k, o in enumerate(boxes) if k != number and min(o[3], bottom) - max(o[1], top) > 0.4 * pad]
    ends = [o[2] - pad for o in on_line if o[0] + o[2] < 2 * middle]
    starts = [o[0] + pad for o in on_line if o[0] + o[2] >= 2 * middle]
    return (
        max([wide[0] - pad, *(min(end, inner[0] - 2) for end in ends)]), box[1],
        min([wide[2] + pad, *(max(start, inner[2] + 2) for start in starts)]), box[3],
    )  # fmt: skip


def _levelled(crop: Pixels, scale: float, edge: int) -> Pixels:
    """Make paper white and ink black, take printed rules off the edges, and bring the letters to their height."""
    import cv2

    if not crop.size:  # a word beside the sheet
        return np.full((2, 2), 255, np.uint8)
    levels = np.sort(crop, axis=None, kind="stable")  # much quicker for bytes
    low, high = (float(levels[round(share * (levels.size - 1))]) for share in (0.01, 0.8))
    low = min(low, high - 40.0)
    shades = np.clip((np.arange(256, dtype=np.float32) - low) * (255.0 / (high - low)), 0, 255).astype(np.uint8)
    clean = shades[crop]
    dark = clean < 128
    if edge:
        high, wide = dark.shape
        for rows in (slice(0, edge), slice(max(high - edge, 0), high)):
            clean[rows][dark[rows].mean(axis=1) > RULED] = 255
        for columns in (slice(0, edge), slice(max(wide - edge, 0), wide)):
            clean[:, columns][:, dark[:, columns].mean(axis=0) > RULED] = 255
    how = cv2.INTER_AREA if scale < 1 else cv2.INTER_CUBIC
    size = (max(2, round(clean.shape[1] * scale)), max(2, round(clean.shape[0] * scale)))
    return np.asarray(cv2.resize(clean, size, interpolation=how), np.uint8)
