"""Whether the numbers of a speech test can be so: units, ranges, and scores that are whole numbers of words."""

from __future__ import annotations

from dataclasses import replace

from ....interpret.record import Speech
from ..layout.values import Value
from ..layout.vocabulary import bare

LEVELS = frozenset({"dB{HL}", "dB"})
LEAST_DB, MOST_DB = -10.0, 120.0
"""What speech audiometers give, dB HL: -10 to 100 or 120 by earphone (common practice)."""
MOST_SNR_DB = 40.0
FEWEST_WORDS, MOST_WORDS = 5, 200


SPL_USUAL = frozenset({"de"})
"""Languages in which speech levels in dB are dB SPL as a rule, as with the Freiburg test (common practice)."""
LOSS = "horverlust"
"""How the German label of a level begins that is a loss, and has the normal ear for its reference."""


def check_level(level: Value | None, why: list[str], language: str | None = None) -> None:
    """Check a speech level's unit and range; ``language`` is the page's."""
    if level is None or level.token.value is None:
        return
    if level.unit is None:
        why.append("unit-missing")
    elif level.unit not in LEVELS:
        why.append("unit-differs")
    elif level.unit == "dB" and language in SPL_USUAL and not bare(level.label.token.text).startswith(LOSS):
        why.append("reference-unclear")
    if not LEAST_DB <= level.token.value <= MOST_DB or level.token.decimals:
        why.append("implausible")


def check_score(score: Value | None, words: Value | None, *, phonemes: bool, why: list[str]) -> None:
    if score is None or score.token.value is None:
        return
    percent = score.token.value
    if score.unit != "%":
        why.append("unit-missing")
    if not 0 <= percent <= 100:
        why.append("implausible")
    count = words.token.value if words is not None else None
    if count is None:
        return
    if not FEWEST_WORDS <= count <= MOST_WORDS or not float(count).is_integer():
        why.append("implausible")
    elif not phonemes and not whole_words(percent, int(count)):
        why.append("numbers-differ")


def within(value: Value | None, low: float, high: float) -> float | None:
    """Give a number that the record has room for; what lies outside was misread and is none."""
    number = value.token.value if value is not None else None
    return number if number is not None and low <= number <= high else None


def word_count(words: Value | None) -> int | None:
    """Give how many words were presented, where the number can be one."""
    number = within(words, 1, 1000)
    return int(number) if number is not None else None


def whole_words(percent: float, words: int) -> bool:
    """Say whether a score, printed in whole per cent, can be that of so many words.

    >>> whole_words(92, 25), whole_words(93, 25)
    (True, False)
    """
    return any(abs(100 * right / words - percent) < 1 for right in range(words + 1))


def check_snr(snr: Value | None, why: list[str]) -> None:
    if snr is not None and snr.token.value is not None and abs(snr.token.value) > MOST_SNR_DB:
        why.append("implausible")


def without_rivals(tests: tuple[Speech, ...]) -> tuple[Speech, ...]:
    """Let tests ask that were done alike and came out otherwise: one of them is of another day, or of the other ear."""

    def differ(one: Speech, other: Speech) -> bool:
        return _how(one) == _how(other) and _outcome(one) != _outcome(other)

    return tuple(
        replace(one, standing="ask", why_ask=tuple(dict.fromkeys((*one.why_ask, "two-readings"))))
        if any(differ(one, other) for other in tests)
        else one
        for one in tests
    )


def _how(one: Speech) -> tuple[object, ...]:
    how = (one.ear, one.measure, one.conduction, one.masked, one.aided)
    if one.measure != "word-recognition":
        return how
    return (*how, one.level_db_hl, one.words, one.word_list, one.phonemes, one.snr_db)


def _outcome(one: Speech) -> tuple[object, ...]:
    score = one.measure == "word-recognition"
    return (one.score_percent,) if score else (one.level_db_hl, one.response)
