"""Hold a reading against the truth: which threshold is which, what is wrong, and what is wrong without a warning."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from math import dist
from typing import Literal

from ...interpret.record import Audiogram, PageRecord, Point, Threshold

Verdict = Literal[
    "right",
    "wrong-level",
    "wrong-response",
    "wrong-frequency",
    "wrong-ear",
    "wrong-masking",
    "wrong-audiogram",
    "wrong-symbol",
    "missed",
    "invented",
]
"""``wrong-symbol``: a mark read as another in more than one respect, or in conduction, aiding or measure."""

SAME_MARK = 0.012
"""How near two positions are taken as one mark of the page, in page fractions: 2.5 mm across and 3.5 mm down on A4,
about half a 5-dB step or less on the charts in use [common practice], so that neighbours are not confused."""

_TOLERANCE_DB = 1e-6


@dataclass(frozen=True, slots=True)
class Finding:
    """One threshold of the truth, of the reading, or of both, and what became of it.

    Attributes
    ----------
    verdict : Verdict
        What is wrong; one mark that was misread counts once, as ``wrong-…``, with both values given.
    silent : bool
        A wrong, missed or invented threshold of which nobody is warned.
    silent_by_key : int
        The same under the strictest count: 0, 1, or 2 where a misread mark is one missed and one invented threshold.
    """

    truth: Threshold | None
    read: Threshold | None
    verdict: Verdict
    silent: bool
    silent_by_key: int

    @property
    def exact(self) -> bool:
        """Ear, conduction, masking, aiding, measure, frequency, level and response are all right."""
        return self.verdict == "right"

    @property
    def within_5_db(self) -> bool:
        """As ``exact``, but the level may be off by up to 5 dB."""
        if self.truth is None or self.read is None or self.verdict not in ("right", "wrong-level"):
            return False
        off = abs(self.truth.level_db_hl - self.read.level_db_hl)
        return off <= 5 + _TOLERANCE_DB and self.truth.response == self.read.response


@dataclass(frozen=True, slots=True)
class _Placed:
    """A threshold without a partner of its own kind, and its audiogram, counted as ``pair_audiograms`` gives them."""

    threshold: Threshold
    audiogram: int


def compare(truth: PageRecord, read: PageRecord | None) -> tuple[Finding, ...]:
    """Hold one page's reading against its truth.

    Parameters
    ----------
    truth : PageRecord
        The page as painted, positions as on the page that was read.
    read : PageRecord or None
        The reading; None where octavo refused the page with an error. The person has a message then and no value,
        so nothing of it is silent.

    Returns
    -------
    tuple of Finding
        Every true threshold once, and every read one that belongs to none.

    Notes
    -----
    Partners have the same ear, conduction, masking, aiding, measure and frequency in the same audiogram. What is left
    over on both sides and stands at one place of the page (where a position is not known: at one frequency and level)
    is one misread mark. Silent, as the record's definition says: wrong or invented and standing ``sure``; or missed,
    unless a value or a remark with the code ``missing-expected`` names that ear and conduction, or nothing at all was
    read and the page stands as ``ask``.
    """
    findings: list[Finding] = []
    lost: list[_Placed] = []
    extra: list[_Placed] = []
    for number, (true_one, read_one) in enumerate(pair_audiograms(truth.audiograms, read.audiograms if read else ())):
        both, lost_here, extra_here = _by_key(_thresholds(true_one), _thresholds(read_one))
        findings += [_known(*pair) for pair in both]
        lost += [_Placed(threshold, number) for threshold in lost_here]
        extra += [_Placed(threshold, number) for threshold in extra_here]
    for true_one, read_one in _misread(lost, extra):
        lost.remove(true_one)
        extra.remove(read_one)
        silent = read_one.threshold.standing == "sure"
        by_key = silent + (not _is_flagged(true_one.threshold, read))
        findings.append(Finding(true_one.threshold, read_one.threshold, _respect(true_one, read_one), silent, by_key))
    for placed in lost:
        silent = not _is_flagged(placed.threshold, read)
        findings.append(Finding(placed.threshold, None, "missed", silent, int(silent)))
    for placed in extra:
        silent = placed.threshold.standing == "sure"
        findings.append(Finding(None, placed.threshold, "invented", silent, int(silent)))
    return tuple(findings)


def pair_audiograms(
    truth: tuple[Audiogram, ...], read: tuple[Audiogram, ...]
) -> list[tuple[Audiogram | None, Audiogram | None]]:
    """Find which audiogram of the reading is which of the truth, by test date, place on the page and order.

    Returns
    -------
    list of pairs
        The truth's audiograms in order, each with its partner or None; then those of the reading that have none.
    """
    if not truth or not read:
        return [*((one, None) for one in truth), *((None, one) for one in read)]
    from scipy.optimize import linear_sum_assignment

    cost = [[_distance(a, b) + 1e-3 * abs(i - j) for j, b in enumerate(read)] for i, a in enumerate(truth)]
    rows, columns = linear_sum_assignment(cost)
    partner = {int(row): int(column) for row, column in zip(rows, columns, strict=True)}
    pairs: list[tuple[Audiogram | None, Audiogram | None]] = []
    pairs += [(one, read[partner[i]] if i in partner else None) for i, one in enumerate(truth)]
    pairs += [(None, one) for j, one in enumerate(read) if j not in partner.values()]
    return pairs


def _distance(one: Audiogram, other: Audiogram) -> float:
    dates_differ = None not in (one.tested_on, other.tested_on) and one.tested_on != other.tested_on
    places, other_places = _places(one), _places(other)
    apart = min((dist(a, b) for a in places for b in other_places), default=0.0)
    return apart + dates_differ


def _places(audiogram: Audiogram) -> list[Point]:
    outlines = [chart.outline for chart in audiogram.charts]
    if outlines:
        return [_middle(outline) for outline in outlines]
    seen = [t.seen.at for t in audiogram.thresholds if t.seen is not None and t.seen.at is not None]
    return [_middle(seen)] if seen else []


def _middle(points: Iterable[Point]) -> Point:
    xs, ys = zip(*points, strict=True)
    return sum(xs) / len(xs), sum(ys) / len(ys)


def _thresholds(audiogram: Audiogram | None) -> tuple[Threshold, ...]:
    return audiogram.thresholds if audiogram else ()


def _key(threshold: Threshold) -> tuple[object, ...]:
    return (
        threshold.ear,
        threshold.conduction,
        threshold.masked,
        threshold.aided,
        threshold.measure,
        round(threshold.frequency_hz),
    )


def _by_key(
    truth: tuple[Threshold, ...], read: tuple[Threshold, ...]
) -> tuple[list[tuple[Threshold, Threshold]], list[Threshold], list[Threshold]]:
    waiting: dict[tuple[object, ...], list[Threshold]] = defaultdict(list)
    for threshold in read:
        waiting[_key(threshold)].append(threshold)
    pairs: list[tuple[Threshold, Threshold]] = []
    lost: list[Threshold] = []
    # of two values of one key, the one whose mark was read comes first
    for threshold in sorted(truth, key=lambda t: not any(_apart(t, r) is not None for r in waiting[_key(t)])):
        there = waiting[_key(threshold)]
        if not there:
            lost.append(threshold)
            continue
        nearest = there.pop(_nearest(threshold, there))
        pairs.append((threshold, nearest))
    return pairs, lost, [threshold for there in waiting.values() for threshold in there]


def _nearest(truth: Threshold, read: list[Threshold]) -> int:
    """Of values of one key, take the one at the same mark of the page, then the nearest level, then a sure one."""

    def order(number: int) -> tuple[bool, float, bool]:
        other = read[number]
        return _apart(truth, other) is None, abs(truth.level_db_hl - other.level_db_hl), other.standing != "sure"

    return min(range(len(read)), key=order)


def _known(truth: Threshold, read: Threshold) -> Finding:
    verdict: Verdict = "right"
    if abs(truth.level_db_hl - read.level_db_hl) > _TOLERANCE_DB:
        verdict = "wrong-level"
    elif truth.response != read.response:
        verdict = "wrong-response"
    silent = verdict != "right" and read.standing == "sure"
    return Finding(truth, read, verdict, silent, int(silent))


def _is_flagged(missed: Threshold, read: PageRecord | None) -> bool:
    if read is None:
        return True
    values = [threshold for audiogram in read.audiograms for threshold in audiogram.thresholds]
    if not values and read.standing == "ask":
        return True
    warnings = [value for value in values if "missing-expected" in value.why_ask and value.standing == "ask"]
    warnings += [remark for remark in read.remarks if remark.code == "missing-expected"]
    return any((one.ear, one.conduction) == (missed.ear, missed.conduction) for one in warnings)


def _misread(lost: list[_Placed], extra: list[_Placed]) -> list[tuple[_Placed, _Placed]]:
    candidates = [
        (len(_differences(a, b)), apart, i, j)
        for i, a in enumerate(lost)
        for j, b in enumerate(extra)
        if (apart := _apart(a.threshold, b.threshold)) is not None
    ]
    pairs: list[tuple[_Placed, _Placed]] = []
    rows: set[int] = set()
    columns: set[int] = set()
    for _, _, i, j in sorted(candidates):
        if i not in rows and j not in columns:
            rows.add(i)
            columns.add(j)
            pairs.append((lost[i], extra[j]))
    return pairs


def _apart(truth: Threshold, read: Threshold) -> float | None:
    """How far apart two thresholds' marks are, where they can be one mark of the page; else None."""
    here = truth.seen.at if truth.seen else None
    there = read.seen.at if read.seen else None
    if here is not None and there is not None:
        apart = dist(here, there)
        return apart if apart <= SAME_MARK else None
    same = (
        round(truth.frequency_hz) == round(read.frequency_hz)
        and abs(truth.level_db_hl - read.level_db_hl) <= _TOLERANCE_DB
        and truth.response == read.response
    )
    return SAME_MARK if same else None


def _differences(truth: _Placed, read: _Placed) -> set[str]:
    names = ("ear", "conduction", "masked", "aided", "measure", "frequency")
    keys = zip(names, _key(truth.threshold), _key(read.threshold), strict=True)
    differ = {name for name, mine, other in keys if mine != other}
    return differ | ({"audiogram"} if truth.audiogram != read.audiogram else set())


_RESPECTS: dict[str, Verdict] = {
    "frequency": "wrong-frequency",
    "ear": "wrong-ear",
    "masked": "wrong-masking",
    "audiogram": "wrong-audiogram",
}


def _respect(truth: _Placed, read: _Placed) -> Verdict:
    differ = _differences(truth, read)
    return _RESPECTS.get(differ.pop(), "wrong-symbol") if len(differ) == 1 else "wrong-symbol"
