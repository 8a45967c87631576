"""Speech results: invented, and drawn as a table of ears, a table of measures, or in lines."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from .....interpret.record import Box, Ear, Speech, SpeechMeasure
from ...chart.chance import pick
from ...pen import XY
from ...sheet import Sheet
from ..scribe import Setting, around
from .tables import draw_rows, draw_words, put


@dataclass(frozen=True, slots=True)
class EarSpeech:
    """What was tested of one ear; the threshold is None where it was not. ``loudness`` are MCL and UCL."""

    ear: Ear
    threshold: int | None
    measure: SpeechMeasure
    scores: tuple[Speech, ...]
    loudness: tuple[Speech, ...] = ()


@dataclass(frozen=True, slots=True)
class _Column:
    """A column of the tables: its texts ear by ear, and what they state (a measure; None for all about the score)."""

    head: str
    texts: list[str]
    states: SpeechMeasure | None = None


def invent_speech(
    rng: np.random.Generator, setting: Setting, averages: dict[str, float], *, more: bool = True
) -> tuple[EarSpeech, ...]:
    """Invent speech results that agree with the ears' tone averages (dB HL); ``more`` allows tests of both ears."""
    measure: SpeechMeasure = "sdt" if rng.random() < 0.12 else "srt"
    with_list, with_words = rng.random() < 0.55, rng.random() < 0.4
    words, lists = int(pick(rng, (10, 20, 25, 50))), _list_names(rng, setting)
    loud: list[SpeechMeasure] = [name for name in ("mcl", "ucl") if rng.random() < 0.12]
    found = []
    for ear in ("right", "left"):
        average = averages.get(ear, float(rng.uniform(5, 60)))
        threshold = int(np.clip(5 * round((average - 3 + rng.normal(0, 3)) / 5), 0, 100))
        masked = bool(rng.random() < 0.15)
        scores = []
        level = min(105, threshold + int(pick(rng, (25, 30, 35, 40))))
        for _ in range(2 if rng.random() < 0.12 else 1):
            least = 100 // words
            percent = float(np.clip(least * round((104 - average * rng.uniform(0.1, 0.7)) / least), 0, 100))
            scores.append(
                Speech(
                    ear,
                    "word-recognition",
                    float(level),
                    percent,
                    words if with_words else None,
                    lists[int(rng.integers(len(lists)))] if with_list else None,
                    masked=masked,
                )
            )
            level = min(110, level + 10)
        tested = None if rng.random() < 0.05 else threshold
        levels = {"mcl": min(95, threshold + 35), "ucl": min(110, threshold + 60)}
        loudness = tuple(Speech(ear, name, float(levels[name])) for name in loud)
        found.append(EarSpeech(ear, tested, measure, tuple(scores), loudness))
    if more and rng.random() < 0.15:
        aided = bool(rng.random() < 0.6)
        level, percent = (65.0 if aided else 60.0), float(4 * rng.integers(15, 26))
        score = Speech("both", "word-recognition", level, percent, aided=aided)
        found.append(EarSpeech("both", None, measure, (score,)))
    return tuple(found)


def _list_names(rng: np.random.Generator, setting: Setting) -> tuple[str, ...]:
    """Give the lists' names as this page prints them: with or without the word for a list."""
    names = setting.language.words("lists")
    if rng.random() < 0.6:
        return names
    return tuple(name.removeprefix(setting.language.words("list")[0]).strip() for name in names)


def draw_speech_results(
    sheet: Sheet,
    audiogram: int,
    rng: np.random.Generator,
    setting: Setting,
    at: XY,
    width: float,
    results: tuple[EarSpeech, ...],
) -> float:
    """Draw speech results with their truth; give the y below them in points."""
    plain = all(len(one.scores) == 1 and one.ear != "both" for one in results)
    # wide tables in a narrow column would be set too small to read
    ways = ("ears", "measures", "lines") if width > 400 else ("measures", "lines") if width > 220 else ("lines",)
    how = pick(rng, ways if plain else ("lines",))
    title = setting.language.word(rng, "speech_titles") if rng.random() < 0.85 else None
    drawer = {"ears": _as_ears, "measures": _as_measures, "lines": _as_lines}[how]
    speech, y = drawer(sheet, rng, setting, at, width, results, title)
    record = sheet.audiograms[audiogram]
    put(sheet, audiogram, replace(record, speech=(*record.speech, *speech)))
    return y


