"""Notice what is missing: a gap in an ear's row of marks, or ink too weak to be taken for a mark."""

from __future__ import annotations

import math
import re
from collections import Counter, defaultdict
from collections.abc import Set as AbstractSet

from ...interpret.reasons import remark
from ...interpret.record import Conduction, Ear, Measure, Remark, Threshold
from ...interpret.symbols import SYMBOL_SETS, Glyph, Ink, Meaning
from ..chart import FrequencyScale, Mark, MeasuredChart
from ..page import Word
from ..sheet import Sheet
from .symbols.convention import Convention

OCTAVES = (250.0, 500.0, 1000.0, 2000.0, 4000.0, 8000.0)
SPEECH_OCTAVES = frozenset({500.0, 1000.0, 2000.0, 4000.0})
"""What every row holds, of bone, loudness and loudspeaker marks too (ASHA 2005 for bone; common practice)."""
EXTENDED_HZ = 8500.0
"""Above this a form prints only what it tests."""
LABEL = re.compile(r"\d{1,2}([.,]\d{1,2})?\s?[kK]|\d{1,2}[.,]?\d{3}")
"""How a form prints a frequency from 1 kHz."""
BEYOND = 1.06
"""How far beyond the last label's frequency, as a ratio, a mark is too far to belong to it."""
FEWEST_LABELS = 3
"""Labels of the axis that make its row."""
FEWEST = 2
"""Marks that make a row from which others are expected."""

OTHER_EAR: dict[Ear, Ear] = {"right": "left", "left": "right"}
FEWEST_BOTH = 4
"""So many frequencies at which a row of air has masked and unmasked marks: where one between them has the unmasked
alone the masked one may lie on it. Of 9 such gaps on 440 painted pages that nothing else told two were filled."""

Row = tuple[Ear, Conduction, bool, Measure]
"""Ear, conduction, whether aided, and measure: what is tested at the same frequencies throughout."""


def gaps(
    thresholds: tuple[Threshold, ...], scales: tuple[FrequencyScale, ...], *, grey: bool = False
) -> tuple[Remark, ...]:
    """Name the frequencies at which a row of marks leaves out what is commonly tested.

    Parameters
    ----------
    thresholds : tuple of Threshold
        The values of one audiogram.
    scales : tuple of FrequencyScale
        The frequency axes of its charts.
    grey : bool, optional
        Whether bone marks whose ear only ink names may have lost their ink.

    Returns
    -------
    tuple of Remark
        ``missing-expected`` for the octaves between a row's first and last mark, those that its kind always has, what
        only the other ear's row has, for bone what only the masked row leaves out, where two marks of no named ear
        stand somewhere, one of each ear, where only one does, the bone of an ear most of whose air is missing, that in
        most of whose marks other ink was seen, and that whose mark may stand as the other ear's.

    Notes
    -----
    Common practice: both ears are tested at the same frequencies; air at the printed octaves from 250 to 8000 Hz and,
    where any above 8 kHz was tested, at all printed there (where none was, the first is named); bone at 500 to 4000 Hz
    at the least.
    """
    rows = _rows(thresholds)
    expected = _left_out(thresholds, rows, {hz for scale in scales for hz, _ in scale.anchors})
    unnamed = (t for t in thresholds if "ear-uncertain" in t.why_ask or (grey and t.conduction == "bone"))
    either: dict[Conduction, None] = {
        t.conduction: None for t in unnamed if t.ear == "unspecified" or t.measure != "threshold"
    }
    return (
        *(
            remark("missing-expected", ear=row[0], conduction=row[1], frequency_hz=hz)
            for row, missing in expected.items()
            for hz in sorted(missing)
        ),
        # what took most of an ear's air, a colour that was not copied say, may have taken its bone
        *(remark("missing-expected", ear=ear, conduction="bone") for ear in _all_but_lost(expected, rows)),
        # what hangs from most bone marks of an ear may be its other bone marks
        *(remark("missing-expected", ear=ear, conduction="bone") for ear in _hung_with_ink(thresholds)),
        *(
            remark("missing-expected", ear=ear, conduction="bone", frequency_hz=hz)
            for ear, hz in _of_either_ear(thresholds)
        ),
        # without its colour the other ear's mark may lie on any of them
        *(remark("missing-expected", ear="unspecified", conduction=conduction) for conduction in either),
    )


