"""Look at the cells of a table knowing that each holds a level in steps of 5 dB, a sign, or nothing measured."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import accumulate, product

import numpy as np

from ...page import Pixels, Word
from ..cells.numbers import Said, said_by
from ..rows.lines import height
from ..rows.row import Layout
from ..rows.slant import Slant
from .weigh import Box, Logs, weigh

LEVELS = range(-10, 135, 5)
MASKED = ("{}", "({})", "[{}]", "{}*", "{}m")
UNHEARD = ("{}", ">{}", "{}+", "{} NR", "{}NR", "{}↓")
ARROW = "↓"
ARROW_AS = ("?", "1")
"""How our networks say an arrow, which they do not know; the second before a sign alone: elsewhere it may be a rule."""
BEFORE_SIGN = re.compile("↓(?=[*m])")
SEEN_ARROW_AS = ("1", "l", "L", "I", "i", "t", "J", "!", "v", "4", ")", ",")
"""As what else they may say one whose shape was seen."""
WORDS = ("DNT", "CNT", "NT", "n.t.", "NR", "N.R.", "(NR)", "[NR]", "-", "--", "n/a")
OF_A_READING = 3.0
"""What a reading of the word counts for in the choice, in logarithms of chances."""
LEAST_LEAD = (3.0, 7.0)
"""Another value than the one read is taken where it leads all others by so much; the second where a level was read."""
LEAST_FIT = -8.0
"""So much less likely than what the networks read freely, no known text stands in a cell."""
MOST_LOGIT, LEAST_LOG = 9.0, -15.0

FIGURES = str.maketrans(dict(zip("oOQDUÖÜlIi|!ÍíSs§$BZzAabGgq", "000000011111115555822446699", strict=True)))
RAISED = re.compile("[*°\"”’']+$")
"""What digits, and a star behind them, are read as by a reader of words; of 61 such readings on 21 faxed, scanned and
copied training pages that agreed with our networks when taken so, two were of other numbers."""

Outcome = tuple[str, float | None, bool, str]
Known = tuple[tuple[str, ...], tuple[str, ...], tuple[Outcome, ...], tuple[int, ...]]


@dataclass(frozen=True, slots=True)
class Look:
    """What two networks say of a cell.

    ``text`` is what stands there; ``as_print`` and ``as_label`` are the logits of its value's chance among all that a
    cell may hold, ``print_fit`` and ``label_fit`` the logarithms of how well it explains the picture (0: as well as
    any text). ``agreed`` tells whether two readings of the words say the same, ``alone`` that there was but one.
    """

    text: str
    as_print: float
    as_label: float
    print_fit: float
    label_fit: float
    agreed: bool
    alone: bool


Looks = Mapping[tuple[int, int], Look]
"""By row and by number of the frequency."""


def look_at(grey: Pixels, layout: Layout, slant: Slant) -> dict[tuple[int, int], Look]:
    """Look at all cells of a table that hold words.

    Parameters
    ----------
    grey : ndarray, shape (height, width), uint8
        The sheet's brightness.
    layout : Layout
        The table, its words levelled.
    slant : Slant
        What their places were levelled by.
    """
    cells = {(r, i): cell for r, row in enumerate(layout.rows) for i, cell in enumerate(row.cells) if cell}
    usual = float(np.median([height(w) for cell in cells.values() for w in cell] or [0.0]))
    looks: dict[tuple[int, int], Look] = {}
    for arrowed in (False, True):
        known = _known(arrowed=arrowed)
        some = {place: cell for place, cell in cells.items() if arrowed == any(ARROW in w.text for w in cell)}
        weights = weigh(grey, [_box(cell, slant, usual) for cell in some.values()], known[0])
        for (place, cell), *logs in zip(some.items(), weights.as_print, weights.as_label, strict=True):
            looks[place] = _look(cell, known, *logs)
    return looks


def _box(words: Sequence[Word], slant: Slant, usual: float) -> Box:
    """Give the box of a cell's words on the sheet, as high as the table's words usually are."""
    boxes = [slant.box_done(w.box) for w in words]
    top, bottom = min(b[1] for b in boxes), max(b[3] for b in boxes)
    lack = max(0.95 * usual - (bottom - top), 0.0) / 2
    return min(b[0] for b in boxes), top - lack, max(b[2] for b in boxes), bottom + lack


def _look(words: Sequence[Word], known: Known, as_print: Logs, as_label: Logs) -> Look:
    first = " ".join(w.text for w in words)
    second = " ".join(w.others[0][0] for w in words if w.others)
    read, other = _outcome(said_by(first)), _outcome(said_by(_in_figures(second)))
    texts, meant, outcomes, starts = known
    fits = np.array([np.maximum.reduceat(logs, starts) for logs in (as_print, as_label)])
    votes = np.array([OF_A_READING * ((one == read) + (one == other and bool(second))) for one in outcomes])
    total = np.maximum(fits, LEAST_LOG).sum(axis=0) + votes
    order = np.argsort(-total)
    best, lead = int(order[0]), float(total[order[0]] - total[order[1]])
    text = first
    if outcomes[best] != read and lead > LEAST_LEAD[read[0] == "level"] and fits[:, best].min() > LEAST_FIT:
        same = range(starts[best], starts[best + 1] if best + 1 < len(starts) else len(texts))
        text = meant[max(same, key=lambda i: as_print[i] + as_label[i])]
    said = _outcome(said_by(text))
    at = outcomes.index(said) if said in outcomes else None
    if at is None:
        return Look(text, -MOST_LOGIT, -MOST_LOGIT, LEAST_LOG, LEAST_LOG, agreed=first == second, alone=not second)
    print_fit, label_fit = (float(np.clip(row[at], LEAST_LOG, 0.0)) for row in fits)
    return Look(
        text,
        _logit(fits[0], at),
        _logit(fits[1], at),
        print_fit,
        label_fit,
        agreed=other == said == read,
        alone=not second,
    )


def _in_figures(text: str) -> str:
    """Give a text that says nothing in a cell with the figures that its letters may be.

    >>> _in_figures("8o*"), _in_figures("1S"), _in_figures("95°"), _in_figures("NR")
    ('80*', '15', '95*', 'NR')
    """
    return RAISED.sub("*", text.translate(FIGURES)) if said_by(text).kind == "unclear" else text


def _logit(logs: Logs, at: int) -> float:
    """Give the logit of one outcome's chance among all."""
    rest = np.delete(np.maximum(logs, 2 * LEAST_LOG), at)
    high = float(rest.max())
    return float(
        np.clip(max(logs[at], 2 * LEAST_LOG) - high - np.log(np.exp(rest - high).sum()), -MOST_LOGIT, MOST_LOGIT)
    )


