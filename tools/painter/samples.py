"""The sample charts: pages of the invented Harbour Lane clinic with their truth; ``make_samples`` makes them anew."""

from __future__ import annotations

import hashlib
from dataclasses import dataclass, replace
from pathlib import Path

from ...interpret.exports.as_json import to_json_line
from ...interpret.record import PageRecord, Source, TakenBy
from . import paint, render
from .spoiling import shown, spoil, write_pages


@dataclass(frozen=True, slots=True)
class Leaf:
    """One page of a sample: a family of the training split, and its seed."""

    family: str
    seed: int
    mono: bool = False


@dataclass(frozen=True, slots=True)
class Sample:
    """One file: its name, what it shows, its pages, and the way that they went.

    ``kind`` is "drawn" for a page that stays a vector PDF, else a kind of spoiling; ``spoil_seed`` is the seed of the
    first page's spoiling. ``dpi`` is the resolution at which the page is rendered before.
    """

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
        """How a reader has to take the page."""
        return "drawn" if self.kind == "drawn" else "photo" if self.kind == "photo" else "scan"


# The seeds were chosen by looking at the pages. A change of the painter may turn a page into another one:
# tests/samples/test_sample_charts.py tells what each has to show.
SAMPLES: tuple[Sample, ...] = (
    Sample("drawn-both-ears.pdf", "drawn: one chart with both ears, air and bone, and a key", (Leaf("keyed", 72),)),
    Sample("drawn-ear-each.pdf", "drawn: two charts of one test, an ear each, masked", (Leaf("beside", 21),)),
    Sample("drawn-dates.pdf", "drawn: the tests of four dates, a chart each", (Leaf("dates", 5),)),
    Sample("drawn-equal-steps.pdf", "drawn: frequencies to 16 kHz, all equally far apart", (Leaf("uneven", 51),)),
    Sample("drawn-british-key.pdf", "drawn: British symbols, explained in a printed key", (Leaf("keyed", 94),)),
    Sample(
        "drawn-full-report.pdf",
        "drawn: a whole report, with facts, speech, tympanometry and reflexes, all in its truth",
        (Leaf("fact-tests", 36),),
    ),
    Sample("drawn-letter.pdf", "drawn: a letter without a chart", (Leaf("letter", 0),)),
    Sample("scan-report.pdf", "scanned report in a PDF: chart, speech, tympanograms", (Leaf("report", 20),), "scan", 3),
    Sample(
        "scan-full-report-german.pdf",
        "scanned whole report in German, with all that it says in its truth",
        (Leaf("fact-tests", 22),),
        "scan-300",
        4,
    ),
    Sample("scan-masked-bone.jpg", "scan: one ear masked, air and bone", (Leaf("single", 211),), "scan", 1),
    Sample("scan-no-response.jpg", "scan: arrows at the audiometer's limits", (Leaf("single", 50),), "scan", 5),
    Sample("photocopy-one-ink.png", "photocopy: both ears in one ink", (Leaf("single", 103, mono=True),), "copy", 10),
    Sample(
        "fax-three-pages.tif",
        "fax of three pages, 204 x 196 dpi: a letter and two charts",
        (Leaf("letter", 5), Leaf("report", 57), Leaf("one-ear", 20)),
        "fax-fine",
        1,
    ),
    Sample("fax-coarse.tif", "fax in coarse mode, 204 x 98 dpi", (Leaf("keyed", 76),), "fax-coarse", 1),
    Sample("photo.jpg", "phone photo, stored on its side", (Leaf("keyed", 74),), "photo", 2, exif_turn=6, quality=60),
)
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
    pages = [paint(leaf.family, leaf.seed, mono=leaf.mono) for leaf in sample.leaves]
    if sample.kind == "drawn":
        path.write_bytes(pages[0].pdf)
    else:
        ways = [
            spoil(render(page.pdf, sample.dpi), sample.kind, sample.spoil_seed + number, dpi=sample.dpi)
            for number, page in enumerate(pages)
        ]
        write_pages(ways, sample.kind, path, exif_turn=sample.exif_turn, quality=sample.quality)
        pages = [shown(page, way) for page, way in zip(pages, ways, strict=True)]
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
