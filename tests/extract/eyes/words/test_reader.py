"""Short labels are read as they were painted."""

from __future__ import annotations

import time
from itertools import product

import cv2
import numpy as np
import numpy.typing as npt
import pytest

from octavo.extract.eyes.words import reader
from octavo.extract.eyes.words.numbers import frequency_values
from octavo.extract.eyes.words.reader import (
    CHARSET,
    LEAST_LOG,
    chances,
    classes_of,
    decode,
    decode_all,
    label_crop,
    label_logits,
    read_labels,
)
from octavo.tools.painter import paint, render


@pytest.mark.parametrize("dpi", [150, 200, 300])
def test_nearly_every_painted_axis_label_is_read(dpi: int) -> None:
    wanted = right = 0
    for family in ("single", "report", "wide", "small"):
        page = paint(family, 5)
        grey = np.asarray(cv2.cvtColor(render(page.pdf, dpi), cv2.COLOR_RGB2GRAY), np.uint8)
        height, width = grey.shape
        labels = [w for w in page.words if w.role != "other"]
        boxes = [(b[0] * width, b[1] * height, b[2] * width, b[3] * height) for b in (w.box for w in labels)]
        for label, reading in zip(labels, read_labels(grey, boxes), strict=True):
            wanted += 1
            # a network with lower-case letters alone says "khz" for "kHz"
            right += reading.text.replace(" ", "").lower() == label.text.replace(" ", "").lower()
    assert wanted > 60
    assert right >= 0.97 * wanted


def test_every_box_gets_a_reading_in_its_order_however_many_there_are() -> None:
    page = paint("wide", 5)
    grey = np.asarray(cv2.cvtColor(render(page.pdf, 250), cv2.COLOR_RGB2GRAY), np.uint8)
    height, width = grey.shape
    labels = [w for w in page.words if w.role == "frequency-label"]
    many = [labels[i % len(labels)] for i in range(130)]
    boxes = [(b[0] * width, b[1] * height, b[2] * width, b[3] * height) for b in (w.box for w in many)]
    readings = read_labels(grey, boxes)
    assert [r.text.lower() for r in readings] == [w.text.lower() for w in many]
    assert all(0 < r.confidence <= 1 for r in readings)


def test_no_boxes_give_no_readings() -> None:
    assert read_labels(np.full((50, 50), 255, np.uint8), []) == ()


def test_a_label_crop_stretches_faint_print_to_full_contrast_and_keeps_empty_paper_light() -> None:
    faint = np.full((100, 200), 230, np.uint8)
    cv2.putText(faint, "500", (40, 60), cv2.FONT_HERSHEY_SIMPLEX, 1.0, 150, 2)
    crop = label_crop(faint, (40.0, 38.0, 96.0, 60.0))
    assert crop.shape == (32, 128)
    assert crop.min() < 20
    assert label_crop(np.full((100, 200), 230, np.uint8), (40.0, 38.0, 96.0, 60.0)).min() > 200


def test_the_best_path_drops_blanks_and_repeats() -> None:
    # connectionist temporal classification (Graves et al. 2006): repeats without a blank between them are one character
    one, zero = 1 + CHARSET.index("1"), 1 + CHARSET.index("0")
    path = [0, one, one, 0, zero, 0, zero, zero, zero, 0]
    logits = np.full((len(path), len(CHARSET) + 1), -9.0, np.float32)
    logits[np.arange(len(path)), path] = 9.0
    reading = decode(logits)
    assert reading.text == "100"
    assert reading.confidence > 0.99


def test_one_doubtful_step_makes_the_whole_reading_doubtful() -> None:
    one, seven = 1 + CHARSET.index("1"), 1 + CHARSET.index("7")
    logits = np.full((3, len(CHARSET) + 1), -9.0, np.float32)
    logits[0, 0] = logits[2, 0] = 9.0
    logits[1, one], logits[1, seven] = 1.0, 0.9
    reading = decode(logits)
    assert reading.text == "1"
    assert reading.confidence < 0.6


def chance_by_every_path(logits: npt.NDArray[np.float32], text: str, charset: str) -> float:
    # by definition (Graves et al. 2006, equation 3): the sum over all paths that spell the text when repeats and then
    # blanks are dropped
    shares = np.exp(logits.astype(np.float64))
    shares /= shares.sum(axis=1, keepdims=True)
    total = 0.0
    for path in product(range(len(charset) + 1), repeat=len(logits)):
        kept = [c for k, c in enumerate(path) if c and (k == 0 or path[k - 1] != c)]
        if kept == classes_of(text, charset):
            total += float(np.prod(shares[range(len(path)), path]))
    return total


