"""From a sample's name to its file, as a user would have it, and its truth."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

import cv2
import numpy as np

from ...interpret.record import PageRecord
from ..painter.spoiling import Spoiled, shown, spoil, write_file
from ..painter.truth import PaintedPage
from .suites import Sample

RENDER_DPI = 300
"""Of the clean page, before it is spoiled; each way of spoiling then has resolutions of its own."""


@dataclass(frozen=True, slots=True)
class Order:
    """A sample to paint into a folder; ``yardstick`` asks for the picture that Tesseract is timed on."""

    sample: Sample
    folder: str
    yardstick: bool


@dataclass(frozen=True, slots=True)
class Painted:
    """A painted file, the truth with its positions as on the file's page, and the yardstick's picture (PNG)."""

    sample: Sample
    path: str
    truth: PageRecord
    yardstick: str | None


def paint_file(order: Order) -> Painted:
    """Paint one sample and write its file."""
    sample, folder = order.sample, Path(order.folder)
    page = paint_page(sample)
    path = folder / f"{sample.name}{sample.suffix}"
    if sample.way == "drawn":
        path.write_bytes(page.pdf)
        pixels, truth = picture_of(page, sample) if order.yardstick else None, page.record
    else:
        spoiled = spoil_page(page, sample)
        write_file(spoiled, sample.way, path)
        pixels, truth = square(spoiled.pixels, spoiled.dpi), shown(page, spoiled).record
    yardstick = None
    if order.yardstick and pixels is not None:
        yardstick = str(folder / f"{sample.name}.yardstick.png")
        Path(yardstick).write_bytes(as_png(pixels))
    return Painted(sample, str(path), truth, yardstick)


def paint_page(sample: Sample) -> PaintedPage:
    """Paint a sample's page, not yet spoiled."""
    from ..painter import paint

    return paint(sample.family, sample.seed, mono=sample.mono)


def spoil_page(page: PaintedPage, sample: Sample) -> Spoiled:
    """Spoil a painted page in the sample's way."""
    from ..painter import render

    return spoil(render(page.pdf, RENDER_DPI), sample.way, sample.seed, dpi=RENDER_DPI)


def picture_of(page: PaintedPage, sample: Sample) -> np.ndarray:
    """Give the page as the reader's user sees it, RGB or grey, with square pixels."""
    from ..painter import render

    if sample.way == "drawn":
        return render(page.pdf, RENDER_DPI)
    spoiled = spoil_page(page, sample)
    return square(spoiled.pixels, spoiled.dpi)


def square(pixels: np.ndarray, dpi: tuple[float, float] | None) -> np.ndarray:
    """Stretch a coarse fax to square pixels by whole lines; leave what is nearly square alone."""
    times = round(dpi[0] / dpi[1]) if dpi is not None else 1
    return np.repeat(pixels, times, axis=0) if times > 1 else pixels


def as_png(pixels: np.ndarray) -> bytes:
    """Encode RGB or grey pixels as PNG."""
    return _encoded(".png", pixels)


def as_jpeg(pixels: np.ndarray) -> bytes:
    """Encode RGB or grey pixels as JPEG, for looking at."""
    return _encoded(".jpg", pixels)


def _encoded(suffix: str, pixels: np.ndarray) -> bytes:
    bgr = cv2.cvtColor(pixels, cv2.COLOR_RGB2BGR) if pixels.ndim == 3 else pixels
    return cv2.imencode(suffix, np.ascontiguousarray(bgr))[1].tobytes()
