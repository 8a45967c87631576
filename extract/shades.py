"""What several steps ask of one large picture, worked out once: its brightness, and whether it has colours at all.

Of a page of 9 million pixels, the brightness takes 4 ms and is asked for seven times. To be sure that it has no colours
takes 8 ms, and saves two thirds of every turn and reduction.
"""

from __future__ import annotations

import weakref
from collections.abc import Callable
from typing import Any, TypeVar

import numpy as np
import numpy.typing as npt

from .page import Pixels

Result = TypeVar("Result")
Picture = npt.NDArray[Any]

LARGE_PX = 400_000
"""What has fewer numbers is worked out as often as it is asked for."""
ROWS = 32
"""Colours are looked for in every so manieth row first: a picture that has any mostly shows them there."""
STRIP = 16
"""Then in so many rows at once, which stay in the processor's own memory: that takes half the time."""

_known: dict[int, tuple[weakref.ref[Picture], dict[Callable[..., object], Any]]] = {}
"""By a picture's identity, what was worked out of it; it goes with the picture."""


def once(picture: Picture, work: Callable[[Any], Result]) -> Result:
    """Give ``work(picture)``, which is worked out once for a large picture that nobody may write to.

    Parameters
    ----------
    picture : ndarray
        The picture.
    work : callable
        A function of a module; what it gives is shared, and must not be written to.
    """
    results = _results_of(picture)
    if results is None:
        return work(picture)
    if work not in results:
        results[work] = work(picture)
    return results[work]


def grey_of(pixels: Pixels) -> Pixels:
    """Give a picture's brightness, shape (height, width), uint8."""
    return once(pixels, _brightness)


def plain_of(pixels: Pixels) -> Pixels | None:
    """Give the one channel of a picture without colours, shape (height, width), uint8.

    Returns
    -------
    ndarray or None
        None where the picture has colours, or where it is small or may be written to: then it is not worth the search.
    """
    return once(pixels, channel_of) if _results_of(pixels) is not None else None


def of_plain(channel: Pixels) -> Pixels:
    """Make a picture, shape (height, width, 3), that has one channel three times, and is known to have no colours.

    It is a view of the channel that takes no memory of its own: of 9 million pixels three samples each would be 26 MB.
    """
    pixels = locked(np.broadcast_to(channel[:, :, None], (*channel.shape, 3)))
    results = _results_of(pixels)
    if results is not None:
        results[channel_of] = locked(channel)
    return pixels


def bare(pixels: Pixels) -> Pixels:
    """Give a picture that ``of_plain`` made as its one channel, shape (height, width), any other as it is."""
    return pixels[..., 0] if pixels.strides[-1] == 0 else pixels


def darkest_of(pixels: Pixels) -> Pixels:
    """Give each pixel's darkest sample, shape (height, width), of a picture of three channels or of one."""
    import cv2

    pixels = bare(pixels)
    if pixels.ndim == 2:
        return pixels
    red, green, blue = (cv2.extractChannel(pixels, channel) for channel in range(3))
    return np.asarray(cv2.min(cv2.min(red, green, dst=red), blue, dst=red), np.uint8)


def reduced(picture: Pixels, scale: float) -> Pixels:
    """Give a picture reduced by the means of areas: to less than half of its size by way of its half.

    Parameters
    ----------
    picture : ndarray, shape (height, width) or (height, width, 3), uint8
        The picture; a large one is halved once for all steps that reduce it, and that takes half a millisecond.
    scale : float
        Pixels per pixel of it, up to 1. A pixel's edges are those of its area, scaled; of an odd side to be halved the
        last pixel is left out.
    """
    import cv2

    if scale >= 1.0:
        return picture
    if scale <= 0.5:
        picture, scale = once(picture, _halved), 2 * scale
    if scale == 1.0:
        return picture
    return np.asarray(cv2.resize(picture, None, fx=scale, fy=scale, interpolation=cv2.INTER_AREA), np.uint8)


def locked(picture: Pixels) -> Pixels:
    """Let nobody write to a picture any more, and give it back."""
    picture.flags.writeable = False
    return picture


def _results_of(picture: Picture) -> dict[Callable[..., object], Any] | None:
    if picture.flags.writeable or picture.size < LARGE_PX:
        return None
    key = id(picture)
    known = _known.get(key)
    if known is None:
        known = _known[key] = (weakref.ref(picture, lambda _: _known.pop(key, None)), {})
    return known[1]


def _brightness(pixels: Pixels) -> Pixels:
    import cv2

    plain = plain_of(pixels)
    return locked(np.asarray(cv2.cvtColor(pixels, cv2.COLOR_RGB2GRAY), np.uint8)) if plain is None else plain


def _halved(picture: Pixels) -> Pixels:
    import cv2

    height, width = (side // 2 for side in picture.shape[:2])
    even = picture[: 2 * height, : 2 * width]
    return locked(np.asarray(cv2.resize(even, (width, height), interpolation=cv2.INTER_AREA), np.uint8))


def channel_of(pixels: Pixels) -> Pixels | None:
    """Look whether a picture has no colours; give its one channel, shape (height, width), then, else None."""
    import cv2

    some = pixels[::ROWS]
    if not (np.array_equal(some[..., 0], some[..., 1]) and np.array_equal(some[..., 1], some[..., 2])):
        return None
    channel = np.empty(pixels.shape[:2], np.uint8)
    for top in range(0, len(pixels), STRIP):
        part, grey = pixels[top : top + STRIP], channel[top : top + STRIP]
        cv2.cvtColor(part, cv2.COLOR_RGB2GRAY, dst=grey)  # of three equal samples it gives the same
        if cv2.norm(cv2.cvtColor(grey, cv2.COLOR_GRAY2RGB), part, cv2.NORM_INF) > 0:
            return None
    return locked(channel)
