"""Fit how the two looks at a mark are weighed; run as ``... closely.weigh OUT``, the folder that ``train`` wrote.

A logistic curve is fitted to whether a glyph (or an arrow) truly stands at a held-out place, once from what the mark
network gave there alone, and once from both looks; the second is then told on the scale of the first.
"""

from __future__ import annotations

import argparse
import json
from pathlib import Path

import numpy as np

from ....extract.eyes.marks.closely import BOUND
from ....extract.eyes.marks.network import LEAST
from ....interpret.symbols import GLYPHS
from ..certainty_fit import fit
from .pictures import TARGETS

TARGET = Path(__file__).parents[3] / "extract" / "eyes" / "marks" / "closely.json"


def weights(odds: np.ndarray, truth: np.ndarray, columns: slice) -> dict[str, float]:
    """Fit one pair of looks.

    Parameters
    ----------
    odds : ndarray, shape (n, 25)
        What the close look gave.
    truth : ndarray, shape (n, 50)
        As in ``pictures``.
    columns : slice
        Glyphs or arrows.

    Returns
    -------
    dict
        ``whole``, ``close`` and ``constant``, as ``extract.eyes.marks.closely.Trust`` has them.
    """
    there, score = truth[:, :TARGETS][:, columns], truth[:, TARGETS:][:, columns]
    judged = ~np.isnan(there) & (score >= LEAST)
    y, seen, close = there[judged], np.clip(score[judged], 0.02, 0.98), odds[:, columns][judged]
    whole = np.log(seen / (1 - seen))
    (slope,), alone = fit(whole[:, None], y)
    (a, b), constant = fit(np.stack([whole, np.clip(close, -BOUND, BOUND)], axis=1), y)
    print(f"{len(y)} places, {y.mean():.1%} true; entropy", [_entropy(x, y) for x in (
        slope * whole + alone, a * whole + b * np.clip(close, -BOUND, BOUND) + constant)])  # fmt: skip
    return {"whole": a / slope, "close": b / slope, "constant": (constant - alone) / slope}


def _entropy(odds: np.ndarray, y: np.ndarray) -> float:
    return round(float(np.mean(np.logaddexp(0, np.where(y > 0.5, -odds, odds)))), 4)


def main() -> None:
    """Read what is held out, fit, and write the weights beside the network."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("folder", type=Path, help="what tools.train.closely.train wrote")
    held = np.load(parser.parse_args().folder / "closely_held_out.npz")
    parts = {"glyph": slice(0, len(GLYPHS)), "arrow": slice(len(GLYPHS), TARGETS)}
    out: dict[str, object] = {
        name: {k: round(float(v), 4) for k, v in weights(held["logits"], held["truth"], columns).items()}
        for name, columns in parts.items()
    }
    out["provenance"] = f"tools/train/closely/weigh.py, {len(held['logits'])} held-out places of training families"
    TARGET.write_text(json.dumps(out, indent=1) + "\n")
    print(TARGET.read_text())


if __name__ == "__main__":
    main()
