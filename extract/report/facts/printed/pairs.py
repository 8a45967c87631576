"""Labels and what they announce: the value beside a label, in the next cell, or below it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Literal

from ....page import Word
from ...lines import Box, Line, box_around
from .labels import Label
from .tokens import Token, tokens_of
from .vocabulary import CHOICES

Place = Literal["beside", "next-cell", "below"]
Fits = Callable[[Label, str], bool | None]
"""Says whether a text can be what a label announces; None where anything can."""

NEXT_CELL = 45.0
"""A value in the next cell begins at most so many heights of the letters after its label."""
GOES_ON = 2.6
"""A cell that begins so few heights after a value's end goes on with it, unless it is a label."""
GOES_ON_BOXED = 8.0
"""The same where tick boxes may stand between the words."""
BELOW = 2.4
"""A value below its label begins at most so many heights under it."""
NEAR = 2
"""Where values stand to their labels, those on so many lines above and below tell before the page as a whole."""
SPARE = 0.5
"""The next column's values may begin so many heights left of their label: a box of letters is not exact."""
ALIGNED = 1.5
"""Its left edge is at most so many heights from the label's."""
NEXT_LINE = 2.7
"""Lines of one text are at most so many heights apart, middle to middle."""
EMPTY = frozenset("_.…·-–—:;|=~*,'`")
"""What stands where nothing was written: dots, rules."""
OPENING = frozenset("([•\ufffd")
"""What begins the next fact of a line and ends no value."""
CLOSE = 2.2
"""The same where the line above ends early, so that the next one may be another text."""
FULL = 0.75
"""A line is full that reaches so far toward the right end of the page's text."""
MOST_BARE = 0.5
OTHER = frozenset({"other"})
LONG_TEXTS = frozenset({"note", "reason"})
"""Facts that may run over several lines."""


@dataclass(frozen=True, slots=True)
class Pair:
    """A label and the words that it announces, each cut to its part of the value; ``lines`` counts their lines."""

    label: Label
    words: tuple[Word, ...]
    place: Place
    lines: int = 1

    @property
    def text(self) -> str:
        """The words with single spaces."""
        return " ".join(word.text for word in self.words)

    @property
    def box(self) -> Box:
        """The box around the words, in sheet pixels."""
        return box_around(self.words)


def pairs_of(lines: tuple[Line, ...], labels: tuple[Label, ...], fits: Fits) -> tuple[Pair, ...]:
    """Give each label its value.

    Parameters
    ----------
    lines : tuple of Line
        All lines of the sheet.
    labels : tuple of Label
        Their labels (``labels_of``).
    fits : callable
        Says of a label and a text whether they can belong together.

    Returns
    -------
    tuple of Pair
        In the labels' order; a label without a value has none. Where a value may stand in the next cell as well as
        below, what fits is taken, and else what fits most labels of the page.
    """
    desk = _Desk(lines, labels)
    seen = [(label, desk.beside(label), desk.below(label)) for label in labels]
    idle = {label for label, beside, below in seen if beside is None and below is None and not label.colon}
    next_to = [(a, b) for a, b in pairwise(labels) if (a.line, a.last + 1) == (b.line, b.first)]
    values = {b for a, b in next_to if b in idle and a in idle}
    values |= {b for a, b in next_to if a.names == b.names and not b.colon}
    empty = [label for label, beside, below in seen if beside is None and below is None and label.colon]
    behind = {b for a, b in next_to if a in empty}
    if sum(label.colon for label in labels) > MOST_BARE * len(labels):  # on a page of colons, what has none is no label
        values |= {b for a, b in next_to if a.colon and b.alone and not b.colon and a.names != OTHER}
    under = {desk.label_below(label) for label in empty}
    values |= {one for one in behind | under if one is not None and (one in idle or _begins_value(one))}
    under = {desk.label_below(label) for label in idle if label.names != OTHER}
    values |= {one for one in under if one in idle and one.names == OTHER}
    if values:  # "Reason: | Follow-up": a value that is worded like a label
        return pairs_of(lines, tuple(label for label in labels if label not in values), fits)
    votes = [
        (label.line, (beside is not None and beside.place == "next-cell" and bool(fits(label, beside.text)))
         - (below is not None and bool(fits(label, below.text))))
        for label, beside, below in seen
    ]  # fmt: skip
    pairs: list[Pair] = []
    for label, beside, below in seen:
        near = sum(vote for line, vote in votes if abs(line - label.line) <= NEAR)
        chosen = _chosen(label, beside, below, fits, near or sum(vote for _, vote in votes))
        if chosen is not None:
            long = bool(LONG_TEXTS & label.names)
            pairs.append(desk.with_more_lines(chosen) if long else chosen)
    return tuple(pairs)


