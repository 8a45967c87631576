"""The words of a printed line as labels, numbers, units, signs and other words, each with its place."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal

from ...page import Word
from ..lines import Line
from ..trust import chance_of
from .numbers import DASHES, MINUS, holds_number, unit_at, value_of
from .spaces import joined_decimals, spaced
from .vocabulary import ATOM, bare, vocabulary

Kind = Literal["label", "number", "unit", "dash", "sign", "word"]
Box = tuple[float, float, float, float]
RUN_INDENT, RUN_BACK, RUN_GAP = 5.0, 0.7, 1.6
"""A text's next line begins at most so far to the right or left of its first, and so far below, in heights."""
LEAST_LETTERS = 4
"""Words of a label this long tell it."""
SHORT, SHORT_READ = 2, 0.9
"""A word of so few letters that was read with this confidence is no other: a C is no CC."""
TITLES = frozenset({"dpoae", "teoae", "emissions", "tympanometry", "reflexes", "speech"})
"""Names of tests with which no text goes on from the line above."""
BEGIN, MOST_OF_TITLE = 2, 8
"""A title names its test in its first words, and has few more: "Evoked emissions (TEOAE) - L"."""
SECOND_TONE = re.compile(r"([1lIrt£#]2|[fF]2) ?\((?:k?Hz)\)")
NUMERO = re.compile(r"[Nn]\.?[°º9o*?~] de")
SERIAL = re.compile(r"\d{3,}")
"""So many digits behind "S/N" are a serial number."""
UNIT_SLIPS = 0.1
"""Of the ways in which a unit may be misread, so many still give a unit, at the most (octavo's choice)."""
WELL_READ = 0.98
"""From this chance on, a word that says nothing known is no misread label."""
RUN_LIKE = 0.6
"""The lines of one text are about as high as each other: no less than this part."""


@dataclass(frozen=True, slots=True)
class Token:
    """One label, number or sign of a line.

    Attributes
    ----------
    kind : str
        ``dash`` stands alone, as a cell without a value has it.
    text : str
        As printed.
    box : tuple of float
        Left, top, right, bottom in sheet pixels.
    chance : float
        How probable it is that the words it is made of were read right.
    cell : int
        Which cell of its line it stands in, from 0.
    meanings : frozenset of str
        What a label may mean, by the names of the label files.
    value : float or None
        Of a number.
    unit : str or None
        Of a number with its unit, or of a unit that stands alone: its UCUM code.
    glued : bool
        No space stands before it.
    decimals : int
        How many a number is printed with.
    """

    kind: Kind
    text: str
    box: Box
    chance: float
    cell: int
    meanings: frozenset[str] = frozenset()
    value: float | None = None
    unit: str | None = None
    glued: bool = False
    decimals: int = 0

    @property
    def well_read(self) -> bool:
        """Whether it hardly can say anything else."""
        return self.chance >= WELL_READ

    @property
    def middle(self) -> float:
        """The middle between left and right."""
        return (self.box[0] + self.box[2]) / 2


@dataclass(frozen=True, slots=True)
class Row:
    """One printed line, or a text that runs over several: its tokens in reading order and how high its letters are."""

    tokens: tuple[Token, ...]
    top: float
    bottom: float
    height: float

    def cell(self, number: int) -> tuple[Token, ...]:
        """Give the tokens of one cell."""
        return tuple(token for token in self.tokens if token.cell == number)


