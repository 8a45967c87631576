"""Outside pages from an office's machines: copies of copies, faxes, poor scans and prints, views on a screen.

Written apart from the painter's machines and by other means. Every way is one entry of `MACHINES`.
"""

from __future__ import annotations

from collections.abc import Callable

import cv2
import numpy as np
import numpy.typing as npt
from numpy.random import Generator
from taken import Colour, Move, Numbers, Taken, by_matrix, clipped, cloud, one_after_another, squeezed

Grey = npt.NDArray[np.uint8]
Machine = Callable[[Colour, Generator], Taken]
RENDERED_DPI = 300
"""The resolution at which the sheet comes in: A4 is 2,480 pixels wide."""


def _grey(sheet: Colour) -> Grey:
    return np.asarray(cv2.cvtColor(sheet, cv2.COLOR_RGB2GRAY), np.uint8)


def _size(pixels: npt.NDArray[np.uint8]) -> tuple[int, int]:
    return pixels.shape[1], pixels.shape[0]


def _laid(pixels: Grey, rng: Generator, *, degrees: float, share: float = 1.0, around: int = 255) -> tuple[Grey, Move]:
    """Lay a sheet on the glass askew, and smaller; what is around it is white, or black under an open lid."""
    width, height = _size(pixels)
    lying = cv2.getRotationMatrix2D((width / 2, height / 2), rng.uniform(-degrees, degrees), share)
    matrix = np.vstack([lying, [0, 0, 1]])
    matrix[:2, 2] += rng.uniform(-0.012, 0.012, 2) * width
    moved = cv2.warpAffine(pixels, matrix[:2], (width, height), flags=cv2.INTER_AREA, borderValue=(around,) * 3)
    return np.asarray(moved, np.uint8), by_matrix(matrix, (width, height), (width, height))


def _resized(pixels: Grey, across: float, down: float) -> Grey:
    size = (round(pixels.shape[1] * across), round(pixels.shape[0] * down))
    return np.asarray(cv2.resize(pixels, size, interpolation=cv2.INTER_AREA), np.uint8)


def _toner(pixels: Grey, rng: Generator, *, limit: float, hard: float) -> Grey:
    """Press grey through a drum: what is darker than the limit, which wanders over the sheet, comes out black."""
    soft = cv2.GaussianBlur(pixels, (0, 0), rng.uniform(0.7, 1.3)).astype(np.float32)
    soft += rng.normal(0, 7, soft.shape).astype(np.float32)
    edge = limit + 10 * cloud(soft.shape, rng, 4)
    return clipped(255 / (1 + np.exp(np.clip((edge - soft) / hard, -60, 60))))


def _dirt(pixels: Grey, rng: Generator, many: int) -> Grey:
    out = pixels.copy()
    for _ in range(int(rng.poisson(many))):
        at = tuple(int(v) for v in rng.uniform(0, 1, 2) * _size(out))
        cv2.ellipse(out, at, (int(rng.integers(0, 4)), int(rng.integers(0, 3))), float(rng.uniform(0, 180)), 0, 360,
                    (int(rng.choice([0, 20, 60, 255])),), -1)  # fmt: skip
    return out


def _streaks(pixels: Grey, rng: Generator) -> Grey:
    """Draw what a scratched drum leaves: lines down the sheet, dark and broken, or pale."""
    out = pixels.astype(np.float32)
    for _ in range(int(rng.integers(2, 7))):
        x, wide = int(rng.uniform(0, out.shape[1] - 5)), int(rng.integers(1, 5))
        on = cv2.resize(rng.random((40, 1)).astype(np.float32), (1, out.shape[0]), interpolation=cv2.INTER_LINEAR)
        shade = np.where(on > 0.35, rng.choice([-130, -70, 90, 160]), 0)
        out[:, x : x + wide] += shade
    return clipped(out)


def _copy(limit: float, *, generations: int, gain: int = 0, hard: float = 9, share: float = 1.0, around: int = 255,
          streaks: bool = False, degrees: float = 1.2, dpi: int = 300) -> Machine:  # fmt: skip
    """Give a copier: ``gain`` fattens the strokes (or, below 0, starves them) with every copy."""

    def machine(sheet: Colour, rng: Generator) -> Taken:
        page, moves = _grey(sheet), []
        for number in range(generations):
            page, move = _laid(page, rng, degrees=degrees, share=share if number == 0 else 1.0, around=around)
            moves.append(move)
            if gain:
                grown = (cv2.erode if gain > 0 else cv2.dilate)(page, np.ones((1 + abs(gain), 2), np.uint8))
                page = np.asarray(cv2.addWeighted(page, 0.4, grown, 0.6, 0), np.uint8)
            page = _dirt(_toner(page, rng, limit=limit, hard=hard), rng, 60)
            page = _streaks(page, rng) if streaks else page
        if dpi != RENDERED_DPI:
            page = _resized(page, dpi / RENDERED_DPI, dpi / RENDERED_DPI)
        return Taken(page, one_after_another(*moves), ".png", (dpi, dpi))

    return machine


