"""The reading drawn over the page: where, in which colour and shape."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import numpy as np
import pytest

from octavo.interpret.record import Ear, PageRecord, Seen, Standing, Threshold
from octavo.tools.reading_picture import EAR_COLOURS, draw_reading, label_of

MakeRecord = Callable[..., PageRecord]
PAPER = np.full((800, 600, 3), 255, np.uint8)
SEEN = Seen(chart=0, at=(0.5, 0.5), frequency_hz=1000.0, level_db_hl=35.0)
ONE = Threshold("right", "air", False, 1000, 35, standing="sure", probability=1.0, seen=SEEN)


def drawn(make_record: MakeRecord, threshold: Threshold) -> np.ndarray:
    """Draw one threshold without a chart."""
    record = make_record(thresholds=(threshold,))
    audiogram = replace(record.audiograms[0], charts=())
    return draw_reading(PAPER, replace(record, audiograms=(audiogram,)))


@pytest.mark.parametrize(
    ("change", "label"),
    [
        ({}, "35"),
        ({"standing": "ask"}, "35?"),
        ({"conduction": "bone", "masked": True}, "35bm"),
        ({"response": False, "level_db_hl": 110}, "110NR"),
        ({"conduction": "field", "aided": True}, "35fA"),
        ({"measure": "ucl"}, "35 ucl"),
        ({"level_db_hl": 32.5}, "32.5"),
    ],
)
def test_a_label_says_what_the_plain_air_threshold_is_not(change: dict[str, object], label: str) -> None:
    assert label_of(replace(ONE, **change)) == label


@pytest.mark.parametrize("ear", ["right", "left", "both", "unspecified"])
def test_a_ring_in_the_ear_s_colour_stands_round_the_mark(ear: Ear, make_record: MakeRecord) -> None:
    picture = drawn(make_record, replace(ONE, ear=ear))
    inked = np.argwhere((picture == EAR_COLOURS[ear]).all(axis=2))
    # The centre of the page in pixels is (399.5, 299.5); the ring's radius is 0.0105 of the width, 6.3 px.
    far = np.hypot(inked[:, 0] - 399.5, inked[:, 1] - 299.5)
    assert np.count_nonzero(np.abs(far - 6.3) < 1.5) >= 8
    assert far.min() > 3.5


@pytest.mark.parametrize(("standing", "corner_inked"), [("sure", False), ("ask", True)])
def test_sure_is_a_ring_and_ask_a_diamond(standing: Standing, corner_inked: bool, make_record: MakeRecord) -> None:
    # The lower corner of the diamond stands 1.3 radii (8 px) below the mark; the ring ends 7 px below it.
    picture = drawn(make_record, replace(ONE, standing=standing))
    below = picture[408:411, 297:303]
    assert bool((below == EAR_COLOURS["right"]).all(axis=2).any()) is corner_inked


def test_two_labels_at_one_place_stand_apart(make_record: MakeRecord) -> None:
    both = (ONE, replace(ONE, ear="left"))
    record = make_record(thresholds=both)
    picture = draw_reading(PAPER, replace(record, audiograms=(replace(record.audiograms[0], charts=()),)))
    # Outside the rings (8 px) there are only the labels.
    redder = picture[:, :, 0].astype(int) - picture[:, :, 2]
    red, blue = np.argwhere(redder > 60), np.argwhere(redder < -60)
    red_rows, blue_rows = (ink[np.hypot(ink[:, 0] - 399.5, ink[:, 1] - 299.5) > 9, 0] for ink in (red, blue))
    assert red_rows.max() < 399.5 < blue_rows.min()


def test_the_page_s_own_picture_is_left_as_it_is(make_record: MakeRecord) -> None:
    before = PAPER.copy()
    drawn(make_record, ONE)
    assert np.array_equal(PAPER, before)


def test_the_page_s_ink_is_faded_but_stays(make_record: MakeRecord) -> None:
    page = PAPER.copy()
    page[700:720, 100:200] = 0
    picture = draw_reading(page, make_record(empty=True))
    assert 100 < picture[710, 150, 0] < 200
    assert picture[10, 10, 0] == 255


def test_a_chart_is_outlined(make_record: MakeRecord) -> None:
    picture = draw_reading(PAPER, make_record(thresholds=()))
    assert (picture[160, 60:540] != 255).any(axis=1).mean() > 0.95
