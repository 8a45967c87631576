"""Two canvases for `drawn_by_strangers`: Pillow, supersampled, and cairo, which CI has not.

Both take points (1/72 inch) from the page's top left corner, y downwards, and know five things to do.
"""

from __future__ import annotations

import importlib
from collections.abc import Sequence
from itertools import pairwise
from math import cos, dist, radians, sin
from pathlib import Path
from typing import Any, Protocol

from matplotlib import get_data_path
from PIL import Image, ImageColor, ImageDraw, ImageFont

from octavo.interpret.record import Point

FACES = {
    "DejaVu Sans": "DejaVuSans", "DejaVu Serif": "DejaVuSerif", "DejaVu Sans Mono": "DejaVuSansMono",
    "STIX": "STIXGeneral",
}  # fmt: skip
OVERSAMPLED = 4
SHIFTS = {"l": 0.0, "m": 0.5, "r": 1.0}


class Pen(Protocol):
    """What a drawing needs; ``fill`` and ``stroke`` are colours, empty for none."""

    def line(self, points: Sequence[Point], stroke: str, width: float, dash: Sequence[float] = ()) -> None:
        """Draw a line through points."""
        ...

    def shape(self, points: Sequence[Point], *, fill: str = "", stroke: str = "", width: float = 1) -> None:
        """Draw a closed shape."""
        ...

    def circle(self, at: Point, radius: float, *, fill: str = "", stroke: str = "", width: float = 1) -> None:
        """Draw a circle."""
        ...

    def text(self, at: Point, text: str, size: float, ink: str, anchor: str = "m", turned: float = 0) -> None:
        """Write a line of text, its middle height at ``at``, turned anticlockwise in degrees."""
        ...

    def save(self, path: Path) -> None:
        """Write the file."""
        ...


def _rgb(colour: str) -> tuple[int, int, int]:
    return ImageColor.getrgb(colour)[:3]


def pieces(points: Sequence[Point], dash: Sequence[float]) -> list[list[Point]]:
    """Cut a line into its dashes."""
    if not dash:
        return [list(points)]
    out: list[list[Point]] = []
    number, left, on = 0, dash[0], True
    current = [points[0]]
    for start, end in pairwise(points):
        length, done = dist(start, end), 0.0
        while length - done > left:
            done += left
            at = (start[0] + (end[0] - start[0]) * done / length, start[1] + (end[1] - start[1]) * done / length)
            if on:
                out.append([*current, at])
            number, on, current = number + 1, not on, [at]
            left = dash[number % len(dash)]
        left -= length - done
        current.append(end)
    return [*out, current] if on and len(current) > 1 else out


class PillowPen:
    """A picture, drawn at four times its resolution and reduced; with ``smooth`` off straight at it, without greys."""

    def __init__(self, page: Point, dpi: float, *, paper: str, face: str, smooth: bool = True) -> None:
        self._over = OVERSAMPLED if smooth else 1
        self._scale = dpi / 72 * self._over
        self._dpi, self._smooth = dpi, smooth
        self._size = round(page[0] * dpi / 72), round(page[1] * dpi / 72)
        self._image = Image.new("RGB", (self._size[0] * self._over, self._size[1] * self._over), paper)
        self._draw = ImageDraw.Draw(self._image)
        self._draw.fontmode = "L" if smooth else "1"
        self._font = str(Path(get_data_path()) / "fonts" / "ttf" / f"{FACES.get(face, 'DejaVuSans')}.ttf")

    def _at(self, points: Sequence[Point]) -> list[Point]:
        return [(x * self._scale, y * self._scale) for x, y in points]

    def line(self, points: Sequence[Point], stroke: str, width: float, dash: Sequence[float] = ()) -> None:
        pixels = max(1, round(width * self._scale))
        for piece in pieces(points, dash):
            self._draw.line(self._at(piece), fill=_rgb(stroke), width=pixels, joint="curve")

    def shape(self, points: Sequence[Point], *, fill: str = "", stroke: str = "", width: float = 1) -> None:
        if fill:
            self._draw.polygon(self._at(points), fill=_rgb(fill))
        if stroke:
            self.line([*points, *points[:2]], stroke, width)

    def circle(self, at: Point, radius: float, *, fill: str = "", stroke: str = "", width: float = 1) -> None:
        ring = radius + (width / 2 if stroke else 0)
        corners = self._at([(at[0] - ring, at[1] - ring), (at[0] + ring, at[1] + ring)])
        pixels = max(1, round(width * self._scale))
        self._draw.ellipse(
            corners, fill=_rgb(fill) if fill else None, outline=_rgb(stroke) if stroke else None, width=pixels
        )

    def text(self, at: Point, text: str, size: float, ink: str, anchor: str = "m", turned: float = 0) -> None:
        font = ImageFont.truetype(self._font, max(5, size * self._scale))
        ((x, y),) = self._at([at])
        if not turned:
            self._draw.text((x, y), text, fill=_rgb(ink), font=font, anchor=f"{anchor}m")
            return
        left, top, right, bottom = font.getbbox(text)
        mask = Image.new("L", (round(right - left) + 4, round(bottom - top) + 4))
        ImageDraw.Draw(mask).text((2 - left, 2 - top), text, fill=255, font=font)
        mask = mask.rotate(turned, expand=True, resample=Image.Resampling.BICUBIC)
        self._image.paste(_rgb(ink), (round(x - mask.width / 2), round(y - mask.height / 2)), mask)

    def picture(self) -> Image.Image:
        """Give what was drawn, at the page's resolution."""
        return self._image.resize(self._size, Image.Resampling.BOX) if self._over > 1 else self._image

    def save(self, path: Path) -> None:
        shown = self.picture()
        told: dict[str, Any] = {"quality": 80} if path.suffix == ".jpg" else {}
        shown.save(path, dpi=(self._dpi, self._dpi), **told)


