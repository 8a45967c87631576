"""The reading drawn over its page, from the record alone: what was read, where, and what a person must look at."""

from __future__ import annotations

from collections.abc import Iterator

from ..extract.page import Pixels
from ..interpret.record import Audiogram, Ear, PageRecord, Point, Threshold
from .lettering import ALL_SIDES, Colour, Notes, diamond, faded

EAR_COLOURS: dict[Ear, Colour] = {
    "right": (200, 0, 0),
    "left": (0, 60, 210),
    "both": (0, 120, 60),
    "unspecified": (120, 60, 150),
}
"""RGB. Red and blue as the trade has them; shape, not colour, says ``sure`` or ``ask``."""
_OUTLINE: Colour = (0, 140, 140)
_REMARK: Colour = (215, 120, 0)
_FADE = 0.45
"""How much of the page's own ink is kept, so that what is drawn stands out."""
_SIDES: dict[tuple[str, str], tuple[tuple[int, int], ...]] = {
    ("right", "air"): ((0, -1), (-1, -1), (1, -1), (-1, 1), (0, 1), (-1, 0), (1, 0)),
    ("left", "air"): ((0, 1), (1, 1), (-1, 1), (1, -1), (0, -1), (1, 0), (-1, 0)),
    ("right", "bone"): ((-1, 0), (-1, -1), (-1, 1), (0, -1), (0, 1), (1, 0)),
}
"""Where a label stands best, seen from its mark (right, down): apart from the other ear's."""


def draw_reading(pixels: Pixels, record: PageRecord) -> Pixels:
    """Draw a record over its page.

    Charts are outlined. Every threshold has a ring round its mark where it stands as sure, a diamond and a question
    mark where it asks; beside it stands the level, ``b`` for bone, ``m`` for masked, ``NR`` for no response.

    Parameters
    ----------
    pixels : Pixels
        The page as displayed, shape (height, width, 3), uint8, RGB; left as it is.
    record : PageRecord
        What was read from it.

    Returns
    -------
    Pixels
        A new picture of the same shape.
    """
    notes = Notes(faded(pixels, _FADE))
    for audiogram in record.audiograms:
        for chart in audiogram.charts:
            notes.outline([_place(pixels, corner) for corner in chart.outline], _OUTLINE)
        seen = [(threshold, _place(pixels, at)) for threshold, at in _seen_on_page(audiogram)]
        for threshold, at in seen:
            notes.keep_clear_round(at, 0.8 * notes.radius)
            _draw_mark(notes, threshold, at)
        for threshold, at in seen:
            sides = _SIDES.get((threshold.ear, threshold.conduction), ALL_SIDES)
            notes.beside(label_of(threshold), at, EAR_COLOURS[threshold.ear], sides)
    for remark in record.remarks:
        if remark.at is not None:
            notes.outline(diamond(_place(pixels, remark.at), 1.6 * notes.radius), _REMARK)
    return notes.picture


def label_of(threshold: Threshold) -> str:
    """Give the few letters that stand beside a mark: level, and what the plain air threshold is not.

    Parameters
    ----------
    threshold : Threshold
        Any threshold.

    Returns
    -------
    str
        Such as ``35``, ``40bm?`` (bone, masked, to be asked) or ``110NR`` (no response).
    """
    signs = (
        ("b", threshold.conduction == "bone"),
        ("f", threshold.conduction == "field"),
        ("m", threshold.masked),
        ("A", threshold.aided),
        (f" {threshold.measure}", threshold.measure != "threshold"),
        ("NR", not threshold.response),
        ("?", threshold.standing == "ask"),
    )
    return f"{threshold.level_db_hl:g}" + "".join(sign for sign, holds in signs if holds)


def _seen_on_page(audiogram: Audiogram) -> Iterator[tuple[Threshold, Point]]:
    for threshold in audiogram.thresholds:
        if threshold.seen is not None and threshold.seen.at is not None:
            yield threshold, threshold.seen.at


def _draw_mark(notes: Notes, threshold: Threshold, at: Point) -> None:
    if threshold.standing == "sure":
        notes.ring(at, notes.radius, EAR_COLOURS[threshold.ear])
    else:
        notes.outline(diamond(at, 1.3 * notes.radius), EAR_COLOURS[threshold.ear])


def _place(pixels: Pixels, at: Point) -> Point:
    height, width = pixels.shape[:2]
    return at[0] * width - 0.5, at[1] * height - 0.5
