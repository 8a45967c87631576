"""What gives a printed value its meaning: the labels before it on its line, those above it, and the ear's."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import pairwise
from typing import Literal

from .cells import (
    AT_ONCE,
    PARTS,
    box_of,
    cells_of,
    content_of,
    is_bracketed,
    is_content,
    is_free,
    is_head,
    is_sentence,
    is_title,
    segments,
)
from .ears import EarName, ear_of_heads, heads_in
from .tokens import Box, Row, Token
from .vocabulary import bare, parts_of, vocabulary
from .wording.phrases import ear_behind
from .wording.sentences import each_names_its_ear

NEXT_LINE = 2.6
"""A line farther below the last than this, in heights of its text, belongs to something else."""
MERGED = 1.5
"""Lines of text stand further from each other, from middle to middle, in heights of their letters."""
NEAR_HEAD = 1.5
"""A head that does not stand above its column stands at most so many heights beside it."""
BEHIND_TITLE = 2.5
"""What begins at most so many heights behind a title belongs to it."""
How = Literal["beside", "above", "line"]
Cells = tuple[tuple[Token, ...], ...]


@dataclass(frozen=True, slots=True)
class Found:
    """A label that gives a value its meaning, and how it stands to it; ``aligned`` is false where it stands aside."""

    token: Token
    how: How
    row: int
    aligned: bool = True


@dataclass(frozen=True, slots=True)
class EarFound:
    """The ear that a value belongs to, and where it is named; ``doubt`` where the page could mean the other one."""

    ear: EarName
    doubt: bool
    row: int
    token: Token


@dataclass(frozen=True, eq=False)  # without slots, which leave no room for what is kept
class Layout:
    """The lines of a page, from its top."""

    rows: tuple[Row, ...]

    @cached_property
    def parts(self) -> tuple[Cells, ...]:
        """The parts of each line (``segments``)."""
        return tuple(tuple(segments(row)) for row in self.rows)

    @cached_property
    def heads(self) -> tuple[Cells, ...]:
        """Of each line the cells that name what stands below them: those whose part of the line has no values."""
        return tuple(
            tuple(
                cell
                for part in parts
                if not any(is_free(part, one) for one in part)
                for cell in cells_of(part)
                if is_head(cell)
            )
            for parts in self.parts
        )

    @cached_property
    def titles(self) -> tuple[Cells, ...]:
        """Of each line the cells that are titles."""
        return tuple(tuple(filter(is_title, cells_of(row.tokens))) for row in self.rows)

    @property
    def language(self) -> str | None:
        """The language in which most labels are that stand in one language alone; None where none is."""
        known = vocabulary().of_language
        said = (tuple(map(bare, parts_of(one.text))) for row in self.rows for one in row.tokens if one.kind == "label")
        votes = Counter(known[parts] for parts in said if parts in known)
        return votes.most_common(1)[0][0] if votes else None

    def star(self) -> frozenset[str]:
        """Give what the page says that a star behind a value means, as in "* masked"; nothing where it does not say."""
        for row in self.rows:
            told = [one for one in row.tokens if one.kind != "sign"]
            if row.tokens[0].text == "*" and told and told[0].kind == "label" and row.tokens[1].text != "*":
                return told[0].meanings
        return frozenset()

    def segment(self, row: int, token: Token) -> tuple[Token, ...]:
        """Give the part of a line that a token stands in: from the label that begins it to before the next one's."""
        return next(part for part in self.parts[row] if token in part)

    def find(self, row: int, token: Token, wanted: frozenset[str]) -> Found | None:
        """Find the label nearest to a value that has one of the meanings wanted.

        Before it in its part of the line; else above its column; else farther before it on its line.
        """
        for found in self.labels(row, token):
            if found.token.meanings & wanted:
                return found
        return None

    def labels(self, row: int, token: Token) -> Iterator[Found]:
        """Give every label that may stand for a value, the nearest first."""
        part = self.segment(row, token)
        yield from (Found(one, "beside", row) for one in _before(part, token))
        yield from self.above(row, token)
        line = self.rows[row].tokens
        yield from (Found(one, "line", row) for one in _before(line, token) if one not in part)

    def above(self, row: int, token: Token) -> Iterator[Found]:
        """Give the labels of the heads above a value's column."""
        box = box_of(self._values_of_cell(row, token))
        high = self.rows[row].height
        for number in self.upward(row, token):
            heads = self.heads[number]
            over = [cell for cell in heads if _overlap(box_of(cell), box) > 0]
            near = over or [cell for cell in heads if _apart(box_of(cell), box) < NEAR_HEAD * high]
            if len(near) == 1 or over:
                cell = max(near, key=lambda one: _overlap(box_of(one), box))
                aligned = bool(over) or is_title(cell)
                yield from (Found(one, "above", number, aligned) for one in _labels_over(cell, box))

    def title(self, row: int, token: Token) -> frozenset[str]:
        """Give which tests the nearest title above a value, or on its line before it, says that it is part of."""
        return frozenset(m for one in self.title_tokens(row, token) for m in one.meanings if m in PARTS)

    def title_tokens(self, row: int, token: Token) -> tuple[Token, ...]:
        """Give the cell of the nearest title on a value's line before it, or above it."""
        for found in _before(self.rows[row].tokens, token):
            if found.meanings & PARTS:
                cell = self.rows[row].cell(found.cell)
                return _title_in_text(cell, found) if found.cell == token.cell else cell
        box = box_of(self.segment(row, token))
        for number in range(row - 1, -1, -1):
            cell = self._title_cell(number, box)
            if cell:
                return cell
        return ()

    def ear(self, row: int, token: Token) -> EarFound | None:
        """Find the ear of a value: named before it, by a head of its column, by a title, farther before it."""
        part = self.segment(row, token)
        behind = _named_behind(row, self.rows[row].cell(token.cell), token)
        if behind is not None:
            return behind
        inner = heads_in(_before(part, token))
        beside = _of_pair(row, part, token) or (EarFound(inner[0].ear, False, row, inner[0].token) if inner else None)
        above = self._ear_above(row, token, past_titles=beside is None)
        if beside is not None:
            apart = beside.token.cell != token.cell
            differs = apart and above is not None and above.ear != beside.ear
            return replace(beside, doubt=beside.doubt or differs)
        if above is not None:
            return above
        line = heads_in(_before(self.rows[row].tokens, token))
        return EarFound(line[0].ear, False, row, line[0].token) if line else None

    def _ear_above(self, row: int, token: Token, *, past_titles: bool) -> EarFound | None:
        part = self.segment(row, token)
        beyond_title = False
        for number in self.upward(row, token, past_titles=past_titles):
            titled = self._title_cell(number, box_of(part))
            cells: Sequence[tuple[Token, ...]] = [cell for cell in self.heads[number] if not is_sentence(cell)]
            if titled and not cells:  # the title's line holds the test's result
                cells = [self.segment(number, titled[0])]
            heads = [head for cell in cells for head in heads_in(cell)]
            if len(heads) == 1 and any(is_title(cell) for cell in cells):
                left, right = self.rows[number].tokens[0], self.rows[number].tokens[-1]
                heads = [replace(heads[0], span=box_of((left, heads[0].token, right)))]
            if heads:
                columns = self._columns(number, row)
                parts = len([one for one in self.parts[row] if one[0].kind == "label"])
                found = ear_of_heads(heads, token, box_of(part), parts, columns, self.rows[row].height)
                if found is not None:
                    column = len(heads) == 1 and len(columns) > 1 and len(self.heads[number]) > 1
                    beside = column and _overlap(found.box, token.box) <= 0 and not self._in_title(number, found.token)
                    doubt = found.doubt or beside or (beyond_title and len(heads) > 1) or self._between_rows(number)
                    return EarFound(found.ear, doubt, number, found.token)
            beyond_title = beyond_title or (bool(titled) and not self._names_row(number, titled))
        return None

    def _between_rows(self, number: int) -> bool:
        """Say whether a line stands between two others as no line of text does: in a cell merged over several rows."""
        middles = [(row.top + row.bottom) / 2 for row in self.rows[max(number - 1, 0) : number + 2]]
        close = [b - a < MERGED * self.rows[number].height for a, b in pairwise(middles)]
        return len(close) == 2 and all(close)

    def _names_row(self, row: int, title: tuple[Token, ...]) -> bool:
        """Say whether a title is the name of a table's line: values stand behind it in cells of their own."""
        cells = cells_of(self.rows[row].tokens)
        return cells[0] == title and len(cells) > 2 and all(any(map(is_content, cell)) for cell in cells[1:])

    def _in_title(self, row: int, token: Token) -> bool:
        """Say whether an ear's name stands right behind a title: it is the ear of all below, and heads no column."""
        before = [cell for cell in cells_of(self.rows[row].tokens) if box_of(cell)[2] <= token.box[0]]
        gap = token.box[0] - box_of(before[-1])[2] if before else 0.0
        return bool(before) and is_title(before[-1]) and gap < BEHIND_TITLE * self.rows[row].height

    def together(self, one: int, other: int) -> bool:
        """Say whether no wider gap parts two lines than lines of one part have between them."""
        first, last = min(one, other), max(one, other)
        return all(self._gap(number) <= NEXT_LINE * self.rows[last].height for number in range(first, last))

    def _gap(self, number: int) -> float:
        return self.rows[number + 1].top - self.rows[number].bottom

    def _columns(self, head: int, row: int) -> list[Box]:
        """Give the columns under a line of heads: those of the line of labels below it, else of the value's line."""
        for number in range(head + 1, row):
            cells = [box_of(cell) for cell in self.heads[number] if not heads_in(cell) and not _names_bands(cell)]
            if len(cells) > 3:
                return cells
        return [box_of(content_of(cell)) for cell in cells_of(self.rows[row].tokens) if content_of(cell)]

    def _values_of_cell(self, row: int, token: Token) -> list[Token]:
        return content_of(self.rows[row].cell(token.cell)) or [token]

    def upward(self, row: int, token: Token, *, past_titles: bool = False) -> Iterator[int]:
        """Go up line by line as far as they belong together."""
        box = box_of(self.segment(row, token))
        for number in range(row - 1, -1, -1):
            if self._gap(number) > NEXT_LINE * self.rows[row].height:
                return
            yield number
            if not past_titles and self._title_cell(number, box):
                return

    def _title_cell(self, number: int, box: Box) -> tuple[Token, ...]:
        return next((cell for cell in self.titles[number] if _overlap(box_of(cell), box) > 0), ())


