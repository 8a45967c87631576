"""What one report tells: the facts of an invented patient's visit, as cells of labels and words, with their truth."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta

import numpy as np

from ....interpret.record import FactName
from ..chart.chance import pick
from .cells import Cell, Piece, Told, ToldFact
from .dates import DateStyle, any_day, any_style, order_is_open, time_written, written
from .invented import AUDIOMETERS, FEMALE, LASTS, MALE
from .languages import Language, Split

TRANSDUCERS = ("inserts", "supra-aural", "circumaural", "bone-vibrator", "loudspeaker")
"""In the order of the record."""


@dataclass(slots=True)
class _Telling:
    """A report in the making: what is needed to word its cells."""

    rng: np.random.Generator
    language: Language
    split: Split
    tested: date
    style: DateStyle
    hinted: bool
    cells: list[Cell]
    facts: list[ToldFact]
    dates: list[tuple[int | None, date]]

    def fact(self, name: FactName, value: str) -> int:
        self.facts.append(ToldFact(name, value))
        return len(self.facts) - 1

    def say(self, name: FactName, value: str, shown: str | None = None, *, label: str | None = None) -> None:
        """Add a cell of one fact, its words as printed being its value unless told otherwise."""
        words = value if shown is None else shown
        self.cells.append(
            Cell(
                label or self.language.label(self.rng, name, self.split),
                (Piece(words, self.fact(name, value)),),
                long=name == "note",
            )
        )

    def day(self, name: FactName, day: date) -> Piece:
        """State a date."""
        number = self.fact(name, day.isoformat())
        self.dates.append((number, day))
        return Piece(written(self.rng, day, self.style, self.language, birth=name == "birth-date"), number)

    def tick(self, name: FactName, value: str, label: str, boxes: Sequence[tuple[str, bool]]) -> None:
        """Add a cell of tick boxes."""
        self.cells.append(Cell(label, boxes=tuple(boxes), fact=self.fact(name, value)))


def invent_report(
    rng: np.random.Generator,
    language: Language,
    split: Split,
    *,
    tested: date | None = None,
    busy: float = 0.7,
    needs: tuple[FactName, ...] = ("patient-name", "birth-date", "test-date"),
) -> Told:
    """Invent a patient, a visit and how the page words them.

    Parameters
    ----------
    rng : numpy.random.Generator
        All chance comes from it.
    language : Language
        The page's language.
    split : str
        Whose label wordings are used beside the usual ones.
    tested : datetime.date, optional
        The date of the test; by default one is invented.
    busy : float
        The odds of each fact that is not in ``needs``.
    needs : tuple of str
        The facts that always stand there.
    """
    style, tested = any_style(rng, language), tested or any_day(rng, 2009, 2026)
    telling = _Telling(rng, language, split, tested, style, bool(rng.random() < 0.15), [], [], [])
    for name, tell in _TELLERS:
        if name in needs or rng.random() < busy:
            tell(telling)
    _say_others(telling)
    return Told(tuple(telling.cells), _opened(telling), tested.isoformat(), language, style)


def _opened(telling: _Telling) -> tuple[ToldFact, ...]:
    """Mark the dates whose month nobody can tell."""
    facts = list(telling.facts)
    days = [day for _, day in telling.dates]
    for place, (number, day) in enumerate(telling.dates):
        others = days[:place] + days[place + 1 :]
        if number is not None and order_is_open(day, telling.style, telling.language, others, hinted=telling.hinted):
            facts[number] = replace(facts[number], open=True)
    return tuple(facts)


def _hint(telling: _Telling, label: str) -> str:
    """Print the order of a date's numbers into its label, where the page does so."""
    if telling.language.code != "en" or not telling.hinted or not telling.style.unclear_order:
        return label
    day, month = ("dd", "mm") if telling.style.order == "day-first" else ("mm", "dd")
    return f"{label} ({day}/{month}/yyyy)"


