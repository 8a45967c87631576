"""Audiograms as an ordinary person plots them with matplotlib: the library's own markers, axes, legends and styles."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from math import log2
from pathlib import Path
from typing import Any

import matplotlib.style
import numpy as np
import numpy.typing as npt
from cases import BONES, CLINIC, OCTAVES, Bone, Outline, OutsidePage, Wish, deal, hearing_test, of, pick, standard_test
from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.ticker import NullFormatter, NullLocator

from octavo.interpret.record import Ear, Point, Threshold

WIDE = (125, *CLINIC)
Place = Callable[[float], float]
"""From a frequency in Hz to the axis' own unit."""


@dataclass(frozen=True, slots=True)
class Look:
    """How one figure is set up; every field is a choice that a person at the keyboard makes."""

    size: tuple[float, float] = (6.4, 4.8)
    sheet: str = "default"
    boxes: tuple[tuple[float, float, float, float], ...] = ((0.13, 0.13, 0.8, 0.77),)
    titles: tuple[str, ...] = ("Audiogram",)
    ticks: tuple[int, ...] = OCTAVES
    tested: tuple[int, ...] = OCTAVES
    axis: str = "log2"
    khz: bool = False
    top: bool = False
    twin: bool = False
    levels: tuple[int, int, int] = (-10, 120, 10)
    grid: str = "-"
    fine_grid: bool = False
    colours: tuple[str, str] = ("red", "blue")
    mono: bool = False
    bone: str = "text"
    bone_aside: float = 0.12
    mark_size: float = 8.0
    joined: tuple[str, str] = ("-", "-")
    bone_joined: bool = False
    not_heard_joined: bool = True
    arrow: str = "->"
    legend: str = "best"
    bands: bool = False
    header: tuple[str, ...] = ()
    wobble: float = 0.0
    margin: float = 0.5
    filled: bool = False
    hollow: str = "none"
    arrows_down: bool = False


@dataclass(frozen=True, slots=True)
class Finish:
    """How a figure is saved: style's name, file's kind, resolution, and the fonts (PDF font type 3 or 42)."""

    style: str
    kind: str = "pdf"
    dpi: int = 72
    font_type: int = 42
    font_size: int = 10
    font: str = "DejaVu Sans"


def _two(look: Look) -> Look:
    boxes = ((0.08, 0.14, 0.4, 0.72), (0.57, 0.14, 0.4, 0.72))
    return replace(look, size=(11, 5), boxes=boxes, titles=("Right ear", "Left ear"))


HEADER = ("Harbour Lane clinic", "Hearing test report", "Patient: A. Example    Born: 1961-02-03    Tested: 2024-05-06")
STYLES: dict[str, Look] = {
    "plain": Look(),
    "two-ears": _two(Look(ticks=WIDE, tested=CLINIC, bone_aside=0.15)),
    "one-pen": Look(mono=True, joined=("-", "--"), ticks=CLINIC, tested=CLINIC, axis="own-log", legend="", khz=True),
    "equal-steps": Look(axis="index", ticks=CLINIC, tested=CLINIC, levels=(-10, 110, 10), bone_aside=0.2),
    "styled": Look(sheet="ggplot", joined=("-", "-"), bone="none", size=(8, 6), mark_size=10),
    "polygons": Look(bone="polygon", bone_aside=0.0, legend="outside", boxes=((0.1, 0.12, 0.62, 0.78),), size=(9, 5.5)),
    "conforming": Look(
        size=(8.27, 11.69), ticks=(125, *OCTAVES), boxes=((0.16, 0.3, 0.7, 0.4),), top=True, header=HEADER, legend="",
        levels=(-10, 120, 10), margin=0.5, titles=("",), axis="own-log", bone_aside=0.16,
    ),
    "bands": Look(bands=True, size=(8, 6.5), levels=(-10, 120, 10), grid=":", bone_joined=True, joined=("-", "--")),
    "bare": Look(grid="", bone="none", filled=True, legend="best", size=(5, 4), mark_size=6),
    "twin-labels": Look(twin=True, top=True, ticks=WIDE, tested=CLINIC, khz=True, size=(7.5, 7), levels=(-20, 120, 10)),
    "fine-grid": Look(
        fine_grid=True, ticks=WIDE, tested=CLINIC, size=(8, 7), legend="below", not_heard_joined=False,
        boxes=((0.11, 0.2, 0.83, 0.72),),
    ),
    "wobbly": Look(wobble=0.8, size=(7, 6), mark_size=9, bone_aside=0.15, legend="", titles=("",)),
    "two-ears-one-pen": _two(Look(mono=True, ticks=OCTAVES, legend="", joined=("-", "-"), bone_aside=0.18)),
}  # fmt: skip


