"""Page numbers as a page prints them: "Page 2 of 3"."""

from __future__ import annotations

import re
from collections.abc import Sequence

from ..lines import Line
from .dating import words_between
from .draft import Draft
from .printed.vocabulary import bare, vocabulary

_NUMBERED = re.compile(r"([^\W\d_]+)\.?:?\s(\d{1,3})\s?(?:/|([^\W\d_]+)\s)\s?(\d{1,3})(?!\d|[/.,]\d)")


def page_number(lines: Sequence[Line]) -> list[Draft]:
    """Find the printed page number, with the number of pages.

    Parameters
    ----------
    lines : sequence of Line
        All lines of the sheet.

    Returns
    -------
    list of Draft
        One, ``2/3`` as its value; none where the page prints none, or several.
    """
    found: dict[str, Draft] = {}
    for line in lines:
        for cell in line.cells:
            for match in _NUMBERED.finditer(cell.text):
                page, of = int(match[2]), int(match[4])
                worded = bare(match[1]) in vocabulary().pages and (
                    match[3] is None or bare(match[3]) in vocabulary().of
                )
                if worded and 1 <= page <= of:
                    words = words_between(cell.words, match.start(), match.end(), cell.text)
                    text = match[0]
                    found[f"{page}/{of}"] = Draft(
                        "page-number", f"{page}/{of}", text, words, None, None, strict=True
                    )  # fmt: skip
    return list(found.values()) if len(found) == 1 else []
