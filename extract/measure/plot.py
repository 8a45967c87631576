"""A chart's picture laid flat at a known size of its marks, as ink against paper, without its straight lines."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from ..chart import Bend
from ..eyes.marks.crops import chart_crop
from ..page import Pixels
from ..shades import bare, darkest_of, of_plain

MARK_PX = 22.0
"""The picture has the size at which its marks measure this: strokes are about two pixels wide then."""
PAPER_PX = 30
"""What is dark and narrower than this is ink on the paper around it: filled marks are, bands of shading are not."""
STILL_PX = 0.4
"""A picture whose bend moves nothing by more is left as it is."""
NODES = 6
"""The bend is smooth: so many places along each side tell it for all pixels."""
FLOOR, FULL = 0.3, 0.8
"""Ink of less than this share of a mark's darkness is shading, a faint grid or grain; from ``FULL`` it is a mark's."""
LINE_MARKS = 4.0
"""How many marks long a straight level or upright run must be to be a line."""
LINE_COVER = 0.5
"""Share of a line's length that has ink where it is dashed."""
WHOLE_COVER = 0.4
"""The same of a line over the whole chart."""
OVER = round(1.5 * MARK_PX)
"""How far beyond the printed labels such a line may go on."""
LINE_ROOM = 6
"""Pixels beside a line on one side of which at least there is less ink: it is no row of marks."""
LEAST_KNOWN = 0.45
"""Share of a run's length that must be free of marks for the rest of it to tell of a line."""

Ink = npt.NDArray[np.float32]
Place = tuple[float, float]
Box = tuple[float, float, float, float]
Region = tuple[int, int, int, int]
"""Left, top, right, bottom in pixels of a plot."""


@dataclass(frozen=True, slots=True)
class Plot:
    """A chart's picture with its bend undone, shape (height, width, 3), uint8, RGB.

    ``at = (chart - corner + 0.5) * scale - 0.5``, in pixels, of a place in chart coordinates.
    """

    pixels: Pixels
    scale: float
    corner: Place
    bend: Bend

    def of_chart(self, x: float, y: float) -> Place:
        """Give the place on the picture of a place in chart coordinates."""
        return (x - self.corner[0] + 0.5) * self.scale - 0.5, (y - self.corner[1] + 0.5) * self.scale - 0.5

    def of_sheet(self, x: float, y: float) -> Place:
        """Give the place on the picture of a sheet position."""
        return self.of_chart(*self.bend.undone(x, y))

    def on_sheet(self, x: float, y: float) -> Place:
        """Give the sheet position of a place on the picture."""
        chart = (x + 0.5) / self.scale - 0.5 + self.corner[0], (y + 0.5) / self.scale - 0.5 + self.corner[1]
        at = chart
        for _ in range(2):  # the bend's inverse: it changes by far less than a pixel over a pixel
            back = self.bend.undone(*at)
            at = at[0] + chart[0] - back[0], at[1] + chart[1] - back[1]
        return at


def plot_of(pixels: Pixels, box: Box, bend: Bend, scale: float) -> Plot:
    """Cut a chart out of a sheet and lay it flat.

    Parameters
    ----------
    pixels : ndarray, shape (height, width, 3), uint8, RGB
        The sheet.
    box : tuple of float
        The chart's region in sheet pixels.
    bend : Bend
        How its paper lies.
    scale : float
        Pixels of the picture per sheet pixel.

    Returns
    -------
    Plot
        Its printed lines are level and upright.
    """
    import cv2

    crop = chart_crop(pixels, box, scale=scale)
    flat = Plot(crop.pixels, crop.scale, crop.corner, bend)
    height, width = crop.pixels.shape[:2]
    nodes = [
        [flat.on_sheet(float(x), float(y)) for x in np.linspace(0, width - 1, NODES)]
        for y in np.linspace(0, height - 1, NODES)
    ]
    sheet_x, sheet_y = np.moveaxis(np.array(nodes, np.float32), 2, 0)
    wanted = [
        (part - corner + 0.5) * crop.scale - 0.5
        for part, corner in ((sheet_x, crop.corner[0]), (sheet_y, crop.corner[1]))
    ]
    off = wanted[0] - np.linspace(0, width - 1, NODES), wanted[1].T - np.linspace(0, height - 1, NODES)
    if max(float(np.abs(one).max()) for one in off) < STILL_PX:  # between the nodes it is no more
        return flat
    maps = [_spread(part, width, height) for part in wanted]
    laid = cv2.remap(bare(crop.pixels), maps[0], maps[1], cv2.INTER_LINEAR, borderMode=cv2.BORDER_REPLICATE)
    laid = np.asarray(laid, np.uint8)
    return Plot(of_plain(laid) if laid.ndim == 2 else laid, crop.scale, crop.corner, bend)