def page(seed: int, folder: Path) -> OutsidePage:
    """Draw page number ``seed`` into ``folder`` (see `deal`)."""
    rng, style, _ = deal(1, seed, STYLES)
    look = _vary(rng, style)
    only: dict[str, Bone] = {"none": "none", "polygon": "unmasked"}
    bone = only.get(look.bone, pick(rng, BONES))
    truth = hearing_test(
        rng, Wish(look.tested, look.levels[1] - 10, look.levels[0], bone=bone, masked_air=not look.filled)
    )
    files = (("pdf", 72), ("pdf", 72), ("png", 100), ("png", 150), ("png", 200), ("png", 300), ("jpg", 150))
    kind, dpi = pick(rng, files)
    font = pick(rng, ("DejaVu Sans", "DejaVu Sans", "DejaVu Serif"))
    finish = Finish(style, kind, dpi, pick(rng, (3, 42)), pick(rng, (9, 10, 11, 12)), font)
    look = conforming(look) if style == "conforming" else look
    return draw(f"matplotlib-{seed:04d}-{style}", folder, truth, look, finish)


def standard(name: str, folder: Path) -> OutsidePage:
    """Draw a standard audiogram, both ears alike, so that every X stands inside an O."""
    look = replace(STYLES["conforming"], ticks=WIDE)
    return draw(f"matplotlib-{name}", folder, standard_test(name), conforming(look), Finish("standard"))


def draw(stem: str, folder: Path, truth: tuple[Threshold, ...], look: Look, finish: Finish) -> OutsidePage:
    """Draw given values in a given look.

    Parameters
    ----------
    stem, folder
        The file's name, without its ending, and its folder.
    truth : tuple of Threshold
        What the page is to say; the look must be able to show it.
    look, finish
        How it is drawn and how it is saved.

    Returns
    -------
    OutsidePage
        The file and what it says.
    """
    settings: dict[str, Any] = {"pdf.fonttype": finish.font_type, "font.size": finish.font_size}
    settings |= {"font.family": finish.font} | ({"path.sketch": (look.wobble, 90.0, 2.0)} if look.wobble else {})
    with matplotlib.style.context([look.sheet, settings]):
        figure = Figure(figsize=look.size)
        for line, text in enumerate(look.header):
            figure.text(0.12, 0.95 - 0.03 * line, text, fontsize=16 - 3 * line)
        frames = [_chart(figure, number, truth, look) for number in range(len(look.boxes))]
        figure.canvas.draw()
        places = tuple(_place(figure, frames, one, look) for one in truth)
        outlines = tuple(_outline(figure, axes) for axes, _ in frames)
        path = folder / f"{stem}.{finish.kind}"
        figure.savefig(path, dpi=finish.dpi, metadata={"CreationDate": None} if finish.kind == "pdf" else None)
    note = f"{finish.style}, {finish.kind}" + (f" at {finish.dpi} dpi" if finish.kind != "pdf" else "")
    return OutsidePage(path, truth, len(frames), note, places, outlines)


