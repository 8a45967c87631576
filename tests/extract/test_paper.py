"""The sheet in a picture: its edges against where they were drawn, and none where none can be told."""

from __future__ import annotations

import cv2
import numpy as np
import pytest

from octavo.extract.paper import Grey, find_paper

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
