"""Audiograms as a web page draws them: SVG and HTML by hand, printed to PDF or photographed by headless Chromium.

Needs Debian's ``chromium``; not for CI.
"""

from __future__ import annotations

import subprocess
import tempfile
from dataclasses import dataclass, replace
from html import escape
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
from PIL import ImageFont

from octavo.interpret.record import Ear, Threshold

FONT = Path(get_data_path()) / "fonts" / "ttf" / "DejaVuSans.ttf"
FLAGS = (
    *("--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-sync"),
    *("--disable-background-networking", "--disable-component-update", "--hide-scrollbars", "--no-pdf-header-footer"),
)
SYMBOLS = (
    '<defs><symbol id="o" viewBox="-10 -10 20 20">'
    '<circle r="8" fill="none" stroke="currentColor" stroke-width="2"/></symbol>'
    '<symbol id="x" viewBox="-10 -10 20 20">'
    '<path d="M-7-7L7 7M-7 7L7-7" stroke="currentColor" stroke-width="2"/></symbol></defs>'
)


@dataclass(frozen=True, slots=True)
class Look:
    """How one page is laid out, in CSS pixels (96 to the inch)."""

    page: tuple[int, int] = (794, 1123)
    boxes: tuple[tuple[float, float, float, float], ...] = ((110, 330, 560, 520),)
    ticks: tuple[int, ...] = (125, *OCTAVES)
    tested: tuple[int, ...] = OCTAVES
    levels: tuple[int, int] = (-10, 120)
    equal: bool = False
    khz: bool = False
    top: bool = True
    marks: str = "shapes"
    grid: str = "#999"
    grid_dash: str = ""
    between: str = ""
    paper: str = "white"
    colours: tuple[str, str] = ("#d00", "#00d")
    radius: float = 7.0
    stroke: float = 1.6
    dashes: tuple[str, str] = ("", "6 4")
    joined: bool = True
    bone: float = 0.2
    arrow: str = "lines"
    key: bool = True
    text: bool = True
    bands: bool = False
    zoom: float = 1.0
    html_grid: bool = False


STYLES: dict[str, Look] = {
    "shapes": Look(),
    "letters": Look(marks="letters", top=False, boxes=((120, 300, 540, 500),), grid="#bbb", bone=0.22),
    "table-grid": Look(html_grid=True, marks="letters", ticks=OCTAVES, key=False, page=(900, 760),
                       boxes=((110, 110, 680, 560),), equal=True, text=False, bone=0.14, levels=(-10, 110)),
    "two-panels": Look(page=(1123, 794), boxes=((90, 260, 420, 420), (620, 260, 420, 420)), key=False, bone=0.24),
    "dashed-between": Look(between="3 3", tested=CLINIC, boxes=((110, 300, 600, 557),), levels=(-10, 120)),
    "one-ink": Look(colours=("#000", "#000"), khz=True, equal=True, ticks=CLINIC, tested=CLINIC, stroke=2.2, bone=0.22,
                    grid="#555", grid_dash="1 3", key=False, boxes=((100, 280, 610, 560),)),
    "tinted": Look(paper="#f3faf3", grid="#7fb38a", bands=True, boxes=((110, 260, 600, 600),), radius=8.5),
    "zoomed": Look(zoom=2.5, page=(1000, 800), boxes=((120, 100, 760, 600),), marks="use", text=False, top=False,
                   levels=(0, 120), stroke=2, radius=9, grid="#ccc", arrow="head"),
}  # fmt: skip


def page(seed: int, folder: Path) -> OutsidePage:
    """Draw page number ``seed`` into ``folder`` (see `deal`)."""
    rng, style, look = deal(2, seed, STYLES)
    colours = pick(rng, (("#d00", "#00d"), ("red", "blue"), ("#c0392b", "#2980b9"), ("#e4007c", "#0047ab")))
    look = replace(look, colours=look.colours if style == "one-ink" else colours, joined=rng.random() < 0.8)
    look = replace(
        look, arrow=pick(rng, (look.arrow, "lines", "head")), radius=look.radius * float(rng.uniform(0.9, 1.2))
    )
    truth = hearing_test(rng, Wish(look.tested, look.levels[1] - 10, look.levels[0], bone=pick(rng, BONES)))
    return _draw(f"svg-{seed:04d}-{style}", folder, truth, look, style, pick(rng, ("pdf", "pdf", "1", "1.5", "2", "3")))


