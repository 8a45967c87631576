"""What happens to ink and paper: tone, blur, noise, dirt. Every function is pure but for the generator it is given."""

from __future__ import annotations

import cv2
import numpy as np
import numpy.typing as npt
from numpy.random import Generator

from .warp import Pixels

Plane = npt.NDArray[np.float32]
"""Brightness 0 to 1, shape (height, width) or (height, width, 3)."""


def rounded(plane: Plane) -> Pixels:
    """Turn brightness 0 to 1 into uint8."""
    return np.asarray(cv2.convertScaleAbs(np.clip(plane, 0, 1), alpha=255.0), np.uint8)


def plane_of(pixels: Pixels) -> Plane:
    """Turn uint8 into brightness 0 to 1."""
    return pixels.astype(np.float32) / np.float32(255)


def grey_of(pixels: Pixels, rng: Generator, *, variation: float = 1.0) -> Pixels:
    """Make a grey picture, shape (height, width), by an eye of its own.

    Lamps and sensors weigh the colours differently: old copiers hardly see blue ink, others hardly red. ``variation`` 0
    is the usual luma.
    """
    if pixels.ndim == 2:
        return pixels
    usual = np.array([0.299, 0.587, 0.114])
    other = rng.dirichlet((2.0, 3.0, 1.5))
    weights = usual + variation * rng.uniform(0, 0.8) * (other - usual)
    return np.asarray(cv2.transform(pixels, weights.reshape(1, 3)), np.uint8).reshape(pixels.shape[:2])


def blurred(pixels: Pixels, sigma_px: float) -> Pixels:
    """Blur by a Gaussian of ``sigma_px``; none below 0.15 px."""
    if sigma_px < 0.15:
        return pixels
    return np.asarray(cv2.GaussianBlur(pixels, (0, 0), sigma_px), np.uint8)


def toned(pixels: Pixels, black: float, white: float, gamma: float) -> Pixels:
    """Set black and white points (brightness 0 to 1) and the gamma between them; the table is one per picture."""
    level = np.clip((np.arange(256) / 255 - black) / max(white - black, 0.05), 0, 1) ** gamma
    return np.asarray(cv2.LUT(pixels, np.rint(level * 255).astype(np.uint8)), np.uint8)


def pressed(pixels: Pixels, limit: float, steepness: float) -> Pixels:
    """Apply the S-shaped answer of toner: white above ``limit`` (0 to 1), black below, the steeper the harder.

    On a blurred stroke a high limit makes it thicker and a low one thinner, as each generation of copies does.
    """
    level = np.arange(256) / 255
    answer = 1 / (1 + np.exp(-steepness * (level - limit)))
    answer = (answer - answer[0]) / (answer[-1] - answer[0])
    return np.asarray(cv2.LUT(pixels, np.rint(answer * 255).astype(np.uint8)), np.uint8)


def field(rng: Generator, shape: tuple[int, int], cells: int) -> Plane:
    """Draw a smooth field of about -1 to 1, shape (height, width), with ``cells`` hills along the longer side."""
    height, width = shape
    longer = max(shape)
    small = (max(2, round(cells * height / longer) + 2), max(2, round(cells * width / longer) + 2))
    hills = rng.standard_normal(small).astype(np.float32) * np.float32(0.5)
    return np.asarray(cv2.resize(hills, (width, height), interpolation=cv2.INTER_CUBIC), np.float32)


def grain(rng: Generator, shape: tuple[int, ...], sigma: float, blur_px: float = 0.0) -> Plane:
    """Draw noise of standard deviation ``sigma`` whose grains are ``blur_px`` wide."""
    noise = rng.standard_normal(shape, dtype=np.float32)
    if blur_px >= 0.3:
        noise = np.asarray(cv2.GaussianBlur(noise, (0, 0), blur_px), np.float32)
        noise *= np.float32(2 * np.sqrt(np.pi) * blur_px)  # a Gaussian lowers white noise by this factor
    return noise * np.float32(sigma)


def specked(pixels: Pixels, rng: Generator, count: int, most_px: float, dark: bool = True) -> Pixels:
    """Strew ``count`` specks of dirt (or of missing toner), most of them tiny, none over ``most_px`` in radius."""
    height, width = pixels.shape[:2]
    out = pixels.copy()
    xs, ys = rng.uniform(0, width, count), rng.uniform(0, height, count)
    radii = most_px * rng.beta(0.8, 4.0, count)
    tones = rng.integers(0, 110, count) if dark else rng.integers(220, 256, count)
    for x, y, radius, tone in zip(xs, ys, radii, tones, strict=True):
        axes = (round(radius * 16), round(radius * rng.uniform(0.4, 1.0) * 16))
        place = (round(x * 16), round(y * 16))
        colour = (int(tone),) * 3
        cv2.ellipse(out, place, axes, rng.uniform(0, 180), 0, 360, colour, -1, cv2.LINE_AA, 4)
    return out


def jpeg(pixels: Pixels, quality: int) -> Pixels:
    """Compress and open again; RGB or grey, and the same out."""
    order = cv2.cvtColor(pixels, cv2.COLOR_RGB2BGR) if pixels.ndim == 3 else pixels
    done, data = cv2.imencode(".jpg", order, [cv2.IMWRITE_JPEG_QUALITY, quality])
    if not done:
        raise ValueError("the picture cannot be written as JPEG")
    back = cv2.imdecode(data, cv2.IMREAD_COLOR_RGB if pixels.ndim == 3 else cv2.IMREAD_GRAYSCALE)
    return np.asarray(back, np.uint8)
