"""Measures blanking: ``python -m octavo.tools.bench.blanking.measure FOLDER`` with painted pages and their truth.

The folder is what ``octavo paint --way scan --out FOLDER FAMILY…`` leaves. An identifier's area counts as covered when
no ink is left to be seen in its true box on the page as displayed: at most 1% of the pixels that differ from the paper,
without the ruled lines of a form that run through all of it.
"""

from __future__ import annotations

import sys
from collections import Counter
from dataclasses import dataclass, field
from pathlib import Path

import cv2
import numpy as np

from ....extract.blank import BlankedPage, Told, blank_page
from ....extract.blank.places import Box, pixels_of
from ....extract.choices import Choices
from ....extract.intake import PageFailure, pages
from ....extract.page import Page
from ....interpret.exports.as_json import from_json
from ....interpret.record import Fact, FactName
from ...blanking.whole import read_to_blank

IDENTIFYING: frozenset[FactName] = frozenset(
    {"patient-name", "record-number", "birth-date", "test-date", "test-time", "tester", "place", "audiometer",
     "calibration-date", "reason", "note", "age", "page-number"}
)  # fmt: skip
TRUTH = ".truth.jsonl"
_INK, _LEFT, _RULES = 40, 0.01, 30


@dataclass(slots=True)
class Tally:
    """What was found over all pages."""

    pages: int = 0
    refused: int = 0
    areas: Counter[str] = field(default_factory=Counter)
    open_given: Counter[str] = field(default_factory=Counter)
    open_refused: Counter[str] = field(default_factory=Counter)
    black: float = 0.0
    where: list[str] = field(default_factory=list)
    why: Counter[str] = field(default_factory=Counter)


def left_open(page: Page, blanked: BlankedPage, box: Box) -> bool:
    """Say whether ink of a true box, in page fractions, is still to be seen."""
    height, width = blanked.covered.shape
    there = pixels_of((box[0] * width, box[1] * height, box[2] * width, box[3] * height), -1.0, blanked.covered)
    pixels = page.pixels[there].astype(int)
    if not pixels.size:
        return False
    paper = np.percentile(pixels.reshape(-1, 3), 90, axis=0)  # of this place: photos have shadows
    ink = ((paper - pixels).max(axis=2) > _INK).astype(np.uint8)
    rules = np.zeros_like(ink)
    for kernel in (np.ones((1, width // _RULES), np.uint8), np.ones((max(5, ink.shape[0]), 1), np.uint8)):
        if kernel.shape[0] <= ink.shape[0] and kernel.shape[1] <= ink.shape[1]:
            rules |= np.asarray(cv2.morphologyEx(ink, cv2.MORPH_OPEN, kernel), np.uint8)
    ink = (ink > 0) & (np.asarray(cv2.dilate(rules, np.ones((3, 3), np.uint8))) == 0)
    return bool((ink & ~blanked.covered[there]).sum() > max(4.0, _LEFT * ink.sum()))


def measure(folder: Path, *, own_facts: bool = False) -> Tally:
    """Blank every painted page of a folder, and count the areas that are still open.

    Parameters
    ----------
    folder : Path
        Pages with a ``.truth.jsonl`` beside each.
    own_facts : bool
        Also use the boxes that the reading itself takes for identifiers, as the command does; without them the rule
        that everything unknown goes has to do it alone.
    """
    tally = Tally()
    for truth in sorted(folder.glob(f"*{TRUTH}")):
        told = [from_json(line) for line in truth.read_text("utf-8").splitlines()]
        for page in pages(truth.with_name(truth.name.removesuffix(TRUTH))):
            if not isinstance(page, PageFailure):
                facts = told[page.source.page - 1].report.facts
                _count(tally, page, tuple(f for f in facts if f.name in IDENTIFYING), own_facts)
    return tally


def _count(tally: Tally, page: Page, facts: tuple[Fact, ...], own_facts: bool) -> None:
    seen = read_to_blank(page, Choices())
    boxes = tuple(f.box for f in seen.record.report.facts if f.box is not None and f.name in IDENTIFYING)
    told = Told(identifiers=boxes if own_facts else ())
    blanked = blank_page(page, seen.sheet, seen.charts, Choices(), told)
    tally.pages += 1
    tally.refused += bool(blanked.doubts)
    tally.why.update({doubt.what for doubt in blanked.doubts})
    tally.black += float(blanked.covered.mean())
    for fact in facts:
        tally.areas[fact.name] += 1
        if fact.box is not None and left_open(page, blanked, fact.box):
            (tally.open_refused if blanked.doubts else tally.open_given)[fact.name] += 1
            tally.where.append(f"{page.source.name} page {page.source.page}: {fact.name} at {fact.box}")


def main(folder: str, *options: str) -> None:
    """Print the figures of a folder."""
    tally = measure(Path(folder), own_facts="--own-facts" in options)
    areas, open_ = tally.areas.total(), tally.open_given.total()
    share = tally.black / max(tally.pages, 1)
    print(f"{tally.pages} pages, {tally.refused} refused ({dict(tally.why)}), {share:.1%} black")
    print(f"{areas} areas: {open_} open on pages given out, {tally.open_refused.total()} on pages refused")
    for name, count in sorted(tally.areas.items()):
        print(f"  {name}: {count}, open {tally.open_given[name]}")
    for line in tally.where:
        print(f"  open: {line}")


if __name__ == "__main__":
    main(*sys.argv[1:])
