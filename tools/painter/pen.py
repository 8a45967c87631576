"""A pen for one page: draws in points with y down, and remembers where every word stands."""

from __future__ import annotations

import io
import math
from collections.abc import Sequence
from typing import Literal

from reportlab import rl_config
from reportlab.pdfgen.canvas import Canvas

from . import fonts
from .truth import PaintedWord

Colour = tuple[float, float, float]
"""Red, green and blue, 0 to 1."""
XY = tuple[float, float]
Role = Literal["frequency-label", "level-label", "other"]

# streams as bytes, not as base-85 text: a third of the time of a page would go into that
rl_config.useA85 = 0

BLACK: Colour = (0.0, 0.0, 0.0)
WHITE: Colour = (1.0, 1.0, 1.0)


class Pen:
    """Draws on one PDF page of ``width`` x ``height`` points, origin at the top left, y down.

    A ``mono`` pen turns every colour into the grey of its lightness.
    """

    def __init__(self, width: float, height: float, *, mono: bool = False) -> None:
        self.width, self.height = width, height
        self.mono = mono
        self.words: list[PaintedWord] = []
        self._bytes = io.BytesIO()
        # invariant: the same page gives the same bytes at any time of day
        self._canvas = Canvas(self._bytes, pagesize=(width, height), invariant=1, pageCompression=1)

    def finish(self) -> bytes:
        """Close the page and give its PDF; the pen draws no more."""
        self._canvas.showPage()
        self._canvas.save()
        return self._bytes.getvalue()

    def _ink(self, colour: Colour | None, width: float, dash: Sequence[float], fill: Colour | None) -> None:
        if colour is not None:
            self._canvas.setStrokeColorRGB(*self._shade(colour))
            self._canvas.setLineWidth(width)
            self._canvas.setDash(list(dash))
        if fill is not None:
            self._canvas.setFillColorRGB(*self._shade(fill))

    def _shade(self, colour: Colour) -> Colour:
        if not self.mono:
            return colour
        # weights of ITU-R BT.601, as grey copies use
        lightness = 0.299 * colour[0] + 0.587 * colour[1] + 0.114 * colour[2]
        return lightness, lightness, lightness

    def corners(self, *, round_ends: bool, round_joins: bool) -> None:
        """Choose how strokes end and turn."""
        self._canvas.setLineCap(1 if round_ends else 0)
        self._canvas.setLineJoin(1 if round_joins else 0)

    def line(self, a: XY, b: XY, colour: Colour, width: float, dash: Sequence[float] = ()) -> None:
        """Draw a straight line."""
        self._ink(colour, width, dash, None)
        self._canvas.line(a[0], self.height - a[1], b[0], self.height - b[1])

    def path(
        self,
        points: Sequence[XY],
        colour: Colour | None,
        width: float = 1.0,
        dash: Sequence[float] = (),
        *,
        closed: bool = False,
        fill: Colour | None = None,
    ) -> None:
        """Draw a poly-line, or a polygon where closed."""
        self.paths([points], colour, width, dash, closed=closed, fill=fill)

    def paths(
        self,
        parts: Sequence[Sequence[XY]],
        colour: Colour | None,
        width: float = 1.0,
        dash: Sequence[float] = (),
        *,
        closed: bool = False,
        fill: Colour | None = None,
    ) -> None:
        """Draw several poly-lines as one path; filled by the even-odd rule, so a ring is two outlines."""
        self._ink(colour, width, dash, fill)
        path = self._canvas.beginPath()
        for points in parts:
            path.moveTo(points[0][0], self.height - points[0][1])
            for x, y in points[1:]:
                path.lineTo(x, self.height - y)
            if closed:
                path.close()
        self._canvas.drawPath(path, stroke=colour is not None, fill=fill is not None, fillMode=0)

    def runs(self, parts: Sequence[tuple[Sequence[XY], Colour, float, Sequence[float]]]) -> None:
        """Draw many poly-lines with round ends, each with its colour, width and dashes: a written line in pieces.

        The operators are written out here: the canvas takes ten times as long for a number.
        """
        out = ["q 1 J 1 j"]
        for points, colour, width, dash in parts:
            red, green, blue = self._shade(colour)
            dashes = " ".join(f"{length:.2f}" for length in dash)
            places = [f"{x:.2f} {self.height - y:.2f}" for x, y in points]
            line = " l ".join(places[1:])
            out.append(f"{red:.3f} {green:.3f} {blue:.3f} RG {width:.2f} w [{dashes}] 0 d {places[0]} m {line} l S")
        self._canvas.addLiteral("\n".join([*out, "Q"]), escaped=1)

    def ellipse(self, at: XY, rx: float, ry: float, colour: Colour | None, width: float, fill: Colour | None) -> None:
        """Draw an ellipse of four curves."""
        self._ink(colour, width, (), fill)
        x, y = at[0], self.height - at[1]
        self._canvas.ellipse(x - rx, y - ry, x + rx, y + ry, stroke=colour is not None, fill=fill is not None)

    def rect(
        self,
        box: tuple[float, float, float, float],
        colour: Colour | None,
        width: float = 1.0,
        dash: Sequence[float] = (),
        fill: Colour | None = None,
    ) -> None:
        """Draw a rectangle given as left, top, right, bottom."""
        self._ink(colour, width, dash, fill)
        left, top, right, bottom = box
        self._canvas.rect(
            left, self.height - bottom, right - left, bottom - top, stroke=colour is not None, fill=fill is not None
        )

    def text(
        self,
        at: XY,
        text: str,
        face: str,
        size: float,
        colour: Colour = BLACK,
        *,
        anchor: float = 0.0,
        turn: int = 0,
        role: Role = "other",
        chart: int | None = None,
        whole: bool = False,
    ) -> float:
        """Write one line and remember its words.

        Parameters
        ----------
        at : tuple
            The point on the base line at the share ``anchor`` of the width (0 start, 0.5 middle, 1 end).
        turn : int
            How the line runs, in degrees counter-clockwise: 0, 90 (bottom to top) or 270.
        whole : bool
            Remember the line as one word even where it holds spaces ("1 000").

        Returns
        -------
        float
            The width of the line in points.
        """
        width = fonts.width(face, text, size)
        angle = math.radians(turn)
        start = (at[0] - anchor * width * math.cos(angle), at[1] + anchor * width * math.sin(angle))
        canvas = self._canvas
        canvas.setFillColorRGB(*self._shade(colour))
        canvas.setFont(face, size)
        if turn == 0:
            canvas.drawString(start[0], self.height - start[1], text)
        else:
            canvas.saveState()
            canvas.translate(start[0], self.height - start[1])
            canvas.rotate(turn)
            canvas.drawString(0, 0, text)
            canvas.restoreState()
        offset = 0.0
        for word in [text] if whole else text.split(" "):
            if word.strip():
                self._remember(word, start, offset, face, size, turn, role, chart)
            offset += fonts.width(face, word + " ", size)
        return width

    def _remember(
        self, word: str, start: XY, offset: float, face: str, size: float, turn: int, role: Role, chart: int | None
    ) -> None:
        left, bottom, right, top = fonts.ink_box(face, word, size)
        corners = ((offset + left, bottom), (offset + right, top))
        if turn == 0:
            xs = [start[0] + u for u, _ in corners]
            ys = [start[1] - v for _, v in corners]
        elif turn == 90:
            xs = [start[0] - v for _, v in corners]
            ys = [start[1] - u for u, _ in corners]
        else:
            xs = [start[0] + v for _, v in corners]
            ys = [start[1] + u for u, _ in corners]
        box = (
            min(xs) / self.width,
            min(ys) / self.height,
            max(xs) / self.width,
            max(ys) / self.height,
        )
        self.words.append(PaintedWord(word, box, {0: 0, 90: 90, 270: 270}[turn], role, chart))

    def glyph_text(
        self, at: XY, char: str, face: str, size: float, colour: Colour, *, stretch: float = 1.0, bold: float = 0.0
    ) -> None:
        """Write one character that serves as a mark (it is no word), ``stretch`` times as wide as it is.

        ``bold`` is the width in points of a round stroke along its outline, before stretching.
        """
        canvas = self._canvas
        canvas.setFillColorRGB(*self._shade(colour))
        canvas.setFont(face, size)
        if stretch == 1.0 and bold == 0.0:
            canvas.drawString(at[0], self.height - at[1], char)
            return
        canvas.saveState()
        canvas.translate(at[0], self.height - at[1])
        canvas.scale(stretch, 1.0)
        self._ink(colour, bold, (), None)
        canvas.setLineJoin(1)
        text = canvas.beginText(0, 0)
        text.setFont(face, size)
        text.setTextRenderMode(2 if bold else 0)
        text.textOut(char)
        canvas.drawText(text)
        canvas.restoreState()

    def turns(self, cap: int, join: int) -> None:
        """Choose the PDF's own numbers: how strokes end (0 butt, 1 round, 2 square) and turn (0 mitre, 1 round)."""
        self._canvas.setLineCap(cap)
        self._canvas.setLineJoin(join)

    def opacity(self, share: float) -> None:
        """Let the paper shine through all that follows, until it is set to 1 again."""
        self._canvas.setFillAlpha(share)
        self._canvas.setStrokeAlpha(share)
