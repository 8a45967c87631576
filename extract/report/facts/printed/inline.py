"""Labels within a text: "Re: Ada Hollis, DOB 22 July 1947, MRN 60-3318" has neither colons nor gaps behind them."""

from __future__ import annotations

import re
from collections.abc import Sequence

from ...lines import Line
from ..values.dates import dates_in
from .tokens import Token
from .vocabulary import Phrase, bare, vocabulary

DATED = frozenset({"birth-date", "test-date", "calibration-date"})
"""Labels that need neither colon nor gap before a date alone: "DOB 3 Mar 1979". "Date 3 Mar" may be a letter's own."""
SEPARATORS = frozenset(",;(|•·–—\ufffd")
"""Signs that part one fact of a line from the next; a bullet of some faces has no letter."""
LETTERS_OF_A_LABEL = 8
"""A wording of so many letters is no chance word before a date: "calibration date"."""
ABOUT = frozenset({"re", "regarding", "concerning", "betreff", "betrifft", "concerne", "asunto", "ref"})
"""How the line of a letter begins that says whom it is about (common practice)."""
CODE = re.compile(r"(?=\S*\d)[\w/.-]{3,}")
LEAST_PLAIN = 3
"""Words of so many small letters before a label make a sentence of its line, in which it may speak of anybody."""


def announces(line: Line, tokens: Sequence[Token], at: int, end: int, phrases: Sequence[Phrase]) -> bool:
    """Say whether a wording within a line is a label: what follows it at once is a date or a number such as it wants.

    Parameters
    ----------
    line : Line
        The line.
    tokens : sequence of Token
        Its parts.
    at, end : int
        Where the wording begins, and the token behind it.
    phrases : sequence of Phrase
        What it may mean.
    """
    parted = at == 0 or tokens[at - 1].cell != tokens[at].cell or tokens[at - 1].sign in SEPARATORS
    names = {phrase.meaning for phrase in phrases}
    if end >= len(tokens) or tokens[end].cell != tokens[at].cell or tokens[end].start != 0:
        return False
    text, rest = _behind(line, tokens, end)
    if names <= DATED | {"other"}:
        long = len(phrases[0].letters) >= LETTERS_OF_A_LABEL and "other" not in names
        found = dates_in(text)
        return (parted or long) and bool(found) and found[0].start == 0
    return parted and at > 0 and names == {"record-number"} and bool(CODE.fullmatch(rest[0])) and _ends(rest)


def _behind(line: Line, tokens: Sequence[Token], end: int) -> tuple[str, list[str]]:
    words = line.words
    rest = [words[n].text for n in dict.fromkeys(t.word for t in tokens[end:] if t.cell == tokens[end].cell)]
    return " ".join(rest), [word for part in rest for word in re.findall(r"[,;|•·)\ufffd]|[^,;|•·)\ufffd]+", part)]


def _ends(rest: Sequence[str]) -> bool:
    return len(rest) == 1 or rest[1] in SEPARATORS | {")"}


def in_a_sentence(tokens: Sequence[Token], at: int, end: int, labels: Sequence[tuple[int, int]]) -> bool:
    """Say whether plain words stand around a label in its cell: it may be about somebody else or another day.

    Parameters
    ----------
    tokens : sequence of Token
        The line's parts.
    at, end : int
        Where the label begins, and the token behind it.
    labels : sequence of tuple
        First and last token of the labels found before it.
    """
    known = {number for first, last in labels for number in range(first, last + 1)}
    return _goes_on(tokens, end) or any(
        number not in known and token.cell == tokens[at].cell and _is_plain(token)
        for number, token in enumerate(tokens[:at])
    )


def _goes_on(tokens: Sequence[Token], end: int) -> bool:
    """Say whether a small word follows the value's last number, with no sign between that parts them."""
    cell = [token for token in tokens[end:] if token.cell == tokens[end - 1].cell]
    stop = next((n for n, token in enumerate(cell) if token.sign in SEPARATORS and n and _ends_year(cell[n - 1])), None)
    said = cell if stop is None else cell[:stop]
    last = max((n for n, token in enumerate(said) if _ends_year(token)), default=len(said))
    return last + 1 < len(said) and said[last + 1].small and said[last + 1].said.isalpha()


def _ends_year(token: Token) -> bool:
    return token.said[-2:].isdigit()


def _is_plain(token: Token) -> bool:
    word = token.said
    return token.small and word.isalpha() and len(word) >= LEAST_PLAIN and bare(word) not in vocabulary().months


def names_addressee(tokens: Sequence[Token], born: Sequence[int]) -> bool:
    """Say whether a line says whom a letter is about: "Re: Ada Hollis, born 4 May 1961".

    The birth date, whose label begins at one of ``born``, tells a name from a matter: "Re: hearing evaluation".
    """
    if len(tokens) < 3 or tokens[0].said not in ABOUT or tokens[1].sign != ":" or not born:
        return False
    between = [token for token in tokens[2 : born[0]] if not token.sign]
    return bool(between) and not any(token.small or token.said.isdigit() for token in between)
