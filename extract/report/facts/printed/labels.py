"""The printed labels of facts: where they stand, what they may announce, and how surely they are labels at all."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from itertools import pairwise
from statistics import median

from ...lines import Line
from .inline import announces, in_a_sentence, names_addressee
from .spelling import BEGIN, may_be, misread, slips_allowed
from .tokens import Token, tokens_of
from .vocabulary import Order, Phrase, vocabulary

GAP = 0.5
"""A gap wider than so many heights of the letters is no space between words: these are a third of it wide."""
OVER_SPACE = 1.35
"""It is also wider than the page's usual space by this much: some faces have wide ones."""
FEWEST_GAPS = 8
TITLE = 1.2
"""A house's name is set in letters so much higher than the usual: "Praxis" in it announces no place."""
MOST_COLONS, FEWEST_BARE = 2, 4
"""With no more labels with colons, but so many names of facts before a space, a space ends labels on this page."""
MOST_SLIPS = 2
"""On a page of colons, what has none and so many letters misread is no label: "schlecht" is not "Geschlecht"."""
OTHER, BORN = frozenset({"other"}), frozenset({"birth-date"})
LEAST_WORD = 2
"""One letter before a label may be a speck, or count a form's items."""
STROKES = frozenset("~_.-–—=*")
"""What a rule or dots behind a label are read as."""
COLONS = frozenset(":;")
"""A fax makes semicolons of colons."""
_ORDERS: tuple[tuple[Order, re.Pattern[str]], ...] = (
    ("day-first", re.compile(r"^[dtj]{1,2}[li1]?[mn]{1,2}[li1]?[yaj]{2,4}$")),  # a stroke looks like an l
    ("month-first", re.compile(r"^m{1,2}[li1]?[dtj]{1,2}[li1]?[yaj]{2,4}$")),
)


@dataclass(frozen=True, slots=True)
class Label:
    """One label.

    Attributes
    ----------
    names : frozenset of str
        The facts that its wording may announce, by the label files; ``other`` for what is no fact.
    languages : frozenset of str
        The languages in which it is worded so.
    line, first, last : int
        Its line, and its first and last token there; a colon and a hint of the date's order belong to it.
    colon : bool
        It ends with a colon.
    alone : bool
        Nothing else stands in its cell.
    slips : int
        Letters that must have been misread.
    hint : str or None
        The order of a date's numbers that it asks for: "dd/mm/yyyy".
    """

    names: frozenset[str]
    languages: frozenset[str]
    line: int
    first: int
    last: int
    colon: bool
    alone: bool
    slips: int
    right: float
    """Where it ends, in sheet pixels."""
    hint: Order | None = None
    told: bool = False
    """It stands within a sentence."""


def labels_of(lines: tuple[Line, ...]) -> tuple[Label, ...]:
    """Find the labels of all lines, in reading order.

    A label ends with a colon or before a wider gap. On a page that has none but the words of several labels, each at
    the beginning of a cell and with more behind it, a space ends them.
    """
    gap = max(GAP, OVER_SPACE * _space(lines))
    usual = median(line.height for line in lines) if lines else 0.0
    titles = {n for n, line in enumerate(lines) if len(line.cells) == 1 and line.height > TITLE * usual}
    found = tuple(
        label
        for number, line in enumerate(lines)
        for label in _of_line(number, line, gap)
        if not (number in titles and label.names == {"place"} and not label.colon and not label.alone)
    )
    if sum(label.colon for label in found) > MOST_COLONS:
        return tuple(label for label in found if label.colon or label.slips < MOST_SLIPS)
    bare = tuple(label for number, line in enumerate(lines) for label in _of_line(number, line, gap, bare=True))
    names = {name for label in bare if not (label.colon or label.alone) for name in label.names} - {"other"}
    return bare if len(names) >= FEWEST_BARE else found


def _space(lines: tuple[Line, ...]) -> float:
    """Give the usual space between words, in heights of the letters."""
    gaps = [
        (b.box[0] - a.box[2]) / line.height for line in lines for cell in line.cells for a, b in pairwise(cell.words)
    ]
    return median(gaps) if len(gaps) >= FEWEST_GAPS else 0.0


