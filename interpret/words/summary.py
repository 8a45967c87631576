"""The record in words and tables, for a person on a terminal."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Sequence
from typing import get_args

from ..exports.printable import printable
from ..exports.threshold_table import (
    ASCII_SIGNS,
    EAR_NAMES,
    INDENT,
    SIGNS,
    WIDTH,
    Signs,
    kind_label,
    threshold_table,
)
from ..finding import Finding
from ..findings import USUAL_AVERAGES, Findings, findings
from ..reasons import REASONS
from ..record import Audiogram, Conduction, Ear, PageRecord, Remark, TakenBy, Threshold
from ..rules.averages import AVERAGES, Average
from ..rules.degree import SCHEMES, Degree
from ..settings import Settings
from ..symbols import SYMBOL_SETS
from .cautions import closing
from .facts import facts_to_check, facts_told
from .other_tests import other_tests
from .remarks import listed, place_told, remarks_told

_TAKEN_BY: dict[TakenBy, str] = {
    "drawn": "read from a drawn page",
    "scan": "read from a scanned picture",
    "photo": "read from a photo",
    "table": "read from printed numbers only",
}
_CONDUCTIONS = get_args(Conduction)
_NAMED = {"loss-type": "Type", "configuration": "Configuration"}
_ORDINALS = ("First", "Second", "Third", "Fourth", "Fifth", "Sixth", "Seventh", "Eighth", "Ninth")


def summary(
    record: PageRecord, settings: Settings | None = None, *, ascii_only: bool = False, with_cautions: bool = True
) -> str:
    """Say what a page shows, for a person.

    Parameters
    ----------
    record : PageRecord
        The reading of one page.
    settings : Settings, optional
        What was asked; its grading scheme is named beside every degree.
    ascii_only : bool
        Use ASCII characters alone.
    with_cautions : bool
        Close with the cautions. Whoever prints several pages leaves them to the last one.

    Returns
    -------
    str
        Plain text, lines of at most 100 characters, no line end at the end. Patients are not named, and no character
        of the page or the file's name can steer the terminal.
    """
    asked = settings or Settings()
    record = printable(record, ascii_only=ascii_only)
    signs = ASCII_SIGNS if ascii_only else SIGNS
    blocks = [list(_header(record, signs))]
    for number, audiogram in enumerate(record.audiograms):
        blocks.append(list(_audiogram_head(audiogram, number, len(record.audiograms))))
        found = findings(audiogram, asked, record.report)
        blocks += [_ear(audiogram, found, ear, signs) for ear in EAR_NAMES]
        blocks.append([line for text in other_tests(audiogram, signs) for line in _wrapped(text.lstrip(), _lead(text))])
        blocks += [list(_person(found)), list(_legend(audiogram, signs)), list(_to_check(audiogram))]
        blocks.append(list(_meanings(audiogram)))
    if not record.audiograms:
        blocks.append([_nothing(record)])
    if any(t.conduction == "air" for audiogram in record.audiograms for t in audiogram.thresholds):
        blocks.append(_wrapped(f"PTA is the pure-tone average. On the degree: {SCHEMES[asked.scheme].note}.", ""))
    blocks.append(list(_remarks(record)))
    if with_cautions:
        blocks.append(closing(WIDTH).splitlines())
    return "\n\n".join("\n".join(line.rstrip() for line in block) for block in blocks if block)


def _header(record: PageRecord, signs: Signs) -> Iterator[str]:
    source = record.source
    yield from _wrapped(f"{source.name}, page {source.page} of {source.pages}", "")
    values = [t for audiogram in record.audiograms for t in audiogram.thresholds]
    asking = sum(t.standing == "ask" for t in values)
    if record.standing == "sure":
        standing = "sure: nothing to check"
    elif asking:
        standing = f"to check: {asking} of {len(values)} values, marked {signs.ask} below"
    else:
        standing = "to check: see the remarks below" if record.remarks else "to check"
    yield f"{_TAKEN_BY[source.taken_by][0].upper()}{_TAKEN_BY[source.taken_by][1:]}; {standing}"
    told = facts_told(record.report, signs)
    if told:
        yield from _wrapped(told, "")
    for line in facts_to_check(record.report):
        yield from _wrapped(line, "- ")


def _audiogram_head(audiogram: Audiogram, number: int, count: int) -> Iterator[str]:
    which = "Audiogram" if count == 1 else f"{_ordinal(number)} audiogram"
    tested = f"tested on {audiogram.tested_on}" if audiogram.tested_on else "test date not read"
    known = SYMBOL_SETS.get(audiogram.symbol_set or "")
    symbols = known.name if known else audiogram.symbol_set or "not known"
    lines = _wrapped(f"{which}, {tested}, symbols: {symbols}", "")
    yield from (*lines, "=" * len(lines[-1]))


def _ordinal(number: int) -> str:
    return _ORDINALS[number] if number < len(_ORDINALS) else f"{number + 1}th"


def _ear(audiogram: Audiogram, found: Findings, ear: Ear, signs: Signs) -> list[str]:
    table = threshold_table(audiogram.thresholds, ear, signs)
    if not table:
        return [f"{EAR_NAMES[ear]}: no value read"] if ear in ("right", "left") else []
    lines = [f"{EAR_NAMES[ear]}, dB HL", *(" " * INDENT + line for line in table)]
    averages = [line for one in _told(found, ear) for line in _average(one)]
    degrees = [line for one in found.degrees if one.ear == ear for line in _degree(one)]
    shapes = [line for code in _NAMED for line in _named(found.of(code, ear)[:1])]
    return [*lines, *([""] if averages else []), *averages, *degrees, *shapes]


def _named(one: tuple[Finding, ...]) -> list[str]:
    """Give the type or the configuration by the rule that was asked for, nothing where it cannot be applied."""
    if not one or one[0].word is None:
        return []
    finding = one[0]
    could_be = f"; could be {' or '.join(finding.could_be)}" if finding.could_be else ""
    first = f"; to check first: {_hertz(finding.rests_on)}" if finding.rests_on else ""
    return _wrapped(f"{_NAMED[finding.code]}, {finding.rule}: {finding.word}{could_be}{first}", "  ")


def _told(found: Findings, ear: Ear) -> Iterator[Average]:
    """Give every average of air; of bone and field those that have all their values, or one with what it lacks."""
    for conduction in _CONDUCTIONS:
        of_side = [one for one in found.averages if (one.ear, one.conduction) == (ear, conduction)]
        given = [one for one in of_side if one.db_hl is not None]
        usual = [one for one in of_side if one.rule in (*USUAL_AVERAGES, SCHEMES[found.settings.scheme].average)]
        yield from usual if conduction == "air" else given or of_side[:1]


def _average(one: Average) -> list[str]:
    masked = f"; masked at {_hertz(one.masked_hz)}" if one.masked_hz and one.db_hl is not None else ""
    text = f"PTA, {one.conduction}, {_frequencies(one.rule)}: {_value_of(one)}{masked}{_rests_on(one)}"
    return _wrapped(text, "  ")


def _value_of(one: Average) -> str:
    if one.db_hl is None:
        return f"not given, no value at {_hertz(one.missing_hz)}"
    at_least = f" (no response at {_hertz(one.no_response_hz)})" if one.at_least else ""
    return f"{'at least ' if one.at_least else ''}{one.db_hl:.1f} dB HL{at_least}"


def _rests_on(one: Average) -> str:
    if not one.ask_hz or one.db_hl is None:
        return ""
    return f"; to check first: {_hertz(one.ask_hz)}"


def _degree(one: Degree) -> list[str]:
    scheme = SCHEMES[one.scheme]
    by = f"{'Degree' if scheme.ear_rule == 'each ear' else 'This ear alone'}, {scheme.name}"
    if one.average.db_hl is None or one.graded_db_hl is None:
        return _wrapped(f"{by}: {_value_of(one.average)}", "  ")
    word = "outside the scale" if one.grade is None else f"{'at least ' if one.at_least else ''}{one.grade}"
    silent = one.average.no_response_hz if scheme.no_response_db is not None else ()
    counted = f", no response at {_hertz(silent)} counted as {scheme.no_response_db:g} dB" if silent else ""
    by_value = f"from {one.graded_db_hl:.1f} dB HL at {_frequencies(scheme.average)}{counted}"
    return _wrapped(f"{by}: {word} ({by_value}){_rests_on(one.average)}", "  ")


def _person(found: Findings) -> Iterator[str]:
    scheme = SCHEMES[found.settings.scheme]
    if found.person is not None:
        word = f"{'at least ' if found.person.at_least else ''}{found.person.grade}"
        rests = _rests_on(found.person.average)
        yield from _wrapped(f"Degree of the person, {scheme.name}: {word}{rests}", "")
    elif found.degrees and scheme.ear_rule == "better ear":
        yield from _wrapped(f"Degree of the person, {scheme.name}: not given, an ear has no average", "")


def _legend(audiogram: Audiogram, signs: Signs) -> Iterator[str]:
    values = audiogram.thresholds
    if not values:
        return
    asks = any(t.standing == "ask" for t in values)
    silent = any(not t.response for t in values)
    yield from _wrapped(
        "; ".join(
            (
                *((f"{signs.ask} a person must check this value",) if asks else ()),
                *((f"{signs.no_response} no response at this level",) if silent else ()),
                f"{signs.nothing} no value read",
            )
        ),
        "",
    )


def _to_check(audiogram: Audiogram) -> Iterator[str]:
    asking = [t for t in audiogram.thresholds if t.standing == "ask"]
    if not asking:
        return
    yield f"To check ({len(asking)} of {len(audiogram.thresholds)} values)"
    several = len(audiogram.charts) > 1
    for t in asking:
        codes = t.why_ask or ("low-certainty",)
        why = "; ".join(REASONS[code].name if code in REASONS else code for code in codes)
        level = f"{'' if t.response else 'no response at '}{t.level_db_hl:g} dB HL"
        what = f"{EAR_NAMES[t.ear]}, {kind_label(t)}, {t.frequency_hz:g} Hz, {level}"
        yield from _wrapped(f"{what}{_seen(t, several)}: {why}", "- ")


def _meanings(audiogram: Audiogram) -> Iterator[str]:
    asking = (t for t in audiogram.thresholds if t.standing == "ask")
    told = dict.fromkeys(code for t in asking for code in t.why_ask or ("low-certainty",) if code in REASONS)
    if told:
        yield "What to look for"
    for code in told:
        yield from _wrapped(f"{REASONS[code].name}: {REASONS[code].text}. {REASONS[code].do}.", "- ")


def _seen(threshold: Threshold, several: bool) -> str:
    if threshold.seen is None:
        return ""
    chart = f"chart {threshold.seen.chart + 1}" if several and threshold.seen.chart is not None else ""
    place = place_told(threshold.seen.at) if threshold.seen.at else ""
    told = ", ".join(part for part in (chart, place) if part)
    return f" ({told})" if told else ""


def _nothing(record: PageRecord) -> str:
    unread = any(remark.code != "no-audiogram" and _page_asks(remark) for remark in record.remarks)
    if unread or record.standing == "ask":
        return "No audiogram was read from this page; one may stand there unread."
    return "No audiogram was found on this page."


def _page_asks(remark: Remark) -> bool:
    return remark.code not in REASONS or REASONS[remark.code].page_asks


def _remarks(record: PageRecord) -> Iterator[str]:
    told = [line for text in remarks_told(record) for line in _wrapped(text, "- ")]
    return iter(["Remarks", *told] if told else [])


def _frequencies(rule: str) -> str:
    wanted = AVERAGES[rule]
    once = tuple(dict.fromkeys(wanted.frequencies_hz))
    twice = [hz for hz in once if wanted.frequencies_hz.count(hz) > 1]
    text = f"{listed([f'{hz / 1000:g}' for hz in once])} kHz"
    counted = f" ({listed([f'{hz / 1000:g}' for hz in twice])} kHz twice)" if twice else ""
    return f"the best {wanted.best} of {text}" if wanted.best else f"{text}{counted}"


def _hertz(frequencies: Sequence[float]) -> str:
    return f"{listed([f'{hz:g}' for hz in frequencies])} Hz"


def _lead(text: str) -> str:
    return text[: len(text) - len(text.lstrip())]


def _wrapped(text: str, lead: str) -> list[str]:
    later = " " * (len(lead) + 2) if lead.isspace() else " " * len(lead)
    return textwrap.wrap(text, WIDTH, initial_indent=lead, subsequent_indent=later, break_on_hyphens=False)
