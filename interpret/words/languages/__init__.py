"""The languages that there are."""

from __future__ import annotations

from ...errors import MisuseError
from .english import ENGLISH
from .language import Language
from .spanish import SPANISH

LANGUAGES: dict[str, Language] = {one.id: one for one in (ENGLISH, SPANISH)}
"""The languages by their code."""


def language(name: str) -> Language:
    """Give the language of that code, or say which there are (MisuseError)."""
    if name not in LANGUAGES:
        raise MisuseError(f"there are no words in '{name}'", f"Choose one of {', '.join(LANGUAGES)}")
    return LANGUAGES[name]
