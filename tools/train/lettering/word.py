"""Print one word, or something that is none, and cut it out of the spoiled page as the reader does."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache
from pathlib import Path

import numpy as np
from PIL import Image, ImageDraw, ImageFont

from ....extract.eyes.words.reader import label_crop
from .machines import through_machine
from .over import CIRCLES, MARKS, Box, Grey, cross_out, join_across, line_across, surround, tone_between
from .texts import word_text

NOT_WORDS = 0.08
"""Share of crops that show no whole word, whose text is empty or ``?``."""
OVERLAPPED = 0.33
"""Share of words with something drawn over them or touching them."""
HELD_FOR_BENCH = ("Caladea", "Carlito", "DejaVuSerif", "Lato", "RedHat", "Vera", "cmb", "cmr")
"""How the files of faces that the benchmark's pages are set in begin; ``Carlito`` is drawn after one of them.

By hand, since the painter's list of faces cannot be read where only the training's own packages are installed.
"""


@dataclass(frozen=True, slots=True)
class Print:
    """A piece of print: with all ink, with the word's alone, the word's box, the tones, and what it says."""

    plane: Grey
    plain: Grey
    box: Box
    paper: int
    ink: int
    text: str


def legible_faces(folder: Path) -> list[Path]:
    """List the font files of a folder, sorted, without the faces that the benchmark is set in."""
    files = sorted(p for p in folder.iterdir() if p.suffix.lower() in (".ttf", ".otf"))
    return [p for p in files if not p.name.startswith(HELD_FOR_BENCH)]


@lru_cache(maxsize=4096)
def font_of(path: str, size: int) -> ImageFont.FreeTypeFont:
    return ImageFont.truetype(path, size, layout_engine=ImageFont.Layout.BASIC)


@lru_cache(maxsize=100_000)
def _shape(path: str, char: str) -> bytes:
    picture = Image.new("L", (48, 48))
    ImageDraw.Draw(picture).text((8, 8), char, font=font_of(path, 24), fill=255)
    return picture.tobytes()


def has_shape(path: str, char: str) -> bool:
    """Tell whether a face has a shape of its own for a character."""
    return char == " " or _shape(path, char) not in (_shape(path, " "), _shape(path, "\uffff"))


def paint_word(fonts: list[Path], rng: np.random.Generator, text: str | None = None) -> tuple[Grey, str]:
    """Paint one word as it stands on a page and cut it out as the reader does.

    Parameters
    ----------
    fonts : list of Path
        Font files to draw from.
    rng : numpy.random.Generator
        The generator of everything that varies.
    text : str, optional
        What the word says; by default ``word_text`` chooses, and some crops show no word at all.

    Returns
    -------
    tuple of ndarray, shape (32, 128), uint8, and str
        The crop and what it says: empty for lines, marks and dirt, ``?`` for parts of words.
    """
    return _cut_out(_on_paper(fonts, rng, text), rng)


def paint_words(fonts: list[Path], rng: np.random.Generator, count: int) -> list[tuple[Grey, str]]:
    """Paint many words, as ``paint_word``; each is printed once and goes through two machines, which saves time."""
    words: list[tuple[Grey, str]] = []
    while len(words) < count:
        work = _on_paper(fonts, rng, None)
        words += [_cut_out(work, rng), _cut_out(work, rng)]
    return words[:count]


def _on_paper(fonts: list[Path], rng: np.random.Generator, text: str | None) -> Print:
    if text is None and rng.random() < NOT_WORDS:
        return _no_word(fonts, rng)
    work = _printed(fonts, rng, text)
    if rng.random() < OVERLAPPED:
        cross_out(work.plane, work.box, work.paper, work.ink, rng)
    surround(work.plane, work.box, work.paper, work.ink, rng)
    return work


def _cut_out(work: Print, rng: np.random.Generator) -> tuple[Grey, str]:
    """Send a print through a machine and cut the word out, its box as little off as a finder's is.

    A word whose ink was lost goes through another machine; after four, it is taken as it was printed.
    """
    for _ in range(4):
        grey, box = through_machine(work.plane, work.plain, work.box, any_height(rng), rng)
        amount = 0.1 if rng.random() < 0.1 else 0.055
        box = box + np.clip(rng.normal(0, amount, 4), -2.2 * amount, 2.2 * amount) * (box[3] - box[1])
        crop = label_crop(grey, (float(box[0]), float(box[1]), float(box[2]), float(box[3])))
        if not work.text or np.count_nonzero(crop[6:26] < 140) >= 8:
            return crop, work.text
    x0, y0, x1, y1 = (float(v) for v in work.box)
    return label_crop(work.plane, (x0, y0, x1, y1)), work.text


def any_height(rng: np.random.Generator) -> float:
    """Choose how high the word's ink is in the machine, in pixels: most often that of small print."""
    low, high = ((6, 9), (9, 15), (15, 24), (24, 34))[int(np.searchsorted((0.18, 0.6, 0.88), rng.random()))]
    return rng.uniform(low, high)


