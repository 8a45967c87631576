"""The findings for a clinician: compact, every number, every rule by its name, what rests on what."""

from __future__ import annotations

import math
import textwrap
from collections.abc import Iterable, Iterator, Sequence
from itertools import groupby

from ..exports.printable import printable
from ..exports.threshold_table import EAR_NAMES, frequency_label, threshold_table
from ..finding import Finding
from ..finding_codes import finding_code
from ..findings import USUAL_AVERAGES, Findings, findings
from ..record import Audiogram, PageRecord
from ..rules.degree import NORMAL_LIMITS, SCHEMES
from ..settings import Settings
from ..symbols import SYMBOL_SETS
from .languages.language import Language, with_unit

WIDTH = 100
_RULES_TOGETHER = frozenset({"average", "average-better-ear", "average-binaural", "notch", "asymmetry", "handicap"})
_OF_THE_PERSON = frozenset({"average-better-ear", "average-binaural", "noise-expectation", "handicap-biap"})
"""Where the title says already that both ears are meant."""
_JUDGED = frozenset(
    {"notch", "asymmetry", "standard-threshold-shift", "recordable-shift", "significant-shift", "threshold-change"}
)
"""What ends in a word: without one, a number alone would mislead."""
_TOLD_ELSEWHERE = {
    "air-bone-gap": ("air_db_hl", "bone_db_hl"),
    "threshold-change": ("old_db_hl", "new_db_hl"),
    "age-percentile": ("level_db_hl", "tenth_db_hl", "ninetieth_db_hl"),
    "noise-expectation": ("noise_median_db", "age_and_noise_tenth_db_hl", "age_and_noise_ninetieth_db_hl"),
    **{f"pitch-{name}": ("from_hz", "to_hz") for name in ("low", "middle", "high")},
    **{f"speech-region-{name}": ("from_hz", "to_hz") for name in ("voice", "vowels", "stops", "hiss")},
}
"""Numbers that the table of thresholds shows, or that would only lengthen the line; the record has them all."""
_DECIMALS = {"index": 2, "share": 2, "percentile": 0}


def for_clinician(record: PageRecord, settings: Settings | None, language: Language) -> str:
    """Give everything that follows from a page, compactly.

    Parameters
    ----------
    record : PageRecord
        The reading of one page.
    settings : Settings, optional
        What was asked, and what is known of the listener.
    language : Language
        Whose words. Rules keep their published names.

    Returns
    -------
    str
        Plain text, lines of at most 100 characters. The person is not named.
    """
    record = printable(record)
    source = record.source
    blocks = [_wrapped(f"{source.name}, {source.page}/{source.pages}", "")]
    if not record.audiograms:
        blocks.append([language.phrases["no_audiogram"]])
    for audiogram in record.audiograms:
        found = findings(audiogram, settings, record.report)
        blocks.append(list(_head(record, audiogram, found, language)))
        for ear in EAR_NAMES:
            table = threshold_table(audiogram.thresholds, ear, named=language.kind)
            if table:
                blocks.append([f"{_capital(language.ears[ear])}, dB HL", *(f"  {line}" for line in table)])
        blocks += list(told_by_parts(found.found, language))
        blocks.append(list(_notes(found, language)))
    return "\n\n".join("\n".join(line.rstrip() for line in block) for block in blocks if block)


def told_by_parts(found: Iterable[Finding], language: Language) -> Iterator[list[str]]:
    """Give the lines of each part of the findings, its heading first.

    Findings of one code and rule stand in one line, ear by ear, and within an ear by frequency; where several rules
    judge the same thing, they stand in one line for each ear.
    """
    ordered = [one for one in found if not _is_idle(one)]
    for part, of_part in groupby(ordered, key=lambda one: finding_code(one.code).part):
        lines: list[str] = []
        groups: dict[tuple[object, ...], list[Finding]] = {}
        for one in of_part:
            by = (one.ear, one.conduction) if one.code in _RULES_TOGETHER else (one.rule,)
            groups.setdefault((one.code, *by), []).append(one)
        for together in groups.values():
            lines += _wrapped(_line(together, language), "  ")
        yield [language.parts[part], *lines]


def _is_idle(one: Finding) -> bool:
    """Leave out averages that say no more than that bone or a loudspeaker was not tested everywhere, or are rare."""
    if one.code == "average":
        return one.number is None and one.conduction != "air"
    return one.code in ("average-better-ear", "average-binaural") and one.rule not in USUAL_AVERAGES


def _line(together: Sequence[Finding], language: Language) -> str:
    first = together[0]
    if first.code not in _RULES_TOGETHER:
        return f"{language.title(first.code)}, {first.rule}: {_by_ear(together, language)}"
    values = [f"{one.rule}: {value_of(one, language)}" for one in together if _says_something(one)]
    lacking: dict[tuple[float, ...], list[str]] = {}
    for one in together:
        if not _says_something(one):
            lacking.setdefault(one.missing_hz, []).append(one.rule)
    for hertz, rules in lacking.items():
        values.append(f"{', '.join(rules)}: {language.phrases['missing'].format(hertz=_hertz(hertz, language))}")
    return f"{' '.join((language.title(first.code), _side(first, language))).strip()}: {'; '.join(values)}"


def _says_something(one: Finding) -> bool:
    return one.number is not None or one.word is not None or not one.missing_hz


