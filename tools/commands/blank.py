"""``octavo blank``: the pages of a file as pictures, with everything blacked out that may say who somebody is."""

from __future__ import annotations

import os
import re
from argparse import ArgumentParser, Namespace
from pathlib import Path
from typing import TYPE_CHECKING

from ...interpret.errors import MisuseError, NotBlanked
from .output import Progress, say, show
from .whole_file import check_place, write_whole

if TYPE_CHECKING:
    from ...extract.blank import BlankedPage
    from ...interpret.record import Box
    from ..blanking.pictures import PagePicture

SUMMARY = "black out names and all else that may say who somebody is"
DESCRIPTION = """\
Writes the pages of a file as pictures without any note beside them. All that stands outside the charts is blacked out
in the picture itself, whatever it is, but for words, numbers and lines that are known to be harmless: dates go as well,
and so may more than would have to. Where writing may stand within a chart, nothing is written, and the places are
named: look at them, and name them with --also to have them blacked out. Look at every page before you give it away."""

_ENDINGS = (".pdf", ".tif", ".tiff", ".png", ".jpg", ".jpeg")
_SEVERAL = (".pdf", ".tif", ".tiff")
_ALL = 100
_AREA = re.compile(r"(\d{1,5}):" + ",".join([r"(\d{1,3}(?:\.\d+)?)"] * 4))


def add_arguments(parser: ArgumentParser) -> None:
    """Declare the options of ``octavo blank``."""
    parser.add_argument("file", metavar="FILE", help="a PDF, TIFF, PNG, JPEG, WebP, BMP or GIF file")
    parser.add_argument(
        "-o",
        "--out",
        metavar="OUT",
        type=Path,
        required=True,
        help="the file to write: .pdf, .tif, .png or .jpg; of several pages OUT.png, OUT-2.png and so on",
    )
    parser.add_argument(
        "--also",
        metavar="PAGE:LEFT,TOP,RIGHT,BOTTOM",
        action="append",
        default=[],
        help="black out this area, too, in percent of the page; may be given again",
    )
    parser.add_argument(
        "--languages", metavar="LIST", default="eng", help="of the words, as Tesseract names them: eng,deu (eng)"
    )


def run(arguments: Namespace) -> int:
    """Blank one file and give the exit code."""
    out: Path = arguments.out
    ending = out.suffix.lower()
    if ending not in _ENDINGS:
        raise MisuseError(
            f"'{out}' does not say what is to be written", f"Name a file that ends in {', '.join(_ENDINGS)}"
        )
    if os.path.isdir(arguments.file):  # noqa: PTH112  # Path.is_dir raises where a name is too long
        raise MisuseError("octavo blank takes one file at a time", "Name a file", file=arguments.file)
    if os.path.realpath(arguments.file) == os.path.realpath(out):
        raise MisuseError("the file to write is the file to read", "Name another file with -o", file=str(out))
    also = _areas(arguments.also)
    check_place(out)
    from ...extract.choices import Choices
    from ..blanking.whole import blank_file

    progress = Progress(1)
    done = blank_file(
        arguments.file,
        Choices(languages=tuple(arguments.languages.split(","))),
        _maker(ending),
        also=also,
        progress=lambda page, pages: progress.page(0, page, pages),
    )
    progress.clear()
    if done.doubts:
        for page, doubt in done.doubts:
            say(f"page {page}: {doubt.what}, {_percent(doubt.box)}")
        what = f"it is not certain that all was found ({len(done.doubts)} places), and nothing was written"
        raise NotBlanked(what, "Look at the places named, and black them out with --also", file=arguments.file)
    files = _files(out, ending, done.pages)
    write_whole(files)
    names = str(out) if len(files) == 1 else f"{out} and {len(files) - 1} more"
    pages = f"{len(done.pages)} page{'s' if len(done.pages) > 1 else ''}"
    show(f"{names}: {pages}, {done.share:.0%} blacked out. Look at every page before you give it away.")
    return 0


def _maker(ending: str):
    from ..blanking.pictures import picture_of

    def make(page: BlankedPage) -> PagePicture:
        return picture_of(page.pixels, page.dpi, ending)

    return make


def _files(out: Path, ending: str, pages: tuple[PagePicture, ...]) -> dict[Path, bytes]:
    from ..blanking.pictures import file_of

    if ending in _SEVERAL:
        return {out: file_of(pages, ending)}
    names = (
        out if number == 1 else out.with_name(f"{out.stem}-{number}{out.suffix}") for number in range(1, len(pages) + 1)
    )
    return {name: file_of((page,), ending) for name, page in zip(names, pages, strict=True)}


def _areas(given: list[str]) -> dict[int, tuple[Box, ...]]:
    areas: dict[int, tuple[Box, ...]] = {}
    for text in given:
        page, area = _area(text)
        areas[page] = (*areas.get(page, ()), area)
    return areas


def _area(text: str) -> tuple[int, Box]:
    found = _AREA.fullmatch(text)
    if found is not None:
        page, left, top, right, bottom = (float(number) for number in found.groups())
        if page >= 1 and left < right <= _ALL and top < bottom <= _ALL:
            return int(page), (left / _ALL, top / _ALL, right / _ALL, bottom / _ALL)
    raise MisuseError(f"'{text}' is no area of a page", "Write the page and the area in percent, such as 2:10,5,60,12")


def _percent(box: Box) -> str:
    """Give a box as ``--also`` takes it, a little larger than it is."""
    left, top = (max(0, int(side * _ALL)) for side in box[:2])
    right, bottom = (min(_ALL, int(side * _ALL) + 1) for side in box[2:])
    return f"at {left},{top},{right},{bottom} percent of the page"
