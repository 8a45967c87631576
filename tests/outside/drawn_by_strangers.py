"""Audiograms as strangers might draw them who know the trade and no line of our code: by Pillow and by cairo.

A style is where a page starts from; `varied` then changes labels, marks, arrows, lines and shades by lot. CI draws
with Pillow alone; pages in PDF need cairo (PyPI's cairocffi).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

import numpy as np
from cases import BONES, Frame, OutsidePage, Wish, aside, deal, drawn, hearing_test, known, of, pick
from stranger_looks import GREY, STYLES, Look, varied
from stranger_pens import CairoPen, Pen, PillowPen
from stranger_surroundings import surround, table

from octavo.interpret.record import Ear, Point, Threshold

__all__ = ["STYLES", "audiogram", "chart", "draw", "key", "page"]

ZONES = ((-10, 20, "normal"), (20, 40, "mild"), (40, 70, "moderate"), (70, 90, "severe"), (90, 120, "profound"))
SHADES = {
    "grey": ("#ffffff", "#eeeeee", "#dddddd", "#cccccc", "#bbbbbb"),
    "colours": ("#e3f4e1", "#fdf5d0", "#fde3c8", "#f9d0cc", "#e6d3ea"),
}
SPEECH = ((300, 25), (800, 22), (2500, 20), (5000, 28), (5500, 45), (3000, 52), (1200, 58), (500, 60), (250, 48))
SOUNDS = (("m", 300, 40), ("a", 900, 42), ("r", 1400, 38), ("ch", 2600, 46), ("k", 3100, 32), ("s", 4900, 36))
SHAPES: dict[tuple[str, str, bool], tuple[Point, ...]] = {
    ("right", "air", True): ((0, -1.05), (1, 0.75), (-1, 0.75)),
    ("left", "air", True): ((-0.9, -0.9), (0.9, -0.9), (0.9, 0.9), (-0.9, 0.9)),
    ("right", "bone", False): ((0.45, -0.9), (-0.55, 0), (0.45, 0.9)),
    ("left", "bone", False): ((-0.45, -0.9), (0.55, 0), (-0.45, 0.9)),
    ("right", "bone", True): ((0.35, -1), (-0.35, -1), (-0.35, 1), (0.35, 1)),
    ("left", "bone", True): ((-0.35, -1), (0.35, -1), (0.35, 1), (-0.35, 1)),
}


def page(seed: int, folder: Path, kind: str = "") -> OutsidePage:
    """Draw page number ``seed`` into ``folder`` (see `deal`); ``kind`` overrules the lot: ``150`` for Pillow's dots."""
    rng, style, look = deal(8, seed, STYLES)
    look = varied(rng, look)
    wish = Wish(
        tuple(hz for hz in look.tested if hz <= 8000), look.levels[1] - 10, look.levels[0], bone=pick(rng, BONES)
    )
    truth = hearing_test(rng, replace(wish, masked_air=look.masked_air))
    truth = (*_with_high(rng, truth, look), *_field(rng, look))
    chosen = pick(rng, look.kinds)
    return draw(f"strangers-{seed:04d}-{style}", folder, truth, look, style, kind or chosen)


def draw(stem: str, folder: Path, truth: tuple[Threshold, ...], look: Look, style: str, kind: str) -> OutsidePage:
    """Draw given values in a given look; ``kind`` is pdf, or a way to make a picture and its dots to the inch."""
    boxes = look.boxes[::-1] if look.swapped else look.boxes
    frames = [Frame(look.page, box, look.ticks, look.levels, look.equal, look.margin) for box in boxes]
    way, _, dpi = kind.rpartition("-")
    path = folder / f"{stem}.{kind if kind == 'pdf' else 'jpg' if way == 'jpg' else 'png'}"
    pen: Pen
    if kind == "pdf" or way == "cairo":
        dots = 0.0 if kind == "pdf" else float(dpi)
        pen = CairoPen(look.page, path, paper=look.paper, face=look.face, dpi=dots)
    else:
        pen = PillowPen(look.page, float(dpi), paper=look.paper, face=look.face, smooth=way != "dots")
    surround(pen, look, truth)
    shown: list[tuple[Frame, tuple[Ear, ...]]] = [(frames[0], ("right", "left"))]
    if len(frames) > 1:
        shown = [(frames[0], ("right",)), (frames[1], ("left",))]
    for frame, ears in shown:
        audiogram(pen, frame, truth, ears, look)
    key(pen, frames[-1] if look.swapped else frames[0], truth, look)
    pen.save(path)
    return drawn(path, truth, frames, f"{style}, {kind}", look.bone)