def _names_bands(cell: tuple[Token, ...]) -> bool:
    """Say whether a head stands over the frequencies of a table, which are both ears'."""
    return any("frequency" in one.meanings for one in cell)


def _before(tokens: Sequence[Token], token: Token) -> list[Token]:
    """Give the labels before a token, the nearest first, without those that mean another number."""
    at = tokens.index(token)
    found = []
    for number in range(at - 1, -1, -1):
        one = tokens[number]
        if one.kind != "label" or (one.meanings <= AT_ONCE and _spent(tokens[number + 1 : at], one)):
            continue
        if one.cell != token.cell and is_bracketed([other for other in tokens if other.cell == one.cell], one):
            continue
        found.append(one)
    return found


def _title_in_text(cell: tuple[Token, ...], title: Token) -> tuple[Token, ...]:
    """Give the labels and units around a test's name in a text: what it says farther off is of other tests."""
    first = last = cell.index(title)
    while first > 0 and cell[first - 1].kind in ("label", "unit"):
        first -= 1
    while last + 1 < len(cell) and cell[last + 1].kind in ("label", "unit"):
        last += 1
    return cell[first : last + 1]


def _spent(between: Sequence[Token], label: Token) -> bool:
    return any(one.kind == "number" and one.cell == label.cell for one in between)


