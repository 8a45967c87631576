"""Training pages of freely drawn charts: as plotting programs save them, crowded, tiny, overlaid, full of notes."""

from __future__ import annotations

import numpy as np

from ..chart.chance import pick
from ..forms.around import any_date, draw_head
from ..forms.form import A4
from ..pen import Pen
from ..sheet import Sheet
from .chart import draw_wild_chart
from .notes import any_paper_colour
from .series import Dials

_TITLES = ("Audiogram", "Pure tone thresholds", "Case 4", "Both ears", "Figure 2", None, None, None)


def _figure(rng: np.random.Generator, mono: bool, dials: Dials) -> Sheet:
    wide = float(rng.uniform(300, 1150))
    high = wide * float(rng.uniform(0.55, 1.2))
    sheet = Sheet(Pen(wide, high, mono=mono))
    if rng.random() < 0.2:
        sheet.pen.rect((0, 0, wide, high), None, fill=any_paper_colour(rng))
    edge = min(wide, high) * float(rng.uniform(0.01, 0.08))
    draw_wild_chart(sheet, rng, (edge, edge, wide - edge, high - edge), dials, title=pick(rng, _TITLES))
    return sheet


def figure(rng: np.random.Generator, mono: bool) -> Sheet:
    """Draw one chart that fills its page, as a plotting program saves it."""
    return _figure(rng, mono, Dials(series=(2, 5), letters=0.4, legend=0.5))


def crowded(rng: np.random.Generator, mono: bool) -> Sheet:
    """Draw many kinds of marks on the same points of one chart, on heavy lines."""
    return _figure(rng, mono, Dials(series=(4, 9), together=0.85, heavy=0.45, notes=0.1, legend=0.1))


def lettered(rng: np.random.Generator, mono: bool) -> Sheet:
    """Draw one chart whose marks are characters of fonts."""
    return _figure(rng, mono, Dials(series=(3, 8), letters=1.0, together=0.35))


def saved(rng: np.random.Generator, mono: bool) -> Sheet:
    """Draw one chart that fills its page, with the marks that most forms have."""
    return _figure(rng, mono, Dials(series=(2, 6), letters=0.4, together=0.5, legend=0.4, common=True))


def mingled(rng: np.random.Generator, mono: bool) -> Sheet:
    """Draw the marks that most forms have on the same points of one chart."""
    return _figure(rng, mono, Dials(series=(4, 8), letters=0.3, together=0.9, notes=0.15, legend=0.1, common=True))


def overlaid(rng: np.random.Generator, mono: bool) -> Sheet:
    """Draw two tests on one chart, the earlier one in a lighter ink."""
    return _figure(rng, mono, Dials(series=(2, 5), second_test=1.0, legend=0.3))


def noted(rng: np.random.Generator, mono: bool) -> Sheet:
    """Draw one chart full of words, numbers, lines and pictures that are no marks."""
    return _figure(rng, mono, Dials(series=(2, 6), notes=0.9, legend=0.4))


def tiny(rng: np.random.Generator, mono: bool) -> Sheet:
    """Draw up to five charts of 5 to 8 cm on a page."""
    sheet = Sheet(Pen(*A4, mono=mono))
    top = draw_head(sheet, rng, (40, 24, A4[0] - 40, 0), "Helvetica", any_date(rng), size=8) + 8
    side = float(rng.uniform(150, 235))
    columns = int((A4[0] - 40) // side)
    for k in range(int(rng.integers(2, 6))):
        left, upper = 20 + side * (k % columns), top + side * (k // columns)
        if upper + side < A4[1] - 20:
            draw_wild_chart(sheet, rng, (left, upper, left + side - 8, upper + side - 8), Dials(), title=None)
    return sheet
