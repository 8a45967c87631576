"""Samples to RGB: any depth, palette, ink model and transparency becomes what a person would see on white paper."""

from __future__ import annotations

from typing import Any

import cv2
import numpy as np
import numpy.typing as npt
from PIL import Image

from ..limits import PAGE_SIDE_PX
from ..page import Pixels
from ..shades import of_plain

BAND_PX = 256
_MIN_IS_WHITE = 0
_PHOTOMETRIC = 262


def rgb_of(picture: Image.Image) -> Pixels:
    """Give a decoded picture as RGB, no larger than a page is read at.

    Parameters
    ----------
    picture : PIL.Image.Image
        The picture, in any of Pillow's modes. It is decoded by this call if it was not before.

    Returns
    -------
    Pixels
        Shape (height, width, 3), uint8, RGB. Transparent samples lie on white; samples of more than 8 bits are
        stretched to their used range; a picture larger than the page limit is reduced by area.
    """
    if picture.mode.startswith("I") or picture.mode == "F":
        levels = np.asarray(picture)
        if picture.mode.startswith("I;16") and getattr(picture, "tag_v2", {}).get(_PHOTOMETRIC) == _MIN_IS_WHITE:
            levels = levels.max() - levels
        return reduced(np.repeat(stretched(_first_reduced(levels))[:, :, None], 3, axis=2))
    whole = whole_reduction(max(picture.size))
    if picture.has_transparency_data:
        picture = _on_white(picture)
    elif picture.mode == "1":
        picture = picture.convert("L")
    elif picture.mode not in ("L", "RGB"):
        picture = picture.convert("RGB")
    if whole > 1:
        picture = picture.reduce(whole)
    pixels = reduced(_array_of(picture))
    return of_plain(pixels) if picture.mode == "L" else pixels


def _array_of(picture: Image.Image) -> Pixels:
    """Give the samples of a picture of one channel or three, in bands: as a whole Pillow hands them over twice."""
    width, height = picture.size
    out = np.empty((height, width, 3) if picture.mode == "RGB" else (height, width), np.uint8)
    for row in range(0, height, BAND_PX):
        out[row : row + BAND_PX] = np.asarray(picture.crop((0, row, width, min(row + BAND_PX, height))))
    return out


def rgb_of_deep(data: bytes) -> Pixels | None:
    """Decode a picture with colours of more than 8 bits, which Pillow cuts to their upper byte.

    Parameters
    ----------
    data : bytes
        A PNG or a single-page TIFF.

    Returns
    -------
    Pixels or None
        Shape (height, width, 3), uint8, RGB, not turned by any orientation tag; None when it cannot be decoded.
    """
    levels = cv2.imdecode(np.frombuffer(data, np.uint8), cv2.IMREAD_UNCHANGED)
    if levels is None:
        return None
    levels = _first_reduced(levels)  # while the samples are deep, so that a large page is held once only
    if levels.ndim == 2:
        return reduced(np.repeat(stretched(levels)[:, :, None], 3, axis=2))
    colours = stretched(levels[:, :, :3])[:, :, ::-1]
    if levels.shape[2] == 4:
        opaque = levels[:, :, 3:].astype(np.float32) / (
            1.0 if levels.dtype.kind == "f" else np.iinfo(levels.dtype.str).max
        )
        colours = (colours * opaque + 255 * (1 - opaque)).round().astype(np.uint8)
    return reduced(np.ascontiguousarray(colours))


def stretched(levels: npt.NDArray[Any]) -> Pixels:
    """Stretch samples of any depth to 0 to 255, from the smallest to the largest value in use.

    Parameters
    ----------
    levels : ndarray
        Samples of any shape and numeric type; what is not finite counts as 0.

    Returns
    -------
    Pixels
        The same shape, uint8. One sample in a thousand may lie above the largest, so that a single hot pixel does not
        make a 12-bit page black.
    """
    if levels.dtype.kind == "f":
        levels = np.nan_to_num(levels, nan=0.0, posinf=0.0, neginf=0.0)
    if levels.dtype == np.uint8:
        return levels
    darkest = float(levels.min())
    brightest = float(np.percentile(levels.reshape(-1)[:: max(1, levels.size // 1_000_000)], 99.9))
    if brightest <= darkest:
        brightest = max(float(levels.max()), darkest + 1.0)
    out = np.empty(levels.shape, np.uint8)
    for row in range(0, len(levels), BAND_PX):  # in bands, so that the floats of a large page never exist at once
        band = (levels[row : row + BAND_PX].astype(np.float32) - darkest) * (255.0 / (brightest - darkest))
        out[row : row + BAND_PX] = np.clip(band + 0.5, 0, 255).astype(np.uint8)
    return out


def whole_reduction(long_side_px: int) -> int:
    """Give the whole number by which a picture of this long side is reduced before anything else, at least 1."""
    return max(1, int(long_side_px / PAGE_SIDE_PX + 0.1))


def reduced(pixels: Pixels) -> Pixels:
    """Reduce by area to the page limit; a picture within it is given back as it is."""
    height, width = pixels.shape[:2]
    scale = PAGE_SIDE_PX / max(height, width)
    if scale >= 1:
        return pixels
    size = (max(1, round(width * scale)), max(1, round(height * scale)))
    return np.asarray(cv2.resize(pixels, size, interpolation=cv2.INTER_AREA), dtype=np.uint8)


def _first_reduced(levels: npt.NDArray[Any]) -> npt.NDArray[Any]:
    height, width = levels.shape[:2]
    whole = whole_reduction(max(height, width))
    if whole == 1 or levels.dtype not in (np.uint16, np.float32):
        return levels
    return cv2.resize(levels, (max(1, width // whole), max(1, height // whole)), interpolation=cv2.INTER_AREA)


def _on_white(picture: Image.Image) -> Image.Image:
    with_alpha = picture.convert("RGBA")
    paper = Image.new("RGB", with_alpha.size, (255, 255, 255))
    paper.paste(with_alpha, mask=with_alpha.getchannel("A"))
    return paper
