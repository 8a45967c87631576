"""Drawing tools of clinics' programs behind one small face: pictures with hard or soft edges, and four ways to a PDF.

Places are points (1/72 inch) from the page's top left corner. Of the packages only Pillow is at hand everywhere; fpdf2,
pymupdf, skia-python and PySide6-Essentials are imported by name, where ``measure.py`` is to use them.
"""

from __future__ import annotations

import importlib
import os
from abc import ABC, abstractmethod
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import cycle, pairwise
from pathlib import Path
from typing import Any

from matplotlib import get_data_path
from PIL import Image, ImageDraw, ImageFont

from octavo.interpret.record import Point

Colour = tuple[int, int, int]
Dash = tuple[float, float] | None
BLACK: Colour = (0, 0, 0)
CAPITALS = 0.35
"""Half the height of capitals, in sizes of the type."""
_FONTS = Path(get_data_path()) / "fonts" / "ttf"
FACES = {
    face: (_FONTS / f"{face}.ttf", _FONTS / f"{face}-Bold.ttf")
    for face in ("DejaVuSans", "DejaVuSansMono", "DejaVuSerif")
}
_LIBERATION = Path("/usr/share/fonts/truetype/liberation")  # Debian's fonts-liberation, where it is installed
FACES |= {
    name: (_LIBERATION / f"{name}-Regular.ttf", _LIBERATION / f"{name}-Bold.ttf")
    for name in ("LiberationSans", "LiberationSerif", "LiberationSansNarrow", "LiberationMono")
    if (_LIBERATION / f"{name}-Bold.ttf").exists()
}


def width_of(face: str, text: str, size: float, *, bold: bool = False) -> float:
    """Measure a text in points."""
    return ImageFont.truetype(str(FACES[face][bold]), 100).getlength(text) * size / 100


@dataclass(frozen=True, slots=True)
class Stroke:
    """A line through points: ``dash`` is the length of a dash and of a gap, in points."""

    points: Sequence[Point]
    colour: Colour | None = BLACK
    width: float = 1.0
    dash: Dash = None
    fill: Colour | None = None
    close: bool = False


class Tool(ABC):
    """What a page's drawing needs; a subclass draws lines, ovals and strings by its own means."""

    def __init__(self, size: Point, face: str, dpi: int = 150) -> None:
        self.width, self.height = size
        self.face, self.dpi = face, dpi
        self.begin()

    @abstractmethod
    def begin(self) -> None:
        """Open the page."""

    @abstractmethod
    def stroke(self, stroke: Stroke) -> None:
        """Draw a line."""

    @abstractmethod
    def oval(self, at: Point, radii: Point, colour: Colour | None, width: float, fill: Colour | None = None) -> None:
        """Draw an ellipse about a place."""

    @abstractmethod
    def string(self, at: Point, text: str, size: float, colour: Colour, *, bold: bool, upward: bool) -> None:
        """Set a text whose base line begins at a place."""

    @abstractmethod
    def save(self, stem: Path) -> Path:
        """Store the page; give the file."""

    def text(
        self, at: Point, text: str, size: float, colour: Colour = BLACK, anchor: str = "left",
        *, bold: bool = False, upward: bool = False,
    ) -> None:  # fmt: skip
        """Set a text with the middle of its capitals at a height, from, about or up to a place."""
        long = width_of(self.face, text, size, bold=bold) * {"left": 0.0, "centre": 0.5, "right": 1.0}[anchor]
        x, y = at
        place = (x + CAPITALS * size, y + long) if upward else (x - long, y + CAPITALS * size)
        self.string(place, text, size, colour, bold=bold, upward=upward)

    def box(
        self, corner: Point, other: Point, colour: Colour | None, width: float = 1.0, fill: Colour | None = None
    ) -> None:
        """Draw an upright box."""
        (x0, y0), (x1, y1) = corner, other
        self.stroke(Stroke([(x0, y0), (x1, y0), (x1, y1), (x0, y1)], colour, width, fill=fill, close=True))

    def line(self, start: Point, end: Point, colour: Colour = BLACK, width: float = 1.0, dash: Dash = None) -> None:
        """Draw a straight line."""
        self.stroke(Stroke([start, end], colour, width, dash))


def _dashes(points: Sequence[Point], dash: tuple[float, float]) -> Iterable[tuple[Point, Point]]:
    lengths = cycle(dash)
    left, on = next(lengths), True
    for (x0, y0), (x1, y1) in pairwise(points):
        long = ((x1 - x0) ** 2 + (y1 - y0) ** 2) ** 0.5
        gone = 0.0
        while long - gone > 1e-9:
            step = min(left, long - gone)
            a, b = gone / long, (gone + step) / long
            if on:
                yield (x0 + (x1 - x0) * a, y0 + (y1 - y0) * a), (x0 + (x1 - x0) * b, y0 + (y1 - y0) * b)
            gone, left = gone + step, left - step
            if left <= 1e-9:
                left, on = next(lengths), not on


