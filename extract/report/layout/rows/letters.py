"""Letters that look like ears and are people's: "Re: Ada Hollis", "R. Penalba"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from ..tokens import Row, Token

ABOUT = "re"
SIDES = frozenset({"right", "left"})


def without_people(row: Row) -> Row:
    """Make words of a "Re:" that begins a line and has a name behind it, and of initials before a name or another."""
    tokens = row.tokens
    people = [at for at in range(len(tokens)) if _is_addressee(tokens, at) or _is_initial(tokens, at)]
    if not people:
        return row
    made = (replace(one, kind="word", meanings=frozenset()) if at in people else one for at, one in enumerate(tokens))
    return replace(row, tokens=tuple(made))


def _is_addressee(tokens: Sequence[Token], at: int) -> bool:
    begins = at == 0 and len(tokens) > 2 and tokens[0].text.casefold() == ABOUT and tokens[1].text == ":"
    return begins and _is_name(tokens[2])


def _is_initial(tokens: Sequence[Token], at: int) -> bool:
    """Say whether a letter that names an ear, with its full stop, stands before or behind a part of a name."""
    one = tokens[at]
    if len(one.text) != 1 or not one.meanings & SIDES or at + 1 >= len(tokens):
        return False
    stop = tokens[at + 1]
    if stop.text != "." or not stop.glued:
        return False
    after = tokens[at + 2] if at + 2 < len(tokens) and tokens[at + 2].cell == one.cell else None
    before = tokens[at - 2] if at > 1 and tokens[at - 1].text == "." and tokens[at - 2].cell == one.cell else None
    return (after is not None and (_is_name(after) or _is_letter(after))) or (before is not None and _is_letter(before))


def _is_name(token: Token) -> bool:
    return token.kind == "word" and token.text[:1].isupper() and token.text.isalpha()


def _is_letter(token: Token) -> bool:
    return len(token.text) == 1 and token.text.isupper()