def _of_line(number: int, line: Line, wide: float, *, bare: bool = False) -> list[Label]:
    tokens = tokens_of(line)
    found: list[Label] = []
    at = 0
    while at < len(tokens):
        label = (
            _label_at(number, line, tokens, at, wide, bare=bare) if _may_begin(tokens, at, line, found, wide) else None
        )
        if label is None:
            at += 1
        else:
            told = label.told and in_a_sentence(tokens, at, label.last + 1, [(one.first, one.last) for one in found])
            label = replace(label, told=told)
            found.append(replace(label, names=OTHER) if _qualified(tokens, at, found, wide * line.height) else label)
            at = label.last + 1
    if names_addressee(tokens, [label.first for label in found if label.names == BORN]):
        about = Label(frozenset({"patient-name"}), frozenset(), number, 0, 1, True, False, 0, tokens[1].right)
        found = [about, *(label for label in found if label.first > 1)]
    return found


def _may_begin(tokens: tuple[Token, ...], at: int, line: Line, found: list[Label], wide: float) -> bool:
    """Say whether a label may begin here: at a cell's start, after a gap, or where a colon will tell."""
    if tokens[at].sign:
        return False
    if at == 0 or tokens[at - 1].cell != tokens[at].cell:
        return True
    if found and found[-1].last == at - 1:
        return False  # the value's first word
    gap = tokens[at].left - tokens[at - 1].right
    return gap > wide * line.height or tokens[at].word != tokens[at - 1].word


def _is_colon(token: Token) -> bool:
    return token.sign == ":" or (token.sign in COLONS and not token.told)


def _begins_cell(tokens: tuple[Token, ...], at: int) -> bool:
    return at == 0 or tokens[at - 1].cell != tokens[at].cell


def _qualified(tokens: tuple[Token, ...], at: int, found: list[Label], wide: float) -> bool:
    """Say whether words before a label make it another one: "Mother's name", "Next visit date".

    Where a label stands before it on its cell, they may be that one's value: then only such words count as are known.
    """
    before = tokens[at - 1] if at and tokens[at - 1].cell == tokens[at].cell else None
    if (
        before is None
        or before.sign
        or before.said.isdigit()
        or tokens[at].left - before.right > wide
        or len(before.said) < LEAST_WORD
    ):
        return False
    begun = any(tokens[label.last].cell == before.cell for label in found)
    words = vocabulary()
    return before.said in words.others or not (begun or before.said in words.own)


def _label_at(number: int, line: Line, tokens: tuple[Token, ...], at: int, wide: float, *, bare: bool) -> Label | None:
    matches: list[tuple[int, int, Phrase]] = []
    for phrase in may_be(_begins(tokens, at)):
        end, slips = _matched(phrase, tokens, at)
        if end:
            matches.append((end, -slips, phrase))
    if not matches:
        return None
    end, least, _ = max(matches, key=lambda match: match[:2])
    fewest = -least
    phrases = [phrase for stop, slips, phrase in matches if (stop, slips) == (end, least)]
    short = len(tokens[at].said) == 1 or tokens[at].said.isdigit()
    if fewest and short and at + 1 < len(tokens):
        later = [_matched(phrase, tokens, at + 1) for phrase in phrases]
        if any(stop and slips < fewest for stop, slips in later):
            return None  # "Room 4 Calibration": the value's last word is no misread letter of the label
    end, hint = _hint(tokens, end)
    colon = end < len(tokens) and _is_colon(tokens[end]) and tokens[end].cell == tokens[end - 1].cell
    first = _begins_cell(tokens, at) or (len(tokens[at - 1].said) < LEAST_WORD and _begins_cell(tokens, at - 1))
    end += colon
    last = all(token.sign in STROKES for token in tokens[end:] if token.cell == tokens[end - 1].cell)
    parted = first or tokens[at].left - tokens[at - 1].right > wide * line.height
    ended = last or tokens[end].left - tokens[end - 1].right > wide * line.height
    inline = not colon and not fewest and announces(line, tokens, at, end, phrases)
    listed = bool(at) and tokens[at - 1].sign == "," and not first
    if not (colon or inline) and (not (parted and (ended or bare)) or listed):
        return None
    if not colon and ((fewest and not (first and last)) or len(phrases[0].letters) == 1):
        return None  # misread among more words, or one letter, which may be anything
    return Label(
        frozenset(phrase.meaning for phrase in phrases), frozenset(phrase.language for phrase in phrases),
        number, at, end - 1, colon, first and last, fewest, tokens[end - 1].right, hint, inline,
    )  # fmt: skip