def row_of(lines: Sequence[Line]) -> Row:
    """Take a line apart, or several that one text runs over; signs between words are kept: they part numbers.

    Parameters
    ----------
    lines : sequence of Line
        At least one; of several, each has one cell.
    """
    middles = sorted((word.box[1] + word.box[3]) / 2 for word in lines[0].words)
    middle, height = middles[len(middles) // 2], lines[0].height
    cells = [cell.words for cell in lines[0].cells]
    for line in lines[1:]:
        cells[-1] += line.words
    tokens = tuple(token for number, words in enumerate(cells) for token in _tokens(words, number))
    low = lines[-1].box[3] if len(lines) > 1 else middle + height / 2
    return Row(tokens, middle - height / 2, low, height)


def rows_of(lines: Sequence[Line]) -> tuple[Row, ...]:
    """Take the lines of a page apart, from its top; lines that a text runs over become one."""
    runs: list[list[Line]] = []
    for line in lines:
        if runs and _runs_on(runs[-1], line):
            runs[-1].append(line)
        else:
            runs.append([line])
    return tuple(row_of(run) for run in runs)


def _runs_on(run: list[Line], line: Line) -> bool:
    """Say whether a line goes on with the text of those above it: below them, and begun where they begin."""
    last = run[-1]
    if len(last.cells) > 1 or len(line.cells) > 1 or not RUN_LIKE < line.height / last.height < 1 / RUN_LIKE:
        return False
    indent = (line.box[0] - run[0].box[0]) / line.height
    gap = (line.box[1] - last.box[3]) / line.height
    if _is_title(line) or _is_head(line):
        return False
    return -RUN_BACK < indent < RUN_INDENT and gap < RUN_GAP


def _is_title(line: Line) -> bool:
    """Say whether a line begins with the name of a test and holds no number but its date or in brackets."""
    atoms = ATOM.findall(line.text)
    begins = range(BEGIN if len(atoms) <= MOST_OF_TITLE else 1)
    return not holds_number(line.text) and any(vocabulary().match(atoms[at : at + 12])[1] & TITLES for at in begins)


def _is_head(line: Line) -> bool:
    """Say whether a line says nothing but a label, with a capital: it heads what stands below it."""
    parts = ATOM.findall(line.text)
    begun = bool(parts) and parts[0][0].isupper() and parts[-1].isalpha()
    return begun and not any(c.isdigit() for c in line.text) and _all_known(parts)


def _told_by_unit(words: Sequence[Word]) -> list[Word]:
    """Give back what its neighbour tells: "f2 (kHz)" looks like "12 (kHz)", and "N.º de" like "N.9 de"."""
    told = list(words)
    for at, word in enumerate(words):
        behind = words[at + 1].text if at + 1 < len(words) else ""
        if NUMERO.fullmatch(f"{word.text} {behind}"):
            told[at] = replace(word, text="N.º")
            continue
        found = SECOND_TONE.match(f"{word.text} {behind}")
        if found and SECOND_TONE.match(word.text + (f" {behind}" if behind.startswith("(") else "")):
            told[at] = replace(word, text="f2" + word.text[len(found[1]) :])
    return told


def _tokens(words: Sequence[Word], cell: int) -> list[Token]:
    atoms = [atom for word in _told_by_unit(joined_decimals(words)) for atom in _atoms(word, cell)]
    tokens: list[Token] = []
    at = 0
    while at < len(atoms):
        taken, token = _next(atoms, at, tokens[-1] if tokens else None)
        tokens.append(token)
        at += taken
    return [_in_words(tokens, number) for number in range(len(tokens))]


def _in_words(tokens: list[Token], number: int) -> Token:
    """Take a dash between words for a sign: a value's dash stands alone, or behind a label's colon."""
    token = tokens[number]
    if token.kind != "dash" or number + 1 >= len(tokens) or tokens[number + 1].kind not in ("label", "word"):
        return token
    return replace(token, kind="sign") if number and tokens[number - 1].text not in (":", "=") else token


def _atoms(word: Word, cell: int) -> list[Token]:
    """Take a word apart into runs of letters, numbers and single signs, with a share of its box each."""
    word = _known_reading(word)
    chance = chance_of(word)
    left, top, right, bottom = word.box
    text = spaced(word.text)
    wide = (right - left) / max(len(text), 1)
    return [
        Token(
            "word", found.group(), (left + wide * found.start(), top, left + wide * found.end(), bottom),
            chance, cell, glued=found.start() > 0 and text[found.start() - 1] != " ",
        )
        for found in ATOM.finditer(text)
    ]  # fmt: skip


def _known_reading(word: Word) -> Word:
    """Give a word with the reading that is a known label or unit, where the likeliest one is none."""
    short = sum(c.isalnum() for c in word.text) <= SHORT and word.confidence >= SHORT_READ
    if not word.others or short or _is_known(word.text):
        return word
    number = value_of(word.text.strip(" .,:;()")) is not None
    for text, chance in word.others:
        if sum(c.isalpha() for c in text) < 2 and not number:
            continue
        for shown in (text, text.upper(), text.capitalize()):
            if any(c.isalpha() for c in shown) and _is_known(shown):
                others = ((word.text, word.confidence), *(one for one in word.others if one[0] != text))
                right = min(chance, chance_of(word))
                return replace(word, text=shown, confidence=chance, others=others, chance=right)
    return word


def _is_known(text: str) -> bool:
    """Say whether a word is a label or a unit as a whole, or a longer word of one."""
    parts = ATOM.findall(text.strip(" .,:;()[]"))
    of_phrase = all(len(part) >= LEAST_LETTERS and bare(part) in vocabulary().known for part in parts)
    return bool(parts) and (of_phrase or _all_known(parts))


def _all_known(parts: list[str]) -> bool:
    """Say whether nothing but labels, units and signs between them stands here, as in "DPOAE-L" and "Volume (ml)"."""
    at = known = 0
    while at < len(parts):
        taken = max(vocabulary().match(parts[at:])[0], unit_at(parts[at:])[0])
        if not taken and parts[at].isalnum():
            return False
        known += taken > 0
        at += max(taken, 1)
    return known > 0


def _next(atoms: list[Token], at: int, before: Token | None) -> tuple[int, Token]:
    """Give the next token and how many atoms it takes."""
    here = atoms[at]
    parts = [atom.text for atom in atoms[at : at + 12]]
    taken, meanings = vocabulary().match(parts, told=here.chance >= 1.0)
    serial = meanings == {"noise_ratio"} and SERIAL.fullmatch(parts[taken] if taken < len(parts) else "")
    if taken and not serial and not (taken == 1 and value_of(here.text) is not None):
        return taken, replace(_joined(atoms[at : at + taken], "label"), meanings=meanings)
    negative = here.text in MINUS and _negative(atoms, at, before)
    number = atoms[at + 1] if negative else here
    value = value_of(number.text)
    if value is not None:
        first = 2 if negative else 1
        more, unit = unit_at([atom.text for atom in atoms[at + first : at + first + 4]])
        if unit is None and _of_name(atoms, at):
            return 1, here
        token = _joined(atoms[at : at + first + more], "number")
        token = replace(token, chance=_chance(atoms[at : at + first], atoms[at + first : at + first + more]))
        decimals = len(number.text.replace(",", ".").partition(".")[2])
        below = negative and unit not in ("Hz", "kHz")  # no tone is below nought: the sign is a speck or a rule
        return first + more, replace(token, value=-value if below else value, unit=unit, decimals=decimals)
    more, unit = unit_at(parts)
    if more:
        return more, replace(_joined(atoms[at : at + more], "unit"), unit=unit)
    if here.text in DASHES or set(here.text) <= DASHES:
        alone = not here.glued and (at + 1 == len(atoms) or not atoms[at + 1].glued)
        return 1, replace(here, kind="dash" if alone else "sign")
    return 1, replace(here, kind="word" if here.text[0].isalnum() else "sign")


def _chance(number: Sequence[Token], unit: Sequence[Token]) -> float:
    """Give the chance that a number and its unit were read right: a unit has few others that it may be misread for."""
    of_number = min(atom.chance for atom in number)
    own = [atom.chance for atom in unit if not atom.glued]  # glued to the number, both are one word
    return min(of_number, 1 - UNIT_SLIPS * (1 - min(own, default=1.0)))


def _of_name(atoms: list[Token], at: int) -> bool:
    """Say whether a number ends a name of capitals, as in "NU-6": no label stands before its hyphen."""
    if at < 2 or not (atoms[at].glued and atoms[at - 1].glued and atoms[at - 1].text in MINUS):
        return False
    name = atoms[at - 2].text
    return name.isalpha() and name.isupper() and not vocabulary().match([name])[0]


def _negative(atoms: list[Token], at: int, before: Token | None) -> bool:
    """Say whether a minus stands before a number that it belongs to, and no number before it."""
    if at + 1 >= len(atoms) or not atoms[at + 1].glued or value_of(atoms[at + 1].text) is None:
        return False
    return not (atoms[at].glued and before is not None and before.kind in ("number", "word"))


def _joined(atoms: Sequence[Token], kind: Kind) -> Token:
    boxes = [atom.box for atom in atoms]
    text = atoms[0].text
    for atom in atoms[1:]:
        text += ("" if atom.glued else " ") + atom.text
    box = (
        min(b[0] for b in boxes), min(b[1] for b in boxes), max(b[2] for b in boxes), max(b[3] for b in boxes),
    )  # fmt: skip
    return Token(kind, text, box, min(atom.chance for atom in atoms), atoms[0].cell, glued=atoms[0].glued)
