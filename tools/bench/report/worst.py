"""The worst pages to look at: the page with its truth and its reading drawn over it, and what is wrong in words."""

from __future__ import annotations

import base64
from collections.abc import Sequence
from html import escape
from pathlib import Path

import cv2

from ....interpret.record import PageRecord, Point, Threshold
from ..facts import FactFinding, Item
from ..matching import Finding
from ..paint import as_jpeg, paint_page, picture_of
from ..scores import PageScore

_LONGEST_PX = 1800
_STYLE = """
body { font: 15px/1.4 sans-serif; margin: 1.5em; max-width: 110em }
table { border-collapse: collapse } td, th { padding: .2em .7em; border-bottom: 1px solid #ccc; text-align: right }
td:first-child, th:first-child { text-align: left } .silent { background: #fdd }
svg { width: 100%; height: auto; border: 1px solid #888 }
.truth { fill: none; stroke: #080; stroke-width: 2.5 } .read { stroke: #c0c; stroke-width: 2.5 }
text { font: 15px sans-serif } text.t { fill: #060 } text.r { fill: #a0a }
#truth:not(:checked) ~ svg .of-truth, #read:not(:checked) ~ svg .of-read { display: none }
"""


def document(title: str, body: str) -> str:
    """Wrap a body as a plain HTML page that needs nothing from elsewhere."""
    return (
        f'<!doctype html>\n<html lang="en"><meta charset="utf-8"><title>{escape(title)}</title>'
        f"<style>{_STYLE}</style>\n<h1>{escape(title)}</h1>\n{body}\n</html>\n"
    )


def worst_of(pages: Sequence[PageScore], most: int) -> list[PageScore]:
    """Choose the pages with the most silent errors, then errors, then open questions; pages with none are left out."""
    bad = [page for page in pages if any(page.badness) or page.reading.crash or page.reading.refusal]
    return sorted(bad, key=lambda page: page.badness, reverse=True)[:most]


def write_page(folder: Path, page: PageScore) -> Path:
    """Write one page's picture and findings; the picture is painted anew from the sample."""
    sample = page.sample
    pixels = picture_of(paint_page(sample), sample)
    shrink = min(1.0, _LONGEST_PX / max(pixels.shape[:2]))
    small = cv2.resize(pixels, None, fx=shrink, fy=shrink, interpolation=cv2.INTER_AREA)
    height, width = small.shape[:2]
    picture = base64.b64encode(as_jpeg(small)).decode("ascii")
    marks = _marks(page.truth, (width, height), truth=True)
    if page.reading.record is not None:
        marks += _marks(page.reading.record, (width, height), truth=False)
    body = (
        f"<p>{escape(_summary(page))}</p>\n{_table(page)}\n"
        '<p><input type="checkbox" id="truth" checked><label for="truth">truth (green rings, text above)</label> '
        '<input type="checkbox" id="read" checked><label for="read">reading (violet crosses, text below)</label>\n'
        f'<svg viewBox="0 0 {width} {height}"><image width="{width}" height="{height}" '
        f'href="data:image/jpeg;base64,{picture}"/>{marks}</svg></p>'
    )
    path = folder / f"{sample.name}.html"
    path.write_text(document(sample.name, body), encoding="utf-8")
    return path


def describe(threshold: Threshold) -> str:
    """Write a threshold in a few words of the trade."""
    words = [threshold.ear, threshold.conduction]
    words += ["masked"] if threshold.masked else []
    words += ["aided"] if threshold.aided else []
    words += [threshold.measure] if threshold.measure != "threshold" else []
    words += [f"{threshold.frequency_hz:g} Hz {threshold.level_db_hl:g} dB HL"]
    words += [] if threshold.response else ["no response"]
    return " ".join(words)


def _summary(page: PageScore) -> str:
    reading, sample = page.reading, page.sample
    silent, errors, asked = page.badness
    stands = f"stands as {reading.record.standing}" if reading.record else "no record"
    went = reading.crash or reading.refusal
    return (
        f"Family {sample.family}, seed {sample.seed}, {sample.way}{', black ink' if sample.mono else ''}: "
        f"{silent} silent errors, {errors} errors, {asked} right but asked; the page {stands}. {went or ''}"
    )


def _table(page: PageScore) -> str:
    shown = [finding for finding in page.findings if not finding.exact]
    rows = "".join(_line(finding) for finding in sorted(shown, key=lambda finding: not finding.silent))
    told = [finding for finding in page.facts if finding.verdict in ("wrong", "missed", "invented")]
    rows += "".join(_fact_line(finding) for finding in sorted(told, key=lambda finding: not finding.silent))
    remarks = page.reading.record.remarks if page.reading.record else ()
    said = "".join(f"<li>{escape(remark.code)}: {escape(remark.text)}</li>" for remark in remarks)
    head = "<tr><th>what</th><th>truth</th><th>reading</th><th>standing</th><th>why</th></tr>"
    return f"<table>{head}{rows}</table>\n<p>Remarks of the reading:</p><ul>{said}</ul>"


def _line(finding: Finding) -> str:
    read = finding.read
    cells = (
        finding.verdict + (", silent" if finding.silent else ""),
        describe(finding.truth) if finding.truth else "",
        describe(read) if read else "",
        f"{read.standing} {read.probability:.4f}" if read else "",
        ", ".join(read.why_ask) if read else "",
    )
    mark = ' class="silent"' if finding.silent else ""
    return f"<tr{mark}>" + "".join(f"<td>{escape(cell)}</td>" for cell in cells) + "</tr>"


def _fact_line(finding: FactFinding) -> str:
    read = finding.read
    cells = (
        finding.verdict + (", silent" if finding.silent else ""),
        _said(finding.truth),
        _said(read),
        f"{read.standing} {read.probability:.4f}" if read else "",
        "",
    )
    mark = ' class="silent"' if finding.silent else ""
    return f"<tr{mark}>" + "".join(f"<td>{escape(cell)}</td>" for cell in cells) + "</tr>"


def _said(item: Item | None) -> str:
    return "" if item is None else f"{' '.join(item.key)}: {item.value}"


def _marks(record: PageRecord, size: tuple[int, int], *, truth: bool) -> str:
    return "".join(
        _mark(threshold, (threshold.seen.at[0] * size[0], threshold.seen.at[1] * size[1]), truth=truth)
        for audiogram in record.audiograms
        for threshold in audiogram.thresholds
        if threshold.seen is not None and threshold.seen.at is not None
    )


def _mark(threshold: Threshold, at: Point, *, truth: bool) -> str:
    x, y = at
    name = f"{threshold.ear[0].upper()}{threshold.conduction[0]}{'m' if threshold.masked else ''}"
    name += f" {threshold.level_db_hl:g}{'' if threshold.response else ' no response'}"
    name += "" if truth or threshold.standing == "sure" else "?"
    if truth:
        shape, kind, rise = f'<circle class="truth" cx="{x:.1f}" cy="{y:.1f}" r="16"/>', "t", -20
    else:
        arms = f"M{x - 11:.1f} {y:.1f}h22M{x:.1f} {y - 11:.1f}v22"
        shape, kind, rise = f'<path class="read" d="{arms}"/>', "r", 32
    group = "of-truth" if truth else "of-read"
    text = f'<text class="{kind}" x="{x:.1f}" y="{y + rise:.1f}" text-anchor="middle">{escape(name)}</text>'
    return f'<g class="{group}">{shape}{text}<title>{escape(describe(threshold))}</title></g>'
