"""What must hold of the findings of any audiogram, and how long they take."""

from __future__ import annotations

import json
import time
from collections import Counter
from dataclasses import replace

from hypothesis import given, settings
from hypothesis import strategies as st
from invented_pages import rich_page
from jsonschema import Draft202012Validator

from octavo.interpret.finding import Finding
from octavo.interpret.findings import findings
from octavo.interpret.record import Audiogram, Conduction, Ear, Threshold
from octavo.interpret.rules.change.comparison import Sitting, compare
from octavo.interpret.rules.degree import SCHEMES, bands
from octavo.interpret.schema import page_schema
from octavo.interpret.settings import Noise, Settings

ASKED = Settings(age_years=60, sex="male", noise=Noise(90, 20))
AIR_HZ = (250.0, 500.0, 1000.0, 2000.0, 3000.0, 4000.0, 6000.0, 8000.0)
BONE_HZ = (500.0, 1000.0, 2000.0, 4000.0)
MOST_MS = 5.0
SLOW_MACHINE = 4.0
"""The bar of 5 ms is for a machine of its own; CI's may be slower by this factor."""


@st.composite
def rows(draw: st.DrawFn, ear: Ear, conduction: Conduction, hertz: tuple[float, ...]) -> list[Threshold]:
    masked = draw(st.booleans())
    most = 110 if conduction == "air" else 70
    found: list[Threshold] = []
    for hz in hertz:
        if draw(st.integers(0, 9)) == 0:
            continue
        level = draw(st.integers(-2, most // 5)) * 5.0
        silent = draw(st.integers(0, 9)) == 0
        standing = "ask" if draw(st.integers(0, 7)) == 0 else "sure"
        found.append(
            Threshold(ear, conduction, masked, hz, level, response=not silent, standing=standing, probability=0.9)
        )
    return found


@st.composite
def audiograms(draw: st.DrawFn) -> Audiogram:
    bone_ears: tuple[Ear, ...] = ("right", "left", "unspecified")
    values = [
        *(t for ear in ("right", "left") for t in draw(rows(ear, "air", AIR_HZ))),
        *(t for ear in bone_ears if draw(st.booleans()) for t in draw(rows(ear, "bone", BONE_HZ))),
    ]
    return Audiogram("2019-03-14", thresholds=tuple(values))


def swapped(ear: Ear | None) -> Ear | None:
    others: dict[Ear, Ear] = {"right": "left", "left": "right"}
    return None if ear is None else others.get(ear, ear)


def mirrored(finding: Finding) -> Finding:
    names = {"right_mean_db_hl": "left_mean_db_hl", "left_mean_db_hl": "right_mean_db_hl"}
    numbers = tuple(sorted((names.get(name, name), round(number, 6)) for name, number in finding.numbers))
    return replace(plain(finding), ear=swapped(finding.ear), numbers=numbers)


def plain(finding: Finding) -> Finding:
    def rounded(number: float | None) -> float | None:
        return None if number is None else round(number, 6)

    numbers = tuple(sorted((name, round(number, 6)) for name, number in finding.numbers))
    return replace(
        finding, numbers=numbers, number=rounded(finding.number), low=rounded(finding.low), high=rounded(finding.high)
    )


@given(audiograms())
@settings(max_examples=60, deadline=None)
def test_swapped_ears_swap_every_finding(audiogram: Audiogram) -> None:
    values = tuple(replace(t, ear=swapped(t.ear) or t.ear) for t in audiogram.thresholds)
    found = findings(audiogram, ASKED).found
    other = findings(replace(audiogram, thresholds=values), ASKED).found
    assert Counter(map(mirrored, found)) == Counter(map(plain, other))


def words_of(finding: Finding) -> set[str]:
    told = finding.word is not None and not finding.word.startswith("cannot tell")
    return set(finding.could_be) or ({finding.word} if finding.word and told else set())


def key_of(finding: Finding) -> tuple[object, ...]:
    distance = finding.named("distance_m")
    return finding.code, finding.rule, finding.ear, finding.conduction, finding.frequency_hz, distance


def assert_no_more_certain(before: tuple[Finding, ...], after: tuple[Finding, ...]) -> None:
    doubted = {key_of(finding): finding for finding in after}
    could_be_met = {(finding.code, finding.rule) for finding in after if "met" in finding.could_be}
    for finding in before:
        other = doubted.get(key_of(finding))
        if other is None:
            # Ears that are alike are told of both; where one could be the worse it is told of that one.
            assert (finding.code, finding.ear) == ("asymmetry", "both")
            assert (finding.code, finding.rule) in could_be_met
            continue
        assert (finding.standing, other.standing) != ("ask", "sure")
        assert set(finding.rests_on) <= set(other.rests_on)
        if finding.low is not None and finding.high is not None:
            assert other.low is not None
            assert other.high is not None
            assert other.low <= finding.low + 1e-9
            assert other.high >= finding.high - 1e-9
        assert words_of(finding) <= words_of(other)


@given(audiograms(), st.data())
@settings(max_examples=120, deadline=None)
def test_adding_uncertainty_never_makes_a_finding_more_certain(audiogram: Audiogram, data: st.DataObject) -> None:
    if not audiogram.thresholds:
        return
    at = data.draw(st.integers(0, len(audiogram.thresholds) - 1))
    values = tuple(replace(t, standing="ask") if index == at else t for index, t in enumerate(audiogram.thresholds))
    doubted = replace(audiogram, thresholds=values)
    assert_no_more_certain(findings(audiogram, ASKED).found, findings(doubted, ASKED).found)


@given(audiograms(), audiograms(), st.data())
@settings(max_examples=40, deadline=None)
def test_adding_uncertainty_never_makes_a_change_more_certain(
    old: Audiogram, new: Audiogram, data: st.DataObject
) -> None:
    if not new.thresholds:
        return
    at = data.draw(st.integers(0, len(new.thresholds) - 1))
    values = tuple(replace(t, standing="ask") if index == at else t for index, t in enumerate(new.thresholds))
    report = rich_page().report
    asked = Settings(sex="female")
    sure, doubted = (
        compare((Sitting(old, report, "a.pdf"), Sitting(one, report, "b.pdf")), asked)[0].found
        for one in (new, replace(new, thresholds=values))
    )
    assert_no_more_certain(sure, doubted)


@given(audiograms(), st.data(), st.sampled_from(sorted(SCHEMES)))
@settings(max_examples=120, deadline=None)
def test_raising_a_threshold_never_improves_a_degree_a_percentage_or_audibility(
    audiogram: Audiogram, data: st.DataObject, scheme: str
) -> None:
    air = [index for index, t in enumerate(audiogram.thresholds) if t.conduction == "air"]
    if not air:
        return
    at, by = data.draw(st.sampled_from(air)), data.draw(st.integers(1, 8)) * 5.0
    raised = tuple(
        replace(t, level_db_hl=t.level_db_hl + by) if index == at else t for index, t in enumerate(audiogram.thresholds)
    )
    asked = replace(ASKED, scheme=scheme)
    order = [band.grade for band in bands(scheme)]
    order.insert(1, "unilateral")  # WHO 2021 names it between normal and a loss of the better ear
    before = {key_of(one): one for one in findings(audiogram, asked).found}
    after = {key_of(one): one for one in findings(replace(audiogram, thresholds=raised), asked).found}
    for key, one in before.items():
        other = after.get(key)
        if one.code == "degree" and one.word is not None:
            assert other is not None
            assert other.word is not None
            assert order.index(one.word) <= order.index(other.word)
        elif one.code in ("handicap", "age-percentile", "handicap-biap", "average") and one.number is not None:
            assert other is not None
            assert other.number is not None
            assert other.number >= one.number - 1e-9
        elif one.code.startswith(("audibility", "speech-region")) and one.number is not None:
            assert other is not None
            assert other.number is not None
            assert other.number <= one.number + 1e-9


@given(audiograms())
@settings(max_examples=40, deadline=None)
def test_only_what_rests_on_a_value_to_look_at_stands_as_ask(audiogram: Audiogram) -> None:
    sure = replace(audiogram, thresholds=tuple(replace(t, standing="sure") for t in audiogram.thresholds))
    for finding in findings(sure, ASKED).found:
        assert (finding.standing, finding.rests_on, finding.could_be) == ("sure", (), ())


@given(audiograms())
@settings(max_examples=40, deadline=None)
def test_a_range_holds_its_number(audiogram: Audiogram) -> None:
    for finding in findings(audiogram, ASKED).found:
        if finding.number is not None:
            assert finding.low is not None
            assert finding.high is not None
            assert finding.low - 1e-9 <= finding.number <= finding.high + 1e-9
        if finding.could_be and finding.word in ("met", "not met"):
            assert finding.word in finding.could_be


FOUND_SCHEMA = Draft202012Validator({"$ref": "#/$defs/findings", "$defs": page_schema()["$defs"]})


@given(audiograms())
@settings(max_examples=40, deadline=None)
def test_the_published_schema_takes_every_finding(audiogram: Audiogram) -> None:
    written = json.loads(json.dumps(findings(audiogram, ASKED).to_json(), allow_nan=False))
    assert list(FOUND_SCHEMA.iter_errors(written)) == []


def test_the_published_schema_refuses_a_finding_without_a_rule() -> None:
    written = findings(rich_page().audiograms[0], ASKED).to_json()
    del written["found"][0]["rule"]
    assert list(FOUND_SCHEMA.iter_errors(written)) != []


def test_a_page_s_findings_take_5_ms() -> None:
    audiogram = rich_page().audiograms[0]
    findings(audiogram, ASKED)  # tables are read once
    taken: list[float] = []
    for _ in range(30):
        began = time.process_time()
        findings(audiogram, ASKED)
        taken.append(1000 * (time.process_time() - began))
    assert min(taken) <= MOST_MS * SLOW_MACHINE
