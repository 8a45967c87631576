"""In which language a page is printed: one convention for bone marks is known from one language's leaflets alone."""

from __future__ import annotations

import difflib
import re
from collections.abc import Iterable
from functools import lru_cache
from typing import Literal

from ...page import Word

Tongue = Literal["german", "other"]
GERMAN = (
    "frequenz", "hörverlust", "hörschwelle", "hörpegel", "pegel", "lautstärke", "tonaudiogramm",
    "audiogramm", "tonschwelle", "rechts", "links", "rechtes", "linkes", "ohr", "luftleitung", "knochenleitung",
    "vertäubt", "patient(in)", "geboren", "datum", "untersuchung", "untersucher", "befund", "bemerkungen", "hörtest",
    "sprache", "kopfhörer", "praxis", "klinik", "schwelle", "unbehaglichkeit", "nein", "und", "nicht",
)  # fmt: skip
SHARED = frozenset({"rechts", "links", "datum"})
"""German words that are Dutch too, or of the north: German where no word of those languages stands."""
NEIGHBOURS = (
    "luchtgeleiding", "beengeleiding", "gehoorverlies", "gehoordrempel", "gehoor", "frequentie", "rechteroor",
    "linkeroor", "onderzoeker", "geboortedatum", "toonaudiogram", "spraakaudiogram", "gemaskeerd", "ongemaskeerd",
    "luftledning", "benledning", "frekvens", "hörnivå", "hörtröskel", "höger", "vänster",
)  # fmt: skip
OTHER = (
    *NEIGHBOURS, "audiogram", "audiograma", "audiogramme", "audiogramma",
    "frequency", "hearing", "level", "right", "left", "audiometry", "pure-tone", "threshold", "speech", "report",
    "clinic", "remarks", "tester", "chart", "course", "visit", "results", "summary", "history", "years", "with", "from",
    "this", "that", "have", "been", "notes", "service", "page", "tested", "examiner", "masked",
    "unmasked", "conduction", "reliability", "date", "born", "pitch",
    "fréquence", "niveau", "oreille", "droite", "gauche", "audiométrie", "perte", "frecuencia", "nivel", "oído",
    "derecho", "izquierdo", "audiometría", "frequência", "orelha", "direita", "esquerda", "frequenza", "orecchio",
    "destro", "sinistro",
)  # fmt: skip
SHORTEST = 4
"""Shorter words are too easily taken for one another."""
ALIKE = 0.84
"""How alike a printed word and a known one must be (difflib's ratio): one wrong letter in six."""


def tongue(words: Iterable[Word]) -> Tongue | None:
    """Say whether a page is printed in German or in another language.

    Parameters
    ----------
    words : iterable of Word
        The page's words.

    Returns
    -------
    str or None
        ``german`` where any word is German alone, or also a neighbour's but no word of theirs stands; ``other`` where
        at least two are of another language and none is German; None where the words do not tell.
    """
    others: set[str] = set()
    shared = False
    for word in words:
        for part in re.findall(r"[^\W\d_]+(?:-[^\W\d_]+)?", word.text.casefold()):
            if len(part) < SHORTEST:
                continue
            known = _nearest(part)
            if known in SHARED:
                shared = True
            elif known in GERMAN:
                return "german"
            elif known is not None:
                others.add(known)
    if shared and not others & {*NEIGHBOURS}:
        return "german"
    return "other" if len(others) > 1 else None


@lru_cache(maxsize=4096)
def _nearest(part: str) -> str | None:
    """Give the known word that a printed one is, but for a slip of reading; one end of it must be read well."""
    near = [w for w in (*GERMAN, *OTHER) if abs(len(w) - len(part)) < 2 and (w[:2] == part[:2] or w[-2:] == part[-2:])]
    return next(iter(difflib.get_close_matches(part, near, n=1, cutoff=ALIKE)), None)
