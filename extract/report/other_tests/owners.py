"""What belongs to a threshold or score of speech: its level, list, number of words and masking."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from ..layout.context import Layout
from ..layout.tokens import Token
from ..layout.values import Value, unclaimed
from ..layout.wording.sentences import sentence_around

THRESHOLDS = frozenset({"srt", "sdt", "mcl", "ucl"})
SCORES = frozenset({"score", "phonemes"})
BLOCK = 5
"""A score's level, list and so on stand at most so many lines away from it."""


@dataclass(frozen=True, slots=True)
class Owner:
    """A threshold or score, and the values that say how it was measured; ``unread`` where there may be more of them."""

    value: Value
    attributes: tuple[Value, ...]
    unread: bool


def owners_of(layout: Layout, value: Value, owners: Sequence[Value]) -> list[int]:
    """Find the scores or thresholds that a level, list, number of words or masking belongs to."""
    may = [
        (number, owner)
        for number, owner in enumerate(owners)
        if owner.meaning in SCORES or (value.meaning == "masking" and owner.meaning in THRESHOLDS)
    ]
    ear = layout.ear(value.row, value.token)
    on_line = [(number, owner) for number, owner in may if owner.row == value.row]
    if on_line:
        order = layout.rows[value.row].tokens.index
        at = order(value.token)
        first = value.label.how != "above" and at < min(order(owner.token) for _, owner in on_line)
        named = all(owner.label.token.cell == value.token.cell for _, owner in on_line)  # "Score at 65 dB: | 76 | 60"
        if first and (ear is None or (named and ear.row != value.row)):
            return [number for number, _ in on_line]
        mine = [item for item in on_line if _same_ear(layout, item[1], ear)]
        before = [item for item in mine if order(item[1].token) < at]
        return [(before[-1] if before else mine[0])[0]] if mine else []
    near = [
        item
        for item in may
        if abs(item[1].row - value.row) <= BLOCK
        and layout.together(item[1].row, value.row)
        and _same_ear(layout, item[1], ear)
    ]
    above = [item for item in near if item[1].row < value.row]
    if above:
        last = max(item[1].row for item in above)
        return [number for number, owner in above if owner.row == last][: None if ear is None else 1]
    first_row = min((item[1].row for item in near), default=-1)
    return [number for number, owner in near if owner.row == first_row][: None if ear is None else 1]


def lacks(layout: Layout, owner: Value, attributes: Sequence[Value], told: set[str]) -> bool:
    """Say whether a score has no level, list or number of words though another one of the page has."""
    ear = layout.ear(owner.row, owner.token)
    expected = told & {"level", "list", "words"}
    alone = ear is not None and ear.ear == "both"
    return owner.meaning in SCORES and not alone and not expected <= {value.meaning for value in attributes}


def something_unread(
    layout: Layout, owner: Value, attributes: Sequence[Value], found: Sequence[Value], *, given: bool
) -> bool:
    """Say whether a number that nothing was made of stands on a score's lines: it may be the score's level or list.

    Where the words are not the file's own (``given``), a word that is no label asks as well: it may say "masked".
    """
    if owner.meaning not in SCORES:
        masked = any(value.meaning == "masking" and value.row == owner.row for value in attributes)
        return masked and bool(unclaimed(layout, (value.token for value in found), owner.row))
    texts = [one for value in found if value.meaning == "list" for one in list_tokens(layout, value)]
    claimed = [*(value.token for value in found), *texts]
    tokens = layout.rows[owner.row].tokens
    behind = tokens[tokens.index(owner.token) + 1 :]
    if not given and any(one.kind == "word" and not any(one is known for known in claimed) for one in behind):
        return True
    sentence = sentence_around(tokens, tokens.index(owner.token))
    said = [tokens[at] for at in sentence]
    for number in range(max(owner.row - BLOCK, 0), min(owner.row + BLOCK + 1, len(layout.rows))):
        if number == owner.row or layout.together(number, owner.row):
            for token in unclaimed(layout, claimed, number):
                if number == owner.row and not any(token is one for one in said):
                    continue
                titled = "speech" in layout.title(number, token) and "speech" in layout.title(owner.row, owner.token)
                if number == owner.row or (titled and _same_ear(layout, owner, layout.ear(number, token))):
                    return True
    return False


def _same_ear(layout: Layout, owner: Value, ear: object) -> bool:
    mine = layout.ear(owner.row, owner.token)
    return ear is None or mine is None or mine.ear == getattr(ear, "ear", None)


def list_text(layout: Layout, value: Value) -> str:
    """Give a list's name; a number directly behind the label has it as a part of its name, as in "List 3"."""
    tokens = layout.rows[value.row].cell(value.token.cell)
    at = tokens.index(value.token)
    named = value.token.kind == "number" and at > 0 and "list" in tokens[at - 1].meanings
    return _joined([*([tokens[at - 1]] if named else []), *list_tokens(layout, value)])


def list_tokens(layout: Layout, value: Value) -> list[Token]:
    tokens = layout.rows[value.row].cell(value.token.cell)
    taken: list[Token] = []
    for one in tokens[tokens.index(value.token) :]:
        if one.text in (",", ";", ")", "(", "=") or (one.kind == "label" and not one.glued):
            break
        taken.append(one)
    return taken


def _joined(tokens: Iterable[Token]) -> str:
    text = ""
    for one in tokens:
        apart = not one.glued or (text[-1:].islower() and one.kind == "number")
        text += (" " if apart else "") + one.text
    return text.strip()
