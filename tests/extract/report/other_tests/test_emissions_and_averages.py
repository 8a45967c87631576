"""Emissions and printed averages; the truth is what the text says, by hand."""

from __future__ import annotations

import pytest
from printed_by_hand import read

from octavo.interpret.record import EmissionBand

TITLES = {
    "en": ("DPOAE - Right ear", "f2 (Hz)", "DP (dB SPL)", "NF (dB SPL)", "SNR (dB)", "Result", "Pass", "Refer"),
    "de": ("DPOAE - rechts", "Frequenz (Hz)", "Pegel (dB SPL)", "Rauschen (dB SPL)", "SNR (dB)", "Ergebnis",
           "bestanden", "auffällig"),
    "es": ("Productos de distorsión - derecho", "Frecuencia (Hz)", "Nivel (dB SPL)", "Ruido (dB SPL)", "SNR (dB)",
           "Resultado", "pasa", "no pasa"),
    "fr": ("Produits de distorsion - oreille droite", "Fréquence (Hz)", "Niveau (dB SPL)", "Bruit (dB SPL)", "SNR (dB)",
           "Résultat", "réussi", "à revoir"),
}  # fmt: skip


def table(language: str, *, ratio: str = "17.3") -> str:
    title, *heads, good, bad = TITLES[language]
    rows = [heads, ["1000", "5.2", "-12.1", ratio, good], ["2000", "-3.0", "-6.0", "3.0", bad]]
    return "\n".join([title, *("".join(f"{cell:22}" for cell in row) for row in rows)])


@pytest.mark.parametrize("language", TITLES)
def test_bands_are_read_in_every_language(language: str) -> None:
    (one,) = read(table(language)).otoacoustic
    assert (one.ear, one.method, one.standing) == ("right", "dpoae", "sure")
    assert one.bands == (EmissionBand(1000, 5.2, -12.1, 17.3, "pass"), EmissionBand(2000, -3, -6, 3, "refer"))


def test_a_ratio_that_level_and_noise_do_not_give_asks() -> None:
    (one,) = read(table("en", ratio="11.3")).otoacoustic
    assert "numbers-differ" in one.why_ask


def test_a_column_of_unknown_numbers_lets_the_measurement_ask() -> None:
    (one,) = read(table("en").replace("SNR (dB)", "Frob (x)")).otoacoustic
    assert one.standing == "ask"


def test_results_in_a_line_are_read_for_each_ear() -> None:
    found = read("TEOAE  R: pass   L: refer").otoacoustic
    assert [(one.ear, one.method, one.result) for one in found] == [
        ("right", "teoae", "pass"),
        ("left", "teoae", "refer"),
    ]


def test_emissions_of_no_named_method_or_ear_are_left_out() -> None:
    assert read("Otoacoustic emissions  R: pass   L: refer").otoacoustic == ()
    assert read("DPOAE\n1000 Hz   SNR 12 dB").otoacoustic == ()


@pytest.mark.parametrize(
    ("line", "hz"),
    [
        ("PTA (0.5, 1, 2 kHz)   R: 25 dB HL", (500, 1000, 2000)),
        ("PTA (500/1000/2000/4000 Hz)   R: 25 dB HL", (500, 1000, 2000, 4000)),
        ("PTA 0.5-1-2-4 kHz right 25 dB HL", (500, 1000, 2000, 4000)),
        ("Tonmittelwert (0,5/1/2 kHz): rechts 25 dB HL", (500, 1000, 2000)),
        ("Promedio tonal (1000, 2000, 4000 Hz): OD 25 dB HL", (1000, 2000, 4000)),
        ("Perte moyenne (500, 1000, 2000, 3000 Hz): droite 25 dB HL", (500, 1000, 2000, 3000)),
    ],
)
def test_an_average_has_the_frequencies_that_it_names(line: str, hz: tuple[float, ...]) -> None:
    (one,) = read(line).printed_averages
    assert (one.ear, one.frequencies_hz, one.level_db_hl, one.standing) == ("right", hz, 25, "sure")


@pytest.mark.parametrize("line", ["PTA right: 25 dB HL", "3FA R 25 dB", "4FA right 25 dB HL"])
def test_an_average_that_names_none_asks(line: str) -> None:
    (one,) = read(line).printed_averages
    assert "frequencies-unnamed" in one.why_ask


def test_two_averages_of_one_ear_and_kind_ask() -> None:
    found = read("PTA (0.5, 1, 2 kHz)   R: 25 dB HL   R: 30 dB HL").printed_averages
    assert [one.standing for one in found] == ["ask", "ask"]


def test_words_that_were_read_badly_ask() -> None:
    (one,) = read("PTA (0.5, 1, 2 kHz)   R: 25 dB HL", confidence=0.4).printed_averages
    assert "low-certainty" in one.why_ask