_SPL_USUAL = frozenset({"de"})
"""Languages in which "dB" beside speech may well mean dB SPL, as the Freiburg test's levels do (common practice)."""


def _says_what(unit: str, setting: Setting) -> bool:
    """Say whether a unit leaves no doubt of its reference."""
    return unit != "dB" or setting.language.code not in _SPL_USUAL


def _true(value: Speech, boxes: list[Box | None], *, clear: bool = True) -> Speech:
    """Give a value as the page states it; where its unit is not ``clear``, it is open."""
    box = around([box for box in boxes if box])
    return replace(value, standing="sure" if clear else "ask", probability=1.0, box=box)


def _columns(rng: np.random.Generator, setting: Setting, results: tuple[EarSpeech, ...]) -> tuple[list[_Column], bool]:
    """Give what the tables hold, and whether the unit of their levels is clear."""
    language, unit_in_head = setting.language, rng.random() < 0.6
    level_unit, untested = pick(rng, ("dB HL", "dB")), language.word(rng, "not_tested")
    measure = results[0].measure
    scores = [one.scores[0] for one in results]

    def headed(head: str, unit: str, numbers: list[float | None], states: SpeechMeasure | None = None) -> _Column:
        texts = [untested if n is None else f"{n:.0f}" + ("" if unit_in_head else f" {unit}") for n in numbers]
        return _Column(f"{head} ({unit})" if unit_in_head else head, texts, states)

    found = [
        headed(language.word(rng, measure), level_unit, [one.threshold for one in results], measure),
        headed(language.word(rng, "wrs"), "%", [score.score_percent for score in scores]),
        headed(language.words("speech_level")[0], level_unit, [score.level_db_hl for score in scores]),
    ]
    if scores[0].word_list is not None:
        found.append(_Column(language.word(rng, "list"), [str(score.word_list) for score in scores]))
    if scores[0].words is not None:
        found.append(_Column(language.word(rng, "words"), [str(score.words) for score in scores]))
    if any(score.masked for score in scores):
        found.append(_masking(rng, setting, scores, level_unit))
    for place, loud in enumerate(results[0].loudness):
        levels = [one.loudness[place].level_db_hl for one in results]
        found.append(headed(loud.measure.upper(), level_unit, levels, loud.measure))
    return found, _says_what(level_unit, setting)


def _masking(rng: np.random.Generator, setting: Setting, scores: list[Speech], unit: str) -> _Column:
    """Give the column of masking: yes and no, or the noise's level and nothing."""
    language = setting.language
    head = language.words("masking")[0]
    if rng.random() < 0.5:
        yes, no = language.words("yes")[0], language.words("no")[0]
        return _Column(head, [yes if score.masked else no for score in scores])
    return _Column(f"{head} ({unit})", [f"{5 * int(rng.integers(6, 14))}" if score.masked else "–" for score in scores])


def _stated(one: EarSpeech, columns: list[_Column], boxes: list[Box | None], *, clear: bool) -> list[Speech]:
    """Give what an ear's cells state, each with its place."""
    found = []
    if one.threshold is not None:
        found.append(_true(Speech(one.ear, one.measure, float(one.threshold)), [boxes[0]], clear=clear))
    about = [box for column, box in zip(columns, boxes, strict=True) if column.states is None]
    found.append(_true(one.scores[0], about, clear=clear))
    for loud in one.loudness:
        here = [box for column, box in zip(columns, boxes, strict=True) if column.states == loud.measure]
        found.append(_true(loud, here, clear=clear))
    return found


def _ear_names(rng: np.random.Generator, setting: Setting, results: tuple[EarSpeech, ...]) -> list[str]:
    which = int(rng.integers(4))
    names = []
    for one in results:
        words = setting.language.words(one.ear, "ears")
        names.append(words[which % len(words)])
    return names


