"""From PDF to pixels, for those who paint pages to look at them or to spoil them."""

from __future__ import annotations

from typing import Any

import numpy as np
import numpy.typing as npt

Pixels = npt.NDArray[np.uint8]


def render(pdf: bytes, dpi: float, *, page: int = 0, crop: tuple[float, float, float, float] | None = None) -> Pixels:
    """Render a page of a PDF.

    Parameters
    ----------
    pdf : bytes
        The file.
    dpi : float
        Pixels per inch.
    page : int
        Which page, from 0.
    crop : tuple, optional
        Left, top, right, bottom of the wanted part in page fractions; it is rounded outward to whole pixels of the
        full page's grid, so that a crop holds the very pixels that the full page has there.

    Returns
    -------
    ndarray
        Shape (height, width, 3), uint8, RGB.
    """
    import pypdfium2

    document = pypdfium2.PdfDocument(pdf)
    try:
        sheet = document[page]
        scale = dpi / 72
        margins: tuple[float, ...] = (0.0, 0.0, 0.0, 0.0)
        if crop is not None:
            width, height = sheet.get_size()
            full = (np.ceil(width * scale), np.ceil(height * scale))
            left, right = np.floor(crop[0] * full[0]), full[0] - np.ceil(crop[2] * full[0])
            top, bottom = np.floor(crop[1] * full[1]), full[1] - np.ceil(crop[3] * full[1])
            # the renderer rounds margins up to whole pixels: half a pixel less keeps a rounding error from adding one
            margins = tuple(max(0.0, float(pixels) - 0.5) / scale for pixels in (left, bottom, right, top))
        # pypdfium2 declares the scale as a whole number but takes any
        options: dict[str, Any] = {"scale": scale, "crop": margins, "rev_byteorder": True}
        bitmap = sheet.render(**options)
        return np.ascontiguousarray(bitmap.to_numpy()[:, :, :3])
    finally:
        document.close()
