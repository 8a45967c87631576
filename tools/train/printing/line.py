"""Print a word in a line of others and cut it out of the spoiled page as the reader of print does."""

from __future__ import annotations

from pathlib import Path

import numpy as np
from PIL import Image, ImageDraw

from ....extract.eyes.words.printed import WIDEST, printed_crop
from ..lettering.machines import through_machine
from ..lettering.over import Box, Grey, cross_out, surround
from ..lettering.word import Print, any_height, font_of, has_shape, nothing_said
from .texts import printed_text

NOTHING = 0.03
CROSSED = 0.16
"""Share of words with something drawn over them: less than on charts."""
ALONE = 0.35
"""Share of words that stand alone, so that no other tells how high their line is."""
DASHES = {"\u2212": "-", "\u2013": "-"}


def paint_words(
    fonts: list[Path], words: tuple[str, ...], rng: np.random.Generator, count: int
) -> list[tuple[Grey, str]]:
    """Paint words as they stand on a page and cut them out, each printed once and sent through two machines.

    Returns
    -------
    list of tuple
        Crops, shape (32, ``WIDEST``), uint8, and what each says; empty where there are only lines or dirt.
    """
    found: list[tuple[Grey, str]] = []
    while len(found) < count:
        if rng.random() < NOTHING:
            work = nothing_said(rng, rng.random() * 0.7)
        else:
            work = _printed(fonts, words, rng)
            if rng.random() < CROSSED:
                cross_out(work.plane, work.box, work.paper, work.ink, rng)
            surround(work.plane, work.box, work.paper, work.ink, rng)
        found += [_cut_out(work, rng), _cut_out(work, rng)]
    return found[:count]


def _cut_out(work: Print, rng: np.random.Generator) -> tuple[Grey, str]:
    """Send a print through a machine and cut the word out, its box a little off; most often not badly spoiled."""
    for _ in range(4):
        height = any_height(rng) * 1.25
        grey, box = through_machine(work.plane, work.plain, work.box, height, rng)
        amount = 0.09 if rng.random() < 0.1 else 0.045
        box = box + np.clip(rng.normal(0, amount, 4), -2.2 * amount, 2.2 * amount) * (box[3] - box[1])
        crop = printed_crop(grey, (float(box[0]), float(box[1]), float(box[2]), float(box[3])))
        if not work.text or np.count_nonzero(crop[6:26] < 140) >= 8:
            return _widened(crop), work.text
    x0, y0, x1, y1 = (float(v) for v in work.box)
    return _widened(printed_crop(work.plane, (x0, y0, x1, y1))), work.text


def _widened(crop: Grey) -> Grey:
    wide = np.full((crop.shape[0], WIDEST), 255, np.uint8)
    wide[:, : crop.shape[1]] = crop
    return wide


def _printed(fonts: list[Path], words: tuple[str, ...], rng: np.random.Generator) -> Print:
    """Print a word among up to four others of its line; its box is as high as the line, unless it stands alone."""
    while True:
        path = str(fonts[int(rng.integers(len(fonts)))])
        before, after = (
            [printed_text(rng, words) for _ in range(int(rng.integers(0, 3)))] if rng.random() > ALONE else []
            for _ in range(2)
        )
        said = printed_text(rng, words)
        texts = [t if all(has_shape(path, c) for c in t) else "".join(DASHES.get(c, c) for c in t)
                 for t in (*before, said, *after)]  # fmt: skip
        if all(has_shape(path, c) for t in texts for c in t):
            break
    at = len(before)
    font = font_of(path, int(rng.integers(20, 34)))
    space = font.getlength(" ") * (1.0 if rng.random() < 0.7 else rng.uniform(0.8, 4.0))
    ink_boxes, x = [], 0.0
    for text in texts:
        ink_boxes.append((x, font.getbbox(text)))
        x += font.getlength(text) + space
    left, right = (ink_boxes[at][0] + ink_boxes[at][1][k] for k in (0, 2))
    top, bottom = min(b[1] for _, b in ink_boxes), max(b[3] for _, b in ink_boxes)
    if rng.random() < 0.15:  # the others' heights were not known
        top, bottom = ink_boxes[at][1][1], ink_boxes[at][1][3]
    height = max(bottom - top, 6)
    if bottom - top < 10:  # a dash alone: its line is as high as print is, which the reader knows from elsewhere
        top, bottom = font.getbbox("Ag")[1], font.getbbox("Ag")[3]
        height = bottom - top
    side = int(1.2 * height) + 8
    paper = 255 if rng.random() < 0.4 else int(rng.integers(195, 256))
    ink = int(rng.integers(0, 60)) if rng.random() < 0.7 else int(rng.integers(0, paper - 70))
    size = (int(right - left) + 2 * side, int(height) + 2 * side)
    plain = Image.new("L", size, paper)
    offset = (side - left, side - top)
    ImageDraw.Draw(plain).text((ink_boxes[at][0] + offset[0], offset[1]), texts[at], font=font, fill=ink)
    plane = plain.copy()
    draw = ImageDraw.Draw(plane)
    for k, (text, (place, _)) in enumerate(zip(texts, ink_boxes, strict=True)):
        if k != at:
            draw.text((place + offset[0], offset[1]), text, font=font, fill=ink)
    box: Box = np.array([side, side, side + right - left, side + height], float)
    return Print(np.array(plane), np.array(plain), box, paper, ink, said)
