"""Audiograms set pixel by pixel with Pillow: the aliased, low, one-bit or dithered pictures that old programs made."""

from __future__ import annotations

from dataclasses import dataclass, replace
from pathlib import Path

from cases import (
    BONES,
    CLINIC,
    OCTAVES,
    Frame,
    OutsidePage,
    Wish,
    aside,
    deal,
    drawn,
    hearing_test,
    of,
    panels,
    pick,
    standard_test,
)
from matplotlib import get_data_path
from PIL import Image, ImageDraw, ImageFont

from octavo.interpret.record import Ear, Threshold

FONTS = Path(get_data_path()) / "fonts" / "ttf"
BITMAP_HEIGHT = 11
Colour = tuple[int, int, int]
BLACK: Colour = (0, 0, 0)


@dataclass(frozen=True, slots=True)
class Look:
    """How one picture is made, in its own pixels; ``zoom`` enlarges it afterwards without smoothing."""

    page: tuple[int, int]
    boxes: tuple[tuple[int, int, int, int], ...]
    ticks: tuple[int, ...] = (125, *OCTAVES)
    tested: tuple[int, ...] = OCTAVES
    levels: tuple[int, int] = (-10, 120)
    equal: bool = False
    khz: bool = False
    top: bool = True
    right: Colour = (255, 0, 0)
    left: Colour = (0, 0, 255)
    grid: Colour = (128, 128, 128)
    grid_dots: int = 0
    paper: Colour = (255, 255, 255)
    font: str = ""
    text_size: int = 11
    radius: int = 5
    pen: int = 1
    grid_pen: int = 1
    joined: bool = True
    bone: float = 0.2
    finish: str = "colour"
    zoom: int = 1
    dpi: int = 96
    kinds: tuple[str, ...] = ("png",)
    head: tuple[str, ...] = ()
    key: bool = False


HEAD = ("HARBOUR LANE CLINIC", "PURE TONE AUDIOGRAM", "NAME: C. TESTCASE   AGE: 57   DATE: 12/08/1994")
STYLES: dict[str, Look] = {
    "screen": Look((640, 480), ((70, 60, 420, 390),), kinds=("png", "gif", "bmp"), radius=5, grid=(170, 170, 170)),
    "dot-matrix": Look((600, 840), ((90, 200, 430, 420),), right=BLACK, left=BLACK, grid=BLACK, grid_dots=3,
                       finish="one-bit", zoom=3, dpi=216, kinds=("png", "tif"), head=HEAD, bone=0.25),
    "laser": Look((2480, 3508), ((420, 1000, 1640, 1523),), right=BLACK, left=BLACK, grid=BLACK, font="DejaVuSans.ttf",
                  text_size=42, radius=22, pen=4, grid_pen=2, finish="one-bit", dpi=300, kinds=("tif",), head=HEAD,
                  key=True),
    "two-small": Look((1654, 1169), ((140, 330, 600, 600), (920, 330, 600, 600)), right=BLACK, left=BLACK, equal=True,
                      grid=BLACK, grid_dots=4, font="DejaVuSansMono.ttf", text_size=20, radius=11, pen=2, dpi=140,
                      finish="one-bit", kinds=("tif", "png"), head=HEAD, ticks=OCTAVES),
    "dithered": Look((1654, 2339), ((280, 700, 1120, 1040),), font="DejaVuSerif.ttf", text_size=28, radius=15, pen=4,
                     grid=(120, 120, 120), grid_pen=3, finish="dithered", dpi=200, kinds=("tif", "png"), head=HEAD,
                     key=True),
    "grey": Look((1240, 1754), ((200, 500, 860, 798),), font="DejaVuSans.ttf", text_size=22, radius=11, pen=2,
                 finish="grey", dpi=150, kinds=("jpg",), khz=True, top=False, head=HEAD),
    "paper": Look((1654, 2339), ((260, 640, 1160, 1077),), ticks=(125, *CLINIC), tested=CLINIC, paper=(250, 243, 222),
                  grid=(196, 164, 120), font="DejaVuSans.ttf", text_size=24, radius=14, pen=3, grid_pen=2, dpi=200,
                  kinds=("png", "jpg"), head=HEAD, right=(190, 20, 40), left=(25, 40, 150)),
    "smooth": Look((2400, 2000), ((300, 260, 1900, 1500),), ticks=OCTAVES, font="DejaVuSans.ttf", text_size=52,
                   radius=28, pen=6, grid_pen=3, finish="shrunk", dpi=100, kinds=("png", "jpg"), grid=(205, 205, 205),
                   bone=0.16),
}  # fmt: skip


