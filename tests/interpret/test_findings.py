"""Findings of one audiogram, and how they stand in the record."""

from __future__ import annotations

import json

import pytest
from any_records import AUDIOGRAM
from hypothesis import given, settings
from invented_pages import asked, page, rich_page, value

from octavo.interpret.errors import MisuseError
from octavo.interpret.exports.as_json import from_json, to_json_line
from octavo.interpret.findings import Findings, findings, with_findings
from octavo.interpret.record import Audiogram
from octavo.interpret.rules.averages import Average
from octavo.interpret.rules.degree import SCHEMES
from octavo.interpret.settings import Settings


def found_on_rich_page(scheme: str) -> Findings:
    return findings(rich_page().audiograms[0], Settings(scheme))


def average_of(found: Findings, ear: str, conduction: str, rule: str) -> Average:
    return next(one for one in found.averages if (one.ear, one.conduction, one.rule) == (ear, conduction, rule))


def test_every_ear_and_conduction_with_a_value_has_its_averages() -> None:
    found = found_on_rich_page("clark-1981")
    sides = list(dict.fromkeys((one.ear, one.conduction) for one in found.averages))
    assert sides == [("right", "air"), ("left", "air"), ("right", "bone"), ("left", "bone"), ("both", "field")]


def test_the_scheme_s_own_average_is_among_them() -> None:
    # By hand: (65 + 75 + 95 + 105 + 120) / 5. Without a value at 3 kHz the left ear has no average over it to name.
    left = [(one.rule, one.db_hl) for one in found_on_rich_page("bsa-2018").averages if one.ear == "left"]
    assert ("0.25-0.5-1-2-4", 92.0) in left
    assert "0.5-1-2-3" not in dict(left)


def test_the_rich_page_by_hand() -> None:
    # Right: (25 + 30 + 45) / 3; left: 1 kHz masked 95 before unmasked 85, 4 kHz not heard at 120: (75+95+105+120) / 4.
    found = found_on_rich_page("clark-1981")
    assert average_of(found, "right", "air", "0.5-1-2").db_hl == pytest.approx(33.333, abs=0.001)
    left = average_of(found, "left", "air", "0.5-1-2-4")
    assert (left.db_hl, left.at_least) == (98.75, True)
    assert [(one.ear, one.grade) for one in found.degrees] == [("right", "mild"), ("left", "profound")]


def test_an_audiogram_without_values_has_no_findings() -> None:
    found = findings(Audiogram())
    assert (found.averages, found.degrees, found.person) == ((), (), None)


def test_the_record_s_findings_name_the_scheme_and_its_frequencies() -> None:
    written = with_findings(rich_page(), Settings("who-2021")).audiograms[0].findings
    assert written["scheme"]["name"] == SCHEMES["who-2021"].name
    averages = [one for one in written["found"] if one["code"] == "average"]
    assert (averages[0]["rule"], averages[0]["number"]) == ("0.5-1-2", 33.3333)
    degrees = [one for one in written["found"] if one["code"] == "degree"]
    assert [(one["ear"], one["word"]) for one in degrees] == [
        ("right", "moderate"),
        ("left", "complete"),
        ("both", "moderate"),
    ]


def test_findings_that_rest_on_a_value_to_check_say_so_in_the_record() -> None:
    values = (value("right", 500, 30), asked("right", 1000, 35, "faint"), value("right", 2000, 40))
    written = with_findings(page(Audiogram(thresholds=values))).audiograms[0].findings
    for code in ("average", "degree"):
        one = next(one for one in written["found"] if one["code"] == code)
        assert (one["standing"], one["rests_on"]) == ("ask", [1000])


@pytest.mark.parametrize("scheme", SCHEMES)
def test_findings_survive_the_record_s_json(scheme: str) -> None:
    record = with_findings(rich_page(), Settings(scheme))
    assert from_json(to_json_line(record)) == record


def test_findings_leave_the_rest_of_the_record_alone() -> None:
    written = json.loads(to_json_line(with_findings(rich_page())))
    plain = json.loads(to_json_line(rich_page()))
    for audiogram in written["audiograms"]:
        audiogram["findings"] = {}
    assert written == plain


def test_an_unknown_scheme_is_refused() -> None:
    with pytest.raises(MisuseError, match="there is no grading scheme named 'none'"):
        Settings("none")


@given(AUDIOGRAM)
@settings(max_examples=40, deadline=None)
def test_any_audiogram_has_findings_that_json_can_say(audiogram: Audiogram) -> None:
    json.dumps(findings(audiogram, Settings("who-2021")).to_json(), allow_nan=False)