def _chosen(label: Label, beside: Pair | None, below: Pair | None, fits: Fits, votes: int) -> Pair | None:
    if beside is None or below is None or beside.place == "beside":
        return beside or below
    one, other = fits(label, beside.text), fits(label, below.text)
    if one is not other and (one is False or other is False or one or other):
        return beside if other is False or (one and not other) else below
    return beside if votes >= 0 else below


@dataclass(frozen=True, slots=True)
class _Desk:
    lines: tuple[Line, ...]
    labels: tuple[Label, ...]

    def beside(self, label: Label) -> Pair | None:
        """Give what follows a label on its line, up to the next label or a wide gap."""
        line = self.lines[label.line]
        tokens = tokens_of(line)
        later = (o.first for o in self.labels if o.line == label.line and o.first > label.first)
        stop = min(later, default=len(tokens))
        own = tokens[label.last]
        kept: list[Token] = []
        place: Place = "beside"
        last = own.right
        for token in tokens[label.last + 1 : stop]:
            if token.cell != (kept[-1].cell if kept else own.cell):
                reach = (GOES_ON_BOXED if set(CHOICES) & label.names else GOES_ON) if kept else NEXT_CELL
                if token.left - last > reach * line.height:
                    break
                place = place if kept else "next-cell"
            if kept or token.sign not in EMPTY or not token.sign:
                kept.append(token)
                last = token.right
        words = _words(line, kept)
        return Pair(label, words, place) if words else None

    def below(self, label: Label) -> Pair | None:
        """Give the cell that stands right below a label which has a cell of its own."""
        found = self._cell_below(label)
        if found is None or self._label_at(*found) is not None:
            return None
        number, place = found
        under = self.lines[number]
        end = self._column_end(label)
        if not _boxed(label):
            end = min(end, self._text_end(number, place))
        spare = SPARE * under.height  # for a cell's beginning alone: a value may end close before the next column
        begins = {cell for cell in range(place, len(under.cells)) if under.cells[cell].box[0] < end - spare}
        words = _words(under, [t for t in tokens_of(under) if t.cell in begins and t.left < end])
        return Pair(label, words, "below") if words else None

    def _text_end(self, number: int, place: int) -> float:
        """Give where a text ends that may go on after a wider space."""
        line = self.lines[number]
        end = line.cells[place].box[2]
        for cell in line.cells[place + 1 :]:
            if cell.box[0] - end > GOES_ON * line.height:
                break
            end = cell.box[2]
        return end

    def label_below(self, label: Label) -> Label | None:
        """Give the label that stands right below another one, where its value might."""
        found = self._cell_below(label)
        return self._label_at(*found) if found is not None else None

    def _cell_below(self, label: Label) -> tuple[int, int] | None:
        """Give the line and the place of the cell right below a label that has a cell of its own."""
        if not label.alone:
            return None
        line = self.lines[label.line]
        left, height = tokens_of(line)[label.first].left, line.height
        foot = max(w.box[3] for w in line.words)
        for number in range(label.line + 1, min(label.line + 4, len(self.lines))):
            under = self.lines[number]
            tall = max(height, under.height)
            for place, cell in enumerate(under.cells):
                if -ALIGNED * tall < cell.box[0] - left < (2 if _boxed(label) else 1) * ALIGNED * tall:
                    return (number, place) if cell.box[1] - foot <= BELOW * tall else None
        return None

    def _column_end(self, label: Label) -> float:
        """Give where the next label of the line begins, right of which nothing belongs to this one."""
        tokens = tokens_of(self.lines[label.line])
        later = (tokens[o.first].left for o in self.labels if o.line == label.line and o.first > label.first)
        return min(later, default=float("inf"))

    def _label_at(self, line: int, cell: int) -> Label | None:
        """Give the label with which a cell begins."""
        tokens = tokens_of(self.lines[line])
        begun = (
            o for o in self.labels
            if o.line == line and tokens[o.first].cell == cell and (o.first == 0 or tokens[o.first - 1].cell != cell)
        )  # fmt: skip
        return next(begun, None)

    def _is_announced(self, line: int, cell: int) -> bool:
        """Say whether a label ends the cell before one: what stands there is its value."""
        tokens = tokens_of(self.lines[line])
        ends = (o.last for o in self.labels if o.line == line and tokens[o.last].cell == cell - 1)
        return any(last + 1 == len(tokens) or tokens[last + 1].cell == cell for last in ends)

    def with_more_lines(self, pair: Pair) -> Pair:
        """Add the lines that a text goes on with: under its beginning, close, and without a label."""
        left = min(w.box[0] for w in pair.words)
        at = next(n for n, line in enumerate(self.lines) if any(w.box[1] == pair.words[-1].box[1] for w in line.words))
        words, lines, above = list(pair.words), 1, self.lines[at]
        full = FULL * max(line.box[2] for line in self.lines)
        for number in range(at + 1, len(self.lines)):
            under = self.lines[number]
            cells = [(k, c) for k, c in enumerate(under.cells) if abs(c.box[0] - left) < ALIGNED * above.height]
            step = (under.box[1] + under.box[3] - above.box[1] - above.box[3]) / 2
            alike = 0.75 < under.height / above.height < 1.33
            if step > (NEXT_LINE if words[-1].box[2] > full else CLOSE) * above.height:
                break
            if not cells:
                continue
            if not alike or self._label_at(number, cells[0][0]) is not None or self._is_announced(number, cells[0][0]):
                break
            words += _words(under, [t for t in tokens_of(under) if t.cell == cells[0][0]])
            lines, above = lines + 1, under
        return replace(pair, words=tuple(words), lines=lines)


