"""The sample charts: pages of the invented Harbour Lane clinic, each with its truth; ``make_samples`` makes them anew."""

from __future__ import annotations

import hashlib
from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path

from ...interpret.exports.as_json import to_json_line
from ...interpret.record import PageRecord, Source, TakenBy, Threshold
from ...interpret.symbols import Glyph
from . import PaintedPage, paint, render
from .spoiling import spoil, write_pages

Wish = Callable[[PaintedPage], bool]
"""Says whether a painted page shows what a sample is about."""

_MOST_SEEDS = 3000


@dataclass(frozen=True, slots=True)
class Leaf:
    """One page of a sample: the first page of the family, from ``first_seed`` on, that meets the wish."""

    family: str
    wish: Wish
    first_seed: int = 0
    mono: bool = False

    def painted(self) -> PaintedPage:
        """Paint the page.

        Raises
        ------
        LookupError
            When no page of the family meets the wish.
        """
        for seed in range(self.first_seed, self.first_seed + _MOST_SEEDS):
            page = paint(self.family, seed, mono=self.mono)
            if self.wish(page):
                return page
        raise LookupError(f"no page of the family {self.family} shows what the sample is about")


@dataclass(frozen=True, slots=True)
class Sample:
    """One file: its name, its pages, and the way that they went; a page that was only drawn stays a vector PDF."""

    name: str
    about: str
    leaves: tuple[Leaf, ...]
    kind: str = "drawn"
    spoil_seed: int = 0
    dpi: int = 200
    exif_turn: int | None = None
    quality: int = 75

    @property
    def taken_by(self) -> TakenBy:
        """How a reader will have to take the page."""
        return "drawn" if self.kind == "drawn" else "photo" if self.kind == "photo" else "scan"


def _values(page: PaintedPage) -> list[Threshold]:
    return [threshold for audiogram in page.record.audiograms for threshold in audiogram.thresholds]


def _tidy(page: PaintedPage, *, symbols: str = "asha-1990") -> bool:
    """Say whether the page is one that a clinic would hand out: usual symbols of a usual size, a usual level axis."""
    charts = [chart for audiogram in page.record.audiograms for chart in audiogram.charts]
    if {audiogram.symbol_set for audiogram in page.record.audiograms} != {symbols}:
        return False
    if any(chart.level_axis is None or chart.level_axis.db_hl not in ((-10, 120), (-10, 110)) for chart in charts):
        return False
    plain = [mark for mark in page.marks if not mark.in_key and mark.glyph in ("circle", "cross")]
    shares = [mark.size[0] / (charts[mark.chart].outline[1][0] - charts[mark.chart].outline[0][0]) for mark in plain]
    return bool(shares) and 0.018 < min(shares) and max(shares) < 0.045


def _scale(page: PaintedPage) -> str:
    axis = page.record.audiograms[0].charts[0].frequency_axis
    return "" if axis is None else axis.scale


def _shows(page: PaintedPage, *glyphs: Glyph) -> bool:
    return set(glyphs) <= {mark.glyph for mark in page.marks if not mark.in_key}


def _both_ears(page: PaintedPage) -> bool:
    inks = {mark.ink for mark in page.marks}
    usual = _tidy(page) and _scale(page) == "log" and {"red", "blue"} <= inks
    return usual and _shows(page, "circle", "cross", "angle-left", "angle-right") and 16 <= len(page.marks) <= 26


def _ear_each(page: PaintedPage) -> bool:
    return _tidy(page) and 14 <= len(_values(page)) <= 40


def _dates(page: PaintedPage) -> bool:
    return _tidy(page) and len(page.record.audiograms) >= 3 and len(_values(page)) <= 70


def _equal_steps(page: PaintedPage) -> bool:
    return _tidy(page) and _scale(page) == "equal" and len(_values(page)) >= 14


def _british_key(page: PaintedPage) -> bool:
    keyed = any(mark.in_key for mark in page.marks)
    return keyed and _tidy(page, symbols="bsa-2018") and _shows(page, "triangle", "circle", "cross")


def _masked_bone(page: PaintedPage) -> bool:
    return _both_ears_or_one(page) and _shows(page, "bracket-right") and len(_values(page)) <= 30


def _both_ears_or_one(page: PaintedPage) -> bool:
    return _tidy(page) and _scale(page) == "log" and _shows(page, "circle", "cross")


def _no_response(page: PaintedPage) -> bool:
    silent = [threshold for threshold in _values(page) if not threshold.response]
    return _both_ears_or_one(page) and 2 <= len(silent) <= 8 and len(_values(page)) <= 26


def _plain(page: PaintedPage) -> bool:
    return _both_ears_or_one(page) and 12 <= len(_values(page)) <= 22


def _any(page: PaintedPage) -> bool:
    return bool(page.words)


