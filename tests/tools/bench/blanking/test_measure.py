"""Whether ink of a true box is still to be seen, on pictures made by hand."""

from __future__ import annotations

import numpy as np
import pytest

from octavo.extract.blank import BlankedPage
from octavo.extract.page import Page
from octavo.interpret.record import Source
from octavo.tools.bench.blanking.measure import left_open

BOX = (0.2, 0.4, 0.6, 0.5)


@pytest.mark.parametrize(("covered_to", "open_"), [(0.6, False), (0.55, True), (0.0, True)])
def test_ink_that_is_not_covered_is_open(covered_to: float, open_: bool) -> None:
    pixels = np.full((400, 300, 3), 240, np.uint8)
    pixels[165:195, 62:178:4] = 30
    covered = np.zeros((400, 300), bool)
    covered[150:210, 50 : round(covered_to * 300)] = True
    page = Page(Source("a.png", "5e" * 32, 1, 1, "scan"), pixels, 100.0)
    assert left_open(page, BlankedPage(pixels, covered, 100.0, ()), BOX) == open_


def test_a_ruled_line_through_the_whole_box_is_no_identifier() -> None:
    pixels = np.full((400, 300, 3), 240, np.uint8)
    pixels[:, 100:102] = 30
    pixels[180:182] = 30
    page = Page(Source("a.png", "5e" * 32, 1, 1, "scan"), pixels, 100.0)
    assert not left_open(page, BlankedPage(pixels, np.zeros((400, 300), bool), 100.0, ()), BOX)
