"""From findings to figures: what a suite's pages say about the reader."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from statistics import median

from ...interpret.record import PageRecord
from .bounds import upper_bound
from .facts import FactFinding, compare_facts
from .matching import Finding, compare
from .reader import Reading
from .suites import SUITES, Sample, Suite


@dataclass(frozen=True, slots=True)
class PageScore:
    """One page of the benchmark: what was painted, what was read, and every finding.

    ``facts`` is empty where the truth holds no facts.
    """

    sample: Sample
    truth: PageRecord
    reading: Reading
    findings: tuple[Finding, ...]
    facts: tuple[FactFinding, ...] = ()

    @property
    def badness(self) -> tuple[int, int, int]:
        """For sorting the worst first: silent errors, errors, values right but left to a person."""
        silent = sum(finding.silent for finding in (*self.findings, *self.facts))
        errors = sum(not finding.exact for finding in self.findings)
        errors += sum(finding.verdict in ("wrong", "missed", "invented") for finding in self.facts)
        asked = sum(finding.exact and not is_sure(finding) for finding in self.findings)
        return silent, errors, asked + sum(finding.verdict == "right" and not finding.sure for finding in self.facts)


@dataclass(frozen=True, slots=True)
class Figures:
    """What a suite showed.

    Attributes
    ----------
    pages, refused, crashed : int
        Pages read; those that octavo refused with an error of its own; those on which it crashed or hung.
    thresholds, exact, within_5_db, wrong, missed, invented : int
        ``thresholds`` is the number of true ones: exact + wrong + missed. ``within_5_db`` holds the exact ones too.
    silent, silent_by_key : int
        Silent errors, a misread mark counted once; and counted as one missed and one invented threshold.
    silent_upper : float
        Exact one-sided 95% upper bound of the silent error rate over true thresholds; where the suite has none,
        of the share of pages on which a value was silently invented.
    sure : int
        Thresholds right and ``sure``.
    seconds : float or None
        Median time of reading one page.
    per_tesseract, per_parse : float or None
        Median over a sub-sample of pages of reading time over the time of a full-page single-threaded Tesseract
        pass on the same picture, and over that of pdfplumber's own parse of the page.
    peak_mb : float
        Largest resident memory of a reading process, 10^6 bytes.
    verdicts, silent_verdicts : dict
        Errors by kind.
    """

    suite: str
    pages: int
    refused: int
    crashed: int
    thresholds: int
    exact: int
    within_5_db: int
    wrong: int
    missed: int
    invented: int
    silent: int
    silent_by_key: int
    silent_upper: float
    sure: int
    seconds: float | None
    per_tesseract: float | None
    per_parse: float | None
    peak_mb: float
    verdicts: dict[str, int]
    silent_verdicts: dict[str, int]

    @property
    def exact_share(self) -> float | None:
        """Exact thresholds over true ones; None where there are none."""
        return self.exact / self.thresholds if self.thresholds else None

    @property
    def sure_share(self) -> float | None:
        """Thresholds right and ``sure`` over true ones; None where there are none."""
        return self.sure / self.thresholds if self.thresholds else None


def is_sure(finding: Finding) -> bool:
    """Say whether the reading gave this value as ``sure``."""
    return finding.read is not None and finding.read.standing == "sure"


def score_page(sample: Sample, truth: PageRecord, reading: Reading) -> PageScore:
    """Score one page; its facts too, where the suite's pages hold all of them in their truth."""
    suite = SUITES.get(sample.suite)
    told = suite is not None and suite.facts is not None
    facts = compare_facts(truth, reading.record) if told else ()
    return PageScore(sample, truth, reading, compare(truth, reading.record), facts)


def figures(suite: Suite | str, pages: Iterable[PageScore]) -> Figures:
    """Sum up the pages of one suite (or of one family, or of all)."""
    pages = tuple(pages)
    findings = [finding for page in pages for finding in page.findings]
    true_ones = [finding for finding in findings if finding.truth is not None]
    silent = [finding for finding in findings if finding.silent]
    verdicts = Counter(finding.verdict for finding in findings if not finding.exact)
    inventing = sum(any(finding.silent for finding in page.findings) for page in pages)
    missed, invented = verdicts["missed"], verdicts["invented"]
    return Figures(
        suite=suite if isinstance(suite, str) else suite.name,
        pages=len(pages),
        refused=sum(page.reading.refusal is not None for page in pages),
        crashed=sum(page.reading.crash is not None for page in pages),
        thresholds=len(true_ones),
        exact=sum(finding.exact for finding in findings),
        within_5_db=sum(finding.within_5_db for finding in findings),
        wrong=verdicts.total() - missed - invented,
        missed=missed,
        invented=invented,
        silent=len(silent),
        silent_by_key=sum(finding.silent_by_key for finding in findings),
        silent_upper=(upper_bound(len(silent), len(true_ones)) if true_ones else upper_bound(inventing, len(pages))),
        sure=sum(finding.exact and is_sure(finding) for finding in findings),
        seconds=_median(page.reading.seconds for page in pages),
        per_tesseract=_median(_ratio(page.reading.seconds, page.reading.tesseract_s) for page in pages),
        per_parse=_median(_ratio(page.reading.seconds, page.reading.parse_s) for page in pages),
        peak_mb=max((page.reading.peak_mb for page in pages), default=0.0),
        verdicts=dict(verdicts),
        silent_verdicts=dict(Counter(finding.verdict for finding in silent)),
    )


def _median(values: Iterable[float | None]) -> float | None:
    known = [value for value in values if value is not None]
    return median(known) if known else None


def _ratio(seconds: float | None, yardstick: float | None) -> float | None:
    return seconds / yardstick if seconds is not None and yardstick else None
