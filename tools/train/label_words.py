"""Paint single words for the label reader: axis numbers of every form, units, and other words."""

from __future__ import annotations

from functools import lru_cache
from pathlib import Path

import cv2
import numpy as np
import numpy.typing as npt
from PIL import Image, ImageDraw, ImageFont

from ...extract.eyes.labels import CHARSET, label_crop

Grey = npt.NDArray[np.uint8]

FREQUENCIES = (125, 250, 375, 500, 750, 1000, 1500, 2000, 3000, 4000, 5000, 6000, 8000, 9000, 10000, 11200, 12500,
               14000, 16000, 18000, 20000)  # fmt: skip
WORDS = (
    "Frequency", "Hearing", "Level", "Right", "Left", "ear", "dB", "Hz", "kHz", "HL", "in", "Air", "Bone", "Masked",
    "Name", "Date", "Speech", "Test", "Report", "Patient", "Threshold", "Hertz", "Pure", "tone", "Audiogram", "Tone",
    "normal", "mild", "moderate", "severe", "profound", "LEFT", "RIGHT", "Clinic", "of", "and", "the",
)  # fmt: skip


def word_text(rng: np.random.Generator) -> str:
    """Choose what a word says: half axis labels, a quarter other numbers and units, a quarter words."""
    kind = rng.random()
    if kind < 0.38:
        return _frequency_text(int(rng.choice(FREQUENCIES)), rng)
    if kind < 0.68:
        level = int(rng.integers(-4, 28)) * 5
        return ("-" if level < 0 else "") + str(abs(level)) + (" dB" if rng.random() < 0.04 else "")
    if kind < 0.82:
        digits = int(rng.integers(1, 6))
        text = "".join(str(int(d)) for d in rng.integers(0, 10, digits))
        if rng.random() < 0.3:
            at = int(rng.integers(0, len(text)))
            text = text[:at] + str(rng.choice(list(".,-/%"))) + text[at:]
        return text
    if kind < 0.88:
        return str(rng.choice(["Hz", "kHz", "dB", "dB HL", "HL", "Hz.", "(Hz)", "(kHz)", "(dB)", "%"]))
    return str(rng.choice(WORDS))


def _frequency_text(hz: int, rng: np.random.Generator) -> str:
    form = rng.random()
    if form < 0.55:
        text = str(hz)
    elif form < 0.62 and hz >= 1000:
        text = f"{hz // 1000}{rng.choice([' ', ',', '.'])}{hz % 1000:03d}"
    elif form < 0.75 and hz >= 1000:
        text = f"{hz / 1000:g}{rng.choice(['k', 'K', ' k'])}"
    else:
        text = f"{hz / 1000:g}"
        if rng.random() < 0.25 and text.startswith("0."):
            text = text[1:]
        if rng.random() < 0.25:
            text = text.replace(".", ",")
    if rng.random() < 0.06:
        text += str(rng.choice([" Hz", " kHz", "Hz", "kHz"]))
    return text


def target(text: str) -> list[int]:
    """Give the class numbers of a text (1 is the first character of CHARSET; 0 is the CTC blank)."""
    return [1 + (CHARSET.index(c) if c in CHARSET else CHARSET.index("?")) for c in text.replace("K", "k")]


@lru_cache(maxsize=512)
def _font(path: str, size: int) -> ImageFont.FreeTypeFont:
    return ImageFont.truetype(path, size)


def paint_word(fonts: list[Path], rng: np.random.Generator, text: str | None = None) -> tuple[Grey, str]:
    """Paint one word as it stands on a page and cut it out as the reader does.

    Parameters
    ----------
    fonts : list of Path
        Font files to draw from.
    rng : numpy.random.Generator
        The generator of everything that varies.
    text : str, optional
        What the word says; by default ``word_text`` chooses.

    Returns
    -------
    tuple of ndarray, shape (32, 128), uint8, and str
        The crop and what it says.
    """
    text = word_text(rng) if text is None else text
    shown = text.replace("-", str(rng.choice(["-", "\u2212", "\u2013"]))) if text.startswith("-") else text
    font = _font(str(fonts[int(rng.integers(len(fonts)))]), int(rng.integers(24, 40)))
    left, top, right, bottom = (int(v) for v in font.getbbox(shown))
    width, height = right - left + 120, bottom - top + 90
    paper = int(rng.integers(200, 256))
    ink = int(rng.integers(0, max(1, paper - 90)))
    picture = Image.new("L", (width, height), paper)
    draw = ImageDraw.Draw(picture)
    draw.text((60 - left, 45 - top), shown, font=font, fill=ink)
    box = np.array([60, 45, 60 + right - left, 45 + bottom - top], float)
    _neighbours(draw, box, rng, ink, font)
    grey: Grey = np.asarray(picture)
    squeeze = rng.uniform(0.8, 1.2)
    size = float(rng.uniform(7, 30)) if rng.random() < 0.7 else float(rng.uniform(9, 16))
    fy = size / max(box[3] - box[1], 1)
    fx = fy * squeeze
    way = cv2.INTER_AREA if fy < 1 else cv2.INTER_CUBIC
    grey = np.asarray(cv2.resize(grey, None, fx=fx, fy=fy, interpolation=way), np.uint8)
    box *= (fx, fy, fx, fy)
    grey = _spoil(grey, rng)
    x0, y0, x1, y1 = (float(v) for v in box + rng.normal(0, 0.05, 4) * (box[3] - box[1]))
    return label_crop(grey, (x0, y0, x1, y1)), text


