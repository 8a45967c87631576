"""Broken records are refused with the field named."""

from __future__ import annotations

import copy
import json
from typing import Any

import pytest
from invented_pages import rich_page

from octavo.interpret.errors import UnreadableFile
from octavo.interpret.exports.as_json import to_json
from octavo.interpret.exports.from_json import from_json

THRESHOLD = ("audiograms", 0, "thresholds", 0)


def changed(path: tuple[str | int, ...], new: object) -> str:
    """The rich page with one field set anew (or, with Ellipsis, taken away)."""
    record: Any = copy.deepcopy(to_json(rich_page()))
    at = record
    for step in path[:-1]:
        at = at[step]
    if new is ...:
        del at[path[-1]]
    else:
        at[path[-1]] = new
    return json.dumps(record)


@pytest.mark.parametrize(
    ("path", "new", "message"),
    [
        ((*THRESHOLD, "ear"), "middle", r"audiograms\[0\]\.thresholds\[0\]\.ear is none of right, left, both"),
        ((*THRESHOLD, "masked"), "no", r"thresholds\[0\]\.masked is not true or false"),
        ((*THRESHOLD, "level_db_hl"), "35", r"level_db_hl is not a number"),
        ((*THRESHOLD, "level_db_hl"), True, r"level_db_hl is not a number"),
        ((*THRESHOLD, "level_db_hl"), 900, r"level_db_hl is 900, outside -100 to 200"),
        ((*THRESHOLD, "probability"), 1.2, r"probability is 1.2, outside 0 to 1"),
        ((*THRESHOLD, "why_ask"), "faint", r"why_ask is not a list"),
        ((*THRESHOLD, "aided"), ..., r"thresholds\[0\] lacks the field 'aided'"),
        ((*THRESHOLD, "aid"), True, r"thresholds\[0\] has the unknown field 'aid'"),
        (("source", "page"), 0, r"source\.page is 0, outside 1 to inf"),
        (("source", "page"), 1.5, r"source\.page is not a whole number"),
        (("audiograms", 0, "charts", 0, "outline"), [[0, 0]], r"charts\[0\]\.outline has 1 entries and not 4"),
        (("audiograms", 0, "charts", 0, "outline", 0), [7, 0], r"outline\[0\]\[0\] is 7, outside -0.5 to 1.5"),
        (("audiograms",), {}, r"audiograms is not a list"),
        (("audiograms", 0, "findings"), [], r"findings is not an object"),
        (("report",), None, r"report is not an object"),
        (("schema",), "octavo.page/2", r"not a page record of octavo.page/1 but of 'octavo.page/2'"),
        (("schema",), ..., r"the whole lacks the field 'schema'"),
    ],
)
def test_a_broken_field_is_named(path: tuple[str | int, ...], new: object, message: str) -> None:
    with pytest.raises(UnreadableFile, match=message):
        from_json(changed(path, new))


@pytest.mark.parametrize("text", ["", "{", "[]", "null", "thresholds", '{"schema": NaN}', "[" * 100_000])
def test_what_is_no_record_is_refused_in_one_sentence(text: str) -> None:
    with pytest.raises(UnreadableFile, match=r"^not a page record: .*\. Give the JSON that octavo wrote"):
        from_json(text)


def test_an_unchanged_record_is_taken() -> None:
    assert from_json(changed(("standing",), "ask")).standing == "ask"
