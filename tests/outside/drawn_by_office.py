"""Audiograms as charts of a spreadsheet: written by XlsxWriter, drawn and printed by LibreOffice.

A spreadsheet's line chart spaces the frequencies evenly, and has no bracket among its markers: those who want one label
the point with a character. Needs the dependency group ``outside`` and Debian's ``libreoffice-calc``; not for CI.
"""

from __future__ import annotations

import importlib
import subprocess
import tempfile
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

import pypdfium2
from cases import (
    BONES,
    CLINIC,
    OCTAVES,
    Bone,
    Frame,
    OutsidePage,
    Wish,
    deal,
    drawn,
    hearing_test,
    of,
    panels,
    pick,
    standard_test,
)

from octavo.interpret.record import Ear, Threshold

INNER = (0.13, 0.16, 0.82, 0.66)
"""The plot area within a chart: left, top, width, height, as parts of the chart."""
MARGIN_PX, ROW_PX, HEAD_ROWS = 67, 20, 6
MARKERS = {("right", False): "circle", ("left", False): "x", ("right", True): "triangle", ("left", True): "square"}
LETTERS = {
    ("right", "air", False): "O", ("left", "air", False): "X", ("right", "air", True): "△", ("left", "air", True): "□",
    ("right", "bone", False): "<", ("left", "bone", False): ">", ("right", "bone", True): "[",
    ("left", "bone", True): "]",
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Look:
    """How one sheet is set up; ``charts`` are left, top, width, height in 1/96 inch from the first cell."""

    landscape: bool = False
    charts: tuple[tuple[int, int, int, int], ...] = ((0, 140, 620, 480),)
    tested: tuple[int, ...] = OCTAVES
    levels: tuple[int, int] = (-10, 120)
    step: int = 10
    khz: bool = False
    bottom: bool = False
    right: bool = False
    grid: tuple[str, float] = ("#D9D9D9", 0.75)
    upright_grid: bool = True
    font: str = "Calibri"
    text: float = 9
    colours: tuple[str, str] = ("#FF0000", "#0000FF")
    paper: str = "#FFFFFF"
    marker: int = 9
    filled: bool = False
    letters: bool = False
    width: float = 1.5
    dashes: tuple[str, str] = ("solid", "solid")
    joined: bool = True
    legend: str = "bottom"
    table: bool = False
    bone: Bone | None = None


STYLES: dict[str, Look] = {
    "sheet": Look(table=True),
    "khz-below": Look(bottom=True, khz=True, tested=CLINIC, width=2.25, upright_grid=False, legend="bottom", marker=8,
                      charts=((0, 140, 640, 420),), font="Arial"),
    "letters": Look(letters=True, text=10, grid=("#A6A6A6", 0.5), legend="none", charts=((20, 140, 560, 560),)),
    "side-by-side": Look(landscape=True, charts=((0, 130, 460, 400), (490, 130, 460, 400)), legend="none", text=8,
                         tested=CLINIC, marker=7, width=1),
    "one-pen": Look(colours=("#000000", "#000000"), grid=("none", 0), dashes=("solid", "dash"), font="Times New Roman",
                    bottom=True, marker=10, width=1, legend="none", text=11),
    "right-scale": Look(right=True, step=20, levels=(-20, 120), grid=("#BFBFBF", 0.25), paper="#FFFFF0", marker=7,
                        colours=("#C00000", "#0070C0")),
    "dark-grid": Look(grid=("#404040", 1.5), charts=((0, 140, 620, 620),), letters=True, text=11, width=1, bottom=True,
                      colours=("#E00000", "#0020E0"), font="Verdana"),
    "filled": Look(filled=True, bone="none", legend="top", bottom=True, marker=7, width=2.25,
                   colours=("#C0504D", "#4F81BD")),
}  # fmt: skip


def page(seed: int, folder: Path) -> OutsidePage:
    """Draw page number ``seed`` into ``folder`` (see `deal`)."""
    rng, style, look = deal(6, seed, STYLES)
    look = replace(look, joined=rng.random() < 0.75)
    bone = look.bone or pick(rng, BONES)
    wish = Wish(look.tested, look.levels[1] - 10, look.levels[0], bone=bone, masked_air=not look.filled)
    return _draw(
        f"office-{seed:04d}-{style}",
        folder,
        hearing_test(rng, wish),
        look,
        style,
        pick(rng, ("pdf", "pdf", "110 dpi", "200 dpi")),
    )


def standard(name: str, folder: Path) -> OutsidePage:
    """Draw a standard audiogram, both ears alike, so that every X stands inside an O."""
    look = replace(STYLES["sheet"], tested=CLINIC, table=False)
    return _draw(f"office-{name}", folder, standard_test(name), look, "standard", "pdf")


def _draw(stem: str, folder: Path, truth: tuple[Threshold, ...], look: Look, style: str, kind: str) -> OutsidePage:
    paper = (1123, 794) if look.landscape else (794, 1123)
    frames = [_frame(chart, paper, look) for chart in look.charts]
    with tempfile.TemporaryDirectory() as temporary:
        book = Path(temporary) / f"{stem}.xlsx"
        _write(book, truth, frames, look)
        command = ["soffice", f"-env:UserInstallation=file:///{temporary}/profile", "--headless", "--convert-to", "pdf"]
        subprocess.run([*command, "--outdir", str(folder), str(book)], check=True, capture_output=True, timeout=120)
    path = folder / f"{stem}.pdf"
    if not path.exists():
        raise FileNotFoundError(f"LibreOffice wrote no {path}")
    if kind != "pdf":
        with pypdfium2.PdfDocument(path) as document:
            # pypdfium2 declares the scale as a whole number but takes any
            options: dict[str, Any] = {"scale": int(kind.split()[0]) / 72}
            picture = document[0].render(**options).to_pil()
        path.unlink()
        path = path.with_suffix(".png")
        picture.save(path)
    return drawn(path, truth, frames, f"{style}, {kind}")


def _frame(chart: tuple[int, int, int, int], paper: tuple[int, int], look: Look) -> Frame:
    left, top, width, height = chart
    x, y, w, h = INNER
    box = (MARGIN_PX + left + x * width, MARGIN_PX + top + y * height, w * width, h * height)
    return Frame(paper, box, look.tested, look.levels, equal=True)


def _write(path: Path, truth: tuple[Threshold, ...], frames: list[Frame], look: Look) -> None:
    xlsxwriter = importlib.import_module("xlsxwriter")  # by name: where it is not installed, types and tests still run
    book = xlsxwriter.Workbook(str(path))
    sheet, numbers = book.add_worksheet("Report"), book.add_worksheet("Numbers")
    numbers.hide()
    sheet.set_paper(9)
    sheet.set_margins(0.7, 0.7, 0.7, 0.7)
    if look.landscape:
        sheet.set_landscape()
    sheet.write(0, 0, "Harbour Lane clinic", book.add_format({"bold": True, "font_size": 16}))
    sheet.write(2, 0, "Patient: E. Specimen, born 30/05/1947")
    sheet.write(3, 0, "Pure-tone audiometry on 11/09/2024, reliability good")
    numbers.write_row(0, 1, [f"{hz / 1000:g}" if look.khz else str(hz) for hz in look.tested])
    row = 1
    for (_, ears), place in zip(panels(frames), look.charts, strict=True):
        chart = book.add_chart({"type": "line"})
        row = _fill(chart, numbers, row, truth, ears, look)
        _dress(chart, ears, look)
        chart.set_size({"width": place[2], "height": place[3]})
        sheet.insert_chart(0, 0, chart, {"x_offset": place[0], "y_offset": place[1]})
    if look.table:
        _tabulate(sheet, truth, look)
    book.close()


def _tabulate(sheet: Any, truth: tuple[Threshold, ...], look: Look) -> None:
    """Print the air thresholds as numbers below the chart, as such sheets do."""
    top = (look.charts[0][1] + look.charts[0][3]) // ROW_PX + 2
    sheet.write_row(top, 0, ["Hz", *look.tested])
    ears: tuple[Ear, ...] = ("right", "left")
    for down, ear in enumerate(ears, 1):
        values = {one.frequency_hz: one.level_db_hl for one in of(truth, ear, "air")}
        sheet.write_row(top + down, 0, [ear, *(values.get(float(hz), "") for hz in look.tested)])


def _fill(chart: Any, numbers: Any, row: int, truth: tuple[Threshold, ...], ears: tuple[Ear, ...], look: Look) -> int:
    """Add the series: the lines, then the marks of each kind, then the arrows; give the next free row of numbers."""
    count = len(look.tested)
    without_entry: list[int] = []

    def series(values: list[Threshold], name: str, entry: bool, **more: Any) -> None:
        nonlocal row
        if not values:
            return
        levels = {one.frequency_hz: one.level_db_hl for one in values}
        numbers.write(row, 0, name)
        for column, hz in enumerate(look.tested, 1):
            if hz in levels:
                numbers.write_number(row, column, levels[hz])
        where = {"categories": ["Numbers", 0, 1, 0, count], "values": ["Numbers", row, 1, row, count], "name": name}
        chart.add_series({"line": {"none": True}, "marker": {"type": "none"}} | where | more)
        if not entry:
            without_entry.append(row)
        row += 1

    first = row
    for ear in ears:
        colour, dash = look.colours[ear == "left"], look.dashes[ear == "left"]
        air = of(truth, ear, "air")
        if look.joined:
            line = {"color": colour, "width": look.width, "dash_type": dash}
            series([one for one in air if one.response], f"{ear} line", False, line=line)
        for masked in (False, True):
            some = [one for one in air if one.masked == masked]
            name = f"{ear.capitalize()} air{', masked' if masked else ''}"
            if look.letters:
                series(some, name, False, data_labels=_labels(LETTERS[ear, "air", masked], "center", colour, look, 14))
            else:
                fill = {"color": colour} if look.filled else {"none": True}
                border = {"color": colour, "width": look.width}
                kind = {"type": MARKERS[ear, masked], "size": look.marker, "border": border, "fill": fill}
                series(some, name, True, marker=kind)
            bone = [one for one in of(truth, ear, "bone") if one.masked == masked]
            beside = "left" if ear == "right" else "right"
            labels = _labels(LETTERS[ear, "bone", masked], beside, colour, look, 13)
            series(bone, f"{ear} bone", False, data_labels=labels)
        for values, aside in ((air, "below"), (of(truth, ear, "bone"), "below")):
            silent = [one for one in values if not one.response]
            arrow = "↙" if ear == "right" else "↘"
            series(silent, f"{ear} arrows", False, data_labels=_labels(arrow, aside, colour, look, 11))
    kept = look.legend != "none"
    hidden = [number - first for number in without_entry]
    chart.set_legend({"position": look.legend, "delete_series": hidden} if kept else {"none": True})
    return row


def _labels(letter: str, position: str, colour: str, look: Look, size: int) -> dict[str, Any]:
    custom = [{"value": letter, "font": {"color": colour, "size": size, "name": look.font}} for _ in look.tested]
    return {"value": True, "position": position, "custom": custom, "font": {"color": colour, "size": size}}


def _dress(chart: Any, ears: tuple[Ear, ...], look: Look) -> None:
    font = {"name": look.font, "size": look.text, "bold": False}
    colour, width = look.grid
    lines: dict[str, Any] = {"visible": colour != "none"}
    if colour != "none":
        lines["line"] = {"color": colour, "width": width}
    unit = "kHz" if look.khz else "Hz"
    upright = lines if look.upright_grid else {"visible": False}
    across = {"name": f"Frequency ({unit})", "name_font": font, "num_font": font, "major_gridlines": upright}
    down = {"name": "Hearing level (dB HL)", "name_font": font, "num_font": font, "major_gridlines": lines}
    down |= {"reverse": True, "min": look.levels[0], "max": look.levels[1], "major_unit": look.step}
    # A reversed axis carries the other one to the top, unless it is crossed at its far end.
    down |= {"crossing": "max"} if look.bottom else {}
    chart.set_y_axis(down | ({"label_position": "high"} if look.right else {}))
    chart.set_x_axis(across)
    x, y, w, h = INNER
    chart.set_plotarea({"layout": {"x": x, "y": y, "width": w, "height": h}, "border": {"color": "#808080"}})
    chart.set_chartarea({"fill": {"color": look.paper}, "border": {"none": True}})
    chart.set_title({"none": True} if len(ears) == 2 else {"name": f"{ears[0].capitalize()} ear", "name_font": font})
    chart.show_blanks_as("span")