def _name(telling: _Telling) -> None:
    rng, language = telling.rng, telling.language
    female = bool(rng.random() < 0.5)
    first, last = pick(rng, FEMALE if female else MALE), pick(rng, LASTS)
    if rng.random() < 0.2:
        number = telling.fact("patient-name", f"{last}, {first}")
        for what, text in (("surname", last), ("first-name", first)):
            telling.cells.append(Cell(language.label(rng, what, telling.split), (Piece(text, number),)))
    else:
        label = language.label(rng, "patient-name", telling.split)
        # a label that asks for the surname first is answered so
        turned = "," in label or rng.random() < 0.5
        shown = pick(rng, (f"{last}, {first}", f"{last.upper()}, {first}")) if turned else f"{first} {last}"
        telling.say("patient-name", shown, label=label)
    if rng.random() < 0.6:
        _sex(telling, "female" if female else "male")


def _sex(telling: _Telling, sex: str) -> None:
    rng, language = telling.rng, telling.language
    if rng.random() < 0.02:
        sex = "other"
    label = language.label(rng, "sex", telling.split)
    words = language.sex_boxes(rng)
    if rng.random() < 0.35 and sex in {language.sex_of(word) for word in words}:
        telling.tick("sex", sex, label, [(word, language.sex_of(word) == sex) for word in words])
    else:
        telling.say("sex", sex, language.word(rng, sex), label=label)


def _record(telling: _Telling) -> None:
    number = int(telling.rng.integers(10_000, 999_999))
    parted = f"{number // 1000:03d}-{number % 1000:03d}"
    shapes = (f"{number}", f"HL-{number}", parted, f"{telling.tested.year}/{number % 10000:04d}")
    telling.say("record-number", pick(telling.rng, shapes))


def _born(telling: _Telling) -> None:
    day = any_day(telling.rng, max(1928, telling.tested.year - 90), telling.tested.year - 3)
    label = _hint(telling, telling.language.label(telling.rng, "birth-date", telling.split))
    telling.cells.append(Cell(label, (telling.day("birth-date", day),)))


def _tested(telling: _Telling) -> None:
    rng, language, split = telling.rng, telling.language, telling.split
    chance = rng.random()
    if chance < 0.25:
        label = language.label(rng, "date-and-time", split)
        value, shown = time_written(rng, language)
        pieces = (telling.day("test-date", telling.tested), Piece(shown, telling.fact("test-time", value)))
        telling.cells.append(Cell(label, pieces))
        return
    label = _hint(telling, language.label(rng, "test-date", split))
    telling.cells.append(Cell(label, (telling.day("test-date", telling.tested),)))
    if chance < 0.5:
        value, shown = time_written(rng, language)
        telling.say("test-time", value, shown)


def _tester(telling: _Telling) -> None:
    rng = telling.rng
    first, last = pick(rng, FEMALE + MALE), pick(rng, LASTS)
    shown = (f"{first[0]}. {last}", f"{first} {last}", f"{first[0]}. {last[0]}.", f"Dr. {last}")
    telling.say("tester", pick(rng, shown))


def _place(telling: _Telling) -> None:
    telling.say("place", telling.language.word(telling.rng, "places"))


def _audiometer(telling: _Telling) -> None:
    rng = telling.rng
    name = pick(rng, AUDIOMETERS)
    telling.say("audiometer", name if rng.random() < 0.7 else f"{name}, S/N {int(rng.integers(1000, 99999))}")
    if rng.random() < 0.7:
        day = telling.tested - timedelta(days=int(rng.integers(10, 360)))
        label = telling.language.label(rng, "calibration-date", telling.split)
        telling.cells.append(Cell(_hint(telling, label), (telling.day("calibration-date", day),)))


_LONGEST_TICKS = 52
"""A row of tick boxes of more letters, the boxes counted as four, does not fit into a line."""


