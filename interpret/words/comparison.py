"""Tests of one person against each other in words: what changed, by how much, and by which rule."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Sequence

from ..exports.threshold_table import frequency_label
from ..finding import Finding
from ..record import Conduction, Ear
from ..rules.change.comparison import Comparison, Sitting
from ..rules.degree import EARS
from .clinician import told_by_parts
from .languages.language import Language

WIDTH = 100
_SIGNS = {"better": "--", "perhaps better": "-", "within retest": "", "perhaps worse": "+", "worse": "++"}
_CONDUCTIONS: tuple[Conduction, ...] = ("air", "bone")


def comparison_text(comparisons: Sequence[Comparison], language: Language) -> str:
    """Say what changed between the first test and each later one.

    Parameters
    ----------
    comparisons : sequence of Comparison
        All with the same first test.
    language : Language
        Whose words.

    Returns
    -------
    str
        Plain text, lines of at most 100 characters. Nobody is named.
    """
    blocks = [block for number, one in enumerate(comparisons, 2) for block in _one(one, number, language)]
    legend = "; ".join(f"{sign} {language.word(word)}" for word, sign in _SIGNS.items() if sign)
    blocks.append(_wrapped(f"{legend}; ? {language.phrases['check']}", ""))
    if any("standard-threshold-shift" in {f.code for f in one.found} for one in comparisons) and not any(
        "appendix F" in finding.rule for one in comparisons for finding in one.found
    ):
        blocks.append(_wrapped(language.phrases["no_age_correction"], ""))
    return "\n\n".join("\n".join(line.rstrip() for line in block) for block in blocks if block)


def _one(one: Comparison, number: int, language: Language) -> Iterator[list[str]]:
    old, new = _name(one.old, 1, one.old_age_years, language), _name(one.new, number, one.new_age_years, language)
    title = _wrapped(language.phrases["compared"].format(new=new, old=old), "")
    yield [*title, "=" * len(title[-1])]
    if one.person_asks:
        yield _wrapped(language.phrases["perhaps_others"], "")
    for ear in EARS:
        for conduction in _CONDUCTIONS:
            here = [
                finding for finding in one.found
                if (finding.code, finding.ear, finding.conduction) == ("threshold-change", ear, conduction)
            ]  # fmt: skip
            if here:
                yield _table(here, ear, conduction, language)
    yield from told_by_parts((finding for finding in one.found if finding.code != "threshold-change"), language)


def _name(test: Sitting, number: int, age_years: float | None, language: Language) -> str:
    phrases = language.phrases
    named = test.tested_on or phrases["date_unknown"].format(number=number)
    age = "" if age_years is None else f", {phrases['age'].format(years=language.number(age_years, 0))}"
    return f"{named} ({test.file}{age})"


def _table(here: Sequence[Finding], ear: Ear, conduction: Conduction, language: Language) -> list[str]:
    rows = {
        "Hz": [frequency_label(one.frequency_hz or 0) for one in here],
        language.phrases["old"]: [_level(one, "old_db_hl", language) for one in here],
        language.phrases["new"]: [_level(one, "new_db_hl", language) for one in here],
        language.phrases["change"]: [_change(one, language) for one in here],
    }
    lead = max(map(len, rows)) + 2
    width = max(len(cell) for cells in rows.values() for cell in cells) + 2
    name = language.ears[ear]
    lines = [f"{name[:1].upper()}{name[1:]}, {language.conductions[conduction]}, dB HL"]
    fits = max(1, (WIDTH - 2 - lead) // width)
    for start in range(0, len(here), fits):
        lines += [
            "  " + label.ljust(lead) + "".join(cell.rjust(width) for cell in cells[start : start + fits])
            for label, cells in rows.items()
        ]
    return lines


def _level(one: Finding, name: str, language: Language) -> str:
    return language.number(one.named(name) or 0)


def _change(one: Finding, language: Language) -> str:
    change = one.number or 0
    sign = _SIGNS.get(one.word or "", "")
    number = f"{'+' if change > 0 else ''}{language.number(change)}"
    at_least = ">" if one.at_least else ""
    return f"{at_least}{number}{' ' if sign else ''}{sign}{'?' if one.standing == 'ask' or one.word is None else ''}"


def _wrapped(text: str, lead: str) -> list[str]:
    return textwrap.wrap(text, WIDTH, initial_indent=lead, subsequent_indent=lead, break_on_hyphens=False)
