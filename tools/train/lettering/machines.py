"""What copiers, fax machines, scanners and cameras do to one word; a small, quick likeness of ``painter.spoiling``."""

from __future__ import annotations

import cv2
import numpy as np
from PIL import Image

from .over import Box, Grey

BAYER = np.array([[0, 8, 2, 10], [12, 4, 14, 6], [3, 11, 1, 9], [15, 7, 13, 5]]) * 16 + 8


def through_machine(plane: Grey, plain: Grey, box: Box, height: float, rng: np.random.Generator) -> tuple[Grey, Box]:
    """Bring a printed word to the size it has in the machine and let the machine spoil it.

    Parameters
    ----------
    plane, plain : ndarray, shape (h, w), uint8
        The print, and the same without anything drawn over the word: it says how dark the word's own strokes are.
    box : ndarray, shape (4,)
        The word's ink box (left, top, right, bottom).
    height : float
        How many pixels high the box is to be.
    rng : numpy.random.Generator
        The generator of everything that varies.

    Returns
    -------
    tuple of ndarray
        The picture, and the box in it.
    """
    kind = int(np.searchsorted((0.2, 0.52, 0.82), rng.random()))
    fy = height / (box[3] - box[1])
    fx = fy * rng.uniform(0.85, 1.18)
    rows = 0.5 if kind == 2 and height > 9 and rng.random() < 0.4 else 1.0
    grey, own = (_sized(p, fx, fy * rows) for p in (plane, plain))
    paper, dark = _levels(own, box * (fx, fy * rows, fx, fy * rows))
    soft = float(np.clip(height / 16, 0.3, 1.2))
    if kind == 0:
        grey = _scanned(grey, soft, rng)
    elif kind == 1:
        grey = _copied(grey, (paper, dark), soft, rng)
    elif kind == 2:
        grey = _faxed(grey, (paper, dark), soft, rng)
        if rows < 1:  # the page is made of square pixels when it is read
            grey = np.asarray(cv2.resize(grey, (grey.shape[1], 2 * grey.shape[0])), np.uint8)
    else:
        grey = _photographed(grey, soft, rng)
    box = box * (fx, fy, fx, fy)
    return _laid(grey, box, rng, 1.2 if kind == 3 else 0.6), box


def _sized(plane: Grey, fx: float, fy: float) -> Grey:
    way = cv2.INTER_AREA if min(fx, fy) < 1 else cv2.INTER_CUBIC
    return np.asarray(cv2.resize(plane, None, fx=fx, fy=fy, interpolation=way), np.uint8)


def _levels(plain: Grey, box: Box) -> tuple[float, float]:
    """Give the brightness of the paper and of the darker of the word's strokes."""
    part = plain[int(box[1]) : int(box[3]) + 1, int(box[0]) : int(box[2]) + 1].ravel()
    at = len(part) // 12
    return float(plain[0, 0]), float(np.partition(part, at)[at])


def _limit(levels: tuple[float, float], soft: float, rng: np.random.Generator) -> float:
    """Choose the brightness that parts black from white: between stroke and paper, at times close to either.

    Not so close where print is small: its letters would all be lost, while real machines leave most of them.
    """
    paper, dark = levels
    luck = rng.random()
    low, high = (0.4, 0.7) if luck < 0.65 else (0.7, 0.75 + 0.15 * min(soft, 1)) if luck < 0.88 else (0.28, 0.4)
    return dark + (paper - dark) * rng.uniform(low, high)


def _blur(grey: Grey, sigma: float) -> Grey:
    return np.asarray(cv2.GaussianBlur(grey, (0, 0), sigma), np.uint8) if sigma > 0.2 else grey


def _noise(grey: Grey, sigma: float, rng: np.random.Generator, *, soft: float = 0.0) -> Grey:
    grain = rng.standard_normal(grey.shape, np.float32) * np.float32(sigma)
    if soft:
        grain = cv2.GaussianBlur(grain, (0, 0), soft) * np.float32(1 + 2 * soft)
    grain += grey
    return np.clip(grain, 0, 255, out=grain).astype(np.uint8)


def _uneven(grey: Grey, depth: float, rng: np.random.Generator) -> Grey:
    """Lighten and darken a picture smoothly from corner to corner."""
    corners = (1 + depth * rng.uniform(-1, 0.3, (2, 2))).astype(np.float32)
    field = cv2.resize(corners, (grey.shape[1], grey.shape[0]), interpolation=cv2.INTER_LINEAR)
    return np.clip(grey * field, 0, 255).astype(np.uint8)


def _specked(grey: Grey, rng: np.random.Generator, *, tone: int) -> Grey:
    count = int(rng.poisson(grey.size * rng.uniform(0.0002, 0.0025)))
    for x, y in zip(rng.integers(0, grey.shape[1], count), rng.integers(0, grey.shape[0], count), strict=True):
        if rng.random() < 0.6:
            grey[y, x] = tone
        else:
            grey[y : y + int(rng.integers(1, 4)), x : x + int(rng.integers(1, 4))] = tone
    return grey


