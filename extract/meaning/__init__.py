"""Charts to thresholds: the trade's rules, applied to what was measured."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from ...interpret.reasons import remark
from ...interpret.record import Audiogram, Chart, Ear, FrequencyAxis, LevelAxis, Remark, Threshold
from ...interpret.symbols import Glyph
from ..chart import Mark, MeasuredChart, OneEar
from ..choices import Choices
from ..page import Word
from ..sheet import Sheet
from ..sightings import KeyLine
from .beside import distance_beside
from .doubts.company import in_bad_company, unheard_between
from .doubts.no_response import no_response_written
from .doubts.place import between_lost_labels
from .doubts.plotted import between_asked
from .expected import (
    aided_beneath,
    axis_goes_on,
    bone_without_air,
    doubtful_beyond,
    gaps,
    on_lost_chart,
    weak_marks,
)
from .explain import Explained, ear_alone, explain
from .frequencies import by_hand
from .grouping import ChartEar, Doubt, grouped, half_a_test, mostly_ear, only_ear, open_half
from .limbs import without_loops
from .slots import asked, ears_were_told, with_bone_asked, with_ears_asked
from .symbols.convention import ANGLES, PLENTY, Convention, Turned, convention
from .symbols.filling import without_style
from .symbols.key import denied_by, loudness_told, sets_of_key, with_letters
from .symbols.one_ink import in_both_colours, in_colour, without_one_ink
from .symbols.tongue import tongue
from .unexplained import arrows_doubted, maybe_missed

FEWEST_OFF = 3
OFF_SHARE, ON_LINE_OCTAVES = 0.25, 0.02
"""Marks off their lines, and the share of a chart's marks that they are, from which its axis is in doubt."""
FEWEST_ANGLES = 3
OTHER_EAR: dict[OneEar, OneEar] = {"right": "left", "left": "right"}
BESIDE_OCTAVES = 0.06
"""So many angle marks so far from their lines stand beside them by intent."""


@dataclass(frozen=True, slots=True)
class Reading:
    """What a sheet says: its audiograms and remarks."""

    audiograms: tuple[Audiogram, ...]
    remarks: tuple[Remark, ...]
    evidence: tuple[tuple[float, ...], ...]
    """What speaks for and against each threshold, in the order of the audiograms' thresholds."""


def mean(sheet: Sheet, key: tuple[KeyLine, ...], charts: tuple[MeasuredChart, ...], choices: Choices) -> Reading:
    """Give the charts of a sheet their meaning.

    Parameters
    ----------
    sheet : Sheet
        For positions on the page.
    key : tuple of KeyLine
        The page's printed key.
    charts : tuple of MeasuredChart
        In reading order.
    choices : Choices
        The symbol set to assume where the page names none.

    Returns
    -------
    Reading
        One audiogram a test date; two charts of one test, an ear each, are one audiogram.
    """
    coloured, both = in_colour(charts), in_both_colours(charts)
    filling = without_style(without_one_ink(charts), key)
    charts = filling.charts
    every = tuple(mark for chart in charts for mark in without_loops(chart.marks))
    shapes = frozenset[Glyph](m.sight.glyph for m in every if m.sight.score >= PLENTY)
    chosen = convention(
        every, key=sets_of_key(filling.key, shapes), asked=choices.symbols,
        leaflet=_may_be_leaflet(charts, sheet.words), western=tongue(sheet.words) is not None,
    )  # fmt: skip
    known = with_letters(chosen.symbol_set, filling.key)
    open_glyphs = chosen.open_glyphs - (known.meanings.keys() - chosen.symbol_set.meanings.keys())
    otherwise = filling.doubtful | denied_by(filling.key, known)
    chosen = replace(
        chosen, symbol_set=known, open_glyphs=open_glyphs | otherwise, ear_open=chosen.ear_open - otherwise,
        in_colour=coloured, in_both_colours=both,
        loudness_told=choices.symbols is not None or bool(loudness_told(filling.key)),
    )  # fmt: skip
    alone: list[Ear | None] = [ear_alone(chart, chosen) for chart in charts]
    apart = [frozenset[Ear](filter(None, (*alone[:i], *alone[i + 1 :]))) for i in range(len(charts))]
    explained = [explain(sheet, chart, 0, chosen, apart=ears) for chart, ears in zip(charts, apart, strict=True)]
    if any(e.finely for e in explained):
        explained = [replace(e, thresholds=between_asked(e.thresholds)) for e in explained]
    if any(ears_were_told(e.thresholds) for e in explained):
        explained = [replace(e, thresholds=with_ears_asked(e.thresholds)) for e in explained]
    ears: list[ChartEar] = [
        only_ear(e.thresholds) or chart.titled if e.thresholds else "none"
        for chart, e in zip(charts, explained, strict=True)
    ]
    audiograms: list[Audiogram] = []
    remarks: list[Remark] = []
    evidence: list[tuple[float, ...]] = []
    unsure: Doubt | None = None
    values = [e.thresholds for e in explained]
    if half_a_test(ears, [mostly_ear(v) for v in values]) or open_half(ears, values):
        unsure = "test-date-uncertain"
    for test in grouped(ears, charts, sheet.words):
        first = test.charts[0]
        if len(test.charts) == 1 and chosen.bone_by_ink and not coloured and charts[first].titled is None:
            # the other ear's air may not have been tested where its bone was: what the chart leaves out names no ear
            explained[first] = replace(explained[first], thresholds=with_bone_asked(explained[first].thresholds))
        parts = [(charts[i], explained[i]) for i in test.charts]
        audiogram, said = _audiogram(sheet, parts, chosen, test.doubt or unsure)
        audiograms.append(audiogram)
        remarks += said
        evidence += [e for i in test.charts for e in explained[i].evidence]
    # a hand's marks lie on one another more often, and are told all the same
    judged = tuple(audiograms) if any(map(by_hand, charts)) else in_bad_company(tuple(audiograms))
    return Reading(judged, tuple(remarks), tuple(evidence))


