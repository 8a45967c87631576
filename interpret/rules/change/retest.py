"""Whether two thresholds of one place differ by more than a second test of the same ear would."""

from __future__ import annotations

from collections.abc import Iterator

from ...finding import Finding, standing_of
from ...record import Conduction, Ear, Threshold
from ..averages import AVERAGES, average
from ..degree import EARS
from ..doubt import NO_LIMIT, Span, row_of
from ..truth import as_read

WORDS = ("better", "perhaps better", "within retest", "perhaps worse", "worse")
RETEST_DB, CHANGE_DB, MEAN_CHANGE_DB = 5, 15, 10
"""A difference of 5 dB is noise, of 10 dB at one frequency doubtful; 15 dB at one or 10 dB on a mean is a change
(common practice [memory]). Of 20 listeners 91.5 % of thresholds came back within 5 dB and 98.1 % within 10 (Henry 2001,
JRRD 38, 567-581)."""

RULE = "test-retest: 5 dB noise, 15 dB change"
MEAN_RULE = "test-retest: 10 dB on a mean"
_MEAN = "0.5-1-2-4"
_CONDUCTIONS: tuple[Conduction, ...] = ("air", "bone")


def word_of(change_db: float) -> str:
    """Name a change at one frequency, dB, worse as positive."""
    size = abs(change_db)
    if size <= RETEST_DB:
        return "within retest"
    perhaps = "perhaps " if size < CHANGE_DB else ""
    return f"{perhaps}{'worse' if change_db > 0 else 'better'}"


def words_within(span: Span) -> tuple[str, ...]:
    """Give every word that a change within this range may have, the best first."""
    return WORDS[WORDS.index(word_of(span.low)) : WORDS.index(word_of(span.high)) + 1]


def changes(old: tuple[Threshold, ...], new: tuple[Threshold, ...]) -> Iterator[Finding]:
    """Compare two tests frequency by frequency, and their averages.

    Parameters
    ----------
    old, new : tuple of Threshold
        All values of the earlier and the later test.

    Yields
    ------
    Finding
        ``threshold-change`` for every frequency that both tests have, ``average-change`` for each ear's mean of 0.5, 1,
        2 and 4 kHz. Changes are dB, worse as positive. Without a word where it was not heard and the levels leave it
        open.
    """
    for ear in EARS:
        for conduction in _CONDUCTIONS:
            yield from _by_frequency(old, new, ear, conduction)
        yield from _of_average(old, new, ear)


def _by_frequency(
    old: tuple[Threshold, ...], new: tuple[Threshold, ...], ear: Ear, conduction: Conduction
) -> Iterator[Finding]:
    before, after = row_of(old, ear, conduction), row_of(new, ear, conduction)
    for hz in (hz for hz in after if hz in before):
        first, last = before[hz], after[hz]
        read, full = as_read(last).minus(as_read(first)), last.span.minus(first.span)
        words, could_be = words_within(read), words_within(full)
        ask = first.ask or last.ask
        yield Finding(
            "threshold-change", RULE, ear=ear, conduction=conduction, frequency_hz=hz,
            word=words[0] if len(words) == 1 else None, could_be=could_be if ask and len(could_be) > 1 else (),
            number=last.db_hl - first.db_hl, unit="dB", low=full.low, high=full.high,
            numbers=(("old_db_hl", first.db_hl), ("new_db_hl", last.db_hl)), at_least=not last.response,
            standing="ask" if ask else "sure", rests_on=(hz,) if ask else (),
            no_response_hz=() if first.response and last.response else (hz,),
        )  # fmt: skip


def _of_average(old: tuple[Threshold, ...], new: tuple[Threshold, ...], ear: Ear) -> Iterator[Finding]:
    before, after = (average(values, _MEAN, ear) for values in (old, new))
    missing = tuple(hz for hz in AVERAGES[_MEAN].frequencies_hz if hz in {*before.missing_hz, *after.missing_hz})
    if before.db_hl is None or after.db_hl is None or before.span is None or after.span is None:
        if len(missing) < len(AVERAGES[_MEAN].frequencies_hz):
            yield Finding("average-change", MEAN_RULE, ear=ear, conduction="air", missing_hz=missing)
        return
    change, span = after.db_hl - before.db_hl, after.span.minus(before.span)
    rests_on = tuple(sorted({*before.ask_hz, *after.ask_hz}))
    silent = tuple(sorted({*before.no_response_hz, *after.no_response_hz}))
    # As the values read, a mean that something unheard entered is open above.
    least = -NO_LIMIT if before.at_least else change
    read = _ordered(_word_of_mean(least), _word_of_mean(NO_LIMIT if after.at_least else change))
    could_be = _ordered(_word_of_mean(span.low), _word_of_mean(span.high))
    yield Finding(
        "average-change", MEAN_RULE, ear=ear, conduction="air",
        word=read[0] if len(read) == 1 else None,
        could_be=could_be if rests_on and len(could_be) > 1 else (), number=change, unit="dB", low=span.low,
        high=span.high, numbers=(("old_db_hl", before.db_hl), ("new_db_hl", after.db_hl)), at_least=after.at_least,
        standing=standing_of(rests_on), rests_on=rests_on, no_response_hz=silent,
    )  # fmt: skip


_MEAN_WORDS = ("better", "within retest", "worse")


def _word_of_mean(change_db: float) -> str:
    if abs(change_db) < MEAN_CHANGE_DB:
        return "within retest"
    return "worse" if change_db > 0 else "better"


def _ordered(low: str, high: str) -> tuple[str, ...]:
    return _MEAN_WORDS[_MEAN_WORDS.index(low) : _MEAN_WORDS.index(high) + 1]