class HardEdges(Tool):
    """Pillow's lines without soft edges, as programs draw that know of pixels alone."""

    def begin(self) -> None:
        self.scale = self.dpi / 72
        self.picture = Image.new("RGB", (round(self.width * self.scale), round(self.height * self.scale)), "white")
        self.draw = ImageDraw.Draw(self.picture)
        self.draw.fontmode = "1" if self.dpi < 130 else "L"

    def _px(self, points: Iterable[Point]) -> list[tuple[int, int]]:
        return [(round(x * self.scale), round(y * self.scale)) for x, y in points]

    def stroke(self, stroke: Stroke) -> None:
        if stroke.fill is not None:
            self.draw.polygon(self._px(stroke.points), fill=stroke.fill)
        if stroke.colour is None:
            return
        points = [*stroke.points, stroke.points[0]] if stroke.close else stroke.points
        for piece in _dashes(points, stroke.dash) if stroke.dash else [points]:
            self.draw.line(self._px(piece), fill=stroke.colour, width=max(1, round(stroke.width * self.scale)))

    def oval(self, at: Point, radii: Point, colour: Colour | None, width: float, fill: Colour | None = None) -> None:
        thick = max(1, round(width * self.scale))
        (x, y), (rx, ry) = at, radii
        corners = self._px([(x - rx, y - ry), (x + rx, y + ry)])
        (left, top), (right, bottom) = corners
        half = thick // 2
        self.draw.ellipse(
            [left - half, top - half, right + half, bottom + half], outline=colour, width=thick, fill=fill
        )

    def string(self, at: Point, text: str, size: float, colour: Colour, *, bold: bool, upward: bool) -> None:
        font = ImageFont.truetype(str(FACES[self.face][bold]), max(5, round(size * self.scale)))
        (x, y), high = self._px([at])[0], round(1.5 * size * self.scale)
        if not upward:
            self.draw.text((x, y), text, fill=colour, font=font, anchor="ls")
            return
        strip = Image.new("L", (round(font.getlength(text)) + 4, high), 0)
        ImageDraw.Draw(strip).text((0, 0.75 * high), text, fill=255, font=font, anchor="ls")
        turned = strip.rotate(90, expand=True)
        self.picture.paste(Image.new("RGB", turned.size, colour), (x - round(0.75 * high), y - strip.width), turned)

    def save(self, stem: Path) -> Path:
        path = stem.with_suffix(".png")
        self.picture.save(path, dpi=(self.dpi, self.dpi))
        return path


class Fpdf(Tool):
    """A PDF by fpdf2."""

    def begin(self) -> None:
        self.pdf: Any = importlib.import_module("fpdf").FPDF(unit="pt", format=(self.width, self.height))
        self.pdf.set_auto_page_break(False)
        self.pdf.add_page()
        for bold, path in enumerate(FACES[self.face]):
            self.pdf.add_font(f"F{bold}", fname=str(path))

    def _style(self, colour: Colour | None, width: float, fill: Colour | None) -> str:
        if colour is not None:
            self.pdf.set_draw_color(*colour)
            self.pdf.set_line_width(width)
        if fill is not None:
            self.pdf.set_fill_color(*fill)
        return "D" * (colour is not None) + "F" * (fill is not None)

    def stroke(self, stroke: Stroke) -> None:
        style = self._style(stroke.colour, stroke.width, stroke.fill)
        self.pdf.set_dash_pattern(*(stroke.dash or ()))
        if len(stroke.points) == 2:
            self.pdf.line(*stroke.points[0], *stroke.points[1])
        else:
            (self.pdf.polygon if stroke.close else self.pdf.polyline)(stroke.points, style=style)

    def oval(self, at: Point, radii: Point, colour: Colour | None, width: float, fill: Colour | None = None) -> None:
        self.pdf.set_dash_pattern()
        (x, y), (rx, ry) = at, radii
        self.pdf.ellipse(x - rx, y - ry, 2 * rx, 2 * ry, style=self._style(colour, width, fill))

    def string(self, at: Point, text: str, size: float, colour: Colour, *, bold: bool, upward: bool) -> None:
        self.pdf.set_font(f"F{int(bold)}", size=size)
        self.pdf.set_text_color(*colour)
        with self.pdf.rotation(90 if upward else 0, *at):
            self.pdf.text(*at, text)

    def save(self, stem: Path) -> Path:
        path = stem.with_suffix(".pdf")
        self.pdf.output(str(path))
        return path


