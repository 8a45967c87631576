"""Audiograms as people typeset them: TikZ by hand, and pgfplots with its own marks, axes and legends.

Needs pdflatex with TikZ and pgfplots (Debian's texlive-pictures, texlive-latex-recommended); not for CI.
"""

from __future__ import annotations

import subprocess
import tempfile
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
    of,
    panels,
    pick,
    standard_test,
)
from handed_on import picture

from octavo.interpret.record import Ear, Threshold

PREAMBLE = r"""\documentclass[10pt]{article}
\usepackage[paperwidth=%gcm,paperheight=%gcm,margin=0pt]{geometry}
\usepackage{tikz,pgfplots}\pgfplotsset{compat=1.15}\usetikzlibrary{arrows.meta,plotmarks}
\definecolor{rightear}{HTML}{%s}\definecolor{leftear}{HTML}{%s}%s
\pagestyle{empty}\parindent0pt\begin{document}%s\noindent
\begin{tikzpicture}[remember picture,overlay,shift={(current page.north west)},y=-1cm,x=1cm]
"""
SIGNS = {
    ("right", "air", False): r"\draw[%s] (0,0) circle (%g);",
    ("left", "air", False): r"\draw[%s] (-%g,-{0}) -- ({0},{0}) (-{0},{0}) -- ({0},-{0});",
    ("right", "air", True): r"\draw[%s] (0,-%g) -- ({0},{0}) -- (-{0},{0}) -- cycle;",
    ("left", "air", True): r"\draw[%s] (-%g,-{0}) rectangle ({0},{0});",
}  # fmt: skip
LETTERS = {("right", False): "$<$", ("left", False): "$>$", ("right", True): "[", ("left", True): "]"}
MARKS = {("right", False): "o", ("left", False): "x", ("right", True): "triangle", ("left", True): "square"}


@dataclass(frozen=True, slots=True)
class Look:
    """How one page is typeset; lengths in centimetres."""

    page: tuple[float, float] = (21, 29.7)
    boxes: tuple[tuple[float, float, float, float], ...] = ((3.2, 8, 13, 12),)
    ticks: tuple[int, ...] = (125, *OCTAVES)
    tested: tuple[int, ...] = OCTAVES
    levels: tuple[int, int] = (-10, 120)
    equal: bool = False
    khz: bool = False
    plots: bool = False
    grid: str = "very thin,gray"
    frame: str = "thin"
    mark: float = 0.16
    line: str = "thin"
    colours: tuple[str, str] = ("CC0000", "0000CC")
    font: str = r"\small"
    family: str = ""
    text: tuple[str, ...] = ()
    grid_in_plot: str = "grid=major"
    legend: str = ""
    bone: float = 0.15
    sign: str = r"\normalsize"
    arrow: str = "-{Stealth}"
    joined: bool = True
    top: bool = True
    kinds: tuple[str, ...] = ("pdf", "pdf", "100", "150", "200", "300")


LETTER = (r"\textbf{Hearing test report}", "Patient: A.~Example, born 1961-02-03, tested 2024-05-06.",
          "Pure tones were tested by insert earphones; reliability good.")  # fmt: skip
STYLES: dict[str, Look] = {
    "thin": Look(text=LETTER),
    "sans": Look(family=r"\renewcommand{\familydefault}{\sfdefault}", grid="gray!40", frame="very thick", line="thick",
                 mark=0.2, top=False),
    "two-thin": Look(page=(29.7, 21), boxes=((2.6, 5, 10.5, 11), (16.6, 5, 10.5, 11)), ticks=(125, *CLINIC),
                     tested=CLINIC, equal=True, font=r"\footnotesize"),
    "ink": Look(colours=("000000", "000000"), khz=True, grid="densely dotted", text=LETTER),
    "pgf": Look(plots=True, page=(16, 13), boxes=((2.4, 1.8, 12, 9.5),), ticks=OCTAVES, legend="south west"),
    "pgf-page": Look(plots=True, ticks=(125, *CLINIC), tested=CLINIC, grid_in_plot="grid=both,minor y tick num=1",
                     legend="outer north east", boxes=((2.5, 9, 11, 10),), text=LETTER, font=r"\footnotesize"),
    "pgf-bare": Look(plots=True, page=(12, 10), boxes=((2, 1.4, 9.2, 7.2),), ticks=OCTAVES, khz=True,
                     grid_in_plot="", legend="", levels=(0, 110)),
}  # fmt: skip


