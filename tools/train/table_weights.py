"""From kept values of tables to weights of the evidence, and to the chance from which a value is sure."""

from __future__ import annotations

import datetime
import json
from collections import Counter
from pathlib import Path
from typing import Any

import numpy as np
import numpy.typing as npt

from ...extract.table.certainty import EVIDENCE

EXTRACT = Path(__file__).parents[2] / "extract"
MOST_SILENT = 0.0005
"""Share of wrong values that is allowed among the sure ones."""
FURTHER = 1.0
"""So much further from the last wrong one the logit of a sure value by hand must be: people write otherwise than our
painter."""
LEAST_SURE = 0.98
"""No value is sure with a lower chance than this, however few wrong ones were met."""
STIFFNESS = 1.0
"""Weight of the squares of the (standardised) weights: it keeps evidence that was never wrong finite."""
FOLDS = 5
FOR = frozenset({"print", "label", "print_fit", "label_fit", "agreed"})
"""Evidence that can but speak for a value; all other can but speak against it."""

Array = npt.NDArray[np.float64]
Row = dict[str, Any]


def fit(rows: list[Row]) -> None:
    """Fit the weights to the values of tables that were read by two readers, and write both data files."""
    values = [r for r in rows if r["of"] == "table" and r["read"] == "two-readings" and not r["doubts"]]
    in_print, said = _weighing([r for r in values if not r["by_hand"]], values, 0.0)
    penned = [r for r in values if r["by_hand"]]
    by_hand, said_by_hand = _weighing(penned, penned, FURTHER)
    today = datetime.datetime.now(tz=datetime.UTC).date()
    pages = len({(r["family"], r["number"]) for r in rows})
    source = f"tools/train/table_fit.py on {today}, {pages} pages of training families"
    given = [r for r in rows if r["of"] == "table" and r["read"] == "given"]
    doubted = [r for r in rows if r["of"] == "table" and r["read"] != "given" and r["doubts"]]
    shares = {
        "in_print": in_print, "by_hand": by_hand, "given": share(given), "doubted": share(doubted),
        "provenance": f"{source}; in print {said}; by hand {said_by_hand}",
    }  # fmt: skip
    (EXTRACT / "table" / "certainty.json").write_text(json.dumps(shares, indent=1) + "\n")
    agreeing = [r for r in rows if r["of"] == "agreeing" and r["table"] == "sure"]
    wrong = sum(not r["right"] for r in agreeing)
    told = {"agreeing_right": share(agreeing), "provenance": f"{source}: {len(agreeing)} agreeing, {wrong} wrong"}
    (EXTRACT / "crosscheck" / "certainty.json").write_text(json.dumps(told, indent=1) + "\n")
    print(json.dumps(shares, indent=1), json.dumps(told, indent=1))


def _weighing(values: list[Row], learned_from: list[Row], further: float) -> tuple[dict[str, Any], str]:
    """Fit the weights for values in print or by hand, and say in words how many are sure.

    Parameters
    ----------
    values : list of dict
        The values in print, or those by hand.
    learned_from : list of dict
        The same, or all values: print has hardly an error to learn from, and what tells errors by hand tells its own.
    further : float
        How far beyond the last wrong value a sure one must be.
    """
    evidence, right, numbers = _arrays(learned_from)
    mine, mine_right, folds = _arrays(values)
    out = np.zeros(len(mine))
    for fold in range(FOLDS):
        weights, constant = weigh(evidence[numbers != fold], right[numbers != fold])
        out[folds == fold] = mine[folds == fold] @ weights + constant
    chances = 1 / (1 + np.exp(-out))
    from_all = limit(chances, mine_right, MOST_SILENT)
    sure_from = max(1 / (1 + (1 / from_all - 1) * np.exp(-further)), LEAST_SURE)
    weights, constant = weigh(evidence, right)
    sure = chances >= sure_from
    fitted = {
        "weights": {name: round(float(w), 5) for name, w in zip(EVIDENCE, weights, strict=True)},
        "constant": round(constant, 5), "sure_from": round(float(sure_from), 6),
    }  # fmt: skip
    wrong, silent = int((mine_right == 0).sum()), int((mine_right[sure] == 0).sum())
    said = f"{len(mine)} values without doubts, {wrong} wrong; left out in turn, {int(sure.sum())} sure"
    return fitted, f"{said}, {silent} of them wrong"