def test_frequencies_of_which_one_was_not_understood_are_not_taken_for_all() -> None:
    (one,) = read("PTA (500, 1000, 2OOO Hz) R: 40 dB HL").printed_averages
    assert "frequencies-unnamed" in one.why_ask


def test_an_ear_named_a_little_behind_a_title_is_the_ear_of_all_below() -> None:
    page = (
        "Transient evoked otoacoustic emissions   R\n"
        "Hz        Emission (dB SPL)   Noise (dB SPL)   S/N (dB)\n2000      3                   -7               10"
    )
    (one,) = read(page).otoacoustic
    assert (one.ear, one.standing) == ("right", "sure")


def test_the_frequencies_of_an_average_that_lost_a_space_are_four() -> None:
    """ "500,1000" was one number that could not be, and the average was given the usual three frequencies."""
    (one,) = read("Average (500,1000, 2000, 3000 Hz): Right: 24 dB HL").printed_averages
    assert one.frequencies_hz == (500, 1000, 2000, 3000)


LEVELS = """
DPOAE   Right ear   Overall: PASS
f2 (Hz)     L1      L2      DP      NF      SNR     Res
2000        65      55      8.2     -9.1    17.3    P
6000        65      55      -6.3    -8.8    2.5     R
TEOAE   Left ear   Overall: REFER
Band (kHz)  Signal (dB SPL)  Noise (dB SPL)  SNR (dB)   Result
1.0         2.0              1.5             0.5        Refer
"""


def test_levels_of_the_tones_are_no_ears_and_no_emissions() -> None:
    one = read(LEVELS).otoacoustic[0]
    assert (one.ear, one.method, one.result, one.standing) == ("right", "dpoae", "pass", "sure")
    assert one.bands == (EmissionBand(2000, 8.2, -9.1, 17.3, "pass"), EmissionBand(6000, -6.3, -8.8, 2.5, "refer"))


def test_a_title_that_holds_the_result_still_names_the_ear_of_its_bands() -> None:
    (_, one) = read(LEVELS).otoacoustic
    assert (one.ear, one.method, one.result) == ("left", "teoae", "refer")
    assert one.bands == (EmissionBand(1000, 2.0, 1.5, 0.5, "refer"),)


def test_bands_whose_ear_nothing_tells_let_the_result_of_the_method_ask() -> None:
    results = "DPOAE results: right ear PASS, left ear PASS"
    bands = ("DPOAE", "f2 (Hz)   DP (dB)   NF (dB)   SNR (dB)", "2000      8.2       -9.1      17.3")
    found = read("\n".join((results, "", "", "", *bands))).otoacoustic
    assert [(one.ear, one.standing) for one in found] == [("right", "ask"), ("left", "ask")]


def test_a_result_in_a_column_of_its_own_behind_the_bands_is_that_of_the_ear() -> None:
    rows = (
        "TEOAE             1.0 kHz   2.0 kHz   4.0 kHz   Result",
        "Right SNR (dB)    3.1       9.9       8.1       Pass",
    )
    (one,) = read("\n".join(rows)).otoacoustic
    assert (one.ear, one.result, len(one.bands), one.standing) == ("right", "pass", 3, "sure")


def test_bands_of_which_the_label_reaches_the_first_alone_ask() -> None:
    rows = ("TEOAE           1.0 kHz  2.0 kHz  4.0 kHz  Result", "Right SNR (dB)  3.1      9.9      8.1      Pass")
    (one,) = read("\n".join(rows)).otoacoustic
    assert (one.standing, one.why_ask) == ("ask", ("label-uncertain",))


def test_a_speech_level_in_the_lines_below_a_text_on_emissions_is_no_emission() -> None:
    lines = (
        "DPOAEs: absent 2-5 kHz right; present 2-5 kHz left",
        "Word ID (closed set): 88% right @ 70 dB, 100% left @ 55 dB",
    )
    assert not any(one.bands for one in read("\n".join(lines)).otoacoustic)


def test_bands_of_both_ears_in_one_table_keep_their_ears() -> None:
    rows = (
        "DPOAE                    Right                   Left",
        "F2 (Hz)        DP       NF      SNR     DP       NF      SNR",
        "1000           6.1      -3.0    9.1     4.0      -2.5    6.5",
        "2000           8.0      -9.0    17.0    1.2      -8.3    9.5",
    )
    right, left = read("\n".join(rows)).otoacoustic
    assert [band.amplitude_db_spl for band in right.bands] == [6.1, 8.0]
    assert [band.amplitude_db_spl for band in left.bands] == [4.0, 1.2]
    assert (right.standing, left.standing) == ("sure", "sure")


def test_the_result_of_a_band_whose_frequency_was_lost_is_not_that_of_the_ear() -> None:
    rows = table("en").splitlines()
    lost = rows[-1].replace("2000", "    ").replace("Refer", "Pass")
    assert [one.result for one in read("\n".join((*rows[:-1], lost))).otoacoustic] == [None]
