"""Tympanograms and reflexes, in tables and lines, in four languages; the truth is what the text says, by hand."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from printed_by_hand import read

from octavo.interpret.record import Tympanogram

LABELS = {
    "en": ("Tympanometry", "Right", "Left", "Type", "Peak pressure (daPa)", "Static admittance (mmho)",
           "Ear canal volume (mL)"),
    "de": ("Tympanometrie", "rechts", "links", "Typ", "Mittelohrdruck (daPa)", "Compliance (ml)",
           "Gehörgangsvolumen (ml)"),
    "es": ("Timpanometría", "OD", "OI", "Tipo", "Presión (daPa)", "Admitancia (mmho)", "Volumen del conducto (ml)"),
    "fr": ("Tympanométrie", "droite", "gauche", "Type", "Pression du pic (daPa)", "Admittance (mmho)",
           "Volume du conduit (cm³)"),
}  # fmt: skip


@pytest.mark.parametrize("comma", [False, True])
@pytest.mark.parametrize("language", LABELS)
def test_a_table_is_read_in_every_language(language: str, comma: bool) -> None:
    title, right, left, *labels = LABELS[language]
    cells = [("A", "As"), ("-15", "\N{MINUS SIGN}20"), ("0.8", "0.2"), ("1.1", "1.2")]
    rows = [f"{label:32}{one:12}{other}" for label, (one, other) in zip(labels, cells, strict=True)]
    page = "\n".join([title, f"{'':32}{right:12}{left}", *rows])
    found = read(page.replace(".", ",") if comma else page).immittance
    assert [(one.ear, one.tympanogram, one.standing) for one in found] == [
        ("right", Tympanogram(True, -15, 0.8, 1.1, printed_type="A"), "sure"),
        ("left", Tympanogram(True, -20, 0.2, 1.2, printed_type="As"), "sure"),
    ]


def test_as_and_ad_are_types_in_a_type_s_place_and_ears_elsewhere() -> None:
    page = "Ear     Type    Pressure (daPa)\nAD      AS      -15\nAS      AD      -20"
    found = {one.ear: one.tympanogram for one in read(page).immittance}
    assert found["right"] == Tympanogram(True, -15, printed_type="AS")
    assert found["left"] == Tympanogram(True, -20, printed_type="AD")


def test_a_flat_trace_has_no_peak() -> None:
    (one,) = read("Tympanometry\nRight: Type B, no peak, ear canal volume 1.0 mL").immittance
    assert one.tympanogram == Tympanogram(False, None, None, 1.0, printed_type="B")


@pytest.mark.parametrize(
    ("line", "code"),
    [
        ("Right: peak pressure -15", "unit-missing"),
        ("Right: peak pressure -15 mmH2O", "unit-differs"),
        ("Right: peak pressure -1500 daPa", "implausible"),
        ("Right: ear canal volume 11 mL", "implausible"),
        ("Right: peak pressure -15 daPa, peak pressure -25 daPa", "two-readings"),
    ],
)
def test_what_is_out_of_range_or_open_asks(line: str, code: str) -> None:
    (one,) = read(line).immittance
    assert one.standing == "ask"
    assert code in one.why_ask


def test_numbers_of_no_ear_are_left_out() -> None:
    assert read("Tympanometry\nPeak pressure -15 daPa").immittance == ()


@given(st.integers(-120, 80).map(lambda n: 5 * n))
@settings(max_examples=60, deadline=None)
def test_a_pressure_keeps_its_sign(pressure: int) -> None:
    (one,) = read(f"Left: peak pressure {pressure} daPa").immittance
    assert one.tympanogram is not None
    assert one.tympanogram.peak_pressure_dapa == pressure


REFLEXES = """
Acoustic reflexes
dB HL                      500 Hz    1000 Hz   2000 Hz
Probe right, ipsi          85        90        NR
Probe right, contra        >105      95        DNT
Probe left, ipsi           80        85        -
"""


def test_a_table_by_probe_ear_says_which_ear_heard_the_sound() -> None:
    found = {
        (one.ear, r.stimulus_ear, r.frequency_hz): (r.level_db_hl, r.response, r.standing)
        for one in read(REFLEXES).immittance
        for r in one.reflexes
    }
    assert found == {
        ("right", "right", 500): (85, True, "sure"), ("right", "right", 1000): (90, True, "sure"),
        ("right", "right", 2000): (None, False, "sure"), ("right", "left", 500): (105, False, "sure"),
        ("right", "left", 1000): (95, True, "sure"), ("left", "left", 500): (80, True, "sure"),
        ("left", "left", 1000): (85, True, "sure"), ("left", "left", 2000): (None, False, "ask"),
    }  # fmt: skip


def test_a_crossed_reflex_named_by_one_ear_alone_asks() -> None:
    (one,) = read(
        "Acoustic reflexes (dB HL)\n          500    1000    2000\nRight contra   85     90      95"
    ).immittance
    assert {(r.standing, "stimulus-ear-unnamed" in r.why_ask) for r in one.reflexes} == {("ask", True)}


def test_ears_of_sound_and_probe_in_columns_of_their_own_are_told_apart() -> None:
    page = """
Acoustic reflexes (dB HL)
Stimulus ear   Probe ear        500    1000    2000
Right          Left     contra  85     90      95
"""
    (one,) = read(page).immittance
    assert one.ear == "left"
    assert {(r.stimulus_ear, r.standing) for r in one.reflexes} == {("right", "sure")}


@pytest.mark.parametrize(("hz", "standing"), [(500, "sure"), (226, "ask")])
def test_the_probes_own_tone_is_not_taken_for_that_of_a_reflex(hz: int, standing: str) -> None:
    page = f"""