def _printed(fonts: list[Path], rng: np.random.Generator, text: str | None, *, room: float = 1.0) -> Print:
    """Print a word, with another close by at times; ``room`` is the paper around it, in heights of the word."""
    while True:
        said = word_text(rng) if text is None else text
        path = str(fonts[int(rng.integers(len(fonts)))])
        shown = said if all(has_shape(path, c) for c in said) else said.replace("\u2212", "-").replace("\u2013", "-")
        if all(has_shape(path, c) for c in shown):
            break
    font = font_of(path, int(rng.integers(20, 34)))
    left, top, right, bottom = font.getbbox(shown)
    width, height = right - left, bottom - top
    side = int(max(room * height, 0.13 * width)) + 8
    paper = 255 if rng.random() < 0.4 else int(rng.integers(195, 256))
    ink = int(rng.integers(0, 60)) if rng.random() < 0.6 else int(rng.integers(0, paper - 70))
    picture = Image.new("L", (int(width) + 2 * side, int(height) + 2 * side), paper)
    draw = ImageDraw.Draw(picture)
    draw.text((side - left, side - top), shown, font=font, fill=ink)
    box = np.array([side, side, side + width, side + height], float)
    plain = np.array(picture)
    if rng.random() < 0.15:
        _neighbour(draw, box, font, ink, rng)
    return Print(np.array(picture), plain, box, paper, ink, said)


def _neighbour(
    draw: ImageDraw.ImageDraw, box: Box, font: ImageFont.FreeTypeFont, ink: int, rng: np.random.Generator
) -> None:
    """Print a piece of the next word to the right, to the left, above or below."""
    height, gap = box[3] - box[1], rng.uniform(0.3, 1.0) * (box[3] - box[1])
    digits = "".join(str(int(d)) for d in rng.integers(0, 10, 4))
    side = rng.random()
    if side < 0.4:
        draw.text((box[2] + gap, box[3]), digits, font=font, fill=ink, anchor="ls")
    elif side < 0.8:
        draw.text((box[0] - gap, box[3]), digits, font=font, fill=ink, anchor="rs")
    else:
        y = box[3] + 0.5 * gap if side < 0.9 else box[1] - 0.5 * gap - height
        draw.text((box[0] + rng.normal(0, height), y), digits, font=font, fill=ink, anchor="lt")


def _no_word(fonts: list[Path], rng: np.random.Generator) -> Print:
    """Draw what a finder of words takes for one at times: lines, marks, dirt, halves of words, two lines of print."""
    kind = rng.random()
    if kind < 0.7:
        return nothing_said(rng, kind)
    work = _printed(fonts, rng, None, room=2.5)
    height = work.box[3] - work.box[1]
    box = work.box.copy()
    if kind < 0.85:  # the upper or the lower half alone
        cut = rng.uniform(0.45, 0.6) * height
        plane = work.plane.copy()
        if rng.random() < 0.5:
            box[1] += cut
            plane[: int(box[1])] = work.paper
        else:
            box[3] -= cut
            plane[int(box[3]) :] = work.paper
        work = replace(work, plane=plane, plain=plane)
    else:  # two lines
        picture = Image.fromarray(work.plane)
        draw = ImageDraw.Draw(picture)
        font = font_of(str(fonts[int(rng.integers(len(fonts)))]), int(rng.integers(20, 34)))
        draw.text((box[0] + rng.normal(0, 0.3 * height), box[3] + 0.3 * height), "Hz", font=font, fill=work.ink)
        box[3] += 0.3 * height + font.size * 0.9
        work = replace(work, plane=np.array(picture), plain=np.array(picture))
    return replace(work, box=box, text="?")


def nothing_said(rng: np.random.Generator, kind: float) -> Print:
    width, height = rng.uniform(12, 90), rng.uniform(16, 30)
    side = int(height) + 12
    box = np.array([side, side, side + width, side + height], float)
    paper = int(rng.integers(200, 256))
    ink = int(rng.integers(0, 90))
    plane = np.full((int(height) + 2 * side, int(width) + 2 * side), paper, np.uint8)
    if kind < 0.25:
        for _ in range(int(rng.integers(1, 4))):
            line_across(plane, box, paper, ink, rng, near=False)
        if rng.random() < 0.4:
            join_across(plane, box, paper, ink, rng)
    elif kind < 0.55:  # marks, but no circles: alone they look like noughts
        box[2] = box[0] + height * (count := int(rng.integers(1, 3)))
        plane = np.full((int(height) + 2 * side, int(box[2]) + side), paper, np.uint8)
        for k in range(count):
            mark = MARKS[int(rng.integers(CIRCLES, len(MARKS)))]
            at = (box[0] + height * (k + 0.5), box[1] + height / 2)
            mark(plane, at, 0.5 * height, tone_between(rng, paper, ink, 0.5), int(rng.integers(1, 5)))
        if rng.random() < 0.5:
            line_across(plane, box, paper, ink, rng, near=False)
    else:
        for _ in range(int(rng.integers(0, 12))):
            x, y = rng.uniform(box[0], box[2]), rng.uniform(box[1], box[3])
            r = int(rng.integers(1, 4))
            plane[int(y) : int(y) + r, int(x) : int(x) + r] = ink
    return Print(plane, plane.copy(), box, paper, ink, "")
