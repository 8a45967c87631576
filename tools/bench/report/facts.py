"""The tables of facts: a line for each suite, and one for each kind of fact."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from ..facts import FactFigures, fact_figures
from ..facts.figures import by_kind
from ..scores import PageScore
from ..suites import SUITES, Bar
from .table import NONE, percent

HEADINGS = (
    "facts",
    "pages",
    "values",
    "exact",
    "wrong",
    "missed",
    "invented",
    "silent errors (95% bound)",
    "sure share",
    "left open",
    "bar",
)


def suites_of(suites: Mapping[str, Sequence[PageScore]]) -> list[FactFigures]:
    """Sum up the facts of every suite that has any."""
    return [fact_figures(name, [page.facts for page in pages]) for name, pages in suites.items() if _has_facts(name)]


def kinds_of(pages: Sequence[PageScore]) -> list[FactFigures]:
    """Sum up each kind of fact over a suite's pages."""
    return by_kind([page.facts for page in pages])


def as_text(suites: Mapping[str, Sequence[PageScore]]) -> str:
    """Give the table with aligned columns, each suite's line over those of its kinds; empty where it has no facts."""
    lines: list[tuple[str, ...]] = [HEADINGS]
    for found in suites_of(suites):
        lines.append(row(found))
        lines += [(f"  {cells[0]}", *cells[1:]) for cells in map(row, kinds_of(suites[found.name]))]
    if len(lines) == 1:
        return ""
    widths = [max(len(cells[column]) for cells in lines) for column in range(len(HEADINGS))]
    return "\n".join(
        "  ".join(
            cell.ljust(width) if column == 0 else cell.rjust(width)
            for column, (cell, width) in enumerate(zip(cells, widths, strict=True))
        ).rstrip()
        for cells in lines
    )


def as_markdown(suites: Mapping[str, Sequence[PageScore]]) -> str:
    """Give the suites' lines in Markdown; empty where there are no facts."""
    found = suites_of(suites)
    if not found:
        return ""
    rule = ("---", *["---:"] * (len(HEADINGS) - 1))
    return "\n".join("| " + " | ".join(cells) + " |" for cells in (HEADINGS, rule, *map(row, found)))


def row(figures: FactFigures) -> tuple[str, ...]:
    """Give the cells of one line, under ``HEADINGS``."""
    suite = SUITES.get(figures.name)
    return (
        figures.name,
        f"{figures.pages:,}",
        f"{figures.facts:,}",
        percent(figures.exact_share),
        f"{figures.wrong:,}",
        f"{figures.missed:,}",
        f"{figures.invented:,}",
        f"{figures.silent} (≤ {percent(figures.silent_upper)})",
        percent(figures.sure_share),
        f"{figures.left_open:,}",
        held_against(figures, suite.facts) if suite is not None and suite.facts is not None else NONE,
    )


def held_against(figures: FactFigures, bar: Bar) -> str:
    """Say whether a suite's facts meet their bar: "met", "missed: …", or "too few"."""
    asked = (("exact", bar.exact_share, figures.exact_share, 1), ("silent", bar.silent_rate, figures.silent_rate, -1))
    failed = [
        name
        for name, limit, value, sign in asked
        if limit is not None and (value is None or sign * (value - limit) < 0)
    ]
    if failed:
        return "missed: " + ", ".join(failed)
    return "too few" if figures.facts < bar.least_facts else "met"


def _has_facts(name: str) -> bool:
    suite = SUITES.get(name)
    return suite is not None and suite.facts is not None
