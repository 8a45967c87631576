"""The degree of a hearing loss by a named scheme, with the bands of ``tables/degree_scales.csv``."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from functools import cache
from typing import Literal

from ..errors import MisuseError
from ..record import Ear, Threshold
from ..tables import published
from .averages import Average, average, better_ear
from .doubt import Span
from .truth import Truth, at_least

DEFAULT_SCHEME = "clark-1981"
EARS: tuple[Ear, Ear] = ("right", "left")
UNILATERAL = "unilateral"


@dataclass(frozen=True, slots=True)
class Band:
    """One grade: from ``lower_db`` to ``upper_db`` (dB HL, None for open), each edge within the band or not."""

    grade: str
    lower_db: float | None
    lower_within: bool
    upper_db: float | None
    upper_within: bool
    mark: str


@dataclass(frozen=True, slots=True)
class Scheme:
    """One published scale of degrees.

    Attributes
    ----------
    id, name : str
        For the computer and for people.
    scale : str
        Its name in the packaged table.
    average : str
        Id of the average that it grades (``averages.AVERAGES``).
    note : str
        What the reader of a grade should know: choices made where the scheme leaves one.
    ear_rule : {"each ear", "better ear"}
        Whether the scheme grades ears, or the person by the better ear.
    no_response_db : float or None
        What a no response counts as under the scheme, dB HL; None where it does not say.
    round_up : bool
        The scheme itself rounds the average up to a whole dB.
    """

    id: str
    name: str
    scale: str
    average: str
    note: str
    ear_rule: Literal["each ear", "better ear"] = "each ear"
    no_response_db: float | None = None
    round_up: bool = False


_GAP = "an average between two whole-dB bands, such as 25.5 dB, is graded with the upper one"

SCHEMES: dict[str, Scheme] = {
    scheme.id: scheme
    for scheme in (
        Scheme("clark-1981", "Clark 1981, as used by ASHA", "Clark 1981 (ASHA)", "0.5-1-2",
               f"the scale names no frequencies, 0.5, 1 and 2 kHz are used here; {_GAP}"),
        Scheme("goodman-1965", "Goodman 1965", "Goodman 1965", "0.5-1-2", _GAP),
        Scheme("jerger-1980", "Jerger and Jerger 1980", "Jerger & Jerger 1980", "0.5-1-2", _GAP),
        Scheme("who-1991", "WHO 1991", "WHO 1991", "0.5-1-2-4",
               f"the grade belongs to the person, by the better ear; {_GAP}", "better ear"),
        Scheme("who-2021", "WHO 2021", "WHO 2021", "0.5-1-2-4",
               "World Report on Hearing, 2021; the grade belongs to the person, by the better ear", "better ear"),
        Scheme("bsa-2018", "BSA 2018", "BSA 2018", "0.25-0.5-1-2-4",
               f"no response counts as 130 dB; {_GAP}", no_response_db=130),
        Scheme("biap-02-1", "BIAP 02/1 bis", "BIAP 02/1 bis", "0.5-1-2-4",
               "no response counts as 120 dB; the average is rounded up to a whole dB",
               no_response_db=120, round_up=True),
        Scheme("japan", "Japan, textbook after JIS T 1201", "Japan (audiology textbook after JIS T 1201)", "0.5-1-2-4",
               "of the averages in use there, 0.5, 1, 2 and 4 kHz is taken here"),
    )
}  # fmt: skip
"""The schemes by id.

