"""Outside pages as they are handed on: screenshots, JPEGs, pictures in PDFs, turned, on dark screens, two to a sheet.

Only Pillow, reportlab and pypdfium2; the truth of the page goes with it.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from io import BytesIO
from pathlib import Path
from typing import Any

import pypdfium2
from cases import OutsidePage
from PIL import Image, ImageChops, ImageOps
from reportlab.lib.utils import ImageReader
from reportlab.pdfgen.canvas import Canvas

from octavo.interpret.record import Point

Way = Callable[[OutsidePage, Path], OutsidePage]
A4 = (595.28, 841.89)


def picture(path: Path, dpi: float) -> Image.Image:
    """Give a page's picture; a PDF at a resolution, a picture with its longer side that of A4 at it at the most."""
    if path.suffix == ".pdf":
        with pypdfium2.PdfDocument(path) as document:
            # pypdfium2 declares the scale as a whole number but takes any
            options: dict[str, Any] = {"scale": dpi / 72}
            return document[0].render(**options).to_pil().convert("RGB")
    with Image.open(path) as stored:
        shown = stored.convert("RGB")
    share = min(1.0, dpi / 72 * A4[1] / max(shown.size))
    size = round(share * shown.width), round(share * shown.height)
    return shown.resize(size, Image.Resampling.LANCZOS) if share < 1 else shown


def _low(page: OutsidePage, path: Path) -> OutsidePage:
    """A screenshot of a page on a screen of 96 dots to the inch."""
    picture(page.path, 96).save(path.with_suffix(".png"))
    return replace(page, path=path.with_suffix(".png"))


def _lower(page: OutsidePage, path: Path) -> OutsidePage:
    picture(page.path, 75).save(path.with_suffix(".png"))
    return replace(page, path=path.with_suffix(".png"))


def _jpeg(page: OutsidePage, path: Path) -> OutsidePage:
    """A JPEG of poor quality, its colours halved in resolution."""
    picture(page.path, 110).save(path.with_suffix(".jpg"), quality=35, subsampling=2)
    return replace(page, path=path.with_suffix(".jpg"))


def _in_pdf(page: OutsidePage, path: Path) -> OutsidePage:
    """A JPEG that fills the page of a PDF."""
    shown, stored, path = picture(page.path, 150), BytesIO(), path.with_suffix(".pdf")
    shown.save(stored, "JPEG", quality=60)
    size = shown.width * 72 / 150, shown.height * 72 / 150
    canvas = Canvas(str(path), size, invariant=True)
    canvas.drawImage(ImageReader(stored), 0, 0, *size)
    canvas.save()
    return replace(page, path=path)


def _turned(page: OutsidePage, path: Path) -> OutsidePage:
    """A page scanned sideways: its top at the right."""
    picture(page.path, 150).transpose(Image.Transpose.ROTATE_270).save(path.with_suffix(".png"))
    return _moved(page, path.with_suffix(".png"), lambda at: (1 - at[1], at[0]))


def _two_up(page: OutsidePage, path: Path) -> OutsidePage:
    """Two pages on a sheet, this one at the left; the other is a letter."""
    shown, path = picture(page.path, 300), path.with_suffix(".pdf")
    width, height = A4[1], A4[0]
    share = min(0.48 * width / shown.width, 0.96 * height / shown.height)
    left, bottom = 0.01 * width, height - 0.02 * height - share * shown.height
    canvas = Canvas(str(path), (width, height), invariant=True)
    canvas.drawImage(ImageReader(shown), left, bottom, share * shown.width, share * shown.height)
    for row, line in enumerate(("Harbour Lane clinic", "Dear colleague,", "the test of our patient is enclosed.")):
        canvas.drawString(0.55 * width, height - 60 - 18 * row, line)
    canvas.save()
    x0, y0 = left / width, 0.02
    w, h = share * shown.width / width, share * shown.height / height
    return _moved(page, path, lambda at: (x0 + w * at[0], y0 + h * at[1]))


def _negative(page: OutsidePage, path: Path) -> OutsidePage:
    """A dark theme: light and dark changed about, hues kept."""
    hue, saturation, value = ImageOps.invert(picture(page.path, 120)).convert("HSV").split()
    turned = hue.point([(level + 128) % 256 for level in range(256)])
    Image.merge("HSV", (turned, saturation, value)).convert("RGB").save(path.with_suffix(".png"))
    return replace(page, path=path.with_suffix(".png"))


def _transparent(page: OutsidePage, path: Path) -> OutsidePage:
    """Ink alone: paper is transparent."""
    shown = picture(page.path, 150)
    darkest = ImageChops.darker(ImageChops.darker(*shown.split()[:2]), shown.split()[2])
    shown.putalpha(ImageOps.invert(darkest).point([min(255, 3 * level) for level in range(256)]))
    shown.save(path.with_suffix(".png"))
    return replace(page, path=path.with_suffix(".png"))


def _moved(page: OutsidePage, path: Path, move: Callable[[Point], Point]) -> OutsidePage:
    outlines = tuple((move(a), move(b), move(c), move(d)) for a, b, c, d in page.outlines)
    return replace(page, path=path, places=tuple(move(at) for at in page.places), outlines=outlines)


WAYS: dict[str, Way] = {
    "low": _low, "lower": _lower, "jpeg": _jpeg, "in-pdf": _in_pdf, "turned": _turned, "two-up": _two_up,
    "negative": _negative, "transparent": _transparent,
}  # fmt: skip


def hand_on(page: OutsidePage, way: str, folder: Path) -> OutsidePage:
    """Hand one page on in one of the ``WAYS``; the new file lies in ``folder``."""
    style, _, rest = page.note.partition(",")
    handed = WAYS[way](page, folder / f"{page.path.stem}-{way}")
    return replace(handed, note=f"{style},{rest}, {way}")
