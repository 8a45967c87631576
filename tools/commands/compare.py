"""``octavo compare``: an earlier test and later ones, and what changed between them."""

from __future__ import annotations

import json
from argparse import ArgumentParser, Namespace
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

from ...interpret.errors import MisuseError, OctavoError
from ...interpret.record import PageRecord
from ...interpret.symbols import SYMBOL_SETS
from .asked.listener import add_person_arguments
from .asked.wording import add_language_argument, cautions, chosen_language, fit_for_output
from .files import named_files
from .output import Progress, complain, show
from .records import holds_records, records_in
from .whole_file import check_place, write_whole

if TYPE_CHECKING:
    from ...interpret.rules.change.comparison import Comparison, Sitting
    from ...interpret.words.languages.language import Language

SUMMARY = "compare hearing tests of one person over time"
DESCRIPTION = """\
Compares each later test with the first: the change at every frequency against test-retest, the standard threshold shift
of 29 CFR 1910.95 with and without the age correction of its appendix F, recordability by 29 CFR 1904.10, and NIOSH's
significant shift. Tests are taken by their dates where every one has one, else in the order given. A file that ends in
.jsonl holds page records as octavo read --json writes them, checked or corrected by a person if need be."""

SCHEMA = "octavo.comparison/1"
_PICTURES, _DRAWINGS = (".svg", ".pdf", ".png"), (".svg", ".pdf")
_PNG_SCALE = 2
ALL_SURE, SOMETHING_TO_ASK, FEWEST_TESTS = 0, 1, 2


def add_arguments(parser: ArgumentParser) -> None:
    """Declare the options of ``octavo compare``."""
    parser.add_argument(
        "files", metavar="FILE", nargs="+", help="the earlier test and the later ones, files or folders"
    )
    parser.add_argument("--json", action="store_true", help="print one JSON object for each later test")
    parser.add_argument(
        "--plot", metavar="OUT.svg", type=Path, help="draw the thresholds over time; or OUT.pdf, or OUT.png"
    )
    parser.add_argument(
        "--redraw", metavar="OUT.pdf", type=Path, help="draw the tests over each other, a chart an ear; or OUT.svg"
    )
    parser.add_argument(
        "--symbols",
        metavar="SET",
        choices=list(SYMBOL_SETS),
        help=f"the symbol set where a page prints no key: {', '.join(SYMBOL_SETS)}",
    )
    parser.add_argument(
        "--same-person", action="store_true", help="all tests are of one person, whatever their pages say"
    )
    add_person_arguments(parser.add_argument)
    add_language_argument(parser.add_argument)


def run(arguments: Namespace) -> int:
    """Compare what is named and give the exit code."""
    from ...interpret.rules.change.comparison import compare, sittings_of
    from ...interpret.settings import Settings
    from ...interpret.words.comparison import comparison_text

    settings = Settings(born=arguments.born, sex=arguments.sex)
    language = chosen_language(arguments)
    if arguments.json and arguments.words:
        raise MisuseError("--json is for programs and has no words", "Leave out --json or --words")
    for path, endings in ((arguments.plot, _PICTURES), (arguments.redraw, _DRAWINGS)):
        if path is not None:
            if path.suffix.lower() not in endings:
                what = f"'{path}' does not say what is to be drawn"
                raise MisuseError(what, f"Name a file that ends in {', '.join(endings)}")
            check_place(path)
    records, code = _gathered(arguments.files, arguments.symbols)
    tests = sittings_of(records)
    if len(tests) < FEWEST_TESTS and code:
        return code
    comparisons = compare(tests, settings, same_person=arguments.same_person)
    if arguments.json:
        for one in comparisons:
            show(json.dumps(_to_json(one), ensure_ascii=False, allow_nan=False))
    else:
        show(fit_for_output(comparison_text(comparisons, language)) + "\n")
        show(cautions(language))
    drawn = {} if arguments.plot is None else {arguments.plot: _plot(tests, language, arguments.plot.suffix.lower())}
    if arguments.redraw is not None:
        drawn[arguments.redraw] = _redrawn(tests, language, arguments.redraw.suffix.lower())
    write_whole(drawn)
    asks = any(t.standing == "ask" for test in tests for t in test.audiogram.thresholds)
    asks = asks or any(one.person_asks for one in comparisons)
    return max(code, SOMETHING_TO_ASK if asks else ALL_SURE)


def _gathered(names: Sequence[str], symbols: str | None) -> tuple[list[PageRecord], int]:
    """Read every file; what cannot be read is told and gives its exit code, and the others are still compared."""
    files = list(named_files(names))
    records: list[PageRecord] = []
    progress, code = Progress(len(files)), ALL_SURE
    for number, file in enumerate(files):
        for reading in _readings(file, symbols):
            progress.clear()
            if isinstance(reading, OctavoError):
                complain(reading)
                code = max(code, reading.exit_code)
            else:
                records.append(reading)
                progress.page(number, reading.source.page, reading.source.pages)
    progress.clear()
    return records, code


def _readings(file: Path | OctavoError, symbols: str | None) -> Iterator[PageRecord | OctavoError]:
    if isinstance(file, OctavoError):
        yield file
        return
    from ...extract.choices import Choices
    from ..reading import read_pages

    try:
        yield from records_in(file) if holds_records(file) else read_pages(file, Choices(symbols=symbols))
    except OctavoError as error:
        yield error


def _to_json(one: Comparison) -> dict[str, Any]:
    return {
        "schema": SCHEMA,
        "old": _test(one.old, one.old_age_years),
        "new": _test(one.new, one.new_age_years),
        "person": one.person,
        "found": [finding.to_json() for finding in one.found],
    }


def _test(test: Sitting, age_years: float | None) -> dict[str, Any]:
    age = None if age_years is None else round(age_years, 2)
    return {"file": test.file, "tested_on": test.tested_on, "age_years": age}


def _plot(tests: Sequence[Sitting], language: Language, ending: str) -> bytes:
    from ...interpret.exports.redraw import pdf_of, svg_of
    from ...interpret.exports.redraw.over_time import over_time

    scene = over_time(tests, language)
    if ending == ".svg":
        return svg_of(scene).encode()
    return pdf_of((scene,)) if ending == ".pdf" else _png(pdf_of((scene,)))


def _redrawn(tests: Sequence[Sitting], language: Language, ending: str) -> bytes:
    from ...interpret.exports.redraw import pdf_of, scene_of_tests, svg_of

    scene = scene_of_tests([(test.file, test.audiogram) for test in tests], language=language.id)
    return svg_of(scene).encode() if ending == ".svg" else pdf_of((scene,))


def _png(pdf: bytes) -> bytes:
    """Turn a page of ours into a picture."""
    from io import BytesIO

    import pypdfium2

    document = pypdfium2.PdfDocument(pdf)
    try:
        picture = document[0].render(scale=_PNG_SCALE).to_pil()
    finally:
        document.close()
    out = BytesIO()
    picture.save(out, "PNG", dpi=(72 * _PNG_SCALE, 72 * _PNG_SCALE))
    return out.getvalue()
