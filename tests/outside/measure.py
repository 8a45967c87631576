"""Read pages drawn by another hand and say how well that went.

    python tests/outside/measure.py --renderer matplotlib --n 20 --out DIR

Renderers: matplotlib, pillow, testers and pens (packages; pens are forms filled in by hand); strangers and neighbours
(cairocffi); clinics (fpdf2, skia-python and PySide6-Essentials; the style hard-edges needs none); vega
(vl-convert-python); gnuplot, svg, office, r and tikz (Debian's gnuplot-nox, chromium, libreoffice-calc, r-base-core,
texlive-pictures with texlive-latex-recommended, outside CI). --spoil sends the pages through a pipeline of `spoiled`
(augraphy, of the group outside), a phone or a machine first, or through each in turn; --hand-on through a way of
`handed_on`.
Under DIR lie the pages, the report, and for every page with a fault an overlay: truth green, reading red, faults large.
"""

from __future__ import annotations

import argparse
import importlib
import sys
import time
import traceback
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import reduce
from operator import add
from pathlib import Path

import pypdfium2
from cases import OutsidePage
from copied import MACHINES
from handed_on import WAYS, hand_on
from photographed import SHOTS
from PIL import Image, ImageDraw, ImageFont
from score import Score, in_words, score
from spoiled import PIPELINES, spoil

import octavo
from octavo.interpret.errors import OctavoError
from octavo.interpret.record import PageRecord, Point, Threshold

RENDERERS = (
    "matplotlib",
    "svg",
    "gnuplot",
    "pillow",
    "office",
    "r",
    "testers",
    "strangers",
    "tikz",
    "neighbours",
    "pens",
    "vega",
    "clinics",
)
IN_TURN = {"all": tuple(PIPELINES), "photos": tuple(SHOTS), "machines": tuple(MACHINES)}
STANDARD = ("N1", "N2", "N3", "N4", "N5", "N6", "N7", "S1", "S2", "S3")


@dataclass(frozen=True, slots=True)
class Outcome:
    """One page, what was read on it, how good that is, and how long it took."""

    page: OutsidePage
    records: tuple[PageRecord, ...]
    score: Score
    seconds: float
    error: str = ""

    @property
    def style(self) -> str:
        return self.page.note.split(",")[0]

    @property
    def charts_read(self) -> int:
        return sum(len(gram.charts) for record in self.records for gram in record.audiograms)


def read_page(page: OutsidePage) -> Outcome:
    """Read one page and hold it against its truth; an exception is told, not raised, so that the run goes on."""
    start = time.perf_counter()
    records: tuple[PageRecord, ...] = ()
    error = ""
    try:
        records = tuple(octavo.read(page.path))
    except OctavoError as fault:
        error = f"{type(fault).__name__}: {fault}"
    except Exception:  # noqa: BLE001 - a crash is a result of this measurement, whatever its class
        error = "CRASH\n" + traceback.format_exc()
    return Outcome(page, records, score(records, page.truth), time.perf_counter() - start, error)


