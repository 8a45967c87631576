"""Pure-tone averages by name, per ear and conduction; never silently over a missing frequency."""

from __future__ import annotations

from dataclasses import dataclass, replace

from ..errors import MisuseError
from ..record import Conduction, Ear, Threshold


@dataclass(frozen=True, slots=True)
class AverageRule:
    """Which frequencies an average takes.

    Attributes
    ----------
    id : str
        Its frequencies in kHz; a frequency that counts twice is written twice.
    frequencies_hz : tuple of float
        Hz, each as often as it counts.
    best : int or None
        How many of them, the best ones, are averaged; None for all.
    use : str
        Where it is used, and the source.
    """

    id: str
    frequencies_hz: tuple[float, ...]
    use: str
    best: int | None = None


AVERAGES: dict[str, AverageRule] = {
    rule.id: rule
    for rule in (
        AverageRule("0.5-1-2", (500, 1000, 2000), "classic degree, agreement with SRT (Fletcher 1929; AMA 1959)"),
        AverageRule("0.5-1-2-4", (500, 1000, 2000, 4000), "WHO 1991 and 2021; BIAP 02/1 bis"),
        AverageRule("0.5-1-2-3", (500, 1000, 2000, 3000), "AAO/AMA 1979 handicap"),
        AverageRule("0.25-0.5-1-2-4", (250, 500, 1000, 2000, 4000), "BSA 2018 descriptors, section 9"),
        AverageRule("0.5-1-1-2", (500, 1000, 1000, 2000), "Japan, four-part A"),
        AverageRule("0.5-1-1-2-2-4", (500, 1000, 1000, 2000, 2000, 4000), "Japan, six-part, occupational"),
        AverageRule("1-2-4", (1000, 2000, 4000), "noise-induced loss (Moore, Lowe and Cox 2022)"),
        AverageRule("2-3-4", (2000, 3000, 4000), "occupational threshold shift (29 CFR 1904.10)"),
        AverageRule("3-4-6", (3000, 4000, 6000), "high-frequency average (common practice)"),
        AverageRule("4-6-8", (4000, 6000, 8000), "high-frequency average (common practice)"),
        AverageRule("two-best-of-0.5-1-2", (500, 1000, 2000), "sloping losses, SRT check (Fletcher 1950)", best=2),
    )
}
"""The averages by id."""


@dataclass(frozen=True, slots=True)
class Average:
    """One pure-tone average of one ear and conduction.

    Attributes
    ----------
    rule : str
        Id of the average in ``AVERAGES``.
    ear, conduction : str
        As in the record.
    db_hl : float or None
        The average in dB HL, unrounded; None where a frequency is missing.
    at_least : bool
        A no-response level entered as the level that was not heard: the true average lies higher.
    missing_hz, no_response_hz, ask_hz, masked_hz : tuple of float
        The frequencies of the rule, Hz, ascending: with no value, with no response, whose value a person must still
        look at, whose masked value was taken.
    """

    rule: str
    ear: Ear
    conduction: Conduction
    db_hl: float | None
    at_least: bool = False
    missing_hz: tuple[float, ...] = ()
    no_response_hz: tuple[float, ...] = ()
    ask_hz: tuple[float, ...] = ()
    masked_hz: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True)
class _Taken:
    """The value that stands for one frequency, and whether more than one laid claim to it."""

    threshold: Threshold
    contested: bool


def average_rule(name: str) -> AverageRule:
    """Give the average of that id, or say which there are (MisuseError)."""
    if name not in AVERAGES:
        raise MisuseError(f"there is no average named '{name}'", f"Choose one of {', '.join(AVERAGES)}")
    return AVERAGES[name]


def average(
    thresholds: tuple[Threshold, ...],
    rule: str,
    ear: Ear,
    conduction: Conduction = "air",
    *,
    no_response_db: float | None = None,
) -> Average:
    """Average the unaided thresholds of one ear and conduction.

    Parameters
    ----------
    thresholds : tuple of Threshold
        All values of one audiogram; aided ones and comfortable or uncomfortable levels are left aside.
    rule : str
        Id of the average in ``AVERAGES``.
    ear, conduction : str
        Whose average.
    no_response_db : float, optional
        What a no response counts as, dB HL, where a scheme says so; else it enters with the level that was not heard,
        and the average is one of "at least".

    Returns
    -------
    Average
        With ``db_hl`` None and the missing frequencies named where any is missing.

    Raises
    ------
    MisuseError
        When there is no average of that id.

    Notes
    -----
    Where a masked and an unmasked value stand at the same frequency, the masked one is taken (common practice): the
    unmasked one may be the other ear's answer, which is why the other ear was masked. Where two values of the same
    masking stand there, the likelier is taken and the frequency counts as one to look at.
    """
    wanted = average_rule(rule)
    taken = {hz: _taken(thresholds, ear, conduction, hz) for hz in wanted.frequencies_hz}
    found = {hz: one for hz, one in taken.items() if one is not None}
    empty = Average(
        rule,
        ear,
        conduction,
        None,
        missing_hz=tuple(sorted(hz for hz, one in taken.items() if one is None)),
        no_response_hz=tuple(sorted(hz for hz, one in found.items() if not one.threshold.response)),
        ask_hz=tuple(sorted(hz for hz, one in found.items() if one.contested or one.threshold.standing == "ask")),
        masked_hz=tuple(sorted(hz for hz, one in found.items() if one.threshold.masked)),
    )
    if empty.missing_hz:
        return empty
    entering = sorted(_entering(found[hz].threshold, no_response_db) for hz in wanted.frequencies_hz)[: wanted.best]
    mean = sum(level for level, _ in entering) / len(entering)
    return replace(empty, db_hl=mean, at_least=any(at_least for _, at_least in entering))


def _entering(threshold: Threshold, no_response_db: float | None) -> tuple[float, bool]:
    """Give the level that enters, and whether it is one of "at least"."""
    if threshold.response:
        return threshold.level_db_hl, False
    if no_response_db is not None:
        return no_response_db, False
    return threshold.level_db_hl, True


def _taken(thresholds: tuple[Threshold, ...], ear: Ear, conduction: Conduction, hz: float) -> _Taken | None:
    here = [
        t
        for t in thresholds
        if (t.ear, t.conduction, t.frequency_hz, t.measure, t.aided) == (ear, conduction, hz, "threshold", False)
    ]
    claims = [t for t in here if t.masked] or here
    if not claims:
        return None
    best = max(claims, key=lambda t: t.probability)
    return _Taken(best, any((t.level_db_hl, t.response) != (best.level_db_hl, best.response) for t in claims))