def value_of(finding: Finding, language: Language) -> str:
    """Write what was found: the number and word, what decided, the range, and what is to be looked at first.

    Returns
    -------
    str
        Such as ``38.8 dB HL (36.3 to 41.3, check 4k Hz first)``.
    """
    decimals = _DECIMALS.get(finding.unit or "", 1)
    parts: list[str] = []
    if finding.word is not None:
        parts.append(language.word(finding.word))
    elif finding.code in _JUDGED and finding.number is not None:
        parts.append(language.phrases["untold"])
    if finding.number is not None:
        # The title of an average says its unit.
        unit = "" if finding.code.startswith("average") else language.units.get(finding.unit or "", finding.unit or "")
        parts.append(f"{language.number(finding.number, decimals)}{' ' if unit else ''}{unit}")
    text = ", ".join(parts) or ("" if finding.missing_hz else language.phrases["untold"])
    if finding.at_least and text and not finding.code.startswith("reflex-"):
        text = language.phrases["at_least"].format(text=text)
    about = list(_about(finding, language, decimals))
    if not text:
        return "; ".join(about)
    return f"{text} ({'; '.join(about)})" if about else text


def _about(finding: Finding, language: Language, decimals: int) -> Iterator[str]:
    phrases = language.phrases
    hidden = _TOLD_ELSEWHERE.get(finding.code, ())
    numbers = [_number(name, number, language) for name, number in finding.numbers if name not in hidden]
    if numbers:
        yield ", ".join(numbers)
    if finding.missing_hz:
        yield phrases["missing"].format(hertz=_hertz(finding.missing_hz, language))
    if finding.no_response_hz and finding.frequency_hz is None:
        yield phrases["silent"].format(hertz=_hertz(finding.no_response_hz, language))
    # Without a word the words that it could be are all that is known, however sure the values are.
    if finding.could_be and (finding.standing == "ask" or finding.word is None):
        yield phrases["could_be"].format(words=language.could_be(finding))
    if finding.standing == "ask":
        if finding.low is not None and finding.high is not None:
            yield from _range(finding.low, finding.high, decimals, language)
        elsewhere = finding.rests_on and finding.rests_on != (finding.frequency_hz,)
        hertz = _hertz(finding.rests_on, language)
        yield phrases["check_first"].format(hertz=hertz) if elsewhere else phrases["check"]


def _range(low: float, high: float, decimals: int, language: Language) -> Iterator[str]:
    """Give the range as it is printed, nothing where both ends look alike or are open."""
    least, most = (language.number(end, decimals) if math.isfinite(end) else "" for end in (low, high))
    if least == most:
        return
    key = "range" if least and most else "open_range" if least else "up_to"
    yield language.phrases[key].format(low=least, high=most)


def _number(name: str, number: float, language: Language) -> str:
    """Write a number that decided, such as ``gap 12.5`` or ``1 m``; a level at a frequency names it."""
    if name.startswith("shift_db_at_"):
        hz = float(name.removeprefix("shift_db_at_").removesuffix("_hz"))
        return f"{with_unit(hz, language.decimal)} {language.number(number)}"
    label = language.numbers.get(name, name.replace("_", " "))
    told = language.number(number, 2 if name.startswith("index") else 1)
    return f"{told} m" if name == "distance_m" else f"{label} {told}"


def _by_ear(together: Sequence[Finding], language: Language) -> str:
    told: list[str] = []
    for _, of_ear in groupby(together, key=lambda one: (one.ear, one.conduction)):
        here = list(of_ear)
        values = [
            f"{frequency_label(one.frequency_hz)} {value_of(one, language)}"
            if one.frequency_hz
            else value_of(one, language)
            for one in here
        ]
        told.append(f"{_side(here[0], language)} {', '.join(values)}".strip())
    return "; ".join(told)


def _side(one: Finding, language: Language) -> str:
    """Name the ear, and the conduction where it is not air."""
    if one.ear is None or one.code in _OF_THE_PERSON:
        return ""
    other = f" {language.conductions[one.conduction]}" if one.conduction in ("bone", "field") else ""
    return f"{language.ears[one.ear]}{other}"


def _head(record: PageRecord, audiogram: Audiogram, found: Findings, language: Language) -> Iterator[str]:
    phrases = language.phrases
    known = SYMBOL_SETS.get(audiogram.symbol_set or "")
    asking = sum(t.standing == "ask" for t in audiogram.thresholds)
    told = [phrases["test"].format(date=audiogram.tested_on) if audiogram.tested_on else phrases["test_undated"]]
    if found.age_years is not None:
        told.append(phrases["age"].format(years=language.number(found.age_years, 0)))
    if found.settings.sex is not None:
        told.append(phrases[found.settings.sex])
    if known or audiogram.symbol_set:
        told.append(phrases["symbols"].format(symbols=known.name if known else audiogram.symbol_set))
    if record.report.transducer:
        told.append(phrases["earphone"].format(earphone=record.report.transducer))
    if record.report.reliability:
        told.append(phrases["reliability"].format(reliability=record.report.reliability))
    count = len(audiogram.thresholds)
    told.append(phrases["to_check"].format(asking=asking, count=count) if asking else phrases["nothing_to_check"])
    yield from _wrapped("; ".join(told), "")


def _notes(found: Findings, language: Language) -> Iterator[str]:
    scheme, limit = SCHEMES[found.settings.scheme], NORMAL_LIMITS[found.normal]
    source, note = language.note(limit.id, limit.source), language.note(scheme.id, scheme.note)
    yield from _wrapped(language.phrases["normal_limit"].format(source=source), "")
    yield from _wrapped(language.phrases["scheme_note"].format(name=scheme.name, note=note), "")


def _hertz(frequencies: Sequence[float], language: Language) -> str:
    return ", ".join(with_unit(hz, language.decimal) for hz in frequencies)


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]


def _wrapped(text: str, lead: str) -> list[str]:
    return textwrap.wrap(text, WIDTH, initial_indent=lead, subsequent_indent=lead + "  ", break_on_hyphens=False)
