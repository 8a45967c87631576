"""How a PDF page looks: which pixels it gives, and where in them a raw point of the page is shown."""

from __future__ import annotations

import ctypes
import functools
import math
import mmap
from dataclasses import dataclass
from typing import cast

import numpy as np
import numpy.typing as npt
import pypdfium2

from ...limits import PAGE_SIDE_PX
from ...page import Pixels

Floats = npt.NDArray[np.float64]
Room = mmap.mmap | bytearray


@dataclass(frozen=True, slots=True)
class View:
    """The visible part of a page and its turn.

    ``box`` is left, bottom, right, top in raw coordinates; ``turn`` the clockwise turn at which it is displayed;
    ``unit_inch`` the length of one raw unit.
    """

    box: tuple[float, float, float, float]
    turn: int
    unit_inch: float

    def size(self) -> tuple[float, float]:
        """Give width and height as displayed, in raw units."""
        left, bottom, right, top = self.box
        across, up = right - left, top - bottom
        return (up, across) if self.turn in (90, 270) else (across, up)

    def scale(self, dpi: float) -> float:
        """Give pixels a raw unit for a resolution, lowered where the page would exceed the side limit."""
        return min(dpi * self.unit_inch, (PAGE_SIDE_PX - 1) / max(self.size()))

    def to_pixels(self, width_px: int, height_px: int) -> Floats:
        """Give the affine map from raw points to pixels of a rendering, shape (2, 3).

        Pixel (0, 0) has its centre at (0, 0), so the page's top-left corner is at (-0.5, -0.5).
        """
        left, bottom, right, top = self.box
        x, y = 1 / (right - left), 1 / (top - bottom)
        fractions = {
            0: ((x, 0, -left * x), (0, -y, top * y)),
            90: ((0, y, -bottom * y), (x, 0, -left * x)),
            180: ((-x, 0, right * x), (0, y, -bottom * y)),
            270: ((0, -y, top * y), (-x, 0, right * x)),
        }[self.turn]
        affine = np.array(fractions, dtype=np.float64) * [[width_px], [height_px]]
        affine[:, 2] -= 0.5
        return affine


def view_of(page: pypdfium2.PdfPage, user_unit: float) -> View | None:
    """Find what a page displays, None where its boxes leave nothing to see.

    The boxes are the renderer's, which follows ISO 32000-2, 7.7.3.3 and 14.11.2: corners in any order, the crop box cut
    to the media box, Letter where there is no usable box.
    """
    left, bottom, right, top = page.get_bbox()
    if not all(map(math.isfinite, (left, bottom, right, top))) or right <= left or top <= bottom:
        return None
    return View((left, bottom, right, top), page.get_rotation(), user_unit / 72)


def render(page: pypdfium2.PdfPage, scale: float, room: Room | None = None) -> Pixels:
    """Render a page as displayed, with its annotations and form fields.

    Parameters
    ----------
    page : pypdfium2.PdfPage
        The page.
    scale : float
        Pixels a raw unit.
    room : writable buffer, optional
        Memory to render into, from its beginning, without gaps.

    Returns
    -------
    Pixels
        Shape (height, width, 3), uint8, RGB; a view of ``room`` where it was given.
    """
    maker = pypdfium2.PdfBitmap.new_native
    if room is not None:
        maker = functools.partial(maker, buffer=(ctypes.c_ubyte * len(room)).from_buffer(room))
    # The renderer's own hints call the scale a whole number; it takes any.
    bitmap = page.render(scale=cast("int", scale), rev_byteorder=True, bitmap_maker=maker)
    pixels = bitmap.to_numpy()
    assert pixels.shape[2:] == (3,), "an opaque page is rendered with three samples a pixel"
    return pixels
