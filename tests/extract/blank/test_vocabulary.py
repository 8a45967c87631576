"""Which printed words may stay."""

from __future__ import annotations

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from octavo.extract.blank.vocabulary import vocabulary

KNOWN = vocabulary()


@pytest.mark.parametrize(
    ("text", "kind"),
    [("SRT", "test"), ("(dB)", "test"), ("Right:", "test"), ("dB/HL", "test"), ("35", "number"), ("-10", "number"),
     ("92%", "number"), ("1000", "number"), ("0,8", "number"), ("Patient:", "identifying"), ("geb.", "identifying"),
     ("Brandt", "unknown"), ("M.", "unknown"), ("20413", "unknown"), ("1958", "unknown"), ("04-19", "unknown"),
     ("12/03", "unknown"), ("14.03.2019", "unknown"), ("14:05", "unknown"), ("May", "unknown"), ("—", "sign"),
     ("|", "sign")],
)  # fmt: skip
def test_the_kind_of_a_printed_word(text: str, kind: str) -> None:
    assert KNOWN.kind(text) == kind


def test_a_part_of_a_name_is_never_harmless_on_its_file() -> None:
    assert KNOWN.without(("List,", "Noise")).kind("list") == "unknown"
    assert KNOWN.kind("list") == "plain"


@given(st.dates(), st.sampled_from(["%d.%m.%Y", "%Y-%m-%d", "%m/%d/%y", "%d-%m", "%d/%m", "%d.%m.%y"]))
def test_no_date_is_harmless_however_it_is_written(day: date, form: str) -> None:
    assert KNOWN.kind(day.strftime(form)) == "unknown"


@given(st.integers(10_000, 10**9))
def test_no_number_of_many_digits_is_harmless_but_a_frequency(number: int) -> None:
    wanted = number in (10000, 11200, 12000, 12500, 14000, 16000, 18000, 20000)
    assert (KNOWN.kind(str(number)) == "number") == wanted
