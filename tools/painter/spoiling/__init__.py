"""Spoiling: what scanners, copiers, fax machines and phones do to a page, with the map of where every point went."""

from __future__ import annotations

from ..truth import PaintedPage
from .files import write_file, write_pages
from .sheet import SPOILINGS, Spoiled, generator
from .warp import Pixels

__all__ = ["SPOILINGS", "Spoiled", "shown", "spoil", "write_file", "write_pages"]


def spoil(pixels: Pixels, kind: str, seed: int, *, dpi: float) -> Spoiled:
    """Send a clean page through a machine.

    Parameters
    ----------
    pixels : ndarray
        The rendered page, shape (height, width, 3), uint8, RGB. 300 dpi serves every kind.
    kind : str
        One of ``SPOILINGS``: "clean" changes nothing; "scan" is a flat scan at 200 to 300 dpi, "scan-300"
        one at 300; "copy" a photocopy of
        one to three generations; "fax-fine" and "fax-coarse" one bit at 204 x 196 and 204 x 98 dpi, in the machine's
        own pixels; "photo" a phone photo of 5 to 12 million pixels.
    seed : int
        The same kind, seed and picture give the same result in every process.
    dpi : float
        Resolution of ``pixels``.

    Returns
    -------
    Spoiled
        The picture as displayed, its resolution, and the exact map of page fractions.

    Raises
    ------
    ValueError
        When there is no such kind.
    """
    if kind not in SPOILINGS:
        raise ValueError(f"no way of spoiling is called {kind!r}: choose from {', '.join(SPOILINGS)}")
    if kind == "clean":
        return Spoiled(pixels, (dpi, dpi), lambda points: points)
    rng = generator(kind, seed)
    if kind in ("scan", "scan-300"):
        from .scan import scan

        return scan(pixels, rng, dpi, at_dpi=300.0 if kind == "scan-300" else None)
    if kind == "copy":
        from .copier import photocopy

        return photocopy(pixels, rng, dpi)
    if kind == "photo":
        from .photo import photo

        return photo(pixels, rng)
    from .fax import fax

    return fax(pixels, rng, dpi, fine=kind == "fax-fine")


def shown(page: PaintedPage, spoiled: Spoiled) -> PaintedPage:
    """Give a page's truth as its spoiled picture shows it: places moved, and in greys no ear that only ink named.

    Parameters
    ----------
    page : PaintedPage
        The page before.
    spoiled : Spoiled
        What became of it.
    """
    moved = page.moved(spoiled.warp)
    grey = spoiled.pixels.ndim == 2 or bool((spoiled.pixels[..., 0] == spoiled.pixels[..., 2]).all())
    return moved.without_colour() if grey else moved
