"""``octavo paint``: report pages with known values, as files, each with its truth beside it."""

from __future__ import annotations

from argparse import ArgumentParser, ArgumentTypeError, Namespace
from dataclasses import replace
from hashlib import sha256
from pathlib import Path

from ...interpret.errors import CannotWrite, MissingProgram, MisuseError
from ...interpret.record import Source, TakenBy
from .output import Progress, show

SUMMARY = "make report pages with known values"
DESCRIPTION = """\
Paints report pages of an invented clinic, and writes what stands on each as a page record beside it (.truth.jsonl).
The same family, seed and way give the same page on every machine."""

DRAWN = "drawn"
WAYS = (DRAWN, "scan", "scan-300", "copy", "fax-fine", "fax-coarse", "photo")
_TAKEN_BY: dict[str, TakenBy] = {DRAWN: "drawn", "photo": "photo"}
_RENDER_DPI = 300


def add_arguments(parser: ArgumentParser) -> None:
    """Declare the options of ``octavo paint``."""
    parser.add_argument("families", metavar="FAMILY", nargs="*", help="layout families, all by default")
    parser.add_argument("--list", action="store_true", help="name the families and stop")
    parser.add_argument("--out", metavar="DIR", default="painted", help="the folder to write to (%(default)s)")
    parser.add_argument("-n", metavar="N", type=_count, default=1, help="pages of each family (%(default)s)")
    parser.add_argument("--seed", metavar="N", type=_count, default=0, help="seed of the first page (%(default)s)")
    parser.add_argument("--way", metavar="WAY", choices=WAYS, default=DRAWN, help=f"one of {', '.join(WAYS)}")
    parser.add_argument("--mono", action="store_true", help="in one ink, without colours")


def run(arguments: Namespace) -> int:
    """Paint what is asked for, name every file written, and give the exit code."""
    try:
        from ..painter import FAMILIES
    except ImportError as fault:
        if (fault.name or "").startswith("octavo"):
            raise
        what = f"a package that painting needs cannot be loaded ({fault})"
        raise MissingProgram(what, "Install octavo with its extra: octavo[paint]") from fault
    if arguments.list:
        for name, family in FAMILIES.items():
            show(f"{name:24} {family.split:6} {family.summary}")
        return 0
    unknown = [name for name in arguments.families if name not in FAMILIES]
    if unknown:
        raise MisuseError(f"there is no family {unknown[0]!r}", "See octavo paint --list")
    families = arguments.families or list(FAMILIES)
    folder, progress = Path(arguments.out), Progress(len(families))
    for number, family in enumerate(families):
        for page in range(arguments.n):
            path = _paint_file(family, arguments.seed + page, arguments.way, folder, mono=arguments.mono)
            progress.clear()
            show(str(path))
            progress.page(number, page + 1, arguments.n)
    progress.clear()
    return 0


def _paint_file(family: str, seed: int, way: str, folder: Path, *, mono: bool) -> Path:
    from ...interpret.exports.as_json import to_json_line
    from ..painter import paint, render

    painted = paint(family, seed, mono=mono)
    stem = f"{family}-{seed}{'-mono' if mono else ''}{'' if way == DRAWN else f'-{way}'}"
    try:
        folder.mkdir(parents=True, exist_ok=True)
        if way == DRAWN:
            path = folder / f"{stem}.pdf"
            path.write_bytes(painted.pdf)
        else:
            from ..painter.spoiling import shown, spoil, write_file
            from ..painter.spoiling.files import SUFFIXES

            spoiled = spoil(render(painted.pdf, _RENDER_DPI), way, seed, dpi=_RENDER_DPI)
            painted = shown(painted, spoiled)
            path = folder / f"{stem}{SUFFIXES[way][0]}"
            write_file(spoiled, way, path)
        source = Source(path.name, sha256(path.read_bytes()).hexdigest(), 1, 1, _TAKEN_BY.get(way, "scan"))
        line = to_json_line(replace(painted.record, source=source))
        path.with_name(f"{path.name}.truth.jsonl").write_text(line + "\n", encoding="utf-8")
    except OSError as fault:
        what = f"the page cannot be written ({fault.strerror})"
        raise CannotWrite(what, "Free some space or name another folder", file=str(folder / stem)) from fault
    return path


def _count(text: str) -> int:
    if not text.isdecimal():
        raise ArgumentTypeError(f"{text!r} is not a whole number")
    return int(text)
