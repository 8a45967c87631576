"""Every bound on size, time and memory that the intake keeps, each with its reason."""

from __future__ import annotations

from typing import Final

FILE_BYTES: Final = 1_000_000_000
"""Largest file, bytes: it is held in memory once, so that nobody can change it while it is read."""

PICTURE_PIXELS: Final = 100_000_000
"""Most pixels of one picture, read from its header before decoding: A3 at 600 dpi has 70 million."""

PICTURE_SIDE_LEAST: Final = 32
"""Fewest pixels along a side: no chart with labels fits into less."""

PICTURE_SIDE_MOST: Final = 32_000
"""Most pixels along a side: A3 at 600 dpi has 9,921, and OpenCV's own resampling stops at 32,767."""

PAGE_SIDE_PX: Final = 3_600
"""Most pixels along the long side of a page that is read: A4 at 300 dpi has 3,508, and more reads no better."""

DRAWN_DPI: Final = 200.0
"""Rendering resolution of a drawn page: 5 dB is about 10 px on a usual chart, and its paths give the exact place."""

SCAN_DPI: Final = 300.0
"""Most that a scanned PDF page is rendered at, when its picture is finer."""

SCAN_DPI_LEAST: Final = 100.0
"""Least that a PDF page with a picture is rendered at, so that what is drawn around the picture stays legible."""

PDF_PAGES: Final = 20_000
"""Most pages of a PDF: a count beyond it is taken for a lie of the file."""

TIFF_PAGES: Final = 20_000
"""Most pages of a TIFF, for the same reason; pages are decoded one at a time."""

PAGE_SECONDS: Final = 20.0
"""Longest a PDF page may take to be opened: a usual one takes 0.2 s, and a bomb never ends."""

PAGE_BYTES: Final = 1_500_000_000
"""Most memory a PDF page may add to the process that opens it."""

GIVEN_UP_IN_A_ROW: Final = 3
"""After so many pages given up one after the other, the rest of the file is not tried: else a bomb of 1,000 pages
holds a run for hours."""

OCR_SIDE_PX: Final = 8_000
"""Most pixels along a side of a picture for Tesseract, which stops at 32,767 and slows down long before."""

OCR_SECONDS: Final = 15.0
"""Longest one Tesseract call may take: a full A4 page at 300 dpi takes 1.5 s on one thread."""

STILL_SECONDS: Final = 10.0
"""Longest to wait for a file that still grows, as a scanner writes page by page."""