Acoustic reflexes (dB HL)
              {hz} Hz    1000 Hz    2000 Hz
Right ipsi    85        90         95
"""
    (one,) = read(page).immittance
    assert {r.frequency_hz: r.standing for r in one.reflexes} == {hz: standing, 1000: "sure", 2000: "sure"}


def test_masking_noise_in_the_other_ear_is_no_reflex() -> None:
    assert read("Speech\n                        Right    Left\nContralateral masking   45       50").immittance == ()


def test_a_table_of_thresholds_is_no_reflex_and_no_other_test() -> None:
    assert not read("Pure tone thresholds\n         500    1000    2000   4000\nRight    20     25      30     35")


def test_a_type_printed_close_to_its_label_and_decimals_read_in_two_are_read() -> None:
    page = "Tympanometry\nRight: TypeC, Pressure -175 daPa, Admittance 0. 4 mmho"
    (one,) = read(page).immittance
    assert one.tympanogram == Tympanogram(True, -175, 0.4, printed_type="C")


def test_a_raised_3_that_was_read_as_a_sign_still_makes_a_unit() -> None:
    (one,) = read("Tympanometry\nRight: Volume 1.57 cm~, Pressure -10 daPa, Admittance 0.71 cm?").immittance
    assert (one.tympanogram, one.standing) == (Tympanogram(True, -10, 0.71, 1.57), "sure")


def test_the_one_reflex_between_steps_of_5_db_asks() -> None:
    page = "Reflexes  500 Hz  1000 Hz  2000 Hz  4000 Hz\nRight ipsi  85 dB   90 dB    106 dB   95 dB"
    (one,) = read(page).immittance
    assert [reflex.standing for reflex in one.reflexes] == ["sure", "sure", "ask", "sure"]
    page = page.replace("85", "84").replace("90", "92")
    assert {reflex.standing for reflex in read(page).immittance[0].reflexes} == {"sure"}


def test_a_frequency_of_the_averages_above_is_none_of_a_reflex_whose_head_was_lost() -> None:
    page = "PTA (1000/2000/4000 Hz): R: 27 dB HL\n\nAcoustic reflexes\nRight ipsi   95   105"
    assert not read(page).immittance


def test_a_peak_in_dapa_is_a_pressure_and_one_in_ml_an_admittance() -> None:
    found = read(
        "\n".join(
            ("Tympanometry      Right     Left", "Peak daPa         -5        -180", "Peak ml           0.7       0.4")
        )
    )
    traces = [one.tympanogram for one in found.immittance]
    assert [(t.peak_pressure_dapa, t.peak_admittance_mmho) for t in traces if t] == [(-5, 0.7), (-180, 0.4)]
    assert all(one.standing == "sure" for one in found.immittance)


def test_numbers_in_dapa_of_an_unknown_name_let_the_tympanogram_ask() -> None:
    rows = (
        "Tympanometry      Right     Left",
        "Type              A         C",
        "Frob (daPa)       -5        -180",
        "ECV (ml)          1.2       1.3",
    )
    page = "\n".join(rows)
    assert [one.standing for one in read(page).immittance] == ["ask", "ask"]


def test_a_unit_on_the_second_line_of_a_head_is_the_head_s() -> None:
    rows = (
        "         Ear canal volume    Peak pressure",
        "         (ml)                (daPa)",
        "Right    1.20                -5",
        "Left     1.30                -15",
    )
    page = "\n".join(rows)
    found = read(page)
    assert [(one.ear, one.standing, one.why_ask) for one in found.immittance] == [
        ("right", "sure", ()), ("left", "sure", ())
    ]  # fmt: skip


@pytest.mark.parametrize("name", ["Frob (daPa)", "Gipfel (daPa)"])
def test_a_first_row_in_dapa_is_read_or_asks(name: str) -> None:
    page = f"{'Tympanometrie':20}R         L\n{name:20}-10       -150\n{'Volume (ml)':20}1.2       1.1"
    read_so = [(one.tympanogram.peak_pressure_dapa, one.standing) for one in read(page).immittance if one.tympanogram]
    assert read_so in ([(None, "ask"), (None, "ask")], [(-10, "sure"), (-150, "sure")])
    assert (read_so[0][1] == "sure") is name.startswith("Gipfel")


def test_a_column_in_dapa_of_an_unknown_name_lets_the_ear_ask() -> None:
    rows = (
        "Ear      Type   Frob (daPa)   Volume (ml)",
        "Right    A      -10           1.2",
        "Left     C      -150          1.1",
    )
    assert [one.standing for one in read("\n".join(rows)).immittance] == ["ask", "ask"]


@pytest.mark.parametrize("heads", ["0.5       1         2", "0,5       1         2"])
def test_reflexes_below_frequencies_in_khz_without_a_unit_are_read(heads: str) -> None:
    page = f"Acoustic reflexes (dB HL)\n              {heads}\nRight ipsi    85        90        95"
    (found,) = read(page).immittance
    assert [(one.frequency_hz, one.level_db_hl) for one in found.reflexes] == [(500, 85), (1000, 90), (2000, 95)]


def test_a_line_of_volumes_heads_no_reflexes() -> None:
    page = "Acoustic reflexes (dB HL)\nVolume (ml)   0.5       1.0       2.0\nRight ipsi    85        90        95"
    assert not [one for ear in read(page).immittance for one in ear.reflexes if one.standing == "sure"]