def audiogram(pen: Pen, frame: Frame, truth: Sequence[Threshold], ears: Sequence[Ear], look: Look) -> None:
    """Draw one chart with the values of the ears that it shows."""
    chart(pen, frame, look, look.title if len(ears) > 1 else look.ears[ears[0] == "left"])
    for ear in ears:
        _lines(pen, frame, truth, ear, look)
    for ear in (*ears, "both") if len(ears) > 1 else ears:
        _marks(pen, frame, truth, ear, look)
    if look.rows:
        table(pen, frame, truth, look)


def _with_high(rng: np.random.Generator, truth: tuple[Threshold, ...], look: Look) -> tuple[Threshold, ...]:
    """Add air above 8 kHz, falling on from there; an audiometer of ours ends at 90 dB there."""
    out = list(truth)
    ears: tuple[Ear, ...] = ("right", "left")
    for ear in ears:
        db = of(truth, ear, "air")[-1].level_db_hl
        for hz in (hz for hz in look.tested if hz > 8000):
            db = max(db + pick(rng, (-5, 0, 5, 10)), look.levels[0])
            out.append(known(ear, "air", hz, min(db, 90), response=db <= 90))
    return tuple(out)


def _field(rng: np.random.Generator, look: Look) -> tuple[Threshold, ...]:
    """Give the thresholds by loudspeaker, aided with A: for both ears, some 20 dB from any earphone's by chance."""
    if not look.field:
        return ()
    base = 5 * int(rng.integers(4, 10))
    levels = [(hz, base + pick(rng, (-10, -5, 0, 5))) for hz in (500, 1000, 2000, 4000)]
    return tuple(replace(known("both", "field", hz, db), aided=look.field == "A") for hz, db in levels)


def chart(pen: Pen, frame: Frame, look: Look, title: str) -> None:
    """Draw a chart without values: its grid, labels and title."""
    left, top, width, height = frame.box
    right, bottom = left + width, top + height
    corners = [(left, top), (right, top), (right, bottom), (left, bottom)]
    pen.shape(corners, fill=look.plot)
    _zones(pen, frame, look)
    if look.banana:
        pen.shape([(frame.x(hz), frame.y(db)) for hz, db in SPEECH], fill="#f3e9a8", stroke="#d9c860", width=0.6)
        for sound, hz, db in SOUNDS:
            pen.text((frame.x(hz), frame.y(db)), sound, look.size, "#8a7a20")
    if look.grid:
        for db in range(look.levels[0], look.levels[1] + 1, 5 if look.fine else look.step):
            thin = look.grid_pen * (1 if db % look.step == 0 else 0.5)
            pen.line([(left, frame.y(db)), (right, frame.y(db))], look.grid, thin, look.dash)
        for hz in look.ticks if look.across else ():
            dash = look.dash or ((2, 2) if hz in (750, 1500, 3000, 6000) else ())
            pen.line([(frame.x(hz), top), (frame.x(hz), bottom)], look.grid, look.grid_pen, dash)
    else:
        _ticks(pen, frame, look)
    if look.limit:
        pen.line([(left, frame.y(look.limit)), (right, frame.y(look.limit))], look.ink, max(1.4, 2 * look.grid_pen))
    if look.frame:
        pen.shape(corners, stroke=look.ink, width=look.frame)
    high = top - (3.2 if set("tT") & set(look.sides) else 1.3) * look.size
    pen.text((left + width / 2, high - (1.2 * look.size if look.staggered else 0) - look.size), title, 1.4 * look.size,
             look.ink)  # fmt: skip
    _labels(pen, frame, look)
    if look.watermark:
        pen.text((left + width / 2, top + height / 2), look.watermark, width / 4.5, "#e2e2e2", turned=38)


def _ticks(pen: Pen, frame: Frame, look: Look) -> None:
    left, top, width, height = frame.box
    for db in range(look.levels[0], look.levels[1] + 1, look.step):
        edge = left + width if "r" in look.sides and "l" not in look.sides else left
        pen.line([(edge - 4, frame.y(db)), (edge + 4, frame.y(db))], look.ink, look.frame / 2)
    for hz in look.ticks:
        edge = top if "t" in look.sides and "b" not in look.sides else top + height
        pen.line([(frame.x(hz), edge - 4), (frame.x(hz), edge + 4)], look.ink, look.frame / 2)