def _spread(nodes: npt.NDArray[np.float32], width: int, height: int) -> npt.NDArray[np.float32]:
    """Fill in between nodes that lie evenly from the first pixel to the last."""
    down, across = (_shares(count, long) for count, long in zip(nodes.shape, (height, width), strict=True))
    return np.asarray(down @ nodes @ across.T, np.float32)


def _shares(nodes: int, long: int) -> npt.NDArray[np.float64]:
    """Give how much of each node is in each pixel of a row between them, shape (pixels, nodes)."""
    at = np.linspace(0, nodes - 1, long)
    return np.maximum(1 - np.abs(at[:, None] - np.arange(nodes)), 0.0)


def darkness(pixels: Pixels) -> Pixels:
    """Give how much darker than the paper around it each pixel is, in its darkest channel, 0 to 255."""
    import cv2

    light = darkest_of(pixels)
    half = cv2.resize(light, None, fx=0.5, fy=0.5, interpolation=cv2.INTER_AREA)
    wide = np.ones((PAPER_PX // 2, PAPER_PX // 2), np.uint8)
    paper = cv2.blur(cv2.morphologyEx(half, cv2.MORPH_CLOSE, wide), (3, 3))
    paper = cv2.resize(paper, (light.shape[1], light.shape[0]), interpolation=cv2.INTER_LINEAR)
    return np.asarray(cv2.subtract(paper, light), np.uint8)


def as_ink(dark: Pixels, of_mark: float) -> Ink:
    """Give each pixel's ink, from 0 for what is much fainter than a mark's strokes to 1 for what is as dark."""
    return np.clip((dark.astype(np.float32) / of_mark - FLOOR) / (FULL - FLOOR), 0, 1)


def without_lines(ink: Ink, told: Pixels, region: Region) -> Ink:
    """Take out level and upright lines, solid, dashed or dotted: the grid, the frame, flat joining lines.

    Parameters
    ----------
    ink : ndarray, shape (height, width), float32
        Ink from 0 to 1.
    told : ndarray, shape (height, width), uint8
        Not 0 where marks were seen: there nothing speaks for or against a line.
    region : tuple of int
        Left, top, right and bottom of the grid: a line that has ink over most of its way from end to end is taken out
        whole, also where marks leave little of it to be seen.
    """
    import cv2

    free = (told == 0).astype(np.uint8)
    there = (ink > 0).astype(np.uint8)
    length = round(LINE_MARKS * MARK_PX) | 1
    lines = np.zeros(ink.shape, bool)
    for shape, thick in (((length, 1), (3, 1)), ((1, length), (1, 3))):
        # a line that is not quite straight stays within three pixels over this length
        near = np.asarray(cv2.dilate(there, np.ones(thick, np.uint8))) & free
        known, cover = (
            np.asarray(cv2.boxFilter(one, cv2.CV_32F, shape, normalize=False, borderType=cv2.BORDER_REFLECT))
            for one in (free, near)
        )
        beside = _beside(cover, shape[0] > 1)
        lines |= (cover >= LINE_COVER * known) & (known > LEAST_KNOWN * length) & (beside < 0.7 * cover)
        left, top, right, bottom = region
        part = near[top:bottom, left:right], free[top:bottom, left:right]
        axis = 1 if shape[0] > 1 else 0
        whole = part[0].sum(axis=axis) / np.maximum(part[1].sum(axis=axis), 1)
        beside = np.minimum(np.roll(whole, LINE_ROOM), np.roll(whole, -LINE_ROOM))
        found = np.flatnonzero((whole >= WHOLE_COVER) & (beside < 0.7 * whole))
        if axis:
            lines[top + found, max(left - OVER, 0) : right + OVER] = True
        else:
            lines[max(top - OVER, 0) : bottom + OVER, left + found] = True
    return np.where(lines, np.float32(0), ink)


def _beside(cover: Ink, level: bool) -> Ink:
    """Give the lesser of what lies a line's room to either side."""
    axis = 0 if level else 1
    return np.minimum(np.roll(cover, LINE_ROOM, axis), np.roll(cover, -LINE_ROOM, axis))


def mean_ink(picture: Pixels, weight: Ink) -> tuple[float, float]:
    """Give the shares of a weighted place's ink that are red and that are blue."""
    red, green, blue = (picture[..., i].astype(np.float32) for i in range(3))
    strong = 0.25 * (255 - np.minimum(np.minimum(red, green), blue)) + 8
    total = float(weight.sum())
    if total <= 0:
        return 0.0, 0.0
    is_red = (red - np.maximum(green, blue) > strong) * weight
    is_blue = (blue - np.maximum(red, green * 0.9 + 0.1 * blue) > 0.6 * strong) * weight
    return float(is_red.sum()) / total, float(is_blue.sum()) / total


def window_sum(ink: Ink, side: int) -> Ink:
    """Give the ink in a square window around each pixel."""
    import cv2

    return np.asarray(cv2.boxFilter(ink, -1, (side, side), normalize=False, borderType=cv2.BORDER_CONSTANT), np.float32)
