"""The road from a page to its record: the steps in order, and nothing else."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from ..interpret.reasons import REASONS, remark
from ..interpret.record import Audiogram, PageRecord, Remark, Report, TakenBy
from .chart import MeasuredChart
from .choices import Choices
from .crosscheck import against_averages, against_tables
from .eyes import see, see_areas
from .meaning import Reading, mean
from .meaning.expected import on_lost_chart
from .measure import empty_charts, measure
from .page import Page
from .report.facts import read_facts, report_of
from .report.facts.tested import with_dates
from .report.layout.wording.captions import upward_words, with_captions
from .report.layout.wording.titles import titled_audiogram
from .report.lines import lines_of
from .report.other_tests import all_sure, read_other_tests
from .report.paging import read_page_number
from .report.ruled import cut_into_columns
from .report.words import Begun, ReportWords, begin_words, report_words
from .shades import grey_of
from .sheet import Sheet
from .sightings import Sightings
from .straighten import straighten
from .table import Tables, all_in_tables, audiograms_of, read_tables, unchecked, without_numbers

CLEAR = 0.4
"""The network's score of a mark that hardly is a chance shape of letters."""
Observer = Callable[[str, object], None]


def _nobody(name: str, result: object) -> None:
    """Look at a step and do nothing."""


def read_page(page: Page, choices: Choices, *, observer: Observer | None = None) -> PageRecord:
    """Read one page.

    Parameters
    ----------
    page : Page
        The page as displayed.
    choices : Choices
        What the person asked for.
    observer : callable, optional
        Called after each step with its name and its result.

    Returns
    -------
    PageRecord
        The page's record; what could not be read is a remark in it, and the page's standing is ``ask`` then.
    """
    look = observer or _nobody
    look("page", page)
    seen = looked_at(page, look, choices)
    sheet, sightings, charts = seen.sheet, seen.sightings, seen.charts
    marked = tuple(chart for chart in charts if _holds_marks(chart))
    words = report_words(sheet, marked, choices, begun=seen.begun) if choices.report else ReportWords()
    if choices.report:
        look("words", words)
        twice = "one-reading" if words.unread else "two-readings"
        seen = replace(seen, charts=with_captions(charts, (*words.words, *upward_words(sheet, marked))))
        seen = replace(seen, tables=read_tables(sheet, words.words, "given" if words.given else twice))
    audiograms, remarks, taken_by = values_of(seen, mean(sheet, sightings.key, seen.charts, choices))
    report = Report()
    if choices.report:
        remarks += (remark("ocr-missing"),) if words.unread else ()
        lines = cut_into_columns(lines_of(words.words), grey_of(sheet.pixels))
        tests = read_other_tests(lines, sheet)
        audiograms = tests.into(audiograms)
        remarks += (remark("test-not-read"),) if tests.unread else ()
        audiograms = tuple(against_averages(audiogram) for audiogram in audiograms)
        read = read_facts(sheet, marked, words, lines)
        look("facts", read)
        facts = (*read.facts, *read_page_number(sheet, lines))
        audiograms = with_dates(audiograms, read.facts, unread=any(r.code == "chart-not-read" for r in remarks))
        report = report_of(facts)
        remarks += read.remarks
    sure = (
        all(t.standing == "sure" for a in audiograms for t in a.thresholds)
        and all(all_sure(a) for a in audiograms)
        and all(fact.standing == "sure" for fact in report.facts)
        and not any(REASONS[r.code].page_asks for r in remarks)
    )
    source = replace(page.source, taken_by=taken_by)
    record = PageRecord(source, "sure" if sure else "ask", audiograms, report, remarks)
    look("thresholds", record)
    return record


@dataclass(frozen=True, slots=True)
class Looked:
    """What pixels give: the sheet, what was seen on it, its charts measured, and its tables as far as they are read.

    ``begun`` is the reading of its words that is under way.
    """

    sheet: Sheet
    sightings: Sightings
    charts: tuple[MeasuredChart, ...]
    tables: Tables
    begun: Begun | None = None


def looked_at(page: Page, look: Observer = _nobody, choices: Choices | None = None) -> Looked:
    """Straighten a page, see what is on it and measure its charts; its tables are read by the sheet's own words.

    Where ``choices`` ask for the report, Tesseract begins with its words as soon as the charts' axes are known, on the
    guess that every chart has marks, and that none of what looks like an axis is a table's.
    """
    sheet = straighten(page)
    look("sheet", sheet)
    areas = see_areas(sheet)
    empty, begun = empty_charts(sheet, areas), None
    if choices is not None and choices.report:
        begun = begin_words(sheet, tuple(empty.values()), choices)
    tables = read_tables(sheet, sheet.words, "given" if sheet.words_given else "one-reading")
    unread = without_numbers(sheet, tables.tables)
    sightings = see(unread, areas if unread is sheet else None)
    look("sightings", sightings)
    charts = measure(sheet, sightings, empty)
    look("charts", charts)
    return Looked(sheet, sightings, charts, tables, begun)


def values_of(seen: Looked, reading: Reading) -> tuple[tuple[Audiogram, ...], tuple[Remark, ...], TakenBy]:
    """Join what the charts and the tables of a page say: its tests, what is to be told, and where they come from."""
    sheet, tables = seen.sheet, seen.tables
    checked = against_tables(reading.audiograms, tables.tables)
    audiograms, remarks = checked.audiograms, reading.remarks + checked.remarks
    if not audiograms:
        audiograms, remarks = audiograms_of(tables), reading.remarks + tables.remarks
    elif not any(audiogram.thresholds for audiogram in audiograms):
        remarks += tables.remarks  # what was taken for an empty chart may be the table
    taken_by: TakenBy = "table" if audiograms and not reading.audiograms else sheet.taken_by
    remarks = tuple(remark(code) for code in sheet.notes) + remarks
    areas = tuple(seen.sightings.areas[chart.area] for chart in seen.charts)
    if seen.sightings.chart_like and not all_in_tables(sheet, tables, areas):
        remarks += (remark("chart-not-read"), *(on_lost_chart() if audiograms else ()))
        audiograms = unchecked(audiograms) if taken_by == "table" else audiograms
    elif not audiograms:
        # where a copy has lost the labels, the page's title may be all that says what stood there
        lost = not areas and titled_audiogram(sheet.words)
        remarks += (remark("chart-not-read" if lost else "no-audiogram"),)
    return audiograms, remarks, taken_by


def _holds_marks(chart: MeasuredChart) -> bool:
    """Say whether a chart has clear marks: what only looks like axes may be a table, and its numbers are wanted."""
    return any(mark.sight.score > CLEAR for mark in chart.marks)