def _neighbours(
    draw: ImageDraw.ImageDraw,
    box: npt.NDArray[np.float64],
    rng: np.random.Generator,
    ink: int,
    font: ImageFont.FreeTypeFont,
) -> None:
    """Draw what stands near an axis label: ticks, the frame, grid lines, the next label."""
    height = box[3] - box[1]
    if rng.random() < 0.3:
        side = rng.integers(4)
        gap = rng.uniform(0.15, 0.8) * height
        wide = int(rng.integers(1, 5))
        if side == 0:
            draw.line([(box[2] + gap, 0), (box[2] + gap, 400)], fill=ink, width=wide)
        elif side == 1:
            draw.line([(box[0] - gap, 0), (box[0] - gap, 400)], fill=ink, width=wide)
        elif side == 2:
            draw.line([(0, box[3] + gap), (900, box[3] + gap)], fill=ink, width=wide)
        else:
            draw.line([(0, box[1] - gap), (900, box[1] - gap)], fill=ink, width=wide)
    if rng.random() < 0.15:
        gap = rng.uniform(0.15, 0.6) * height
        middle = (box[1] + box[3]) / 2
        draw.line([(box[2] + gap, middle), (box[2] + gap + 25, middle)], fill=ink, width=int(rng.integers(1, 4)))
    if rng.random() < 0.1:
        draw.text((box[2] + rng.uniform(0.8, 1.5) * height, box[1]), "1234", font=font, fill=ink)


def _spoil(grey: Grey, rng: np.random.Generator) -> Grey:
    """Turn, blur and roughen a word as a scanner, a fax or a camera does; the word stays where it is."""
    angle = rng.normal(0, 0.8)
    height, width = grey.shape
    turn = cv2.getRotationMatrix2D((width / 2, height / 2), angle, 1.0)
    turn[:, 2] += rng.uniform(-0.5, 0.5, 2)
    moved = cv2.warpAffine(grey, turn, (width, height), flags=cv2.INTER_LINEAR, borderMode=cv2.BORDER_REPLICATE)
    if rng.random() < 0.5:
        moved = cv2.GaussianBlur(moved, (0, 0), rng.uniform(0.3, 1.2))
    out = np.asarray(moved, np.uint8)
    if rng.random() < 0.5:
        out = np.clip(out + rng.normal(0, rng.uniform(2, 18), out.shape), 0, 255).astype(np.uint8)
    kind = rng.random()
    if kind < 0.3:
        out = _one_bit(out, rng)
    elif kind < 0.5:
        _, data = cv2.imencode(".jpg", out, [cv2.IMWRITE_JPEG_QUALITY, int(rng.integers(30, 90))])
        out = np.asarray(cv2.imdecode(data, cv2.IMREAD_GRAYSCALE), np.uint8)
    elif kind < 0.6:
        kernel = np.ones((2, 2), np.uint8)
        out = np.asarray(cv2.erode(out, kernel) if rng.random() < 0.6 else cv2.dilate(out, kernel), np.uint8)
    return np.ascontiguousarray(out)


def _one_bit(grey: Grey, rng: np.random.Generator) -> Grey:
    """Make a word black and white, at times with the half rows of a coarse fax and with specks."""
    height, width = grey.shape
    level = float(np.median(grey)) * rng.uniform(0.6, 0.9)
    if rng.random() < 0.4:
        rows = cv2.resize(grey, (width, max(4, height // 2)), interpolation=cv2.INTER_AREA)
        bits = np.where(rows < level, 0, 255).astype(np.uint8)
        out = np.asarray(cv2.resize(bits, (width, height), interpolation=cv2.INTER_NEAREST), np.uint8)
    else:
        out = np.where(grey < level, 0, 255).astype(np.uint8)
    if rng.random() < 0.3:
        specks = rng.random(out.shape) < 0.01
        out = np.where(specks, 255 - out, out)
    return out
