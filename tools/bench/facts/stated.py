"""What a record states beside thresholds, taken apart into single values that can be compared."""

from __future__ import annotations

import unicodedata
from collections import Counter, defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from ....interpret.record import (
    Audiogram,
    Immittance,
    OtoacousticEmission,
    PageRecord,
    PrintedAverage,
    Speech,
    Standing,
)

Value = str | float | bool
_NAMES = frozenset({"patient-name", "tester"})
_WORDS = frozenset({"record-number", "place", "audiometer", "reason", "note", "printed_type"})
_CURVE_TOLERANCE = {"peak_pressure_dapa": 20.0, "peak_admittance_mmho": 0.1}
"""How near a value read off a curve must come where no number is printed: a tenth of the usual axis' steps, which are
200 daPa and 1 mmho [common practice]."""


@dataclass(frozen=True, slots=True)
class Item:
    """One single value.

    Attributes
    ----------
    kind : str
        Its sort, for tables: a fact's name, or the test.
    key : tuple of str
        What it is a value of; two items of one key are rivals.
    what : str
        Which of the rules of comparison it falls under: a fact's name or a field's.
    value : str, float or bool
    standing : str
    probability : float
    is_open : bool
        In a truth: the page leaves it open.
    """

    kind: str
    key: tuple[str, ...]
    what: str
    value: Value
    standing: Standing
    probability: float
    is_open: bool = False


_OF_PAGES = frozenset({"page-number", "age"})
"""Facts by which pages are sorted: the painter prints page numbers and does not hold them in its truth."""


def items_of(record: PageRecord, *, truth: PageRecord | None = None) -> tuple[Item, ...]:
    """Take apart all facts and other tests of a page, in the record's order.

    Items of a truth that stand as ``ask`` are open; a reading's ``is_open`` says the same and is not looked at. For a
    reading, ``truth`` is what it is of: of several speech scores of an ear, each gets the number of the true one that
    it agrees with in most.
    """
    known = [one for audiogram in truth.audiograms for one in audiogram.speech] if truth is not None else []
    found = [
        Item(fact.name, (fact.name,), fact.name, fact.value, fact.standing, fact.probability, fact.standing == "ask")
        for fact in record.report.facts
        if fact.name not in _OF_PAGES
    ]
    for audiogram in record.audiograms:
        found += _of_tests(audiogram, known)
    return tuple(found)


def same(truth: Item, read: Item) -> bool:
    """Say whether two values are the same.

    Names and words compare without case, spaces, accents' encoding and closing punctuation, names also without the
    order of their parts (a page may print the surname first), a word list's name with or without the word for a list;
    dates, times and coded words exactly; numbers exactly, except those that only a curve shows.
    """
    one, other = truth.value, read.value
    if isinstance(one, str) and isinstance(other, str):
        if truth.what in _NAMES:
            return _parts(one) == _parts(other)
        if truth.what == "word_list":
            return _bare_list(one) == _bare_list(other)
        return _plain(one) == _plain(other) if truth.what in _WORDS else one == other
    if isinstance(one, str) or isinstance(other, str):
        return False
    spare = _CURVE_TOLERANCE.get(truth.what, 0.0) if truth.is_open else 0.0
    return abs(float(one) - float(other)) <= spare + 1e-6


def _parts(text: str) -> Counter[str]:
    folded = unicodedata.normalize("NFC", text).casefold()
    return Counter("".join(c if c.isalnum() else " " for c in folded).split())


def _plain(text: str) -> str:
    return "".join(unicodedata.normalize("NFC", text).casefold().split()).rstrip(".,;:")


def _bare_list(text: str) -> str:
    plain = _plain(text)
    label = next((word for word in ("liste", "lista", "list") if plain.startswith(word)), "")
    return plain.removeprefix(label)


def _of_tests(audiogram: Audiogram, known: Sequence[Speech]) -> list[Item]:
    found = _of_speech(audiogram.speech, known)
    for one in audiogram.immittance:
        found += _of_immittance(one)
    for one in audiogram.otoacoustic:
        found += _of_emission(one)
    return found + [_of_average(one) for one in audiogram.printed_averages]


