"""Audiograms as somebody draws them who tests a reader: reportlab's canvas, marks by letters or strokes, odd layouts.

What ordinary pages seldom have stands here: charts that fill the page or a corner of it, dark screens, keys and words
within the plot, one ear alone, bone alone, levels every 20 dB, arrows of several shapes, an axis drawn upwards.
"""

from __future__ import annotations

from collections.abc import Sequence
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
    known,
    of,
    panels,
    pick,
    standard_test,
)
from handed_on import picture
from matplotlib import get_data_path
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.pdfgen.canvas import Canvas

from octavo.interpret.record import Ear, Point, Threshold

FONT = "DejaVu"
BANDS = ((-10, 20, "Normal"), (20, 40, "Mild"), (40, 70, "Moderate"), (70, 90, "Severe"), (90, 120, "Profound"))
SHADES = ("#eef7ee", "#fdf6e3", "#fdebd0", "#fadbd8", "#e8daef")
Letters = dict[tuple[str, str, bool], str]
KEYBOARD: Letters = {
    ("right", "air", False): "O", ("left", "air", False): "X", ("right", "air", True): "\u25b3",
    ("left", "air", True): "\u25a1", ("right", "bone", False): "<", ("left", "bone", False): ">",
    ("right", "bone", True): "[", ("left", "bone", True): "]",
}  # fmt: skip
SIGNS: Letters = KEYBOARD | {("right", "air", False): "\u25cb", ("left", "air", False): "\u2715"}
STROKES: dict[tuple[str, str, bool], tuple[tuple[Point, ...], ...]] = {
    ("left", "air", False): (((-1, -1), (1, 1)), ((-1, 1), (1, -1))),
    ("right", "air", True): (((0, -1), (1, 0.8), (-1, 0.8), (0, -1)),),
    ("left", "air", True): (((-0.9, -0.9), (0.9, -0.9), (0.9, 0.9), (-0.9, 0.9), (-0.9, -0.9)),),
    ("right", "bone", False): (((0.5, -1), (-0.5, 0), (0.5, 1)),),
    ("left", "bone", False): (((-0.5, -1), (0.5, 0), (-0.5, 1)),),
    ("right", "bone", True): (((0.4, -1), (-0.4, -1), (-0.4, 1), (0.4, 1)),),
    ("left", "bone", True): (((-0.4, -1), (0.4, -1), (0.4, 1), (-0.4, 1)),),
}


@dataclass(frozen=True, slots=True)
class Look:
    """How one page is drawn, in points; ``letters`` are set as text, without them marks are stroked."""

    page: tuple[float, float] = (612, 792)
    boxes: tuple[tuple[float, float, float, float], ...] = ((90, 150, 430, 430),)
    ticks: tuple[int, ...] = OCTAVES
    tested: tuple[int, ...] = OCTAVES
    levels: tuple[int, int] = (-10, 120)
    step: int = 10
    equal: bool = False
    khz: str = ""
    top: bool = True
    titles: bool = True
    head: tuple[str, ...] = ("Harbour Lane clinic", "Pure tone audiogram", "Patient: Test Case    Date: 2025-03-04")
    letters: Letters | None = None
    radius: float = 6
    pen: float = 1.4
    text: float = 9
    paper: str = "#ffffff"
    ink: str = "#000000"
    grid: str = "#b0b0b0"
    grid_pen: float = 0.5
    fine: bool = False
    colours: tuple[str, str] = ("#d00000", "#0000d0")
    dashes: tuple[tuple[int, ...], tuple[int, ...]] = ((), (4, 3))
    joined: bool = True
    bands: str = ""
    key: str = ""
    only: str = ""
    bone: float = 0.16
    arrow: str = "slant"
    upwards: bool = False
    kinds: tuple[str, ...] = ("pdf", "pdf", "100", "150", "200")