def page(seed: int, folder: Path) -> OutsidePage:
    """Draw page number ``seed`` into ``folder`` (see `deal`)."""
    rng, style, look = deal(9, seed, STYLES)
    arrow = pick(rng, ("-{Stealth}", "->", "-{Latex}", "-{Straight Barb}", "-{Triangle[open]}"))
    look = replace(look, arrow=arrow, joined=rng.random() < 0.75, mark=look.mark * float(rng.uniform(0.8, 1.2)))
    if look.colours != ("000000", "000000"):
        look = replace(look, colours=pick(rng, (look.colours, ("FF0000", "0000FF"), ("B22222", "1E90FF"))))
    look = replace(look, line=pick(rng, (look.line, "semithick", "thin")), bone=float(rng.uniform(0.12, 0.22)))
    look = replace(look, sign=pick(rng, (r"\small", r"\normalsize", r"\Large", r"\large")))
    truth = hearing_test(rng, Wish(look.tested, look.levels[1] - 10, look.levels[0], bone=pick(rng, BONES)))
    return _draw(f"tikz-{seed:04d}-{style}", folder, truth, look, style, pick(rng, look.kinds))


def standard(name: str, folder: Path) -> OutsidePage:
    """Draw a standard audiogram, both ears alike, so that every X stands inside an O."""
    return _draw(f"tikz-{name}", folder, standard_test(name), STYLES["thin"], "standard", "pdf")


def _draw(stem: str, folder: Path, truth: tuple[Threshold, ...], look: Look, style: str, kind: str) -> OutsidePage:
    frames = [Frame(look.page, box, look.ticks, look.levels, look.equal) for box in look.boxes]
    body = [PREAMBLE % (*look.page, *look.colours, look.family, look.font)]
    body += [rf"\node[anchor=west] at (2.5,{2.5 + 0.6 * row}) {{{line}}};" for row, line in enumerate(look.text)]
    for frame, ears in panels(frames):
        title = "Audiogram" if len(ears) > 1 else " and ".join(ears).capitalize() + " ear"
        left, top, width, _ = frame.box
        body.append(rf"\node at ({left + width / 2},{top - 1.5}) {{\large {title}}};")
        body += (_plotted if look.plots else _by_hand)(frame, truth, ears, look)
    body.append(r"\end{tikzpicture}\end{document}")
    with tempfile.TemporaryDirectory() as room:
        (Path(room) / "page.tex").write_text("\n".join(body), encoding="utf-8")
        for _ in range(2):  # "remember picture" takes two runs
            run = ["pdflatex", "-interaction=batchmode", "page.tex"]
            subprocess.run(run, cwd=room, check=True, capture_output=True, timeout=60)
        path = folder / f"{stem}.pdf"
        path.write_bytes((Path(room) / "page.pdf").read_bytes())
    if kind != "pdf":
        picture(path, float(kind)).save(path.with_suffix(".png"))
        path.unlink()
        path = path.with_suffix(".png")
    return drawn(path, truth, frames, f"{style}, {kind}", look.bone)


def _named(hz: int, look: Look) -> str:
    return f"{hz / 1000:g}" if look.khz else str(hz)


def _by_hand(frame: Frame, truth: Sequence[Threshold], ears: Sequence[Ear], look: Look) -> list[str]:
    left, top, width, height = frame.box
    right, bottom = left + width, top + height
    rows = range(look.levels[0], look.levels[1] + 1, 10)
    out = [rf"\draw[{look.grid}] ({left},{frame.y(db):.4f}) -- +({width},0);" for db in rows]
    out += [rf"\draw[{look.grid}] ({frame.x(hz):.4f},{top}) -- +(0,{height});" for hz in look.ticks]
    out.append(rf"\draw[{look.frame}] ({left},{top}) rectangle ({right},{bottom});")
    out += [rf"\node[anchor=east] at ({left},{frame.y(db):.4f}) {{${db}$}};" for db in rows]
    y, anchor = (top, "south") if look.top else (bottom, "north")
    few = look.ticks if look.equal else [hz for hz in look.ticks if hz in (125, *OCTAVES)]
    out += [rf"\node[anchor={anchor}] at ({frame.x(hz):.4f},{y}) {{{_named(hz, look)}}};" for hz in few]
    far = y - 0.9 if look.top else y + 0.9
    out.append(rf"\node at ({left + width / 2},{far}) {{Frequency ({'kHz' if look.khz else 'Hz'})}};")
    out.append(rf"\node[rotate=90] at ({left - 1.3},{top + height / 2}) {{Hearing level (dB\,HL)}};")
    for ear in ears:
        ink = f"{ear}ear,{look.line}"
        heard = [one for one in of(truth, ear, "air") if one.response]
        if look.joined and len(heard) > 1:
            dash = ",dashed" if ear == "left" else ""
            out.append(rf"\draw[{ink}{dash}] " + " -- ".join(_at(frame, one, look) for one in heard) + ";")
        for one in (*of(truth, ear, "air"), *of(truth, ear, "bone")):
            out += [rf"\begin{{scope}}[shift={{{_at(frame, one, look)}}}]", _sign(one, ink, look), r"\end{scope}"]
            out += _arrow(frame, one, look)
    return out


