"""The sheet in a picture: its edges against where they were drawn, and none where none can be told."""

from __future__ import annotations

import cv2
import numpy as np
import pytest

from octavo.extract.page import Word
from octavo.extract.paper import Grey, find_paper, off_ground

CORNERS = np.array([[210.0, 140.0], [890.0, 215.0], [860.0, 1190.0], [100.0, 1150.0]])


def on_a_table(corners: np.ndarray, size: tuple[int, int] = (1300, 1000)) -> Grey:
    """Draw a bright sheet on a dark, uneven table."""
    rng = np.random.default_rng(5)
    picture = np.full(size, 90, np.uint8) + rng.integers(0, 40, size, dtype=np.uint8)
    cv2.fillConvexPoly(picture, corners.round().astype(np.int32), 225)
    return np.asarray(picture, np.uint8)


def test_edges_of_a_sheet_in_perspective_are_where_they_were_drawn() -> None:
    edges = find_paper(on_a_table(CORNERS)).edges
    assert len(edges) == 4
    drawn = [np.array([*a, *b]) for a, b in zip(CORNERS, np.roll(CORNERS, -1, axis=0), strict=True)]
    for edge in edges:
        slope = np.arctan2(edge[3] - edge[1], edge[2] - edge[0]) % np.pi
        away = [abs((np.arctan2(d[3] - d[1], d[2] - d[0]) - slope + np.pi / 2) % np.pi - np.pi / 2) for d in drawn]
        assert min(away) < 0.004


def test_a_sheet_that_is_not_wholly_in_the_picture_has_no_edges() -> None:
    # shadows along two sides of a copy were taken for them, and the page was laid askew
    assert not len(find_paper(on_a_table(CORNERS + np.array([0.0, 400.0]))).edges)
    assert not len(find_paper(on_a_table(np.array([[60.0, -9], [1009, -9], [1009, 1240], [30, 1270]]))).edges)


@pytest.mark.parametrize("picture", [np.full((1300, 1000), 240, np.uint8), on_a_table(CORNERS * 0.2)])
def test_no_edges_without_a_sheet_before_a_darker_ground(picture: Grey) -> None:
    paper = find_paper(picture)
    assert not len(paper.edges)
    assert paper.mask.all()


@pytest.mark.parametrize(("chance", "read"), [(0.3, False), (0.95, True)])
def test_the_pattern_of_a_table_is_no_words_and_print_in_a_shadow_stays(chance: float, *, read: bool) -> None:
    # a cloth's pattern seen as words stood in longer lines than the page's own, which was left lying askew for it
    picture = np.repeat(on_a_table(CORNERS)[:, :, None], 3, axis=2)
    half = np.diag([0.5, 0.5, 1.0])  # the words are in a picture of half the size
    places = [(x, y) for x in range(10, 490, 16) for y in range(10, 640, 16)]
    words = tuple(Word("o", (x - 5.0, y - 5.0, x + 5.0, y + 5.0), chance) for x, y in places)
    found = off_ground(words, picture, half)
    inside = [cv2.pointPolygonTest(CORNERS.astype(np.float32), (2.0 * x, 2.0 * y), measureDist=True) for x, y in places]
    assert {w.box for w in words} >= {w.box for w in found}
    if read:
        assert found == words
    else:
        kept = {w.box for w in found}
        assert all((w.box in kept) == (off > 0) for w, off in zip(words, inside, strict=True) if abs(off) > 8)
