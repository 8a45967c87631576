"""Resolution tags: what a picture says of its dots an inch, and when that is to be believed."""

from __future__ import annotations

from typing import Any

from PIL import Image

FAX_WIDTHS = (1728, 2048, 2432)
"""Pixels a line of a group 3 or 4 fax: A4, B4, A3 (ITU-T T.4, section 2)."""

_FAX_STRETCH = 204 / 98
_HARDLY = 0.02
_DEFAULTS = (0, 1, 72, 96)


def densities(picture: Image.Image) -> tuple[float, float, float]:
    """Read how dense the pixels lie.

    Parameters
    ----------
    picture : PIL.Image.Image
        An opened picture; its header is enough.

    Returns
    -------
    tuple of float
        Dots an inch along x and along y, as stated (0 where not stated), and the factor by which the height must grow
        against the width to make the pixels square (1 where nothing is stated or the statement is no sane one).
    """
    dpi = _pair(picture.info.get("dpi"))
    if dpi is not None:
        return *dpi, _ratio(*dpi)
    ratio = picture.info.get("resolution") or picture.info.get("aspect")
    if picture.info.get("jfif_unit") == 0:
        ratio = picture.info.get("jfif_density")
    # What the file gives is dots along x and y, in a unit that it leaves open.
    relative = _pair(ratio)
    return 0.0, 0.0, _ratio(*relative) if relative is not None else 1.0


def credible(dpi: float, long_side_px: float) -> float | None:
    """Give a stated resolution back where it can be true, else None.

    A resolution that programs write when they know none (0, 1, 72, 96) is not believed, nor one that no scanner has or
    that makes the sheet shorter than 2 or longer than 60 inches.
    """
    if round(dpi) in _DEFAULTS or not 60 <= dpi <= 4800 or not 2 <= long_side_px / dpi <= 60:
        return None
    return dpi


def fax_stretch(width: float, height: float) -> float:
    """Give by how much a fax without resolution tags must grow in height, 1 where it looks like none.

    A page of a coarse fax has 98 lines an inch against 204 dots along the line, so A4 and Letter have about 1,000 to
    1,170 lines of 1,728 dots: wider than high, with the one width that hardly anything but a fax has.
    """
    scale = width / FAX_WIDTHS[0]
    return _FAX_STRETCH if round(width) in FAX_WIDTHS and 950 * scale <= height <= 1170 * scale else 1.0


def _pair(value: Any) -> tuple[float, float] | None:
    """Give two numbers above 0, None for whatever else a file may hold in their place."""
    try:
        x, y = (float(part) for part in value)
    except (TypeError, ValueError, ZeroDivisionError):
        return None
    return (x, y) if x > 0 and y > 0 else None


def _ratio(x: float, y: float) -> float:
    ratio = x / y
    return ratio if abs(ratio - 1) > _HARDLY and 1 / 3 < ratio < 3 else 1.0