def _arrays(values: list[Row]) -> tuple[Array, Array, npt.NDArray[np.int_]]:
    """Give the evidence of values, whether each was right, and by which pages it is left out in turn."""
    evidence = np.array([r["evidence"] for r in values], np.float64)
    right = np.array([r["right"] for r in values], np.float64)
    return evidence, right, np.array([r["number"] % FOLDS for r in values])


def weigh(evidence: Array, right: Array) -> tuple[Array, float]:
    """Fit weights of which none speaks against what is plain (``FOR``): such evidence is left out, the worst first."""
    kept = np.ones(evidence.shape[1], bool)
    signs = np.array([1.0 if name in FOR else -1.0 for name in EVIDENCE])
    while True:
        weights, constant = logistic(np.where(kept, evidence, 0.0), right)
        against = np.where(kept, signs * weights * evidence.std(axis=0), 0.0)
        if against.min() >= -1e-9:
            return np.where(kept, weights, 0.0), constant
        kept[int(against.argmin())] = False


def logistic(evidence: Array, right: Array) -> tuple[Array, float]:
    """Fit weights and a constant by Newton's steps on the stiffened likelihood.

    Parameters
    ----------
    evidence : ndarray, shape (values, kinds of evidence)
    right : ndarray, shape (values,)
        1 where the value was right, else 0.
    """
    middle, spread = evidence.mean(axis=0), evidence.std(axis=0)
    spread = np.where(spread > 1e-9, spread, 1.0)
    known = np.column_stack([(evidence - middle) / spread, np.ones(len(evidence))])
    stiff = np.diag([STIFFNESS] * evidence.shape[1] + [1e-6])
    weights = np.zeros(known.shape[1])
    for _ in range(100):
        chance = 1 / (1 + np.exp(-np.clip(known @ weights, -30, 30)))
        slope = known.T @ (right - chance) - stiff @ weights
        curve = (known * (chance * (1 - chance))[:, None]).T @ known + stiff
        step = np.linalg.solve(curve, slope)
        while _worth(known, right, stiff, weights + step) < _worth(known, right, stiff, weights) - 1e-9:
            step /= 2  # a whole step may lead beyond the top
        weights += step
        if np.abs(step).max() < 1e-8:
            break
    plain = weights[:-1] / spread
    return plain, float(weights[-1] - plain @ middle)


def _worth(known: Array, right: Array, stiff: Array, weights: Array) -> float:
    """Give the stiffened logarithm of the likelihood."""
    out = known @ weights
    return float((right * out - np.logaddexp(0.0, out)).sum() - weights @ stiff @ weights / 2)


def limit(chances: Array, right: Array, most: float) -> float:
    """Give the least chance from which on no larger share of values is wrong."""
    order = np.argsort(-chances, kind="stable")
    wrong = np.cumsum(1 - right[order])
    shares = wrong / np.arange(1, len(order) + 1)
    allowed = np.nonzero(shares <= most)[0]
    return float(chances[order][allowed[-1]]) if len(allowed) else 1.0


def share(rows: list[Row]) -> float:
    """Give the share of right ones, with one wrong one added: nothing is certain after so many looks."""
    right = sum(bool(r["right"]) for r in rows)
    return round((right + 0.5) / (len(rows) + 1), 5)


def report(rows: list[Row]) -> dict[str, int]:
    """Count what the cross-check does to charts by way of spoiling, and which agreeing values are right."""
    found: Counter[str] = Counter()
    for r in rows:
        if r["of"] == "charts":
            for way in (r["way"], "all"):
                name = f"{r['trust']} {way} {'checked' if r['check'] else 'unchecked'}"
                found += Counter({f"{name} {k}": r[k] for k in ("silent", "stated", "true", "sure")})
        elif r["of"] == "agreeing":
            found[f"agreeing, chart {r['chart']}, table {r['table']}: {'right' if r['right'] else 'wrong'}"] += 1
    return dict(sorted(found.items()))
