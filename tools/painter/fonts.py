"""The fonts that the painter writes with: a fixed list, found in installed packages or in one folder.

Every face comes from a package that pip installs, so that a page looks the same on every machine. Faces of the split
"bench" never stand on a training page, nor the other way round; the standard faces of every PDF viewer serve both.
"""

from __future__ import annotations

import re
import shutil
import struct
from dataclasses import dataclass
from functools import cache
from importlib.util import find_spec
from pathlib import Path
from typing import Literal

from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont

from ...interpret.errors import MissingProgram

Split = Literal["train", "bench", "both"]


@dataclass(frozen=True, slots=True)
class Face:
    """One font: its name, the file and the package that holds it (none for a PDF viewer's own fonts)."""

    name: str
    split: Split
    bold: str
    file: str | None = None
    package: str | None = None
    """The name to install; the folder that holds the file is ``_PLACES[package]``."""


_PLACES: dict[str, tuple[str, str]] = {
    "matplotlib": ("matplotlib", "mpl-data/fonts/ttf"),
    "reportlab": ("reportlab", "fonts"),
    "font-roboto": ("font_roboto", "files"),
    "font-lato": ("font_lato", "files"),
    "font-source-sans-pro": ("font_source_sans_pro", "files"),
    "font-source-serif-pro": ("font_source_serif_pro", "files"),
    "font-caladea": ("font_caladea", "files"),
    "font-manrope": ("font_manrope", "files"),
    "font-rhd": ("font_rhd", "files"),
    "font-fjallaone": ("font_fjallaone", "files"),
    "font-fredoka-one": ("font_fredoka_one", "files"),
    "font-intuitive": ("font_intuitive", "files"),
    "font-amatic-sc": ("font_amatic_sc", "files"),
}

_STANDARD: tuple[tuple[str, str], ...] = (
    ("Helvetica", "Helvetica-Bold"),
    ("Helvetica-Bold", "Helvetica-Bold"),
    ("Helvetica-Oblique", "Helvetica-Bold"),
    ("Times-Roman", "Times-Bold"),
    ("Times-Bold", "Times-Bold"),
    ("Times-Italic", "Times-Bold"),
    ("Courier", "Courier-Bold"),
    ("Courier-Bold", "Courier-Bold"),
)
_FILES: tuple[tuple[str, str, Split, str], ...] = (
    ("DejaVuSans", "matplotlib", "train", "DejaVuSans-Bold"),
    ("DejaVuSans-Bold", "matplotlib", "train", "DejaVuSans-Bold"),
    ("DejaVuSans-Oblique", "matplotlib", "train", "DejaVuSans-Bold"),
    ("DejaVuSansMono", "matplotlib", "train", "DejaVuSansMono"),
    ("DejaVuSerif", "matplotlib", "bench", "DejaVuSerif-Bold"),
    ("DejaVuSerif-Bold", "matplotlib", "bench", "DejaVuSerif-Bold"),
    ("STIXGeneral", "matplotlib", "train", "STIXGeneralBol"),
    ("STIXGeneralBol", "matplotlib", "train", "STIXGeneralBol"),
    ("cmr10", "matplotlib", "bench", "cmb10"),
    ("cmb10", "matplotlib", "bench", "cmb10"),
    ("cmss10", "matplotlib", "train", "cmss10"),
    ("cmtt10", "matplotlib", "train", "cmtt10"),
    ("Vera", "reportlab", "bench", "VeraBd"),
    ("VeraBd", "reportlab", "bench", "VeraBd"),
    ("Roboto-Regular", "font-roboto", "train", "Roboto-Medium"),
    ("Roboto-Medium", "font-roboto", "train", "Roboto-Medium"),
    ("Roboto-Light", "font-roboto", "train", "Roboto-Medium"),
    ("Lato-Regular", "font-lato", "bench", "Lato-Bold"),
    ("Lato-Bold", "font-lato", "bench", "Lato-Bold"),
    ("Lato-Light", "font-lato", "bench", "Lato-Bold"),
    ("SourceSansPro-Regular", "font-source-sans-pro", "train", "SourceSansPro-Semibold"),
    ("SourceSansPro-Semibold", "font-source-sans-pro", "train", "SourceSansPro-Semibold"),
    ("SourceSansPro-It", "font-source-sans-pro", "train", "SourceSansPro-Semibold"),
    ("SourceSerifPro-Regular", "font-source-serif-pro", "train", "SourceSerifPro-Bold"),
    ("SourceSerifPro-Bold", "font-source-serif-pro", "train", "SourceSerifPro-Bold"),
    ("Caladea-Regular", "font-caladea", "bench", "Caladea-Bold"),
    ("Caladea-Bold", "font-caladea", "bench", "Caladea-Bold"),
    ("Manrope-Regular", "font-manrope", "train", "Manrope-Bold"),
    ("Manrope-Bold", "font-manrope", "train", "Manrope-Bold"),
    ("RedHatDisplay-Regular", "font-rhd", "bench", "RedHatDisplay-Bold"),
    ("RedHatDisplay-Bold", "font-rhd", "bench", "RedHatDisplay-Bold"),
    ("FjallaOne-Regular", "font-fjallaone", "train", "FjallaOne-Regular"),
    ("FredokaOne-Regular", "font-fredoka-one", "train", "FredokaOne-Regular"),
    ("Intuitive", "font-intuitive", "train", "Intuitive"),
    ("AmaticSC-Regular", "font-amatic-sc", "train", "AmaticSC-Bold"),
    ("AmaticSC-Bold", "font-amatic-sc", "train", "AmaticSC-Bold"),
)