def _vary(rng: np.random.Generator, style: str) -> Look:
    look = STYLES[style]
    red_blue = pick(
        rng, (("red", "blue"), ("r", "b"), ("tab:red", "tab:blue"), ("crimson", "navy"), ("#d00000", "#2040ff"))
    )
    look = replace(look, colours=("black", "black") if look.mono else red_blue)
    look = replace(
        look, mark_size=look.mark_size * float(rng.uniform(0.85, 1.3)), arrow=pick(rng, ("->", "-|>", "simple"))
    )
    if style == "styled":
        sheet = pick(rng, ("ggplot", "bmh", "Solarize_Light2", "seaborn-v0_8-whitegrid", "classic", "fivethirtyeight"))
        look = replace(look, sheet=sheet)
    look = replace(look, hollow=pick(rng, ("none", "white")), arrows_down=rng.random() < 0.3)
    if rng.random() < 0.3 and look.axis == "log2":
        look = replace(look, axis="own-log")
    if rng.random() < 0.25:
        look = replace(look, joined=("", "") if rng.random() < 0.5 else ("-", "--"))
    return look


def conforming(look: Look) -> Look:
    """Set the box so that one octave is as wide as 20 dB is high (ISO 8253-1 and ASHA 1990, from memory)."""
    left, bottom, width, _ = look.boxes[0]
    octaves = log2(look.ticks[-1] / look.ticks[0]) + 2 * look.margin
    high, low, _ = look.levels
    height = width * look.size[0] / octaves * (low - high) / 20 / look.size[1]
    return replace(look, boxes=((left, bottom, width, height),))


def _chart(figure: Figure, number: int, truth: Sequence[Threshold], look: Look) -> tuple[Axes, Place]:
    axes = figure.add_axes(look.boxes[number])
    place = _frame(axes, look)
    axes.set_title(look.titles[number])
    ears: tuple[Ear, ...] = ("right", "left")
    shown = ears if len(look.boxes) == 1 else (ears[number],)
    for ear in shown:
        _plot(axes, place, truth, ear, look)
    if look.bands:
        for top, bottom, word, shade in (
            (-10, 20, "normal", "0.9"),
            (20, 40, "mild", "1.0"),
            (40, 70, "moderate", "0.93"),
        ):
            axes.axhspan(top, bottom, color=shade, zorder=0)
            axes.text(0.99, top + 5, word, transform=axes.get_yaxis_transform(), ha="right", va="center", color="0.4")
    where = {
        "outside": {"loc": "upper left", "bbox_to_anchor": (1.02, 1.0)},
        "below": {"loc": "upper left", "bbox_to_anchor": (0.0, -0.1), "ncols": 3},
    }
    if look.legend:
        axes.legend(**where.get(look.legend, {"loc": look.legend}), fontsize=8)
    return axes, place


def _frame(axes: Axes, look: Look) -> Place:
    ticks = list(look.ticks)
    own: dict[str, Place] = {"log2": float, "own-log": log2, "index": lambda hz: _between(ticks, hz)}
    place = own[look.axis]
    if look.axis == "log2":
        axes.set_xscale("log", base=2)
        axes.set_xlim(ticks[0] / 2**look.margin, ticks[-1] * 2**look.margin)
    else:
        axes.set_xlim(place(ticks[0]) - look.margin, place(ticks[-1]) + look.margin)
    high, low, step = look.levels
    axes.set_ylim(low, high)
    names = [f"{hz / 1000:g}" if look.khz else str(hz) for hz in ticks]
    if look.axis != "index" and not look.khz:
        # Labels of 750, 1500 ... collide with their neighbours on a narrow log axis: people then drop them.
        names = [name if name in ("125", *map(str, OCTAVES)) else "" for name in names]
    axes.set_xticks([place(hz) for hz in ticks], names)
    axes.xaxis.set_minor_locator(NullLocator())
    axes.xaxis.set_minor_formatter(NullFormatter())
    axes.set_yticks(range(high, low + 1, step))
    axes.set_xlabel("Frequency (kHz)" if look.khz else "Frequency (Hz)")
    axes.set_ylabel("Hearing level (dB HL)")
    if look.top:
        axes.xaxis.tick_top()
        axes.xaxis.set_label_position("top")
    if look.twin:
        axes.tick_params(labelbottom=True, labelright=True, bottom=True, right=True)
    if look.grid:
        axes.grid(visible=True, linestyle=look.grid)
    if look.fine_grid:
        axes.set_yticks(range(high, low, 5), minor=True)
        axes.grid(visible=True, which="minor", linewidth=0.4, linestyle=":")
    return place


