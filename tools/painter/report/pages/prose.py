"""Letters that tell their facts in sentences: true, but with no label to say what is what."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta

import numpy as np

from .....interpret.record import Box, Fact, FactName, Side, Speech
from ... import fonts
from ...chart.chance import pick
from ...forms.form import A4
from ...forms.training import any_paper
from ...pen import XY
from ...sheet import Sheet
from ..dates import written
from ..languages import Split
from ..results.tables import put
from ..scribe import Setting, add_facts, around, write
from .page import ReportPage, begin

_NAMES: dict[str, FactName] = {"name": "patient-name", "born": "birth-date", "tested": "test-date"}
_SIDES: tuple[Side, Side] = ("right", "left")


@dataclass(frozen=True, slots=True)
class _Run:
    """Words of a sentence, and what they state (a slot's name), None for the words between."""

    text: str
    slot: str | None = None


def _runs(sentence: str, shown: dict[str, str]) -> list[_Run]:
    """Take a sentence apart at its slots."""
    found = []
    for part in sentence.split("{"):
        slot, closed, rest = part.partition("}")
        if closed:
            found.append(_Run(shown[slot], slot))
        found.append(_Run(rest if closed else part))
    return [run for run in found if run.text]


def _as_spoken(name: str) -> str:
    """Put the first name first, as sentences have it."""
    last, comma, first = name.partition(", ")
    return f"{first} {last.title() if last.isupper() else last}" if comma else name


def _flow(
    sheet: Sheet, setting: Setting, at: XY, right: float, runs: Sequence[_Run]
) -> tuple[dict[str, list[Box]], float]:
    """Write runs as a paragraph; give the boxes of each slot's words, and the y below."""
    face, size = setting.face, setting.size
    (x, y), places = at, {}
    space = fonts.width(face, " ", size)
    for run in runs:
        words = run.text.split(" ")
        for k, word in enumerate(words):
            width = fonts.width(face, word, size)
            if x > at[0] and x + width > right:
                x, y = at[0], y + size * 1.5
            if word:
                box = write(sheet, (x, y), word, face, size)
                if run.slot is not None:
                    places.setdefault(run.slot, []).append(box)
            x += width + (space if k < len(words) - 1 else 0.0)
    return places, y + size * 2.4


def _letter(rng: np.random.Generator, mono: bool, split: Split) -> Sheet:
    paper = any_paper(rng) if split == "train" else A4
    page = begin(rng, mono, split, paper, size=float(rng.uniform(9.5, 11.5)))
    page.head(letterhead=True, title=False)
    page.open()
    told, words = page.told, page.setting.language.entries["letter"]
    values = {fact.name: fact.value for fact in told.facts}
    values["patient-name"] = _as_spoken(values["patient-name"])
    days = {slot: date.fromisoformat(values[name]) for slot, name in _NAMES.items() if slot != "name"}
    last = days["tested"] - timedelta(days=int(rng.integers(90, 1500)))
    shown = {
        "name": values["patient-name"],
        "last": written(rng, last, told.style, told.language),
        **{slot: written(rng, day, told.style, told.language, birth=slot == "born") for slot, day in days.items()},
    }
    page.y += page.setting.size * 3
    for runs in ([_Run(words["greeting"])], _runs(pick(rng, words[split]), shown)):
        places, page.y = _flow(page.sheet, page.setting, (page.left, page.y), page.right, runs)
    facts = [Fact(name, values[name], shown[slot], around(places[slot]), 1.0, "ask") for slot, name in _NAMES.items()]
    add_facts(page.sheet, facts)
    if rng.random() < 0.7:
        _speech(page, words["speech"])
    more = [_Run(" ".join(str(words["more"][int(k)]) for k in rng.permutation(3)[:2]))]
    _, page.y = _flow(page.sheet, page.setting, (page.left, page.y), page.right, more)
    page.sheet.pen.text((page.left, page.y), words["closing"], page.setting.face, page.setting.size)
    page.foot()
    page.sheet.told = True
    return page.sheet


def _speech(page: ReportPage, sentence: str) -> None:
    rng = page.rng
    levels = {side: 5 * int(rng.integers(1, 13)) for side in _SIDES}
    runs = _runs(sentence, {side: f"{level} dB HL" for side, level in levels.items()})
    places, page.y = _flow(page.sheet, page.setting, (page.left, page.y), page.right, runs)
    speech = tuple(
        Speech(side, "srt", float(levels[side]), standing="ask", probability=1.0, box=around(places[side]))
        for side in _SIDES
    )
    put(page.sheet, page.audiogram, replace(page.sheet.audiograms[page.audiogram], speech=speech))


def fact_letter(rng: np.random.Generator, mono: bool) -> Sheet:
    """Letter that names patient, birth date and test in sentences, beside the date of another test."""
    return _letter(rng, mono, "train")


def pennant(rng: np.random.Generator, mono: bool) -> Sheet:
    """Letter with the facts in sentences of its own."""
    return _letter(rng, mono, "bench")
