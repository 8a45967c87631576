"""The phone photo: a bent sheet on a table, seen askew, in uneven light, through a small lens."""

from __future__ import annotations

import cv2
import numpy as np
from numpy.random import Generator

from .ink import Plane, blurred, field, grain, jpeg, rounded
from .sheet import Spoiled, size_of
from .warp import Curl, Pixels, Points, inverse_map

_FRAMES = ((1944, 2592), (2448, 3264), (2736, 3648), (3000, 4000))
"""Width and height of an upright picture of 5, 8, 10 and 12 million pixels, 3 to 4."""

_LIGHT_STEP = 8
"""Light is drawn on every eighth pixel; it has no detail finer than that."""


def axis_turns(tilt_x: float, tilt_y: float, roll: float) -> Points:
    """Give the 3 x 3 turn of the sheet before the camera: first about its normal, then tilted; all in radians."""
    cx, sx, cy, sy, cz, sz = (f(a) for a in (tilt_x, tilt_y, roll) for f in (np.cos, np.sin))
    about_x = np.array([[1, 0, 0], [0, cx, -sx], [0, sx, cx]])
    about_y = np.array([[cy, 0, sy], [0, 1, 0], [-sy, 0, cy]])
    about_z = np.array([[cz, -sz, 0], [sz, cz, 0], [0, 0, 1]])
    return about_x @ about_y @ about_z


def held(rng: Generator, height: float, frame: tuple[int, int]) -> Curl:
    """Choose the sheet's bend and the camera's place so that the whole sheet is in the frame.

    ``height`` is the sheet's height where its width is 1. Tilts reach about 15 degrees.
    """
    tilt_x, tilt_y = (float(np.clip(rng.normal(0, 0.1), -0.26, 0.26)) for _ in range(2))
    roll = float(np.clip(rng.normal(0, 0.05), -0.14, 0.14))
    sideways = rng.random() < 0.06
    roll += float(rng.choice([-1, 1])) * np.pi / 2 if sideways else 0.0
    turn = axis_turns(tilt_x, tilt_y, roll)
    away = rng.uniform(1.9, 3.2)
    camera = np.zeros((3, 4))
    camera[:2, :3], camera[2, :3], camera[2, 3] = turn[:2], -turn[2], away
    bend = rng.choice([0.0, 0.35, 1.0], p=[0.2, 0.5, 0.3])
    slope = (0.0, float(bend * rng.uniform(-0.3, 0.3)), float(bend * rng.uniform(-0.4, 0.4)))
    curl = Curl(height, float(rng.choice([0.0, np.pi / 2, rng.uniform(0, np.pi)])), slope, camera)
    side = np.linspace(0, 1, 9)
    edge = np.concatenate([np.c_[side, side * 0 + v] for v in (0, 1)] + [np.c_[side * 0 + v, side] for v in (0, 1)])
    seen = curl(edge)
    low, high = seen.min(axis=0), seen.max(axis=0)
    size = np.array(frame, dtype=np.float64)
    scale = rng.uniform(0.8, 0.97) * float(np.min(size / (high - low)))
    slack = size - scale * (high - low)
    corner = slack * rng.uniform(0.25, 0.75, 2)
    fit = np.diag([scale / size[0], scale / size[1], 1.0])
    fit[:2, 2] = (corner - scale * low) / size
    return Curl(height, curl.turn_rad, slope, fit @ camera)