DARK = Look(paper="#121212", ink="#e0e0e0", grid="#444444", colours=("#ff6b6b", "#4dabf7"))
STYLES: dict[str, Look] = {
    "keyboard": Look(letters=KEYBOARD, key="below", radius=6.5),
    "signs": Look(letters=SIGNS, key="inside", fine=True, radius=7, top=False),
    "full-page": Look(page=(842, 595), boxes=((46, 40, 780, 530),), head=(), radius=9, pen=2.2, text=12, titles=False,
                      ticks=(125, *CLINIC), tested=CLINIC),
    "tiny": Look(boxes=((60, 120, 170, 150),), radius=3, pen=0.8, text=5.5, ticks=OCTAVES, key="beside"),
    "dark": replace(DARK, page=(800, 600), boxes=((80, 90, 660, 460),), key="inside", kinds=("96", "150", "pdf"),
                    head=("Audiogram",), radius=8, pen=2),
    "thick": Look(pen=3.5, grid_pen=1.5, radius=8, grid="#888888", key="beside", boxes=((90, 150, 400, 430),)),
    "bands": Look(bands="shaded", khz="kHz", key="below", letters=None, ticks=(125, *CLINIC), tested=CLINIC),
    "words": Look(bands="words", only="right", key="inside", top=False, boxes=((90, 170, 450, 400),)),
    "left-alone": Look(only="left", step=20, levels=(0, 120), titles=False, head=("Left ear",), fine=True),
    "bone-alone": Look(only="bone", head=("Bone conduction",), key="beside", boxes=((90, 150, 380, 400),)),
    "two-ears": Look(page=(842, 595), boxes=((60, 120, 340, 380), (470, 120, 340, 380)), radius=5.5, key="below",
                     khz="k", equal=True, ticks=CLINIC, tested=CLINIC, text=7.5),
    "black": Look(colours=("#000000", "#000000"), key="beside", boxes=((90, 150, 380, 430),), arrow="down"),
    "upwards": Look(upwards=True, key="below"),
    "bare": Look(titles=False, head=(), joined=False, grid="#ffffff", letters=KEYBOARD, levels=(-20, 110)),
}  # fmt: skip


def page(seed: int, folder: Path) -> OutsidePage:
    """Draw page number ``seed`` into ``folder`` (see `deal`)."""
    rng, style, look = deal(7, seed, STYLES)
    look = replace(look, joined=look.joined and rng.random() < 0.8, radius=look.radius * float(rng.uniform(0.85, 1.2)))
    if look.arrow == "slant":
        look = replace(look, arrow=pick(rng, ("slant", "down", "head", "apart", "bent")))
    bone = "masked" if look.only == "bone" else pick(rng, BONES)
    truth = hearing_test(rng, Wish(look.tested, look.levels[1] - 10, look.levels[0], bone=bone))
    truth = tuple(one for one in truth if look.only in ("", one.ear, one.conduction))
    return draw(f"testers-{seed:04d}-{style}", folder, truth, look, style, pick(rng, look.kinds))


def standard(name: str, folder: Path) -> OutsidePage:
    """Draw a standard audiogram, both ears alike, so that every X stands inside an O."""
    look = replace(STYLES["full-page"], ticks=(125, *CLINIC))
    return draw(f"testers-{name}", folder, standard_test(name), look, "standard", "pdf")


def draw(stem: str, folder: Path, truth: tuple[Threshold, ...], look: Look, style: str, kind: str) -> OutsidePage:
    """Draw given values in a given look; ``kind`` is pdf, or the dots to the inch of a picture."""
    frames = [Frame(look.page, box, look.ticks, look.levels, look.equal) for box in look.boxes]
    pdf = folder / f"{stem}.pdf"
    if FONT not in pdfmetrics.getRegisteredFontNames():
        pdfmetrics.registerFont(TTFont(FONT, Path(get_data_path()) / "fonts" / "ttf" / "DejaVuSans.ttf"))
    sheet = _Sheet(Canvas(str(pdf), look.page, invariant=True), look)
    sheet.box((0, 0, *look.page), fill=look.paper)
    for row, line in enumerate(look.head):
        sheet.text(look.page[0] * 0.08, 36 + 1.9 * row * look.text, line, 1.6 if row == 0 else 1.1, "l")
    for frame, ears in panels(frames):
        if len(frames) > 1:
            sheet.text(frame.box[0] + frame.box[2] / 2, frame.box[1] - 4.4 * look.text, f"{ears[0].title()} ear", 1.3)
        _grid(sheet, frame)
        for ear in ears:
            _ear(sheet, frame, truth, ear)
    _key(sheet, frames[0], truth)
    sheet.canvas.save()
    path, note = pdf, "pdf"
    if kind != "pdf":
        path, note = pdf.with_suffix(".png"), f"png at {kind} dpi"
        picture(pdf, float(kind)).save(path)
        pdf.unlink()
    mirrored = [_mirrored(frame) for frame in frames] if look.upwards else frames
    return drawn(path, truth, mirrored, f"{style}, {note}", look.bone)


