"""Speech, middle ear, emissions and averages in words: every value once, and those that ask marked."""

from __future__ import annotations

from dataclasses import replace

from octavo.interpret.exports.threshold_table import SIGNS
from octavo.interpret.record import Audiogram, Speech
from octavo.interpret.words.other_tests import other_tests
from octavo.interpret.words.summary import summary
from tests.interpret.invented_tests import full_page


def test_every_value_of_a_full_page_is_told_once() -> None:
    told = "\n".join(other_tests(full_page().audiograms[0], SIGNS))
    for text in (
        "speech recognition threshold: 20 dB HL", "96 %", "peak at -20 daPa", "height 0.8 mmho", "volume 1.1 mL",
        "contralateral reflex (sound in the left ear), 1000 Hz: 85 dB HL", "2000 Hz level 8 dB SPL",
        "above noise 12 dB", "500, 1000, 2000 Hz: 20 dB HL",
    ):  # fmt: skip
        assert told.count(text) == 1, text
    assert SIGNS.ask not in told


def test_a_value_that_asks_is_marked_with_its_reason() -> None:
    speech = Speech("right", "srt", 25.0, standing="ask", why_ask=("unit-missing",))
    (_, line) = other_tests(Audiogram(speech=(speech,)), SIGNS)
    assert line.endswith(f"25 dB HL {SIGNS.ask} (no unit printed)")


def test_an_audiogram_of_tones_alone_gets_no_headings() -> None:
    tones = replace(full_page().audiograms[0], speech=(), immittance=(), otoacoustic=(), printed_averages=())
    assert list(other_tests(tones, SIGNS)) == []


def test_the_summary_holds_them_in_lines_of_its_width() -> None:
    text = summary(full_page())
    assert "Otoacoustic emissions" in text
    assert max(map(len, text.splitlines())) <= 100