def _zones(pen: Pen, frame: Frame, look: Look) -> None:
    left, _, width, _ = frame.box
    for number, (start, end, word) in enumerate(ZONES if look.zones else ()):
        high, low = max(start, look.levels[0]), min(end, look.levels[1])
        if high >= low:
            continue
        y0, y1 = frame.y(high), frame.y(low)
        if look.zones in SHADES:
            shade = SHADES[look.zones][number]
            pen.shape([(left, y0), (left + width, y0), (left + width, y1), (left, y1)], fill=shade)
        else:
            pen.line([(left, y1), (left + width, y1)], GREY, 1.2, (6, 3))
        pen.text((left + width - 4, (y0 + y1) / 2), word, 0.9 * look.size, GREY, "r")


def _named(hz: int, unit: str) -> str:
    if unit == "Hz" or (unit == "k" and hz < 1000):
        return str(hz)
    return f"{hz / 1000:g}".replace(".", "," if unit == "0,5" else ".") + ("k" if unit == "k" else "")


def _labels(pen: Pen, frame: Frame, look: Look) -> None:
    left, top, width, height = frame.box
    right, bottom, s = left + width, top + height, look.size
    for hz in look.labelled:
        row = 1.2 * s if look.staggered and hz in (750, 1500, 3000, 6000) else 0
        for side, y in (("t", top - s - row), ("b", bottom + s + row), ("T", top + s)):
            if side in look.sides:
                pen.text((frame.x(hz), y), _named(hz, look.unit) + " Hz"[: 3 * look.units], s, look.ink)
    for db in range(look.levels[0], look.levels[1] + 1, look.named_step):
        name = str(db).replace("-", look.minus) + " dB"[: 3 * look.units]
        for side, x, anchor in (("l", left - 0.7 * s, "r"), ("r", right + 0.7 * s, "l"), ("L", left + 0.5 * s, "l")):
            if side in look.sides and not (side == "L" and db in look.levels):
                pen.text((x, frame.y(db)), name, s, look.ink, anchor)
    if look.titles[0] and "T" not in look.sides:
        under = (2.4 + 1.2 * look.staggered) * s
        pen.text(
            (left + width / 2, top - under if "b" not in look.sides else bottom + under), look.titles[0], s, look.ink
        )
    if look.titles[1] and "L" not in look.sides:
        beside = left - 3.6 * s if "l" in look.sides else right + 3.6 * s
        pen.text((beside, top + height / 2), look.titles[1], s, look.ink, turned=90)


def _place(frame: Frame, one: Threshold, look: Look) -> Point:
    return frame.x(one.frequency_hz, aside(one, look.bone)), frame.y(one.level_db_hl)


def _lines(pen: Pen, frame: Frame, truth: Sequence[Threshold], ear: Ear, look: Look) -> None:
    """Join the heard marks; with ``gaps`` the line stops short of them."""
    colour = look.colours[ear == "left"]
    dashes = {"dashed": (5.0, 3.0), "dotted": (1.2, 2.4)}
    air, bone = ([one for one in of(truth, ear, by) if one.response] for by in ("air", "bone"))
    line = [_place(frame, one, look) for one in air]
    if look.filled_under and len(line) > 1 and ear == "right":
        foot = frame.box[1] + frame.box[3]
        pen.shape([(line[0][0], foot), *line, (line[-1][0], foot)], fill="#f6e3e3")
    if look.joined != "none" and len(line) > 1:
        pen.line(line, colour, look.pen, dashes.get(look.joined, ()) if ear == "left" else ())
    if look.bone_joined and len(bone) > 1:
        pen.line([_place(frame, one, look) for one in bone], colour, look.pen * 0.7, (2, 2))
    for one in air if look.gaps else ():
        pen.circle(_place(frame, one, look), look.radius * 1.35, fill=look.plot)


def _marks(pen: Pen, frame: Frame, truth: Sequence[Threshold], ear: Ear, look: Look) -> None:
    """Draw the marks of an ear, or of both by loudspeaker."""
    for one in (*of(truth, ear, "air"), *of(truth, ear, "bone")):
        at = _place(frame, one, look)
        if look.halo:
            _mark(pen, at, one, replace(look, colours=(look.plot, look.plot), pen=look.pen + 2.4))
        _mark(pen, at, one, look)
        if not one.response:
            _arrow(pen, at, one, look)
        elif look.told and one.conduction == "air":
            up = -1 if ear == "right" else 1
            ink = look.colours[ear == "left"]
            pen.text((at[0] + 1.2 * look.radius, at[1] + 1.9 * up * look.radius), f"{one.level_db_hl:g}", 6.5, ink, "l")
    for one in of(truth, ear, "field"):
        pen.text(_place(frame, one, look), look.field, 2.4 * look.radius, "#006600")


