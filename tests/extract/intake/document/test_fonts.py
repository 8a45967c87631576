"""What a font's names of glyphs tell, and what they do not."""

from __future__ import annotations

import pytest
from pdfminer.pdffont import PDFFont, PDFUnicodeNotDefined
from pdfminer.psparser import LIT

from octavo.extract.intake.document.fonts import Fonts


def font(*differences: object) -> PDFFont:
    names = [LIT(one) if isinstance(one, str) else one for one in differences]
    return Fonts().get_font(None, {"Subtype": LIT("Type1"), "BaseFont": LIT("Own"), "Encoding": {"Differences": names}})


def test_a_letter_numbered_in_a_fonts_own_encoding_is_no_letter_of_the_standard_one() -> None:
    # in the Cork encoding 241 is an n with a tilde; in the standard one an ae (ISO 32000-2, D.2)
    own = font(65, "a65", 241, "a241", 51, "a51")
    assert (own.to_unichr(65), own.to_unichr(51)) == ("A", "3")
    with pytest.raises(PDFUnicodeNotDefined):
        own.to_unichr(241)


def test_glyphs_in_an_order_of_their_own_are_no_digits() -> None:
    own = font(48, "g1", "g2", 97, "eacute")
    assert own.to_unichr(97) == "é"
    with pytest.raises(PDFUnicodeNotDefined):
        own.to_unichr(48)


def test_a_font_without_names_keeps_the_standard_letters() -> None:
    assert Fonts().get_font(None, {"Subtype": LIT("Type1"), "BaseFont": LIT("Helvetica")}).to_unichr(65) == "A"
