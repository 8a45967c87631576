"""Tell "AS" and "AD", types of tympanograms, from the Latin names of the ears."""

from __future__ import annotations

from dataclasses import replace

from .context import Layout
from .tokens import Row

LATIN_EARS = frozenset({"AD", "AS"})


def with_types_told(layout: Layout) -> Layout:
    """Give the page with "AS" and "AD" as words where they are types of tympanograms, not ears by their Latin names."""
    rows: list[Row] = []
    for number, row in enumerate(layout.rows):
        types = [
            token
            for token in row.tokens
            if token.text in LATIN_EARS and layout.find(number, token, frozenset({"type"})) is not None
        ]
        tokens = tuple(replace(t, kind="word", meanings=frozenset()) if t in types else t for t in row.tokens)
        rows.append(replace(row, tokens=tokens))
    return Layout(tuple(rows))