def _left_out(
    thresholds: tuple[Threshold, ...], rows: dict[Row, set[float]], printed: set[float]
) -> dict[Row, set[float]]:
    """Give the frequencies that are commonly tested and that each row leaves out."""
    expected: dict[Row, set[float]] = {}
    for row, seen in rows.items():
        inner = {hz for hz in OCTAVES if min(seen) <= hz <= max(seen)}
        expected[row] = (inner | rows.get(_other_ear(row), set()) | _always(row, seen, printed)) - seen
    for row in _lone(rows):
        expected[_other_ear(row)] = rows[row]
    for row in [row for row in expected if row[0] == "unspecified" and expected[row]]:
        for ear in ("right", "left"):  # on a grey page nothing else names the ear of such a mark
            expected.setdefault((ear, *row[1:]), set()).update(expected[row])
    for row, seen in _rows(tuple(t for t in thresholds if t.masked and t.conduction == "bone")).items():
        expected[row] |= {hz for hz in SPEECH_OCTAVES if min(seen) <= hz <= max(seen)} - seen
    for row, hidden in _hidden(thresholds).items():
        expected[row] |= hidden
    for row, single in _single(thresholds).items():
        expected[row] |= single
    return expected


def _rows(thresholds: tuple[Threshold, ...]) -> dict[Row, set[float]]:
    rows: dict[Row, set[float]] = defaultdict(set)
    for t in thresholds:
        rows[(t.ear, t.conduction, t.aided, t.measure)].add(t.frequency_hz)
    return rows


def _all_but_lost(expected: dict[Row, set[float]], rows: dict[Row, set[float]]) -> list[Ear]:
    """Give the ears of whose air more is missing than was read."""
    air: list[Row] = [("right", "air", False, "threshold"), ("left", "air", False, "threshold")]
    return [row[0] for row in air if len(expected.get(row, ())) > len(rows.get(row, ()))]


def _hung_with_ink(thresholds: tuple[Threshold, ...]) -> list[Ear]:
    """Give the ears at most of whose bone marks it is open whether an arrow hangs from them."""
    bone: dict[Ear, list[bool]] = defaultdict(list)
    for t in thresholds:
        if t.conduction == "bone":
            bone[t.ear].append("arrow-uncertain" in t.why_ask)
    return [ear for ear, asked in bone.items() if sum(asked) >= FEWEST and 2 * sum(asked) > len(asked)]


def _of_either_ear(thresholds: tuple[Threshold, ...]) -> list[tuple[Ear, float]]:
    """Give where bone of an ear is missing whose mark may be what stands there as the other ear's."""
    bone = [t for t in thresholds if t.conduction == "bone" and t.ear in ("right", "left")]
    places = {(t.ear, t.frequency_hz) for t in bone}
    others: list[tuple[Ear, float]] = [(OTHER_EAR[t.ear], t.frequency_hz) for t in bone if "ear-uncertain" in t.why_ask]
    return [place for place in dict.fromkeys(others) if place not in places]


def bone_without_air(thresholds: list[Threshold]) -> bool:
    """Say whether an ear has bone values and no air at all: ink was lost then, since air is always tested."""
    of_air = {t.ear for t in thresholds if t.conduction == "air"}
    bone = Counter(t.ear for t in thresholds if t.conduction == "bone" and t.ear in ("right", "left"))
    return any(count >= FEWEST and ear not in of_air for ear, count in bone.items())


