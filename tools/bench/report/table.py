"""The table of figures, for a terminal and in Markdown, with each suite held against its bar."""

from __future__ import annotations

from collections.abc import Sequence

from ..scores import Figures
from ..suites import SUITES, Bar

HEADINGS = (
    "suite",
    "pages",
    "thresholds",
    "exact",
    "within 5 dB",
    "wrong",
    "missed",
    "invented",
    "silent errors (95% bound)",
    "sure share",
    "s a page",
    "× Tesseract",
    "× parse",
    "peak MB",
    "bar",
)

NONE = "–"


def rows(suites: Sequence[Figures]) -> list[tuple[str, ...]]:
    """Give one row of cells a suite, under ``HEADINGS``."""
    return [_row(figures) for figures in suites]


def as_text(suites: Sequence[Figures]) -> str:
    """Give the table with aligned columns, and under it what went wrong in each suite."""
    cells = [HEADINGS, *rows(suites)]
    widths = [max(len(row[column]) for row in cells) for column in range(len(HEADINGS))]
    lines = [
        "  ".join(cell.ljust(width) if column == 0 else cell.rjust(width) for column, (cell, width) in enumerate(pairs))
        for pairs in (list(zip(row, widths, strict=True)) for row in cells)
    ]
    return "\n".join([*(line.rstrip() for line in lines), *(note for figures in suites for note in notes(figures))])


def as_markdown(suites: Sequence[Figures]) -> str:
    """Give the table in Markdown."""
    rule = ("---", *["---:"] * (len(HEADINGS) - 1))
    return "\n".join("| " + " | ".join(row) + " |" for row in (HEADINGS, rule, *rows(suites)))


def notes(figures: Figures) -> list[str]:
    """Say in words what the table does not hold: kinds of errors, refused and crashed pages."""
    said: list[str] = []
    if figures.verdicts:
        kinds = sorted(figures.verdicts.items(), key=lambda item: -item[1])
        text = ", ".join(
            f"{verdict} {count} ({figures.silent_verdicts.get(verdict, 0)} silent)" for verdict, count in kinds
        )
        said.append(f"{figures.suite}: {text}")
    if figures.silent_by_key != figures.silent:
        said.append(
            f"{figures.suite}: {figures.silent_by_key} silent errors when a misread mark counts as missed and invented"
        )
    if figures.refused or figures.crashed:
        said.append(
            f"{figures.suite}: {figures.refused} pages refused with a message, {figures.crashed} crashed or hung"
        )
    return said


def held_against(figures: Figures, bar: Bar) -> str:
    """Say whether a suite meets its bar, and if not, in what it fails.

    Returns
    -------
    str
        "met", "missed: …", "too few" (nothing missed yet, but not enough read), or a dash where there is no bar.
    """
    trials = figures.thresholds or figures.pages
    asked = (
        ("exact", bar.exact_share, figures.exact_share, 1),
        ("sure", bar.sure_share, figures.sure_share, 1),
        ("silent", bar.silent_rate, figures.silent / trials if trials else None, -1),
        ("invented", bar.most_invented, figures.invented, -1),
        ("time", bar.per_tesseract, figures.per_tesseract, -1),
        ("time", bar.per_parse, figures.per_parse, -1),
    )
    if all(limit is None for _, limit, _, _ in asked):
        return NONE
    failed = [
        name
        for name, limit, value, sign in asked
        if limit is not None and (value is None or sign * (value - limit) < 0)
    ]
    failed += ["crashes"] if figures.crashed else []
    if failed:
        return "missed: " + ", ".join(failed)
    few = figures.thresholds < bar.least_thresholds or figures.pages < bar.least_pages
    return "too few" if few else "met"


def _row(figures: Figures) -> tuple[str, ...]:
    suite = SUITES.get(figures.suite)
    bound = f"{figures.silent} (≤ {percent(figures.silent_upper)}{'' if figures.thresholds else ' of pages'})"
    within = figures.within_5_db / figures.thresholds if figures.thresholds else None
    return (
        figures.suite,
        f"{figures.pages:,}",
        f"{figures.thresholds:,}",
        percent(figures.exact_share),
        percent(within),
        f"{figures.wrong:,}",
        f"{figures.missed:,}",
        f"{figures.invented:,}",
        bound,
        percent(figures.sure_share),
        _number(figures.seconds, 2),
        _number(figures.per_tesseract, 2),
        _number(figures.per_parse, 1),
        _number(figures.peak_mb, 0),
        held_against(figures, suite.bar) if suite else NONE,
    )


def percent(share: float | None) -> str:
    """Write a share as per cent; a share that is not 1 is never rounded up to 100, nor one that is not 0 down to 0."""
    if share is None:
        return NONE
    decimals = 2
    while decimals < 6 and 0 < share < 1 and float(f"{100 * share:.{decimals}f}") in (0.0, 100.0):
        decimals += 1
    return f"{100 * share:.{decimals}f}%"


def _number(value: float | None, decimals: int) -> str:
    return NONE if value is None else f"{value:,.{decimals}f}"
