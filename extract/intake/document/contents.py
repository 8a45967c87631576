"""What a PDF page draws: its letters, paths and pictures, in the page's own raw coordinates.

pdfplumber's coordinates are wrong where the page box does not begin at 0, 0 (jsvine/pdfplumber#1332). So its parser is
run with no page transform at all, and ``rendering.View`` alone knows where the page shows a point.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any

import numpy as np
import numpy.typing as npt
from pdfminer.pdfdevice import PDFTextDevice
from pdfminer.pdffont import PDFFont, PDFUnicodeNotDefined
from pdfminer.pdfinterp import PDFGraphicState, PDFPageInterpreter, PDFResourceManager
from pdfminer.pdfpage import PDFPage
from pdfminer.pdftypes import PDFStream
from pdfminer.utils import Matrix

from ...page import UNMAPPED

Colour = tuple[int, int, int]
Floats = npt.NDArray[np.float64]

LEAST_WIDTH = 0.1


@dataclass(frozen=True, slots=True)
class Letter:
    """One shown letter: ``matrix`` maps text space to raw space; size, advance and rise are in text space.

    ``ink`` is an empty tuple where only the rendered page can tell it.
    """

    text: str
    matrix: tuple[float, ...]
    size: float
    advance: float
    rise: float
    ink: Colour | tuple[()]


@dataclass(frozen=True, slots=True)
class Shape:
    """One painted sub-path.

    ``points`` is x, y, x, y, ... before ``matrix``, ``width`` is in raw units after it; ``on_curve`` has one flag a
    point, false for a control point; ``number`` counts the paths, of which this is a part. A colour is None where that
    part is not painted, and an empty tuple where only the rendered page can tell it.
    """

    points: list[float]
    on_curve: list[bool]
    number: int
    matrix: tuple[float, ...]
    stroke: Colour | tuple[()] | None
    fill: Colour | tuple[()] | None
    width: float
    dashed: bool


@dataclass(frozen=True, slots=True)
class Picture:
    """One shown picture: ``matrix`` maps the unit square to raw space; ``size`` is its width and height in samples."""

    matrix: tuple[float, ...]
    size: tuple[int, int]


@dataclass(frozen=True, slots=True)
class Contents:
    """All that one page draws, in drawing order within each list."""

    letters: list[Letter] = field(default_factory=list)
    shapes: list[Shape] = field(default_factory=list)
    pictures: list[Picture] = field(default_factory=list)


def read_contents(page: PDFPage, resources: PDFResourceManager) -> Contents:
    """Run the page's content stream once and collect what it shows.

    Parameters
    ----------
    page : PDFPage
        The page as the parser found it.
    resources : PDFResourceManager
        Keeps fonts between pages of one document.

    Returns
    -------
    Contents
        Optional layers that are off, and what is clipped or covered, are in it: only the rendered page knows those.

    Raises
    ------
    Exception
        Whatever the parser raises on a damaged stream, MemoryError and RecursionError among it.
    """
    collector = _Collector(resources)
    _Interpreter(resources, collector).render_contents(page.resources, page.contents)
    return collector.found


class _Interpreter(PDFPageInterpreter):
    """The parser, with two of its gaps closed: a form takes over the state around it, and lines are 1 wide at first.

    Both as ISO 32000-2 says, 8.10.1 and 8.4.1.
    """

    around: PDFGraphicState | None = None

    def subinterp(self) -> PDFPageInterpreter:
        inner = super().subinterp()
        if isinstance(inner, _Interpreter):
            inner.around = self.graphicstate.copy()
        return inner

    def init_state(self, ctm: Matrix) -> None:
        super().init_state(ctm)
        if self.around is not None:
            self.graphicstate = self.around
        else:
            self.graphicstate.linewidth = 1.0


class _Collector(PDFTextDevice):
    """The parser's output device; every method's signature is the parser's, whether it is needed here or not."""

    def __init__(self, resources: PDFResourceManager) -> None:
        super().__init__(resources)
        self.found = Contents()
        self._outer: list[Matrix | None] = []
        self._paths = 0

    def render_char(
        self,
        matrix: tuple[float, ...],
        font: PDFFont,
        fontsize: float,
        scaling: float,
        rise: float,
        cid: int,
        ncs: object,  # noqa: ARG002
        graphicstate: PDFGraphicState,
    ) -> float:
        try:
            text = font.to_unichr(cid)
        except PDFUnicodeNotDefined:
            text = UNMAPPED
        advance = font.char_width(cid) * fontsize * scaling
        ink = _colour(graphicstate.ncolor, graphicstate.ncs)
        self.found.letters.append(Letter(text, matrix, fontsize, advance, rise, ink))
        return advance

    def begin_figure(self, name: str, bbox: object, matrix: object) -> None:  # noqa: ARG002
        self._outer.append(self.ctm)

    def end_figure(self, name: str) -> None:  # noqa: ARG002
        # The parser leaves the figure's own transform in force until the next Q.
        self.ctm = self._outer.pop()

    def render_image(self, name: str, stream: PDFStream) -> None:  # noqa: ARG002
        size = (stream.get_any(("W", "Width")), stream.get_any(("H", "Height")))
        if self.ctm is not None and all(isinstance(side, int) and side > 0 for side in size):
            self.found.pictures.append(Picture(self.ctm, size))

    def paint_path(
        self,
        graphicstate: PDFGraphicState,
        stroke: bool,
        fill: bool,
        evenodd: bool,  # noqa: ARG002
        path: Sequence[tuple[Any, ...]],
    ) -> None:
        state = graphicstate
        matrix = self.ctm or (1, 0, 0, 1, 0, 0)
        line = _colour(state.scolor, state.scs) if stroke else None
        area = _colour(state.ncolor, state.ncs) if fill else None
        dashed = bool(state.dash and state.dash[0])
        self._paths += 1
        number = self._paths
        points: list[float] = []
        on_curve: list[bool] = []

        def close() -> None:
            if len(on_curve) > 1:
                shape = Shape(points, on_curve, number, matrix, line, area, float(state.linewidth or 0), dashed)
                self.found.shapes.append(shape)

        for step in path:
            if step[0] == "m":
                close()
                points, on_curve = [], []
            if step[0] == "h":
                if points and points[-2:] != points[:2]:
                    points += points[:2]
                    on_curve.append(True)
                continue
            points += step[1:]
            on_curve += [False] * (len(step) // 2 - 1) + [True]
        close()


def _colour(value: Any, space: Any) -> Colour | tuple[()]:
    """Turn a colour of one of the device spaces (or a profile with as many inks) into RGB."""
    try:
        parts = [float(part) for part in (value if isinstance(value, (tuple, list)) else (value,))]
    except (TypeError, ValueError):
        return ()  # a pattern
    if getattr(space, "name", "") in ("Separation", "DeviceN", "Indexed", "Pattern", "Lab"):
        return ()
    if len(parts) == 4:
        parts = [(1 - part) * (1 - parts[3]) for part in parts[:3]]
    if len(parts) == 1:
        parts *= 3
    if len(parts) != 3:
        return ()
    red, green, blue = (round(255 * min(1.0, max(0.0, part))) for part in parts)
    return red, green, blue
