"""The photocopy: generations of toner, each thinner or thicker than the one before, dirtier and more askew."""

from __future__ import annotations

import cv2
import numpy as np
from numpy.random import Generator

from .ink import Plane, blurred, field, grain, grey_of, jpeg, plane_of, pressed, rounded, specked
from .sheet import Spoiled, size_of
from .warp import Chain, Homography, Pixels, Points, about, resample


def streaked(bright: Plane, rng: Generator) -> Plane:
    """Draw what a scratched drum or a dirty wire leaves: thin lines in the direction of the feed, dark or pale."""
    out = bright.copy()
    height, width = out.shape
    for _ in range(int(rng.integers(1, 5))):
        x, wide = rng.uniform(0, width), rng.uniform(0.6, 3.5)
        profile = np.exp(-0.5 * ((np.arange(width) - x) / wide) ** 2).astype(np.float32)
        along = np.clip(0.6 + 0.8 * field(rng, (height, 8), 9)[:, 4], 0, 1)
        strength = np.float32(rng.uniform(0.05, 0.45) * (-1 if rng.random() < 0.7 else 1))
        out += strength * along[:, None] * profile[None, :]
    return out


def edges_shaded(bright: Plane, rng: Generator) -> Plane:
    """Darken along edges where the lid stood open or the sheet did not reach."""
    height, width = bright.shape
    out = bright.copy()
    for side in range(4):
        if rng.random() > 0.4:
            continue
        length, depth = (width, height) if side % 2 == 0 else (height, width)
        reach = depth * rng.uniform(0.004, 0.03)
        border = reach * (1 + 0.8 * field(rng, (8, length), 5)[4] + rng.uniform(-1, 1) * np.linspace(-1, 1, length))
        apart = np.arange(depth, dtype=np.float32)[:, None] - border[None, :].astype(np.float32)
        soft = np.float32(depth * rng.uniform(0.0006, 0.006))
        dark = np.float32(rng.uniform(0.3, 1.0)) / (1 + np.exp(np.clip(apart / soft, -30, 30)))
        band = dark if side == 0 else dark[::-1] if side == 2 else dark.T if side == 3 else dark.T[:, ::-1]
        out -= band.astype(np.float32)
    return out


def punched(pixels: Pixels, rng: Generator, dpi: float) -> Pixels:
    """Show the holes of a punched sheet as black discs, 80 mm apart by ISO 838, near the left edge."""
    out = pixels.copy()
    middle = out.shape[0] / 2 + rng.normal(0, 0.03 * dpi)
    for side in (-1, 1):
        centre = (round(12 / 25.4 * dpi + rng.normal(0, 0.01 * dpi)), round(middle + side * 40 / 25.4 * dpi))
        cv2.circle(out, centre, round(3 / 25.4 * dpi), int(rng.integers(0, 70)), -1, cv2.LINE_AA)
    return out


def placed(rng: Generator, size: tuple[int, int], dpi: float) -> Points:
    """Choose how the sheet lies for one generation: skew, shift, and the copier's "same size" that is not quite."""
    size_error = 1.0 + float(rng.normal(0, 0.004))
    reduced = float(rng.choice([1.0, 0.94, 0.9], p=[0.85, 0.1, 0.05]))
    stretch = (size_error * reduced, size_error * reduced * (1 + float(rng.normal(0, 0.003))))
    skew = float(np.clip(rng.normal(0, 0.6), -1.5, 1.5))
    matrix = about((size[0] / 2, size[1] / 2), turn_deg=skew, stretch=stretch)
    matrix[:2, 2] += rng.normal(0, 0.03 * dpi, 2)
    return matrix


def generation(page: Pixels, rng: Generator, dpi: float) -> tuple[Pixels, Homography]:
    """Copy a grey page once."""
    size = size_of(page)
    matrix = placed(rng, size, dpi)
    page = resample(page, matrix, size, aperture=0.4)
    page = blurred(page, rng.uniform(0.4, 1.3) * dpi / 300)
    bright = plane_of(page)
    bright += field(rng, bright.shape, 5) * np.float32(rng.uniform(0, 0.08))  # toner that is not even
    bright += grain(rng, bright.shape, rng.uniform(0.01, 0.06), rng.uniform(0.4, 1.0))
    # the machine sets its limit below the paper's brightness, or half the sheet would come out black
    limit = np.clip(rng.choice([0.58, 0.78], p=[0.3, 0.7]) + rng.normal(0, 0.06), 0.45, 0.84)
    page = pressed(rounded(bright), float(limit), rng.uniform(5, 16))
    page = specked(page, rng, int(rng.integers(10, 160)), 2.6 * dpi / 300)
    page = specked(page, rng, int(rng.integers(0, 120)), 1.6 * dpi / 300, dark=False)
    bright = plane_of(page)
    if rng.random() < 0.45:
        bright = streaked(bright, rng)
    if rng.random() < 0.55:
        bright = edges_shaded(bright, rng)
    return rounded(bright), Homography.of_pixels(matrix, size, size)


def photocopy(pixels: Pixels, rng: Generator, dpi: float) -> Spoiled:
    """Copy a page one to three times and scan the last copy in grey, or in black and white."""
    new_dpi = float(min(dpi, rng.choice([200.0, 300.0])))
    scale = new_dpi / dpi
    before = size_of(pixels)
    size = (round(before[0] * scale), round(before[1] * scale))
    zoom = np.array([[scale, 0, (scale - 1) / 2], [0, scale, (scale - 1) / 2], [0, 0, 1]])
    page = resample(grey_of(pixels, rng), zoom, size)
    steps = [Homography.of_pixels(zoom, before, size)]
    if rng.random() < 0.15:
        page = punched(page, rng, new_dpi)
    for _ in range(int(rng.choice([1, 2, 3], p=[0.45, 0.35, 0.2]))):
        page, moved = generation(page, rng, new_dpi)
        steps.append(moved)
    if rng.random() < 0.2:
        page = np.where(page < rng.integers(110, 175), 0, 255).astype(np.uint8)
    else:
        paper = rng.uniform(0.86, 1.0)
        bright = plane_of(blurred(page, rng.uniform(0.2, 0.7)))
        bright = bright * np.float32(paper - 0.06) + np.float32(0.06 * rng.random())
        page = jpeg(rounded(bright + grain(rng, bright.shape, rng.uniform(0.003, 0.02))), int(rng.integers(70, 93)))
    return Spoiled(page, (new_dpi, new_dpi), Chain(tuple(steps)))
