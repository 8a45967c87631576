"""How sure a value is: the chance that it is right, from what was seen, by weights fitted to painted pages."""

from __future__ import annotations

import json
import math
from dataclasses import dataclass
from functools import lru_cache
from importlib.resources import files
from statistics import median

from ...interpret.record import Ear, TakenBy
from ...interpret.symbols import Glyph
from ..chart import Mark, MeasuredChart
from ..sheet import Sheet
from ..sightings import alike
from .nearby import another, flanked, same_place

FEW_LINES = 6
"""Stretches of printed lines below which the lattice rests on the labels alone."""

NAMES = (
    "score", "level_miss", "frequency_miss", "crowd", "rival", "arrow", "off_colour", "askew",
    "outshone", "relative_score", "odd_size", "near", "weak_near", "jump", "few_labels", "misfit", "no_grid",
    "scanned", "photographed", "grey", "flanked",
)  # fmt: skip
"""What each number of a mark's evidence is; see ``evidence``."""


@dataclass(frozen=True, slots=True)
class Certainty:
    """Weights of the evidence, and the chance from which a value stands as sure."""

    weights: tuple[float, ...]
    constant: float
    sure_from: float


@lru_cache(maxsize=1)
def certainty() -> Certainty:
    """Load the fitted weights; ``certainty.json`` says from which pages they come."""
    data = json.loads(files("octavo.extract.meaning").joinpath("certainty.json").read_text())
    return Certainty(tuple(data["weights"][name] for name in NAMES), data["constant"], data["sure_from"])


def probability(evidence: tuple[float, ...]) -> float:
    """Give the chance that a mark's ear, conduction, masking, frequency, level and response are all right."""
    fitted = certainty()
    total = fitted.constant + sum(w * e for w, e in zip(fitted.weights, evidence, strict=True))
    return 1 / (1 + math.exp(-max(-30.0, min(30.0, total))))


@dataclass(frozen=True, slots=True)
class Surroundings:
    """What the evidence of one mark is held against: the chart's other marks, its axes, and the page."""

    chart: MeasuredChart
    taken: tuple[Mark, ...]
    weak: tuple[Mark, ...]
    """Peaks too weak to be marks."""
    score: float
    """The median of the marks' scores."""
    sizes: dict[Glyph, float]
    """The median size of each glyph's marks, the mean of width and height in sheet pixels."""
    taken_by: TakenBy
    coloured: bool
    """Whether any mark has red or blue ink."""

    @staticmethod
    def of(sheet: Sheet, chart: MeasuredChart, taken: list[Mark], weak: list[Mark]) -> Surroundings:
        """Sum up a chart's marks."""
        sizes: dict[Glyph, list[float]] = {}
        for mark in taken:
            sizes.setdefault(mark.sight.glyph, []).append(sum(mark.sight.size) / 2)
        return Surroundings(
            chart, tuple(taken), tuple(weak), median(m.sight.score for m in taken) if taken else 1.0,
            {glyph: median(found) for glyph, found in sizes.items()}, sheet.taken_by,
            any(m.sight.ink != "neutral" for m in taken),
        )  # fmt: skip


