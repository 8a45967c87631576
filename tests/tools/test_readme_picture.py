"""The picture in the README: the part of the page that it shows, and its size."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from octavo.interpret.record import PageRecord
from octavo.tools.readme_picture import around_charts, side_by_side


def test_the_part_shown_is_the_charts_with_a_margin(make_record: Callable[..., PageRecord]) -> None:
    # The record's chart spans 0.1 to 0.9 across and 0.2 to 0.8 down; the margin is 0.08 of 1000 px.
    rows, columns = around_charts((2000, 1000), make_record())
    assert (rows, columns) == (slice(320, 1680), slice(20, 980))


def test_the_part_shown_ends_at_the_page(make_record: Callable[..., PageRecord]) -> None:
    rows, columns = around_charts((200, 1000), make_record())
    assert (rows, columns) == (slice(0, 200), slice(20, 980))


def test_page_and_reading_stand_side_by_side_at_the_width_asked_for() -> None:
    white, black = np.full((300, 400, 3), 255, np.uint8), np.zeros((300, 400, 3), np.uint8)
    picture = side_by_side(white, black, width_px=400)
    assert picture.shape[1] == 400
    assert picture[:, :190].min() == 255
    assert picture[:, 210:].max() == 0
