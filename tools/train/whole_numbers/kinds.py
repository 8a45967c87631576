"""The networks that can be written in whole numbers, and what they are shown for it."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from ..finder.tiles import finder_families, paint_word_tiles
from ..marks.crops import paint_tiles, training_families
from ..school import in_turn

Seen = npt.NDArray[np.uint8]

FIRST_SEED = 98_000_000


@dataclass(frozen=True, slots=True)
class Kind:
    """A network that can be written so.

    Attributes
    ----------
    pictures : callable
        Gives pictures of the kind that it is shown, shape (height, width, channels), uint8.
    blocks : tuple of int
        For each of the first convolutions, how many of its places each way one place of the rewritten one stands for;
        the picture comes in blocks of the first one's places times its stride.
    """

    pictures: Callable[[], Iterator[Seen]]
    blocks: tuple[int, ...]


def _charts(*, by_hand: bool) -> Iterator[Seen]:
    for family, seed in in_turn(training_families(by_hand=by_hand), FIRST_SEED):
        yield from (tile.pixels for tile in paint_tiles(family, seed)[:1])


def _pages() -> Iterator[Seen]:
    for family, seed in in_turn(finder_families(), FIRST_SEED):
        yield from (255 - tile.pixels[..., None] for tile in paint_word_tiles(family, seed, count=2))


KINDS = {
    "marks": Kind(lambda: _charts(by_hand=False), (1,)),
    "by-hand": Kind(lambda: _charts(by_hand=True), (1,)),
    "words": Kind(_pages, (2, 1)),
}
