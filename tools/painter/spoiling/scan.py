"""The flat scan: a sheet on the glass of a scanner, or drawn through its feeder."""

from __future__ import annotations

import cv2
import numpy as np
from numpy.random import Generator

from .ink import blurred, field, grain, grey_of, jpeg, plane_of, rounded, specked
from .sheet import Spoiled, size_of
from .warp import Homography, Pixels, Points, about, resample, turned


def laid_on_glass(pixels: Pixels, rng: Generator, dpi: float, new_dpi: float) -> tuple[Points, tuple[int, int]]:
    """Choose where the sheet lies: skew, shift, the feeder's stretch, now and then a quarter turn."""
    width, height = size_of(pixels)
    skew = float(np.clip(rng.normal(0, 0.55), -1.5, 1.5))
    stretch = (1.0, 1.0 + float(rng.normal(0, 0.002)))
    matrix = about((width / 2, height / 2), turn_deg=skew, stretch=stretch)
    matrix[:2, 2] += rng.normal(0, 0.02 * dpi, 2)
    scale = new_dpi / dpi
    # half pixels: the edge of the sheet, not the centre of its first pixel, is what scales
    zoom = np.array([[scale, 0, (scale - 1) / 2], [0, scale, (scale - 1) / 2], [0, 0, 1]])
    size = (round(width * scale), round(height * scale))
    quarter = int(rng.choice([0, 1, 2, 3], p=[0.86, 0.04, 0.06, 0.04]))
    turn, size = turned(quarter, size)
    return turn @ zoom @ matrix, size


def bled_through(pixels: Pixels, rng: Generator) -> Pixels:
    """Let print from the back of the sheet shine through, mirrored and faint."""
    shape = pixels.shape[:2]
    back = np.full(shape, 255, np.uint8)
    height, width = shape
    y = height * rng.uniform(0.05, 0.2)
    line = height / rng.uniform(55, 75)
    while y < height * 0.93:
        x = width * 0.1
        end = width * (rng.uniform(0.3, 0.9) if rng.random() < 0.2 else 0.9)
        while x < end:
            length = line * rng.uniform(0.6, 3.5)
            cv2.rectangle(back, (round(x), round(y)), (round(x + length), round(y + line * 0.4)), 90, -1)
            x += length + line * 0.4
        y += line * (3 if rng.random() < 0.15 else 1)
    stippled = rng.random((height // 2 + 1, width // 2 + 1), dtype=np.float32)
    holes = cv2.resize(stippled, (width, height), interpolation=cv2.INTER_LINEAR) > 0.55
    back[holes] = 255
    faint = blurred(back, width / 900).astype(np.int16)
    dark = ((255 - faint) * rng.uniform(0.03, 0.09)).astype(np.uint8)
    return cv2.subtract(pixels, dark if pixels.ndim == 2 else cv2.merge([dark] * 3)).astype(np.uint8)


def scan(pixels: Pixels, rng: Generator, dpi: float, *, at_dpi: float | None = None) -> Spoiled:
    """Scan a page at ``at_dpi``, by default at 200 to 300 dpi (never more than ``dpi``), in colour or grey."""
    drawn = float(rng.choice([200.0, 240.0, 300.0], p=[0.4, 0.15, 0.45]))
    new_dpi = min(dpi, drawn if at_dpi is None else at_dpi)
    matrix, size = laid_on_glass(pixels, rng, dpi, new_dpi)
    tint = 255 - rng.integers(0, 12, 3) if rng.random() < 0.5 else np.array([255, 255, 255])
    lid = tuple(int(v) for v in (tint if rng.random() < 0.7 else np.full(3, rng.integers(205, 250))))
    page = bled_through(pixels, rng) if rng.random() < 0.15 else pixels
    flat = resample(page, matrix, size, paper=(255, 255, 255), aperture=rng.uniform(0.3, 0.5))
    sheet = resample(np.full(pixels.shape[:2], 255, np.uint8), matrix, size, paper=0, aperture=0.0)
    flat = (flat * (tint / 255).astype(np.float32)).astype(np.uint8)
    if lid != tuple(int(v) for v in tint):
        flat[sheet < 128] = lid
    flat = blurred(flat, rng.uniform(0.0, 0.7))
    flat = specked(flat, rng, int(rng.integers(0, 25)), 2.0 * new_dpi / 300)
    if rng.random() < 0.35:
        flat = grey_of(flat, rng, variation=0.3)
    bright = plane_of(flat)
    noise = grain(rng, bright.shape[:2], rng.uniform(0.002, 0.02), rng.choice([0.0, 0.6]))
    noise += field(rng, bright.shape[:2], 4) * np.float32(rng.uniform(0, 0.015))
    bright = bright * np.float32(rng.uniform(0.95, 1.02)) + (noise if bright.ndim == 2 else noise[..., None])
    if rng.random() < 0.3:  # the scanner's own sharpening
        bright += np.float32(rng.uniform(0.3, 0.9)) * (bright - cv2.GaussianBlur(bright, (0, 0), 1.2))
    done = jpeg(rounded(bright), int(rng.integers(75, 96)))
    return Spoiled(done, (new_dpi, new_dpi), Homography.of_pixels(matrix, size_of(pixels), size))
