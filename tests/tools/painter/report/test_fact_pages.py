"""Pages whose facts and other tests are in their truth: held against the PDF as another program reads it."""

from __future__ import annotations

import io
import re
from functools import cache

import numpy as np
import pdfplumber
import pytesseract
import pytest
from PIL import Image

from octavo.interpret.record import Audiogram, Box
from octavo.tools.painter import FAMILIES, PaintedPage, ToldPage, paint, render
from octavo.tools.painter.report.pages import FACT_FAMILIES, FACT_PEN_FAMILIES
from octavo.tools.painter.report.results.averages import RULES
from octavo.tools.painter.spoiling import shown, spoil

NAMES = tuple(FACT_FAMILIES)
PENNED = tuple(FACT_PEN_FAMILIES)
SEEDS = range(4)


@cache
def page_of(name: str, seed: int) -> PaintedPage:
    return paint(name, seed)


@cache
def printed_on(name: str, seed: int) -> tuple[tuple[str, float, float], ...]:
    """Every character that pdfplumber finds, with its centre in page fractions."""
    with pdfplumber.open(io.BytesIO(page_of(name, seed).pdf)) as pdf:
        page = pdf.pages[0]
        wide, high = float(page.width), float(page.height)
        chars = sorted(page.chars, key=lambda c: (round(c["bottom"]), c["x0"]))
        return tuple((c["text"], (c["x0"] + c["x1"]) / 2 / wide, (c["top"] + c["bottom"]) / 2 / high) for c in chars)


def letters_in(name: str, seed: int, box: Box) -> str:
    """Say what is printed in a box, by pdfplumber; a glyph's centre lies within its ink, but for its accents."""
    spare = 0.004
    return "".join(
        text
        for text, x, y in printed_on(name, seed)
        if box[0] <= x <= box[2] and box[1] - spare <= y <= box[3] + spare and text.strip()
    )


def test_there_are_eight_families_for_training_and_eight_others_for_the_benchmark() -> None:
    splits = [split for split, _, _ in FACT_FAMILIES.values()]
    assert splits.count("train") >= 8
    assert splits.count("bench") >= 8


def test_pages_that_record_all_their_facts_say_so_and_others_do_not() -> None:
    for name, family in FAMILIES.items():
        if family.tags & {"wild", "pen", "pen-table"}:
            continue
        assert isinstance(paint(name, 1), ToldPage) == bool(family.tags & {"facts", "facts-pen"}), name


@pytest.mark.parametrize("name", NAMES)
def test_every_fact_stands_in_its_box_as_it_is_written(name: str) -> None:
    checked = 0
    for seed in SEEDS:
        for fact in page_of(name, seed).record.report.facts:
            assert fact.box is not None
            # a name in two fields has the second one's label in its box; a note runs over lines
            for word in fact.written.split():
                assert word in letters_in(name, seed, fact.box), (seed, fact)
            checked += 1
    assert checked > 12


@pytest.mark.parametrize("name", NAMES)
def test_the_page_names_patient_birth_date_and_test_date_once_each(name: str) -> None:
    for seed in SEEDS:
        page = page_of(name, seed)
        facts = [fact for fact in page.record.report.facts if fact.standing == "sure" or fact.name != "place"]
        names = [fact.name for fact in facts]
        assert {"patient-name", "birth-date", "test-date"} <= set(names)
        assert len(set(names)) == len(names)
        values = {fact.name: fact.value for fact in facts}
        report = page.record.report
        assert (report.patient, report.born) == (values["patient-name"], values["birth-date"])
        assert {a.tested_on for a in page.record.audiograms} == {values["test-date"]}


@pytest.mark.parametrize("name", PENNED)
def test_what_is_filled_in_by_hand_is_ink_in_the_facts_box_and_no_print(name: str) -> None:
    checked = 0
    for seed in SEEDS:
        page = page_of(name, seed)
        pixels = render(page.pdf, 100).min(axis=2)
        high, wide = pixels.shape
        for fact in page.record.report.facts:
            assert fact.box is not None
            if fact.name not in ("birth-date", "test-date"):
                continue
            left, top, right, bottom = fact.box
            area = pixels[int(top * high) : int(bottom * high) + 1, int(left * wide) : int(right * wide) + 1]
            assert (area < 160).mean() > 0.03
            typed = letters_in(name, seed, fact.box)
            # accents, as of a French February, are not in the hand's alphabet
            checked += not any(digit in typed for digit in fact.written if digit.isdigit())
    assert checked >= 5


def numbers_of(audiogram: Audiogram) -> list[tuple[float, Box]]:
    """Every number that an audiogram's other tests state, each with the box that must hold it."""
    found: list[tuple[float | None, Box | None]] = []
    for speech in audiogram.speech:
        found += [(value, speech.box) for value in (speech.level_db_hl, speech.score_percent, speech.words)]
    for average in audiogram.printed_averages:
        found.append((average.level_db_hl, average.box))
    for ear in audiogram.immittance:
        found += [(reflex.level_db_hl, reflex.box) for reflex in ear.reflexes]
        trace = ear.tympanogram
        if trace is not None and ear.standing == "sure":
            stated = (trace.peak_pressure_dapa, trace.peak_admittance_mmho, trace.ear_canal_volume_ml, trace.width_dapa)
            found += [(value, ear.box) for value in stated]
    for emission in audiogram.otoacoustic:
        for band in emission.bands:
            found += [(v, emission.box) for v in (band.amplitude_db_spl, band.noise_db_spl, band.snr_db)]
    return [(value, box) for value, box in found if value is not None and box is not None]


