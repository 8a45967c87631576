"""How sure a value is: the chance that it is right, from what was seen, by weights fitted to painted pages."""

from __future__ import annotations

import json
import math
from dataclasses import dataclass
from functools import lru_cache
from importlib.resources import files

NAMES = ("score", "level_miss", "frequency_miss", "crowd", "rival", "arrow", "off_colour", "askew")
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


def evidence(
    *, score: float, level_miss_db: float, frequency_miss: float, crowd: int, rival: float, arrow: float,
    off_colour: float, askew_px: float,
) -> tuple[float, ...]:  # fmt: skip
    """Put what speaks for and against a mark into numbers.

    Parameters
    ----------
    score : float
        The network's peak for its glyph, 0 to 1.
    level_miss_db : float
        Distance from its 5-dB step.
    frequency_miss : float
        Distance from its frequency, octaves.
    crowd : int
        Other marks that overlap it.
    rival : float
        The strongest other glyph that may be taken for it at its place, 0 to 1.
    arrow : float
        How far the strongest arrow is from a clear yes or no, 0 to 0.5.
    off_colour : float
        How strongly the other ear's ink is seen at it, 0 to 1.
    askew_px : float
        How badly the chart's printed lines fit the lattice, sheet pixels.

    Returns
    -------
    tuple of float
        In the order of ``NAMES``.
    """
    capped = min(max(score, 0.02), 0.98)
    return (
        math.log(capped / (1 - capped)), level_miss_db**2, (10 * frequency_miss) ** 2, float(min(crowd, 3)), rival,
        arrow, off_colour, min(askew_px, 5.0),
    )  # fmt: skip