def table(rng: Generator, size: tuple[int, int]) -> Pixels:
    """Draw what lies under the sheet: wood, cloth, a plain desk, or other papers."""
    small = (size[0] // 2, size[1] // 2)
    shape = (small[1], small[0])
    kind = rng.choice(["wood", "cloth", "plain", "papers"], p=[0.4, 0.15, 0.35, 0.1])
    colour = rng.uniform(0.08, 0.75) * np.array([1.0, rng.uniform(0.75, 1.0), rng.uniform(0.5, 1.05)])
    relief: Plane = field(rng, shape, 6) * np.float32(0.05)
    if kind == "wood":
        colour = np.array([rng.uniform(0.35, 0.8), 0, 0])
        colour[1:] = colour[0] * np.array([rng.uniform(0.62, 0.82), rng.uniform(0.35, 0.62)])
        narrow = grain(rng, (shape[0] // 60 + 2, shape[1]), 0.05) if rng.random() < 0.5 else None
        streaks = narrow if narrow is not None else grain(rng, (shape[0], shape[1] // 60 + 2), 0.05)
        relief = relief + np.asarray(cv2.resize(streaks, small, interpolation=cv2.INTER_CUBIC), np.float32)
    elif kind == "cloth":
        ys, xs = np.mgrid[0 : shape[0], 0 : shape[1]].astype(np.float32)
        period = np.float32(rng.uniform(2.5, 7))
        relief = relief + (0.06 * np.sin(xs / period) * np.sin(ys / period)).astype(np.float32)
    relief = relief + grain(rng, shape, rng.uniform(0.004, 0.03), 0.6)
    picture = np.clip(colour.astype(np.float32) + relief[..., None], 0.01, 1).astype(np.float32)
    if kind == "papers":
        for _ in range(int(rng.integers(1, 4))):
            middle = (float(rng.uniform(0, small[0])), float(rng.uniform(0, small[1])))
            box = cv2.boxPoints((middle, (small[0] * 0.8, small[1] * 0.8), float(rng.uniform(0, 90))))
            cv2.fillConvexPoly(picture, np.rint(box).astype(np.int32), (rng.uniform(0.7, 0.95),) * 3, cv2.LINE_AA)
    return np.asarray(cv2.resize(rounded(picture), size, interpolation=cv2.INTER_LINEAR), np.uint8)


def _at(point: Points) -> tuple[int, int]:
    return int(point[0]), int(point[1])


def shadow(rng: Generator, shape: tuple[int, int]) -> Plane:
    """Draw the shadow of a phone or of a hand that comes in from an edge: 1 where there is light, less where not."""
    height, width = shape
    dark = np.zeros(shape, np.float32)
    angle = rng.uniform(0, 2 * np.pi)
    towards = np.array([np.cos(angle), np.sin(angle)])
    tip = np.array([width, height]) * (0.5 + rng.uniform(0.05, 0.35) * towards)
    thick = width * rng.uniform(0.15, 0.4)
    if rng.random() < 0.5:
        middle = tip + towards * width * 0.6
        turn_deg = float(np.rad2deg(angle))
        box = cv2.boxPoints(((float(middle[0]), float(middle[1])), (width * 1.2, thick * 1.6), turn_deg))
        cv2.fillConvexPoly(dark, np.rint(box).astype(np.int32), 1.0)
    else:
        cv2.line(dark, _at(tip + towards * thick), _at(tip + towards * width * 2), 1.0, int(thick * 0.7))
        cv2.circle(dark, _at(tip + towards * thick * 0.8), int(thick * 0.55), 1.0, -1)
        for finger in np.linspace(-0.5, 0.5, 4):
            way = angle + np.pi + finger * 0.9
            root = tip + towards * thick * 0.6 + np.array([-towards[1], towards[0]]) * finger * thick
            end = root + thick * 0.9 * np.array([np.cos(way), np.sin(way)])
            cv2.line(dark, _at(root), _at(end), 1.0, max(1, int(thick * 0.2)))
    soft = cv2.GaussianBlur(dark, (0, 0), width * float(rng.uniform(0.006, 0.05)))
    return 1 - np.float32(rng.uniform(0.1, 0.4)) * np.asarray(soft, np.float32)


def light(rng: Generator, curl: Curl, place: Points, shape: tuple[int, int]) -> Plane:
    """Draw the light on every eighth pixel: a lamp at one side, the sheet's bend and folds, shadows, the lens' corners.

    ``place`` are the sheet's fractions under those pixels, shape (height * width, 2).
    """
    ys, xs = np.meshgrid(np.linspace(-1, 1, shape[0]), np.linspace(-1, 1, shape[1]), indexing="ij")
    lamp = rng.uniform(0, 2 * np.pi)
    lit = 1 + rng.uniform(0, 0.22) * (np.cos(lamp) * xs + np.sin(lamp) * ys)
    near = rng.uniform(-0.8, 0.8, 2)
    lit += rng.uniform(-0.05, 0.25) * np.exp(-((xs - near[0]) ** 2 + (ys - near[1]) ** 2) / rng.uniform(0.3, 1.5))
    slope = curl.slope_at(np.clip(place, -0.1, 1.1))
    lit *= 1 + rng.uniform(0.3, 1.2) * (slope @ np.array([np.cos(lamp), np.sin(lamp)])).reshape(shape)
    if rng.random() < 0.35:  # a letter folded in thirds, or once
        for at in (1 / 3, 2 / 3) if rng.random() < 0.6 else (0.5,):
            apart = (place[:, 1].reshape(shape) - at - rng.normal(0, 0.01)) / rng.uniform(0.01, 0.04)
            lit *= 1 - rng.uniform(0.02, 0.12) * np.sign(apart) * np.exp(-np.abs(apart))
    lit *= 1 - rng.uniform(0, 0.2) * (xs**2 + ys**2) / 2
    lit += 0.03 * field(rng, shape, 4)
    out = lit.astype(np.float32)
    if rng.random() < 0.45:
        out *= shadow(rng, shape)
    return np.clip(out, 0.15, 2)


def smeared(pixels: Pixels, rng: Generator, scale: float) -> Pixels:
    """Blur as a lens out of focus and a hand that moves; ``scale`` is picture pixels for one of 300 dpi."""
    out = blurred(pixels, float(rng.choice([0.5, 0.9, 1.6], p=[0.5, 0.35, 0.15]) * rng.uniform(0.7, 1.3) * scale))
    if rng.random() < 0.25:
        length = rng.uniform(1.5, 5.0) * scale
        kernel = np.zeros((15, 15), np.float32)
        angle = rng.uniform(0, np.pi)
        for step in np.linspace(-0.5, 0.5, 40):
            x, y = 7 + step * length * np.cos(angle), 7 + step * length * np.sin(angle)
            kernel[round(y), round(x)] += 1
        out = np.asarray(cv2.filter2D(out, -1, kernel / kernel.sum()), np.uint8)
    return out


def developed(scene: Pixels, lit: Plane, rng: Generator) -> Pixels:
    """Expose, colour and sharpen as a phone does; the noise grows where it is dark."""
    height, width = scene.shape[:2]
    balance = np.array([rng.uniform(0.86, 1.08), 1.0, rng.uniform(0.78, 1.08)]) * rng.uniform(0.72, 1.0)
    gain = np.asarray(cv2.resize(lit, (width, height), interpolation=cv2.INTER_LINEAR), np.float32)[..., None]
    bright = np.asarray(scene * (gain * (balance / 255).astype(np.float32)), np.float32)
    sigma = rng.choice([0.005, 0.012, 0.026], p=[0.5, 0.35, 0.15]) * rng.uniform(0.6, 1.3)
    noise = grain(rng, (height, width), sigma, rng.choice([0.0, 0.7]))
    tinted = np.asarray(cv2.resize(grain(rng, (height // 3, width // 3, 3), sigma * 0.7), (width, height)), np.float32)
    bright += noise[..., None]
    bright += tinted
    shot = rounded(bright)
    if rng.random() < 0.6:
        soft = cv2.GaussianBlur(shot, (0, 0), 1.3)
        sharper = rng.uniform(0.2, 0.9)
        shot = np.asarray(cv2.addWeighted(shot, 1 + sharper, soft, -sharper, 0), np.uint8)
    return shot


def photo(pixels: Pixels, rng: Generator) -> Spoiled:
    """Photograph a page with a phone; the file tells no resolution."""
    before = size_of(pixels)
    frame = _FRAMES[int(rng.choice(4, p=[0.25, 0.45, 0.15, 0.15]))]
    if (before[0] > before[1]) != (rng.random() < 0.06):
        frame = (frame[1], frame[0])
    curl = held(rng, before[1] / before[0], frame)
    place = inverse_map(curl, before, frame)
    ends = curl(np.array([[0.0, 0.5], [1.0, 0.5]])) * frame
    shrink = before[0] / float(np.hypot(*(ends[1] - ends[0])))
    sharp = blurred(pixels, 0.4 * shrink if shrink > 1.05 else 0.0)
    from_x, from_y = place[..., 0], place[..., 1]
    sheet = cv2.remap(sharp, from_x, from_y, cv2.INTER_LINEAR, borderMode=cv2.BORDER_REPLICATE)
    whole = np.full(before[::-1], 255, np.uint8)
    cover = cv2.remap(whole, from_x, from_y, cv2.INTER_LINEAR, borderMode=cv2.BORDER_CONSTANT)
    under = table(rng, frame)
    lift = rng.uniform(0.002, 0.015) * frame[0]
    cast = cv2.warpAffine(cover, np.array([[1, 0, rng.normal(0, 1) * lift], [0, 1, rng.normal(0, 1) * lift]]), frame)
    cast = np.asarray(cv2.GaussianBlur(cv2.resize(cast, None, fx=0.125, fy=0.125), (0, 0), lift / 8 + 0.5), np.float32)
    small = (frame[0] // _LIGHT_STEP, frame[1] // _LIGHT_STEP)
    fractions = cv2.resize(place, small, interpolation=cv2.INTER_AREA).reshape(-1, 2).astype(np.float64) / before
    lit = light(rng, curl, fractions, (small[1], small[0]))
    shade = 1 - np.float32(rng.uniform(0.2, 0.6) / 255) * np.asarray(cv2.resize(cast, frame), np.float32)
    under = np.asarray(under * shade[..., None], np.uint8)
    weight = cover.astype(np.float32)[..., None] / np.float32(255)
    scene = (under + weight * (sheet.astype(np.float32) - under)).astype(np.uint8)
    shot = developed(smeared(scene, rng, 1 / shrink * before[0] / 2480), lit, rng)
    return Spoiled(jpeg(shot, int(rng.integers(60, 91))), None, curl)