@pytest.mark.parametrize("name", NAMES)
def test_every_number_of_the_other_tests_stands_in_its_box(name: str) -> None:
    checked = 0
    for seed in range(6):
        for audiogram in page_of(name, seed).record.audiograms:
            for value, box in numbers_of(audiogram):
                text = letters_in(name, seed, box).replace(",", ".")
                shown = {f"{value:g}", f"{value:.0f}", f"{value:.1f}", f"{value:.2f}", f"{value:.1f}".removeprefix("-")}
                assert any(number in text for number in shown), (seed, value, text)
                checked += 1
    assert checked > 3


@pytest.mark.parametrize("name", [name for name in NAMES if "chartless" not in FAMILIES[name].tags])
def test_printed_averages_are_those_of_the_thresholds(name: str) -> None:
    # the mean of the thresholds at the frequencies named, rounded as printed: half a unit of the last digit at most
    for seed in range(6):
        for audiogram in page_of(name, seed).record.audiograms:
            for average in audiogram.printed_averages:
                assert average.frequencies_hz in RULES
                levels = []
                for hz in average.frequencies_hz:
                    here = [
                        t
                        for t in audiogram.thresholds
                        if (t.ear, t.conduction, t.measure, t.frequency_hz) == (average.ear, "air", "threshold", hz)
                    ]
                    assert here
                    levels.append(max(here, key=lambda t: t.masked).level_db_hl)
                assert abs(np.mean(levels) - average.level_db_hl) <= 0.5


@pytest.mark.parametrize("name", NAMES)
def test_words_keep_on_the_page_and_off_each_other(name: str) -> None:
    for seed in range(6):
        page = page_of(name, seed)
        wide, high = page.size_pt
        words = [word for word in page.words if word.chart is None]
        for k, word in enumerate(words):
            left, top, right, bottom = word.box
            assert 0 < left < right < 1, (seed, word)
            assert 0 < top < bottom < 1, (seed, word)
            for other in words[k + 1 :]:
                across = (min(right, other.box[2]) - max(left, other.box[0])) * wide
                down = (min(bottom, other.box[3]) - max(top, other.box[1])) * high
                assert across < 0.6 or down < 0.9, (seed, word.text, other.text)


def test_places_of_facts_and_other_tests_go_through_a_warp_and_back() -> None:
    def boxes(page: PaintedPage) -> list[Box]:
        found = [fact.box for fact in page.record.report.facts]
        for a in page.record.audiograms:
            found += [one.box for group in (a.speech, a.immittance, a.otoacoustic, a.printed_averages) for one in group]
            found += [reflex.box for one in a.immittance for reflex in one.reflexes]
        return [box for box in found if box is not None]

    for name in ("fact-tests", "fact-emissions"):
        page = page_of(name, 2)
        turned = page.moved(lambda points: np.stack([1 - points[:, 1], points[:, 0]], axis=1))
        back = turned.moved(lambda points: np.stack([points[:, 1], 1 - points[:, 0]], axis=1))
        assert len(boxes(page)) > 8
        for before, between, after in zip(boxes(page), boxes(turned), boxes(back), strict=True):
            left, top, right, bottom = before
            assert between == pytest.approx((1 - bottom, left, 1 - top, right))
            assert after == pytest.approx(before)


def test_a_contralateral_row_that_names_one_ear_alone_is_left_open() -> None:
    open_ones = 0
    for seed in range(12):
        page = page_of("fact-middle", seed)
        said = " ".join(word.text.lower() for word in page.words)
        probe = re.search(r"(probe|sonde?a?) ", re.sub(r"probe tone|sonde? 226|tono de sonda", "", said)) is not None
        for ear in page.record.audiograms[0].immittance:
            for reflex in ear.reflexes:
                crossed = reflex.stimulus_ear != ear.ear
                assert (reflex.standing == "ask") == (crossed and not probe)
                open_ones += reflex.standing == "ask"
    assert open_ones > 0


def test_on_a_scan_another_program_reads_the_facts_in_their_boxes() -> None:
    # Tesseract's word boxes are the outside judge; of clean print at 300 dpi it reads nearly all
    read = expected = 0
    for seed in (1, 3):
        page = page_of("fact-words", seed)
        spoiled = spoil(render(page.pdf, 300), "scan-300", 5, dpi=300)
        data = pytesseract.image_to_data(Image.fromarray(spoiled.pixels), output_type=pytesseract.Output.DICT)
        high, wide = spoiled.pixels.shape[:2]
        found = [
            (text, (left + width / 2) / wide, (top + height / 2) / high)
            for text, left, top, width, height in zip(
                *(data[key] for key in ("text", "left", "top", "width", "height")), strict=True
            )
        ]
        for fact in shown(page, spoiled).record.report.facts:
            assert fact.box is not None
            left, top, right, bottom = fact.box
            inside = "".join(text for text, x, y in found if left <= x <= right and top <= y <= bottom)
            for word in fact.written.split():
                expected += 1
                read += word.strip(".,;") in inside
    assert expected > 40
    assert read > 0.85 * expected
