"""Spoiling of a chart's crop for training: all the harm a page may come to, quick enough to be done anew each time."""

from __future__ import annotations

from functools import lru_cache

import cv2
import numpy as np
import numpy.typing as npt
from numpy.random import Generator

from .ink import Plane, blurred, field, jpeg, pressed, specked, toned
from .sheet import generator
from .warp import Pixels, Points, about

CROP_KINDS = {"clean": 0.06, "scan": 0.32, "copy": 0.2, "fax-fine": 0.1, "fax-coarse": 0.1, "photo": 0.22}
"""The ways of a crop, with the share of each where none is asked for."""


@lru_cache(maxsize=1)
def _noise_bank() -> tuple[Plane, ...]:
    """Give fields of noise of standard deviation 1, fine to coarse; drawing them anew would cost 10 ms a crop."""
    rng = generator("noise bank", 0)
    bank = []
    for grains in (0.0, 0.0, 0.6, 1.1):
        noise = rng.standard_normal((1024, 1024), dtype=np.float32)
        if grains:
            noise = cv2.GaussianBlur(noise, (0, 0), grains, borderType=cv2.BORDER_REFLECT)
            noise = noise / noise.std()
        bank.append(np.asarray(noise, np.float32))
    return tuple(bank)


def _noise(rng: Generator, shape: tuple[int, int]) -> Plane:
    """Cut noise from the bank at a random place, turned at random."""
    bank = _noise_bank()[int(rng.integers(0, 4))]
    if max(shape) > 1024:
        bank = np.tile(bank, (max(shape) // 1024 + 1,) * 2)
    top, left = (int(rng.integers(0, side - want + 1)) for side, want in zip(bank.shape, shape, strict=True))
    noise = bank[top : top + shape[0], left : left + shape[1]]
    return noise[:: int(rng.choice([-1, 1])), :: int(rng.choice([-1, 1]))]


def _noisy(pixels: Pixels, rng: Generator, sigma: float, *, tinted: bool = False) -> Pixels:
    """Add noise of ``sigma`` (brightness 0 to 255); ``tinted`` gives each channel its own."""
    shape = (pixels.shape[0], pixels.shape[1])
    if not tinted:
        noise = (_noise(rng, shape) * np.float32(sigma)).astype(np.int16)
        noise = noise if pixels.ndim == 2 else cv2.merge([noise] * 3)
    else:
        noise = cv2.merge([(_noise(rng, shape) * np.float32(sigma)).astype(np.int16) for _ in range(3)])
    return np.asarray(cv2.add(pixels, noise, dtype=cv2.CV_8U), np.uint8)


def _lit(pixels: Pixels, rng: Generator, depth: float) -> Pixels:
    """Multiply with smooth light: a slope, hills, and at times the edge of a shadow."""
    height, width = pixels.shape[:2]
    ys, xs = np.mgrid[-1:1:24j, -1:1:24j].astype(np.float32)
    angle = rng.uniform(0, 2 * np.pi)
    towards = (np.cos(angle) * xs + np.sin(angle) * ys).astype(np.float32)
    light = 1 + np.float32(depth) * (towards * np.float32(rng.uniform(-0.4, 0.4)) + 0.25 * field(rng, (24, 24), 3))
    if rng.random() < 0.35:
        edge = np.clip((towards - rng.uniform(-0.8, 0.8)) / rng.uniform(0.08, 0.6), -0.5, 0.5) + 0.5
        light -= np.float32(depth * rng.uniform(0.2, 0.6)) * edge
    # 8 bits of light are enough, and the integer product is four times as fast
    small = np.clip(light * 150, 0, 255).astype(np.uint8)
    wide = cv2.resize(small, (width, height), interpolation=cv2.INTER_LINEAR)
    wide = wide if pixels.ndim == 2 else cv2.merge([wide] * 3)
    return np.asarray(cv2.multiply(pixels, wide, scale=1 / 150), np.uint8)


def _grey(pixels: Pixels, rng: Generator, variation: float) -> Pixels:
    """Make the crop grey by a random eye; stays (height, width)."""
    weights = np.array([0.299, 0.587, 0.114])
    weights += variation * rng.uniform(0, 0.8) * (rng.dirichlet((2.0, 3.0, 1.5)) - weights)
    return np.asarray(cv2.transform(pixels, weights.reshape(1, 3)), np.uint8).reshape(pixels.shape[:2])


def _moved(pixels: Pixels, rng: Generator, kind: str) -> tuple[Pixels, Points]:
    """Skew the crop by up to 1.5 degrees, and as a photo see it slightly askew; what comes in at the edge is paper."""
    height, width = pixels.shape[:2]
    skew = float(np.clip(rng.normal(0, 0.6), -1.5, 1.5))
    stretch = tuple(float(v) for v in 1 + rng.normal(0, 0.004, 2))
    matrix = about(((width - 1) / 2, (height - 1) / 2), turn_deg=skew, stretch=(stretch[0], stretch[1]))
    matrix[:2, 2] += rng.uniform(-1.5, 1.5, 2)
    if kind == "photo":
        corners = np.array([[0, 0], [width, 0], [width, height], [0, height]], np.float32)
        away = rng.normal(0, 0.012, (4, 2)) * (width, height)
        askew = cv2.getPerspectiveTransform(corners, (corners + away).astype(np.float32))
        matrix = np.asarray(askew, np.float64) @ matrix
    moved = cv2.warpPerspective(
        pixels, matrix, (width, height), flags=cv2.INTER_LINEAR, borderMode=cv2.BORDER_REPLICATE
    )
    return np.asarray(moved, np.uint8), matrix / matrix[2, 2]


def _sampled(pixels: Pixels, across: float, down: float, rng: Generator) -> Pixels:
    """Sample anew, ``across`` and ``down`` times as finely, as a scanner of other dots an inch does."""
    height, width = pixels.shape[:2]
    size = (max(8, round(width * across)), max(8, round(height * down)))
    if size == (width, height):
        return pixels
    if max(across, down) > 1.05:
        # a crop that is coarser than the machine has lost contrast in its thin strokes, which the sheet still had
        fine = cv2.resize(pixels, size, interpolation=cv2.INTER_CUBIC)
        soft = cv2.GaussianBlur(fine, (0, 0), 0.9 * across, sigmaY=max(0.9 * down, 0.4))
        return np.asarray(cv2.addWeighted(fine, 1.7, soft, -0.7, 0), np.uint8)
    if rng.random() < 0.75:
        return np.asarray(cv2.resize(pixels, size, interpolation=cv2.INTER_AREA), np.uint8)
    soft = cv2.GaussianBlur(pixels, (0, 0), 0.35 / across, sigmaY=0.35 / down)
    return np.asarray(cv2.resize(soft, size, interpolation=cv2.INTER_LINEAR), np.uint8)


def _grown(pixels: Pixels, size: tuple[int, int], rng: Generator) -> Pixels:
    """Bring the crop back to its size, as an intake would."""
    if (pixels.shape[1], pixels.shape[0]) == size:
        return pixels
    way = int(rng.choice([cv2.INTER_LINEAR, cv2.INTER_CUBIC, cv2.INTER_NEAREST], p=[0.55, 0.35, 0.1]))
    if size[0] < pixels.shape[1]:
        way = cv2.INTER_AREA
    return np.asarray(cv2.resize(pixels, size, interpolation=way), np.uint8)


def _scanned(pixels: Pixels, rng: Generator, scale: float) -> Pixels:
    out = blurred(pixels, rng.uniform(0, 0.9) * scale)
    if rng.random() < 0.35:
        out = _grey(out, rng, 0.4)
    if rng.random() < 0.25:  # a pale or a hard print
        out = toned(out, rng.uniform(-0.35, 0.15), rng.uniform(0.85, 1.05), rng.uniform(0.7, 1.4))
    elif out.ndim == 3 and rng.random() < 0.6:
        out = _cast(out, rng, 0.07)
    if rng.random() < 0.3:
        out = specked(out, rng, int(rng.integers(1, 8)), 2.0 * scale)
    if rng.random() < 0.3:
        soft = cv2.GaussianBlur(out, (0, 0), 1.2)
        sharper = rng.uniform(0.2, 0.9)
        out = np.asarray(cv2.addWeighted(out, 1 + sharper, soft, -sharper, 0), np.uint8)
    return _noisy(out, rng, rng.uniform(0.5, 6) * scale, tinted=out.ndim == 3 and rng.random() < 0.3)


def _copied(pixels: Pixels, rng: Generator, scale: float) -> Pixels:
    out = pixels
    for _ in range(1 if rng.random() < 0.6 else 2):
        out = blurred(out, rng.uniform(0.4, 1.3) * scale)
        if rng.random() < 0.6:
            out = _lit(out, rng, rng.uniform(0.02, 0.16))
        out = _noisy(out, rng, rng.uniform(2, 14))
        limit = np.clip(rng.choice([0.6, 0.78], p=[0.3, 0.7]) + rng.normal(0, 0.06), 0.45, 0.85)
        out = pressed(out, float(limit), rng.uniform(5, 16))
    out = specked(out, rng, int(rng.integers(0, 14)), 2.6 * scale)
    out = specked(out, rng, int(rng.integers(0, 10)), 1.7 * scale, dark=False)
    if rng.random() < 0.2:
        _streak(out, rng)
    if rng.random() < 0.2:
        return _one_bit(out, rng, ("limit",))
    out = toned(blurred(out, rng.uniform(0.2, 0.8) * scale), rng.uniform(-0.25, 0.0), rng.uniform(1.0, 1.2), 1.0)
    return _noisy(out, rng, rng.uniform(0.5, 5))


def _faxed(pixels: Pixels, rng: Generator, scale: float) -> Pixels:
    out = pixels
    if rng.random() < 0.25:
        out = pressed(blurred(out, rng.uniform(0.5, 1.1) * scale), rng.uniform(0.5, 0.85), rng.uniform(5, 14))
    out = _noisy(out, rng, rng.uniform(1, 15))
    out = _one_bit(out, rng, ("limit", "limit", "limit", "local", "local", "ordered", "diffused"))
    rows = out.shape[0]
    if rng.random() < 0.25:
        for row in rng.integers(1, rows, int(rng.integers(1, 5))):
            out[row] = out[row - 1] if rng.random() < 0.6 else 255
    if rng.random() < 0.15:
        _streak(out, rng)
    return np.asarray(np.minimum(out, specked(np.full_like(out, 255), rng, int(rng.integers(0, 12)), 1.5)), np.uint8)


def _photographed(pixels: Pixels, rng: Generator, scale: float) -> Pixels:
    out = blurred(pixels, float(rng.choice([0.5, 1.0, 1.7], p=[0.45, 0.35, 0.2]) * rng.uniform(0.6, 1.2) * scale))
    if rng.random() < 0.2:
        length = rng.uniform(1.5, 5.5) * scale
        kernel = np.zeros((7, 7), np.float32)
        angle = rng.uniform(0, np.pi)
        end = (round(3 + length / 2 * np.cos(angle)), round(3 + length / 2 * np.sin(angle)))
        cv2.line(kernel, (6 - end[0], 6 - end[1]), end, 1.0)
        out = np.asarray(cv2.filter2D(out, -1, kernel / kernel.sum()), np.uint8)
    out = _lit(out, rng, rng.uniform(0.2, 1.0))
    out = _cast(out, rng, 0.25)
    out = _noisy(out, rng, rng.choice([1.5, 4.0, 8.0]) * rng.uniform(0.5, 1.2) * scale, tinted=rng.random() < 0.5)
    if rng.random() < 0.5:
        soft = cv2.GaussianBlur(out, (0, 0), 1.3)
        sharper = rng.uniform(0.2, 0.8)
        out = np.asarray(cv2.addWeighted(out, 1 + sharper, soft, -sharper, 0), np.uint8)
    return out if rng.random() < 0.9 else _grey(out, rng, 0.4)


def _cast(pixels: Pixels, rng: Generator, depth: float) -> Pixels:
    """Colour the crop: lamps run from yellow to blue and paper a little to green or pink; up to ``depth`` darker."""
    level = np.arange(256, dtype=np.float64) / 255
    warm, green = rng.normal(0, 0.35), rng.normal(0, 0.12)
    white = 1 - depth * np.clip(np.array([-warm, -green, warm]) + rng.uniform(0, 0.8), 0, 1)
    gamma = 1 + rng.normal(0, depth) + rng.normal(0, depth / 6, 3)
    table = np.stack([255 * w * level**g for w, g in zip(white, np.clip(gamma, 0.6, 1.6), strict=True)], axis=-1)
    return np.asarray(cv2.LUT(pixels, np.rint(table).astype(np.uint8).reshape(1, 256, 3)), np.uint8)


def _streak(pixels: Pixels, rng: Generator) -> None:
    """Draw a thin line from top to bottom into the crop itself."""
    column = int(rng.integers(0, pixels.shape[1] - 2))
    pixels[:, column : column + int(rng.integers(1, 3))] = 0 if rng.random() < 0.7 else 255


def _one_bit(pixels: Pixels, rng: Generator, ways: tuple[str, ...]) -> Pixels:
    """Make a grey crop black and white by a limit, one that follows the paper, or a dither."""
    way = ways[int(rng.integers(0, len(ways)))]
    limit = float(np.clip(rng.choice([0.6, 0.8], p=[0.35, 0.65]) + rng.normal(0, 0.06), 0.45, 0.88))
    if way == "limit":
        return np.asarray(cv2.threshold(pixels, float(255 * limit), 255, cv2.THRESH_BINARY)[1], np.uint8)
    if way == "local":
        around = cv2.blur(pixels, (31, 31))
        return ((pixels > around * np.float32(min(limit + 0.05, 0.93))) * np.uint8(255)).astype(np.uint8)
    if way == "diffused":
        from PIL import Image

        return np.array(Image.fromarray(pixels).convert("1"), np.uint8) * np.uint8(255)
    bayer = np.array([[0, 8, 2, 10], [12, 4, 14, 6], [3, 11, 1, 9], [15, 7, 13, 5]], np.float32) * 14 + 20
    rows, columns = pixels.shape
    tiles = np.tile(bayer.astype(np.uint8), (rows // 4 + 1, columns // 4 + 1))[:rows, :columns]
    return ((pixels > tiles) * np.uint8(255)).astype(np.uint8)


def spoil_crop(
    pixels: Pixels, rng: Generator | int, *, kind: str | None = None, dpi: float = 300.0
) -> tuple[Pixels, npt.NDArray[np.float64]]:
    """Spoil a crop of a chart as a page on its way to octavo would be.

    Parameters
    ----------
    pixels : ndarray
        The crop, shape (height, width, 3), uint8, RGB; about 500 to 700 px a side.
    rng : numpy.random.Generator or int
        The generator to draw from, or a seed of one.
    kind : str, optional
        One of ``CROP_KINDS``; by default one is drawn with the shares that stand there.
    dpi : float
        The resolution of ``pixels`` on the sheet. The crop is sampled at 110 to 300 dpi on its way (a fax at its own
        204 by 196 or 98) and comes back at its size.

    Returns
    -------
    pixels : ndarray
        Shape (height, width, 3), uint8; grey and black-and-white crops have three equal channels.
    matrix : ndarray
        Shape (3, 3), float64: takes (x, y, 1) in pixels of the old crop to the new one (up to scale); the centre of the
        top-left pixel is (0, 0).

    Raises
    ------
    ValueError
        When there is no such kind.
    """
    if isinstance(rng, int):
        rng = generator("crop", rng)
    if kind is None:
        kind = str(rng.choice(list(CROP_KINDS), p=list(CROP_KINDS.values())))
    elif kind not in CROP_KINDS:
        raise ValueError(f"no way of spoiling a crop is called {kind!r}: choose from {', '.join(CROP_KINDS)}")
    size = (pixels.shape[1], pixels.shape[0])
    if kind == "clean":
        return pixels.copy(), np.eye(3)
    out, matrix = _moved(pixels, rng, kind)
    across, down = _resolution(rng, kind)
    if kind in ("scan", "photo", "copy"):
        # a copy gains nothing from more than half again as many pixels, and takes its time
        across = down = min(across, dpi * (1.5 if kind == "copy" else 1.0))
    if kind not in ("scan", "photo"):
        out = _grey(out, rng, 1.0)
    out = _sampled(out, across / dpi, down / dpi, rng)
    spoiler = {"scan": _scanned, "copy": _copied, "photo": _photographed}.get(kind, _faxed)
    out = spoiler(
        out, rng, min(1.0, across / 270)
    )  # as the spoilers of whole pages, whose pictures have 200 to 300 dpi
    if not kind.startswith("fax") and rng.random() < 0.7:
        out = jpeg(out, int(rng.integers(45 if kind == "photo" else 60, 96)))
    out = _grown(out, size, rng)
    if out.ndim == 2:
        out = np.asarray(cv2.merge([out] * 3), np.uint8)
    return out, matrix


def _resolution(rng: Generator, kind: str) -> tuple[float, float]:
    """Draw the dots an inch across and down at which the crop is sampled."""
    if kind.startswith("fax"):
        return 204.0, 196.0 if kind == "fax-fine" else 98.0
    if kind == "copy":  # copied at a high resolution; the last scan may be coarse
        return (dpi := float(rng.uniform(150, 240))), dpi
    dpi = float(rng.choice([200.0, 300.0, rng.uniform(110.0, 300.0)], p=[0.3, 0.25, 0.45]))
    return dpi, dpi