class CairoPen:
    """A PDF, or a picture where ``dpi`` is given, by cairo (PyPI's cairocffi or pycairo)."""

    def __init__(self, page: Point, path: Path, *, paper: str, face: str, dpi: float = 0) -> None:
        cairo: Any = importlib.import_module("cairocffi")  # by name: where it is not installed, tests still run
        scale = dpi / 72 if dpi else 1
        size = page[0] * scale, page[1] * scale
        self._surface = (
            cairo.ImageSurface(cairo.FORMAT_RGB24, round(size[0]), round(size[1]))
            if dpi
            else cairo.PDFSurface(str(path), *size)
        )
        self._context = cairo.Context(self._surface)
        self._context.scale(scale, scale)
        self._context.select_font_face(face)
        self._picture = bool(dpi)
        self.shape([(0, 0), (page[0], 0), page, (0, page[1])], fill=paper)

    def _ink(self, colour: str) -> None:
        self._context.set_source_rgb(*(part / 255 for part in _rgb(colour)))

    def _paint(self, fill: str, stroke: str, width: float, dash: Sequence[float] = ()) -> None:
        if fill:
            self._ink(fill)
            self._context.fill_preserve()
        if stroke:
            self._ink(stroke)
            self._context.set_line_width(width)
            self._context.set_dash(list(dash))
            self._context.stroke_preserve()
        self._context.new_path()

    def line(self, points: Sequence[Point], stroke: str, width: float, dash: Sequence[float] = ()) -> None:
        for x, y in points:
            self._context.line_to(x, y)
        self._paint("", stroke, width, dash)

    def shape(self, points: Sequence[Point], *, fill: str = "", stroke: str = "", width: float = 1) -> None:
        for x, y in points:
            self._context.line_to(x, y)
        self._context.close_path()
        self._paint(fill, stroke, width)

    def circle(self, at: Point, radius: float, *, fill: str = "", stroke: str = "", width: float = 1) -> None:
        self._context.arc(*at, radius, 0, radians(360))
        self._paint(fill, stroke, width)

    def text(self, at: Point, text: str, size: float, ink: str, anchor: str = "m", turned: float = 0) -> None:
        self._context.set_font_size(size)
        left, _, width, _, _, _ = self._context.text_extents(text)
        aside, down = -left - SHIFTS["m" if turned else anchor] * width, 0.36 * size
        turn = radians(-turned)
        self._context.move_to(
            at[0] + aside * cos(turn) - down * sin(turn), at[1] + aside * sin(turn) + down * cos(turn)
        )
        self._ink(ink)
        self._context.save()
        self._context.rotate(turn)
        self._context.show_text(text)
        self._context.restore()
        self._context.new_path()

    def save(self, path: Path) -> None:
        if self._picture:
            self._surface.write_to_png(str(path))
        self._surface.finish()
