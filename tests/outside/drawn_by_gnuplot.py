"""Audiograms as gnuplot plots them: its own axes, tics, point types and keys, through the cairo and gd terminals.

Needs Debian's ``gnuplot-nox``; not for CI.
"""

from __future__ import annotations

import subprocess
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

from octavo.interpret.record import Conduction, Ear, Threshold

POINTS = {("right", False): 6, ("left", False): 2, ("right", True): 8, ("left", True): 4}
LETTERS = {("right", False): "<", ("left", False): ">", ("right", True): "[", ("left", True): "]"}


@dataclass(frozen=True, slots=True)
class Look:
    """How one plot is set up; boxes are in pixels of ``page``, which the cairo PDF terminal takes as 1/100 inch."""

    page: tuple[int, int] = (800, 700)
    boxes: tuple[tuple[int, int, int, int], ...] = ((90, 70, 670, 540),)
    ticks: tuple[int, ...] = OCTAVES
    tested: tuple[int, ...] = OCTAVES
    levels: tuple[int, int] = (-10, 120)
    equal: bool = False
    khz: bool = False
    top: bool = False
    both_ends: bool = False
    colours: tuple[str, str] = ("red", "blue")
    dashes: tuple[int, int] = (1, 1)
    joined: bool = True
    grid: str = "set grid"
    border: int = 31
    key: str = "set key bottom left"
    title: str = "Pure-tone audiogram"
    size: float = 1.4
    width: float = 1.5
    bone: float = 0.14
    letter: int = 15
    kinds: tuple[str, ...] = ("pdf", "pdf", "png")
    arrow: str = "filled"


STYLES: dict[str, Look] = {
    "points": Look(key="set key outside right top", boxes=((90, 70, 500, 540),)),
    "equal-tics": Look(equal=True, ticks=CLINIC, tested=CLINIC, page=(900, 700), boxes=((90, 70, 770, 540),), bone=0.2),
    "mono-dots": Look(colours=("black", "black"), dashes=(1, 2), grid="set grid lt 0 lc rgb 'black'", key="set key off",
                      ticks=(125, *OCTAVES), arrow="nofilled", title=""),
    "multiplot": Look(page=(1200, 560), boxes=((80, 80, 480, 390), (680, 80, 480, 390)), key="set key off", bone=0.2),
    "gd": Look(page=(640, 480), boxes=((70, 50, 540, 360),), kinds=("gd", "gif", "jpeg"), size=1.2, width=1, letter=11,
               bone=0.18, key="set key off"),
    "open-frame": Look(border=3, grid="set grid lc rgb '#dddddd' lt 1", key="set key outside below horizontal",
                       size=1.8, width=2.5, page=(900, 800), boxes=((90, 60, 780, 600),), levels=(0, 120), letter=18),
    "khz-top": Look(khz=True, top=True, ticks=(125, *CLINIC), tested=CLINIC, page=(827, 1169), width=1.2, bone=0.18,
                    boxes=((100, 300, 640, 594),), key="set key at screen 0.5, screen 0.16 center vertical maxrows 3"),
    "both-ends": Look(both_ends=True, ticks=(125, *OCTAVES), page=(1000, 900), boxes=((100, 110, 800, 650),),
                      levels=(-20, 120), colours=("#cc2222", "#2244cc"),
                      grid="set grid xtics ytics mytics lt 1 lc rgb '#bbbbbb', lt 0 lc rgb '#bbbbbb'; set mytics 2",
                      title=""),
}  # fmt: skip


def page(seed: int, folder: Path) -> OutsidePage:
    """Draw page number ``seed`` into ``folder`` (see `deal`)."""
    rng, style, look = deal(4, seed, STYLES)
    look = replace(look, joined=rng.random() < 0.75)
    truth = hearing_test(rng, Wish(look.tested, look.levels[1] - 10, look.levels[0], bone=pick(rng, BONES)))
    return _draw(f"gnuplot-{seed:04d}-{style}", folder, truth, look, style, pick(rng, look.kinds))


def standard(name: str, folder: Path) -> OutsidePage:
    """Draw a standard audiogram, both ears alike, so that every X stands inside an O."""
    look = replace(STYLES["khz-top"], khz=False)
    return _draw(f"gnuplot-{name}", folder, standard_test(name), look, "standard", "pdf")


def _draw(stem: str, folder: Path, truth: tuple[Threshold, ...], look: Look, style: str, kind: str) -> OutsidePage:
    path = folder / f"{stem}.{'png' if kind == 'gd' else kind}"
    frames = [Frame(look.page, box, look.ticks, look.levels, look.equal) for box in look.boxes]
    script = [f"set terminal {_terminal(look, kind)}", f'set output "{path}"', "set encoding utf8"]
    script += ["set multiplot"] if len(frames) > 1 else []
    for frame, ears in panels(frames):
        script += _axes(frame, look, look.title if len(ears) == 2 else f"{ears[0]} ear")
        script += _plots(frame, truth, ears, look)
    script += ["unset multiplot"] if len(frames) > 1 else []
    subprocess.run(["gnuplot"], input="\n".join([*script, "unset output", ""]), text=True, check=True, timeout=60)
    return drawn(path, truth, frames, f"{style}, {kind}", look.bone)


