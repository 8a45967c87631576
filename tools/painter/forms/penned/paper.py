"""What years and copiers do to a printed form before a pen comes to it, and to the sheet afterwards."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from ...chart.chance import grey
from ...chart.look import Look, Rule
from ...hand.filling import Wear
from ...pen import WHITE, XY, Pen

Frame = tuple[float, float, float, float]


def any_wear(rng: np.random.Generator) -> Wear | None:
    """Choose how worn a printed form is; every second one is fresh."""
    if rng.random() < 0.5:
        return None
    return worn(float(rng.exponential(25)), float(rng.exponential(2.5)))


def copied(rng: np.random.Generator, look: Look) -> Look:
    """Make a form's grid that of a copy: fainter, and thin lines broken."""
    ruling = look.ruling
    if rng.random() < 0.35:
        shade = grey(rng, 0.55, 0.88)
        faint = {name: Rule(rule.width, shade, rule.dash) for name, rule in
                 (("octave", ruling.octave), ("inter", ruling.inter), ("level", ruling.level))}  # fmt: skip
        ruling = replace(ruling, **faint)
    if rng.random() < 0.3:
        dash = tuple(float(v) for v in rng.exponential(1.0, 12) * np.tile((25, 2.0), 6) + 0.5)
        ruling = replace(
            ruling,
            octave=replace(ruling.octave, dash=ruling.octave.dash or dash),
            level=replace(ruling.level, dash=ruling.level.dash or dash[4:]),
        )
    return replace(look, ruling=ruling)


def worn(gaps: float, dirt: float) -> Wear:
    """Give the wear of a form that is a copy of copies: ``gaps`` and ``dirt`` in flecks per 100 x 100 points."""

    def wear(pen: Pen, box: Frame, rng: np.random.Generator) -> None:
        left, top, right, bottom = box
        area = (right - left) * (bottom - top) / 1e4
        for share, colour in ((gaps, WHITE), (dirt, (0.25, 0.25, 0.25))):
            count = int(share * area)
            if count:
                pen.paths(_flecks(rng, box, count, 1.0 if colour == WHITE else 0.5), None, closed=True, fill=colour)

    return wear


def _flecks(rng: np.random.Generator, box: Frame, count: int, size: float) -> list[list[XY]]:
    left, top, right, bottom = box
    at = np.stack([rng.uniform(left, right, count), rng.uniform(top, bottom, count)], axis=1)
    reach = rng.exponential(size, (count, 1, 1)) * rng.uniform(0.5, 1, (count, 4, 1))
    turns = (np.arange(4) * np.pi / 2)[None, :, None]
    points = at[:, None] + reach * np.concatenate([np.cos(turns), np.sin(turns)], axis=2)
    return [[(float(x), float(y)) for x, y in fleck] for fleck in points.round(2)]


def punched(pen: Pen, shade: float) -> None:
    """Punch two holes into the left edge, as a copier shows them: 80 mm apart, 6 mm wide, 12 mm in (ISO 838)."""
    for y in (pen.height / 2 - 113.4, pen.height / 2 + 113.4):
        pen.ellipse((34, y), 8.5, 8.5, (0.5, 0.5, 0.5), 0.4, (shade, shade, shade))


def folded(pen: Pen, rng: np.random.Generator, folds: int) -> None:
    """Fold the sheet across, once or twice: a pale line that is not quite straight, with flecks where ink came off."""
    for k in range(folds):
        y = pen.height * (k + 1) / (folds + 1) + float(rng.normal(0, 6))
        tilt = float(rng.normal(0, 2))
        xs = np.linspace(0, pen.width, 9)
        line: list[XY] = [(float(x), y + tilt * x / pen.width + float(rng.normal(0, 0.3))) for x in xs]
        shade = float(rng.uniform(0.7, 0.88))
        pen.runs([(line, (shade, shade, shade), float(rng.uniform(0.3, 0.8)), ())])
        worn(18.0, 0.0)(pen, (0, y - 1.2, pen.width, y + 1.2), rng)