def evidence(
    around: Surroundings, mark: Mark, ear: Ear, level_miss_db: float, frequency_miss: float
) -> tuple[float, ...]:
    """Put what speaks for and against a mark into numbers; but for the scores, more is worse throughout.

    What stands near a mark that was seen apart says nothing against it.

    Parameters
    ----------
    around : Surroundings
        The mark's chart and page.
    mark : Mark
        The mark.
    ear : str
        The ear that it is taken for.
    level_miss_db : float
        Distance from its 5-dB step.
    frequency_miss : float
        Distance from its frequency, octaves.

    Returns
    -------
    tuple of float
        In the order of ``NAMES``:
        *score*, log odds of the network's peak for its glyph;
        *level_miss*, dB squared; *frequency_miss*, tenths of an octave squared;
        *crowd*, other marks that overlap it, at most 3;
        *rival*, the strongest glyph that may be taken for it at its place, 0 to 1;
        *arrow*, how far the strongest arrow is from a clear yes or no, 0 to 0.5;
        *off_colour*, how strongly the other ear's ink is seen at it, 0 to 1;
        *askew*, misfit of printed lines to the lattice, sheet pixels, at most 5;
        *outshone*, by how much any other glyph at its place is stronger, 0 to 1;
        *relative_score*, natural logarithm of its score over the median of the chart's marks;
        *odd_size*, absolute logarithm of its size over the median of its glyph's marks on the chart;
        *near*, how far the nearest other mark is inside 1.5 sizes, in sizes, 0 to 1.5;
        *weak_near*, the strongest weak peak of a shape unlike it within a size of it, 0 to 1;
        *jump*, by how much the slope to its neighbours of the same shape exceeds 40 dB an octave on both sides in
        opposite directions, tens of dB an octave, at most 5;
        *few_labels*, labels short of 6 on the axis that has fewer, 0 to 6;
        *misfit*, worst misfit of a label, 5-dB steps or tenths of an octave, the larger, at most 3;
        *no_grid*, 1 where too few printed lines were found to fit the lattice;
        *scanned* and *photographed*, 1 for such a page; *grey*, 1 where no mark of the chart has red or blue ink;
        *flanked*, of a circle or square, how strongly shapes that together look like one are seen there, 0 to 1.
    """
    sight, chart = mark.sight, around.chart
    score = min(max(sight.score, 0.02), 0.98)
    others = [o for o in around.taken if another(o, mark)]
    close = () if sight.apart else others
    strongest = max(sight.arrows)
    size = sum(sight.size) / 2
    nearest = min((math.hypot(o.x - mark.x, o.y - mark.y) / size for o in close), default=math.inf)
    labels = min(chart.frequency.labels_read, chart.level.labels_read)
    return (
        math.log(score / (1 - score)),
        level_miss_db**2,
        (10 * frequency_miss) ** 2,
        float(min(sum(same_place(o, mark, 0.55) for o in close), 3)),
        max((s for glyph, s in sight.rivals if alike(glyph, sight.glyph)), default=0.0),
        min(strongest, 1 - strongest),
        sight.blue if ear == "right" else sight.red if ear == "left" else 0.0,
        min(chart.bend.rms_px, 5.0),
        max(0.0, max((s for _, s in sight.rivals), default=0.0) - sight.score),
        math.log(score / around.score),
        abs(math.log(size / around.sizes.get(sight.glyph, size))),
        max(0.0, 1.5 - nearest),
        _weak_near(around.weak, mark),
        _jump(mark, others),
        float(max(0, 6 - labels)),
        min(max(10 * chart.frequency.worst_misfit, chart.level.worst_misfit / 5), 3.0),
        float(chart.bend.lines_found < FEW_LINES),
        float(around.taken_by == "scan"),
        float(around.taken_by == "photo"),
        float(not around.coloured),
        flanked(mark, chart.marks) if sight.glyph in ("circle", "square") and not sight.apart else 0.0,
    )


def _weak_near(weak: tuple[Mark, ...], mark: Mark) -> float:
    if mark.sight.apart:
        return 0.0
    return max((o.sight.score for o in weak if _unlike(o, mark) and same_place(o, mark, 1.0)), default=0.0)


def _unlike(one: Mark, other: Mark) -> bool:
    return one.sight.glyph != other.sight.glyph and not alike(one.sight.glyph, other.sight.glyph)


def _jump(mark: Mark, others: list[Mark]) -> float:
    """Give by how much a mark juts out of its row beyond 40 dB an octave on both sides, tens of dB an octave."""
    row = sorted((o for o in others if o.sight.glyph == mark.sight.glyph), key=lambda o: o.frequency_hz)
    below = [o for o in row if o.frequency_hz < mark.frequency_hz / 1.2]
    above = [o for o in row if o.frequency_hz > mark.frequency_hz * 1.2]
    if not below or not above:
        return 0.0
    rises = [
        (mark.level_db_hl - o.level_db_hl) / max(abs(math.log2(mark.frequency_hz / o.frequency_hz)), 0.4)
        for o in (below[-1], above[0])
    ]
    if rises[0] * rises[1] <= 0:
        return 0.0
    return min(max(0.0, min(abs(r) for r in rises) - 40) / 10, 5.0)
