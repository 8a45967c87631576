"""The suites: which families, spoiled how, must be read how well; and which page is which number of a suite."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from zlib import crc32

DEVELOPMENT_SEED = 1
"""For daily work; figures that are published use a seed that nobody worked with."""

_SEEDS = 2**31


@dataclass(frozen=True, slots=True)
class Bar:
    """What a suite must show; None where the figure is only reported.

    ``exact_share`` and ``silent_rate`` are over true thresholds, or, where the bar is of facts, over true facts.
    ``sure_share`` counts thresholds that are right and stand as ``sure``, ``most_invented`` those that are not on the
    page. ``per_tesseract`` and ``per_parse`` bound the reading time over that of a full-page Tesseract pass and over
    that of pdfplumber's own parse; with fewer than ``least_…`` thresholds or pages nothing is shown yet.
    """

    exact_share: float | None = None
    sure_share: float | None = None
    silent_rate: float | None = None
    most_invented: int | None = None
    least_thresholds: int = 0
    least_pages: int = 0
    least_facts: int = 0
    per_tesseract: float | None = None
    per_parse: float | None = None


@dataclass(frozen=True, slots=True)
class Suite:
    """A kind of page.

    Attributes
    ----------
    name, summary : str
        The name for ``--suite`` and one line about it.
    ways : tuple of str
        How pages reach the reader, each page by one of them: ``drawn`` (the vector PDF itself) or a spoiling.
    tag : str or None
        Only families with this tag; None for every family of printed audiograms with usual axes.
    mono : bool
        Drawn in black ink only.
    bar : Bar
        What it must show.
    facts : Bar or None
        What its facts and other tests must show; None where they are not recorded in the truth.
    """

    name: str
    summary: str
    ways: tuple[str, ...]
    tag: str | None = None
    mono: bool = False
    bar: Bar = Bar()
    facts: Bar | None = None

    @property
    def reads_report(self) -> bool:
        """Whether the words around the charts are read: facts and printed tables are among them."""
        return self.facts is not None or self.tag in _TABLES


_TABLES = frozenset({"pen-table", "printed-table"})
_SCANNED = Bar(exact_share=0.998, sure_share=0.98, silent_rate=0.0002, least_thresholds=3000, per_tesseract=0.5)


def _of_print(exact: float, sure: float) -> Bar:
    """Give the bar of a suite of printed charts or tables, whose rate of silent errors is the same for all."""
    return Bar(exact_share=exact, sure_share=sure, silent_rate=0.0005, least_thresholds=3000)


_WITH_TEXT = Bar(per_tesseract=1.3)
_APART = frozenset({"pen", "pen-table", "printed-table"})
"""Families that are filled in by hand, or hold tables, are in the suites that ask for them alone."""

SUITES: dict[str, Suite] = {
    suite.name: suite
    for suite in (
        Suite(
            "drawn",
            "vector PDFs",
            ("drawn",),
            bar=Bar(exact_share=0.9995, sure_share=0.995, silent_rate=0.0, least_thresholds=3000, per_parse=6.0),
        ),
        Suite("scan", "flat scans in colour, 200 to 300 dpi", ("scan",), bar=_SCANNED),
        Suite("mono", "flat scans of pages in black ink only", ("scan",), mono=True, bar=_SCANNED),
        Suite("copy", "photocopies", ("copy",), bar=_of_print(0.99, 0.95)),
        Suite("fax-fine", "faxes, 204 x 196 dpi", ("fax-fine",), bar=_of_print(0.98, 0.9)),
        Suite("fax-coarse", "faxes, 204 x 98 dpi", ("fax-coarse",), bar=_of_print(0.95, 0.8)),
        Suite("photo", "phone photos", ("photo",), bar=_of_print(0.99, 0.93)),
        Suite("odd", "odd axes, drawn and scanned", ("drawn", "scan"), tag="odd", bar=_of_print(0.99, 0.95)),
        Suite(
            "several",
            "several charts or test dates, drawn and scanned",
            ("drawn", "scan"),
            tag="several",
            bar=_of_print(0.99, 0.95),
        ),
        Suite(
            "none",
            "pages without an audiogram and blank forms, in every way",
            ("drawn", "scan", "copy", "fax-fine", "fax-coarse", "photo"),
            tag="none",
            bar=Bar(silent_rate=0.0, most_invented=0, least_pages=500),
        ),
        Suite(
            "pen",
            "forms filled in with a red and a blue pen, flat scans",
            ("scan",),
            tag="two-pens",
            bar=Bar(exact_share=0.99, sure_share=0.92, silent_rate=0.0005, least_thresholds=3000),
        ),
        Suite(
            "one-pen",
            "forms filled in with one pen, flat scans",
            ("scan",),
            tag="one-pen",
            bar=Bar(exact_share=0.98, sure_share=0.88, silent_rate=0.001, least_thresholds=3000),
        ),
        Suite(
            "pen-copy",
            "forms filled in by hand, photocopied or faxed",
            ("copy", "fax-fine", "fax-coarse"),
            tag="pen",
            bar=Bar(exact_share=0.95, sure_share=0.75, silent_rate=0.001, least_thresholds=3000),
        ),
        Suite(
            "pen-photo",
            "forms filled in by hand, phone photos",
            ("photo",),
            tag="pen",
            bar=Bar(exact_share=0.97, sure_share=0.85, silent_rate=0.001, least_thresholds=3000),
        ),
        Suite(
            "pen-table",
            "thresholds as digits by hand in a printed table, flat scans",
            ("scan",),
            tag="pen-table",
            bar=Bar(silent_rate=0.001),
        ),
        Suite(
            "facts-drawn",
            "reports with all their facts and other tests, vector PDFs",
            ("drawn",),
            tag="facts",
            facts=Bar(exact_share=0.995, silent_rate=0.001, least_facts=1000),
        ),
        Suite(
            "facts-scan",
            "reports with all their facts and other tests, flat scans at 300 dpi",
            ("scan-300",),
            tag="facts",
            bar=_WITH_TEXT,
            facts=Bar(exact_share=0.97, silent_rate=0.001, least_facts=1000),
        ),
        Suite(
            "facts-fax",
            "reports with all their facts and other tests, faxes, 204 x 196 dpi",
            ("fax-fine",),
            tag="facts",
            bar=_WITH_TEXT,
            facts=Bar(exact_share=0.9, silent_rate=0.001, least_facts=1000),
        ),
        Suite(
            "facts-pen",
            "printed forms with facts filled in by hand, flat scans at 300 dpi",
            ("scan-300",),
            tag="facts-pen",
            facts=Bar(silent_rate=0.001, least_facts=1000),
        ),
        Suite(
            "table",
            "printed tables of thresholds, alone or beside a chart, vector PDFs",
            ("drawn",),
            tag="printed-table",
            bar=Bar(exact_share=0.9995, sure_share=0.995, silent_rate=0.0, least_thresholds=3000),
        ),
        Suite(
            "table-scan",
            "printed tables of thresholds, alone or beside a chart, flat scans",
            ("scan",),
            tag="printed-table",
            bar=Bar(exact_share=0.998, sure_share=0.98, silent_rate=0.0002, least_thresholds=3000),
        ),
        Suite(
            "table-fax",
            "printed tables of thresholds, alone or beside a chart, faxes",
            ("fax-fine", "fax-coarse"),
            tag="printed-table",
            bar=_of_print(0.98, 0.9),
        ),
    )
}


@dataclass(frozen=True, slots=True)
class Sample:
    """One page of the benchmark, named by all that it is made from; ``suffix`` is the form of its file."""

    suite: str
    number: int
    family: str
    seed: int
    mono: bool
    way: str
    suffix: str

    @property
    def name(self) -> str:
        """A file name without its suffix, from which the page can be painted again."""
        return f"{self.suite}-{self.number:05d}-{self.family}-{self.seed}"


_SUFFIXES = {
    "drawn": (".pdf",),
    "scan": (".pdf", ".png", ".jpg", ".tif"),
    "scan-300": (".pdf", ".png", ".jpg", ".tif"),
    "copy": (".pdf", ".png"),
    "fax-fine": (".tif",),
    "fax-coarse": (".tif",),
    "photo": (".jpg",),
}


def plan(suite: Suite, number: int, seed: int, families: tuple[str, ...]) -> Sample:
    """Say what page ``number`` of a suite is.

    Families take turns, and so do the ways within a family, so that every few pages of a suite hold all of them.

    Parameters
    ----------
    suite : Suite
        The suite.
    number : int
        The page, from 0.
    seed : int
        The run's seed.
    families : tuple of str
        The suite's families (:func:`families_of`).
    """
    import numpy as np  # here, since the command asks this module for the suites' names at every start

    rng = np.random.default_rng([crc32(suite.name.encode()), seed, number])
    turn, place = divmod(number, len(families))
    way = suite.ways[(turn + place) % len(suite.ways)]
    return Sample(
        suite=suite.name,
        number=number,
        family=families[place],
        seed=int(rng.integers(_SEEDS)),
        mono=suite.mono,
        way=way,
        suffix=str(rng.choice(_SUFFIXES[way])),
    )


def families_of(suite: Suite) -> tuple[str, ...]:
    """Name the families of a suite, in alphabetical order: only such as nothing was trained on."""
    from ..painter import FAMILIES

    def fits(tags: frozenset[str]) -> bool:
        return suite.tag in tags if suite.tag else not tags & ({"odd", "none", "facts", "facts-pen"} | _APART)

    return tuple(sorted(name for name, family in FAMILIES.items() if family.split == "bench" and fits(family.tags)))


def pages_needed(suite: Suite, *, pages: int, thresholds: int | None) -> Callable[[int, int], bool]:
    """Give the test whether a suite needs another page, from the pages and true thresholds painted so far."""
    if thresholds is None:
        return lambda painted, _: painted < pages
    if suite.tag == "none":  # asked for enough thresholds, it takes enough pages
        return lambda painted, _: painted < max(pages, suite.bar.least_pages)
    return lambda painted, found: painted < pages or found < thresholds
