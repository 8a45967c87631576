"""Calibration: whether a stated probability holds (reliability), and what asking less costs (risk, coverage)."""

from __future__ import annotations

import csv
from collections.abc import Iterable, Sequence
from dataclasses import astuple, dataclass, fields
from itertools import pairwise, zip_longest
from pathlib import Path
from typing import TYPE_CHECKING

from ..bounds import lower_bound, upper_bound
from ..scores import PageScore

if TYPE_CHECKING:
    from matplotlib.axes import Axes

EDGES = (0.0, 0.5, 0.7, 0.8, 0.9, 0.95, 0.98, 0.99, 0.995, 0.998, 0.999, 0.9995, 0.9999, 1.0)
"""Bins of stated probability, finer toward 1, where the limit of ``sure`` lies."""


@dataclass(frozen=True, slots=True)
class Claim:
    """One read value: the probability it states, whether it is right, whether it stands as ``sure``."""

    probability: float
    right: bool
    sure: bool


@dataclass(frozen=True, slots=True)
class Bin:
    """Values whose stated probability lies from ``low`` up to ``high``: stated mean, share right, its 90% interval."""

    low: float
    high: float
    values: int
    stated: float
    right: float
    right_low: float
    right_high: float


@dataclass(frozen=True, slots=True)
class Step:
    """Taking every value stated at ``probability`` or more: the share of truth got right, the share wrong of taken."""

    probability: float
    taken: int
    wrong: int
    coverage: float
    risk: float


def claims(pages: Iterable[PageScore]) -> tuple[Claim, ...]:
    """Collect what every read value claimed."""
    return tuple(
        Claim(finding.read.probability, finding.exact, finding.read.standing == "sure")
        for page in pages
        for finding in page.findings
        if finding.read is not None
    )


def reliability(of: Sequence[Claim]) -> tuple[Bin, ...]:
    """Bin values by stated probability; empty bins are left out."""
    bins: list[Bin] = []
    for low, high in pairwise(EDGES):
        inside = [c for c in of if low <= c.probability < high or (high == EDGES[-1] == c.probability)]
        if inside:
            right, all_ = sum(c.right for c in inside), len(inside)
            stated = sum(c.probability for c in inside) / all_
            bins.append(Bin(low, high, all_, stated, right / all_, lower_bound(right, all_), upper_bound(right, all_)))
    return tuple(bins)


def risk_coverage(of: Sequence[Claim], thresholds: int) -> tuple[Step, ...]:
    """Sweep the limit from the most certain value down; values of one probability are taken together.

    Parameters
    ----------
    of : sequence of Claim
        The read values.
    thresholds : int
        How many true thresholds there are, read or not.
    """
    steps: list[Step] = []
    wrong = 0
    ordered = sorted(of, key=lambda claim: -claim.probability)
    for taken, (claim, following) in enumerate(zip_longest(ordered, ordered[1:]), start=1):
        wrong += not claim.right
        if following is None or following.probability != claim.probability:
            coverage = (taken - wrong) / thresholds if thresholds else 0.0
            steps.append(Step(claim.probability, taken, wrong, coverage, wrong / taken))
    return tuple(steps)


def write(folder: Path, name: str, pages: Sequence[PageScore]) -> list[Path]:
    """Write both curves of some pages as CSV and as plots.

    Returns
    -------
    list of Path
        The plots; none where nothing was read, or matplotlib (needed for building octavo only) is not installed.
    """
    of = claims(pages)
    thresholds = sum(finding.truth is not None for page in pages for finding in page.findings)
    bins, steps = reliability(of), risk_coverage(of, thresholds)
    _write_csv(folder / f"reliability-{name}.csv", Bin, bins)
    _write_csv(folder / f"risk-coverage-{name}.csv", Step, steps)
    if not of:
        return []
    try:
        from matplotlib.figure import Figure
    except ImportError:
        return []
    figure = Figure(figsize=(11, 4.5), layout="constrained")
    left, right = figure.subplots(1, 2)
    _plot_reliability(left, bins)
    _plot_risk(right, steps, of, thresholds)
    figure.suptitle(f"{name}: {thresholds:,} thresholds, {len(of):,} values read")
    path = folder / f"curves-{name}.svg"
    figure.savefig(path)
    return [path]


def _write_csv(path: Path, kind: type[Bin | Step], lines: Sequence[Bin] | Sequence[Step]) -> None:
    with path.open("w", newline="", encoding="utf-8") as file:
        writer = csv.writer(file, lineterminator="\n")
        writer.writerow([field.name for field in fields(kind)])
        writer.writerows([round(value, 6) for value in astuple(line)] for line in lines)


_LEAST = 1e-5
"""Where the logarithmic scales of 'share wrong' end; a share of 0 is drawn there."""


def _plot_reliability(axes: Axes, bins: Sequence[Bin]) -> None:
    stated = [max(1 - b.stated, _LEAST) for b in bins]
    wrong = [max(1 - b.right, _LEAST) for b in bins]
    below = [w - max(1 - b.right_high, _LEAST) for w, b in zip(wrong, bins, strict=True)]
    above = [max(1 - b.right_low - w, 0.0) for w, b in zip(wrong, bins, strict=True)]
    axes.plot([_LEAST, 1], [_LEAST, 1], color="0.6", linestyle="--", label="as stated")
    axes.errorbar(
        stated, wrong, yerr=[below, above], fmt="o-", color="black", capsize=2, label="measured, 90% interval"
    )
    axes.set(xscale="log", yscale="log", xlabel="stated share wrong (1 - probability)", ylabel="measured share wrong")
    axes.set_title("Reliability")
    axes.legend()


def _plot_risk(axes: Axes, steps: Sequence[Step], of: Sequence[Claim], thresholds: int) -> None:
    axes.plot([s.coverage for s in steps], [max(s.risk, _LEAST) for s in steps], color="black", label="any limit")
    sure = [claim for claim in of if claim.sure]
    if sure and thresholds:
        right = sum(claim.right for claim in sure)
        risk = max(1 - right / len(sure), _LEAST)
        axes.plot([right / thresholds], [risk], "o", color="tab:red", label="as it stands: sure")
    axes.set(yscale="log", xlabel="thresholds right and taken, of all true ones", ylabel="wrong, of those taken")
    axes.set(xlim=(0, 1.02), ylim=(_LEAST / 1.5, 1))
    axes.set_title("Risk against coverage")
    axes.legend()