FACES: dict[str, Face] = {
    face.name: face
    for face in (
        *(Face(name, "both", bold) for name, bold in _STANDARD),
        *(Face(name, split, bold, f"{name}.ttf", package) for name, package, split, bold in _FILES),
    )
}
"""Every face by name, in a fixed order."""

DISPLAY = frozenset({"FredokaOne-Regular", "Intuitive", "AmaticSC-Regular", "AmaticSC-Bold", "FjallaOne-Regular"})
"""Faces for headings and handwriting, not for the labels of an axis on most forms."""

_CORE_LINE = re.compile(r"^C (\d+) ; WX \d+ ; N \w+ ; B (-?\d+) (-?\d+) (-?\d+) (-?\d+) ;", re.MULTILINE)
_folders: list[Path] = []


def use_folder(path: str | Path) -> None:
    """Look for font files in this folder before the installed packages (a machine that cannot install any)."""
    _folders.insert(0, Path(path))


def collect(path: str | Path) -> list[Path]:
    """Copy every font file that the painter may use into one folder, for ``use_folder`` elsewhere."""
    target = Path(path)
    target.mkdir(parents=True, exist_ok=True)
    found = [_find(face) if face.file is not None else _metrics(face.name) for face in FACES.values()]
    return [Path(shutil.copyfile(file, target / file.name)) for file in found]


def faces_for(split: Literal["train", "bench"]) -> tuple[str, ...]:
    """Name the faces for ordinary words of a split, in the fixed order."""
    return tuple(f.name for f in FACES.values() if f.split in (split, "both") and f.name not in DISPLAY)


def _find(face: Face) -> Path:
    assert face.file is not None
    assert face.package is not None
    return _file(face.file, face.package, _PLACES[face.package][1], missing=face.name)


def _file(file: str, package: str, inner: str, *, missing: str) -> Path:
    for folder in _folders:
        if (folder / file).is_file():
            return folder / file
    spec = find_spec(_PLACES[package][0])
    for place in (spec.submodule_search_locations or ()) if spec is not None else ():
        if (Path(place) / inner / file).is_file():
            return Path(place) / inner / file
    raise MissingProgram(f"the font {missing} is not installed", f"Install it with: pip install {package}")


def _metrics(name: str) -> Path:
    return _file(f"{name}.afm", "matplotlib", "mpl-data/fonts/pdfcorefonts", missing=name)


@cache
def load(name: str) -> str:
    """Make a face ready for use and give back its name.

    Raises
    ------
    MissingProgram
        When the font's file is not found; the text names the package to install.
    """
    face = FACES[name]
    if face.file is not None:
        pdfmetrics.registerFont(TTFont(name, str(_find(face))))
    return name


def has(name: str, text: str) -> bool:
    """Tell whether the face has a shape for every character of ``text``."""
    font = pdfmetrics.getFont(load(name))
    if isinstance(font, TTFont):
        return all(ord(char) in font.face.charToGlyph for char in text)
    return all(ord(char) < 127 or char in "ÄÖÜäöüßéè·±×" for char in text)


def width(name: str, text: str, size: float) -> float:
    """Give the advance width of ``text`` in points."""
    return pdfmetrics.stringWidth(text, load(name), size)


@cache
def _core_boxes(name: str) -> dict[str, tuple[float, float, float, float]]:
    """Ink boxes of a standard face, from Adobe's published metrics of the PDF core fonts."""
    metrics = _metrics(name).read_text(encoding="latin-1")
    boxes = {}
    for line in _CORE_LINE.finditer(metrics):
        code, *box = (int(number) for number in line.groups())
        left, bottom, right, top = (number / 1000 for number in box)
        boxes[chr(code)] = (left, bottom, right, top)
    return boxes


@cache
def _char_box(name: str, char: str) -> tuple[float, float, float, float, float]:
    """Ink box (left, bottom, right, top) and advance of one character, in fractions of the size."""
    advance = width(name, char, 1000) / 1000
    font = pdfmetrics.getFont(load(name))
    if not isinstance(font, TTFont):
        boxes = _core_boxes(name)
        # letters with accents have no code of their own in these metrics: the plain capital's box stands for them
        return (*boxes.get(char, boxes["O"]), advance)
    face = font.face
    glyph = face.charToGlyph.get(ord(char), 0)
    start, end = face.glyphPos[glyph], face.glyphPos[glyph + 1]
    if end <= start:
        return 0.0, 0.0, 0.0, 0.0, advance
    left, bottom, right, top = struct.unpack(">4h", face.get_table("glyf")[start + 2 : start + 10])
    unit = face.unitsPerEm
    return left / unit, bottom / unit, right / unit, top / unit, advance


def ink_box(name: str, text: str, size: float) -> tuple[float, float, float, float]:
    """Give the box of the ink of ``text``: left, bottom, right, top in points from its start on the base line, y up.

    Notes
    -----
    Exact for embedded fonts; for the standard faces by Adobe's metrics, while the viewer may choose its own shapes.
    """
    at, boxes = 0.0, []
    for char in text:
        left, bottom, right, top, advance = _char_box(name, char)
        if right > left:
            boxes.append((at + left, bottom, at + right, top))
        at += advance
    if not boxes:
        return 0.0, 0.0, at * size, 0.0
    return (
        min(b[0] for b in boxes) * size,
        min(b[1] for b in boxes) * size,
        max(b[2] for b in boxes) * size,
        max(b[3] for b in boxes) * size,
    )