def _transducer(telling: _Telling) -> None:
    rng, language = telling.rng, telling.language
    used = {pick(rng, TRANSDUCERS[:3])} | ({"bone-vibrator"} if rng.random() < 0.45 else set())
    used |= {"loudspeaker"} if rng.random() < 0.06 else set()
    kinds = [kind for kind in TRANSDUCERS if kind in used]
    label = language.label(rng, "transducer", telling.split)
    words = {kind: language.word(rng, kind, "transducers") for kind in TRANSDUCERS}
    boxes = [(words[kind], kind in used) for kind in TRANSDUCERS if kind in used or kind in TRANSDUCERS[:2]]
    fits = sum(len(word) + 4 for word, _ in boxes) <= _LONGEST_TICKS
    if rng.random() < 0.25 and fits:
        telling.tick("transducer", ", ".join(kinds), label, boxes)
    else:
        joined = pick(rng, (", ", " + ", " / ")).join(words[kind] for kind in kinds)
        telling.say("transducer", ", ".join(kinds), joined, label=label)


def _reliability(telling: _Telling) -> None:
    rng, language = telling.rng, telling.language
    value = pick(rng, ("good", "fair", "poor"), (0.65, 0.2, 0.15))
    label = language.label(rng, "reliability", telling.split)
    if rng.random() < 0.35:
        boxes = [(language.words(one, "reliabilities")[0], one == value) for one in ("good", "fair", "poor")]
        telling.tick("reliability", value, label, boxes)
    else:
        telling.say("reliability", value, language.word(rng, value, "reliabilities"), label=label)


def _reason(telling: _Telling) -> None:
    telling.say("reason", telling.language.word(telling.rng, "reasons"))


def _note(telling: _Telling) -> None:
    notes = telling.language.words("notes")
    count = 1 if telling.rng.random() < 0.6 else 2
    chosen = [notes[int(k)] for k in telling.rng.permutation(len(notes))[:count]]
    telling.say("note", " ".join(chosen))


_TELLERS: tuple[tuple[FactName, Callable[[_Telling], None]], ...] = (
    ("patient-name", _name),
    ("birth-date", _born),
    ("record-number", _record),
    ("test-date", _tested),
    ("tester", _tester),
    ("place", _place),
    ("audiometer", _audiometer),
    ("transducer", _transducer),
    ("reliability", _reliability),
    ("reason", _reason),
    ("note", _note),
)
"""In the order of the page; the sex follows the name, the time the date, the calibration the audiometer."""


def _say_others(telling: _Telling) -> None:
    """Add what looks like a fact and is none: another person, another date, another number."""
    rng, language = telling.rng, telling.language
    shown = {
        "referrer": f"Dr. {pick(rng, LASTS)}",
        "phone": f"555 {int(rng.integers(100, 9999)):04d}",
        "version": f"{int(rng.integers(1, 9))}.{int(rng.integers(0, 9))}",
        "insurer": pick(rng, ("Mutual of the Quays", "Harbour Fund", "Seamark")),
    }
    for what, text in shown.items():
        if rng.random() < 0.15:
            telling.cells.insert(_somewhere(telling), Cell(language.other_label(rng, what), (Piece(text),)))
    for what, odds, later in (("printed", 0.2, (0, 40)), ("next", 0.15, (20, 400))):
        if rng.random() < odds:
            day = telling.tested + timedelta(days=int(rng.integers(*later)))
            telling.dates.append((None, day))
            cell = Cell(language.other_label(rng, what), (Piece(written(rng, day, telling.style, language)),))
            telling.cells.insert(_somewhere(telling), cell)


def _somewhere(telling: _Telling) -> int:
    """Choose where among the cells another one goes: not first, and not after the notes."""
    end = len(telling.cells) - any(cell.long for cell in telling.cells[-1:])
    return int(telling.rng.integers(1, max(end, 1) + 1)) if end > 1 else end
