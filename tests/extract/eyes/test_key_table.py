"""A printed key that is a table: ears over its columns or before its rows, drawn here by hand."""

from __future__ import annotations

from collections.abc import Sequence

import cv2
import numpy as np
import pytest
from by_hand import frequency_words, level_words, mark, sheet, word

from octavo.extract.eyes.axes.areas import chart_areas
from octavo.extract.eyes.key import key_lines
from octavo.extract.meaning.symbols.key import sets_of_key
from octavo.extract.sightings import KeyLine
from octavo.interpret.symbols import Glyph

AXES = (*frequency_words(), *level_words())
Placed = tuple[str, float, float]
SHAPES: dict[str, list[list[tuple[float, float]]]] = {
    "cross": [[(-9, -9), (9, 9)], [(9, -9), (-9, 9)]],
    "angle-left": [[(5, -9), (-5, 0), (5, 9)]],
    "angle-right": [[(-5, -9), (5, 0), (-5, 9)]],
    "bracket-left": [[(3, -10), (-4, -10), (-4, 10), (3, 10)]],
    "bracket-right": [[(-3, -10), (4, -10), (4, 10), (-3, 10)]],
}
"""Lines of the specimens, in pixels from their middles."""
RIGHT: tuple[Glyph, ...] = ("circle", "angle-left", "bracket-left")
LEFT: tuple[Glyph, ...] = ("cross", "angle-right", "bracket-right")
KINDS = (("air",), ("bone",), ("bone", "masked"))


def picture_of(specimens: Sequence[Placed]) -> np.ndarray:
    picture = np.full((1500, 1000, 3), 255, np.uint8)
    for glyph, x, y in specimens:
        if glyph == "circle":
            cv2.circle(picture, (round(x), round(y)), 9, (30, 30, 30), 2, cv2.LINE_AA)
        for line in SHAPES.get(glyph, []):
            points = np.rint(np.array(line) + np.array((x, y))).astype(np.int32)
            cv2.polylines(picture, [points], False, (30, 30, 30), 2, cv2.LINE_AA)
    return picture


def read(specimens: Sequence[Placed], texts: Sequence[Placed]) -> dict[str, str]:
    words = tuple(word(text, x, y, height=16) for text, x, y in texts)
    unclear = (mark("bracket-left", 1000, 30).sight,)
    lines = key_lines(sheet(pixels=picture_of(specimens), words=words), chart_areas(AXES, (1000, 1200)), unclear)
    assert sets_of_key(lines) in ((), ("asha-1990",))
    return {line.glyph: line.text for line in lines}


def rows_of_words(x: float, first: float) -> list[Placed]:
    return [(text, x + 60 * i, first + 40 * row) for row, kind in enumerate(KINDS) for i, text in enumerate(kind)]


@pytest.mark.parametrize("columns", [(420, 520), (60, 330)], ids=["behind the words", "on both sides of them"])
def test_a_key_with_the_ears_over_its_columns_is_read(columns: tuple[int, int]) -> None:
    # brackets alone, all masked: without the key they stood as bone without masking, and asked
    specimens = [
        (g, x, 1140.0 + 40 * i) for x, ear in zip(columns, (RIGHT, LEFT), strict=True) for i, g in enumerate(ear)
    ]
    texts = [("right", columns[0], 1100), ("left", columns[1], 1100), *rows_of_words(160, 1140)]
    told = read(specimens, texts)
    assert told == dict(zip(RIGHT, ("right air", "right bone", "right bone masked"), strict=True)) | dict(
        zip(LEFT, ("left air", "left bone", "left bone masked"), strict=True)
    )