def _terminal(look: Look, kind: str) -> str:
    w, h = look.page
    if kind == "pdf":
        return f'pdfcairo color size {w / 100}in,{h / 100}in font "DejaVu Sans,11"'
    if kind == "png":
        return f'pngcairo color size {2 * w},{2 * h} fontscale 2 linewidth 2 pointscale 2 font "DejaVu Sans,11"'
    return f"{'png' if kind == 'gd' else kind} small size {w},{h}"


def _axes(frame: Frame, look: Look, title: str) -> list[str]:
    left, top, width, height = frame.box
    w, h = look.page
    names = [f"{hz / 1000:g}" if look.khz else str(hz) for hz in frame.ticks]
    if not look.khz and not look.equal:
        names = [name if name in ("125", *map(str, OCTAVES)) else "" for name in names]
    tics = ", ".join(f'"{name}" {_at(frame, hz, 0)}' for name, hz in zip(names, frame.ticks, strict=True))
    first, last = frame.along(frame.ticks[0]) - frame.margin, frame.along(frame.ticks[-1]) + frame.margin
    ends = f"[{first}:{last}]" if frame.equal else f"[{2**first}:{2**last}]"
    side = "x2" if look.top else "x"
    out = [
        *(
            "reset",
            look.grid.replace("set grid", f"set grid {side}tics ytics" if "tics" not in look.grid else "set grid"),
        ),
        f"set lmargin at screen {left / w}; set rmargin at screen {(left + width) / w}",
        f"set tmargin at screen {1 - top / h}; set bmargin at screen {1 - (top + height) / h}",
        *(() if frame.equal else ("set logscale x 2", "set logscale x2 2")),
        *(f"set xrange {ends}; set x2range {ends}", f"set yrange [{frame.levels[1]}:{frame.levels[0]}]"),
        *(f"set {side}tics ({tics})", "set ytics 10", f"set border {look.border}", look.key),
        f'set {side}label "Frequency ({"kHz" if look.khz else "Hz"})"; set ylabel "Hearing level (dB HL)"',
    ]
    out += ["unset xtics"] if look.top else []
    out += [f"set x2tics ({tics})", 'set y2tics 10; set link y2; set x2label "Hz"'] if look.both_ends else []
    if look.border == 3:
        out += ["set tics nomirror"]
    return [*out, f'set title "{title}"'] if title and not look.top else out


def _at(frame: Frame, hz: float, beside: float) -> str:
    return f"{frame.along(hz) + beside:.5f}" if frame.equal else f"{hz * 2**beside:.3f}"


def _plots(frame: Frame, truth: tuple[Threshold, ...], ears: tuple[Ear, ...], look: Look) -> list[str]:
    blocks: list[str] = []
    plots: list[str] = []

    def plot(values: list[Threshold], how: str, title: str) -> None:
        name = f"$d{len(plots)}"
        rows = [f"{_at(frame, t.frequency_hz, aside(t, look.bone))} {t.level_db_hl:g}" for t in values]
        blocks.extend([f"{name} << EOD", *rows, "EOD"])
        plots.append(f"{name} using 1:2 {how} {title}")

    for ear in ears:
        colour, dash = look.colours[ear == "left"], look.dashes[ear == "left"]
        heard = [one for one in of(truth, ear, "air") if one.response]
        if look.joined and heard:
            plot(heard, f'with lines lc rgb "{colour}" lw {look.width} dt {dash}', "notitle")
        conductions: tuple[Conduction, ...] = ("air", "bone")
        for conduction in conductions:
            for masked in (False, True):
                some = [one for one in of(truth, ear, conduction) if one.masked == masked]
                if some:
                    title = f'title "{ear.capitalize()} {conduction}{", masked" if masked else ""}"'
                    plot(some, _how(ear, conduction, masked, look, colour), title)
        blocks += [_arrow(frame, one, look, colour) for one in truth if one.ear == ear and not one.response]
    axes = " axes x2y1" if look.top else ""
    return [*blocks, "plot " + ", ".join(one.replace(" with", axes + " with", 1) for one in plots)]


def _how(ear: Ear, conduction: Conduction, masked: bool, look: Look, colour: str) -> str:
    if conduction == "air":
        return f'with points pt {POINTS[ear, masked]} ps {look.size} lw {look.width} lc rgb "{colour}"'
    return f'with points pt "{LETTERS[ear, masked]}" lc rgb "{colour}" font ",{look.letter}"'


def _arrow(frame: Frame, one: Threshold, look: Look, colour: str) -> str:
    beside, out = aside(one, look.bone), (-1 if one.ear == "right" else 1)
    axis = "second" if look.top else "first"
    tail = f"{axis} {_at(frame, one.frequency_hz, beside)}, first {one.level_db_hl:g}"
    tip = f"{axis} {_at(frame, one.frequency_hz, beside + 0.28 * out)}, first {one.level_db_hl + 7:g}"
    return f'set arrow from {tail} to {tip} {look.arrow} lc rgb "{colour}" lw {look.width}'
