"""From findings on facts to figures."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass

from ..bounds import upper_bound
from .matching import FactFinding


@dataclass(frozen=True, slots=True)
class FactFigures:
    """What was read of facts and other tests.

    Attributes
    ----------
    name : str
        The suite, or the kind of fact.
    pages : int
        Pages that state any.
    facts, exact, wrong, missed : int
        ``facts`` is the number of true values beyond doubt: exact + wrong + missed. A name, a date, a level, a per cent
        are each one.
    invented : int
        Values that the page does not state.
    silent : int
        Wrong or invented values that stand as ``sure``, among them such as the page leaves open.
    silent_upper : float
        Exact one-sided 95% upper bound of silent over true values.
    sure : int
        Right and ``sure``.
    left_open : int
        Values that the page leaves to the reader (a date whose month nobody can tell), and that no wrong ``sure``
        was given for.
    """

    name: str
    pages: int
    facts: int
    exact: int
    wrong: int
    missed: int
    invented: int
    silent: int
    silent_upper: float
    sure: int
    left_open: int

    @property
    def exact_share(self) -> float | None:
        """Exact values over true ones; None where there are none."""
        return self.exact / self.facts if self.facts else None

    @property
    def sure_share(self) -> float | None:
        """Values right and ``sure`` over true ones; None where there are none."""
        return self.sure / self.facts if self.facts else None

    @property
    def silent_rate(self) -> float | None:
        """Silent errors over true values; None where there are none."""
        return self.silent / self.facts if self.facts else None


def fact_figures(name: str, pages: Iterable[tuple[FactFinding, ...]]) -> FactFigures:
    """Sum up the findings of pages."""
    pages = tuple(pages)
    findings = [finding for page in pages for finding in page]
    counted = [finding for finding in findings if finding.counted]
    verdicts = Counter(finding.verdict for finding in counted)
    silent = sum(finding.silent for finding in findings)
    return FactFigures(
        name=name,
        pages=sum(bool(page) for page in pages),
        facts=len(counted),
        exact=verdicts["right"],
        wrong=verdicts["wrong"],
        missed=verdicts["missed"],
        invented=sum(finding.verdict == "invented" for finding in findings),
        silent=silent,
        silent_upper=upper_bound(silent, len(counted)),
        sure=sum(finding.sure for finding in counted),
        left_open=sum(finding.verdict == "left-open" for finding in findings),
    )


def by_kind(pages: Iterable[tuple[FactFinding, ...]]) -> list[FactFigures]:
    """Sum up each kind of fact over the pages, in alphabetical order."""
    pages = tuple(pages)
    kinds = sorted({finding.kind for page in pages for finding in page})
    return [fact_figures(kind, [tuple(f for f in page if f.kind == kind) for page in pages]) for kind in kinds]
