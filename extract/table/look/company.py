"""Read the names of a table's rows and columns that are in doubt by those beside them: "li" stands under "re"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import product
from math import inf
from string import ascii_letters, digits

from ...page import Pixels, Word
from ..rows.vocabulary import kinds_of, partners, parts_of
from .weigh import weigh

LEAST_FIT, LEAST_LEAD = -15.0, 5.0
"""How well such a name explains the picture by both networks, less than what they read freely, and how much better than
any other of its table."""
LONE_FIT, LONE_LEAD = -2.5, -1.0
"""A letter alone must fit as what is read freely does, and hardly worse than any other letter or digit: a speck or a
piece of a rule is none."""
BETWEEN = ("", " ", "-")
"""What stands between an ear and a conduction in one word."""
_EARS = ((frozenset({"right"}),), (frozenset({"left"}),))
_WAYS = ((frozenset({"air"}),), (frozenset({"bone"}),))
ALIGNED, ON_LINE = 0.8, 0.6
"""Names stand under one another, or on one printed line, in heights of a word."""


def in_company(grey: Pixels, doubtful: Sequence[Word], told: Sequence[Word], high: float) -> dict[int, Word]:
    """Read names that stayed in doubt among those that go with the names beside them.

    Parameters
    ----------
    grey : ndarray, shape (height, width), uint8
        The sheet's brightness.
    doubtful : sequence of Word
        Words where names stand that were not understood.
    told : sequence of Word
        The names beside them that were.
    high : float
        The height of a usual word.

    Returns
    -------
    dict
        By a word's ``id``, the word with the name that it says. A table names its ears and conductions in one language
        and style, so that few names are left to choose from: those beside the word, and what goes with each.
    """
    options = {id(word): _options(word, told, high) for word in doubtful}
    asked = [word for word in doubtful if options[id(word)]]
    if not asked:
        return {}
    texts = sorted({text for word in asked for text in options[id(word)]} | set(ascii_letters) | set(digits))
    weights = weigh(grey, [word.box for word in asked], texts)
    found: dict[int, Word] = {}
    for word, fit in zip(asked, weights.as_print + weights.as_label, strict=True):
        name = _best(dict(zip(texts, fit, strict=True)), options[id(word)])
        if name is not None:
            found[id(word)] = replace(word, text=name, others=((name, word.confidence),))
    return found


def _best(fits: dict[str, float], options: dict[str, str]) -> str | None:
    """Give the name, its words apart, that explains a picture best; None where none does well enough."""
    best = max(options, key=lambda text: fits[text])
    rivals = [fits[text] for text in options if _said(options[text]) != _said(options[best])]
    if len(best) == 1:
        rivals_of_letter = max(fits[text] for text in (*ascii_letters, *digits))
        if fits[best] < LONE_FIT or fits[best] - rivals_of_letter < LONE_LEAD:
            return None
    least = LEAST_FIT if len(best) > 1 else LONE_FIT
    return options[best] if fits[best] > least and fits[best] - max(rivals, default=-inf) > LEAST_LEAD else None


def _said(text: str) -> tuple[frozenset[str], ...]:
    return tuple(kinds_of(part)[0] for part in parts_of(text))


def _options(word: Word, told: Sequence[Word], high: float) -> dict[str, str]:
    """Give what may stand in a word's place, as it may be printed, and the same with its words apart.

    It is the names under, over and beside it, and those that go with them, also an ear and a conduction in one.
    """
    beside = _with_partners([w for w in told if _aligned(w, word, high)])
    ears = {text for text in beside if _said(text) in _EARS}
    ways = {text for text in _with_partners(told) if _said(text) in _WAYS}
    both = [two for ear, way in product(ears, ways) for two in ((ear, way), (way, ear))]
    return {text: text for text in beside} | {between.join(two): " ".join(two) for two in both for between in BETWEEN}


def _with_partners(names: Sequence[Word]) -> set[str]:
    """Give some names and those that go with them, in their case."""
    return {text for w in names for text in (w.text, *(_in_case_of(w.text, p) for p in _partners(w.text)))}


def _partners(text: str) -> frozenset[str]:
    return partners().get(text.casefold().strip(".,:"), frozenset())


def _in_case_of(text: str, other: str) -> str:
    return other.upper() if text.isupper() else other.title() if text.istitle() else other


def _aligned(one: Word, word: Word, high: float) -> bool:
    if abs(one.middle[1] - word.middle[1]) < ON_LINE * high:
        return True
    sides = (one.box[0] - word.box[0], one.box[2] - word.box[2], one.middle[0] - word.middle[0])
    return min(map(abs, sides)) < ALIGNED * high