def test_a_key_with_the_ears_before_its_rows_is_read() -> None:
    across = (220.0, 340.0, 460.0)
    specimens = [(g, x, y) for y, ear in ((1180, RIGHT), (1220, LEFT)) for g, x in zip(ear, across, strict=True)]
    heads = [("air", 220, 1120), ("bone", 340, 1120), ("bone", 460, 1110), ("masked", 460, 1132)]
    told = read(specimens, [("right", 110, 1180), ("left", 110, 1220), *heads])
    assert told["circle"] == "right air"
    assert told["angle-right"] == "left bone"
    assert told["bracket-left"] == "right bone masked"


def test_masked_under_bone_and_over_a_column_is_masked_bone() -> None:
    specimens = [("circle", 420, 1140), ("cross", 520, 1140), ("bracket-left", 420, 1220), ("bracket-right", 520, 1220)]
    texts = [("right", 420, 1100), ("left", 520, 1100), ("air", 160, 1140), ("bone", 160, 1180), ("masked", 175, 1220)]
    assert read(specimens, texts)["bracket-left"] == "right bone masked"
    columns = {"right unmasked": 320, "right masked": 430, "left unmasked": 540, "left masked": 650}
    heads = [(column.split()[1], x, 1110) for column, x in columns.items()]
    texts = [("right", 375, 1080), ("left", 595, 1080), *heads, ("air", 160, 1140), ("bone", 160, 1180)]
    specimens = [("circle", 320, 1140), ("cross", 540, 1140), ("angle-left", 320, 1180), ("bracket-left", 430, 1180),
                 ("angle-right", 540, 1180), ("bracket-right", 650, 1180)]  # fmt: skip
    told = read(specimens, texts)
    assert told["bracket-right"] == "left bone masked"
    assert told["angle-left"] == "right bone unmasked"


def test_the_titles_of_two_charts_are_no_heads_of_a_key() -> None:
    specimens = [(g, x, 700.0) for x, g in ((110, "circle"), (310, "cross"), (510, "angle-left"))]
    texts = [("right", 250, 400), ("left", 750, 400), ("air", 150, 700), ("air", 350, 700), ("bone", 550, 700)]
    assert all("right" not in text and "left" not in text for text in read(specimens, texts).values())


def test_a_german_key_in_short_says_of_air_what_it_says_and_nothing_of_loudness() -> None:
    # common practice: Luftleitung LL, Knochenleitung KL; LL was taken for a slip of ULL, and all triangles asked
    specimens = [("circle", 420, 1140), ("cross", 520, 1140), ("bracket-left", 420, 1220), ("bracket-right", 520, 1220)]
    heads = [("Rechts", 420, 1100), ("Links", 520, 1100), ("Luftleitung", 160, 1140)]
    rows = [("LL", 160, 1180), ("vertäubt", 220, 1180), ("KL", 160, 1220), ("vertäubt", 220, 1220)]
    told = read(specimens, [*heads, *rows])
    assert told["bracket-left"] == "right kl vertäubt"
    assert told["circle"] == "right luftleitung"
    said: list[tuple[Glyph, str]] = [("triangle", "right ll"), ("square", "left ll"), ("bracket-left", "right kl")]
    lines = tuple(KeyLine(glyph, "neutral", f"{text} vertäubt", 0.9) for glyph, text in said)
    assert sets_of_key(lines) == ("asha-1990",)


def test_no_longer_word_is_taken_for_the_short_name_of_a_conduction() -> None:
    texts = [("Vol", 160, 1140), ("Com", 160, 1180), ("All", 220, 1180)]
    assert not read([("bracket-left", 420, 1140), ("bracket-right", 420, 1180)], texts)


def test_a_remark_over_a_key_is_none_of_its_rows() -> None:
    # "masked" in handwriting above the ears: the key was not read, and its specimens were values below the plot
    specimens = [(g, x, 1140.0 + 40 * i) for x, ear in ((420, RIGHT), (520, LEFT)) for i, g in enumerate(ear)]
    texts = [("masked", 300, 1075), ("right", 420, 1100), ("left", 520, 1100), *rows_of_words(160, 1140)]
    assert read(specimens, texts)["bracket-right"] == "left bone masked"