def _jpeg(grey: Grey, low: int, high: int, rng: np.random.Generator) -> Grey:
    _, data = cv2.imencode(".jpg", grey, [cv2.IMWRITE_JPEG_QUALITY, int(rng.integers(low, high))])
    return np.asarray(cv2.imdecode(data, cv2.IMREAD_GRAYSCALE), np.uint8)


def _scanned(grey: Grey, soft: float, rng: np.random.Generator) -> Grey:
    grey = _blur(grey, rng.uniform(0.1, 0.9) * soft)
    if rng.random() < 0.6:
        grey = _noise(grey, rng.uniform(1, 9), rng)
    if rng.random() < 0.3:
        grey = _uneven(grey, 0.15, rng)
    return _jpeg(grey, 35, 92, rng) if rng.random() < 0.35 else grey


def _copied(grey: Grey, levels: tuple[float, float], soft: float, rng: np.random.Generator) -> Grey:
    """Copy once or twice: toner that runs or fails, dirt, and a last scan in grey or in black and white."""
    for _ in range(1 if rng.random() < 0.6 or soft < 0.5 else 2):
        grey = _blur(grey, rng.uniform(0.25, 1.0) * soft)
        grey = _noise(grey, rng.uniform(2, 13), rng, soft=0.6 if rng.random() < 0.5 else 0.0)
        if rng.random() < 0.25:
            grey = _uneven(grey, 0.12, rng)
        limit, hardness = _limit(levels, soft, rng), rng.uniform(6, 18)
        curve = 255 / (1 + np.exp(-hardness * (np.arange(256) - limit) / 128))
        grey = np.asarray(cv2.LUT(grey, curve.astype(np.uint8)), np.uint8)
        levels = float(curve[int(levels[0])]), float(curve[int(levels[1])])
        if rng.random() < 0.4:
            grey = _specked(grey, rng, tone=0 if rng.random() < 0.65 else 255)
    if rng.random() < 0.25:
        return np.where(grey < _limit(levels, soft, rng), 0, 255).astype(np.uint8)
    if rng.random() < 0.4:  # faint, as when the toner runs out
        black = rng.uniform(0, 150)
        grey = (black + grey * ((rng.uniform(max(190, black + 50), 255) - black) / 255)).astype(np.uint8)
    grey = _blur(grey, rng.uniform(0.1, 0.6) * soft)
    return _jpeg(grey, 60, 93, rng) if rng.random() < 0.4 else grey


def _faxed(grey: Grey, levels: tuple[float, float], soft: float, rng: np.random.Generator) -> Grey:
    """Make a word black and white as a fax does, with lines that were hurt on the way."""
    if rng.random() < 0.3:
        grey = _blur(grey, rng.uniform(0.25, 0.7) * soft)
    grey = _noise(grey, rng.uniform(1, 14), rng)
    way = rng.random()
    if way < 0.62:
        out = np.where(grey < _limit(levels, soft, rng), 0, 255).astype(np.uint8)
    elif way < 0.84:
        around = cv2.blur(grey, (2 * int(rng.integers(6, 16)) + 1,) * 2)  # a box is quicker than a bell, and does
        out = np.where(grey < around * np.float32(rng.uniform(0.72, 0.9)), 0, 255).astype(np.uint8)
    elif way < 0.93:
        out = np.array(Image.fromarray(grey).convert("1"), np.uint8) * np.uint8(255)
    else:
        tiles = np.tile(BAYER, (grey.shape[0] // 4 + 1, grey.shape[1] // 4 + 1))[: grey.shape[0], : grey.shape[1]]
        out = np.where(grey < tiles, 0, 255).astype(np.uint8)
    if rng.random() < 0.3:
        out = _specked(out, rng, tone=0 if rng.random() < 0.7 else 255)
    if rng.random() < 0.1:
        row = int(rng.integers(1, len(out)))
        out[row] = out[row - 1] if rng.random() < 0.7 else 255
    if rng.random() < 0.02:
        out[:, int(rng.integers(out.shape[1]))] = 0
    return out


def _photographed(grey: Grey, soft: float, rng: np.random.Generator) -> Grey:
    grey = _blur(grey, rng.uniform(0.3, 1.3) * soft)
    grey = _uneven(grey, rng.uniform(0.05, 0.25), rng)
    grey = _noise(grey, rng.uniform(1, 8), rng, soft=0.6 if rng.random() < 0.5 else 0.0)
    return _jpeg(grey, 25, 90, rng) if rng.random() < 0.8 else grey


def _laid(grey: Grey, box: Box, rng: np.random.Generator, turn_deg: float) -> Grey:
    """Turn a picture a little about the word, as one that was straightened but not quite."""
    middle = ((box[0] + box[2]) / 2, (box[1] + box[3]) / 2)
    turn = cv2.getRotationMatrix2D(middle, rng.normal(0, turn_deg), 1.0)
    turn[:, 2] += rng.uniform(-0.5, 0.5, 2)
    size = (grey.shape[1], grey.shape[0])
    moved = cv2.warpAffine(grey, turn, size, flags=cv2.INTER_LINEAR, borderMode=cv2.BORDER_REPLICATE)
    return np.asarray(moved, np.uint8)