def _mirrored(frame: Frame) -> Frame:
    left, top, width, height = frame.box
    return replace(frame, box=(left, top + height, width, -height))


@dataclass(frozen=True, slots=True)
class _Sheet:
    """A canvas whose y runs downwards."""

    canvas: Canvas
    look: Look

    def line(self, points: Sequence[Point], colour: str, pen: float, dash: tuple[int, ...] = ()) -> None:
        path = self.canvas.beginPath()
        path.moveTo(points[0][0], self.look.page[1] - points[0][1])
        for x, y in points[1:]:
            path.lineTo(x, self.look.page[1] - y)
        self.canvas.setStrokeColor(colour)
        self.canvas.setLineWidth(pen)
        self.canvas.setDash([float(length) for length in dash])
        self.canvas.drawPath(path)

    def box(self, box: tuple[float, float, float, float], *, fill: str = "", stroke: str = "") -> None:
        left, top, width, height = box
        self.canvas.setFillColor(fill or "#ffffff")
        self.canvas.setStrokeColor(stroke or "#ffffff")
        self.canvas.setLineWidth(0.8)
        self.canvas.setDash()
        self.canvas.rect(
            left, self.look.page[1] - top - height, width, height, fill=int(bool(fill)), stroke=int(bool(stroke))
        )

    def text(self, x: float, y: float, text: str, size: float = 1.0, anchor: str = "m", colour: str = "") -> None:
        points = size * self.look.text
        self.canvas.setFillColor(colour or self.look.ink)
        self.canvas.setFont(FONT if any(ord(c) > 255 for c in text) else "Helvetica", points)
        put = {"l": self.canvas.drawString, "m": self.canvas.drawCentredString, "r": self.canvas.drawRightString}
        put[anchor](x, self.look.page[1] - y - 0.36 * points, text)


def _grid(sheet: _Sheet, frame: Frame) -> None:
    look = sheet.look
    left, top, width, height = frame.box
    right, bottom = left + width, top + height
    up = _mirrored(frame) if look.upwards else frame
    for (low, high, word), shade in zip(BANDS, SHADES, strict=True):
        y = up.y(max(low, frame.levels[0])), up.y(min(high, frame.levels[1]))
        if look.bands == "shaded":
            sheet.box((left, min(y), width, abs(y[1] - y[0])), fill=shade)
        if look.bands:
            sheet.text(right - 3, sum(y) / 2, word, 0.8, "r", "#777777")
    for db in range(frame.levels[0], frame.levels[1] + 1, 5 if look.fine else look.step):
        even = db % look.step == 0
        sheet.line([(left, up.y(db)), (right, up.y(db))], look.grid, look.grid_pen * (1 if even else 0.5))
        if even:
            sheet.text(left - 5, up.y(db), str(db), anchor="r")
    for hz in frame.ticks:
        x = frame.x(hz)
        sheet.line([(x, top), (x, bottom)], look.grid, look.grid_pen)
        named = f"{hz / 1000:g}{look.khz if look.khz == 'k' and hz >= 1000 else ''}" if look.khz else str(hz)
        named = str(hz) if look.khz == "k" and hz < 1000 else named
        if frame.equal or look.khz or hz in (125, *OCTAVES):
            sheet.text(x, top - 0.9 * look.text if look.top else bottom + look.text, named, 0.9)
    sheet.box(frame.box, stroke=look.ink)
    if look.titles:
        name = "Frequency (kHz)" if look.khz == "kHz" else "Frequency (Hz)"
        sheet.text(left + width / 2, top - 2.4 * look.text if look.top else bottom + 2.4 * look.text, name)
        sheet.canvas.saveState()
        sheet.canvas.translate(left - 3.4 * look.text, look.page[1] - top - height / 2)
        sheet.canvas.rotate(90)
        sheet.canvas.setFont("Helvetica", look.text)
        sheet.canvas.setFillColor(look.ink)
        sheet.canvas.drawCentredString(0, 0, "Hearing level (dB HL)")
        sheet.canvas.restoreState()


