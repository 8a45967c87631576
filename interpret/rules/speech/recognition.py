"""Word recognition: graded, compared between ears and over time, and whether it falls where words get louder."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from ...finding import Finding
from ...record import Audiogram, Side, Speech, Standing
from ...settings import Case
from ..averages import average
from ..truth import MET, NOT_MET
from .agreement import SIDES
from .critical_difference import DIFFERENCES, difference, score_range

# After Goetzinger 1978; edges differ between books [memory]. The scores between two bands belong to the lower one.
GRADES: tuple[tuple[str, float], ...] = (("excellent", 90), ("good", 76), ("fair", 60), ("poor", 50), ("very poor", 0))
GRADE_RULE = "after Goetzinger 1978: 90, 76, 60 and 50 %"
TEST_RULE = "Thornton and Raffin 1978, 95 %"
ROLLOVER_RULES: tuple[tuple[str, float], ...] = (
    ("above 0.4, Jerger and Jerger 1971", 0.4),
    ("above 0.45, Dirks et al. 1977 (PB-50)", 0.45),
    ("above 0.35, Meyer and Mishler 1985 (NU-6)", 0.35),
    ("above 0.25, Bess et al. 1979", 0.25),
)
"""The first is checked in a textbook chapter; the others [memory]. Which list was used decides which fits."""
EXPECTED_RULE = "average to 40 dB HL and a score below 76 %, common practice"
_MILD_DB, _GOOD_PERCENT = 40.0, 76.0


def conclude(case: Case) -> Iterator[Finding]:
    """Give the findings on word recognition: unaided, in quiet, words scored as a whole."""
    best: dict[Side, Speech | None] = {ear: best_score(case.audiogram, ear) for ear in SIDES}
    for ear, score in best.items():
        if score is not None:
            yield _grade(score)
            yield from _below_expected(case, ear, score)
            yield from _rollover(case.audiogram, ear)
    right, left = best["right"], best["left"]
    if right is not None and left is not None:
        worse, better = sorted((right, left), key=_percent)
        compared = _compared("word-recognition-between-ears", worse, better)
        # Of equal scores no ear has the worse one.
        yield compared if compared.number else replace(compared, ear="both")


def changes(old: Audiogram, new: Audiogram) -> Iterator[Finding]:
    """Compare an ear's best scores of two tests; the number is the later one less the earlier one, %."""
    for ear in SIDES:
        before, after = best_score(old, ear), best_score(new, ear)
        if before is not None and after is not None:
            yield _compared("word-recognition-change", after, before)


def best_score(audiogram: Audiogram, ear: Side) -> Speech | None:
    """Give an ear's best score, the one of the longer list where two are equal."""
    return max(_scores(audiogram, ear), key=lambda one: (_percent(one), one.words or 0), default=None)


def _scores(audiogram: Audiogram, ear: Side) -> list[Speech]:
    return [
        one
        for one in audiogram.speech
        if (one.ear, one.measure, one.aided, one.phonemes) == (ear, "word-recognition", False, False)
        and one.snr_db is None
        and one.score_percent is not None
    ]


def _percent(score: Speech) -> float:
    return score.score_percent or 0.0


def _standing(*scores: Speech) -> Standing:
    return "ask" if any(score.standing == "ask" for score in scores) else "sure"


def _grade(score: Speech) -> Finding:
    percent, asks = _percent(score), score.standing == "ask"
    word = next(name for name, least in GRADES if percent >= least)
    numbers = [] if score.level_db_hl is None else [("level_db_hl", score.level_db_hl)]
    if score.words is not None:
        alike = score_range(percent, score.words)
        numbers += [("words", score.words), ("alike_from_percent", alike[0]), ("alike_to_percent", alike[1])]
    return Finding(
        "word-recognition", GRADE_RULE, ear=score.ear, word=word,
        # A printed number that was misread may be any number.
        could_be=tuple(name for name, _ in reversed(GRADES)) if asks else (),
        number=percent, unit="%", low=0 if asks else percent, high=100 if asks else percent,
        numbers=tuple(numbers), standing=_standing(score),
    )  # fmt: skip


def _compared(code: str, one: Speech, other: Speech) -> Finding:
    word = None
    if one.words is not None and other.words is not None:
        word = difference(_percent(one), one.words, _percent(other), other.words)
    asks = _standing(one, other) == "ask"
    gap = _percent(one) - _percent(other)
    lists = [(name, float(n)) for name, n in (("words", one.words), ("other_words", other.words)) if n is not None]
    return Finding(
        code, TEST_RULE, ear=one.ear, word=word, could_be=DIFFERENCES if asks and word is not None else (),
        number=gap, unit="%", low=-100 if asks else gap, high=100 if asks else gap,
        numbers=(("score_percent", _percent(one)), ("other_score_percent", _percent(other)), *lists),
        standing=_standing(one, other),
    )  # fmt: skip


def _below_expected(case: Case, ear: Side, score: Speech) -> Iterator[Finding]:
    mean = average(case.audiogram.thresholds, "0.5-1-2", ear)
    if mean.db_hl is None or mean.span is None or (mean.at_least and not mean.ask_hz):
        return
    asks = score.standing == "ask" or bool(mean.ask_hz)
    met = not mean.at_least and mean.db_hl <= _MILD_DB and _percent(score) < _GOOD_PERCENT
    possibly = mean.span.low <= _MILD_DB and (score.standing == "ask" or _percent(score) < _GOOD_PERCENT)
    if met or (asks and possibly):
        surely = mean.span.high <= _MILD_DB and score.standing == "sure"
        yield Finding(
            "word-recognition-below-expected", EXPECTED_RULE, ear=ear, word=MET if met else NOT_MET,
            could_be=() if not asks or surely else (NOT_MET, MET),
            numbers=(("score_percent", _percent(score)), ("average_db_hl", mean.db_hl)),
            standing="ask" if asks else "sure", rests_on=mean.ask_hz, no_response_hz=mean.no_response_hz,
        )  # fmt: skip


def _rollover(audiogram: Audiogram, ear: Side) -> Iterator[Finding]:
    """Judge how far the score falls at levels above that of the best one."""
    levelled = [(one, one.level_db_hl) for one in _scores(audiogram, ear) if one.level_db_hl is not None]
    # Of equal best scores the one at the lower level: whatever is louder may fall.
    best, best_level = max(levelled, key=lambda item: (_percent(item[0]), -item[1]), default=(None, 0.0))
    louder = [one for one, level in levelled if best is not None and level > best_level]
    if best is None or not louder or _percent(best) == 0:
        return
    least = min(louder, key=_percent)
    index = (_percent(best) - _percent(least)) / _percent(best)
    differs = None
    if best.words is not None and least.words is not None:
        differs = difference(_percent(best), best.words, _percent(least), least.words) != "not different"
    asks = _standing(best, *louder) == "ask"
    for name, limit in ROLLOVER_RULES:
        word = {True: MET, False: NOT_MET, None: None}[differs] if index > limit else NOT_MET
        yield Finding(
            "rollover", name, ear=ear, word=word, could_be=(NOT_MET, MET) if asks else (), number=index, unit="index",
            low=0 if asks else index, high=1 if asks else index,
            numbers=(("best_percent", _percent(best)), ("least_percent", _percent(least))),
            standing="ask" if asks else "sure",
        )  # fmt: skip