def _begins_value(label: Label | None) -> bool:
    """Say whether a label may be a value's first words, as in "Place: Clinic at the quay"."""
    return label is not None and not label.colon and not label.alone


def _boxed(label: Label) -> bool:
    """Say whether tick boxes may stand before a label's value."""
    return bool(set(CHOICES) & label.names)


def _words(line: Line, tokens: list[Token]) -> tuple[Word, ...]:
    """Give the words of some tokens, the first one cut to what belongs to them; none where nothing is written."""
    while tokens and tokens[-1].sign in OPENING | EMPTY and tokens[-1].sign not in ("", "."):
        if tokens[-1].sign == ":":  # the label of something else, which no label file has
            return ()
        tokens = tokens[:-1]
    if not any(not token.sign for token in tokens) and not any(t.sign in "☐☒☑✓✗" for t in tokens):
        return ()
    found: list[Word] = []
    words = line.words
    for number in dict.fromkeys(token.word for token in tokens):
        word = words[number]
        parts = [token for token in tokens if token.word == number]
        start, end = parts[0].start, parts[-1].end
        if start == 0 and end == len(word.text):
            found.append(word)
            continue
        left = word.box[0] if start == 0 else parts[0].left
        right = word.box[2] if end == len(word.text) else parts[-1].right
        cut = tuple((text[start : len(text) - (len(word.text) - end)], chance) for text, chance in word.others)
        found.append(replace(word, text=word.text[start:end], box=(left, word.box[1], right, word.box[3]), others=cut))
    return tuple(found)