def _ear(sheet: _Sheet, frame: Frame, truth: Sequence[Threshold], ear: Ear) -> None:
    look, up = sheet.look, _mirrored(frame) if sheet.look.upwards else frame
    number = 0 if ear == "right" else 1
    air = of(truth, ear, "air")
    points = [(up.x(t.frequency_hz), up.y(t.level_db_hl)) for t in air if t.response]
    if look.joined and len(points) > 1:
        sheet.line(points, look.colours[number], look.pen, look.dashes[number])
    for one in (*air, *of(truth, ear, "bone")):
        at = up.x(one.frequency_hz, aside(one, look.bone)), up.y(one.level_db_hl)
        _mark(sheet, at, one)
        if not one.response:
            _arrow(sheet, at, one)


def _mark(sheet: _Sheet, at: Point, one: Threshold) -> None:
    look, what = sheet.look, (one.ear, one.conduction, one.masked)
    colour = look.colours[0 if one.ear == "right" else 1]
    if look.letters:
        sheet.text(*at, look.letters[what], 2.3 * look.radius / look.text, "m", colour)
    elif what in STROKES:
        for stroke in STROKES[what]:
            sheet.line([(at[0] + look.radius * x, at[1] + look.radius * y) for x, y in stroke], colour, look.pen)
    else:
        sheet.canvas.setStrokeColor(colour)
        sheet.canvas.setLineWidth(look.pen)
        sheet.canvas.setDash()
        sheet.canvas.circle(at[0], look.page[1] - at[1], look.radius)


def _arrow(sheet: _Sheet, at: Point, one: Threshold) -> None:
    """Hang an arrow from a mark: slantwise, straight down, with a filled head, a little apart, or bent."""
    look, r = sheet.look, sheet.look.radius
    out = 1 if one.ear == "left" else -1
    colour = look.colours[0 if one.ear == "right" else 1]
    way = (0.0, 1.0) if look.arrow == "down" else (0.75 * out, 0.75)
    first, last = (1.6, 3.2) if look.arrow == "apart" else (1.1, 2.9)
    start, tip = ((at[0] + way[0] * r * by, at[1] + way[1] * r * by) for by in (first, last))
    if look.arrow == "bent":
        start, tip = (at[0] + out * r, at[1] + r), (at[0] + out * r, at[1] + 3 * r)
        way = (0.0, 1.0)
    sheet.line([start, tip], colour, look.pen * 0.8)
    wings = [
        (tip[0] + 0.9 * r * (side * way[1] * 0.6 - way[0]), tip[1] + 0.9 * r * (-side * way[0] * 0.6 - way[1]))
        for side in (-1, 1)
    ]
    head = [wings[0], tip, wings[1]]
    sheet.line([*head, wings[0]] if look.arrow == "head" else head, colour, look.pen * 0.8)


def _key(sheet: _Sheet, frame: Frame, truth: Sequence[Threshold]) -> None:
    """Print the key of the marks that the page holds: in a box within the plot, beside it or below it."""
    look = sheet.look
    if not look.key:
        return
    left, top, width, height = frame.box
    kinds = dict.fromkeys((one.ear, one.conduction, one.masked) for one in truth)
    ears: tuple[Ear, ...] = ("right", "left")
    rows = [known(e, c, 1000, 0, masked=m) for e in ears for c in ("air", "bone") for m in (False, True)]
    rows = [one for one in rows if (one.ear, one.conduction, one.masked) in kinds]
    size = 0.85 if look.key == "inside" else 1.0
    high = 1.7 * max(look.text * size, look.radius * 1.2)
    x0, y0 = {
        "inside": (left + 8, top + height - high * (len(rows) + 0.3)),
        "beside": (left + width + 12, top + 10),
        "below": (left, top + height + 3.6 * look.text),
    }[look.key]
    if look.key == "inside":
        sheet.box((x0 - 4, y0 - 0.2 * high, 13 * look.text, high * len(rows) + 4), fill=look.paper, stroke=look.ink)
    for number, one in enumerate(rows):
        row, column = (number // 2, number % 2) if look.key == "below" else (number, 0)
        x, y = x0 + column * width / 2 + look.radius + 4, y0 + (row + 0.5) * high
        _mark(sheet, (x, y), one)
        name = f"{one.ear.title()} {one.conduction}{' (masked)' if one.masked else ''}"
        sheet.text(x + 2 * look.radius, y, name, size, "l")
