"""Outside pages as somebody's phone sees them: a bent sheet on some ground, in bad light, through a small lens.

Written apart from the painter's photos and by another model: the sheet is a mesh with waves, a spine, folds or creases,
seen by a pinhole with a lens' own distortion. Every way is one entry of `SHOTS`.
"""

from __future__ import annotations

from dataclasses import dataclass

import cv2
import numpy as np
import numpy.typing as npt
from numpy.random import Generator
from scipy.interpolate import LinearNDInterpolator, NearestNDInterpolator, RectBivariateSpline
from taken import Colour, Numbers, Taken, clipped, cloud, squeezed

MESH = (61, 85)
"""Vertices across and down the sheet and a margin around it."""
MARGIN = 0.08
MAP_STEP = 8
"""The map from the picture to the sheet is found on every eighth pixel and is smooth between."""


@dataclass(frozen=True, slots=True)
class Shot:
    """How a sheet lies and is photographed; shares are of the sheet's width."""

    megapixels: float = 8.0
    tilt: float = 0.2
    """Largest angle of the camera off the sheet's normal, in radians, each way."""
    turn: float = 0.06
    relief: tuple[tuple[str, float], ...] = (("wave", 0.012),)
    """What bends the sheet, each with how high it rises."""
    ground: str = "wood"
    fills: tuple[float, float] = (0.8, 0.95)
    """The share of the frame that the sheet takes; above 1 it is cut at the edges."""
    light: float = 0.35
    """How much darker the darkest corner may be."""
    glare: float = 0.0
    shadow: float = 0.0
    fingers: int = 0
    defocus: float = 0.6
    """Radius of the blur, and length of the shake, in pixels of an eight-megapixel picture."""
    shake: float = 0.0
    noise: float = 4.0
    quality: int = 82
    chat_px: int = 0
    """A chat program shrinks the picture to this long side."""
    quarters: int = 0
    warmth: float = 0.1
    moire: float = 0.0


SHOTS: dict[str, Shot] = {
    "desk": Shot(),
    "chat": Shot(megapixels=12, chat_px=1600, quality=68, ground="dark", shadow=0.3),
    "small": Shot(megapixels=1.9, quality=80, ground="plain", noise=6),
    "spine": Shot(relief=(("spine", 0.09),), ground="dark", light=0.5),
    "wavy": Shot(megapixels=12, relief=(("wave", 0.03),), ground="cloth", shadow=0.25),
    "crumpled": Shot(relief=(("creases", 0.012), ("wave", 0.008)), ground="wood", light=0.3),
    "folded": Shot(relief=(("thirds", 0.022),), ground="plain", light=0.4),
    "white-desk": Shot(ground="white", relief=(("corner", 0.05),), light=0.25),
    "on-paper": Shot(ground="paper", turn=0.14, relief=(("wave", 0.006),)),
    "held": Shot(relief=(("roll", 0.08),), ground="room", fingers=3, shake=3.0, defocus=1.0, noise=7, tilt=0.26),
    "close": Shot(fills=(1.0, 1.035), ground="dark", tilt=0.12, turn=0.02),
    "glare": Shot(glare=0.75, relief=(("wave", 0.005),), ground="dark"),
    "lamp": Shot(megapixels=5, light=0.65, shadow=0.5, warmth=0.35, ground="wood", noise=6),
    "on-its-side": Shot(quarters=1, ground="wood"),
    "upside-down": Shot(quarters=2, ground="dark", chat_px=2048, quality=75),
    "blurred": Shot(defocus=2.0, shake=2.5, ground="cloth"),
    "low": Shot(tilt=0.5, turn=0.03, ground="wood", megapixels=12, relief=()),
    "screen": Shot(ground="bezel", relief=(), moire=0.09, tilt=0.15, warmth=-0.2, glare=0.25, light=0.15),
}  # fmt: skip


