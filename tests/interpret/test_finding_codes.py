"""The registry of findings, and its documented table."""

from __future__ import annotations

import re
from pathlib import Path
from typing import get_args

import pytest

from octavo.interpret.errors import InternalFault
from octavo.interpret.finding import Finding
from octavo.interpret.finding_codes import FINDING_CODES, Part
from octavo.interpret.finding_codes.table import findings_table

PAGE = Path(__file__).parents[2] / "interpret" / "finding_codes" / "FINDINGS.md"


def test_the_documented_table_is_the_registry_s() -> None:
    # Make it anew: python -m octavo.interpret.finding_codes.table > interpret/finding_codes/FINDINGS.md
    assert PAGE.read_text("utf-8") == findings_table()


@pytest.mark.parametrize("code", FINDING_CODES)
def test_every_code_stands_once_in_the_documentation(code: str) -> None:
    assert PAGE.read_text("utf-8").count(f"| `{code}` |") == 1


@pytest.mark.parametrize("code", FINDING_CODES)
def test_every_code_says_what_it_means_by_which_rule_and_what_to_do(code: str) -> None:
    found = FINDING_CODES[code]
    assert re.fullmatch("[a-z0-9]+(-[a-z0-9]+)*", code)
    assert found.code == code
    assert found.part in get_args(Part)
    assert found.source
    for text in (found.meaning, found.rule, found.do):
        assert len(text) > 10
        assert not text.endswith(".")
        assert "|" not in text


def test_a_finding_of_an_unregistered_code_is_refused() -> None:
    with pytest.raises(InternalFault, match="the finding 'none' is not registered"):
        Finding("none", "a rule")
