"""Fit how probable it is that a word was read right: ``python -m octavo.tools.train.words_fit PAGES`` (CPU).

Scans and faxes of the training families that hold facts are read. Of every word that the file's own text tells, what
the three readers say is kept, and whether the text that was taken is right; logistic weights are fitted to that. With
``--faces FOLDER`` its TrueType files, each with a bold partner ``NAME-Bold.ttf``, take the place of the training faces,
which the readers know.
"""

from __future__ import annotations

import argparse
import datetime
import json
import multiprocessing
import tempfile
from dataclasses import replace
from functools import partial
from pathlib import Path

import numpy as np

from ...extract.choices import Choices
from ...extract.eyes import see
from ...extract.intake import pages
from ...extract.measure import measure
from ...extract.page import Page, Word
from ...extract.report.trust import NAMES, NUMBER, Said, evidence_of
from ...extract.report.words import report_words
from ...extract.sheet import Sheet
from ...extract.straighten import straighten
from ..painter import FAMILIES, fonts, paint, render
from ..painter.spoiling import spoil, write_file
from .certainty_fit import fit

FIRST_SEED = 42_000_000
WAYS = {"scan-300": ".png", "fax-fine": ".tif"}
TRUST = Path(__file__).parents[2] / "extract" / "report" / "trust.json"
COVERED, TOUCHED = 0.35, 0.15
"""A printed word is a read one's where so much of its width lies under it; one that is only touched spoils the row."""
ENDS = ".,:;"
"""Stops at a word's end are no letters of it."""
Row = tuple[tuple[float, ...], bool]


def rows_of(order: tuple[str, str, int], faces: str | None) -> list[Row]:
    """Paint and read one page (family, way, seed); give each word's evidence and whether it was right."""
    if faces is not None:
        _use_faces(Path(faces))
    family, way, seed = order
    painted = paint(family, seed, mono=seed % 5 == 4)
    spoiled = spoil(render(painted.pdf, 300), way, seed, dpi=300)
    with tempfile.TemporaryDirectory() as folder:
        pdf, picture = Path(folder) / "page.pdf", Path(folder) / f"page{WAYS[way]}"
        pdf.write_bytes(painted.pdf)
        write_file(spoiled, way, picture)
        own, read = next(iter(pages(pdf))), next(iter(pages(picture)))
    if not isinstance(own, Page) or not isinstance(read, Page):
        return []
    sheet = straighten(read)
    said: list[tuple[Word, tuple[Said, Said, Said]]] = []
    report_words(sheet, measure(sheet, see(sheet)), Choices(), look=lambda *one: said.append(one))
    high, wide = own.pixels.shape[:2]
    texts = [word.text for word in own.words or ()]
    corners = [np.array(word.box)[[0, 1, 2, 1, 2, 3, 0, 3]].reshape(4, 2) for word in own.words or ()]
    boxes = np.array([_on_sheet(sheet, spoiled.warp(one / (wide, high))) for one in corners]).reshape(-1, 4)
    return judged(said, texts, boxes)


def _use_faces(folder: Path) -> None:
    """Put the faces of a folder in the place of the training ones."""
    fonts.use_folder(folder)
    for name, face in list(fonts.FACES.items()):
        if face.split == "train" and face.file is not None and name not in fonts.DISPLAY:
            fonts.FACES[name] = replace(face, split="bench")  # still there for what names it, but never chosen
    for file in sorted(folder.glob("*.ttf")):
        bold = file.stem if file.stem.endswith("-Bold") else f"{file.stem}-Bold"
        fonts.FACES[file.stem] = fonts.Face(file.stem, "train", bold, file.name, "matplotlib")


def _on_sheet(sheet: Sheet, corners: np.ndarray) -> tuple[float, float, float, float]:
    """Carry a quadrilateral in page fractions to the box around it in sheet pixels."""
    pixels = corners * np.array(sheet.page_size) - 0.5
    found = np.c_[pixels, np.ones(4)] @ np.linalg.inv(sheet.to_page).T
    at = found[:, :2] / found[:, 2:]
    return (*at.min(axis=0), *at.max(axis=0))


def judged(said: list[tuple[Word, tuple[Said, Said, Said]]], texts: list[str], boxes: np.ndarray) -> list[Row]:
    """Hold words against what a page prints; those that are a part of a printed one tell nothing.

    Parameters
    ----------
    said : list of tuple
        Each word with what the three readers say of it.
    texts : list of str
        The printed words.
    boxes : ndarray, shape (n, 4)
        Where they stand, in the pixels of the words.

    Returns
    -------
    list of tuple
        The evidence of each word (``evidence_of``), and whether it is right.
    """
    rows: list[Row] = []
    for word, readers in said:
        left, top, right, bottom = word.box
        level = (boxes[:, 1] - 2 < (top + bottom) / 2) & ((top + bottom) / 2 < boxes[:, 3] + 2)
        shared = np.minimum(right, boxes[:, 2]) - np.maximum(left, boxes[:, 0])
        inside = level & (shared > COVERED * (boxes[:, 2] - boxes[:, 0]))
        touched = level & ~inside & (shared > TOUCHED * (right - left))
        places = sorted(np.flatnonzero(inside), key=lambda i: boxes[i, 0])
        printed, text = _bare("".join(texts[i] for i in places)), _bare(word.text)
        part = len(printed) > len(text) + 1 and text in printed
        if printed and text and not part and not touched.any():
            rows.append((evidence_of(word.text, readers), text == printed))
    return rows


def _bare(text: str) -> str:
    """Give what of a word must be right: no spaces, no stop at its end; a decimal comma is a point, a dash a hyphen."""
    bare = "".join(text.split()).strip(ENDS).translate(str.maketrans("\u2013\u2014\u2212\u2019", "---'"))
    return bare.replace(",", ".") if NUMBER.fullmatch(bare) else bare


def main() -> None:
    """Paint, read, fit, and write the weights beside the code that uses them."""
    parser = argparse.ArgumentParser()
    parser.add_argument("pages", type=int)
    parser.add_argument("--workers", type=int, default=2)
    parser.add_argument("--first", type=int, default=FIRST_SEED)
    parser.add_argument("--faces")
    parser.add_argument("--out", type=Path, default=TRUST)
    args = parser.parse_args()
    names = sorted(n for n, f in FAMILIES.items() if f.split == "train" and "facts" in f.tags)
    ways = list(WAYS)
    orders = [(names[i // 2 % len(names)], ways[i % 2], args.first + i) for i in range(args.pages)]
    with multiprocessing.get_context("spawn").Pool(args.workers) as pool:
        rows = [row for page in pool.imap_unordered(partial(rows_of, faces=args.faces), orders) for row in page]
    weights, constant = fit(np.array([one for one, _ in rows], float), np.array([right for _, right in rows], float))
    today = datetime.datetime.now(tz=datetime.UTC).date()
    told = json.loads(TRUST.read_text("utf-8"))
    told["weights"] = {name: round(float(weight), 3) for name, weight in zip(NAMES, weights, strict=True)}
    told["constant"] = round(constant, 3)
    told["provenance"] = (
        f"tools/train/words_fit.py on {today}: {len(rows)} words of {args.pages} pages of training families, seeds "
        f"from {args.first}, {sum(not right for _, right in rows)} of them wrong"
    )
    args.out.write_text(json.dumps(told, indent=1) + "\n")


if __name__ == "__main__":
    main()
