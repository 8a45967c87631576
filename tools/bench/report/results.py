"""All results of a run as JSON, and the first page to open: table, curves, families, worst pages."""

from __future__ import annotations

import json
from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import asdict
from html import escape
from pathlib import Path
from typing import Any

from ....interpret.errors import CannotWrite
from ..facts import FactFinding
from ..matching import Finding
from ..scores import Figures, PageScore, figures, is_sure
from . import curves, facts, worst
from .readme import Run
from .table import HEADINGS, notes, rows


def write_report(folder: Path, run: Run, suites: Mapping[str, Sequence[PageScore]], *, worst_pages: int) -> list[Path]:
    """Write everything about a run into a folder.

    Parameters
    ----------
    folder : Path
        Where to; made when it is not there.
    run : Run
        What was run.
    suites : mapping
        The scored pages of each suite.
    worst_pages : int
        How many of each suite's worst pages are written with their picture.

    Returns
    -------
    list of Path
        The pages of the worst, over all suites, the very worst first, at most ``worst_pages``.

    Raises
    ------
    CannotWrite
        When the folder cannot be written to.
    """
    try:
        return _write(folder, run, suites, worst_pages)
    except OSError as fault:
        raise CannotWrite(
            f"the report cannot be written ({fault.strerror})", "Name another folder", file=str(folder)
        ) from fault


def _write(folder: Path, run: Run, suites: Mapping[str, Sequence[PageScore]], worst_pages: int) -> list[Path]:
    folder.mkdir(parents=True, exist_ok=True)
    results = {"run": asdict(run), "suites": [_suite(name, pages) for name, pages in suites.items()]}
    (folder / "results.json").write_text(json.dumps(results, indent=1, ensure_ascii=False), encoding="utf-8")
    written: dict[str, Path] = {}
    sections = []
    for name, pages in suites.items():
        bad = worst.worst_of(pages, worst_pages)
        written |= {page.sample.name: worst.write_page(folder, page) for page in bad}
        plots = curves.write(folder, name, pages)
        sections.append(_section(name, pages, bad, plots))
    everything = [page for pages in suites.values() for page in pages]
    plots = curves.write(folder, "all", everything)
    table = _figures([figures(name, pages) for name, pages in suites.items()])
    told = _table(facts.HEADINGS, [facts.row(one) for one in facts.suites_of(suites)])
    head = f"<p>{escape(run.line)}</p>{table}{told}{_images(plots)}"
    (folder / "index.html").write_text(worst.document("octavo bench", head + "".join(sections)), encoding="utf-8")
    return [written[page.sample.name] for page in worst.worst_of(everything, worst_pages)]


def by_family(pages: Sequence[PageScore]) -> list[Figures]:
    """Sum up the pages of each family, the one with the most silent errors and errors first."""
    groups: defaultdict[str, list[PageScore]] = defaultdict(list)
    for page in pages:
        groups[page.sample.family].append(page)
    found = [figures(name, group) for name, group in groups.items()]
    return sorted(found, key=lambda f: (-f.silent, f.exact - f.thresholds - f.invented, f.suite))


def _suite(name: str, pages: Sequence[PageScore]) -> dict[str, Any]:
    return asdict(figures(name, pages)) | {
        "families": [asdict(one) for one in by_family(pages)],
        "facts": [asdict(one) for one in facts.kinds_of(pages)],
        "pages_read": [_page(page) for page in pages],
    }


def _page(page: PageScore) -> dict[str, Any]:
    record = page.reading.record
    measured = {key: value for key, value in asdict(page.reading).items() if key != "record"}
    return {
        "sample": asdict(page.sample),
        "standing": record.standing if record else None,
        "thresholds": sum(finding.truth is not None for finding in page.findings),
        "exact": sum(finding.exact for finding in page.findings),
        "sure": sum(finding.exact and is_sure(finding) for finding in page.findings),
        "remarks": [remark.code for remark in record.remarks] if record else [],
        "errors": [_finding(finding) for finding in page.findings if not finding.exact],
        "fact_errors": [_fact(finding) for finding in page.facts if finding.verdict != "right"],
        **measured,
    }


def _finding(finding: Finding) -> dict[str, Any]:
    return {
        "verdict": finding.verdict,
        "silent": finding.silent,
        "truth": worst.describe(finding.truth) if finding.truth else None,
        "read": worst.describe(finding.read) if finding.read else None,
        "standing": finding.read.standing if finding.read else None,
        "probability": finding.read.probability if finding.read else None,
        "why_ask": list(finding.read.why_ask) if finding.read else [],
    }


def _fact(finding: FactFinding) -> dict[str, Any]:
    one = finding.truth or finding.read
    assert one is not None
    return {
        "verdict": finding.verdict,
        "silent": finding.silent,
        "of": list(one.key),
        "truth": finding.truth.value if finding.truth else None,
        "read": finding.read.value if finding.read else None,
        "standing": finding.read.standing if finding.read else None,
        "probability": finding.read.probability if finding.read else None,
    }


def _section(name: str, pages: Sequence[PageScore], bad: Sequence[PageScore], plots: Sequence[Path]) -> str:
    said = "".join(f"<li>{escape(note)}</li>" for note in notes(figures(name, pages)))
    items = "".join(
        f'<li><a href="{escape(page.sample.name)}.html">{escape(page.sample.name)}</a>: '
        f"{page.badness[0]} silent, {page.badness[1]} errors, {page.badness[2]} right but asked</li>"
        for page in bad
    )
    told = _table(facts.HEADINGS, [facts.row(one) for one in facts.kinds_of(pages)])
    return (
        f"<h2>{escape(name)}</h2><ul>{said}</ul>{_figures(by_family(pages), 'family')}{told}"
        f"<p>Worst pages:</p><ol>{items}</ol>{_images(plots)}"
    )


def _figures(lines: Sequence[Figures], first: str = HEADINGS[0]) -> str:
    return _table((first, *HEADINGS[1:]), rows(lines))


def _table(headings: Sequence[str], lines: Sequence[Sequence[str]]) -> str:
    """Give a table in HTML, or nothing where it would have no line."""
    if not lines:
        return ""
    head = "".join(f"<th>{escape(heading)}</th>" for heading in headings)
    body = "".join("<tr>" + "".join(f"<td>{escape(cell)}</td>" for cell in row) + "</tr>" for row in lines)
    return f"<table><tr>{head}</tr>{body}</table>"


def _images(paths: Sequence[Path]) -> str:
    return "".join(f'<p><img src="{escape(path.name)}" alt="{escape(path.stem)}"></p>' for path in paths)