@pytest.mark.parametrize("seed", range(4))
def test_the_chance_of_a_text_is_the_sum_over_all_paths_that_spell_it(seed: int) -> None:
    charset, texts = "01?", ["", "0", "1", "00", "01", "10", "11", "101", "100", "0?", "0011", "111111"]
    logits = np.random.default_rng(seed).normal(0, 2, (3, 5, len(charset) + 1)).astype(np.float32)
    found = np.exp(chances(logits, texts, charset))
    wanted = [[chance_by_every_path(word, text, charset) for text in texts] for word in logits]
    assert found == pytest.approx(np.array(wanted), rel=1e-6, abs=1e-15)
    assert (found[:, -1] == 0).all()  # six equal characters need eleven steps


def test_the_chances_of_all_texts_together_are_one() -> None:
    charset, steps = "01?", 4
    texts = ["".join(t) for n in range(steps + 1) for t in product(charset, repeat=n)]
    logits = np.random.default_rng(9).normal(0, 3, (6, steps, len(charset) + 1)).astype(np.float32)
    assert np.exp(chances(logits, texts, charset)).sum(axis=1) == pytest.approx(1.0)


def test_the_chance_of_a_text_does_not_depend_on_the_other_texts_asked_about() -> None:
    logits = np.random.default_rng(2).normal(0, 3, (5, 32, len(CHARSET) + 1)).astype(np.float32)
    texts = ["1000", "100", "10", "1k", "10", "2000"]
    together = chances(logits, texts)
    for column, text in enumerate(texts):
        assert together[:, column] == pytest.approx(chances(logits, [text])[:, 0])


def test_the_surest_network_still_gives_a_wrong_text_a_chance_that_a_float_holds() -> None:
    logits = np.full((1, 32, len(CHARSET) + 1), -300.0, np.float32)
    logits[:, :, 0] = 300.0
    ((nothing, wrong),) = chances(logits, ["", "123456789"])
    assert nothing == pytest.approx(0.0, abs=1e-6)
    assert LEAST_LOG - 1 < wrong < -100


def test_many_texts_are_weighed_for_many_words_in_a_moment() -> None:
    logits = np.random.default_rng(3).normal(0, 3, (250, 32, len(CHARSET) + 1)).astype(np.float32)
    texts = [str(level) for level in range(-20, 125, 5)] + [str(hz) for hz in range(1000, 32000, 1000)]
    spent = []
    for _ in range(5):
        start = time.process_time()
        chances(logits, texts)
        spent.append(time.process_time() - start)
    assert min(spent) < 0.1  # 10 ms here; a machine of CI may be slower


def test_the_printed_label_is_the_most_probable_of_all_frequencies() -> None:
    page = paint("wide", 5)
    grey = np.asarray(cv2.cvtColor(render(page.pdf, 200), cv2.COLOR_RGB2GRAY), np.uint8)
    height, width = grey.shape
    labels = [w for w in page.words if w.role == "frequency-label"]
    boxes = [(b[0] * width, b[1] * height, b[2] * width, b[3] * height) for b in (w.box for w in labels)]
    texts = sorted({w.text for w in labels} | {"125", "250", "500", "750", "1000", "1500", "2000", "3000", "8000"})
    logits = label_logits(grey, boxes)
    found = chances(logits, texts)
    assert [texts[k] for k in found.argmax(axis=1)] == [w.text for w in labels]
    assert decode_all(logits) == read_labels(grey, boxes)


def test_a_letter_that_is_known_in_lower_case_alone_stands_as_that_and_an_unknown_one_as_a_question_mark() -> None:
    charset = "12kHé?"
    assert "".join(charset[c - 1] for c in classes_of("1K2hHÉz?", charset)) == "1k2?Hé??"


def test_a_box_beside_the_page_is_an_empty_word() -> None:
    crop = label_crop(np.full((100, 80), 255, np.uint8), (200.0, 20.0, 240.0, 30.0))
    assert crop.shape == (32, 128)
    assert crop.min() == 255


def test_words_in_narrow_pictures_say_what_they_say_in_the_widest(monkeypatch: pytest.MonkeyPatch) -> None:
    page = paint("report", 5)
    grey = np.asarray(cv2.cvtColor(render(page.pdf, 200), cv2.COLOR_RGB2GRAY), np.uint8)
    height, width = grey.shape
    boxes = [(b[0] * width, b[1] * height, b[2] * width, b[3] * height) for b in (w.box for w in page.words)]
    narrow = read_labels(grey, boxes)
    monkeypatch.setattr(reader, "SPARE_PX", reader.WIDTH)
    widest = read_labels(grey, boxes)
    assert [r.text for r in narrow] == [r.text for r in widest]
    assert [r.confidence for r in narrow] == pytest.approx([r.confidence for r in widest], abs=0.03)


@pytest.mark.parametrize(("text", "meant"), [("6 600", ()), ("6,000", (6000.0,)), ("11 250", (11200.0,))])
def test_thousands_set_apart_are_a_frequency_only_where_hearing_is_tested_at_it(
    text: str, meant: tuple[float, ...]
) -> None:
    # on a fax 6,000 was read as 6,600, and two values stood at that frequency
    assert tuple(hz for hz, _ in frequency_values(text)) == meant