def _as_ears(
    sheet: Sheet,
    rng: np.random.Generator,
    setting: Setting,
    at: XY,
    width: float,
    results: tuple[EarSpeech, ...],
    title: str | None,
) -> tuple[list[Speech], float]:
    (columns, clear), names = _columns(rng, setting, results), _ear_names(rng, setting, results)
    rows = [[setting.language.word(rng, "ear"), *(column.head for column in columns)]]
    rows += [[name, *(column.texts[k] for column in columns)] for k, name in enumerate(names)]
    boxes, y = draw_rows(sheet, rng, setting, at, rows, title=title, room=width)
    found = []
    for k, one in enumerate(results):
        found += _stated(one, columns, boxes[k + 1][1:], clear=clear)
    return found, y


def _as_measures(
    sheet: Sheet,
    rng: np.random.Generator,
    setting: Setting,
    at: XY,
    width: float,
    results: tuple[EarSpeech, ...],
    title: str | None,
) -> tuple[list[Speech], float]:
    (columns, clear), names = _columns(rng, setting, results), _ear_names(rng, setting, results)
    rows = [["", *names], *([column.head, *column.texts] for column in columns)]
    boxes, y = draw_rows(sheet, rng, setting, at, rows, title=title, room=width)
    found = []
    for k, one in enumerate(results):
        found += _stated(one, columns, [line[k + 1] for line in boxes[1:]], clear=clear)
    return found, y


def _as_lines(
    sheet: Sheet,
    rng: np.random.Generator,
    setting: Setting,
    at: XY,
    width: float,
    results: tuple[EarSpeech, ...],
    title: str | None,
) -> tuple[list[Speech], float]:
    language, (left, y), size = setting.language, at, setting.size
    if title is not None:
        sheet.pen.text((left, y + size), title, setting.bold, size)
        y += size * 1.7
    measure, wrs = language.word(rng, results[0].measure), language.word(rng, "wrs")
    at_word = language.words("speech_level")[-1]
    listed, counted = language.words("list")[0], language.words("words")[0]
    counted = counted if language.code == "de" else counted.lower()
    unit = pick(rng, ("dB HL", "dB"))
    clear = _says_what(unit, setting)
    found: list[Speech] = []
    for name, one in zip(_ear_names(rng, setting, results), results, strict=True):
        y += size * 1.4
        margins = (left, left + width)
        _, place = draw_words(sheet, setting, (left, y), [f"{name}:"], margins, label=True)
        if one.threshold is not None:
            said = [measure, f"{one.threshold} {unit};"]
            boxes, place = draw_words(sheet, setting, place, said, margins)
            found.append(_true(Speech(one.ear, one.measure, float(one.threshold)), list(boxes), clear=clear))
        for score in one.scores:
            said = [wrs, f"{score.score_percent:.0f} %", f"{at_word} {score.level_db_hl:.0f} {unit}"]
            said[-1] += "," if score.word_list or score.words or score.masked or score.aided else ""
            said += [f"{_listed(listed, score.word_list)},"] if score.word_list else []
            said += [f"{score.words} {counted},"] if score.words else []
            said += [f"{language.words('masking')[-1].lower()},"] if score.masked else []
            said += [f"{language.words('aided')[0]},"] if score.aided else []
            said[-1] = said[-1].removesuffix(",") + (";" if score is not one.scores[-1] or one.loudness else "")
            boxes, place = draw_words(sheet, setting, place, said, margins)
            found.append(_true(score, list(boxes), clear=clear))
        for loud in one.loudness:
            said = [f"{loud.measure.upper()} {loud.level_db_hl:.0f} {unit};"]
            boxes, place = draw_words(sheet, setting, place, said, margins)
            found.append(_true(loud, list(boxes), clear=clear))
        y = place[1]
    return found, y + size


def _listed(label: str, name: str) -> str:
    """Say which list it was; one whose name begins with the label needs no other."""
    return name if name.startswith(label) else f"{label} {name}"
