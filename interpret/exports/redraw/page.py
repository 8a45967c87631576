"""The sheet: heading, chart or charts, key, and what its reader should know."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Sequence

from ...errors import MisuseError
from ...record import Audiogram, PageRecord, Side, Threshold
from ...settings import day
from ...words.languages import language as words_in
from ...words.languages.chart_words import ChartWords
from ..printable import printable, printable_text
from .axes import SPEECH, Plot, frame, plot_for
from .chart import age_style, one_test, serial_tests
from .marks import LEFT, RIGHT, colour_of, glyph_of, shape
from .scene import BLACK, Colour, Item, Lettering, Line, Scene, Stroke, tinted

_UPRIGHT, _ACROSS = (595.0, 842.0), (842.0, 595.0)
_MARGIN, _LABELS = 40.0, 34.0
_GREY: Colour = (0.3, 0.3, 0.3)
_TOP = 122.0
_KEY_ROW, _KEY_COLUMNS = 14.0, {_UPRIGHT[0]: 2, _ACROSS[0]: 3}
_SIDES: tuple[tuple[Side, Colour], ...] = (("right", RIGHT), ("left", LEFT))


def scene_of(record: PageRecord, *, language: str = "en") -> Scene:
    """Lay out a record's thresholds on a sheet: one chart of both ears, or of several tests one chart for each ear.

    Parameters
    ----------
    record : PageRecord
        The reading of one page. Nobody's name is drawn.
    language : str
        Of the words, by its id ("en", "es").

    Raises
    ------
    MisuseError
        When the record holds no threshold, or there are no words in that language.
    """
    words = words_in(language).chart
    record = printable(record)
    source = record.source
    made_from = words.made_from.format(name=source.name, page=source.page, pages=source.pages)
    return _scene([one for one in record.audiograms if one.thresholds], made_from, words)


def scene_of_tests(tests: Sequence[tuple[str, Audiogram]], *, language: str = "en") -> Scene:
    """Lay out tests from several files over each other; as ``scene_of``.

    Parameters
    ----------
    tests : sequence of (str, Audiogram)
        The name of the file that each stands in, and the test.
    language : str
        Of the words, by its id.
    """
    words = words_in(language).chart
    names = ", ".join(dict.fromkeys(printable_text(name) for name, _ in tests))
    made_from = words.made_from_files.format(names=names)
    return _scene([one for _, one in tests if one.thresholds], made_from, words)


def _scene(given: list[Audiogram], made_from: str, words: ChartWords) -> Scene:
    tests = _in_order(given)
    if not tests:
        raise MisuseError("the record holds no threshold to draw", "Draw a page whose reading has values")
    if len(tests) == 1:
        size, (items, bottom) = _UPRIGHT, _one_chart(tests[0], words)
    else:
        size, (items, bottom) = _ACROSS, _two_charts(tests, words)
    if len(tests) == 1:
        heading = _tested(tests[0], words)
    else:
        heading = (words.several if _are_dated(tests) else words.several_undated).format(n=len(tests))
    items = (*_heading(heading, made_from, words), *items, *_key(tests, bottom, size[0], words), *_foot(size, words))
    return Scene(*size, items, f"{words.title}: {heading}", _in_words(tests, words), words.code)


def _in_order(tests: list[Audiogram]) -> list[Audiogram]:
    """Give the tests by date, where every one has its date; else as they stand on the page."""
    return sorted(tests, key=lambda one: one.tested_on or "") if _are_dated(tests) else tests


def _are_dated(tests: list[Audiogram]) -> bool:
    return all(day(one.tested_on) is not None for one in tests)


def _tested(audiogram: Audiogram, words: ChartWords) -> str:
    date = audiogram.tested_on
    return words.tested_on.format(date=printable_text(date)) if date else words.date_unknown


def _heading(heading: str, made_from: str, words: ChartWords) -> Iterator[Item]:
    yield Lettering((_MARGIN, 46), words.title, 17, bold=True)
    yield Lettering((_MARGIN, 64), heading, 11)
    yield Lettering((_MARGIN, 80), textwrap.shorten(made_from, 110, placeholder="…"), 8, _GREY)


def _one_chart(audiogram: Audiogram, words: ChartWords) -> tuple[tuple[Item, ...], float]:
    room = _UPRIGHT[0] - 2 * _MARGIN - _LABELS
    plot = plot_for(audiogram.thresholds, _MARGIN + _LABELS, _TOP, room)
    return (*frame(plot, words), *one_test(plot, audiogram)), plot.top + plot.height


def _two_charts(tests: Sequence[Audiogram], words: ChartWords) -> tuple[tuple[Item, ...], float]:
    values = [t for one in tests for t in one.thresholds]
    room = _ACROSS[0] / 2 - _MARGIN - _LABELS
    items: list[Item] = []
    bottom = _TOP
    # The right ear stands at the left, as the tester faces the person.
    for number, (side, colour) in enumerate(_SIDES):
        left = _MARGIN + _LABELS + number * (room + _LABELS + 6)
        plot = _lower(plot_for(values, left, _TOP + 18, room - 8))
        items += frame(plot, words)
        items += serial_tests(plot, tests, side)
        items.append(Lettering((plot.left, _TOP - 14), words.ears[side], 11, colour, bold=True))
        bottom = plot.top + plot.height
    return tuple(items), bottom


def _lower(plot: Plot) -> Plot:
    """Keep a chart of a sheet that lies across low enough for the key below it."""
    most = 280.0
    if plot.height <= most:
        return plot
    octave = plot.octave * most / plot.height
    return Plot(plot.left, plot.top, octave, plot.lowest_hz, plot.highest_hz, plot.least_db, plot.most_db)


def _key(tests: Sequence[Audiogram], bottom: float, width: float, words: ChartWords) -> Iterator[Item]:
    """Draw the key: every kind of mark on the sheet, its tests, and the shaded region."""
    values = [t for one in tests for t in one.thresholds]
    kinds: dict[tuple[str, str], Threshold] = {}
    for t in sorted(values, key=_kind_order):
        kinds.setdefault((glyph_of(t), t.ear), t)
    entries: list[tuple[Threshold | str | int, str]] = [(t, words.kind(t)) for t in kinds.values()]
    if any(not t.response for t in values):
        entries.append(("arrow", words.no_response))
    if any(t.standing == "ask" for t in values):
        entries.append(("ask", words.open_to_question))
    entries.append(("speech", words.speech_region))
    if len(tests) > 1:
        entries += [(n, f"{n}: {_tested(one, words)}") for n, one in enumerate(tests, 1)]
    columns = _KEY_COLUMNS[width]
    rows = -(-len(entries) // columns)
    for index, (sample, text) in enumerate(entries):
        x = _MARGIN + _LABELS + (index // rows) * (width - 2 * _MARGIN - _LABELS) / columns
        y = bottom + 27 + (index % rows) * _KEY_ROW
        yield from _sample(sample, x, y, len(tests))
        yield Lettering((x + 22, y + 3), text, 8.5)


def _kind_order(threshold: Threshold) -> tuple[object, ...]:
    ears = ("right", "left", "both", "unspecified")
    return (
        threshold.conduction, threshold.measure != "threshold", threshold.aided, threshold.masked,
        ears.index(threshold.ear),
    )  # fmt: skip


def _sample(sample: Threshold | str | int, x: float, y: float, tests: int) -> Iterator[Item]:
    if isinstance(sample, Threshold):
        yield from shape(glyph_of(sample), (x + 7, y), 0.85, Stroke(colour_of(sample), 1.4))
    elif isinstance(sample, int):
        fade, line_width, dash = age_style(tests - sample)
        yield Line(((x - 4, y), (x + 18, y)), Stroke(tinted(BLACK, fade), line_width, dash))
    elif sample == "arrow":
        yield Line(((x + 12, y - 5), (x + 4, y + 5)), Stroke(BLACK, 1.4))
        yield Line(((x + 4.2, y + 0.4), (x + 4, y + 5), (x + 8.4, y + 3.8)), Stroke(BLACK, 1.4))
    elif sample == "ask":
        ends = ((x + 5, y - 6), (x + 5, y + 6))
        yield Line(ends, Stroke(BLACK, 0.9))
        yield from (Line(((x + 2, end), (x + 8, end)), Stroke(BLACK, 0.9)) for _, end in ends)
        yield Lettering((x + 9.5, y + 3), "?", 9, bold=True)
    else:
        corners = ((x - 2, y - 5), (x + 16, y - 5), (x + 16, y + 5), (x - 2, y + 5))
        yield Line(corners, Stroke((0.62, 0.62, 0.62), 0.5), closed=True, fill=SPEECH)


def _foot(size: tuple[float, float], words: ChartWords) -> Iterator[Item]:
    lines = textwrap.wrap(words.caution, 120 if size == _UPRIGHT else 170)
    for number, line in enumerate(lines):
        yield Lettering((_MARGIN, size[1] - 34 + 11 * (number - len(lines) + 1)), line, 8, _GREY)


def _in_words(tests: Sequence[Audiogram], words: ChartWords) -> str:
    """Give the values in words, for who cannot see the chart."""
    told: list[str] = []
    for one in tests:
        rows: dict[str, list[str]] = {}
        for t in sorted(one.thresholds, key=lambda t: (*_kind_order(t)[:4], t.ear, t.frequency_hz)):
            level = f"{t.frequency_hz:g} Hz {words.level(t)}"
            rows.setdefault(words.kind(t), []).append(level)
        told.append(f"{_tested(one, words)}: " + "; ".join(f"{kind}: {', '.join(v)}" for kind, v in rows.items()))
    return ". ".join(told) + "."