def table(outcomes: Sequence[Outcome]) -> str:
    """Give the counts per style and over all, one line each."""
    heads = ("style", "pages", "true", "exact", "within 5", "wrong", "missed", "invented", "silent", "sure", "s/page")
    rows: list[tuple[str, ...]] = [heads]
    for style in (*dict.fromkeys(one.style for one in outcomes), "ALL"):
        some = [one for one in outcomes if style in ("ALL", one.style)]
        total = reduce(add, (one.score for one in some), Score())
        seconds = sorted(one.seconds for one in some)[len(some) // 2]
        shares = [_share(count, total.total) for count in (total.exact, total.within_5)]
        counts = [str(count) for count in (total.wrong, total.missed, total.invented, total.silent)]
        sure = _share(total.sure, total.total)
        rows.append((style, str(len(some)), str(total.total), *shares, *counts, sure, f"{seconds:.2f}"))
    widths = [max(len(row[i]) for row in rows) for i in range(len(heads))]
    return "\n".join("  ".join(f"{cell:>{w}}" for cell, w in zip(row, widths, strict=True)) for row in rows)


def complaints(outcome: Outcome) -> list[str]:
    """Say all that is wrong with the reading of one page; empty where nothing is."""
    out = [outcome.error] if outcome.error else []
    if not outcome.error and outcome.charts_read != outcome.page.charts:
        out.append(f"{outcome.charts_read} charts read of {outcome.page.charts}")
    if outcome.page.truth and outcome.score.missed == outcome.score.total and not outcome.score.invented:
        return [*out, f"{'SILENT ' if outcome.score.silent else ''}nothing read of {outcome.score.total} thresholds"]
    return out + [str(fault) for fault in outcome.score.faults]


def overlay(outcome: Outcome) -> Image.Image:
    """Draw truth (green, a ring) and reading (red, a cross) over the page; what is at fault is drawn large."""
    picture = picture_of(outcome.page.path)
    picture = Image.blend(picture, Image.new("RGB", picture.size, "white"), 0.45)
    draw = ImageDraw.Draw(picture)
    size = max(picture.size) / 130
    font = ImageFont.load_default(size * 1.3)
    bad_truth = [fault.truth for fault in outcome.score.faults]
    bad_reading = [fault.reading for fault in outcome.score.faults]
    for one, place in zip(outcome.page.truth, outcome.page.places, strict=True):
        _sign(draw, picture, place, one, (0, 150, 0), size, font, large=one in bad_truth)
    for record in outcome.records:
        for gram in record.audiograms:
            for chart in gram.charts:
                corners = [_pixel(picture, corner) for corner in (*chart.outline, chart.outline[0])]
                draw.line(corners, fill=(255, 120, 120), width=2)
            for one in gram.thresholds:
                if one.seen is not None and one.seen.at is not None:
                    _sign(draw, picture, one.seen.at, one, (220, 0, 0), size, font, large=one in bad_reading)
    return picture


def _sign(
    draw: ImageDraw.ImageDraw,
    picture: Image.Image,
    place: Point,
    one: Threshold,
    colour: tuple[int, int, int],
    size: float,
    font: ImageFont.ImageFont | ImageFont.FreeTypeFont,
    *,
    large: bool,
) -> None:
    x, y = _pixel(picture, place)
    reach = size * (1.6 if large else 0.5)
    read = colour[0] > colour[1]
    if read:
        draw.line([(x - reach, y - reach), (x + reach, y + reach)], fill=colour, width=2)
        draw.line([(x - reach, y + reach), (x + reach, y - reach)], fill=colour, width=2)
    else:
        draw.ellipse([x - reach, y - reach, x + reach, y + reach], outline=colour, width=2)
    if large:
        draw.text((x + reach, y + (reach if read else -2.2 * reach)), in_words(one), fill=colour, font=font)


def _pixel(picture: Image.Image, place: Point) -> tuple[float, float]:
    return place[0] * picture.width, place[1] * picture.height


def picture_of(path: Path) -> Image.Image:
    """Give a page's picture in colour; a PDF's at 144 dpi."""
    if path.suffix == ".pdf":
        with pypdfium2.PdfDocument(path) as document:
            return document[0].render(scale=2).to_pil().convert("RGB")
    with Image.open(path) as picture:
        return picture.convert("RGB")


def _share(count: int, total: int) -> str:
    return f"{100 * count / total:.2f}%" if total else "-"


def _pages(choices: argparse.Namespace, folder: Path) -> Iterator[OutsidePage]:
    drawer = importlib.import_module(f"drawn_by_{choices.renderer}")
    if choices.standard:
        yield from (drawer.standard(name, folder) for name in STANDARD)
        return
    styles = list(drawer.STYLES)
    seeds = range(choices.first, choices.first + choices.n)
    if choices.style:
        step = len(styles)
        start = choices.first - choices.first % step + styles.index(choices.style)
        seeds = range(start, start + step * choices.n, step)
    yield from (drawer.page(seed, folder) for seed in seeds)


def _spoiled(pages: Iterator[OutsidePage], how: str, folder: Path) -> Iterator[OutsidePage]:
    """Spoil pages in one way, or, with a name of ``IN_TURN``, each in the next way."""
    ways = IN_TURN.get(how, (how,))
    for number, page in enumerate(pages):
        yield spoil(page, ways[number % len(ways)], folder, number)


def _handed_on(pages: Iterator[OutsidePage], how: str, folder: Path) -> Iterator[OutsidePage]:
    """Hand pages on in one way, or, with ``all``, each in the next way."""
    ways = list(WAYS) if how == "all" else [how]
    for number, page in enumerate(pages):
        yield hand_on(page, ways[number % len(ways)], folder)


def _choices() -> argparse.Namespace:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--renderer", choices=RENDERERS, required=True)
    parser.add_argument("--n", type=int, default=20, help="number of pages (20)")
    parser.add_argument("--first", type=int, default=0, help="number of the first page (0); styles take turns")
    parser.add_argument("--style", help="draw this style alone")
    parser.add_argument("--standard", action="store_true", help="the ten standard audiograms instead (Bisgaard 2010)")
    parser.add_argument("--spoil", choices=(*PIPELINES, *SHOTS, *MACHINES, *IN_TURN), help="spoil the pages")
    parser.add_argument("--hand-on", choices=(*WAYS, "all"), help="hand the pages on, as a screenshot or the like")
    parser.add_argument("--draw-only", action="store_true", help="draw the pages and stop")
    parser.add_argument("--out", type=Path, required=True, metavar="DIR")
    return parser.parse_args()


def main() -> int:
    """Draw, read, report; 0 where nothing at all was wrong, else 1."""
    choices = _choices()
    pages, overlays = choices.out / "pages", choices.out / "overlays"
    for folder in (pages, overlays):
        folder.mkdir(parents=True, exist_ok=True)
    drawn = _pages(choices, pages)
    if choices.spoil:
        drawn = _spoiled(drawn, choices.spoil, pages)
    if choices.hand_on:
        drawn = _handed_on(drawn, choices.hand_on, pages)
    if choices.draw_only:
        sys.stdout.writelines(f"{page.path}: {page.note}\n" for page in drawn)
        return 0
    outcomes, lines = [], []
    for page in drawn:
        outcome = read_page(page)
        outcomes.append(outcome)
        told = complaints(outcome)
        if told:
            target = overlays / f"{page.path.stem}.png"
            overlay(outcome).save(target)
            lines += [f"{page.path.name} ({page.note}): {target}", *(f"    {one}" for one in told)]
        if sys.stderr.isatty():
            sys.stderr.write(f"\r{len(outcomes)} pages")
    report = "\n".join([*lines, "", table(outcomes), ""])
    (choices.out / "report.txt").write_text(report, encoding="utf-8")
    sys.stdout.write(report)
    return 1 if lines else 0


if __name__ == "__main__":
    sys.exit(main())