Scales in whole dB say nothing of the averages between two bands. BIAP rounds up; the same is chosen for the others (a
band ends at its printed upper edge), since it is the one published rule and never makes a loss look smaller.
"""


@dataclass(frozen=True, slots=True)
class Degree:
    """The degree of one ear, or of the person.

    Attributes
    ----------
    scheme : str
        Id of the scheme.
    ear : str
        ``right``, ``left``, or ``both`` for the person by the scheme's own rule.
    grade : str or None
        The scheme's word; None where the average is missing or outside the scale.
    at_least : bool
        A no-response level entered and a higher grade exists: this grade or a higher one.
    average : Average
        What was graded; with its missing frequencies, no responses, and values still to look at.
    graded_db_hl : float or None
        The average as graded, after the scheme's own rounding, dB HL.
    could_be : tuple of str
        Every grade that it could be within the doubt of values to look at, the lowest first; empty where there is none.
    """

    scheme: str
    ear: Ear
    grade: str | None
    at_least: bool
    average: Average
    graded_db_hl: float | None
    could_be: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class NormalLimit:
    """The worst threshold that still counts as within normal limits, dB HL, and where it comes from."""

    id: str
    db_hl: float
    source: str


NORMAL_LIMITS: dict[str, NormalLimit] = {
    limit.id: limit
    for limit in (
        NormalLimit("adult", 25, "25 dB, the upper edge of normal in WHO 1991 and Goodman 1965"),
        NormalLimit("child", 15, "15 dB, customary for children; the upper edge of normal in Clark 1981"),
    )
}
"""The limits by id. Grades never use them: every scheme has its own lowest band."""


def normal_limit(name: str) -> NormalLimit:
    """Give the limit of that id, or say which there are (MisuseError)."""
    if name not in NORMAL_LIMITS:
        raise MisuseError(f"there is no normal limit named '{name}'", f"Choose one of {', '.join(NORMAL_LIMITS)}")
    return NORMAL_LIMITS[name]


def scheme_named(name: str) -> Scheme:
    """Give the scheme of that id, or say which there are (MisuseError)."""
    if name not in SCHEMES:
        raise MisuseError(f"there is no grading scheme named '{name}'", f"Choose one of {', '.join(SCHEMES)}")
    return SCHEMES[name]


@cache
def bands(scheme: str) -> tuple[Band, ...]:
    """Give the bands of a scheme, lowest first, edges exactly as the packaged table has them."""
    scale = scheme_named(scheme).scale
    rows = (row for row in _rows() if row["scale"] == scale)
    return tuple(_band(row) for row in rows if not row["ear_rule"].startswith("unilateral"))


def grade(scheme: str, db_hl: float) -> str | None:
    """Grade an average that is known.

    Parameters
    ----------
    scheme : str
        Id of the scheme.
    db_hl : float
        The average, dB HL.

    Returns
    -------
    str or None
        The scheme's word; None where the average lies below the scale's lowest edge.
    """
    levels = bands(scheme)
    if scheme_named(scheme).round_up:
        db_hl = math.ceil(db_hl)
    lowest = levels[0].lower_db
    if lowest is not None and db_hl < lowest:
        return None
    return next(band.grade for band in levels if _below_upper_edge(db_hl, band))


def grades_within(scheme: str, span: Span) -> tuple[str, ...]:
    """Give every grade that an average within this range may have, the lowest first; nothing where it is one."""
    words = [band.grade for band in bands(scheme)]
    low = grade(scheme, span.low) or words[0]
    high = words[-1] if math.isinf(span.high) else grade(scheme, span.high) or words[0]
    found = tuple(words[words.index(low) : words.index(high) + 1])
    return found if len(found) > 1 else ()


def degree(thresholds: tuple[Threshold, ...], ear: Ear, scheme: str = DEFAULT_SCHEME) -> Degree:
    """Grade one ear's air-conduction average.

    Parameters
    ----------
    thresholds : tuple of Threshold
        All values of one audiogram.
    ear : {"right", "left"}
        Which ear.
    scheme : str
        Id of the scheme.
    """
    rule = scheme_named(scheme)
    mean = average(thresholds, rule.average, ear, "air", no_response_db=rule.no_response_db)
    return _graded(rule, mean, ear)


def degree_of_person(thresholds: tuple[Threshold, ...], scheme: str) -> Degree | None:
    """Grade the person under a scheme that goes by the better ear.

    Returns
    -------
    Degree or None
        None under a scheme that grades ears, or where one ear's average is missing: then nobody can tell which ear
        is the better one.

    Notes
    -----
    WHO 2021 names a loss of one ear "unilateral": the better ear below 20 dB, the worse at 35 dB or more (this row of
    the table stands unchecked).
    """
    rule = scheme_named(scheme)
    if rule.ear_rule != "better ear":
        return None
    right, left = (average(thresholds, rule.average, ear, no_response_db=rule.no_response_db) for ear in EARS)
    better = better_ear(right, left)
    if better is None or right.db_hl is None or left.db_hl is None:
        return None
    found = _graded(rule, better, "both")
    worse = left if right.db_hl <= left.db_hl else right
    one_eared = _unilateral(rule, better, worse)
    if one_eared is None:
        return found
    ask_hz = tuple(sorted({*right.ask_hz, *left.ask_hz}))
    asked = replace(better, ask_hz=ask_hz)
    could = tuple(dict.fromkeys((*found.could_be, *((found.grade,) if found.grade else ()), UNILATERAL)))
    if one_eared.surely and not better.at_least:
        return Degree(scheme, "both", UNILATERAL, False, asked, better.db_hl, could if ask_hz else ())
    return replace(found, average=asked, could_be=could if ask_hz else ())


def _graded(rule: Scheme, mean: Average, ear: Ear) -> Degree:
    if mean.db_hl is None or mean.span is None:
        return Degree(rule.id, ear, None, False, mean, None)
    words = [band.grade for band in bands(rule.id)]
    word = grade(rule.id, mean.db_hl)
    graded = float(math.ceil(mean.db_hl)) if rule.round_up else mean.db_hl
    at_least = mean.at_least and word != words[-1]
    return Degree(rule.id, ear, word, at_least, mean, graded, grades_within(rule.id, mean.span) if mean.ask_hz else ())


def _unilateral(rule: Scheme, better: Average, worse: Average) -> Truth | None:
    """Judge whether the loss is of one ear, None where the scheme has no such class or it cannot be one."""
    rows = [row for row in _rows() if row["scale"] == rule.scale and row["ear_rule"].startswith("unilateral")]
    edge = bands(rule.id)[0].upper_db
    if not rows or edge is None or better.span is None or worse.span is None or better.db_hl is None:
        return None
    worse_reaches = at_least(worse.span, float(rows[0]["lower_db"]))
    below = Truth(better.span.high < edge, better.span.low < edge)
    as_read = better.db_hl < edge and worse.db_hl is not None and worse.db_hl >= float(rows[0]["lower_db"])
    could = below & worse_reaches
    return Truth(as_read, could.possibly) if could.possibly else None


def _below_upper_edge(db_hl: float, band: Band) -> bool:
    if band.upper_db is None:
        return True
    return db_hl <= band.upper_db if band.upper_within else db_hl < band.upper_db


def _band(row: dict[str, str]) -> Band:
    def edge(text: str) -> float | None:
        return float(text) if text else None

    return Band(
        row["grade"],
        edge(row["lower_db"]),
        row["lower_edge"].startswith("incl"),
        edge(row["upper_db"]),
        row["upper_edge"].startswith("incl"),
        row["mark"],
    )


def _rows() -> tuple[dict[str, str], ...]:
    return published("degree_scales.csv")
