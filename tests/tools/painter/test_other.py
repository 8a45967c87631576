"""Pages that hold no audiogram: what their truth says, and that they look like something."""

from __future__ import annotations

import numpy as np
import pytest

from octavo.tools.painter import FAMILIES, paint, render
from octavo.tools.painter.fonts import FACES
from octavo.tools.painter.other import OTHER_FAMILIES
from octavo.tools.painter.other.plot import Span, any_face, steps


@pytest.mark.parametrize("name", OTHER_FAMILIES)
def test_the_truth_of_a_page_without_audiogram_is_empty(name: str):
    page = paint(name, 7)
    assert not page.marks
    assert not page.joins
    if "blank" in FAMILIES[name].tags:
        assert [len(audiogram.thresholds) for audiogram in page.record.audiograms] == [0]
        assert page.record.audiograms[0].charts
    else:
        assert page.record.audiograms == ()
        assert not [word for word in page.words if word.role != "other"]


@pytest.mark.parametrize("name", OTHER_FAMILIES)
def test_a_page_without_audiogram_has_ink_and_stays_within_its_sheet(name: str):
    pixels = render(paint(name, 3).pdf, 40)
    ink = (pixels.min(axis=2) < 200).mean()
    assert 0.002 < ink < 0.6
    # a margin of 3 mm that no printer prints on stays white
    edge = np.concatenate([pixels[:5].ravel(), pixels[-5:].ravel(), pixels[:, :5].ravel(), pixels[:, -5:].ravel()])
    assert edge.min() > 200


@pytest.mark.parametrize("name", OTHER_FAMILIES)
def test_a_mono_page_without_audiogram_has_no_colour(name: str):
    pixels = render(paint(name, 5, mono=True).pdf, 30).astype(int)
    assert np.ptp(pixels, axis=2).max() <= 1  # greys are rounded channel by channel


def test_pages_without_audiogram_are_split_in_halves_and_tagged():
    splits = [FAMILIES[name].split for name in OTHER_FAMILIES]
    assert abs(splits.count("train") - splits.count("bench")) <= 4
    assert all("none" in FAMILIES[name].tags for name in OTHER_FAMILIES)
    assert not [name for name, family in FAMILIES.items() if "none" in family.tags and name not in OTHER_FAMILIES]


def test_a_seed_gives_the_same_page_and_another_seed_another():
    assert paint("weather", 1).pdf == paint("weather", 1).pdf
    assert paint("weather", 1).pdf != paint("weather", 2).pdf


@pytest.mark.parametrize("split", ["train", "bench"])
def test_a_page_is_written_in_faces_of_its_own_split(split):
    faces = {any_face(np.random.default_rng(seed), split) for seed in range(60)}
    assert {FACES[face].split for face in faces} <= {split, "both"}
    assert len(faces) > 8


def test_a_logarithmic_axis_gives_each_decade_the_same_length():
    span = Span(1, 1000, log=True)
    assert [span.share(v) for v in (1, 10, 100, 1000)] == pytest.approx([0, 1 / 3, 2 / 3, 1])


def test_steps_hold_both_ends():
    assert steps(-15, 35, 5) == [-15, -10, -5, 0, 5, 10, 15, 20, 25, 30, 35]