def standard(name: str, folder: Path) -> OutsidePage:
    """Draw a standard audiogram, both ears alike, so that every X stands inside an O."""
    truth = tuple(one for one in standard_test(name) if one.frequency_hz != 375)
    look = replace(STYLES["dashed-between"], bone=0)
    return _draw(f"svg-{name}", folder, truth, look, "standard", "pdf")


def _draw(stem: str, folder: Path, truth: tuple[Threshold, ...], look: Look, style: str, kind: str) -> OutsidePage:
    frames = [Frame(look.page, box, look.ticks, look.levels, look.equal) for box in look.boxes]
    body = [_around(look)]
    for frame, ears in panels(frames):
        title = "Audiogram" if len(ears) == 2 else f"{ears[0]} ear".capitalize()
        body.append(_text(frame.box[0] + frame.box[2] / 2, frame.box[1] - 52, title, size=17))
        body += [_grid(frame, look), *(_ear(frame, truth, ear, look) for ear in ears)]
    markup = _document("\n".join(body), look)
    path = folder / f"{stem}.{'pdf' if kind == 'pdf' else 'png'}"
    _print(markup, path, look, kind)
    note = f"{style}, {'pdf' if kind == 'pdf' else 'screenshot x ' + kind}"
    return drawn(path, truth, frames, note, look.bone)


def _document(drawing: str, look: Look) -> str:
    w, h = look.page
    z = look.zoom
    svg = (
        f'<svg xmlns="http://www.w3.org/2000/svg" style="position:absolute;left:0;top:0" width="{w}" height="{h}" '
        f'viewBox="0 0 {w * z} {h * z}">{SYMBOLS}<g transform="scale({z})">{drawing}</g></svg>'
    )
    html_grid = "".join(_html_grid(Frame(look.page, box, look.ticks, look.levels, look.equal)) for box in look.boxes)
    return (
        f'<!DOCTYPE html><html><head><meta charset="utf-8"><style>@page{{size:{w}px {h}px;margin:0}}'
        f"html,body{{margin:0;width:{w}px;height:{h}px;overflow:hidden;background:{look.paper};"
        "-webkit-print-color-adjust:exact}*{box-sizing:border-box}</style></head>"
        f"<body>{html_grid if look.html_grid else ''}{svg}</body></html>"
    )


def _html_grid(frame: Frame) -> str:
    """Give the lines as borders of positioned boxes, as a page without SVG would."""
    left, top, width, height = frame.box
    lines = [f"left:{frame.x(hz):.2f}px;top:{top}px;width:0;height:{height}px;border-left" for hz in frame.ticks]
    lines += [
        f"left:{left}px;top:{frame.y(db):.2f}px;width:{width}px;height:0;border-top"
        for db in range(frame.levels[0], frame.levels[1] + 1, 10)
    ]
    edge = f"left:{left}px;top:{top}px;width:{width}px;height:{height}px;border"
    return "".join(f'<div style="position:absolute;{line}:1px solid #888"></div>' for line in (*lines, edge))


def _print(markup: str, path: Path, look: Look, kind: str) -> None:
    with tempfile.TemporaryDirectory() as temporary:
        source = Path(temporary) / "page.html"
        source.write_text(markup, encoding="utf-8")
        command = ["chromium", *FLAGS, f"--user-data-dir={temporary}/profile"]
        if kind == "pdf":
            command += [f"--print-to-pdf={path}"]
        else:
            w, h = look.page
            command += [f"--screenshot={path}", f"--window-size={w},{h}", f"--force-device-scale-factor={kind}"]
        subprocess.run([*command, source.as_uri()], check=True, capture_output=True, timeout=60)
    if not path.exists():
        raise FileNotFoundError(f"Chromium wrote no {path}")


