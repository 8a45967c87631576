"""What cells say: by hand from the signs that audiometry forms use (common practice)."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from octavo.extract.table.cells.numbers import Said, said_by, same_text

LEVELS = st.integers(-2, 26).map(lambda step: 5 * step)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("35", Said("level", 35.0)),
        ("-5", Said("level", -5.0)),
        ("−10", Said("level", -10.0)),
        ("35 dB HL", Said("level", 35.0)),
        (">110", Said("level", 110.0, False)),
        ("110+", Said("level", 110.0, False)),
        ("110↓", Said("level", 110.0, False)),
        ("105 NR", Said("level", 105.0, False)),
        ("40*", Said("level", 40.0, sign="*")),
        ("40m", Said("level", 40.0, sign="m")),
        ("[40]", Said("level", 40.0, sign="[]")),
        ("(110+)", Said("level", 110.0, False, "()")),
        (">120m", Said("level", 120.0, False, "m")),
        ("NR", Said("unheard", response=False)),
        ("[NR]", Said("unheard", response=False, sign="[]")),
        ("NR*", Said("unheard", response=False, sign="*")),
        ("NR m", Said("unheard", response=False, sign="m")),
        ("DNT", Said("untested")),
        ("CNT", Said("untested")),
        ("n.t.", Said("untested")),
        ("—", Said("untested")),
        ("", Said("untested")),
        ("37", Said("off-step")),
        ("175", Said("off-step")),
    ],
)
def test_a_cell_is_read_as_it_is_meant(text: str, said: Said) -> None:
    assert said_by(text) == said


@pytest.mark.parametrize("text", ["[40", "40)", "(40]", "4O", "40 45", "see note", "[40*]", "40%"])
def test_a_cell_that_is_not_understood_is_no_value(text: str) -> None:
    assert said_by(text).kind == "unclear"


@given(LEVELS, st.sampled_from(["{}", "{}+", ">{}", "{} NR"]), st.sampled_from(["{}", "{}*", "{}m", "[{}]", "({})"]))
def test_every_level_keeps_its_number_whatever_signs_stand_by_it(level: int, heard: str, masked: str) -> None:
    said = said_by(masked.format(heard.format(level)))
    assert (said.level_db_hl, said.response) == (level, heard == "{}")
    assert bool(said.sign) == (masked != "{}")


@given(LEVELS, LEVELS)
def test_two_readings_agree_only_on_the_same_number(one: int, other: int) -> None:
    assert same_text(f">{one}*", f"?{other}?") == (one == other)


def test_an_unknown_sign_of_the_second_reading_stands_for_no_digit() -> None:
    assert not same_text("15", "?5")
    assert not same_text("15", "")
