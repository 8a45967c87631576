"""Where a key leaves several symbol sets, the marks choose (tests/published/audiometric_symbols.csv)."""

from __future__ import annotations

from by_hand import row

from octavo.extract.meaning.symbols.convention import convention

AIR = (*row("circle", {500: 20, 1000: 25, 2000: 40}, "red"), *row("cross", {500: 15, 1000: 20, 2000: 30}, "blue"))
TRIANGLES_ON_AIR = row("triangle", {500: 35, 1000: 35, 2000: 40})
MASKED_BONE = row("bracket-left", {500: 10, 1000: 20, 2000: 25})


def test_of_the_sets_that_a_key_leaves_the_marks_name_one() -> None:
    marks = (*AIR, *TRIANGLES_ON_AIR, *MASKED_BONE, *row("foot-right", {500: 100, 1000: 105, 2000: 105}))
    chosen = convention(marks, key=("asha-1990", "bsa-2018"), asked=None)
    assert (chosen.symbol_set.id, chosen.open_glyphs) == ("bsa-2018", frozenset())
    for names in (("bsa-2018", "triangle-bone"), ("triangle-bone", "bsa-2018")):
        chosen = convention((*AIR, *row("letter-m", {500: 100, 1000: 105, 2000: 105})), key=names, asked=None)
        assert (chosen.symbol_set.id, chosen.open_glyphs) == ("triangle-bone", frozenset())
