"""The symbol sets against the published conventions."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from octavo.interpret.symbols import GLYPHS, SYMBOL_SETS, Glyph, Ink, Meaning, ear_of

TABLE = Path(__file__).parents[1] / "published" / "audiometric_symbols.csv"

# The table describes shapes in words; which glyph each description is was settled by reading it.
GLYPH_OF: dict[tuple[str, str], tuple[Glyph, ...]] = {
    ("asha-1990", "ac_r"): ("circle",),
    ("asha-1990", "ac_l"): ("cross",),
    ("asha-1990", "ac_r_m"): ("triangle",),
    ("asha-1990", "ac_l_m"): ("square",),
    ("asha-1990", "bc_r"): ("angle-left",),
    ("asha-1990", "bc_l"): ("angle-right",),
    ("asha-1990", "bc_r_m"): ("bracket-left",),
    ("asha-1990", "bc_l_m"): ("bracket-right",),
    ("asha-1990", "bc_u"): ("caret",),
    ("asha-1990", "bcf_u"): ("vee",),
    ("asha-1990", "bcf_r_m"): ("half-bracket-right",),
    ("asha-1990", "bcf_l_m"): ("half-bracket-left",),
    ("asha-1990", "sf"): ("letter-s",),
    ("asha-1990", "sf_aided"): ("letter-a",),
    ("asha-1990", "mcl"): ("letter-m",),
    ("asha-1990", "ucl"): ("letter-u",),
    ("bsa-2018", "ac_r"): ("circle",),
    ("bsa-2018", "ac_l"): ("cross",),
    ("bsa-2018", "ac_r_m"): ("circle-filled",),
    ("bsa-2018", "ac_l_m"): ("cross-filled",),
    ("bsa-2018", "bc_nm"): ("triangle",),
    ("bsa-2018", "bc_r_m"): ("bracket-left",),
    ("bsa-2018", "bc_l_m"): ("bracket-right",),
    ("bsa-2018", "ull_r"): ("foot-right",),
    ("bsa-2018", "ull_l"): ("foot-left",),
    ("leaflet-de", "ac_r"): ("circle",),
    ("leaflet-de", "ac_l"): ("cross",),
    ("leaflet-de", "bc_r"): ("angle-right",),
    ("leaflet-de", "bc_l"): ("angle-left",),
    ("triangle-bone", "bc"): ("triangle",),
    ("triangle-bone", "ac"): ("circle", "cross"),
    ("triangle-bone", "ull"): ("letter-m",),
    ("jis-t-1201", "ac_r"): ("circle",),
    ("jis-t-1201", "ac_l"): ("cross",),
    ("jis-t-1201", "bc_r"): ("bracket-left",),
    ("jis-t-1201", "bc_l"): ("bracket-right",),
}
SET_OF = {
    "ASHA 1990 (adopted 1989)": "asha-1990",
    "BSA 2011/2018": "bsa-2018",
    "German-language leaflet (school/parents guide)": "leaflet-de",
    "European research project page (German)": "triangle-bone",
    "Japan (JIS T 1201 marks as taught)": "jis-t-1201",
}


def published() -> list[tuple[str, dict[str, str]]]:
    with TABLE.open(encoding="utf-8", newline="") as table:
        rows = [(SET_OF[row["convention"]], row) for row in csv.DictReader(table)]
    # An arrow is not a glyph of its own: it hangs from any of them.
    return [(symbols, row) for symbols, row in rows if not row["stimulus"].startswith("no response")]


ROWS = published()


def in_words(meaning: Meaning) -> tuple[str, str, bool]:
    if meaning.measure != "threshold":
        return meaning.ear, {"mcl": "most comfortable", "ucl": "uncomfortable"}[meaning.measure], False
    stimulus = {"air": "air", "bone": "bone", "field": "sound field, aided" if meaning.aided else "sound field"}
    return meaning.ear, stimulus[meaning.conduction], meaning.masked


@pytest.mark.parametrize(("symbols", "row"), [pytest.param(s, row, id=f"{s} {row['id']}") for s, row in ROWS])
def test_a_published_mark_means_what_the_convention_says(symbols: str, row: dict[str, str]) -> None:
    for glyph in GLYPH_OF[symbols, row["id"]]:
        ear, stimulus, masked = in_words(SYMBOL_SETS[symbols].meanings[glyph])
        assert row["stimulus"].startswith(stimulus)
        assert masked is (row["masked"] == "yes")
        if row["ear"] in ("right", "left", "unspecified"):
            assert ear == row["ear"]
        elif row["ear"].startswith("both"):
            assert ear == "both"
        else:  # "each" and "either": only the colour can name the ear, unless the two glyphs of the row do
            assert ear == "by-colour" or len(GLYPH_OF[symbols, row["id"]]) == 2


def test_every_published_mark_has_its_glyph() -> None:
    assert {(symbols, row["id"]) for symbols, row in ROWS} == set(GLYPH_OF)


@pytest.mark.parametrize("symbols", SYMBOL_SETS)
def test_a_set_has_no_mark_that_is_not_published(symbols: str) -> None:
    found = SYMBOL_SETS[symbols]
    assert set(found.meanings) == {glyph for (of, _), glyphs in GLYPH_OF.items() if of == symbols for glyph in glyphs}
    assert found.beside_line <= set(GLYPHS)


def test_brackets_and_angles_stand_beside_the_line_under_asha() -> None:
    beside = {
        glyph
        for symbols, row in ROWS
        if symbols == "asha-1990" and row["anchor"].split()[0] in ("left", "right")
        for glyph in GLYPH_OF[symbols, row["id"]]
    }
    assert beside == SYMBOL_SETS["asha-1990"].beside_line


@pytest.mark.parametrize(("ink", "ear"), [("red", "right"), ("blue", "left"), ("neutral", "unspecified")])
def test_only_the_colour_names_the_ear_of_a_british_triangle(ink: Ink, ear: str) -> None:
    assert ear_of(SYMBOL_SETS["bsa-2018"].meanings["triangle"], ink) == ear


def test_a_shape_that_names_its_ear_keeps_it_whatever_the_colour() -> None:
    assert ear_of(SYMBOL_SETS["asha-1990"].meanings["circle"], "blue") == "right"