def _around(look: Look) -> str:
    lines = []
    if look.text:
        lines += [(60, 70, 24, "Harbour Lane clinic"), (60, 100, 14, "14 Quay Street, Northmouth")]
        lines += [
            (60, 140, 14, "Name: B. Sample"),
            (330, 140, 14, "Date of birth: 09/11/1958"),
            (60, 165, 14, "Date of test: 17/04/2023"),
        ]
        lines += [(330, 165, 14, "Reliability: good")]
    out = [_text(x, y, text, size=size, anchor="start") for x, y, size, text in lines]
    if look.key:
        left, top, width, height = look.boxes[0]
        for row, (ear, word) in enumerate((("right", "Right"), ("left", "Left"))):
            for column, (conduction, masked) in enumerate(
                (("air", False), ("air", True), ("bone", False), ("bone", True))
            ):
                x, y = left + 20 + column * width / 4, top + height + 60 + 28 * row
                one = Threshold(
                    "right" if ear == "right" else "left", "air" if conduction == "air" else "bone", masked, 1000.0, 0.0
                )
                out.append(_sign(x, y, one, look))
                out.append(
                    _text(x + 16, y + 4, f"{word} {conduction}{', masked' if masked else ''}", size=11, anchor="start")
                )
    return "".join(out)


def _text(x: float, y: float, text: str, *, size: float, anchor: str = "middle", colour: str = "#000") -> str:
    style = f'font-family="DejaVu Sans, sans-serif" font-size="{size}" text-anchor="{anchor}" fill="{colour}"'
    return f'<text x="{x:.2f}" y="{y:.2f}" {style}>{escape(text)}</text>'


def _line(x1: float, y1: float, x2: float, y2: float, colour: str, width: float, dash: str = "") -> str:
    dashes = f' stroke-dasharray="{dash}"' if dash else ""
    ends = f'x1="{x1:.2f}" y1="{y1:.2f}" x2="{x2:.2f}" y2="{y2:.2f}"'
    return f'<line {ends} stroke="{colour}" stroke-width="{width}"{dashes}/>'


def _grid(frame: Frame, look: Look) -> str:
    left, top, width, height = frame.box
    high, low = frame.levels
    out = []
    if look.bands:
        for start, end, word, shade in (
            (high, 20, "normal", "#d8efdc"),
            (40, 60, "moderate", "#e4f2e6"),
            (80, 100, "", "#e4f2e6"),
        ):
            y, tall = frame.y(start), frame.y(end) - frame.y(start)
            out.append(f'<rect x="{left}" y="{y:.2f}" width="{width}" height="{tall:.2f}" fill="{shade}"/>')
            out.append(_text(left + width - 40, y + tall / 2 + 4, word, size=11, colour="#577"))
    if not look.html_grid:
        out += [_line(frame.x(hz), top, frame.x(hz), top + height, look.grid, 1, look.grid_dash) for hz in frame.ticks]
        out += [
            _line(left, frame.y(db), left + width, frame.y(db), look.grid, 1, look.grid_dash)
            for db in range(high, low + 1, 10)
        ]
        out.append(f'<rect x="{left}" y="{top}" width="{width}" height="{height}" fill="none" stroke="#333"/>')
    if look.between:
        out += [
            _line(frame.x(hz), top, frame.x(hz), top + height, look.grid, 0.8, look.between)
            for hz in (750, 1500, 3000, 6000)
        ]
    for hz in frame.ticks:
        name = f"{hz / 1000:g}" if look.khz else str(hz)
        out.append(_text(frame.x(hz), top - 10 if look.top else top + height + 20, name, size=13))
    out += [_text(left - 10, frame.y(db) + 4.5, str(db), size=13, anchor="end") for db in range(high, low + 1, 10)]
    name = "Frequency in kHz" if look.khz else "Frequency in Hz"
    out.append(_text(left + width / 2, top - 30 if look.top else top + height + 42, name, size=13))
    x, y = left - 52, top + height / 2
    return "".join(out) + f'<g transform="rotate(-90 {x} {y})">{_text(x, y, "Hearing level in dB HL", size=13)}</g>'


