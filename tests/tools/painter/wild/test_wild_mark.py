"""Freely drawn marks against the pixels of the PDF renderer."""

from __future__ import annotations

import numpy as np
import pytest

from octavo.interpret.symbols import GLYPHS, Glyph
from octavo.tools.painter.pen import Pen
from octavo.tools.painter.render import render
from octavo.tools.painter.wild.mark import draw_mark
from octavo.tools.painter.wild.style import any_style

DPI = 288
SCALE = DPI / 72


@pytest.mark.parametrize("letters", [0.0, 1.0], ids=["strokes", "characters"])
@pytest.mark.parametrize("glyph", GLYPHS)
def test_the_box_of_a_freely_drawn_mark_is_that_of_its_ink(glyph: Glyph, letters: float) -> None:
    rng = np.random.default_rng(31)
    pen, boxes = Pen(560, 560), []
    for k in range(49):
        height = float(rng.uniform(6, 26))
        stroke = float(rng.uniform(0.06, 0.33))
        style = any_style(rng, glyph, height, stroke, letters=letters)
        at = (40 + 80 * (k % 7), 40 + 80 * (k // 7))
        boxes.append((at, draw_mark(pen, glyph, at, style, (0.0, 0.0, 0.0), bare=True)))
    pixels = render(pen.finish(), DPI).min(axis=2)
    for at, box in boxes:
        corner = (np.array(at) - 39.5) * SCALE
        x0, y0 = corner.astype(int)
        part = pixels[y0 : y0 + int(79 * SCALE), x0 : x0 + int(79 * SCALE)]
        rows, columns = np.nonzero(part < part.min() + (255 - part.min()) * 0.6)
        ink = np.array([columns.min() + x0, rows.min() + y0, columns.max() + 1 + x0, rows.max() + 1 + y0])
        # 0.65 pt of up to 26: renderers blunt the sharpest mitres, and some fonts' boxes hold control points
        assert np.abs(ink / SCALE - np.array(box)).max() <= 0.65
