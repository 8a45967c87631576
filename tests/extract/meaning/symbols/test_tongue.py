"""The language of a page is told by its words, and what it says of the angle marks."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from by_hand import word

from octavo.extract.choices import Choices
from octavo.extract.intake import pages
from octavo.extract.meaning.symbols.tongue import tongue
from octavo.extract.page import Page
from octavo.extract.road import read_page
from octavo.tools.painter import paint


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("Hearing level (dB HL) Frequency in Hz", "other"),
        ("hearing leve1 frequencv", "other"),
        ("Fréquence (Hz) niveau oreille droite", "other"),
        ("Frequenz in kHz Hörverlust (dB)", "german"),
        ("Tonaudiogramm date frequency", "german"),
        ("Audiogram Frequency (Hz)", "other"),  # not the German "Audiogramm"
        ("Toonaudiogram RECHTS LINKS datum", None),
        ("Toonaudiogram RECHTS LINKS datum frequentie", "other"),
        ("rechts links frequency level", "german"),
        ("Audiogramm date frequency", "german"),
        ("Audiogram hearing clinic", "other"),  # the title of an English form made its angle marks ask
        ("Audiogran hearing clinic", "other"),
        ("Audiogramme oreille gauche", "other"),
        ("Audiograma frecuencia nivel", "other"),
        ("Audiogram Hz", None),
        ("Frequency (Hz)", None),
        ("250 500 1000 2000 Hz dB", None),
        ("Brandt Hollis Ashdown", None),
    ],
)
def test_words_tell_the_language(line: str, said: str | None) -> None:
    assert tongue(word(text, 100 + 90 * i, 100) for i, text in enumerate(line.split())) == said


def _bone_doubts(tmp_path: Path, words: dict[str, str]) -> set[str]:
    """Read a page in black with `<` left and `>` right of the lines, some of its words changed; say what bone asks."""
    file = tmp_path / "one-ink.pdf"
    file.write_bytes(paint("single", 121, mono=True).pdf)
    page = next(iter(pages(file)))
    assert isinstance(page, Page)
    assert page.words
    changed = tuple(replace(w, text=words.get(w.text, w.text)) for w in page.words)
    record = read_page(replace(page, words=changed), Choices())
    bone = [t for a in record.audiograms for t in a.thresholds if t.conduction == "bone"]
    assert len(bone) >= 6
    return {code for t in bone for code in t.why_ask}


def test_angles_beside_their_lines_on_a_page_in_english_follow_the_usual_sides(tmp_path: Path) -> None:
    assert "symbol-set-unknown" not in _bone_doubts(tmp_path, {})


def test_angles_on_a_page_in_german_are_open(tmp_path: Path) -> None:
    assert "symbol-set-unknown" in _bone_doubts(tmp_path, {"Frequency": "Frequenz"})