def _ear(frame: Frame, truth: tuple[Threshold, ...], ear: Ear, look: Look) -> str:
    colour = look.colours[0 if ear == "right" else 1]
    air = of(truth, ear, "air")
    out = []
    if look.joined:
        points = " ".join(f"{frame.x(t.frequency_hz):.2f},{frame.y(t.level_db_hl):.2f}" for t in air if t.response)
        dash = look.dashes[0 if ear == "right" else 1]
        ink = (
            f'fill="none" stroke="{colour}" stroke-width="{look.stroke * 0.8:.2f}" stroke-dasharray="{dash or "none"}"'
        )
        out.append(f'<polyline points="{points}" {ink}/>')
    for one in (*air, *of(truth, ear, "bone")):
        x, y = frame.x(one.frequency_hz, aside(one, look.bone)), frame.y(one.level_db_hl)
        out.append(_sign(x, y, one, look))
        if not one.response:
            out.append(_arrow(x, y, one, look, colour))
    return "".join(out)


def _sign(x: float, y: float, one: Threshold, look: Look) -> str:
    """Give one mark: an SVG shape, a letter set so that its ink is centred, or a copy of a symbol."""
    colour = look.colours[0 if one.ear == "right" else 1]
    what = (one.ear, one.conduction, one.masked)
    r = look.radius
    if look.marks == "letters":
        letter = {
            ("right", "air", False): "O", ("left", "air", False): "X", ("right", "air", True): "\u25b3",
            ("left", "air", True): "\u25a1", ("right", "bone", False): "<", ("left", "bone", False): ">",
            ("right", "bone", True): "[", ("left", "bone", True): "]",
        }[what]  # fmt: skip
        size = 2.4 * r
        left, top, right, bottom = ImageFont.truetype(FONT, 1000).getbbox(letter, anchor="ls")
        x, y = x - size * (left + right) / 2000, y - size * (top + bottom) / 2000
        return _text(x, y, letter, size=size, anchor="start", colour=colour)
    if look.marks == "use" and what in (("right", "air", False), ("left", "air", False)):
        box = f'x="{x - 1.2 * r:.2f}" y="{y - 1.2 * r:.2f}" width="{2.4 * r:.2f}" height="{2.4 * r:.2f}"'
        return f'<use href="#{"o" if one.ear == "right" else "x"}" {box} color="{colour}"/>'
    path = {
        ("right", "air", False): f"M{-r} 0A{r} {r} 0 1 0 {r} 0A{r} {r} 0 1 0 {-r} 0Z",
        (
            "left",
            "air",
            False,
        ): f"M{-r * 0.85} {-r * 0.85}L{r * 0.85} {r * 0.85}M{-r * 0.85} {r * 0.85}L{r * 0.85} {-r * 0.85}",
        ("right", "air", True): f"M0 {-r}L{r} {r * 0.8}H{-r}Z",
        ("left", "air", True): f"M{-r * 0.9} {-r * 0.9}H{r * 0.9}V{r * 0.9}H{-r * 0.9}Z",
        ("right", "bone", False): f"M{r * 0.4} {-r}L{-r * 0.5} 0L{r * 0.4} {r}",
        ("left", "bone", False): f"M{-r * 0.4} {-r}L{r * 0.5} 0L{-r * 0.4} {r}",
        ("right", "bone", True): f"M{r * 0.4} {-r}H{-r * 0.3}V{r}H{r * 0.4}",
        ("left", "bone", True): f"M{-r * 0.4} {-r}H{r * 0.3}V{r}H{-r * 0.4}",
    }[what]
    place = f'transform="translate({x:.2f} {y:.2f})"'
    return f'<path {place} d="{path}" fill="none" stroke="{colour}" stroke-width="{look.stroke}"/>'


def _arrow(x: float, y: float, one: Threshold, look: Look, colour: str) -> str:
    side, r = (-1 if one.ear == "right" else 1), look.radius
    x, y = x + side * r * 0.7, y + r * 0.7
    tip_x, tip_y = x + side * r * 1.5, y + r * 1.5
    shaft = _line(x, y, tip_x, tip_y, colour, look.stroke)
    barb = r * 0.8
    if look.arrow == "head":
        corners = f"{tip_x},{tip_y} {tip_x - side * barb},{tip_y} {tip_x},{tip_y - barb}"
        return shaft + f'<polygon points="{corners}" fill="{colour}"/>'
    ends = ((tip_x - side * barb, tip_y), (tip_x, tip_y - barb))
    return shaft + "".join(_line(tip_x, tip_y, a, b, colour, look.stroke) for a, b in ends)