def _fax(dpi: tuple[int, int], screen: str, *, lost: float = 0.0, turned: bool = False) -> Machine:
    """Give a fax machine: ``screen`` is how greys become black and white, ``lost`` the share of lines that fail."""

    def machine(sheet: Colour, rng: Generator) -> Taken:
        page, move = _laid(_grey(sheet), rng, degrees=1.0)
        if turned:
            page, laid = np.ascontiguousarray(np.rot90(page)), move
            move = one_after_another(laid, lambda at: np.stack([at[:, 1], 1 - at[:, 0]], axis=1))
        page = _resized(page, dpi[0] / RENDERED_DPI, dpi[1] / RENDERED_DPI)
        page = _black_or_white(clipped(page.astype(np.float32) * rng.uniform(0.92, 1.05)), screen, rng)
        page = _header(page, dpi)
        for row in np.flatnonzero(rng.random(len(page)) < lost):
            long = int(rng.integers(1, 4))
            page[row : row + long] = page[row - 1] if rng.random() < 0.6 else 255
            if rng.random() < 0.3:  # the line is torn from somewhere on
                page[row, int(rng.uniform(0, page.shape[1])) :] = rng.choice([0, 255])
        return Taken(np.where(page < 128, 0, 255).astype(np.uint8), move, ".tif", dpi)

    return machine