def _may_be_leaflet(charts: tuple[MeasuredChart, ...], words: tuple[Word, ...]) -> Turned:
    """Say whether a page may give angle marks the ears of the German leaflet.

    It does not where its words are of another language and all its angles stand beside their lines, each on the side
    that ASHA 1990 gives it (references: the leaflet's stand on the line). It rather does where its words are German
    and its angles stand on their lines, as ASHA's do not.
    """
    said = tongue(words)
    rows = [(chart, tuple(m for m in chart.marks if _is_angle(m))) for chart in charts]
    rows = [(chart, angles) for chart, angles in rows if angles]
    few = any(len(angles) < FEWEST_ANGLES for _, angles in rows)
    beside = [distance_beside(angles, chart.frequency) / chart.frequency.octave_px for chart, angles in rows]
    if said == "german" and rows and not few and all(abs(aside) < BESIDE_OCTAVES for aside in beside):
        return "likely"
    return "open" if said != "other" or few or any(aside < BESIDE_OCTAVES for aside in beside) else "no"


def _is_angle(mark: Mark) -> bool:
    return mark.sight.glyph in ANGLES and mark.sight.score > PLENTY


def _audiogram(
    sheet: Sheet, parts: list[tuple[MeasuredChart, Explained]], chosen: Convention, doubt: Doubt | None
) -> tuple[Audiogram, list[Remark]]:
    thresholds: list[Threshold] = []
    remarks: list[Remark] = []
    for place, (chart, explained) in enumerate(parts):
        mine = arrows_doubted(sheet, chart, [_on_chart(t, place) for t in explained.thresholds])
        mine = no_response_written(sheet, chart, mine)
        mine = unheard_between(mine, {sheet.on_page(*m.sight.at) for m in chart.marks if m.sight.apart})
        if _off_its_lines(mine):
            mine = [asked(t, "axis-uncertain") for t in mine]
        if ear := only_ear(mine):
            stray = OTHER_EAR[ear]
            mine = [asked(t, "ear-uncertain") if t.ear == stray or chart.titled == stray else t for t in mine]
        if chart.titled:
            denied = OTHER_EAR[chart.titled]
            mine = [asked(t, "ear-uncertain") if t.ear == denied else t for t in mine]
        thresholds += [asked(t, doubt) for t in mine] if doubt else mine
        remarks += weak_marks(sheet, place, (*explained.weak, *chart.beyond), chosen)
        remarks += aided_beneath(sheet, place, explained.weak)
        remarks += maybe_missed(sheet, place, chart, mine)
        lost = any(between_lost_labels(chart.frequency, t.frequency_hz) for t in mine)
        if lost or axis_goes_on(chart, sheet.words) or doubtful_beyond(chart, mine):
            ears: dict[Ear, None] = {t.ear: None for t in mine if t.conduction == "air"}
            remarks += [remark("missing-expected", ear=ear, conduction="air", chart=place) for ear in ears]
        if chart.goes_on or chart.cut_off:
            remarks += on_lost_chart()
    if sheet.taken_by != "drawn" and bone_without_air(thresholds):
        thresholds = [asked(t, "faint") for t in thresholds]
    scales = tuple(chart.frequency for chart, _ in parts)
    remarks += gaps(tuple(thresholds), scales, grey=sheet.taken_by != "drawn" and chosen.bone_by_ink)
    if doubt:
        remarks.append(remark(doubt))
    charts = tuple(_chart(sheet, chart) for chart, _ in parts)
    return Audiogram(None, chosen.symbol_set.id, charts, tuple(thresholds)), remarks


def _off_its_lines(thresholds: list[Threshold]) -> bool:
    """Say whether so many marks stand between frequencies that the axis itself must be misread."""
    off = sum("frequency-uncertain" in t.why_ask and _missed_octaves(t) > ON_LINE_OCTAVES for t in thresholds)
    return off >= FEWEST_OFF and off > OFF_SHARE * len(thresholds)


def _missed_octaves(threshold: Threshold) -> float:
    seen = threshold.seen.frequency_hz if threshold.seen else None
    return abs(math.log2(seen / threshold.frequency_hz)) if seen else 0.0


def _on_chart(threshold: Threshold, number: int) -> Threshold:
    assert threshold.seen is not None
    return replace(threshold, seen=replace(threshold.seen, chart=number))


def _chart(sheet: Sheet, chart: MeasuredChart) -> Chart:
    """Describe a chart for the record, in page fractions."""
    frequency, level = chart.frequency, chart.level
    left, right = frequency.anchors[0][1], frequency.anchors[-1][1]
    top = level.zero_px + level.px_per_db * level.printed[0]
    bottom = level.zero_px + level.px_per_db * level.printed[1]
    top_left, top_right = sheet.on_page(left, top), sheet.on_page(right, top)
    bottom_right, bottom_left = sheet.on_page(right, bottom), sheet.on_page(left, bottom)
    return Chart(
        (top_left, top_right, bottom_right, bottom_left),
        FrequencyAxis(
            frequency.scale, (frequency.anchors[0][0], frequency.anchors[-1][0]),
            (top_left, top_right), frequency.labels_read,
            round(frequency.worst_misfit, 4),
        ),
        LevelAxis(
            "linear", level.printed, (top_left, bottom_left), level.labels_read,
            round(level.worst_misfit, 2),
        ),
    )  # fmt: skip
