"""Single words as they stand on real pages: printed, crossed by lines and marks, copied, faxed, photographed."""

from __future__ import annotations

from .word import legible_faces, paint_word, paint_words

__all__ = ["legible_faces", "paint_word", "paint_words"]