def _labels_over(cell: tuple[Token, ...], box: Box) -> list[Token]:
    """Give the labels of a head, those above the value first; of an ear each in one cell, the one above the value."""
    labels = [one for one in reversed(cell) if one.kind in ("label", "unit")]
    labels.sort(key=lambda one: _apart(one.box, box))
    ears = [one for one in labels if one.meanings & {"right", "left"}]
    return [one for one in labels if one not in ears[1:]]


def _named_behind(row: int, cell: tuple[Token, ...], token: Token) -> EarFound | None:
    """Give the ear that a sentence names behind its value, as in "25 dB on the right": its first value has none before.

    It is in doubt but where each value has its own: whether a name belongs to what stands before or behind it, the
    words would have to be understood.
    """
    at = cell.index(token)
    doubt = not each_names_its_ear(cell, at)
    joined = ear_behind(cell, at)
    if joined is not None:
        return EarFound(heads_in((cell[joined],))[0].ear, doubt, row, cell[joined])
    ears = [number for number, one in enumerate(cell) if heads_in((one,))]
    numbers = [at for at, one in enumerate(cell) if one.kind == "number" and one.unit not in (None, "Hz", "kHz")]
    if not ears or not numbers or ears[0] < numbers[0]:
        return None
    after = next((number for number in ears if number > at), ears[-1])
    return EarFound(heads_in((cell[after],))[0].ear, doubt, row, cell[after])


def _of_pair(row: int, part: tuple[Token, ...], token: Token) -> EarFound | None:
    """Give the ear of a value that follows both ears' names, as in "R/L: 25/30 dB": the first value is the first's."""
    at = part.index(token)
    ears = [number for number in range(at) if heads_in((part[number],))]
    if len(ears) < 2 or ears[-1] - ears[-2] != 2 or part[ears[-1] - 1].text not in ("/", "|"):
        return None
    pair = (part[ears[-2]], part[ears[-1]])
    numbers = [one for one in part[ears[-1] + 1 :] if one.kind == "number"]
    clear = len(numbers) == 2 and pair[0].meanings != pair[1].meanings and token in numbers
    named = pair[numbers.index(token)] if clear else pair[1]
    return EarFound(heads_in((named,))[0].ear, not clear, row, named)


def _overlap(one: Box, other: Box) -> float:
    return min(one[2], other[2]) - max(one[0], other[0])


def _apart(one: Box, other: Box) -> float:
    return max(one[0] - other[2], other[0] - one[2], 0.0)