def page(seed: int, folder: Path) -> OutsidePage:
    """Draw page number ``seed`` into ``folder`` (see `deal`)."""
    rng, style, look = deal(3, seed, STYLES)
    look = replace(look, joined=rng.random() < 0.75)
    truth = hearing_test(rng, Wish(look.tested, look.levels[1] - 10, look.levels[0], bone=pick(rng, BONES)))
    return draw(f"pillow-{seed:04d}-{style}", folder, truth, look, style, pick(rng, look.kinds))


def standard(name: str, folder: Path) -> OutsidePage:
    """Draw a standard audiogram, both ears alike, so that every X stands inside an O."""
    look = replace(STYLES["paper"], paper=(255, 255, 255))
    return draw(f"pillow-{name}", folder, standard_test(name), look, "standard", "png")


def draw(stem: str, folder: Path, truth: tuple[Threshold, ...], look: Look, style: str, kind: str) -> OutsidePage:
    picture = Image.new("RGB", look.page, look.paper)
    frames = [Frame(look.page, box, look.ticks, look.levels, look.equal) for box in look.boxes]
    for row, line in enumerate(look.head):
        _write(picture, look.page[0] * 0.1, look.text_size * (3 + 2.2 * row), line, look, anchor="l")
    for frame, ears in panels(frames):
        _grid(picture, frame, look)
        if len(ears) == 1:
            _write(
                picture, frame.box[0], frame.box[1] - 4.2 * look.text_size, f"{ears[0].upper()} EAR", look, anchor="l"
            )
        for ear in ears:
            _ear(picture, frame, truth, ear, look)
    if look.key:
        _key(picture, frames[0], look)
    path = folder / f"{stem}.{kind}"
    _save(_finish(picture, look), path, look)
    return drawn(path, truth, frames, f"{style}, {kind} at {look.dpi} dpi, {look.finish}", look.bone)