def _hidden(thresholds: tuple[Threshold, ...]) -> dict[Row, set[float]]:
    """Give where an ear's unmasked mark may lie beneath another.

    Air does beneath the masked mark of a row that has both at other frequencies, and masked air beneath the unmasked
    one between others that have both; bone beneath the other ear's, where both ears' rows have unmasked bone.
    """
    seen: dict[tuple[Row, bool], set[float]] = defaultdict(set)
    for t in thresholds:
        if t.measure == "threshold":
            seen[(t.ear, t.conduction, t.aided, t.measure), t.masked].add(t.frequency_hz)
    found: dict[Row, set[float]] = defaultdict(set)
    for row, masked in list(seen):
        plain, other = seen.get((row, False), set()), seen.get((_other_ear(row), False), set())
        above = seen[row, masked] if masked else set[float]()
        if row[1] == "air" and len(plain & above) >= FEWEST:
            found[row] |= above - plain
        if row[1] == "air" and len(plain & above) >= FEWEST_BOTH:
            found[row] |= {hz for hz in plain - above if min(above) < hz < max(above)}
        if row[1] == "bone" and not masked and min(len(plain), len(other)) >= FEWEST:
            found[row] |= other - plain
    return found


def _single(thresholds: tuple[Threshold, ...]) -> dict[Row, set[float]]:
    """Give where one mark of no named ear stands, in rows that have two elsewhere."""
    counts: dict[Row, Counter[float]] = defaultdict(Counter)
    for t in thresholds:
        if t.ear == "unspecified":
            counts[(t.ear, t.conduction, t.aided, t.measure)][t.frequency_hz] += 1
    return {
        row: {hz for hz, marks in found.items() if marks == 1}
        for row, found in counts.items()
        if any(marks > 1 for marks in found.values())
    }


def _other_ear(row: Row) -> Row:
    return OTHER_EAR.get(row[0], row[0]), *row[1:]


def _always(row: Row, seen: set[float], printed: set[float]) -> AbstractSet[float]:
    """Give what a row of its kind has on any form, or on this one."""
    _, conduction, _, measure = row
    if not _makes_row(row, seen):
        return frozenset()
    if conduction != "air" or measure != "threshold":
        return SPEECH_OCTAVES
    extended = sorted(hz for hz in printed if hz > EXTENDED_HZ)
    if max(seen) < EXTENDED_HZ:
        extended = extended[:1]  # enough to say that nothing was read there
    return SPEECH_OCTAVES | (printed & set(OCTAVES)) | set(extended)


def _lone(rows: dict[Row, set[float]]) -> list[Row]:
    """Find rows of one ear whose like is expected of the other: air and loudness; bone is often tested on one alone."""
    two = (row for row in rows if row[0] in ("right", "left") and _other_ear(row) not in rows)
    return [row for row in two if row[1] == "air" and _makes_row(row, rows[row])]


def _makes_row(row: Row, seen: AbstractSet[float]) -> bool:
    """Say whether others are expected beside these marks: beside one of loudness, which no one tests alone, as well.

    Near the last levels the others lie beneath the thresholds.
    """
    _, conduction, _, measure = row
    return len(seen) >= FEWEST or conduction == "field" or measure != "threshold"


LUMPS: frozenset[Glyph] = frozenset({"circle-filled", "square-filled", "triangle-filled"})
LETTERS = [Meaning("both", "field"), Meaning("both", "field", aided=True)]
"""What a weak lump may be beside what its shape says: an S or an A of few pixels."""
IN_PART: dict[Glyph, tuple[Glyph, ...]] = {
    "bracket-left": ("foot-right",), "bracket-right": ("foot-left",),
    "square": ("foot-right", "foot-left"), "caret": ("triangle",),
}  # fmt: skip
"""What a weak mark beneath others may be as well, in part or as a part: feet in a circle look like a square."""
LIKE_A: frozenset[Glyph] = frozenset({"triangle", "caret", "letter-a"})
AIDED, FEWEST_AIDED, FINE = re.compile(r"(?i)\W*aided\W*"), 3, 4
"""The word of a key, at how many frequencies such marks make a row, and into how many steps an octave is parted."""
INKS_OF_OTHERS = 0.25
"""Share of both inks from which neither says whose a mark is that other marks lie on."""


