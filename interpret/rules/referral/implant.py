"""Where published criteria say that an implant evaluation may be discussed with a specialist."""

from __future__ import annotations

from collections.abc import Iterator

from ...finding import Finding, standing_of
from ...record import Side
from ...settings import Case
from ..averages import average, better_ear
from ..doubt import Row, row_of
from ..speech.agreement import SIDES
from ..speech.recognition import best_score
from ..truth import MET, NOT_MET, Spans, Truth, at_least, at_least_n, judged

UK_RULE = "NICE TA566, audiometric part: 80 dB or more at two of 0.5, 1, 2, 3, 4 kHz in both ears"
_UK_DB, _UK_HZ = 80.0, (500.0, 1000.0, 2000.0, 3000.0, 4000.0)

US_RULE = "60/60, Zwolan et al. 2020: better-ear average 60 dB or more and its word score 60 % or less"
_US_DB, _US_PERCENT = 60.0, 60.0


def conclude(case: Case) -> Iterator[Finding]:
    """Give the criteria that are met or could be."""
    yield from _united_kingdom(case)
    yield from _united_states(case)


def _united_kingdom(case: Case) -> Iterator[Finding]:
    rows: list[Row] = []
    for ear in SIDES:
        row = row_of(case.audiogram.thresholds, ear)
        rows.append({hz: row[hz] for hz in _UK_HZ if hz in row})
    if not all(rows):
        return

    def test(right: Spans, left: Spans) -> Truth:
        found = [at_least_n((at_least(span, _UK_DB) for span in row.values()), 2) for row in (right, left)]
        return found[0] & found[1]

    verdict = judged(test, *rows)
    if verdict.word == MET or verdict.could_be:
        rests_on = tuple(sorted({hz for row in rows for hz, level in row.items() if level.ask}))
        silent = tuple(sorted({hz for row in rows for hz, level in row.items() if not level.response}))
        yield Finding(
            "implant-evaluation", UK_RULE, ear="both", word=verdict.word or NOT_MET, could_be=verdict.could_be,
            standing=standing_of(rests_on), rests_on=rests_on, no_response_hz=silent,
        )  # fmt: skip


def _united_states(case: Case) -> Iterator[Finding]:
    """Judge the referral criterion of 60 dB and 60 % [memory]; without a word score it cannot be applied."""
    right, left = (average(case.audiogram.thresholds, "0.5-1-2", ear) for ear in SIDES)
    mean = better_ear(right, left)
    if mean is None or mean.db_hl is None or mean.span is None or right.db_hl is None or left.db_hl is None:
        return
    # Of equally good ears the one with the better score stands for the person.
    better: list[Side] = [ear for ear, one in zip(SIDES, (right, left), strict=True) if one.db_hl == mean.db_hl]
    scores = [score for ear in better if (score := best_score(case.audiogram, ear)) is not None]
    score = max(scores, key=lambda one: one.score_percent or 0, default=None)
    if score is None or score.score_percent is None or len(scores) < len(better):
        return
    asks = bool(mean.ask_hz) or score.standing == "ask"
    met = mean.db_hl >= _US_DB and score.score_percent <= _US_PERCENT
    possibly = mean.span.high >= _US_DB and (score.standing == "ask" or score.score_percent <= _US_PERCENT)
    surely = mean.span.low >= _US_DB and score.standing == "sure" and score.score_percent <= _US_PERCENT
    if met or (asks and possibly):
        yield Finding(
            "implant-evaluation", US_RULE, ear="both", word=MET if met else NOT_MET,
            could_be=(NOT_MET, MET) if asks and not surely else (),
            numbers=(("average_db_hl", mean.db_hl), ("score_percent", score.score_percent)),
            standing="ask" if asks else "sure", rests_on=mean.ask_hz, no_response_hz=mean.no_response_hz,
        )  # fmt: skip