def _black_or_white(page: Grey, screen: str, rng: Generator) -> Grey:
    if screen == "limit":
        return np.where(page < rng.uniform(140, 205), 0, 255).astype(np.uint8)
    if screen == "ordered":
        tile = np.array([[0, 8, 2, 10], [12, 4, 14, 6], [3, 11, 1, 9], [15, 7, 13, 5]]) * 16 + 8
        limit = np.tile(tile, (page.shape[0] // 4 + 1, page.shape[1] // 4 + 1))[: page.shape[0], : page.shape[1]]
        return np.where(page <= limit, 0, 255).astype(np.uint8)
    from PIL import Image  # error diffusion after Floyd and Steinberg

    return np.asarray(Image.fromarray(page).convert("1").convert("L"), np.uint8).copy()


def _header(page: Grey, dpi: tuple[int, int]) -> Grey:
    """Write the sender's line over the page's top; it stays as long as it was."""
    line = np.full((round(dpi[0] * 0.12), page.shape[1]), 255, np.uint8)
    text = "12/03 09:41   FROM: 555 0100   TO: 555 0199   P. 02/03"
    cv2.putText(line, text, (40, len(line) - 6), cv2.FONT_HERSHEY_PLAIN, dpi[0] / 160, (0,), 1)
    high = round(len(line) * dpi[1] / dpi[0])
    page[:high] = np.where(cv2.resize(line, (page.shape[1], high), interpolation=cv2.INTER_NEAREST) < 128, 0, 255)
    return page


def _scan(dpi: int, *, grey: bool, quality: int = 80, through: float = 0.0, degrees: float = 0.6) -> Machine:
    """Give a flat scanner; ``through`` is how much of the sheet's back shines through."""

    def machine(sheet: Colour, rng: Generator) -> Taken:
        page, move = _laid(_grey(sheet) if grey else sheet, rng, degrees=degrees)
        if through:
            back = np.ascontiguousarray(page[::-1] if rng.random() < 0.3 else page[:, ::-1])
            back = cv2.GaussianBlur(back, (0, 0), 3)
            page = clipped(page * (1 - through * (1 - np.roll(back, 37, axis=0) / 255.0)))
        page = _resized(page, dpi / RENDERED_DPI, dpi / RENDERED_DPI)
        noisy = page * rng.uniform(0.93, 1.0) + rng.normal(0, 3.5, page.shape)
        return Taken(squeezed(clipped(noisy), quality), move, ".png", (dpi, dpi))

    return machine


def _halftone(sheet: Colour, rng: Generator) -> Taken:
    """A page printed in dots of four inks, and scanned."""
    page, move = _laid(sheet, rng, degrees=0.8)
    ys, xs = np.mgrid[0 : page.shape[0], 0 : page.shape[1]].astype(np.float32)
    inks = 255.0 - page.astype(np.float32)
    black = inks.min(axis=2)
    printed = np.full(page.shape, 255.0, np.float32)
    for i, angle in enumerate((15, 75, 0)):
        dots = _dots(inks[..., i] - black, xs, ys, np.deg2rad(angle), 255 / rng.uniform(3.5, 5.5))
        printed[..., i] -= 235 * dots
    printed *= 1 - 0.9 * _dots(black, xs, ys, np.deg2rad(45), 255 / rng.uniform(3.5, 5.5))[..., None]
    soft = cv2.GaussianBlur(printed, (0, 0), 1.1)
    return Taken(squeezed(_resized(clipped(soft), 0.75, 0.75), 85), move, ".png", (225, 225))


def _dots(ink: Numbers, xs: Numbers, ys: Numbers, angle: float, lines: float) -> npt.NDArray[np.float32]:
    step = 2 * np.pi * lines / 255
    a, b = xs * np.cos(angle) + ys * np.sin(angle), ys * np.cos(angle) - xs * np.sin(angle)
    limit = 127.5 * (1 + 0.5 * (np.cos(a * step) + np.cos(b * step)))
    return np.asarray(ink > np.minimum(limit, 250), np.float32)


def _weak_ink(sheet: Colour, rng: Generator) -> Taken:
    """A page from an ink-jet printer whose inks run out: bands across, a wandering tone, one ink paler."""
    page, move = _laid(sheet, rng, degrees=0.5)
    period = rng.uniform(22, 60)
    bands = 1 - rng.uniform(0.2, 0.5) * (np.sin(np.arange(page.shape[0]) * 2 * np.pi / period) > 0.75)
    strength = rng.uniform(0.5, 0.95, 3) * (0.85 + 0.15 * cloud(page.shape[:2], rng, 3)[..., None])
    faded = 255 - (255 - page.astype(np.float32)) * np.clip(strength, 0.3, 1) * bands[:, None, None]
    return Taken(squeezed(_resized(clipped(faded), 2 / 3, 2 / 3), 85), move, ".png", (200, 200))


def _viewer(sheet: Colour, rng: Generator) -> Taken:
    """A phone's view of the page: bars above and below, black beside it."""
    wide, high = 1080, 2340
    share = wide / sheet.shape[1]
    shown = _resized(sheet, share, share)
    screen = np.full((high, wide, 3), 18, np.uint8)
    screen[:90], screen[-140:] = 245, 245
    top = (high - shown.shape[0]) // 2
    screen[top : top + shown.shape[0]] = shown
    cv2.putText(screen, "report.pdf", (60, 62), cv2.FONT_HERSHEY_SIMPLEX, 1.1, (40, 40, 40), 2)
    matrix = np.array([[share, 0, 0], [0, share, top], [0, 0, 1]])
    return Taken(screen, by_matrix(matrix, _size(sheet), (wide, high)), ".jpg", quality=int(rng.integers(60, 90)))


MACHINES: dict[str, Machine] = {
    "copy": _copy(150, generations=1, degrees=1.8),
    "copies": _copy(150, generations=3),
    "dark-copy": _copy(205, generations=2, gain=1),
    "pale-copy": _copy(110, generations=1, gain=-1),
    "bilevel-copy": _copy(165, generations=2, hard=1.0, dpi=200),
    "small-copy": _copy(160, generations=1, share=0.71, dpi=200),
    "open-lid": _copy(150, generations=1, share=0.93, around=15, degrees=3.0),
    "streaks": _copy(150, generations=1, streaks=True),
    "fax-fine": _fax((204, 196), "limit"),
    "fax-diffused": _fax((204, 196), "diffused"),
    "fax-ordered": _fax((204, 196), "ordered"),
    "fax-standard": _fax((204, 98), "limit"),
    "fax-standard-diffused": _fax((204, 98), "diffused"),
    "fax-lost": _fax((204, 196), "limit", lost=0.02),
    "fax-on-its-side": _fax((204, 196), "limit", turned=True),
    "scan-100": _scan(100, grey=False),
    "scan-150": _scan(150, grey=True, degrees=1.5),
    "see-through": _scan(200, grey=True, through=0.35),
    "halftone": _halftone,
    "weak-ink": _weak_ink,
    "viewer": _viewer,
}


def machine_made(sheet: Colour, name: str, rng: Generator) -> Taken:
    """Send a sheet, rendered at 300 dots to the inch, through one of the `MACHINES`."""
    return MACHINES[name](sheet, rng)