def _at(frame: Frame, one: Threshold, look: Look) -> str:
    return f"({frame.x(one.frequency_hz, aside(one, look.bone)):.4f},{frame.y(one.level_db_hl):.4f})"


def _sign(one: Threshold, ink: str, look: Look) -> str:
    if one.conduction == "bone":
        return rf"\node[{ink},inner sep=0] at (0,0) {{{look.sign} {LETTERS[one.ear, one.masked]}}};"
    sign = SIGNS[one.ear, one.conduction, one.masked] % (ink, look.mark)
    return sign.replace("{0}", f"{look.mark:g}")


def _arrow(frame: Frame, one: Threshold, look: Look) -> list[str]:
    if one.response:
        return []
    out = 1 if one.ear == "left" else -1
    x, y = frame.x(one.frequency_hz, aside(one, look.bone)), frame.y(one.level_db_hl)
    start = f"({x + 0.8 * look.mark * out:.4f},{y + 0.8 * look.mark:.4f})"
    tip = f"({x + 3 * look.mark * out:.4f},{y + 3 * look.mark:.4f})"
    return [rf"\draw[{one.ear}ear,{look.line},{look.arrow}] {start} -- {tip};"]


def _plotted(frame: Frame, truth: Sequence[Threshold], ears: Sequence[Ear], look: Look) -> list[str]:
    left, top, width, height = frame.box
    along = frame.along
    ticks = ",".join(f"{along(hz):.5f}" for hz in look.ticks)
    names = ",".join(_named(hz, look) if hz in (125, *OCTAVES) else "" for hz in look.ticks)
    options = [
        f"at={{({left}cm,{-top - height}cm)}},anchor=south west,scale only axis,width={width}cm,height={height}cm",
        f"xmin={along(look.ticks[0]) - frame.margin},xmax={along(look.ticks[-1]) + frame.margin}",
        f"ymin={look.levels[0]},ymax={look.levels[1]},y dir=reverse,clip=false",
        f"xtick={{{ticks}}},xticklabels={{{names}}},ytick distance={20 if look.page[0] < 13 else 10}",
        f"xlabel={{Frequency ({'kHz' if look.khz else 'Hz'})}},ylabel={{Hearing level (dB HL)}}",
        f"mark size={look.mark}cm",
    ]  # fmt: skip
    options += [look.grid_in_plot] * bool(look.grid_in_plot) + [f"legend pos={look.legend}"] * bool(look.legend)
    out = [rf"\begin{{scope}}[y=1cm]\begin{{axis}}[{','.join(options)}]"]
    for ear in ears:
        ink = f"{ear}ear,{look.line}"
        heard = [one for one in of(truth, ear, "air") if one.response]
        if look.joined and heard:
            out.append(rf"\addplot[{ink},forget plot] coordinates {{{_points(frame, heard, look)}}};")
        for masked in (False, True):
            some = [one for one in of(truth, ear, "air") if one.masked == masked]
            if some:
                how = f"{ink},only marks,mark={MARKS[ear, masked]}"
                out.append(rf"\addplot[{how}] coordinates {{{_points(frame, some, look)}}};")
                out += [rf"\addlegendentry{{{ear} air{', masked' if masked else ''}}}"] * bool(look.legend)
        for one in of(truth, ear, "bone"):
            place = _points(frame, [one], look)
            out.append(
                rf"\node[{ear}ear,inner sep=0] at (axis cs:{place[1:-1]}) {{{look.sign} {LETTERS[ear, one.masked]}}};"
            )
    out.append(r"\end{axis}\end{scope}")
    return [*out, *(line for one in truth if one.ear in ears for line in _arrow(frame, one, look))]


def _points(frame: Frame, values: Sequence[Threshold], look: Look) -> str:
    return " ".join(
        f"({frame.along(one.frequency_hz) + aside(one, look.bone):.4f},{one.level_db_hl:g})" for one in values
    )
