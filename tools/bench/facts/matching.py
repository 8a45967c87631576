"""Hold what a page says round its charts against the truth: facts, speech, middle ear, emissions, printed averages."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from ....interpret.record import PageRecord
from .stated import Item, items_of, same

Verdict = Literal["right", "wrong", "missed", "invented", "left-open"]
"""``left-open``: the page itself leaves the value to the reader, and no wrong one stands as ``sure``."""


@dataclass(frozen=True, slots=True)
class FactFinding:
    """One thing that the truth states, that the reading states, or both, and what became of it.

    ``silent`` is a wrong or invented value that stands as ``sure``. A missed fact is never silent: nobody takes what is
    not there for a value.
    """

    truth: Item | None
    read: Item | None
    verdict: Verdict
    silent: bool

    @property
    def kind(self) -> str:
        """What sort of thing it is, for the table of kinds."""
        one = self.truth or self.read
        assert one is not None
        return one.kind

    @property
    def counted(self) -> bool:
        """It is a true fact that the page states beyond doubt."""
        return self.truth is not None and not self.truth.is_open

    @property
    def sure(self) -> bool:
        """It is right and stands as ``sure``."""
        return self.verdict == "right" and self.read is not None and self.read.standing == "sure"


def compare_facts(truth: PageRecord, read: PageRecord | None) -> tuple[FactFinding, ...]:
    """Hold all that one page states beside thresholds against its truth.

    Parameters
    ----------
    truth : PageRecord
        The page as painted, from a family whose truth holds all its facts.
    read : PageRecord or None
        The reading; None where octavo refused the page: all is missed then.

    Returns
    -------
    tuple of FactFinding
        Every true item once, and every read one that belongs to none.

    Notes
    -----
    Each number, word or verdict is an item of its own: the level of a word recognition score is one, its per cent
    another. Partners state the same thing (the fact's name; ear, measure and aiding of a speech test and its number
    among several; the probe's ear, the stimulus' ear and the frequency of a reflex). The page holds one test: results
    are compared over all its audiograms together.
    """
    true_items = items_of(truth)
    waiting: defaultdict[tuple[str, ...], list[Item]] = defaultdict(list)
    for item in items_of(read, truth=truth) if read is not None else ():
        waiting[item.key].append(item)
    findings: list[FactFinding] = []
    for group in _grouped(true_items):
        for one, other in _partners(group, waiting[group[0].key]):
            if other is not None:
                waiting[one.key].remove(other)
            findings.append(_judged(one, other))
    left = (item for items in waiting.values() for item in items)
    # a true value that the reading gives a second time is not invented
    extra = [item for item in left if not any(item.key == one.key and same(one, item) for one in true_items)]
    return (*findings, *(FactFinding(None, item, "invented", item.standing == "sure") for item in extra))


def _grouped(items: Sequence[Item]) -> list[list[Item]]:
    groups: defaultdict[tuple[str, ...], list[Item]] = defaultdict(list)
    for item in items:
        groups[item.key].append(item)
    return list(groups.values())


def _partners(truth: Sequence[Item], read: Sequence[Item]) -> list[tuple[Item, Item | None]]:
    """Pair items of one key: equal values first, then true ones that are beyond doubt, in the page's order."""
    free, pairs = list(read), []
    ordered = sorted(truth, key=lambda one: (not any(same(one, other) for other in read), one.is_open))
    for one in ordered:
        found = sorted(free, key=lambda other: (not same(one, other), other.standing != "sure"))
        pairs.append((one, found[0] if found else None))
        if found:
            free.remove(found[0])
    return pairs


def _judged(truth: Item, read: Item | None) -> FactFinding:
    right = read is not None and same(truth, read)
    if truth.is_open:
        silent = read is not None and not right and read.standing == "sure"
        return FactFinding(truth, read, "wrong" if silent else "left-open", silent)
    if read is None:
        return FactFinding(truth, None, "missed", silent=False)
    return FactFinding(truth, read, "right" if right else "wrong", not right and read.standing == "sure")
