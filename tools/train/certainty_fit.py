"""Fit how sure a value is; run as ``python -m octavo.tools.train.certainty_fit PAGES`` (CPU; some 2 pages a second).

Pages of the training families with seeds that the network never saw, in every way of spoiling, are read; logistic
weights are fitted to whether each value was right. The limit of ``sure`` is set so that it asks about a small share of
the values; what it cannot tell apart from right values is left to the rules that ask for a reason of their own.
"""

from __future__ import annotations

import argparse
import datetime
import json
import multiprocessing
import tempfile
from pathlib import Path

import numpy as np

from ...extract.choices import Choices
from ...extract.eyes import see
from ...extract.intake import pages
from ...extract.meaning import mean
from ...extract.meaning.certainty import NAMES, certainty
from ...extract.measure import measure
from ...extract.page import Page
from ...extract.straighten import straighten
from ...interpret.record import PageRecord, Threshold
from ..bench.matching import compare
from ..painter import paint, render
from ..painter.families import FAMILIES
from ..painter.spoiling import shown, spoil, write_file

FIRST_SEED = 70_000_000
WAYS = ("drawn", "drawn", "scan", "scan", "copy", "fax-fine", "fax-coarse", "photo")
SUFFIX = {"drawn": ".pdf", "scan": ".png", "copy": ".png", "photo": ".jpg"}
BY_CHANCE = frozenset({"marks-overlap", "low-certainty"})
"""What a value below the limit is asked about for; one asked about for another reason is never sure, and no part."""


def rows_of(number: int) -> list[tuple[tuple[float, ...], bool]]:
    """Read one painted page; give each value's evidence and whether it was right."""
    left_out = {"none", "wild", "pen-table", "printed-table", "facts", "facts-pen"}
    families = [n for n, f in FAMILIES.items() if f.split == "train" and not f.tags & left_out]
    family, way = families[number % len(families)], WAYS[number // len(families) % len(WAYS)]
    page = paint(family, FIRST_SEED + number, mono=number % 5 == 4)
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / ("page" + SUFFIX.get(way, ".tif"))
        truth = page.record
        if way == "drawn":
            path.write_bytes(page.pdf)
        else:
            spoiled = spoil(render(page.pdf, 300), way, FIRST_SEED + number, dpi=300)
            write_file(spoiled, way, path)
            truth = shown(page, spoiled).record
        rows = []
        for read in pages(path):
            if isinstance(read, Page):
                rows += _judged(read, truth)
    return rows


def _judged(page: Page, truth: PageRecord) -> list[tuple[tuple[float, ...], bool]]:
    sheet = straighten(page)
    sightings = see(sheet)
    reading = mean(sheet, sightings.key, measure(sheet, sightings), Choices())
    record = PageRecord(page.source, "ask", reading.audiograms)
    evidence: dict[int, tuple[float, ...]] = {}
    thresholds = [t for a in reading.audiograms for t in a.thresholds]
    for threshold, reasons in zip(thresholds, reading.evidence, strict=True):
        evidence[id(threshold)] = reasons
    rows = []
    limit = certainty().sure_from
    for finding in compare(truth, record):
        read: Threshold | None = finding.read
        if read is None or id(read) not in evidence:
            continue
        if not set(read.why_ask) - (BY_CHANCE if read.probability < limit else frozenset()):
            rows.append((evidence[id(read)], finding.exact))
    return rows


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
    """Paint, read, fit, and write the weights beside the code that uses them."""
    parser = argparse.ArgumentParser()
    parser.add_argument("pages", type=int)
    parser.add_argument("--workers", type=int, default=2)
    parser.add_argument("--asked", type=float, default=0.02, help="share of values asked about for their chance alone")
    args = parser.parse_args()
    with multiprocessing.get_context("spawn").Pool(args.workers) as pool:
        rows = [row for page in pool.imap_unordered(rows_of, range(args.pages)) for row in page]
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
        "provenance": f"tools/train/certainty_fit.py on {today}, {args.pages} pages of training families, seeds "
        f"from {FIRST_SEED}, {len(right)} values, {int((~right).sum())} wrong, {int((~right & sure).sum())} wrong "
        f"above the limit, {sure.mean():.1%} of values above it",
    }
    target = Path(__file__).parents[2] / "extract" / "meaning" / "certainty.json"
    target.write_text(json.dumps(out, indent=1) + "\n")
    print(target.read_text())


if __name__ == "__main__":
    main()
