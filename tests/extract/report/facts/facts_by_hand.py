"""Words of a page written by hand, read for their facts."""

from __future__ import annotations

from by_hand import sheet

from octavo.extract.chart import MeasuredChart
from octavo.extract.page import Word
from octavo.extract.report.facts import ReadFacts, read_facts
from octavo.extract.report.lines import lines_of
from octavo.extract.report.words import ReportWords

HIGH, LETTER, SPACE = 14.0, 8.0, 5.0


def printed(*texts: tuple[float, float, str]) -> tuple[Word, ...]:
    """Print texts from their left edges on, at their middles' heights."""
    words = []
    for left, y, text in texts:
        x = left
        for part in text.split(" "):
            box = (x, y - HIGH / 2, x + LETTER * len(part), y + HIGH / 2)
            words.append(Word(part, box))
            x += LETTER * len(part) + SPACE
    return tuple(words)


def read(*texts: tuple[float, float, str], charts: tuple[MeasuredChart, ...] = (), given: bool = True) -> ReadFacts:
    words = printed(*texts)
    one = sheet("drawn" if given else "scan", words=words)
    return read_facts(one, charts, ReportWords(words, given=given), lines_of(words))


def value(found: ReadFacts, name: str) -> tuple[str, str] | None:
    return next(((f.value, f.standing) for f in found.facts if f.name == name), None)


def why(found: ReadFacts, name: str) -> tuple[str, ...]:
    return next(f.why_ask for f in found.facts if f.name == name)
