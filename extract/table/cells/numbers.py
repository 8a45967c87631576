"""What the cell of a table says: a level with or without response, masked or not, or that nothing was measured."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

from ...eyes.words.numbers import level_value
from ..rows.vocabulary import vocabulary

Kind = Literal["level", "off-step", "unheard", "untested", "unclear"]

_LIKE = str.maketrans({"−": "-", "–": "-", "—": "-", "‒": "-", "≥": ">", "{": "(", "}": ")", "×": "x"})
_LEVEL = re.compile(
    r"(?P<open>[\[(])? ?(?P<more>>|↓)? ?(?P<level>-? ?\d{1,3})(?: ?db(?: ?hl)?)? ?(?P<masked>\*|m)? ?"
    r"(?P<less>\+|↓|nr|n\.r\.|no response)? ?(?P<late>\*|m)?(?P<close>[\])])?(?P<last>\+|↓)?"
)
_UNHEARD_AT = re.compile(r"(?:n\.?r\.?|no response)(?: ?[@:/>=(] ?| at | )(?P<level>\d{2,3})(?: ?db(?: ?hl)?)?\)?")
"""No response, and then the level at which there was none."""


@dataclass(frozen=True, slots=True)
class Said:
    """What a cell says.

    ``kind`` is ``level`` with ``level_db_hl``; ``off-step`` for a number that is no level in steps of 5 dB;
    ``unheard`` for no response at a level that is not told; ``untested``; or ``unclear``. ``sign`` is the sign of
    masking at the number (``*``, ``m``, ``[]`` or ``()``).
    """

    kind: Kind
    level_db_hl: float | None = None
    response: bool = True
    sign: str = ""


@lru_cache(maxsize=65536)  # the same few texts stand in all tables
def said_by(text: str) -> Said:
    """Read a cell's text.

    >>> said_by(">110*")
    Said(kind='level', level_db_hl=110.0, response=False, sign='*')
    >>> said_by("CNT").kind
    'untested'
    """
    bare = _phrases().sub("no response", re.sub(r"\s+", " ", text.casefold().translate(_LIKE)).strip())
    letters = bare.replace(".", "").replace(" ", "").replace("/", "")
    if not bare or re.fullmatch(r"[-_. ]+|x", bare) or letters in vocabulary()["untested"] or bare in _untested():
        return Said("untested")
    if re.sub(r"[*()\[\]]|(?<=r)m$", "", letters) in {"noresponse", *vocabulary()["unheard"]} or bare == "↓":
        signs = (sign for sign in ("*", "[]", "()") if sign[0] in letters)
        return Said("unheard", response=False, sign=next(signs, "m" if letters.endswith("m") else ""))
    unheard = _UNHEARD_AT.fullmatch(bare)
    found = _LEVEL.fullmatch(unheard["level"] + "+" if unheard else bare)
    if not found:
        return Said("unclear")
    pair = (found["open"] or "") + (found["close"] or "")
    sign = found["masked"] or found["late"] or pair
    if len(pair) == 1 or pair in ("[)", "(]") or sum(map(bool, (found["masked"], found["late"], pair))) > 1:
        return Said("unclear")
    heard = not (found["more"] or found["less"] or found["last"])
    level = level_value(found["level"].replace(" ", ""))
    if level is None or not -10 <= level <= 130:
        return Said("off-step", response=heard, sign=sign)
    return Said("level", level, heard, sign)


@lru_cache(maxsize=1)
def _phrases() -> re.Pattern[str]:
    """Match what says no response in several words."""
    return re.compile("|".join(re.escape(said) for said in vocabulary()["unheard"] if " " in said))


@lru_cache(maxsize=1)
def _untested() -> frozenset[str]:
    """Give what says in several words that nothing was measured."""
    return frozenset(said for said in vocabulary()["untested"] if " " in said)


def same_text(one: str, other: str) -> bool:
    """Say whether two readings of a cell agree; the second may not know a sign and say ``?`` for it.

    >>> same_text(">110*", "?110?")
    True
    >>> same_text("15", "75")
    False
    """
    mine, others = (re.sub(r"[\s.]", "", text.casefold().translate(_LIKE)) for text in (one, other))
    if len(mine) != len(others):
        return False
    return all(a == b or (b == "?" and not a.isalnum()) for a, b in zip(mine, others, strict=True))
