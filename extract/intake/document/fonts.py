"""Fonts that say only by their glyphs' names which letters they hold: what a strange name tells, and what it does not.

The parser takes a letter from a standard encoding where a glyph's name means nothing to it. Fonts made of dots, as
typesetting programs embed them, number their glyphs in an encoding of their own: there an "ñ" came out as an "æ".
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping

from pdfminer.encodingdb import name2unicode
from pdfminer.pdffont import PDFFont, PDFSimpleFont
from pdfminer.pdfinterp import PDFResourceManager
from pdfminer.pdftypes import list_value, resolve1
from pdfminer.psparser import PSLiteral

_NUMBERED = re.compile(r"a(\d+)")
"""How typesetting programs name the glyphs of fonts made of dots: by their place in the font's own encoding."""

_ALIKE = frozenset("0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz!#%&'()*+,-./:;=?@[]")
"""What stands at its place of ASCII in the text encodings of such programs, old and new."""


class Fonts(PDFResourceManager):
    """The parser's fonts, without the letters that it only guesses."""

    def get_font(self, objid: object, spec: Mapping[str, object]) -> PDFFont:
        """Give a font, made once; the codes whose glyphs' names tell no letter are left without one."""
        known = objid in self._cached_fonts if objid else False
        font = super().get_font(objid, spec)
        if not known and isinstance(font, PDFSimpleFont) and font.unicode_map is None:
            encoding = resolve1(spec.get("Encoding"))
            if isinstance(encoding, dict):
                untold = _untold(list_value(encoding.get("Differences", [])))
                font.cid2unicode = {code: text for code, text in font.cid2unicode.items() if code not in untold}
        return font


def _untold(differences: Iterable[object]) -> set[int]:
    """Give the codes of an encoding whose glyphs have names that tell no letter."""
    found: set[int] = set()
    code = 0
    for entry in map(resolve1, differences):
        if isinstance(entry, int):
            code = entry
        elif isinstance(entry, PSLiteral):
            found |= set() if _tells(str(entry.name), code) else {code}
            code += 1
    return found


def _tells(name: str, code: int) -> bool:
    try:
        return bool(name2unicode(name))
    except (KeyError, ValueError):
        numbered = _NUMBERED.fullmatch(name)
        return numbered is not None and int(numbered.group(1)) == code and chr(code) in _ALIKE
