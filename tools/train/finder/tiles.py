"""Paint pieces of pages with the boxes of their words for the word finder."""

from __future__ import annotations

from dataclasses import dataclass

import cv2
import numpy as np
import numpy.typing as npt

from ....extract.eyes.words.finder import LONG_SIDE
from ...painter import paint, render
from ...painter.families import FAMILIES
from ...painter.spoiling.crops import spoil_crop
from ...painter.truth import PaintedPage

TILE = 416
ZOOM = (0.55, 1.75)
"""A page of another paper size, or a cut-out chart, shows its words smaller or larger than a letter's page does."""
LETTER_PT = 800.0
"""Long side of the paper that a report is usually printed on, in points."""


@dataclass(frozen=True, slots=True)
class WordTile:
    """A piece of a page, shape (416, 416), uint8, grey, and its level words.

    ``words`` has shape (n, 4), float32: left, top, right, bottom in tile pixels. Words that stand upright on the page,
    or whose piece in the tile is too small to be read, are no words.
    """

    pixels: npt.NDArray[np.uint8]
    words: npt.NDArray[np.float32]


def finder_families() -> list[str]:
    """Name the training families; pages without a chart have words too."""
    left_out = {"facts", "facts-pen", "printed-table"}
    return [n for n, f in FAMILIES.items() if f.split == "train" and not f.tags & left_out]


def paint_word_tiles(family: str, seed: int, *, count: int = 4) -> list[WordTile]:
    """Paint one page and give spoiled pieces of it.

    Parameters
    ----------
    family : str
        One of ``finder_families()``.
    seed : int
        The same seed gives the same tiles.
    count : int
        How many pieces.

    Returns
    -------
    list of WordTile
    """
    rng = np.random.default_rng([5151, seed])
    page = paint(family, seed, mono=bool(rng.random() < 0.2))
    return [_tile(page, rng) for _ in range(count)]


def _tile(page: PaintedPage, rng: np.random.Generator) -> WordTile:
    """Render a random window, spoil it, and bring it to the finder's scale."""
    scale = LONG_SIDE / max(*page.size_pt, LETTER_PT) * float(np.exp(rng.uniform(*np.log(ZOOM))))  # tile px per point
    side = TILE / scale + 4  # points
    dpi = float(np.clip(rng.uniform(90, 300), 0.8 * 72 * scale, 2.2 * 72 * scale))
    middle = _middle(page, rng)
    size = np.array(page.size_pt)
    low = np.clip(middle - side / 2, 0, np.maximum(size - side, 0))
    high = np.minimum(low + side, size)
    crop = np.concatenate([low / size, high / size])
    pixels = render(page.pdf, dpi, crop=(float(crop[0]), float(crop[1]), float(crop[2]), float(crop[3])))
    full = np.ceil(size * dpi / 72)
    corner = np.floor(crop[:2] * full)
    spoiled, matrix = spoil_crop(pixels, rng, dpi=dpi)
    grey = cv2.cvtColor(spoiled, cv2.COLOR_RGB2GRAY) if spoiled.ndim == 3 else spoiled
    factor = 72 * scale / dpi
    grey = np.asarray(cv2.resize(grey, None, fx=factor, fy=factor, interpolation=_way(factor)), np.uint8)
    boxes = [_moved(np.array(w.box) * np.tile(full, 2), corner, matrix) for w in page.words if w.upright == 0]
    boxes = (np.array(boxes, np.float32).reshape(-1, 4) + 0.5) * factor - 0.5
    return _window(grey, boxes.astype(np.float32), rng)


def _way(factor: float) -> int:
    return cv2.INTER_AREA if factor < 1 else cv2.INTER_LINEAR


def _middle(page: PaintedPage, rng: np.random.Generator) -> npt.NDArray[np.float64]:
    """Choose where a window lies: mostly at a word, labels of axes first, so that few windows are empty."""
    size = np.array(page.size_pt)
    labels = [w for w in page.words if w.role != "other"]
    words = labels if labels and rng.random() < 0.6 else list(page.words)
    if not words or rng.random() < 0.15:
        return rng.uniform(0, 1, 2) * size
    box = np.array(words[int(rng.integers(len(words)))].box)
    return (box[:2] + box[2:]) / 2 * size + rng.normal(0, 0.06, 2) * size.max()


def _moved(
    box: npt.NDArray[np.float64], corner: npt.NDArray[np.float64], matrix: npt.NDArray[np.float64]
) -> npt.NDArray[np.float64]:
    """Carry a box in pixels of the whole page into the spoiled crop."""
    left, top, right, bottom = box - 0.5 - np.tile(corner, 2)
    middle_x, middle_y = (left + right) / 2, (top + bottom) / 2
    # the middles of the four edges: a turned word's box would else grow by its turn
    points = np.array([[left, middle_y, 1], [middle_x, top, 1], [right, middle_y, 1], [middle_x, bottom, 1]]) @ matrix.T
    points = points[:, :2] / points[:, 2:]
    return np.array([points[0, 0], points[1, 1], points[2, 0], points[3, 1]])


def _window(grey: npt.NDArray[np.uint8], boxes: npt.NDArray[np.float32], rng: np.random.Generator) -> WordTile:
    high, wide = grey.shape
    tile = np.full((TILE, TILE), int(rng.choice([255, 255, 200, 128])), np.uint8)
    part = grey[:TILE, :TILE]
    y0, x0 = (int(rng.integers(0, TILE - n + 1)) for n in part.shape)
    tile[y0 : y0 + part.shape[0], x0 : x0 + part.shape[1]] = part
    inner = np.array([0, 0, min(wide, TILE), min(high, TILE)], np.float32)
    cut = np.concatenate([np.maximum(boxes[:, :2], inner[:2]), np.minimum(boxes[:, 2:], inner[2:])], axis=1)
    whole = np.prod(boxes[:, 2:] - boxes[:, :2], axis=1)
    left = np.prod((cut[:, 2:] - cut[:, :2]).clip(min=0), axis=1)
    kept = cut[left > 0.5 * np.maximum(whole, 1)] + np.array([x0, y0, x0, y0], np.float32)
    if rng.random() < 0.06:  # a page on its side: its words are not level
        return WordTile(np.ascontiguousarray(np.rot90(tile)), np.empty((0, 4), np.float32))
    return WordTile(tile, kept)
