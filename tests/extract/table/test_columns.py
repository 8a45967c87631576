"""Columns of ears beside a column of frequencies, as other hands arrange them."""

from __future__ import annotations

from pathlib import Path

import matplotlib
import numpy as np
from PIL import Image, ImageDraw, ImageFont
from printed_rows import HZ, LEFT, RIGHT, said, sure, values

from octavo.tools.reading import read

FACE = Path(matplotlib.get_data_path()) / "fonts/ttf/DejaVuSans-Bold.ttf"


def test_numbers_at_one_side_of_wide_columns_belong_to_the_heads_over_them() -> None:
    heads = ["Hz", ("R air", 0.0, 0.0), ("R air masked", 0.55, 0.0), ("L air", 0.9, 0.0)]
    rows = [[hz, r, (r, 0.9, 0.0), (left, 1.0, 0.0)] for hz, r, left in zip(HZ, RIGHT, LEFT, strict=True)]
    masked = {(ear, way, True, *rest) for ear, way, _, *rest in said("right", "air", RIGHT)}
    assert sure([heads, *rows]) == said("right", "air", RIGHT) | masked | said("left", "air", LEFT)


def test_of_two_tables_side_by_side_each_has_the_ear_over_its_frequencies() -> None:
    # German, English, Spanish and French have the ears' names over the column of frequencies as well (our choice)
    top = ["Droite", "", "", "", "", ("Gauche", -0.4, 0.0)]
    heads = ["Hz", "CA", "CO", "", "", "Hz", "CA", "CO"]
    rows = [[hz, r, left, "", "", hz, left, r] for hz, r, left in zip(HZ, RIGHT, LEFT, strict=True)]
    assert sure([top, heads, *rows]) == (
        said("right", "air", RIGHT) | said("right", "bone", LEFT) | said("left", "air", LEFT)
        | said("left", "bone", RIGHT)
    )  # fmt: skip


def test_not_tested_close_behind_a_number_is_the_next_cells() -> None:
    heads = ["Hz", "R air", "L air"]
    rows: list[list[str | tuple[str, float, float]]] = [[*row] for row in zip(HZ, RIGHT, LEFT, strict=True)]
    rows[1] = ["1000", "20", ("not tested", -0.42, 0.0)]
    found = values([heads, *rows])
    assert {(t.frequency_hz, t.level_db_hl) for t in found if t.ear == "right"} == {
        (float(hz), float(r)) for hz, r in zip(HZ, RIGHT, strict=True)
    }


def test_light_letters_on_a_dark_head_of_a_scan_name_its_columns(tmp_path: Path) -> None:
    picture = Image.new("L", (1240, 900), 245)
    draw, face = ImageDraw.Draw(picture), ImageFont.truetype(str(FACE), 26)
    draw.text((100, 100), "Thresholds in dB HL", 20, font=face)
    draw.rectangle((90, 180, 900, 236), fill=60)
    for column, (head, cells) in enumerate(zip(("Hz", "Right air", "Left air"), (HZ, RIGHT, LEFT), strict=True)):
        draw.text((110 + 260 * column, 192), head, 250, font=face)
        for row, text in enumerate(cells):
            draw.text((110 + 260 * column, 256 + 56 * row), text, 20, font=face)
    noise = np.random.default_rng(1).normal(0, 4, (900, 1240))
    file = tmp_path / "page.png"
    Image.fromarray(np.clip(np.asarray(picture) + noise, 0, 255).astype(np.uint8)).save(file, dpi=(150, 150))
    (record,) = read(file)
    found = {(t.ear, t.conduction, t.masked, t.frequency_hz, t.level_db_hl)
             for a in record.audiograms for t in a.thresholds}  # fmt: skip
    assert found == said("right", "air", RIGHT) | said("left", "air", LEFT)


def test_heads_wrapped_over_lines_at_heights_of_their_own_name_their_columns() -> None:
    # lines of a head are 20 px apart, rows 50: the head of one line stands between the two lines of the others
    top = ["", ("R air", 0.0, 0.0), "", ("L air", 0.0, 0.0)]
    middle = [("Hz", 0.0, -0.8), "", ("R bone", 0.0, -0.8), ""]
    under = ["", ("masked", 0.0, -1.6), "", ("masked", 0.0, -1.6)]
    rows = [[hz, r, left, r] for hz, r, left in zip(HZ, RIGHT, LEFT, strict=True)]
    found = {(t.ear, t.conduction, t.masked, t.frequency_hz, t.level_db_hl, t.standing)
             for t in values([top, middle, under, *[[(c, 0.0, -2.0) for c in row] for row in rows]])}  # fmt: skip
    air = said("right", "air", RIGHT) | said("left", "air", RIGHT)
    masked = {(ear, way, True, *rest) for ear, way, _, *rest in air}
    assert found == {(*one, "sure") for one in masked | said("right", "bone", LEFT)}


def test_noise_spoken_of_above_the_title_makes_no_other_test_of_the_table() -> None:
    head = [[("Noise exposure: 8 years in a sawmill", 2.0, 0.0)], [("Thresholds in dB HL", 2.0, 0.0)]]
    rows = [["", *HZ], ["Right AC", *RIGHT], ["Left AC", *LEFT]]
    assert sure([*head, *rows]) == said("right", "air", RIGHT) | said("left", "air", LEFT)


def test_reflexes_above_thresholds_in_db_hl_still_are_reflexes() -> None:
    head = [[("Acoustic reflexes", 2.0, 0.0)], [("Thresholds in dB HL", 2.0, 0.0)]]
    assert not values([*head, ["", *HZ], ["Right", *RIGHT], ["Left", *LEFT]])
