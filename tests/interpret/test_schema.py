"""The published schema takes every record that octavo can write, and refuses broken ones."""

from __future__ import annotations

import copy
import json
from collections.abc import Callable
from typing import Any

import pytest
from any_records import page_records
from hypothesis import given, settings
from invented_pages import page, rich_page
from invented_tests import full_page
from jsonschema import Draft202012Validator

from octavo.interpret.exports.as_json import to_json, to_json_line
from octavo.interpret.findings import with_findings
from octavo.interpret.reasons import REASONS, remark
from octavo.interpret.record import PageRecord
from octavo.interpret.schema import page_schema

VALIDATOR = Draft202012Validator(page_schema())


def test_the_schema_is_a_schema() -> None:
    Draft202012Validator.check_schema(page_schema())


@given(page_records())
@settings(max_examples=60, deadline=None)
def test_any_record_is_valid(record: PageRecord) -> None:
    assert list(VALIDATOR.iter_errors(json.loads(to_json_line(record)))) == []


@pytest.mark.parametrize(
    "record",
    [rich_page(), with_findings(rich_page()), page(), with_findings(full_page())],
    ids=["rich", "findings", "empty", "full"],
)
def test_an_invented_page_is_valid(record: PageRecord) -> None:
    VALIDATOR.validate(json.loads(to_json_line(record)))


@pytest.mark.parametrize("code", [code for code, reason in REASONS.items() if reason.kind != "ask"])
def test_a_page_with_a_registered_remark_is_valid(code: str) -> None:
    VALIDATOR.validate(to_json(page(remarks=(remark(code, ear="left", conduction="bone", chart=0, at=(0.2, 0.3)),))))


def _objects(value: object, path: tuple[str | int, ...] = ()) -> list[tuple[str | int, ...]]:
    """Give the path of every closed object in a record."""
    if isinstance(value, list):
        return [found for index, item in enumerate(value) for found in _objects(item, (*path, index))]
    if not isinstance(value, dict):
        return []
    return [path, *(found for key, item in value.items() for found in _objects(item, (*path, key)))]


# Empty findings may be filled.
CLOSED = [path for path in _objects(to_json(rich_page())) if path[-1:] != ("findings",)]


@pytest.mark.parametrize("path", CLOSED[:12] + CLOSED[-2:], ids=lambda path: ".".join(map(str, path)) or "page")
def test_an_unknown_field_is_refused_in_every_object(path: tuple[str | int, ...]) -> None:
    record: Any = copy.deepcopy(to_json(rich_page()))
    at = record
    for step in path:
        at = at[step]
    at["guess"] = 1
    assert not VALIDATOR.is_valid(record)


@pytest.mark.parametrize("path", CLOSED[:12], ids=lambda path: ".".join(map(str, path)) or "page")
def test_a_missing_field_is_refused_in_every_object(path: tuple[str | int, ...]) -> None:
    whole = to_json(rich_page())
    keys: Any = whole
    for step in path:
        keys = keys[step]
    for key in keys:
        record: Any = copy.deepcopy(whole)
        at = record
        for step in path:
            at = at[step]
        del at[key]
        assert not VALIDATOR.is_valid(record), key


def _page_sure(record: dict[str, Any]) -> None:
    record["standing"] = "sure"


def _bad_ear(record: dict[str, Any]) -> None:
    record["audiograms"][0]["thresholds"][0]["ear"] = "middle"


def _bad_level(record: dict[str, Any]) -> None:
    record["audiograms"][0]["thresholds"][0]["level_db_hl"] = "35"


def _bad_hash(record: dict[str, Any]) -> None:
    record["source"]["sha256"] = "5E" * 32


def _three_corners(record: dict[str, Any]) -> None:
    record["audiograms"][0]["charts"][0]["outline"].pop()


def _three_coordinates(record: dict[str, Any]) -> None:
    record["audiograms"][0]["charts"][0]["outline"][0].append(0)


def _bad_code(record: dict[str, Any]) -> None:
    record["remarks"][0]["code"] = "Missing Expected"


@pytest.mark.parametrize(
    "breaking", [_page_sure, _bad_ear, _bad_level, _bad_hash, _three_corners, _three_coordinates, _bad_code]
)
def test_a_broken_record_is_refused(breaking: Callable[[dict[str, Any]], None]) -> None:
    record = copy.deepcopy(to_json(rich_page()))
    assert VALIDATOR.is_valid(record)
    breaking(record)
    assert not VALIDATOR.is_valid(record)


def test_a_changed_copy_of_the_schema_leaves_the_next_one_alone() -> None:
    page_schema()["properties"].clear()
    assert page_schema()["properties"]


def test_the_tests_beside_the_thresholds_are_closed_and_complete() -> None:
    whole = to_json(full_page())
    places = [path for path in _objects(whole) if {"speech", "immittance", "otoacoustic"} & set(path)]
    assert len(places) == 7
    for path in (*places, ("audiograms", 0, "printed_averages", 0)):
        record: Any = copy.deepcopy(whole)
        at = record
        for step in path:
            at = at[step]
        at["guess"] = 1
        assert not VALIDATOR.is_valid(record), path
        del at["guess"]
        for key in list(at):
            kept = at.pop(key)
            assert not VALIDATOR.is_valid(record), (path, key)
            at[key] = kept
