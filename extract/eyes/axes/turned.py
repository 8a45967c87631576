"""Labels of a frequency axis that stand on their side, as programs set them where they would touch otherwise."""

from __future__ import annotations

from dataclasses import replace

from ...page import Word
from .joined import one_label_each

Box = tuple[float, float, float, float]
SIDEWAYS = (90, 270)
"""The clockwise turns at which words that stand on their side read normally."""


def sideways_labels(words: tuple[Word, ...], upright: int) -> list[Word]:
    """Give the words that stand on their side one way, each at most one label of a frequency axis.

    Parameters
    ----------
    words : tuple of Word
        The words of a sheet.
    upright : int
        90 or 270: the clockwise turn at which the wanted words read normally.

    Returns
    -------
    list of Word
        In the places where they stand, still on their side.
    """
    level = tuple(replace(w, box=_laid_level(w.box, upright)) for w in words if w.upright == upright)
    return [replace(w, box=_laid_level(w.box, 360 - upright), upright=upright) for w in one_label_each(level)]


def _laid_level(box: Box, clockwise: int) -> Box:
    """Turn a box about the sheet's corner."""
    left, top, right, bottom = box
    return (-bottom, left, -top, right) if clockwise == 90 else (top, -right, bottom, -left)
