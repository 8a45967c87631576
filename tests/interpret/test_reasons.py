"""The registry of codes."""

from __future__ import annotations

import re

import pytest

from octavo.interpret.errors import InternalFault
from octavo.interpret.reasons import REASONS, reason, remark

# Named by the description of the page record.
PROMISED = (
    "between-steps", "marks-overlap", "faint", "two-readings", "axis-uncertain", "ear-uncertain", "masking-uncertain",
    "missing-expected", "implausible", "chart-and-table-differ",
)  # fmt: skip


@pytest.mark.parametrize("code", PROMISED)
def test_the_codes_that_the_record_promises_are_registered(code: str) -> None:
    assert reason(code).kind in ("ask", "either")


@pytest.mark.parametrize("code", REASONS)
def test_every_code_says_what_it_means_and_what_to_do(code: str) -> None:
    found = REASONS[code]
    assert re.fullmatch("[a-z]+(-[a-z]+)*", code)
    assert found.code == code
    for text in (found.text, found.do):
        assert text[0].isupper()
        assert len(text) > 15
        assert text[-1].isalnum()


def test_no_two_codes_share_a_name_or_a_text() -> None:
    assert len({found.name for found in REASONS.values()}) == len(REASONS)
    assert len({found.text for found in REASONS.values()}) == len(REASONS)


def test_a_remark_carries_the_registered_text_and_its_place() -> None:
    found = remark("missing-expected", ear="left", conduction="bone", frequency_hz=2000, chart=1, at=(0.1, 0.2))
    assert found.text == f"{REASONS['missing-expected'].text}."
    assert (found.ear, found.conduction, found.frequency_hz, found.chart, found.at) == (
        "left",
        "bone",
        2000,
        1,
        (0.1, 0.2),
    )


def test_an_unknown_code_is_a_fault_of_octavo() -> None:
    with pytest.raises(InternalFault, match="the code 'smudge' is not registered"):
        remark("smudge")


def test_a_code_of_single_values_makes_no_remark() -> None:
    with pytest.raises(InternalFault, match="the code 'faint' stands in why_ask only"):
        remark("faint")
