"""The fax: one bit a pixel, 204 pixels an inch across and 196 or 98 lines an inch down, 1,728 pixels a line.

Resolutions and line length: ITU-T Recommendation T.4 (1,728 pixels in 215 mm, 3.85 or 7.7 lines a millimetre).
"""

from __future__ import annotations

import cv2
import numpy as np
from numpy.random import Generator
from PIL import Image

from .ink import blurred, field, grain, grey_of, plane_of, rounded, specked
from .sheet import Spoiled, size_of
from .warp import Homography, Pixels, Points, about, resample, turned

LINE_PIXELS = 1728
ACROSS_DPI = 204.0
WIDEST_IN = 8.7
"""Inches that a feeder for sheets of A4 and letter takes; the line of 215 mm leaves out their very edges."""


def fed(pixels: Pixels, rng: Generator, dpi: float, down_dpi: float) -> tuple[Points, tuple[int, int]]:
    """Choose how the feeder draws the sheet in: skew, side shift, rollers that slip, now and then head first.

    A sheet wider than the feeder goes in sideways.
    """
    upright, (width, height) = np.eye(3), size_of(pixels)
    if width / dpi > WIDEST_IN:
        upright, (width, height) = turned(int(rng.choice([1, 3])), (width, height))
    skew = float(np.clip(rng.normal(0, 0.5), -1.5, 1.5))
    matrix = about((width / 2, height / 2), turn_deg=skew, stretch=(1.0, 1.0 + float(rng.normal(0, 0.005))))
    across, down = ACROSS_DPI / dpi, down_dpi / dpi
    aside = (LINE_PIXELS - width * across) / 2 + rng.normal(0, 6)
    ahead = rng.uniform(0, 0.15) * down_dpi
    zoom = np.array([[across, 0, aside], [0, down, ahead], [0, 0, 1]])
    size = (LINE_PIXELS, round(height * down + ahead + rng.uniform(0, 0.1) * down_dpi))
    if rng.random() < 0.04:
        turn, size = turned(2, size)
        return turn @ zoom @ matrix @ upright, size
    return zoom @ matrix @ upright, size


def one_bit(grey: Pixels, rng: Generator) -> Pixels:
    """Decide black or white as a fax machine does: a limit, one that follows the paper, or a dither for half-tones."""
    way = rng.choice(["limit", "local", "diffused", "ordered"], p=[0.6, 0.22, 0.1, 0.08])
    # most are set so that a grid still shows, none so that the paper turns black
    limit = float(np.clip(rng.choice([0.62, 0.82], p=[0.3, 0.7]) + rng.normal(0, 0.05), 0.45, 0.88))
    if way == "limit":
        return np.where(grey < 255 * limit, 0, 255).astype(np.uint8)
    if way == "local":
        around = cv2.GaussianBlur(grey, (0, 0), float(rng.uniform(8, 25)))
        return np.where(grey < around * np.float32(min(limit + 0.06, 0.93)), 0, 255).astype(np.uint8)
    stretched = np.clip((grey.astype(np.float32) - 25) * 1.15 + 12, 0, 255).astype(np.uint8)
    if way == "diffused":
        return np.array(Image.fromarray(stretched).convert("1"), np.uint8) * np.uint8(255)
    bayer = np.array([[0, 8, 2, 10], [12, 4, 14, 6], [3, 11, 1, 9], [15, 7, 13, 5]]) * 16 + 8
    tiles = np.tile(bayer, (grey.shape[0] // 4 + 1, grey.shape[1] // 4 + 1))[: grey.shape[0], : grey.shape[1]]
    return np.where(stretched < tiles, 0, 255).astype(np.uint8)


def lines_hurt(page: Pixels, rng: Generator) -> Pixels:
    """Hurt scan lines as a bad telephone line does.

    A line that was not understood is drawn as the one before or left white; some lose their run lengths from a place
    on. The lines after it stay where they are, as the receiver counts them.
    """
    out = page.copy()
    height, width = out.shape
    hurt = rng.poisson(rng.choice([0.0, 2.0, 10.0], p=[0.55, 0.3, 0.15]))
    for row in rng.integers(1, height, hurt):
        fate = rng.random()
        if fate < 0.5:
            out[row] = out[row - 1]
        elif fate < 0.75:
            out[row] = 255
        else:
            start = int(rng.integers(0, width))
            runs = np.cumsum(rng.geometric(0.03, 200))
            out[row, start:] = np.where(np.searchsorted(runs, np.arange(width - start)) % 2 == 0, 255, 0)
    return out


def headed(page: Pixels, rng: Generator, down_dpi: float) -> Pixels:
    """Print the sender's line along the top, as the sending machine does."""
    out = page.copy()
    text = f"{rng.integers(1, 29):02d}/{rng.integers(1, 13):02d}  {rng.integers(8, 18):02d}:{rng.integers(0, 60):02d}"
    text += f"   HARBOUR LANE CLINIC   {rng.integers(200, 999)} {rng.integers(1000, 9999)}   P.{rng.integers(1, 9):02d}"
    strip = np.full((60, LINE_PIXELS), 255, np.uint8)
    cv2.putText(strip, text, (120, 34), cv2.FONT_HERSHEY_SIMPLEX, 0.85, 0, 2)
    strip = cv2.resize(strip, (LINE_PIXELS, round(60 * down_dpi / 196)), interpolation=cv2.INTER_AREA)
    black = np.asarray(strip) < 150
    out[: black.shape[0]][black] = 0
    return out


def fax(pixels: Pixels, rng: Generator, dpi: float, *, fine: bool) -> Spoiled:
    """Send a page by fax; the array has the true pixels of the machine, twice as high as wide in coarse mode."""
    down_dpi = 196.0 if fine else 98.0
    matrix, size = fed(pixels, rng, dpi, down_dpi)
    grey = grey_of(pixels, rng)
    if rng.random() < 0.3:  # what was sent was a copy already
        grey = blurred(grey, rng.uniform(0.5, 1.2) * dpi / 300)
        grey = specked(grey, rng, int(rng.integers(0, 100)), 2.5 * dpi / 300)
    # coarse mode reads every second line, or the mean of two: the aperture says which
    seen = resample(grey, matrix, size, aperture=rng.uniform(0.22, 0.45))
    bright = plane_of(blurred(seen, rng.uniform(0.0, 0.5)))
    bright += grain(rng, bright.shape, rng.uniform(0.005, 0.06))
    bright += field(rng, bright.shape, 5) * np.float32(rng.uniform(0, 0.05))
    page = one_bit(rounded(bright), rng)
    if rng.random() < 0.5:
        dirt = specked(np.full_like(page, 255), rng, int(rng.integers(5, 120)), 1.6)
        page = np.minimum(page, dirt) // 128 * np.uint8(255)
    if rng.random() < 0.2:  # a speck on the sender's glass draws a line down the whole page
        page[:, int(rng.integers(0, LINE_PIXELS))] = 0
    page = lines_hurt(page, rng)
    if rng.random() < 0.6:
        page = headed(page, rng, down_dpi)
    return Spoiled(page.astype(np.uint8), (ACROSS_DPI, down_dpi), Homography.of_pixels(matrix, size_of(pixels), size))
