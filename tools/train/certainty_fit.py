"""Fit how sure a value is; run as ``python -m octavo.tools.train.certainty_fit FILE...`` on what ``kept.keep`` wrote.

Pages of the training families with seeds that the networks never saw, in every way of spoiling, are read; logistic
weights are fitted to whether each value was right. The limit of ``sure`` is set so that it asks about a small share of
the values; what it cannot tell apart from right values is left to the rules that ask for a reason of their own.
"""

from __future__ import annotations

import argparse
import datetime
import json
from pathlib import Path

import numpy as np

from ...extract.meaning.certainty import NAMES, certainty
from ...interpret.record import Threshold
from ..bench.matching import compare
from .kept.page import KeptPage, kept_pages

BY_CHANCE = frozenset({"marks-overlap", "low-certainty"})
"""What a value below the limit is asked about for; one asked about for another reason is never sure, and no part."""


def rows_of(page: KeptPage, limit: float) -> list[tuple[tuple[float, ...], bool]]:
    """Find the meaning of a kept page anew; give each value's evidence and whether it was right."""
    reading, record = page.meant()
    evidence: dict[Place, tuple[float, ...]] = {}
    thresholds = [t for a in reading.audiograms for t in a.thresholds]
    for threshold, reasons in zip(thresholds, reading.evidence, strict=True):
        evidence[_place(threshold)] = reasons
    rows = []
    for finding in compare(page.truth, record):
        read = finding.read
        if read is None or _place(read) not in evidence:
            continue
        if not set(read.why_ask) - (BY_CHANCE if read.probability < limit else frozenset()):
            rows.append((evidence[_place(read)], finding.exact))
    return rows


Place = tuple[object, ...]


def _place(value: Threshold) -> Place:
    """Tell a value of a page from its others."""
    at = value.seen and value.seen.at
    return value.ear, value.conduction, value.masked, value.frequency_hz, value.level_db_hl, value.response, at


def fit(x: np.ndarray, right: np.ndarray, *, pull: float = 1.0) -> tuple[np.ndarray, float]:
    """Fit logistic weights by Newton's method with a ridge."""
    design = np.hstack([x, np.ones((len(x), 1))])
    weights = np.zeros(design.shape[1])
    ridge = pull * np.eye(len(weights))
    ridge[-1, -1] = 1e-6
    for _ in range(40):
        chance = 1 / (1 + np.exp(-(design @ weights).clip(-30, 30)))
        slope = design.T @ (right - chance) - ridge @ weights
        curve = (design * (chance * (1 - chance))[:, None]).T @ design + ridge
        weights = weights + np.linalg.solve(curve, slope)
    return weights[:-1], float(weights[-1])


def sure_limit(chance: np.ndarray, asked: float) -> float:
    """Give the limit below which a share ``asked`` of all values lies."""
    return float(np.quantile(chance, asked))


def main() -> None:
    """Read kept pages, fit, and write the weights beside the code that uses them."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("files", nargs="+", type=Path, help="what tools.train.kept.keep wrote")
    parser.add_argument("--asked", type=float, default=0.02, help="share of values asked about for their chance alone")
    args = parser.parse_args()
    limit = certainty().sure_from
    judged = [(page.order, rows_of(page, limit)) for page in kept_pages(args.files)]
    rows = [row for _, of_page in judged for row in of_page]
    x = np.array([r[0] for r in rows])
    right = np.array([r[1] for r in rows], bool)
    weights, constant = fit(x, right.astype(float))
    chance = 1 / (1 + np.exp(-(x @ weights + constant).clip(-30, 30)))
    limit = sure_limit(chance, args.asked)
    sure = chance >= limit
    today = datetime.datetime.now(tz=datetime.UTC).date()
    out = {
        "weights": {n: round(float(w), 4) for n, w in zip(NAMES, weights, strict=True)},
        "constant": round(constant, 4),
        "sure_from": round(limit, 5),
        "provenance": f"tools/train/certainty_fit.py on {today}, {len(judged)} pages of training families, seeds "
        f"from {min(order.seed for order, _ in judged)}, {len(right)} values, {int((~right).sum())} wrong, "
        f"{int((~right & sure).sum())} wrong above the limit, {sure.mean():.1%} of values above it",
    }
    target = Path(__file__).parents[2] / "extract" / "meaning" / "certainty.json"
    target.write_text(json.dumps(out, indent=1) + "\n")
    print(target.read_text())


if __name__ == "__main__":
    main()
