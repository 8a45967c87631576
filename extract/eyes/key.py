"""Find a page's printed key of symbols: specimens of the marks with words beside them."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import replace
from functools import cache
from statistics import median, median_high

from ...interpret.symbols import Glyph
from ..likeness import Likeness
from ..page import Pixels, Word
from ..sheet import Sheet
from ..sightings import ChartArea, KeyLine, MarkSight
from .key_table import key_table
from .key_words import AIR, BONE, COMFORTABLE, LOUD, SHORT
from .specimens import LEAST_SCORE, around, specimens

KEY_WORD = re.compile(
    rf"(?i)^\W*({AIR}|{BONE}|masked|unmasked|vertäubt|maskiert|masqu\w*|enmascarad\w*|gemaskeerd|mascherat[ao]|mascarad[ao]|"
    rf"maskerad|{LOUD}|{COMFORTABLE})\W*$"
)
"""Words that a key of audiometric symbols uses (trade terms of eight languages)."""
OF_LOUDNESS = re.compile(rf"(?i)\b({LOUD}|{COMFORTABLE})\b")
VOCABULARY = (
    "air", "bone", "masked", "unmasked", "not", "ac", "bc", "right", "left", "ear", "conduction", "no", "response",
    "sound", "field", "aided", "uncomfortable", "comfortable", "loudness", "level", "ull", "ucl", "mcl", "best",
    "luft", "knochen", "luftleitung", "knochenleitung", "vertäubt", "unvertäubt", "maskiert", "rechts", "links",
    "ohr", "ohne", "mit", "nicht", "keine", "antwort", "aérien", "aérienne", "aériens", "os", "osseux", "osseuse",
    "osseuses", "masqué", "masquée", "masqués", "masquées", "non", "sans", "avec", "droite", "gauche", "oreille",
    "réponse", "aérea", "aéreo", "ósea", "óseo", "vía", "oído", "derecho", "izquierdo", "derecha", "izquierda",
    "enmascarado", "enmascarada", "enmascarar", "sin", "con", "respuesta",
    "luchtgeleiding", "beengeleiding", "gemaskeerd", "ongemaskeerd", "rechteroor", "linkeroor", "respons", "zonder",
    "via", "aerea", "ossea", "mascherata", "mascherato", "destro", "sinistro", "orecchio", "risposta", "senza",
    "óssea", "mascarada", "mascarado", "direita", "esquerda", "orelha", "resposta", "sem", "não",
    "inconfort", "discomfort", "unbehaglichkeit", "unbehaglichkeitsschwelle", "molestia", "incomodidad", "angenehm",
    "luftledning", "benledning", "maskerad", "omaskerad", "höger", "vänster", "utan",
    "threshold", "thresholds", "schwelle", "hörschwelle", "seuil", "seuils", "umbral", "umbrales",
    "ears", "ohren", "oreilles", "oídos", "loudspeaker", "lautsprecher", "freifeld", "altavoz", *SHORT,
)  # fmt: skip
"""Words that keys are made of; a word of a scan that is read with a slip is taken for the nearest."""
INITIALS = frozenset("rldgi")
"""What right and left are short for in those languages."""
LEADS = INITIALS | {"both", "either", "beide", "deux", "ambos"}
"""Words that begin an entry where one that keys are made of follows: "R, air", "both ears"."""
ALIKE = 0.78
"""How alike a read word and one of the vocabulary must be (difflib's ratio)."""
FAR = 14.0
"""So many text heights before a key's words its specimens begin at most."""
MOST_BEFORE = 5.0
"""A specimen behind its words stands so many text heights behind them at most."""
MOST_GAP = 4.0
"""So many text heights lie between the words of a line at most: a word between may have been lost."""
LONE = 1.5
"""A sign alone so many text heights behind a line's words is the specimen of the next column."""
NEARER = 0.6
_SEVERAL: tuple[Glyph, ...] = ("triangle", "angle-left", "angle-right", "bracket-left", "bracket-right", "letter-m")
UNCLEAR: frozenset[Glyph] = frozenset({*_SEVERAL, "circle-filled", "cross-filled"})
"""Shapes that say different things in different sets, or that a program may fill for looks."""


_Beside = tuple[str, float]
"""Words beside a specimen, and how far from its centre they begin, sheet pixels."""


def key_lines(sheet: Sheet, areas: tuple[ChartArea, ...], marks: tuple[MarkSight, ...]) -> tuple[KeyLine, ...]:
    """Read the key, where the marks on the page may mean several things.

    Parameters
    ----------
    sheet : Sheet
        The page.
    areas : tuple of ChartArea
        Its charts; a page without any has no key.
    marks : tuple of MarkSight
        The marks seen.

    Returns
    -------
    tuple of KeyLine
        Empty where no key is found, or none is needed.
    """
    shapes = {m.glyph for m in marks if m.score > LEAST_SCORE}
    if not areas or not (shapes & UNCLEAR or shapes & {"cross", "square"} == {"square"}):
        return ()  # squares without a cross may be a charting program's markers
    words = _meant_words(sheet)
    said = [w for w in words if KEY_WORD.match(w.text) and w.upright == 0]
    found: list[KeyLine] = []
    alone: list[Word] = []
    while said:
        cluster = _cluster(said)
        said = [w for w in said if w not in cluster]
        if len(cluster) >= 2:
            found += key_table(sheet.pixels, cluster, words) or _lines_of(sheet.pixels, cluster, words)
        else:
            alone += cluster
    return (*found, *_far_apart(sheet.pixels, alone, words), *_of_letters(sheet.pixels, alone, words))


def _of_letters(pixels: Pixels, alone: list[Word], words: tuple[Word, ...]) -> list[KeyLine]:
    """Read a key's entry of a loudness, which may stand apart from those of air and bone: no table of a report has it.

    Only a letter before its word is taken, as tables of speech name the same levels.
    """
    lines = (line for word in alone if OF_LOUDNESS.match(word.text) for line in _lines_of(pixels, [word], words))
    return [line for line in lines if line.glyph in ("letter-m", "letter-u") and OF_LOUDNESS.search(line.text)]


def _far_apart(pixels: Pixels, alone: list[Word], words: tuple[Word, ...]) -> list[KeyLine]:
    """Read a key whose few entries stand far apart on one line: two at the least have a specimen before their words."""
    found: list[KeyLine] = []
    for word in alone:
        if any(other is not word and _on_one_line(word, other) for other in alone):
            lines = _lines_of(pixels, [word], words)
            found += lines if len(lines) == 1 else []
    return found if len(found) >= 2 else []


def _on_one_line(one: Word, other: Word) -> bool:
    heights = one.box[3] - one.box[1], other.box[3] - other.box[1]
    return abs((one.box[1] + one.box[3]) - (other.box[1] + other.box[3])) < min(heights)


def without_specimens(sheet: Sheet, marks: tuple[MarkSight, ...]) -> tuple[MarkSight, ...]:
    """Leave out the specimens of a key that is printed on a chart itself.

    Parameters
    ----------
    sheet : Sheet
        The page.
    marks : tuple of MarkSight
        The marks seen on one chart.

    Returns
    -------
    tuple of MarkSight
        Without those that a key's words stand beside, where two or more such stand in a row or a column.
    """
    beside = named_beside(sheet, marks)
    aligned = [m for m in beside if any(_aligned(m, o) for o in beside if o.at != m.at)]
    if not aligned:
        return marks
    # two specimens may share the words: "O X air"
    first = [m for m in marks if m not in aligned and any(_left_of(m, o) for o in aligned)]
    gone = {id(m) for m in (*aligned, *first)}
    return tuple(m for m in marks if id(m) not in gone)


def named_beside(sheet: Sheet, marks: Iterable[MarkSight]) -> list[MarkSight]:
    """Give the marks that a key's words stand right of, as they do of specimens."""
    words = _of_keys([w for w in _meant_words(sheet) if w.upright == 0])
    return [m for m in marks if any(_beside(m, w) for w in words)]


def _of_keys(words: list[Word]) -> list[Word]:
    """Give the words that keys are made of, and what leads to such a word."""
    known = [w for w in words if _bare(w) in VOCABULARY]
    leads = [w for w in words if _bare(w) in LEADS and any(_follows(other, w) for other in known)]
    return known + leads


def _bare(word: Word) -> str:
    return word.text.lower().strip(" .,:;()")


def _follows(word: Word, first: Word) -> bool:
    height = first.box[3] - first.box[1]
    level = abs((word.box[1] + word.box[3]) - (first.box[1] + first.box[3])) < height
    return level and -0.3 * height < word.box[0] - first.box[2] < 1.5 * height


def _beside(mark: MarkSight, word: Word) -> bool:
    """Say whether a word begins just right of a mark, on its line."""
    height = word.box[3] - word.box[1]
    gap = word.box[0] - mark.at[0] - mark.size[0] / 2
    return -0.3 * height < gap < 3 * height and abs((word.box[1] + word.box[3]) / 2 - mark.at[1]) < 0.6 * height


def _aligned(one: MarkSight, other: MarkSight) -> bool:
    across, down = abs(one.at[0] - other.at[0]), abs(one.at[1] - other.at[1])
    size = max(*one.size, *other.size)
    return min(across, down) < 0.5 * size and max(across, down) > 0.7 * size


def _left_of(mark: MarkSight, other: MarkSight) -> bool:
    """Say whether a mark stands close before a specimen on its line, and is as large."""
    own, size = max(mark.size), max(other.size)
    alike = 0.7 * size < own < 1.4 * size
    return alike and abs(mark.at[1] - other.at[1]) < 0.3 * size and 0 < other.at[0] - mark.at[0] < 3 * size


def _meant_words(sheet: Sheet) -> tuple[Word, ...]:
    return sheet.words if sheet.taken_by == "drawn" else tuple(_meant(w) for w in sheet.words)


def _meant(word: Word) -> Word:
    """Take a read word for the nearest of a key's vocabulary."""
    near = _nearest(word.text.lower().strip(" .,:;()"))
    return replace(word, text=near) if near else word


def _nearest(bare: str) -> str | None:
    if bare.replace(".", "") in SHORT:
        return bare.replace(".", "")  # but no longer word is taken for one of so few letters
    if len(bare) < 2 or not any(map(str.isalpha, bare)):
        return None
    return _vocabulary().nearest(bare)


@cache
def _vocabulary() -> Likeness:
    return Likeness((word for word in VOCABULARY if word not in SHORT), ALIKE)


def _cluster(said: list[Word]) -> list[Word]:
    """Take the first word and all that stand near one another with it."""
    cluster = [said[0]]
    for word in cluster:
        height = word.box[3] - word.box[1]
        for other in said:
            apart_x = max(other.box[0] - word.box[2], word.box[0] - other.box[2])
            apart_y = max(other.box[1] - word.box[3], word.box[1] - other.box[3])
            if other not in cluster and apart_x < 14 * height and apart_y < 3.5 * height:
                cluster.append(other)
    return cluster


def _lines_of(pixels: Pixels, cluster: list[Word], words: tuple[Word, ...]) -> list[KeyLine]:
    """See the specimens around a cluster of key words and give each the words of its line."""
    height = median_high(w.box[3] - w.box[1] for w in cluster)
    box = around(cluster, (FAR * height, 3 * height, 8 * height, 3 * height))
    marks = specimens(pixels, box, height, words)
    after = [_text_beside(mark, marks, words, height) for mark in marks]
    before = [_text_before(mark, marks, words, height) for mark in marks]
    told = before if _behind_words(before, after) else after
    return [KeyLine(m.glyph, m.ink, text, m.score, m.at) for m, (text, _) in zip(marks, told, strict=True) if text]


def _behind_words(before: list[_Beside], after: list[_Beside]) -> bool:
    """Say whether each specimen stands behind its words, as some programs print them.

    Then the last of a row has none after it, or the words after are those of the next column, farther away.
    """
    told, others = ([gap for text, gap in beside if text] for beside in (before, after))
    if len(told) != len(others):
        return len(told) > len(others)
    return bool(told) and median(told) < NEARER * median(others)


def _text_beside(mark: MarkSight, marks: list[MarkSight], words: tuple[Word, ...], height: float) -> _Beside:
    """Give the words right of a specimen on its line, up to the next specimen that has words before it."""
    after = [w for w in _row_of(mark, words, height) if w.box[0] > mark.at[0]]
    if not after or after[0].box[0] - mark.at[0] > (FAR + 4) * height:
        return "", 0.0
    taken: list[str] = []
    end = after[0].box[0]
    for word in after:
        # the next specimen may have been read as a word of one letter, or of none
        between = any(end < m.at[0] < word.box[2] and abs(m.at[1] - mark.at[1]) < height for m in marks)
        room = (MOST_GAP if len(word.text) > 1 else LONE) * height
        if taken and (between or word.box[0] - end > room):
            break
        taken.append(word.text)
        end = word.box[2]
    return " ".join(taken), after[0].box[0] - mark.at[0]


def _text_before(mark: MarkSight, marks: list[MarkSight], words: tuple[Word, ...], height: float) -> _Beside:
    """Give the words left of a specimen on its line, from the specimen before it or a gap on."""
    before = [w for w in _row_of(mark, words, height) if w.box[2] < mark.at[0]][::-1]
    if not before or mark.at[0] - before[0].box[2] > MOST_BEFORE * height:
        return "", 0.0
    taken: list[str] = []
    begin = before[0].box[2]
    for word in before:
        between = any(word.box[2] < m.at[0] < begin and abs(m.at[1] - mark.at[1]) < height for m in marks)
        if taken and (between or begin - word.box[2] > MOST_GAP * height):
            break
        taken.append(word.text)
        begin = word.box[0]
    return " ".join(reversed(taken)), mark.at[0] - before[0].box[2]


def _row_of(mark: MarkSight, words: tuple[Word, ...], height: float) -> list[Word]:
    """Give the words on a specimen's line from left to right."""
    level = (w for w in words if w.upright == 0 and abs((w.box[1] + w.box[3]) / 2 - mark.at[1]) < 0.9 * height)
    return sorted(level, key=lambda w: w.box[0])