class SkiaPdf(Tool):
    """A PDF by Skia, the library that browsers draw with: it draws every dash as a small area."""

    def begin(self) -> None:
        self.skia: Any = importlib.import_module("skia")
        self.stream = self.skia.DynamicMemoryWStream()
        self.document = self.skia.PDF.MakeDocument(self.stream)
        self.canvas = self.document.beginPage(self.width, self.height)
        self.type = [self.skia.Typeface.MakeFromFile(str(path)) for path in FACES[self.face]]

    def _paint(self, colour: Colour, width: float | None = None, dash: Dash = None) -> object:
        paint: Any = self.skia.Paint(AntiAlias=True, Color=self.skia.Color(*colour))
        if width is not None:
            paint.setStyle(self.skia.Paint.kStroke_Style)
            paint.setStrokeWidth(width)
        if dash:
            paint.setPathEffect(self.skia.DashPathEffect.Make(list(dash), 0))
        return paint

    def stroke(self, stroke: Stroke) -> None:
        path = self.skia.Path()
        path.moveTo(*stroke.points[0])
        for point in stroke.points[1:]:
            path.lineTo(*point)
        if stroke.close:
            path.close()
        if stroke.fill is not None:
            self.canvas.drawPath(path, self._paint(stroke.fill))
        if stroke.colour is not None:
            self.canvas.drawPath(path, self._paint(stroke.colour, stroke.width, stroke.dash))

    def oval(self, at: Point, radii: Point, colour: Colour | None, width: float, fill: Colour | None = None) -> None:
        (x, y), (rx, ry) = at, radii
        box = self.skia.Rect.MakeLTRB(x - rx, y - ry, x + rx, y + ry)
        if fill is not None:
            self.canvas.drawOval(box, self._paint(fill))
        if colour is not None:
            self.canvas.drawOval(box, self._paint(colour, width))

    def string(self, at: Point, text: str, size: float, colour: Colour, *, bold: bool, upward: bool) -> None:
        self.canvas.save()
        self.canvas.translate(*at)
        self.canvas.rotate(-90 if upward else 0)
        self.canvas.drawString(text, 0, 0, self.skia.Font(self.type[bold], size), self._paint(colour))
        self.canvas.restore()

    def save(self, stem: Path) -> Path:
        self.document.endPage()
        self.document.close()
        path = stem.with_suffix(".pdf")
        path.write_bytes(bytes(self.stream.detachAsData()))
        return path


class Qt(Tool):
    """A picture with soft edges by Qt's painter, as many programs for the desktop draw."""

    def begin(self) -> None:
        os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
        self.gui, self.core = (importlib.import_module(f"PySide6.{part}") for part in ("QtGui", "QtCore"))
        self.application = self.gui.QGuiApplication.instance() or self.gui.QGuiApplication([])
        self.scale = self.dpi / 72
        size = round(self.width * self.scale), round(self.height * self.scale)
        self.picture = self.gui.QImage(*size, self.gui.QImage.Format.Format_RGB32)
        self.picture.fill(self.gui.QColor("white"))
        self.painter = self.gui.QPainter(self.picture)
        self.painter.setRenderHint(self.gui.QPainter.RenderHint.Antialiasing)
        fonts = self.gui.QFontDatabase
        self.families = [fonts.applicationFontFamilies(fonts.addApplicationFont(str(p)))[0] for p in FACES[self.face]]

    def _set(self, colour: Colour | None, width: float, dash: Dash, fill: Colour | None) -> None:
        thick = max(width * self.scale, 1.0)
        pen = self.gui.QPen(self.gui.QColor(*(colour or BLACK)), thick)
        if dash:
            pen.setDashPattern([max(0.5, part * self.scale / thick) for part in dash])
        self.painter.setPen(self.core.Qt.PenStyle.NoPen if colour is None else pen)
        self.painter.setBrush(self.core.Qt.BrushStyle.NoBrush if fill is None else self.gui.QColor(*fill))

    def stroke(self, stroke: Stroke) -> None:
        self._set(stroke.colour, stroke.width, stroke.dash, stroke.fill)
        polygon = self.gui.QPolygonF([self.core.QPointF(x * self.scale, y * self.scale) for x, y in stroke.points])
        (self.painter.drawPolygon if stroke.close else self.painter.drawPolyline)(polygon)

    def oval(self, at: Point, radii: Point, colour: Colour | None, width: float, fill: Colour | None = None) -> None:
        self._set(colour, width, None, fill)
        centre = self.core.QPointF(at[0] * self.scale, at[1] * self.scale)
        self.painter.drawEllipse(centre, radii[0] * self.scale, radii[1] * self.scale)

    def string(self, at: Point, text: str, size: float, colour: Colour, *, bold: bool, upward: bool) -> None:
        font = self.gui.QFont(self.families[bold])
        font.setPixelSize(max(4, round(size * self.scale)))
        font.setBold(bold)
        self.painter.save()
        self.painter.setFont(font)
        self.painter.setPen(self.gui.QColor(*colour))
        self.painter.translate(at[0] * self.scale, at[1] * self.scale)
        self.painter.rotate(-90 if upward else 0)
        self.painter.drawText(0, 0, text)
        self.painter.restore()

    def save(self, stem: Path) -> Path:
        self.painter.end()
        path = stem.with_suffix(".png")
        self.picture.save(str(path))
        return path


TOOLS: dict[str, type[Tool]] = {"hard-edges": HardEdges, "fpdf": Fpdf, "skia": SkiaPdf, "qt": Qt}
