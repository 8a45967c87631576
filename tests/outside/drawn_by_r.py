"""Audiograms by R's base graphics: its plotting characters, its axes (levels written upwards, crowded labels dropped).

Needs Debian's ``r-base-core``; not for CI.
"""

from __future__ import annotations

import subprocess
from collections.abc import Iterable
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

from octavo.interpret.record import Ear, Threshold

Box = tuple[float, float, float, float]
What = tuple[str, str, bool]
PCH: dict[What, str] = {
    ("right", "air", False): "1", ("left", "air", False): "4", ("right", "air", True): "2", ("left", "air", True): "0",
    ("right", "bone", False): '"<"', ("left", "bone", False): '">"', ("right", "bone", True): '"["',
    ("left", "bone", True): '"]"',
}  # fmt: skip
LETTERS = PCH | {
    ("right", "air", False): '"O"', ("left", "air", False): '"X"', ("right", "air", True): r'"\u25b3"',
    ("left", "air", True): r'"\u25a1"',
}  # fmt: skip
STORY = (
    "The patient was seen for a hearing test after two years of ringing in both ears.", "Otoscopy was clear.",
    "Reliability was good. Masking was used where the rules ask for it.", "Tympanograms were of ordinary shape.",
    "The results below were explained, and a trial of amplification was offered.",
    "A copy of this letter goes to the family doctor.",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Look:
    """How one page is set up; lengths in inches, ``las`` turns R's labels (1 upright, 0 along the axis)."""

    page: tuple[float, float] = (7, 7)
    boxes: tuple[Box, ...] = ((0.9, 0.9, 5.6, 5.0),)
    ticks: tuple[int, ...] = OCTAVES
    tested: tuple[int, ...] = OCTAVES
    levels: tuple[int, int] = (-10, 120)
    step: int = 10
    equal: bool = False
    margin: float = 0.5
    khz: bool = False
    sides: tuple[int, ...] = (1, 2)
    las: int = 1
    grid: str = 'col="grey80", lwd=0.7'
    box: str = 'bty="o"'
    family: str = "Helvetica"
    text: float = 1.0
    marks: dict[What, str] | None = None
    size: float = 1.4
    pen: float = 1.6
    line: str = "l"
    dashes: tuple[int, int] = (1, 1)
    colours: tuple[str, str] = ("red", "blue")
    bone: float = 0.16
    legend: str = ""
    story: bool = False
    strips: bool = False
    devices: tuple[str, ...] = ("pdf", "png")


STYLES: dict[str, Look] = {
    "default": Look(las=0, grid="", legend="bottomleft", pen=1, size=1.2, devices=("pdf", "png96")),
    "top-right": Look(sides=(3, 4), khz=True, ticks=(125, *CLINIC), tested=CLINIC, page=(8.27, 11.69), text=0.85,
                      boxes=((0.9, 3.2, 6.2, 5.0),), grid='col="grey85", lwd=0.5', bone=0.18),
    "gaps": Look(line="b", grid="", box='bty="l"', pen=2.2, size=1.6, levels=(0, 120), step=20, bone=0.2,
                 colours=("firebrick", "steelblue4"), family="sans", devices=("pdf", "jpeg"), dashes=(1, 2)),
    "thick-grid": Look(grid='col="grey35", lwd=2', colours=("black", "black"), equal=True, ticks=CLINIC, tested=CLINIC,
                       page=(9, 6), boxes=((1.0, 0.8, 7.4, 4.4),), pen=1.3, bone=0.22, dashes=(1, 2), text=0.9,
                       devices=("pdf", "fax")),
    "letters": Look(marks=LETTERS, family="mono", size=1.5, devices=("cairo",), grid='col="lightblue", lwd=1', bone=0.2,
                    colours=("#b00000", "#0000b0"), page=(7.5, 6.5), boxes=((1.0, 1.0, 5.8, 4.4),), sides=(3, 2)),
    "in-letter": Look(page=(8.27, 11.69), boxes=((1.1, 5.4, 3.2, 2.9),), story=True, text=0.62, size=0.85, pen=1,
                      family="serif", bone=0.24, legend="right", grid='col="grey70", lwd=0.5, lty=3'),
    "two-strips": Look(page=(10, 5), boxes=((0.8, 0.9, 4.0, 3.3), (5.5, 0.9, 4.0, 3.3)), strips=True, text=0.8,
                       size=1.1, bone=0.22, grid='col="grey92", lwd=1', colours=("#d95f02", "#1b4f9c"), step=20,
                       devices=("pdf", "png")),
    "ticks-alone": Look(grid="", sides=(1, 2, 3, 4), family="serif", colours=("black", "black"),
                        devices=("fax", "png96"),
                        ticks=(125, *OCTAVES), levels=(-20, 120), page=(6.5, 7.5), boxes=((0.9, 1.0, 5.0, 5.6),),
                        bone=0.2, line="", pen=1.4),
}  # fmt: skip


def page(seed: int, folder: Path) -> OutsidePage:
    """Draw page number ``seed`` into ``folder`` (see `deal`)."""
    rng, style, look = deal(5, seed, STYLES)
    look = replace(look, line=look.line if rng.random() < 0.75 else "", size=look.size * float(rng.uniform(0.9, 1.2)))
    truth = hearing_test(rng, Wish(look.tested, look.levels[1] - 10, look.levels[0], bone=pick(rng, BONES)))
    return _draw(f"r-{seed:04d}-{style}", folder, truth, look, style, pick(rng, look.devices))


def standard(name: str, folder: Path) -> OutsidePage:
    """Draw a standard audiogram, both ears alike, so that every X stands inside an O."""
    return _draw(f"r-{name}", folder, standard_test(name), STYLES["top-right"], "standard", "pdf")


def _draw(stem: str, folder: Path, truth: tuple[Threshold, ...], look: Look, style: str, device: str) -> OutsidePage:
    w, h = look.page
    frames = [Frame(look.page, box, look.ticks, look.levels, look.equal, look.margin) for box in look.boxes]
    ending, opening = {
        "pdf": ("pdf", f'pdf("%s", {w}, {h}'), "cairo": ("pdf", f'cairo_pdf("%s", {w}, {h}'),
        "png": ("png", f'png("%s", {w}, {h}, "in", res=200'), "png96": ("png", f'png("%s", {w}, {h}, "in", res=96'),
        "jpeg": ("jpg", f'jpeg("%s", {w}, {h}, "in", res=150, quality=70'),
        "fax": ("tif", f'tiff("%s", {w}, {h}, "in", res=200, compression="lzw", antialias="none"'),
    }[device]  # fmt: skip
    path = folder / f"{stem}.{ending}"
    family = look.family if device in ("pdf", "cairo") or look.family != "Helvetica" else "sans"
    script = [opening % path + ")", f'par(family="{family}", cex={look.text}, mgp=c(2.2, 0.6, 0), bg="white")']
    script += _whole_page(look, frames)
    for frame, ears in panels(frames):
        script += [*_axes(frame, look, ears), *(line for ear in ears for line in _ear(frame, truth, ear, look))]
        script += _legend(truth, ears, look)
    text = "\n".join([*script, "invisible(dev.off())", ""])
    subprocess.run(["Rscript", "--vanilla", "-"], input=text, text=True, check=True, timeout=60, capture_output=True)
    return drawn(path, truth, frames, f"{style}, {device}", look.bone)


def _vector(values: Iterable[float | str]) -> str:
    return "c(" + ", ".join(f'"{one}"' if isinstance(one, str) else f"{one:.5g}" for one in values) + ")"


def _whole_page(look: Look, frames: list[Frame]) -> list[str]:
    w, h = look.page
    out = ["par(plt=c(0, 1, 0, 1))", "plot.new()", f'plot.window(c(0, {w}), c({h}, 0), xaxs="i", yaxs="i")']
    if look.story or h > 11:
        out += ['text(0.9, 0.9, "Harbour Lane clinic", adj=0, cex=1.6, font=2)']
        out += ['text(0.9, 1.3, "Name: D. Sample    Born: 02.10.1949    Tested: 21.03.2022", adj=0)']
    if look.story:
        below = frames[0].box[1] + frames[0].box[3] + 0.8
        heights = [*(1.8 + 0.26 * i for i in range(10)), *(below + 0.26 * i for i in range(8))]
        out += [f'text(0.9, {y}, "{STORY[i % 6]} {STORY[(i + 2) % 6]}", adj=0)' for i, y in enumerate(heights)]
    if look.strips:
        out += [
            f'rect({left}, {top - 0.32}, {left + width}, {top}, col="#ffe5cc")'
            for left, top, width, _ in (frame.box for frame in frames)
        ]
    return out


def _axes(frame: Frame, look: Look, ears: tuple[Ear, ...]) -> list[str]:
    left, top, width, height = frame.box
    w, h = frame.page
    first, last = frame.along(frame.ticks[0]) - frame.margin, frame.along(frame.ticks[-1]) + frame.margin
    place = _vector((left / w, (left + width) / w, 1 - (top + height) / h, 1 - top / h))
    ends = f"c({first:.5g}, {last:.5g}), c({frame.levels[1]}, {frame.levels[0]})"
    shown = [hz for hz in frame.ticks if look.equal or look.khz or hz not in (750, 1500, 3000, 6000)]
    names = _vector(f"{hz / 1000:g}" if look.khz else str(hz) for hz in shown)
    at, levels = _vector(frame.along(hz) for hz in shown), f"seq({frame.levels[0]}, {frame.levels[1]}, {look.step})"
    out = [f"par(plt={place}, new=TRUE)", "plot.new()", f'plot.window({ends}, xaxs="i", yaxs="i")']
    if look.grid:
        out += [f"abline(v={_vector(frame.along(hz) for hz in frame.ticks)}, h={levels}, {look.grid})"]
    out += [f"box({look.box})"]
    for side in look.sides:
        along = side in (1, 3)
        out += [f"axis({side}, {at if along else levels}, {names if along else levels}, las={look.las})"]
    unit = "Frequency [kHz]" if look.khz else "Frequency [Hz]"
    out += [f'mtext("{unit}", {look.sides[0]}, 2.2, cex={look.text})']
    out += [f'mtext("Hearing level [dB HL]", {look.sides[1]}, 2.6, cex={look.text})']
    if len(ears) == 1:
        out += [f'mtext("{ears[0]}", 3, 0.3, cex={look.text})']
    return out


def _ear(frame: Frame, truth: tuple[Threshold, ...], ear: Ear, look: Look) -> list[str]:
    colour, dash = look.colours[ear == "left"], look.dashes[ear == "left"]
    how = f'col="{colour}", lwd={look.pen}'
    air = of(truth, ear, "air")
    heard = [one for one in air if one.response]
    out: list[str] = []
    if look.line and heard:
        at = f"{_vector(frame.along(t.frequency_hz) for t in heard)}, {_vector(t.level_db_hl for t in heard)}"
        # Type "c" draws the lines of type "b" alone: they end before the marks.
        out += [f'lines({at}, type="{"c" if look.line == "b" else "l"}", lty={dash}, {how}, cex={look.size * 1.2})']
    for one in (*air, *of(truth, ear, "bone")):
        x, y = frame.along(one.frequency_hz) + aside(one, look.bone), one.level_db_hl
        pch = (look.marks or PCH)[one.ear, one.conduction, one.masked]
        out += [f"points({x:.5g}, {y:g}, pch={pch}, cex={look.size}, {how})"]
        if not one.response:
            side = -1 if ear == "right" else 1
            tail, tip = f"{x + 0.08 * side:.5g}, {y + 2:g}", f"{x + 0.3 * side:.5g}, {y + 7:g}"
            out += [f"arrows({tail}, {tip}, length=0.07, angle=25, xpd=TRUE, {how})"]
    return out


def _legend(truth: tuple[Threshold, ...], ears: tuple[Ear, ...], look: Look) -> list[str]:
    if not look.legend:
        return []
    kinds = [kind for kind in PCH if kind[0] in ears and any(kind == (t.ear, t.conduction, t.masked) for t in truth)]
    names = _vector(f"{ear} {conduction}{', masked' if masked else ''}" for ear, conduction, masked in kinds)
    codes = ", ".join(PCH[kind] if PCH[kind].startswith('"') else f"{PCH[kind]}" for kind in kinds)
    if any('"' in PCH[kind] for kind in kinds):
        # One vector of plotting characters is either numbers or letters: R takes a letter by its code.
        codes = ", ".join(str(ord(PCH[kind][1])) if '"' in PCH[kind] else PCH[kind] for kind in kinds)
    colours = _vector(look.colours[ear == "left"] for ear, _, _ in kinds)
    where = '"bottomleft", inset=0.02' if look.legend == "bottomleft" else "par('usr')[2] + 0.3, 20, xpd=NA"
    return [f'legend({where}, {names}, pch=c({codes}), col={colours}, cex=0.9, bg="white")']
