"""Lists of thresholds, one a line, as programs export them: each with its ear, frequency and level."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import pytest
from by_hand import SIZE, sheet, word

from octavo.extract.table import Tables, read_tables

HZ = ("250", "500", "1000", "2000", "4000")
LEVELS = {("Right", "Air"): ("10", "15", "20", "30", "45"), ("Left", "Air"): ("5", "10", "20", "35", "60"),
          ("Right", "Bone"): ("5", "10", "20", "30", "40")}  # fmt: skip
EDGES = (120.0, 260.0, 400.0, 560.0)
HEADS = ("Ear", "Frequency", "Conduction", "Level")


def read(lines: Sequence[Sequence[str]], heads: Sequence[str] = HEADS) -> Tables:
    words = []
    for number, cells in enumerate((heads, *lines)):
        for x, cell in zip(EDGES, cells, strict=True):
            at = x
            for part in cell.split():
                words.append(word(part, at + 3.92 * len(part), 200 + 30 * number))
                at += 7.84 * (len(part) + 1)
    page = sheet("drawn", words=tuple(words), pixels=np.full((SIZE[1], SIZE[0], 3), 255, np.uint8))
    return read_tables(page, page.words, "given")


def lines() -> list[list[str]]:
    return [
        [ear, f"{hz} Hz", way, level]
        for (ear, way), levels in LEVELS.items()
        for hz, level in zip(HZ, levels, strict=True)
    ]


def sure(found: Tables) -> set[tuple[str, str, str, str]]:
    return {
        (t.ear.title(), f"{t.frequency_hz:g}", t.conduction.title(), f"{t.level_db_hl:g}")
        for table in found.tables
        for t in table.thresholds
        if t.standing == "sure"
    }


EXPECTED = {
    (ear, hz, way, level) for (ear, way), levels in LEVELS.items() for hz, level in zip(HZ, levels, strict=True)
}


@pytest.mark.parametrize("by", [0, 1], ids=["by ear", "by frequency"])
def test_one_threshold_a_line_is_read(by: int) -> None:
    found = read(sorted(lines(), key=lambda one: int(one[1].split()[0]) if by else 0))
    assert sure(found) == EXPECTED
    assert found.remarks == ()


def test_a_line_of_a_list_that_is_not_understood_is_told() -> None:
    found = read([*lines()[:6], ["Wibble", "500 Hz", "Air", "10"], *lines()[7:]])
    assert sure(found) == EXPECTED - {("Left", "500", "Air", "10")}
    assert "table-row-unread" in {r.code for r in found.remarks}


@pytest.mark.parametrize("head", ["dB SPL", "Shift", "Masking level", "Expected"])
def test_a_list_of_other_numbers_holds_no_sure_threshold(head: str) -> None:
    assert not sure(read(lines(), (*HEADS[:3], head)))


def test_a_frequency_that_a_list_has_twice_for_one_ear_asks() -> None:
    found = read([*lines(), ["Right", "500 Hz", "Air", "25"]])
    assert ("Right", "500", "Air", "15") not in sure(found)
    assert ("Right", "500", "Air", "25") not in sure(found)
