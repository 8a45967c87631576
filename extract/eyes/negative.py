"""Light ink on a dark ground, as screens show it: turned into dark ink on paper, as everything else expects it."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import numpy.typing as npt

from ..page import DrawnPath, Page, Pixels, Word
from ..shades import darkest_of

SMALL_PX = 256
"""Dark grounds are looked for in about so many pixels along the longer side."""
GROUND = 17
"""A ground is what most of so many of its pixels, squared, have around each."""
DARK = 95
"""A ground's lightness, the mean of its largest and smallest sample, below which it is no paper."""
LEAST_SIDE = 0.25
"""A dark ground is at least so wide and high, in sides of the page; a smaller one is a table's head or a stamp."""
WHOLE = 0.7
"""Share of its box that a ground fills: what surrounds a page on a table does not."""
FLAT, EVEN = 14, 0.55
"""A screen's ground is even: so much of it is within so many levels of its middle, in every sample; a shadow is not."""
TWO_EVEN = 0.85
"""So much of it is even where a plot's ground is another than the page's round it."""
LIGHT = 60
"""Ink on it is lighter than the ground by so much."""
LEAST_INK, MOST_INK = 0.002, 0.45
ALL = 0.96
"""A ground that is so wide and high is the whole page's."""
AT_ONCE = 256
"""So many rows are turned at a time."""

Colour = tuple[int, int, int]
Ground = npt.NDArray[np.int16]
_Region = tuple[int, int, int, int]


def positive(page: Page) -> Page:
    """Turn the parts of a page that are light on dark into dark on light.

    Parameters
    ----------
    page : Page
        As displayed.

    Returns
    -------
    Page
        The page itself where no ground of it is dark. Else light and dark are changed about there, every hue kept, so
        that the ground is white, in pixels, paths and words; the note ``negative`` says so.
    """
    regions = _dark(page.pixels)
    if not regions:
        return page
    pixels, paths, words = page.pixels.copy(), page.paths, page.words
    for left, top, right, bottom in regions:
        part = pixels[top:bottom, left:right]
        ground = np.median(part[::4, ::4].reshape(-1, 3), axis=0).astype(np.int16)
        for first in range(top, bottom, AT_ONCE):  # a photo's numbers at once would fill half a gigabyte
            rows = pixels[first : min(first + AT_ONCE, bottom), left:right]
            rows[:] = _turned(rows, ground)
        box = (left, top, right, bottom)
        paths = tuple(_path(path, ground) if _within(path, box) else path for path in paths)
        words = words if words is None else tuple(_word(word, ground, box) for word in words)
    pixels.flags.writeable = False
    return replace(page, pixels=pixels, paths=paths, words=words, notes=(*page.notes, "negative"))


def _dark(pixels: Pixels) -> list[_Region]:
    """Find the grounds that are dark: left, top, right, bottom in pixels."""
    import cv2

    height, width = pixels.shape[:2]
    step = max(1, round(max(height, width) / SMALL_PX))
    small = pixels[::step, ::step]
    size = small.shape[1], small.shape[0]
    light = _lightness(small)
    if (light < DARK).mean() < 0.5 * WHOLE * LEAST_SIDE**2:
        return []  # no ground can be dark where so little is
    ground = cv2.medianBlur(light, GROUND)
    count, _, stats, _ = cv2.connectedComponentsWithStats((ground < DARK).astype(np.uint8))
    found = []
    for x, y, wide, high, area in stats[1:count].tolist():
        if wide < LEAST_SIDE * size[0] or high < LEAST_SIDE * size[1] or area < WHOLE * wide * high:
            continue
        region = x * step, y * step, min((x + wide) * step, width), min((y + high) * step, height)
        if wide > ALL * size[0] and high > ALL * size[1]:
            region = (0, 0, width, height)
        if _is_screen(pixels[region[1] : region[3], region[0] : region[2]]):
            found.append(region)
    return found


def _lightness(pixels: Pixels) -> Pixels:
    red, green, blue = (pixels[..., channel] for channel in range(3))
    # numpy's most along the last axis takes ten times as long
    low, high = darkest_of(pixels), np.maximum(np.maximum(red, green), blue)
    return np.asarray(low + (high - low) // 2, np.uint8)


def _is_screen(part: Pixels) -> bool:
    """Say whether a dark region is an even ground with light ink on it."""
    seen = part[::2, ::2].reshape(-1, 3).astype(np.int16)
    ground = np.median(seen, axis=0)
    rest = seen[np.abs(seen - ground).max(axis=1) > FLAT]
    even = 1 - len(rest) / len(seen)
    if even < EVEN:
        second = (np.abs(rest - np.median(rest, axis=0)).max(axis=1) <= FLAT).sum() / len(seen)
        even = even if even + second < TWO_EVEN else EVEN
    ink = ((seen - ground).max(axis=1) >= LIGHT).mean()
    return bool(even >= EVEN and LEAST_INK <= ink <= MOST_INK)


def _turned(colours: npt.NDArray[np.uint8], ground: Ground) -> npt.NDArray[np.uint8]:
    """Change light and dark about and keep the hue, so that the ground becomes white; shape (..., 3)."""
    wide = colours.astype(np.float32)
    turned = wide + 255.0 - wide.max(axis=-1, keepdims=True) - wide.min(axis=-1, keepdims=True)
    paper = ground + 255.0 - float(ground.max()) - float(ground.min())
    return np.clip(turned * (255.0 / paper) + 0.5, 0, 255).astype(np.uint8)


def _colour(colour: Colour | None, ground: Ground) -> Colour | None:
    if colour is None:
        return None
    red, green, blue = _turned(np.array(colour, np.uint8), ground).tolist()
    return red, green, blue


def _path(path: DrawnPath, ground: Ground) -> DrawnPath:
    return replace(path, stroke=_colour(path.stroke, ground), fill=_colour(path.fill, ground))


def _word(word: Word, ground: Ground, box: _Region) -> Word:
    inside = box[0] <= word.box[0] and word.box[2] <= box[2] and box[1] <= word.box[1] and word.box[3] <= box[3]
    return replace(word, ink=_colour(word.ink, ground)) if inside else word


def _within(path: DrawnPath, box: _Region) -> bool:
    low, high = path.points.min(axis=0), path.points.max(axis=0)
    middle = (low + high) / 2
    return bool(box[0] <= middle[0] <= box[2] and box[1] <= middle[1] <= box[3])