def weak_marks(sheet: Sheet, chart: int, weak: tuple[Mark, ...], convention: Convention) -> tuple[Remark, ...]:
    """Name the ear and conduction that a weak mark would have, as possibly missing there.

    A glyph that the page's set has not, or whose meaning is open, may mean what it does in any other.
    """
    found = []
    for mark in weak:
        known = convention.symbol_set.meanings.get(mark.sight.glyph)
        others = (other.meanings.get(mark.sight.glyph) for other in SYMBOL_SETS.values())
        meant = [m for m in others if m] if known is None or mark.sight.glyph in convention.open_glyphs else [known]
        meant += LETTERS if mark.sight.glyph in LUMPS else []
        parts = (convention.symbol_set.meanings.get(glyph) for glyph in IN_PART.get(mark.sight.glyph, ()))
        meant += [m for m in parts if m]
        told: dict[tuple[Ear, Conduction], None] = {(ear, m.conduction): None for m in meant for ear in _ears(m, mark)}
        for ear, conduction in told:
            found.append(
                remark(
                    "missing-expected", ear=ear, conduction=conduction, chart=chart, at=sheet.on_page(*mark.sight.at)
                )
            )
    return tuple(found)


def aided_beneath(sheet: Sheet, chart: int, weak: tuple[Mark, ...]) -> tuple[Remark, ...]:
    """Name aided marks as missing where the page names them and weak triangles stand in a row.

    So an A on a circle and a cross looks: on a scan in black four did, and nobody was told. Of 550 painted pages one
    without aided marks has such a row.
    """
    triangles = [m for m in weak if m.sight.glyph in LIKE_A]
    columns = {round(FINE * math.log2(max(m.frequency_hz, 1.0))) for m in triangles}
    if len(columns) < FEWEST_AIDED or not any(AIDED.fullmatch(w.text) for w in sheet.words):
        return ()
    at = sheet.on_page(*triangles[0].sight.at)
    return (remark("missing-expected", ear="both", conduction="field", chart=chart, at=at),)


def _ears(meaning: Meaning, mark: Mark) -> tuple[Ear, ...]:
    if meaning.ear == "by-colour":
        # beneath another mark it has that one's ink
        known: dict[Ink, tuple[Ear, ...]] = {"red": ("right",), "blue": ("left",), "neutral": ("right", "left")}
        both = min(mark.sight.red, mark.sight.blue) > INKS_OF_OTHERS
        return (*known["neutral" if both else mark.sight.ink], "unspecified")
    return (meaning.ear,)


def axis_goes_on(chart: MeasuredChart, words: tuple[Word, ...]) -> bool:
    """Say whether labels like a frequency's stand in the row of the chart's labels beyond the last that was read."""
    anchors = [x for _, x in chart.frequency.anchors]
    spacing = (anchors[-1] - anchors[0]) / (len(anchors) - 1)
    numbers = [(w, (w.box[0] + w.box[2]) / 2, (w.box[1] + w.box[3]) / 2) for w in words if w.text[:1].isdigit()]
    rows = [y for _, x, y in numbers if min(abs(x - a) for a in anchors) < 0.15 * spacing]
    for word, x, y in (number for number in numbers if LABEL.fullmatch(number[0].text)):
        height = word.box[3] - word.box[1]
        beyond = 0.25 * spacing < x - anchors[-1] < 2.5 * spacing
        if beyond and sum(abs(y - row) < 0.5 * height for row in rows) >= FEWEST_LABELS:
            return True
    return False


def doubtful_beyond(chart: MeasuredChart, thresholds: list[Threshold]) -> bool:
    """Say whether a doubtful value was seen beyond the last label read: a mark of a frequency whose label was not."""
    last = chart.frequency.anchors[-1][0]
    seen = (t.seen.frequency_hz or 0.0 for t in thresholds if t.seen and t.standing == "ask")
    return any(hz > BEYOND * last for hz in seen)


def on_lost_chart() -> tuple[Remark, ...]:
    """Name what may stand where lines of a chart were seen and not read: air, bone and loudspeaker marks of any ear.

    Loudness by one pen has no ear.
    """
    held: tuple[tuple[Ear, Conduction], ...] = (
        ("right", "air"),
        ("right", "bone"),
        ("left", "air"),
        ("left", "bone"),
        ("unspecified", "air"),
        ("unspecified", "bone"),
        ("both", "field"),
    )
    return tuple(remark("missing-expected", ear=ear, conduction=conduction) for ear, conduction in held)