def _matched(phrase: Phrase, tokens: tuple[Token, ...], at: int) -> tuple[int, int]:
    """Give the token after a phrase that begins here, 0 where it does not, and how many letters were misread.

    Spaces do not count: a fax closes them.
    """
    wanted = phrase.letters
    allowed = 0 if tokens[at].told else slips_allowed(len(wanted))
    spelled, k = ("",), at
    while k < len(tokens) and tokens[k].cell == tokens[at].cell:
        token = tokens[k]
        k += 1
        if token.sign:
            if token.sign in _PASSED:
                continue
            return 0, 0
        spelled = _spelled(spelled, token)
        missed = min((misread(wanted, one) for one in spelled), default=99)
        if missed <= allowed and (missed == 0 or not _better_longer(wanted, spelled, tokens, k, missed)):
            return _after(tokens, at, k), missed
        if min(map(len, spelled), default=0) > len(wanted) + allowed:
            break
    return 0, 0


def _begins(tokens: tuple[Token, ...], at: int) -> tuple[str, ...]:
    """Give the first letters from a token on, in up to four readings, as far as a label may go."""
    spelled, k = ("",), at
    while k < len(tokens) and tokens[k].cell == tokens[at].cell and len(spelled[0]) < BEGIN:
        if not tokens[k].sign:
            spelled = _spelled(spelled, tokens[k])
        elif tokens[k].sign not in _PASSED:
            break
        k += 1
    return spelled


def _spelled(before: tuple[str, ...], token: Token) -> tuple[str, ...]:
    return tuple(f"{one}{reading}" for one in before for reading in token.readings[:2])[:4]


def _better_longer(wanted: str, spelled: tuple[str, ...], tokens: tuple[Token, ...], k: int, missed: int) -> bool:
    """Say whether the next token fits better still."""
    while k < len(tokens) and tokens[k].sign in _PASSED:
        k += 1
    if k >= len(tokens) or tokens[k].sign or tokens[k].cell != tokens[k - 1].cell:
        return False
    longer = (f"{before}{reading}" for before in spelled for reading in tokens[k].readings[:2])
    return min((misread(wanted, one) for one in longer), default=99) < missed


def _after(tokens: tuple[Token, ...], at: int, k: int) -> int:
    """Give the token after a phrase's own full stop, number sign or bracket."""
    while k < len(tokens) and tokens[k].sign == "." and tokens[k].word == tokens[k - 1].word:
        k += 1
    if k + 1 < len(tokens) and tokens[k].sign == "#" and tokens[k].cell == tokens[k - 1].cell:
        k += 1  # "Chart #: 88412"
    if k < len(tokens) and tokens[k].sign == ")" and any(t.sign == "(" for t in tokens[at:k]):
        k += 1
    return k


_PASSED = frozenset("-/.,'’()‐–&*")
"""Signs that a label may hold; the empty sign of letters is none of them."""


def _hint(tokens: tuple[Token, ...], end: int) -> tuple[int, Order | None]:
    """Read "(dd/mm/yyyy)" after a label; give the token after it."""
    k, letters = end, ""
    while k < len(tokens) and tokens[k].cell == tokens[end - 1].cell and k - end < 9:
        if tokens[k].sign in COLONS:
            break
        letters += tokens[k].said
        k += 1
        for order, pattern in _ORDERS:
            if pattern.match(letters) and (k >= len(tokens) or tokens[k].sign in ("", ")", ":", ";")):
                if k < len(tokens) and tokens[k].sign == ")":
                    k += 1
                return k, order
        if len(letters) > 10:
            break
    return end, None
