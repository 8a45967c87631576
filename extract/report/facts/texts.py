"""Facts in words of their own: names, record numbers, places, devices, reasons, notes; and those chosen from a few."""

from __future__ import annotations

from collections.abc import Sequence
from typing import get_args

from ....interpret.record import FactName
from ...page import Pixels
from .draft import Draft
from .printed.labels import Label
from .printed.pairs import Pair
from .printed.vocabulary import CHOICES
from .values.choices import BOXES, chosen, names_one, ticked
from .values.dates import dates_in
from .values.times import times_in

PLAIN: frozenset[FactName] = frozenset({"tester", "place", "audiometer", "reason", "note"})
AT_THE_EAR = frozenset({"inserts", "supra-aural", "circumaural"})
"""Earphones of which one is used at a time."""
MOST_NAME_WORDS = 6
MOST_NUMBER_WORDS = 3
ABBREVIATED = 3
"""A full stop behind a word of so few letters may be an abbreviation's: "Jun."."""
AROUND = " ,;:|_·•*~="
"""What stands beside a value without belonging to it."""


def fits(label: Label, text: str) -> bool | None:
    """Say whether a text can be what a label announces; None where anything can."""
    if label.names <= {"birth-date", "calibration-date", "test-date", "date", "date-and-time"}:
        return bool(dates_in(text))
    if label.names == {"test-time"}:
        return any(time.value for time in times_in(text))
    if len(label.names) == 1 and label.names <= set(CHOICES):
        return names_one(next(iter(label.names)), text)
    if label.names == {"record-number"}:
        return any(c.isdigit() for c in text) and not dates_in(text)
    if label.names <= {"patient-name", "surname", "first-name", "tester"}:
        return False if any(c.isdigit() for c in text) else None
    return None


def texts_of(pairs: Sequence[Pair], grey: Pixels | None, heights: dict[int, float]) -> list[Draft]:
    """Read the facts that are words.

    Parameters
    ----------
    pairs : sequence of Pair
        All labels with their values.
    grey : ndarray, shape (height, width), uint8, optional
        The sheet, for tick boxes.
    heights : dict of int to float
        The height of each line's letters, by its number, in sheet pixels.
    """
    drafts = []
    for pair in pairs:
        if len(pair.label.names) != 1:
            continue
        (name,) = pair.label.names
        if name in CHOICES:
            drafts += _choice(name, pair, grey, heights[pair.label.line])
        elif name in PLAIN:
            drafts += _plain(name, pair)
        elif name == "record-number":
            drafts += _number(pair)
    return [*drafts, *_names(pairs)]


def _choice(name: str, pair: Pair, grey: Pixels | None, height: float) -> list[Draft]:
    after = pair.label.right if pair.place != "below" else 0.0
    found = chosen(name, pair.words, grey, height, after)
    if not found.values:
        return []
    why: tuple[str, ...] = ()
    several = len(AT_THE_EAR & set(found.values)) if name == "transducer" else len(found.values)
    if found.unclear or several > 1:  # tick boxes may have been overlooked
        why = ("two-readings",)
    elif found.rest:
        why = ("text-uncertain",)
    values = ", ".join(found.values) if name == "transducer" else found.values[0]
    written = " ".join(word.text for word in found.words) if found.boxes else tidy(pair.text)
    words = found.words if found.boxes else pair.words
    return [
        Draft(_fact(name), values, written, words, pair.label, pair.place, why, strict=True, slips=found.slips)
    ]  # fmt: skip


def _fact(name: str) -> FactName:
    return next(fact for fact in get_args(FactName) if fact == name)


def tidy(text: str) -> str:
    """Take off what stands beside a value without belonging to it."""
    return " ".join(text.split()).strip(AROUND)


def _plain(name: str, pair: Pair) -> list[Draft]:
    words = ticked(pair.words)
    said = " ".join(word.text for word in words)
    text = _tidy_name(said) if name == "tester" else tidy(said)
    if sum(c.isalpha() for c in text) < 2:
        return []
    odd = (name == "tester" and any(c.isdigit() for c in text)) or bool(BOXES & set(said))
    why = ("text-uncertain",) if odd else ()
    return [Draft(_fact(name), text, text, words, pair.label, pair.place, why, lines=pair.lines)]


def _tidy_name(text: str) -> str:
    """Take the full stop of a sentence off a name: behind a longer word in small letters it is no abbreviation."""
    name = tidy(text)
    last = name.rpartition(" ")[2].removesuffix(".")
    return name.removesuffix(".") if len(last) > ABBREVIATED and last[1:].islower() else name


def _name(pair: Pair) -> Draft:
    text = _tidy_name(pair.text)
    odd = any(c.isdigit() for c in text) or len(pair.words) > MOST_NAME_WORDS
    why = ("text-uncertain",) if odd else ()
    return Draft("patient-name", text, text, pair.words, pair.label, pair.place, why)


def _names(pairs: Sequence[Pair]) -> list[Draft]:
    """Read the patient's name, which may stand in two parts with labels of their own.

    "Name" beside "first name" is a surname, "nombre" beside "apellidos" a first name.
    """
    whole, surnames, firsts = (
        [pair for pair in pairs if pair.label.names == {name} and sum(c.isalpha() for c in pair.text) > 1]
        for name in ("patient-name", "surname", "first-name")
    )
    if surnames and not firsts and whole:
        firsts, whole = whole, []
    elif firsts and not surnames and whole:
        surnames, whole = whole, []
    if whole or not surnames:
        return [_name(pair) for pair in whole]
    both = (surnames[0], *firsts[:1])
    texts = [_tidy_name(pair.text) for pair in both]
    odd = any(c.isdigit() for text in texts for c in text)
    why = ("two-readings",) if len(surnames) > 1 or len(firsts) > 1 else ("text-uncertain",) if odd else ()
    words = tuple(word for pair in both for word in pair.words)
    return [Draft("patient-name", ", ".join(texts), " ".join(texts), words, both[0].label, both[-1].place, why)]


def _number(pair: Pair) -> list[Draft]:
    text = tidy(pair.text)
    if not any(c.isdigit() for c in text):
        return []
    odd = len(pair.words) > MOST_NUMBER_WORDS or bool(dates_in(text)) or ":" in text
    why = ("text-uncertain",) if odd else ()
    return [Draft("record-number", text, text, pair.words, pair.label, pair.place, why)]