def _between(ticks: list[int], hz: float) -> float:
    """Count ticks from the left; between two ticks, go by octaves."""
    left = max((i for i, tick in enumerate(ticks[:-1]) if tick <= hz), default=0)
    return left + log2(hz / ticks[left]) / log2(ticks[left + 1] / ticks[left])


def _plot(axes: Axes, place: Place, truth: Sequence[Threshold], ear: Ear, look: Look) -> None:
    colour = look.colours[0 if ear == "right" else 1]
    air, bone = of(truth, ear, "air"), of(truth, ear, "bone")
    lined = [one for one in air if one.response or look.not_heard_joined]
    line = look.joined[0 if ear == "right" else 1]
    if line:
        axes.plot([place(t.frequency_hz) for t in lined], [t.level_db_hl for t in lined], line, color=colour, lw=1.2)
    if look.bone_joined and bone:
        axes.plot([_x(place, t, look) for t in bone], [t.level_db_hl for t in bone], ":", color=colour, lw=1)
    for conduction, values in (("air", air), ("bone", bone)):
        for masked in (False, True):
            some = [t for t in values if t.masked == masked]
            if some:
                label = f"{ear} {conduction}{', masked' if masked else ''}"
                marker, filled = _marker(ear, conduction, masked, look)
                face = colour if filled else look.hollow
                x, y = [_x(place, t, look) for t in some], [t.level_db_hl for t in some]
                axes.plot(
                    x,
                    y,
                    marker=marker,
                    color=colour,
                    mfc=face,
                    ms=look.mark_size * (1.25 if marker in "$[$ $]$" else 1.0),
                    mew=1.3,
                    ls="",
                    label=label,
                )
    for one in (t for t in (*air, *bone) if not t.response):
        _arrow(axes, place, one, look, colour)


def _marker(ear: Ear, conduction: str, masked: bool, look: Look) -> tuple[str, bool]:
    """Give the marker and whether it is filled."""
    if conduction == "air":
        shape = {("right", False): "o", ("left", False): "x", ("right", True): "^", ("left", True): "s"}[ear, masked]
        return shape, look.filled and shape == "o"
    if look.bone == "polygon":
        return ("<" if ear == "right" else ">"), False
    letter = {("right", False): "<", ("left", False): ">", ("right", True): "[", ("left", True): "]"}[ear, masked]
    return f"${letter}$", True


def _x(place: Place, one: Threshold, look: Look) -> float:
    aside = {"right": -look.bone_aside, "left": look.bone_aside}.get(one.ear, 0.0) if one.conduction == "bone" else 0.0
    if look.axis == "index":
        return place(one.frequency_hz) + aside
    return place(one.frequency_hz * 2**aside)


def _arrow(axes: Axes, place: Place, one: Threshold, look: Look, colour: str) -> None:
    x, y = axes.transData.transform((_x(place, one, look), one.level_db_hl))
    reach = look.mark_size * axes.figure.get_dpi() / 72 * 1.7
    outward = 0.0 if look.arrows_down else (-1.0 if one.ear == "right" else 1.0)
    tip = axes.transData.inverted().transform((x + outward * reach, y - reach))
    back = axes.transData.inverted().transform((x, y))
    props = {"arrowstyle": look.arrow, "color": colour, "shrinkA": look.mark_size * 0.5, "shrinkB": 0}
    axes.annotate("", xy=tuple(tip), xytext=tuple(back), arrowprops=props, annotation_clip=False)


def _place(figure: Figure, frames: list[tuple[Axes, Place]], one: Threshold, look: Look) -> Point:
    axes, place = frames[0] if len(frames) == 1 or one.ear == "right" else frames[1]
    return _fraction(figure, axes.transData.transform((_x(place, one, look), one.level_db_hl)))


def _fraction(figure: Figure, pixel: npt.NDArray[np.float64]) -> Point:
    x, y = figure.transFigure.inverted().transform(pixel)
    return float(x), float(1 - y)


def _outline(figure: Figure, axes: Axes) -> Outline:
    corners = [_fraction(figure, axes.transAxes.transform(corner)) for corner in ((0, 1), (1, 1), (1, 0), (0, 0))]
    return corners[0], corners[1], corners[2], corners[3]
