"""The painter: whole report pages with known values, from a family's name and a seed."""

from __future__ import annotations

import zlib

import numpy as np

from ...interpret.errors import MisuseError
from .families import FAMILIES, Family
from .render import Pixels, render
from .told_page import ToldPage
from .truth import PaintedMark, PaintedPage, PaintedWord

__all__ = ["FAMILIES", "Family", "PaintedMark", "PaintedPage", "PaintedWord", "Pixels", "ToldPage", "paint", "render"]


def paint(family: str, seed: int, *, mono: bool = False) -> PaintedPage:
    """Paint one page.

    Parameters
    ----------
    family : str
        A name in ``FAMILIES``.
    seed : int
        The same family and seed give the same page, byte for byte, in every run.
    mono : bool
        Ask for a page without colour.

    Returns
    -------
    PaintedPage
        The page as PDF and everything that is true of it.

    Raises
    ------
    MisuseError
        When there is no such family.
    MissingProgram
        When a font is not installed; the text names its package.
    """
    if family not in FAMILIES:
        raise MisuseError(f"there is no family {family!r}", "Choose one of octavo.tools.painter.FAMILIES")
    rng = np.random.default_rng([zlib.crc32(family.encode()), seed])
    return FAMILIES[family].draw(rng, mono).finish(family, seed)
