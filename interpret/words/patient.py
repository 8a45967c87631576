"""The findings for the person whose ears they are: plain words, no alarm, no diagnosis, terms in brackets once."""

from __future__ import annotations

import textwrap
from collections.abc import Callable, Iterator
from typing import Any

from ..exports.printable import printable
from ..finding import Finding
from ..findings import Findings, findings
from ..record import Audiogram, Ear, PageRecord
from ..rules.change.retest import CHANGE_DB
from ..rules.degree import EARS, NORMAL_LIMITS
from ..rules.gap.loss_type import UNTOLD
from ..settings import Settings
from .languages.language import Language

WIDTH = 84
_MARK = " (?)"
_PITCHES = ("pitch-low", "pitch-middle", "pitch-high")
_REGIONS = ("speech-region-voice", "speech-region-vowels", "speech-region-stops", "speech-region-hiss")
_HIGH_HZ = 4000


class Teller:
    """Puts sentences together; each of the trade's terms stands in brackets the first time only."""

    def __init__(self, language: Language) -> None:
        self.language = language
        self._told: set[str] = set()

    def say(self, key: str, finding: Finding | None = None, **fields: Any) -> str:
        """Fill in a sentence, and mark it where its finding rests on a value to look at."""
        template = self.language.patient[key]
        for term, text in self.language.terms.items():
            if f"{{term_{term}}}" in template:
                fields[f"term_{term}"] = "" if term in self._told else f" ({text})"
                self._told.add(term)
        sentence = template.format(**fields)
        return f"{sentence}{_MARK}" if sentence and finding is not None and finding.standing == "ask" else sentence


def for_patient(record: PageRecord, settings: Settings | None, language: Language) -> str:
    """Explain a page to the person whose ears it is about.

    Parameters
    ----------
    record : PageRecord
        The reading of one page.
    settings : Settings, optional
        What was asked, and what is known of the listener.
    language : Language
        Whose words.

    Returns
    -------
    str
        Plain text, lines of at most 84 characters. The person is not named.
    """
    record = printable(record)
    teller = Teller(language)
    blocks = [[language.patient["title"].upper()]]
    if not record.audiograms:
        blocks.append(_wrapped(teller.say("no-audiogram")))
    blocks.append(_about(record, teller))
    every = [findings(audiogram, settings, record.report) for audiogram in record.audiograms]
    for number, (audiogram, found) in enumerate(zip(record.audiograms, every, strict=True)):
        blocks += [list(block) for block in _audiogram(audiogram, found, teller, is_first=number == 0)]
    if every:
        tips = (*language.tips, *(tip for found in every[-1:] for tip in _better_ear(found, teller)))
        blocks += _section("heading-tips", iter(tips), teller)
        blocks += _section("heading-questions", iter(language.questions), teller)
    blocks.append([language.patient["heading-cautions"], *(line for one in language.cautions for line in _item(one))])
    return "\n\n".join("\n".join(block) for block in blocks if block)


def _about(record: PageRecord, teller: Teller) -> list[str]:
    if not record.audiograms:
        return []
    asks = any(t.standing == "ask" for audiogram in record.audiograms for t in audiogram.thresholds)
    return _wrapped(" ".join((teller.say("reading"), *((teller.say("ask"),) if asks else ()))))


def _audiogram(audiogram: Audiogram, found: Findings, teller: Teller, *, is_first: bool) -> Iterator[list[str]]:
    dated = teller.say("dated", date=audiogram.tested_on) if audiogram.tested_on else teller.say("undated")
    yield _wrapped(dated)
    if is_first:
        yield [teller.language.patient["heading-hearing"], *_wrapped(teller.say("level"))]
    for ear in EARS:
        sentences = [sentence for sentence in _hearing(found, ear, teller) if sentence]
        if sentences:
            head = teller.say("ear", ear=teller.language.in_ears[ear])
            yield [head, *(line for one in sentences for line in _item(one))]
    yield from _section("heading-person", _person(found, teller), teller)
    yield from _section("heading-speech", _talking(found, teller), teller)
    yield from _section("heading-ears", _ears(found, teller), teller)
    yield from _section("heading-other", _other_tests(found, teller), teller)
    yield from _section("heading-doctor", _doctor(found, teller), teller)
    yield from _section("heading-age", _age(found, teller), teller)


def _section(heading: str, sentences: Iterator[str], teller: Teller) -> Iterator[list[str]]:
    told = [line for sentence in sentences if sentence for line in _item(sentence)]
    if told:
        head = teller.language.patient.get(heading)
        yield [*((head,) if head else ()), *told]


def _hearing(found: Findings, ear: Ear, teller: Teller) -> Iterator[str]:
    language = teller.language
    for code in _PITCHES:
        for one in found.of(code, ear):
            yield teller.say(code, one, levels=_levels(one, language))
    for one in found.of("degree", ear):
        if one.word is None:
            yield teller.say("degree-missing")
            continue
        key = "degree-at-least" if one.at_least else "degree"
        yield teller.say(key, one, rule=one.rule, word=language.word(one.word))
        if one.could_be:
            others = [language.word(word) for word in one.could_be if word != one.word]
            yield teller.say("could-be", words=language.listed(others, "or"))
    for one in found.of("loss-type", ear)[:1]:
        if not (one.word or "").startswith(UNTOLD) or not _is_normal(found, ear):
            yield teller.say(f"loss-type:{one.word}", one)


def _is_normal(found: Findings, ear: Ear) -> bool:
    """Tell whether an ear is within normal limits on average: then nobody asks which part of it is concerned."""
    limit = NORMAL_LIMITS[found.normal].db_hl
    return any(one.number is not None and one.number <= limit for one in found.of("degree", ear))