SAMPLES: tuple[Sample, ...] = (
    Sample("drawn-both-ears.pdf", "a drawn page: one chart, both ears, air and bone", (Leaf("single", _both_ears),)),
    Sample("drawn-ear-each.pdf", "a drawn page: two charts of one test, an ear each", (Leaf("beside", _ear_each),)),
    Sample("drawn-dates.pdf", "a drawn page: tests of three dates or more, a chart each", (Leaf("dates", _dates),)),
    Sample("drawn-equal-steps.pdf", "a drawn page: all printed frequencies equally far apart", (Leaf("uneven", _equal_steps),)),
    Sample("drawn-british-key.pdf", "a drawn page: British symbols, explained in a printed key", (Leaf("keyed", _british_key),)),
    Sample("drawn-letter.pdf", "a drawn page: a letter without a chart", (Leaf("letter", _any),)),
    Sample("scan-report.pdf", "a scanned report in a PDF: a chart among speech scores and tympanograms", (Leaf("report", _plain),), "scan", 1),
    Sample("scan-masked-bone.png", "a scan: masked bone conduction", (Leaf("single", _masked_bone),), "scan", 1),
    Sample("scan-no-response.jpg", "a scan: arrows at the audiometer's limits, no response", (Leaf("single", _no_response),), "scan", 1),
    Sample("photocopy-one-ink.pdf", "a photocopy of a page without colour, in a PDF", (Leaf("wide", _plain, mono=True),), "copy", 1),
    Sample(
        "fax-three-pages.tif",
        "a fax of three pages, 204 x 196 dpi: a letter and two reports",
        (Leaf("letter", _any, 5), Leaf("single", _plain, 20), Leaf("one-ear", _any, 3)),
        "fax-fine",
        1,
    ),
    Sample("fax-coarse.tif", "a fax of one page in coarse mode, 204 x 98 dpi", (Leaf("keyed", _plain, 40),), "fax-coarse", 1),
    Sample("photo.jpg", "a phone photo, stored on its side with an EXIF turn", (Leaf("single", _plain, 60),), "photo", 1, exif_turn=6),
)  # fmt: skip
"""In the order of the README beside them."""


def make_samples(folder: str | Path, *, only: tuple[str, ...] = ()) -> list[Path]:
    """Write the sample charts, each with its truth ``NAME.truth.jsonl`` (one page record a line), and their README.

    Parameters
    ----------
    folder : str or Path
        Where to; it is made if need be.
    only : tuple of str
        Names of the samples wanted; by default all, and the README.

    Returns
    -------
    list of Path
        The samples, without their truths.
    """
    folder = Path(folder)
    folder.mkdir(parents=True, exist_ok=True)
    paths = []
    for sample in SAMPLES:
        if only and sample.name not in only:
            continue
        path = folder / sample.name
        records = _write(sample, path)
        lines = "".join(to_json_line(record) + "\n" for record in records)
        truth_path(path).write_text(lines, encoding="utf-8", newline="\n")
        paths.append(path)
    if not only:
        (folder / "README.md").write_text(_readme(), encoding="utf-8", newline="\n")
    return paths


def truth_path(path: Path) -> Path:
    """Name the file that holds the truth of a sample."""
    return path.with_name(path.name + ".truth.jsonl")


def _write(sample: Sample, path: Path) -> list[PageRecord]:
    """Write the file of one sample and give the truth of its pages."""
    pages = [leaf.painted() for leaf in sample.leaves]
    if sample.kind == "drawn":
        path.write_bytes(pages[0].pdf)
    else:
        ways = [
            spoil(render(page.pdf, sample.dpi), sample.kind, sample.spoil_seed + number, dpi=sample.dpi)
            for number, page in enumerate(pages)
        ]
        write_pages(ways, sample.kind, path, exif_turn=sample.exif_turn, quality=sample.quality)
        pages = [page.moved(way.warp) for page, way in zip(pages, ways, strict=True)]
    digest = hashlib.sha256(path.read_bytes()).hexdigest()
    return [
        replace(page.record, source=Source(path.name, digest, number, len(pages), sample.taken_by))
        for number, page in enumerate(pages, 1)
    ]


def _readme() -> str:
    lines = [
        "# Sample charts",
        "",
        "Pages of the Harbour Lane clinic, which is invented, as are its patients. Beside each file stands its truth,",
        "`NAME.truth.jsonl`: one page record a line, with every place carried through scan, fax and photo.",
        "`python -m octavo.tools.painter.samples sample_charts` makes them anew from their seeds.",
        "",
        "| file | what it is |",
        "| --- | --- |",
        *(f"| `{sample.name}` | {sample.about} |" for sample in SAMPLES),
    ]
    return "\n".join(lines) + "\n"


if __name__ == "__main__":
    import sys

    make_samples(sys.argv[1])
