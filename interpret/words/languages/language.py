"""What a language brings: every word that octavo says to a person, in one place for each language."""

from __future__ import annotations

import unicodedata
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from ...finding import Finding
from ...record import Conduction, Ear, Threshold
from .chart_words import ChartWords

_PRINTED = "printed "


@dataclass(frozen=True, slots=True)
class Language:
    """One language.

    Attributes
    ----------
    id, name : str
        Its ISO 639-1 code, and its own name.
    decimal : str
        The mark before decimals.
    titles : mapping of str to str
        The short name of every finding, by its code.
    parts : mapping of str to str
        The heading of every part of the findings.
    words : mapping of str to str
        What a rule may say, where it is another word in this language.
    numbers : mapping of str to str
        The short name of every number that decided.
    ears, in_ears : mapping of Ear to str
        The name of an ear alone, and within a sentence for patients.
    conductions : mapping of Conduction to str
        Air, bone, loudspeaker.
    phrases : mapping of str to str
        What stands between the findings for a clinician, templates.
    chart : ChartWords
        What stands on a redrawn chart.
    patient : mapping of str to str
        The sentences for a patient, templates by finding code, or code and word.
    terms : mapping of str to str
        The trade's terms that stand in brackets the first time a patient meets them.
    tips, questions, cautions : tuple of str
        For the patient, in the order in which they are printed.
    units, notes : mapping of str to str
        Units that are written otherwise; the notes on schemes and limits of normal, by their ids.
    """

    id: str
    name: str
    decimal: str
    titles: Mapping[str, str]
    parts: Mapping[str, str]
    words: Mapping[str, str]
    numbers: Mapping[str, str]
    ears: Mapping[Ear, str]
    in_ears: Mapping[Ear, str]
    conductions: Mapping[Conduction, str]
    phrases: Mapping[str, str]
    chart: ChartWords
    patient: Mapping[str, str]
    terms: Mapping[str, str]
    tips: tuple[str, ...]
    questions: tuple[str, ...]
    cautions: tuple[str, ...]
    units: Mapping[str, str] = field(default_factory=dict[str, str])
    notes: Mapping[str, str] = field(default_factory=dict[str, str])

    def word(self, word: str) -> str:
        """Give a rule's word in this language; what a page prints stays as it is printed."""
        if word.startswith(_PRINTED):
            return self.phrases["printed"].format(word=word.removeprefix(_PRINTED))
        return self.words.get(word, word)

    def kind(self, threshold: Threshold) -> str:
        """Name what was measured: air, bone masked, loudspeaker aided."""
        measure = "" if threshold.measure == "threshold" else threshold.measure
        marks = (("masked", threshold.masked), ("aided", threshold.aided), (measure, bool(measure)))
        return ", ".join(
            (self.conductions[threshold.conduction], *(self.phrases[name] for name, is_so in marks if is_so))
        )

    def note(self, key: str, english: str) -> str:
        """Give the note on a scheme or limit by its id; the rule's own English where there is no other."""
        return self.notes.get(key, english)

    def title(self, code: str) -> str:
        """Give the short name of a finding."""
        return self.titles.get(code, code.replace("-", " "))

    def number(self, number: float, decimals: int = 1) -> str:
        """Write a number: at most so many decimals, none where it is whole."""
        text = f"{number:.{decimals}f}"
        text = text.rstrip("0").rstrip(".") if "." in text else text
        return ("0" if text == "-0" else text).replace(".", self.decimal)

    def listed(self, words: tuple[str, ...] | list[str], joint: Literal["and", "or"] = "and") -> str:
        """Join words as the language does: a, b and c."""
        if len(words) < 2:
            return "".join(words)
        return f"{', '.join(words[:-1])} {self.phrases[joint]} {words[-1]}"

    def could_be(self, finding: Finding) -> str:
        """Give every word that a finding could be, joined; empty where there is none."""
        return self.listed([self.word(word) for word in finding.could_be], "or")


def with_unit(hz: float, decimal: str = ".") -> str:
    """Write a frequency with its unit: 500 Hz, 1.5 kHz."""
    return f"{hz:g} Hz" if hz < 1000 else f"{hz / 1000:g} kHz".replace(".", decimal)


def plain(text: str) -> str:
    """Write a text in ASCII alone: letters without their accents, signs by others."""
    signs = text.translate({ord("↓"): "v", ord("·"): ".", ord("¿"): "", ord("¡"): "", ord("º"): "o"})
    return unicodedata.normalize("NFKD", signs).encode("ascii", "ignore").decode()
