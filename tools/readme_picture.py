"""The picture in the README: a page beside what octavo reads from it.

``python -m octavo.tools.readme_picture sample_charts/NAME tools/reading.png`` makes it anew.
"""

from __future__ import annotations

import sys
from pathlib import Path

import cv2
import numpy as np

from ..extract.choices import Choices
from ..extract.page import Page, Pixels
from ..interpret.record import PageRecord
from .reading import read_pages
from .reading_picture import draw_reading
from .show_work import write_png

WIDTH_PX = 1200
"""Of the whole picture: wide enough to read the labels, small enough for a README."""


def side_by_side(page: Pixels, reading: Pixels, width_px: int = WIDTH_PX) -> Pixels:
    """Put two pictures of one page beside each other.

    Parameters
    ----------
    page, reading : Pixels
        Shape (height, width, 3), uint8, RGB, both of one shape.
    width_px : int
        Width of the result in pixels.

    Returns
    -------
    Pixels
        The two with a grey line between them.
    """
    both = np.hstack([page, np.full((page.shape[0], max(2, page.shape[1] // 150), 3), 200, np.uint8), reading])
    height_px = round(both.shape[0] * width_px / both.shape[1])
    return np.asarray(cv2.resize(both, (width_px, height_px), interpolation=cv2.INTER_AREA), dtype=np.uint8)


def around_charts(shape: tuple[int, int], record: PageRecord, margin: float = 0.08) -> tuple[slice, slice]:
    """Find the part of a page that holds its charts.

    Parameters
    ----------
    shape : tuple of int
        Height and width of the page in pixels.
    record : PageRecord
        Its reading, with a chart at least.
    margin : float
        What is added on each side for the labels, as a fraction of the page's width.

    Returns
    -------
    tuple of slice
        Rows and columns.
    """
    corners = [corner for audiogram in record.audiograms for chart in audiogram.charts for corner in chart.outline]
    height, width = shape
    more = margin * width
    (left, top), (right, bottom) = np.min(corners, axis=0), np.max(corners, axis=0)
    rows = slice(max(0, round(top * height - more)), min(height, round(bottom * height + more)))
    columns = slice(max(0, round(left * width - more)), min(width, round(right * width + more)))
    return rows, columns


def main(sample: str, out: str) -> None:
    """Read the first page of a sample and write the picture.

    Parameters
    ----------
    sample, out : str
        The file to read, and the PNG to write.
    """
    pages: list[Page] = []

    def keep(step: str, result: object) -> None:  # noqa: ARG001  # an observer is told the step as well
        if isinstance(result, Page):
            pages.append(result)

    record = next(iter(read_pages(sample, Choices(), observer=keep)))
    if not isinstance(record, PageRecord):
        raise record
    page = pages[0].pixels
    rows, columns = around_charts(page.shape[:2], record)
    reading = draw_reading(page, record)
    write_png(side_by_side(page[rows, columns], reading[rows, columns]), Path(out))


if __name__ == "__main__":
    main(*sys.argv[1:])