def _fields(
    kind: str, key: tuple[str, ...], values: Iterable[tuple[str, Value | None]], standing: Standing, probability: float
) -> list[Item]:
    """Make an item of each field that states something; False states nothing."""
    return [
        Item(kind, (kind, *key, what), what, value, standing, probability, standing == "ask")
        for what, value in values
        if value is not None and value is not False
    ]


def _speech_key(one: Speech) -> tuple[str, ...]:
    return (one.ear, one.measure, "aided" if one.aided else "unaided")


def _numbered(group: Sequence[Speech], known: Sequence[Speech]) -> list[tuple[int, Speech]]:
    """Number the tests of one key: as the true ones that they agree with in most, the others after those."""
    if not known:
        return list(enumerate(group))

    def agreement(one: Speech, other: Speech) -> int:
        fields = ("level_db_hl", "score_percent", "words", "word_list", "masked")
        return sum(getattr(one, name) == getattr(other, name) for name in fields)

    pairs = [(-agreement(one, other), i, k) for i, one in enumerate(known) for k, other in enumerate(group)]
    numbers: dict[int, int] = {}
    for _, i, k in sorted(pairs):
        if k not in numbers and i not in numbers.values():
            numbers[k] = i
    for k in range(len(group)):
        numbers.setdefault(k, max(len(known), *(n + 1 for n in numbers.values())))
    return [(numbers[k], one) for k, one in enumerate(group)]


def _of_speech(tests: Sequence[Speech], known: Sequence[Speech]) -> list[Item]:
    groups: defaultdict[tuple[str, ...], list[Speech]] = defaultdict(list)
    for one in tests:
        groups[_speech_key(one)].append(one)
    found = []
    for key, group in groups.items():
        for rank, one in _numbered(group, [other for other in known if _speech_key(other) == key]):
            values = (
                ("level_db_hl", one.level_db_hl),
                ("score_percent", one.score_percent),
                ("words", one.words),
                ("word_list", one.word_list),
                ("masked", one.masked),
                ("phonemes", one.phonemes),
                ("no-response", not one.response),
                ("snr_db", one.snr_db),
            )
            kind = "word-recognition" if one.measure == "word-recognition" else "speech-threshold"
            found += _fields(kind, (*key, str(rank)), values, one.standing, one.probability)
    return found


def _of_immittance(one: Immittance) -> list[Item]:
    found = []
    trace = one.tympanogram
    if trace is not None:
        values = (
            ("peak_pressure_dapa", trace.peak_pressure_dapa),
            ("peak_admittance_mmho", trace.peak_admittance_mmho),
            ("ear_canal_volume_ml", trace.ear_canal_volume_ml),
            ("width_dapa", trace.width_dapa),
            ("printed_type", trace.printed_type),
        )
        found += _fields("tympanogram", (one.ear,), values, one.standing, one.probability)
        flat = _fields("tympanogram", (one.ear,), [("flat", trace.has_peak is False)], one.standing, one.probability)
        # type B says by itself that there is no peak: nobody need say so a second time
        found += [replace(item, is_open=item.is_open or trace.printed_type == "B") for item in flat]
    for reflex in one.reflexes:
        tone = "noise" if reflex.frequency_hz is None else f"{reflex.frequency_hz:g}"
        level = "-" if reflex.level_db_hl is None else f"{reflex.level_db_hl:g}"
        value = level if reflex.response else f"none at {level}"
        key = (one.ear, reflex.stimulus_ear, tone)
        found += _fields("reflex", key, [("reflex", value)], reflex.standing, reflex.probability)
    return found


def _of_emission(one: OtoacousticEmission) -> list[Item]:
    key = (one.ear, one.method)
    found = _fields("emission", key, [("overall", one.result)], one.standing, one.probability)
    for band in one.bands:
        values = (
            ("amplitude_db_spl", band.amplitude_db_spl),
            ("noise_db_spl", band.noise_db_spl),
            ("snr_db", band.snr_db),
            ("result", band.result),
        )
        found += _fields("emission", (*key, f"{band.frequency_hz:g}"), values, one.standing, one.probability)
    return found


def _of_average(one: PrintedAverage) -> Item:
    rule = "/".join(f"{hz:g}" for hz in sorted(one.frequencies_hz))
    key = ("average", one.ear, one.conduction, rule)
    return Item("average", key, "level_db_hl", one.level_db_hl, one.standing, one.probability, one.standing == "ask")