def _mark(pen: Pen, at: Point, one: Threshold, look: Look) -> None:
    what = one.ear, one.conduction, one.masked
    r, colour = look.radius, look.colours[one.ear == "left"]
    fill = {"white": look.plot, "air": colour, "masked": colour if one.masked else ""}.get(look.fill, "")
    if one.conduction == "bone":
        points = [(at[0] + r * x, at[1] + r * y) for x, y in SHAPES[what]]
        pen.line(points, colour, look.pen)
    elif what in SHAPES:
        pen.shape([(at[0] + r * x, at[1] + r * y) for x, y in SHAPES[what]], fill=fill, stroke=colour, width=look.pen)
    elif one.ear == "right":
        pen.circle(at, r * 0.95, fill=fill, stroke=colour, width=look.pen)
    else:
        for way in (-1, 1):
            pen.line(
                [(at[0] - 0.9 * r, at[1] - 0.9 * r * way), (at[0] + 0.9 * r, at[1] + 0.9 * r * way)], colour, look.pen
            )


def _arrow(pen: Pen, at: Point, one: Threshold, look: Look) -> None:
    """Hang an arrow from a mark: slantwise, with a filled head, long, a little apart; straight down; or down beside."""
    r, colour, out = look.radius, look.colours[one.ear == "left"], 1 if one.ear == "left" else -1
    way, first, last = (0.71 * out, 0.71), 1.15, 2.9
    if look.arrow in ("down", "beside"):
        way = (0.0, 1.0)
    if look.arrow == "beside":
        at, first, last = (at[0] + 1.3 * out * r, at[1]), 0.3, 2.4
    first, last = {"apart": (1.6, 3.3), "long": (1.1, 4.2)}.get(look.arrow, (first, last))
    start, tip = ((at[0] + way[0] * r * by, at[1] + way[1] * r * by) for by in (first, last))
    wings = [
        (tip[0] - r * (0.8 * way[0] + 0.5 * side * way[1]), tip[1] - r * (0.8 * way[1] - 0.5 * side * way[0]))
        for side in (-1, 1)
    ]
    pen.line([start, tip], colour, look.pen * 0.85)
    if look.arrow == "filled":
        pen.shape([wings[0], tip, wings[1]], fill=colour)
    else:
        pen.line([wings[0], tip, wings[1]], colour, look.pen * 0.85)


def key(pen: Pen, frame: Frame, truth: Sequence[Threshold], look: Look) -> None:
    """Explain the marks that the page holds: within the plot, beside it or below it."""
    if not look.key:
        return
    left, top, width, height = frame.box
    rows = list({(one.ear, one.conduction, one.masked): known(one.ear, one.conduction, 1000, 0, masked=one.masked)
                 for one in truth}.values())  # fmt: skip
    s, high = look.size, 2.1 * max(look.size * 0.9, look.radius)
    x0, y0 = {
        "inside": (left + 12, top + height - high * (len(rows) + 0.4)),
        "beside": (left + width + 14 + (4.5 * s if "r" in look.sides else 0), top + 12),
        "below": (left, top + height + (4.4 if "b" in look.sides else 2) * s),
    }[look.key]
    if look.key == "inside":
        box = [(x0 - 6, y0 - 0.2 * high), (x0 + 13 * s, y0 - 0.2 * high)]
        low = y0 + high * len(rows)
        pen.shape([*box, (box[1][0], low), (box[0][0], low)], fill=look.paper, stroke=look.ink, width=0.6)
    rows = [one for one in rows if one.conduction != "field"]
    for number, one in enumerate(rows):
        row, column = divmod(number, 2) if look.key == "below" else (number, 0)
        at = x0 + column * width / 2 + look.radius, y0 + (row + 0.5) * high
        _mark(pen, at, one, look)
        name = f"{one.ear} {one.conduction}{', masked' if one.masked else ''}"
        pen.text((at[0] + 2.2 * look.radius, at[1]), name, s, look.ink, "l")