def photograph(sheet: Colour, name: str, rng: Generator) -> Taken:
    """Photograph a sheet.

    Parameters
    ----------
    sheet : ndarray, shape (height, width, 3), uint8
        The page, flat.
    name : str
        One of `SHOTS`.
    rng : Generator
        The only source of chance.

    Returns
    -------
    Taken
        A JPEG.
    """
    shot = SHOTS[name]
    long = round((shot.megapixels * 1e6 * 4 / 3) ** 0.5)
    frame = (long * 3 // 4, long) if sheet.shape[0] > sheet.shape[1] else (long, long * 3 // 4)
    camera = _camera(shot, sheet.shape[0] / sheet.shape[1], frame, rng)
    back, inside = _seen(camera, frame, sheet.shape)
    shrink = max(sheet.shape[:2]) / max(frame)
    soft = cv2.GaussianBlur(sheet, (0, 0), 0.45 * shrink) if shrink > 1 else sheet
    x, y = cv2.split(back)
    picture = cv2.remap(np.asarray(soft), x, y, cv2.INTER_LINEAR, borderMode=cv2.BORDER_REPLICATE)
    picture = picture.astype(np.float32) * (1 - 0.05 * rng.random(3).astype(np.float32))
    cover = cv2.GaussianBlur(inside.astype(np.float32), (0, 0), 0.7)[..., None]
    under = _ground(shot.ground, frame, rng, sheet)
    fall = cv2.GaussianBlur(inside.astype(np.float32), (0, 0), frame[0] * rng.uniform(0.002, 0.012))[..., None]
    scene = under * (1 - rng.uniform(0.1, 0.4) * fall) * (1 - cover) + picture * cover
    scene *= _light(shot, camera, frame, rng)[..., None]
    for _ in range(shot.fingers):
        scene = _finger(scene, inside, rng)
    return _developed(scene, shot, camera, frame, rng)


@dataclass(frozen=True, slots=True)
class _Camera:
    """Where the sheet's vertices are: ``uv`` on it (0 to 1), ``at`` in the picture, ``rise`` above the ground."""

    uv: Numbers
    at: Numbers
    rise: Numbers
    frame: tuple[int, int]

    def move(self, points: Numbers) -> Numbers:
        """Carry page fractions to picture fractions, by the mesh."""
        u, v = self.uv[0, :, 0], self.uv[:, 0, 1]
        x, y = (RectBivariateSpline(v, u, self.at[..., i], kx=1, ky=1) for i in (0, 1))
        found = np.stack([x.ev(points[:, 1], points[:, 0]), y.ev(points[:, 1], points[:, 0])], axis=1)
        return (found + 0.5) / self.frame


def _camera(shot: Shot, height: float, frame: tuple[int, int], rng: Generator) -> _Camera:
    u, v = np.meshgrid(np.linspace(-MARGIN, 1 + MARGIN, MESH[0]), np.linspace(-MARGIN, 1 + MARGIN, MESH[1]))
    x, y = u - 0.5, (v - 0.5) * height
    z = np.zeros_like(x)
    for kind, high in shot.relief:
        z = z + _relief(kind, u, v, rng) * high * rng.uniform(0.6, 1.2)
    # paper does not stretch: where it rises it reaches less far
    for values, axis in ((x, 1), (y, 0)):
        steps = np.diff(values, axis=axis)
        shorter = np.sqrt(np.maximum(steps**2 - np.diff(z, axis=axis) ** 2, 0.2 * steps**2))
        start = np.take(values, [0], axis=axis)
        values[...] = np.concatenate([start, start + np.cumsum(shorter, axis=axis)], axis=axis)
    a, b, c = rng.uniform(-1, 1, 3) * (shot.tilt, shot.tilt, shot.turn)
    if shot.tilt > 0.4:
        a = rng.uniform(0.7, 1.0) * shot.tilt
    turn = np.array(cv2.Rodrigues(np.array([a, 0.0, 0.0]))[0]) @ cv2.Rodrigues(np.array([0.0, b, 0.0]))[0]
    space = np.stack([x, y, -z], axis=-1) @ (turn @ np.array(cv2.Rodrigues(np.array([0, 0, c]))[0])).T
    away = rng.uniform(1.5, 2.4) * max(1.0, height)
    seen = space[..., :2] / (space[..., 2:] + away)
    seen = seen * (1 + rng.uniform(-0.06, 0.04) * (seen**2).sum(axis=-1, keepdims=True))  # the lens
    own = seen[(u >= 0) & (u <= 1) & (v >= 0) & (v <= 1)]
    low, high = own.min(axis=0), own.max(axis=0)
    scale = rng.uniform(*shot.fills) * float(np.min(np.array(frame) / (high - low)))
    slack = (np.array(frame) - scale * (high - low)) * rng.uniform(0.35, 0.65, 2)
    return _Camera(np.stack([u, v], axis=-1), (seen - low) * scale + slack, z, frame)


def _relief(kind: str, u: Numbers, v: Numbers, rng: Generator) -> Numbers:
    """Give the height of the sheet, about 0 to 1."""
    if kind == "wave":
        way, phase = rng.uniform(0, np.pi), rng.uniform(0, 6, 2)
        along, across = u * np.cos(way) + v * np.sin(way), v * np.cos(way) - u * np.sin(way)
        return 0.5 * np.sin(rng.uniform(4, 9) * along + phase[0]) + 0.5 * np.sin(rng.uniform(2, 5) * across + phase[1])
    if kind == "spine":
        from_left = u if rng.random() < 0.5 else 1 - u
        return -np.exp(-np.clip(from_left, -0.1, 2) / rng.uniform(0.12, 0.3))
    if kind == "roll":
        return np.cos(2.2 * (u - 0.5 + rng.uniform(-0.3, 0.3) * (v - 0.5)))
    if kind == "thirds":
        out = np.zeros_like(v)
        for place in (1 / 3, 2 / 3):
            out = out + rng.uniform(-1, 1) * np.maximum(0, 1 - np.abs(v - place) / rng.uniform(0.15, 0.33))
        return out
    if kind == "corner":
        return np.maximum(0, (u if rng.random() < 0.5 else 1 - u) + v - 1.5) ** 2 * 4
    out = np.zeros_like(v)  # creases: flat facets that meet in lines
    for _ in range(14):
        way = rng.uniform(0, np.pi)
        apart = (u - rng.random()) * np.cos(way) + (v - rng.random()) * np.sin(way)
        out = out + rng.uniform(-1, 1) * np.maximum(0, 1 - np.abs(apart) / rng.uniform(0.08, 0.3)) / 2
    return out


def _seen(
    camera: _Camera, frame: tuple[int, int], shape: tuple[int, ...]
) -> tuple[npt.NDArray[np.float32], npt.NDArray[np.bool_]]:
    """Find, for every pixel of the picture, the sheet's pixel beneath it, and whether there is one."""
    width, height = (side // MAP_STEP + 2 for side in frame)
    places = np.stack(np.meshgrid(np.arange(width) * MAP_STEP, np.arange(height) * MAP_STEP), -1)
    at, uv = camera.at.reshape(-1, 2), camera.uv.reshape(-1, 2)
    on_mesh, beside = LinearNDInterpolator(at, uv)(places), NearestNDInterpolator(at, uv)(places)
    coarse = np.where(np.isnan(on_mesh), beside, on_mesh).astype(np.float32)
    place = np.array([[MAP_STEP, 0, 0], [0, MAP_STEP, 0]], float)
    dense = cv2.warpAffine(coarse, place, frame, flags=cv2.INTER_LINEAR, borderMode=cv2.BORDER_REPLICATE)
    inside = np.asarray(((dense > 0) & (dense < 1)).all(axis=-1), bool)
    return np.asarray(dense * (shape[1], shape[0]) - 0.5, np.float32), inside


def _ground(kind: str, frame: tuple[int, int], rng: Generator, sheet: Colour) -> npt.NDArray[np.float32]:
    """Draw what lies around the sheet."""
    width, height = frame
    ys, xs = np.mgrid[0:height, 0:width].astype(np.float32)
    soft = cloud((height, width), rng, 7)[..., None]
    if kind == "wood":
        rings = np.sin(0.02 * xs + 6 * cloud((height, width), rng, 5) + 0.0015 * ys)[..., None]
        return np.array([150, 105, 65], np.float32) * (0.9 + 0.12 * rings + 0.1 * soft)
    if kind == "cloth":
        weave = (np.sin(xs * 1.1) * np.sin(ys * 1.1))[..., None]
        return np.array(rng.uniform(40, 140, 3), np.float32) * (1 + 0.15 * weave + 0.1 * soft)
    if kind == "paper":
        other = cv2.resize(sheet[::-1, ::-1], frame, interpolation=cv2.INTER_AREA).astype(np.float32)
        lying = cv2.getRotationMatrix2D((width / 2, height / 2), rng.uniform(-12, 12), 1.05)
        return np.asarray(cv2.warpAffine(other, lying, frame, borderValue=(90, 80, 70)), np.float32) * 0.93
    if kind == "room":
        blobs = cloud((height, width), rng, 3)[..., None] * np.array(rng.uniform(0.6, 1.2, 3), np.float32)
        return np.clip(95 + 70 * blobs, 8, 215).astype(np.float32)
    if kind == "bezel":
        return np.full((height, width, 3), 22, np.float32) + 5 * soft
    tone = {"dark": (38, 36, 40), "plain": (120, 125, 128), "white": (226, 224, 220)}[kind]
    return np.asarray(np.array(tone) * (1 + (0.03 if kind == "white" else 0.15) * soft), np.float32)


def _light(shot: Shot, camera: _Camera, frame: tuple[int, int], rng: Generator) -> npt.NDArray[np.float32]:
    width, height = (side // 4 for side in frame)
    ys, xs = np.mgrid[-1 : 1 : height * 1j, -1 : 1 : width * 1j]
    way = rng.uniform(0, 2 * np.pi)
    towards = np.cos(way) * xs + np.sin(way) * ys
    lit = 1 - shot.light * np.clip(0.5 - 0.4 * towards + 0.15 * (xs**2 + ys**2), 0, 1)
    # the sheet's own slope catches the light
    slope = np.gradient(camera.rise, axis=1) * np.cos(way) + np.gradient(camera.rise, axis=0) * np.sin(way)
    spots = (camera.at / 4).reshape(-1, 2)
    grid = np.stack(np.meshgrid(np.arange(0, width + 8, 8), np.arange(0, height + 8, 8)), -1)
    shade = np.nan_to_num(LinearNDInterpolator(spots, slope.ravel())(grid)).astype(np.float32)
    lit *= 1 + 14 * cv2.resize(shade, (width, height), interpolation=cv2.INTER_LINEAR)
    if shot.shadow:
        at, lean = rng.uniform(-0.5, 0.5), rng.uniform(-1, 1)
        edge = np.clip((xs * lean + ys - at) / rng.uniform(0.02, 0.2), 0, 1)
        lit *= 1 - shot.shadow * rng.uniform(0.5, 1) * (edge if rng.random() < 0.5 else 1 - edge)
    if shot.glare:
        x, y = rng.uniform(-0.6, 0.6, 2)
        lit += shot.glare * np.exp(-((xs - x) ** 2 + (ys - y) ** 2) / rng.uniform(0.03, 0.15)) * 1.6
    return np.asarray(cv2.resize(np.clip(lit, 0.12, 3).astype(np.float32), frame), np.float32)


def _finger(scene: Numbers, inside: npt.NDArray[np.bool_], rng: Generator) -> Numbers:
    """Lay a thumb over the sheet's margin from the left, the right or below."""
    rows, columns = np.nonzero(inside[::16, ::16])
    side = int(rng.integers(3))
    y = 16 * float(rng.uniform(rows.min() + 0.3 * np.ptp(rows), rows.max()))
    near = columns[np.abs(rows * 16 - y) < 40]
    x = 16.0 * float(near.min() if side == 0 else near.max())
    wide = 0.022 * inside.shape[1]
    if side == 2:
        x, y = 16.0 * float(rng.uniform(columns.min(), columns.max())), 16.0 * float(rows.max())
    out = np.ascontiguousarray(scene, np.float32)
    middle = (round(x + (-wide, wide, 0)[side]), round(y + (0, 0, wide)[side]))
    axes = (round(2.2 * wide), round(wide)) if side < 2 else (round(wide), round(2.2 * wide))
    skin = tuple(rng.uniform(0.8, 1) * np.array([205.0, 150.0, 125.0]))
    cv2.ellipse(out, middle, axes, float(rng.uniform(-15, 15)), 0, 360, skin, -1)
    return np.asarray(out, np.float64)


def _developed(scene: Numbers, shot: Shot, camera: _Camera, frame: tuple[int, int], rng: Generator) -> Taken:
    out = np.asarray(scene, np.float32)
    scale = max(frame) / 3264
    if shot.moire:
        xs, ys = np.meshgrid(np.arange(frame[0], dtype=np.float32), np.arange(frame[1], dtype=np.float32))
        beat = [np.sin(xs * rng.uniform(0.03, 0.2) + ys * rng.uniform(-0.1, 0.1)) for _ in range(3)]
        out = out * (1 + shot.moire * np.stack(beat, axis=-1))
    radius = max(1, round(2 * shot.defocus * scale * rng.uniform(0.7, 1.3)))
    disc = cv2.getStructuringElement(cv2.MORPH_ELLIPSE, (radius * 2 + 1,) * 2).astype(np.float32)
    if shot.defocus > 0.8:
        out = cv2.filter2D(out, -1, disc / disc.sum())
    else:
        out = cv2.GaussianBlur(out, (0, 0), 0.3 + shot.defocus * scale)
    if shot.shake:
        kernel = np.zeros((17, 17), np.float32)
        way, long = rng.uniform(0, np.pi), shot.shake * scale * rng.uniform(0.6, 1.3)
        step = np.array([np.cos(way), np.sin(way)]) * long / 2
        ends = [tuple(int(v) for v in np.rint((8 + sign * step) * 16)) for sign in (-1, 1)]
        cv2.line(kernel, ends[0], ends[1], 1.0, 1, cv2.LINE_AA, 4)
        out = cv2.filter2D(out, -1, kernel / kernel.sum())
    out = out * np.array([1 + 0.3 * shot.warmth, 1, 1 - shot.warmth]) * rng.uniform(0.82, 1.05)
    grain = rng.normal(0, shot.noise, out.shape).astype(np.float32)
    out = clipped(out + grain * np.sqrt(np.clip(out, 4, 255) / 160))
    sharp = cv2.addWeighted(out, 1.5, cv2.GaussianBlur(out, (0, 0), 1.2), -0.5, 0)
    long = max(frame)
    if shot.chat_px and shot.chat_px < long:
        sharp = squeezed(np.asarray(sharp, np.uint8), 88)
        sharp = cv2.resize(sharp, None, fx=shot.chat_px / long, fy=shot.chat_px / long, interpolation=cv2.INTER_AREA)
    turned = np.ascontiguousarray(np.rot90(sharp, shot.quarters))

    def move(points: Numbers) -> Numbers:
        at = camera.move(points)
        for _ in range(shot.quarters):
            at = np.stack([at[:, 1], 1 - at[:, 0]], axis=1)
        return at

    return Taken(np.asarray(turned, np.uint8), move, ".jpg", quality=shot.quality)
