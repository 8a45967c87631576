"""Ink and what covers it, on pictures made by hand."""

from __future__ import annotations

import cv2
import numpy as np
import pytest

from octavo.extract.blank.ink import covering, ink_of, without_rules
from octavo.extract.page import Pixels

HEIGHT = 20.0


def paper(shade: int = 250, noise: float = 0.0) -> Pixels:
    chance = np.random.default_rng(5)
    flat = np.full((600, 800, 3), shade, float) + chance.normal(0, noise, (600, 800, 1))
    return flat.clip(0, 255).astype(np.uint8)


def covered(pixels: Pixels) -> np.ndarray:
    return covering(without_rules(ink_of(pixels).mask, HEIGHT), HEIGHT)


def changed(pixels: Pixels, blank: Pixels) -> np.ndarray:
    return (pixels != blank).any(axis=2)


def test_a_signature_is_covered_as_a_solid_area_that_does_not_tell_its_line() -> None:
    page = paper()
    xs = np.arange(200, 400)
    line = np.stack([xs, 300 + 25 * np.sin(xs / 9)], axis=1).astype(np.int32)
    cv2.polylines(page, [line], isClosed=False, color=(20, 30, 120), thickness=3)
    mask = covered(page)
    assert mask[changed(page, paper())].all()
    assert mask[285:315, 210:390].all()


@pytest.mark.parametrize("bars", [(1, 0), (0, 1)])
def test_a_bar_code_is_no_set_of_ruled_lines(bars: tuple[int, int]) -> None:
    page = paper()
    for place in range(0, 160, 6):
        x, y = 200 + bars[0] * place, 200 + bars[1] * place
        page[y : y + (120 if bars[0] else 3), x : x + (3 if bars[0] else 160)] = 0
    mask = covered(page)
    assert mask[changed(page, paper())].mean() > 0.999


def test_ruled_lines_of_a_form_stay() -> None:
    page = paper()
    page[100:103, 50:750] = 60
    page[100:400, 50:53] = 60
    assert not covered(page).any()


def test_a_dark_photo_is_covered_whole() -> None:
    page = paper()
    chance = np.random.default_rng(1)
    page[200:330, 300:400] = chance.integers(30, 160, (130, 100, 3))
    assert covered(page)[200:330, 300:400].all()


def test_writing_on_a_shaded_bar_is_covered_with_the_bar() -> None:
    page = paper()
    page[50:90, 100:700] = (40, 60, 110)
    cv2.putText(page, "HARBOUR LANE", (120, 80), cv2.FONT_HERSHEY_SIMPLEX, 1, (255, 255, 255), 2)
    assert covered(page)[50:90, 100:700].all()


@pytest.mark.parametrize("noise", [0.0, 3.0])
def test_pale_print_is_ink(noise: float) -> None:
    page = paper(noise=noise)
    before = page.copy()
    cv2.putText(page, "pale", (300, 300), cv2.FONT_HERSHEY_SIMPLEX, 1, (195, 195, 205), 2)
    core = cv2.erode(changed(page, before).astype(np.uint8), np.ones((2, 2), np.uint8)) > 0
    assert covered(page)[core].all()


def test_a_shadow_over_the_paper_is_no_ink() -> None:
    shade = np.linspace(250, 170, 800).round().astype(np.uint8)
    page = np.repeat(np.repeat(shade[None, :, None], 600, axis=0), 3, axis=2)
    assert covered(page).mean() < 0.01


def test_very_grainy_paper_is_told() -> None:
    assert ink_of(paper(shade=128, noise=30)).grainy
    assert not ink_of(paper(noise=3)).grainy


def test_specks_of_dust_stay_as_they_are() -> None:
    page = paper()
    page[100:102, 100:102] = 0
    page[400:402, 600:602] = 0
    assert not covered(page).any()