def _outcome(said: Said) -> Outcome:
    return said.kind, said.level_db_hl, said.response, said.sign


@lru_cache(maxsize=2)
def _known(*, arrowed: bool) -> Known:
    """List the texts that a cell may hold, with more ways to say an arrow where its shape was seen."""
    made = [mask.format(form.format(level)) for level, mask, form in product(LEVELS, MASKED, UNHEARD)]
    said = [(text.replace(ARROW, ARROW_AS[0]), text) for text in dict.fromkeys((*made, *WORDS))]
    said += [(BEFORE_SIGN.sub(ARROW_AS[1], text), text) for text in made if BEFORE_SIGN.search(text)]
    if arrowed:
        said += [(t.replace(ARROW, figure), t) for t, figure in product(made, SEEN_ARROW_AS) if ARROW in t]
    return _by_meaning(said)


def _by_meaning(texts: Sequence[tuple[str, str]]) -> Known:
    """Put the texts of one meaning together.

    Texts as the networks say them and as they are printed; their meanings, and where the texts of each begin.
    """
    texts_of: dict[Outcome, list[tuple[str, str]]] = {}
    for said, text in texts:
        texts_of.setdefault(_outcome(said_by(text)), []).append((said, text))
    ordered = [pair for some in texts_of.values() for pair in some]
    starts = tuple(accumulate((len(some) for some in texts_of.values()), initial=0))[:-1]
    return tuple(said for said, _ in ordered), tuple(text for _, text in ordered), tuple(texts_of), starts
