"""Short labels are read as they were painted."""

from __future__ import annotations

import cv2
import numpy as np
import pytest

from octavo.extract.eyes.labels import CHARSET, decode, label_crop, read_labels
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
            right += reading.text.replace(" ", "") == label.text.replace(" ", "")
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
    assert [r.text for r in readings] == [w.text for w in many]
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
