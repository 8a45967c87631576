"""``octavo bench`` from its arguments to its table."""

from __future__ import annotations

import shlex
import sys
import tempfile
from argparse import ArgumentParser, Namespace
from contextlib import nullcontext
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING

from ...interpret.errors import InternalFault, MisuseError
from .suites import DEVELOPMENT_SEED, SUITES, Suite

if TYPE_CHECKING:
    from .paint import Painted
    from .report.readme import Run
    from .scores import PageScore

ROOT = Path(__file__).parents[2]
"""The checkout: where README.md stands."""

_LIMIT_S = 180.0
"""A page that takes this long counts as a crash: a person has stopped waiting long before."""
_YARDSTICKS = 12
"""Pages of a suite, its first, on which the yardsticks are timed: families take turns, so they hold many kinds."""


def add_arguments(parser: ArgumentParser) -> None:
    """Give a parser the options of ``octavo bench``."""
    parser.add_argument(
        "--suite",
        action="append",
        choices=list(SUITES),
        metavar="SUITE",
        dest="suites",
        help=f"a suite to run, may be given several times (default: all: {', '.join(SUITES)})",
    )
    parser.add_argument("--n", type=int, default=24, metavar="N", help="least pages of a suite (default: 24)")
    parser.add_argument("--thresholds", type=int, metavar="N", help="least true thresholds of a suite")
    seed_help = f"other pages; published figures use a seed that nobody worked with (default: {DEVELOPMENT_SEED})"
    parser.add_argument("--seed", type=int, default=DEVELOPMENT_SEED, metavar="K", help=seed_help)
    parser.add_argument("--out", type=Path, metavar="DIR", help="where the report goes; the pages are kept there too")
    parser.add_argument("--workers", type=int, default=2, metavar="W", help="processes reading at once (default: 2)")
    threads_help = "threads of each, for pictures and networks (default: 1); Tesseract, the yardstick, always has one"
    parser.add_argument("--threads", type=int, default=1, metavar="T", help=threads_help)
    worst_help = "how many worst pages to write with their pictures (default: 10)"
    parser.add_argument("--worst", type=int, default=10, metavar="N", help=worst_help)
    parser.add_argument("--write-readme", action="store_true", help="put the table into this checkout's README.md")


def main(arguments: Namespace) -> int:
    """Run the suites asked for, print the table, write the report (without ``--out`` to a new temporary folder).

    Returns
    -------
    int
        0 when the benchmark ran to its end, whatever its figures say.
    """
    for name, least in (("n", 1), ("workers", 1), ("threads", 1), ("seed", 0), ("worst", 0)):
        if getattr(arguments, name) < least:
            raise MisuseError(f"--{name} must be {least} or more", "Give another number")
    from .report import facts
    from .report.readme import write_figures
    from .report.results import write_report
    from .report.table import as_markdown, as_text
    from .scores import figures

    run = describe_run(arguments)
    out = arguments.out or Path(tempfile.mkdtemp(prefix="octavo-bench-"))
    suites: dict[str, list[PageScore]] = {}
    with nullcontext(out / "pages") if arguments.out else tempfile.TemporaryDirectory() as pages_folder:
        for name in arguments.suites or SUITES:
            suites[name] = run_suite(SUITES[name], arguments, Path(pages_folder) / name)
    found = [figures(name, pages) for name, pages in suites.items()]
    tables = [as_text(found), facts.as_text(suites)]
    print("\n\n".join(table for table in tables if table))
    print(run.line)
    worst = write_report(out, run, suites, worst_pages=arguments.worst)
    print("\n".join(["worst pages:", *(f"  {path}" for path in worst), f"report: {out / 'index.html'}"]))
    if arguments.write_readme:
        tables = [as_markdown(found), facts.as_markdown(suites)]
        write_figures(ROOT / "README.md", "\n\n".join(table for table in tables if table), run)
    return 0


def describe_run(arguments: Namespace) -> Run:
    """Say what is run, from which version, when, and by which command."""
    from ... import __version__
    from .report.readme import Run, commit_of

    words = ["octavo", "bench"]
    words += [word for name in arguments.suites or () for word in ("--suite", name)]
    words += ["--n", str(arguments.n)]
    words += ["--thresholds", str(arguments.thresholds)] if arguments.thresholds is not None else []
    words += ["--seed", str(arguments.seed)]
    # the seconds depend on these two, which nothing else in the line tells
    words += ["--workers", str(arguments.workers), "--threads", str(arguments.threads)]
    today = datetime.now(tz=UTC).date().isoformat()
    return Run(shlex.join(words), arguments.seed, __version__, commit_of(ROOT), today)


def run_suite(suite: Suite, arguments: Namespace, folder: Path) -> list[PageScore]:
    """Paint a suite's pages, read them, and score them.

    Painting is done before reading begins, so that it takes no time from what is measured.
    """
    from .crew import Lost, run_all
    from .reader import Errand, Reading, read_file
    from .scores import score_page

    painted = paint_suite(suite, arguments, folder)
    errands = [
        Errand(
            one.path,
            one.yardstick,
            parse=one.yardstick is not None and one.sample.way == "drawn",
            warm_up=i < arguments.workers,
            report=suite.reads_report,
        )
        for i, one in enumerate(painted)
    ]
    scores: dict[int, PageScore] = {}
    readings = run_all(read_file, errands, workers=arguments.workers, limit_s=_LIMIT_S, threads=arguments.threads)
    for number, reading in readings:
        done = Reading(None, crash=reading.why) if isinstance(reading, Lost) else reading
        scores[number] = score_page(painted[number].sample, painted[number].truth, done)
        _progress(f"{suite.name}: {len(scores)} of {len(painted)} read")
    _progress("")
    return [scores[number] for number in sorted(scores)]


def paint_suite(suite: Suite, arguments: Namespace, folder: Path) -> list[Painted]:
    """Paint a suite's pages into a folder until it has as many as are asked for."""
    from .crew import Lost, run_all
    from .paint import Order, paint_file
    from .suites import families_of, pages_needed, plan

    families = families_of(suite)
    if not families:
        raise InternalFault(f"the painter has no family for the suite {suite.name}", "Run another suite")
    folder.mkdir(parents=True, exist_ok=True)
    needed = pages_needed(suite, pages=arguments.n, thresholds=arguments.thresholds)
    painted: list[Painted] = []
    while needed(len(painted), _true_thresholds(painted)):
        first = len(painted)
        batch = arguments.n - first if first < arguments.n else 2 * arguments.workers
        orders = [
            Order(plan(suite, number, arguments.seed, families), str(folder), yardstick=number < _YARDSTICKS)
            for number in range(first, first + batch)
        ]
        done: dict[int, Painted] = {}
        for number, one in run_all(paint_file, orders, workers=arguments.workers, limit_s=_LIMIT_S):
            if isinstance(one, Lost):
                raise InternalFault(f"{orders[number].sample.name} was not painted: {one.why}", "Report this")
            done[number] = one
            _progress(f"{suite.name}: {first + len(done)} painted")
        painted += [done[number] for number in sorted(done)]
    return painted


def _true_thresholds(painted: list[Painted]) -> int:
    return sum(len(audiogram.thresholds) for one in painted for audiogram in one.truth.audiograms)


def _progress(text: str) -> None:
    if sys.stderr.isatty():
        print(f"\r\x1b[K{text}", end="", file=sys.stderr, flush=True)