def _finish(picture: Image.Image, look: Look) -> Image.Image:
    if look.finish == "shrunk":
        return picture.resize((picture.width // 3, picture.height // 3), Image.Resampling.LANCZOS)
    if look.zoom > 1:
        picture = picture.resize((picture.width * look.zoom, picture.height * look.zoom), Image.Resampling.NEAREST)
    if look.finish == "one-bit":
        return picture.convert("1", dither=Image.Dither.NONE)
    if look.finish == "dithered":
        return picture.convert("1", dither=Image.Dither.FLOYDSTEINBERG)
    return picture.convert("L") if look.finish == "grey" else picture


def _save(picture: Image.Image, path: Path, look: Look) -> None:
    if path.suffix == ".tif":
        picture.save(path, dpi=(look.dpi, look.dpi), compression="group4")
    elif path.suffix in (".gif", ".bmp"):
        picture.save(path)
    else:
        picture.save(path, dpi=(look.dpi, look.dpi))


def _write(picture: Image.Image, x: float, y: float, text: str, look: Look, *, anchor: str = "m") -> None:
    """Write a line of text with its left end (l), middle (m) or right end (r) at x and its middle height at y."""
    draw = ImageDraw.Draw(picture)
    draw.fontmode = "L" if look.finish in ("grey", "shrunk") else "1"
    if look.font:
        draw.text(
            (x, y), text, fill=BLACK, font=ImageFont.truetype(FONTS / look.font, look.text_size), anchor=anchor + "m"
        )
        return
    font = ImageFont.load_default_imagefont()
    left = x - {"l": 0.0, "m": 0.5, "r": 1.0}[anchor] * font.getbbox(text)[2]
    draw.text((left, y - BITMAP_HEIGHT / 2), text, fill=BLACK, font=font)


def _dotted(draw: ImageDraw.ImageDraw, ends: tuple[int, int, int, int], look: Look) -> None:
    """Draw one grid line, solid or as single pixels ``grid_dots`` apart."""
    if not look.grid_dots:
        draw.line(ends, fill=look.grid, width=look.grid_pen)
        return
    x1, y1, x2, y2 = ends
    steps = max(x2 - x1, y2 - y1) // look.grid_dots
    draw.point([(x1 + (x2 - x1) * i // steps, y1 + (y2 - y1) * i // steps) for i in range(steps + 1)], fill=look.grid)


def _grid(picture: Image.Image, frame: Frame, look: Look) -> None:
    draw = ImageDraw.Draw(picture)
    left, top, width, height = (round(part) for part in frame.box)
    high, low = frame.levels
    for db in range(high, low + 1, 10):
        y = round(frame.y(db))
        _dotted(draw, (left, y, left + width, y), look)
        _write(picture, left - 0.6 * look.text_size, y, str(db), look, anchor="r")
    for hz in frame.ticks:
        x = round(frame.x(hz))
        _dotted(draw, (x, top, x, top + height), look)
        crowded = not frame.equal and not look.khz and hz in (750, 1500, 3000, 6000)
        name = f"{hz / 1000:g}" if look.khz else str(hz)
        if not crowded:
            _write(picture, x, top - 1.2 * look.text_size if look.top else top + height + look.text_size, name, look)
    draw.rectangle((left, top, left + width, top + height), outline=BLACK, width=look.grid_pen)
    y = top - 2.8 * look.text_size if look.top else top + height + 2.6 * look.text_size
    _write(picture, left + width / 2, y, "FREQUENCY IN KHZ" if look.khz else "FREQUENCY IN HZ", look)
    _write(picture, left - 3.5 * look.text_size, top - 2.8 * look.text_size, "dB HL", look, anchor="l")


def _ear(picture: Image.Image, frame: Frame, truth: tuple[Threshold, ...], ear: Ear, look: Look) -> None:
    draw = ImageDraw.Draw(picture)
    colour = look.right if ear == "right" else look.left
    air = of(truth, ear, "air")
    if look.joined:
        points = [(frame.x(t.frequency_hz), frame.y(t.level_db_hl)) for t in air if t.response]
        draw.line(points, fill=colour, width=look.pen)
    for one in (*air, *of(truth, ear, "bone")):
        x, y = frame.x(one.frequency_hz, aside(one, look.bone)), frame.y(one.level_db_hl)
        _mark(draw, round(x), round(y), one, look)
        if not one.response:
            _arrow(draw, round(x), round(y), one, look)


def _mark(draw: ImageDraw.ImageDraw, x: int, y: int, one: Threshold, look: Look) -> None:
    r, h = look.radius, max(2, round(look.radius * 0.5))
    colour = look.right if one.ear == "right" else look.left
    what = (one.conduction, one.masked, one.ear)
    out = 1 if one.ear == "left" else -1
    strokes: list[list[tuple[int, int]]]
    if what == ("air", False, "right"):
        draw.ellipse((x - r, y - r, x + r, y + r), outline=colour, width=look.pen)
        return
    if what == ("air", False, "left"):
        strokes = [[(x - r, y - r), (x + r, y + r)], [(x - r, y + r), (x + r, y - r)]]
    elif what == ("air", True, "right"):
        strokes = [[(x, y - r), (x + r, y + r), (x - r, y + r), (x, y - r)]]
    elif what == ("air", True, "left"):
        strokes = [[(x - r, y - r), (x + r, y - r), (x + r, y + r), (x - r, y + r), (x - r, y - r)]]
    elif one.masked:
        strokes = [[(x - out * h, y - r), (x + out * h, y - r), (x + out * h, y + r), (x - out * h, y + r)]]
    else:
        strokes = [[(x - out * h, y - r), (x + out * h, y), (x - out * h, y + r)]]
    for stroke in strokes:
        draw.line(stroke, fill=colour, width=look.pen)


def _arrow(draw: ImageDraw.ImageDraw, x: int, y: int, one: Threshold, look: Look) -> None:
    out, r = (1 if one.ear == "left" else -1), look.radius
    colour = look.right if one.ear == "right" else look.left
    start, tip = (x + out * r, y + r), (x + out * 2 * r, y + 2 * r)
    for end in (start, (tip[0] - out * r, tip[1]), (tip[0], tip[1] - r)):
        draw.line([tip, end], fill=colour, width=look.pen)


def _key(picture: Image.Image, frame: Frame, look: Look) -> None:
    draw = ImageDraw.Draw(picture)
    left, top, width, height = frame.box
    ears: tuple[Ear, ...] = ("right", "left")
    for row, ear in enumerate(ears):
        for column, (name, bone, masked) in enumerate(
            (("AIR", 0, 0), ("AIR MASKED", 0, 1), ("BONE", 1, 0), ("BONE MASKED", 1, 1))
        ):
            x, y = left + column * width / 4, top + height + look.text_size * (4 + 2 * row)
            one = Threshold(ear, "bone" if bone else "air", bool(masked), 1000.0, 0.0)
            _mark(draw, round(x), round(y), one, look)
            _write(
                picture,
                x + 2 * look.radius,
                y,
                f"{ear.upper()} {name}",
                replace(look, text_size=look.text_size * 2 // 3),
                anchor="l",
            )