def _levels(one: Finding, language: Language) -> str:
    least, most = (language.number(one.named(name) or 0, 0) for name in ("least_db_hl", "most_db_hl"))
    if one.at_least:
        return language.patient["levels-silent"].format(least=least)
    return language.patient["levels-one" if least == most else "levels"].format(least=least, most=most)


def _person(found: Findings, teller: Teller) -> Iterator[str]:
    for one in found.of("degree", "both"):
        if one.word is not None:
            yield teller.say("degree-person", one, rule=one.rule, word=teller.language.word(one.word))


def _talking(found: Findings, teller: Teller) -> Iterator[str]:
    for ear in EARS:
        quiet = {one.named("distance_m"): one for one in found.of("audibility-quiet", ear) if one.number is not None}
        if 1 not in quiet or 4 not in quiet:
            continue
        language, name = teller.language, teller.language.in_ears[ear]
        near, far = (_tenths(quiet[distance], language) for distance in (1, 4))
        yield teller.say("audible-quiet", quiet[1], near=near, far=far, ear=name)
        for one in found.of("audibility-noise", ear):
            yield teller.say("audible-noise", one, noisy=_tenths(one, language))
        for word, key in (("not heard", "regions-not-heard"), ("partly heard", "regions-partly")):
            here = [one for code in _REGIONS for one in found.of(code, ear) if one.word == word]
            if here:
                sounds = "; ".join(teller.language.patient[one.code] for one in here)
                yield teller.say(key, here[0], ear=name, sounds=sounds)


def _tenths(one: Finding, language: Language) -> str:
    count = round(10 * (one.number or 0))
    key = "tenths-none" if count == 0 else "tenths-all" if count == 10 else "tenths"
    return language.patient[key].format(count=count)


def _ears(found: Findings, teller: Teller) -> Iterator[str]:
    # What rests on no value to look at is told first.
    told = sorted(found.of("asymmetry"), key=lambda one: one.standing == "ask")
    if not any(one.word for one in told):
        return
    small = next((one for one in told if one.word == "met" and one.ear in EARS), None)
    met = next((one for one in told if _is_clearly_worse(one)), None)
    open_ = next((one for one in told if one.could_be and one.ear in EARS), None)
    if met is not None and met.ear is not None:
        yield teller.say("asymmetry-met", met, ear=teller.language.in_ears[met.ear])
    elif open_ is not None and open_.ear is not None:
        yield teller.say("asymmetry-open", open_, ear=teller.language.in_ears[open_.ear])
    elif small is not None and small.ear is not None:
        yield teller.say("asymmetry-small", small, ear=teller.language.in_ears[small.ear])
    else:
        yield teller.say("asymmetry-none")


def _is_clearly_worse(one: Finding) -> bool:
    """Tell whether a criterion is met by more than a second test could differ."""
    return one.word == "met" and one.ear in EARS and one.number is not None and one.number >= CHANGE_DB


def _age(found: Findings, teller: Teller) -> Iterator[str]:
    for one in found.of("age-percentile"):
        if one.frequency_hz == _HIGH_HZ and one.number is not None and one.ear is not None:
            count = min(max(round(one.number), 1), 99)
            yield teller.say("age-percentile", one, ear=teller.language.in_ears[one.ear], count=count)


def _other_tests(found: Findings, teller: Teller) -> Iterator[str]:
    """Give what speech, the middle ear and emissions showed, each once."""
    yield from _each_once(found, _key, teller)


def _doctor(found: Findings, teller: Teller) -> Iterator[str]:
    """Give what guidance says that a doctor should see, each once; never what a pattern might be."""
    yield from _each_once(found, _doctor_key, teller)


def _each_once(found: Findings, key_of: Callable[[Finding], str | None], teller: Teller) -> Iterator[str]:
    told: set[tuple[str, Ear | None]] = set()
    for one in found.found:
        key = key_of(one)
        if key is None or (key, one.ear) in told or one.ear is None:
            continue
        told.add((key, one.ear))
        number = teller.language.number(one.number or 0, 0)
        yield teller.say(key, one, ear=teller.language.in_ears[one.ear], number=number)


def _key(one: Finding) -> str | None:
    """Name the sentence of another test's finding, None where patients are told nothing of it."""
    if one.code == "word-recognition" and one.number is not None:
        return one.code
    if one.code == "tympanogram-type" and one.word is not None:
        kind = one.word.split(",")[0]
        return f"{one.code}:{kind}" if kind in ("A", "As", "Ad", "B", "C") else None
    if one.code in ("emissions-dpoae", "emissions-teoae") and one.word in ("pass", "refer"):
        return f"emissions:{one.word}"
    return None


def _doctor_key(one: Finding) -> str | None:
    """Name the sentence of a referral, None for what is not met or no referral."""
    if one.code == "refer-sudden":
        return f"{one.code}:{one.word}"
    if one.word != "met":
        return None
    if one.code in ("refer-asymmetry", "refer-one-sided", "refer-word-scores"):
        return "refer-ears-differ"
    return one.code if one.code in ("refer-if-sudden", "refer-gap", "refer-child", "implant-evaluation") else None


def _better_ear(found: Findings, teller: Teller) -> Iterator[str]:
    """Give the tip that names the better ear, where a rule says that the other one is worse."""
    met = {one.ear for one in found.of("asymmetry") if _is_clearly_worse(one)}
    if met in ({"right"}, {"left"}):
        other: Ear = "left" if met == {"right"} else "right"
        yield teller.say("better-ear", ear=teller.language.in_ears[other])


def _wrapped(text: str) -> list[str]:
    return textwrap.wrap(text, WIDTH, break_on_hyphens=False)


def _item(text: str) -> list[str]:
    return textwrap.wrap(text, WIDTH, initial_indent="- ", subsequent_indent="  ", break_on_hyphens=False)
