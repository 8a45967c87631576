"""For whom a page is put into words, and in which language: from the options to a function of one page."""

from __future__ import annotations

import sys
import textwrap
from argparse import ArgumentParser, Namespace
from collections.abc import Callable, Iterable, Iterator, Sequence
from typing import TYPE_CHECKING

from ....interpret.errors import MisuseError
from ....interpret.record import PageRecord

if TYPE_CHECKING:
    from ....interpret.reports.groups import ReportGroup
    from ....interpret.settings import Settings
    from ....interpret.words.languages.language import Language

PATIENT, CLINICIAN = "patient", "clinician"
_WIDTH = 100


def add_wording_arguments(parser: ArgumentParser) -> None:
    """Declare ``--for`` and ``--words``."""
    group = parser.add_argument_group("words")
    group.add_argument(
        "--for",
        dest="reader",
        metavar="READER",
        choices=(PATIENT, CLINICIAN),
        help="patient: plain words about the hearing, with tips and questions; clinician: every finding, compactly",
    )
    add_language_argument(group.add_argument)


def add_language_argument(add_argument: Callable[..., object]) -> None:
    """Declare ``--words`` by the parser's (or its group's) own ``add_argument``."""
    from ....interpret.words.languages import LANGUAGES

    names = ", ".join(f"{one.id} {one.name}" for one in LANGUAGES.values())
    add_argument(
        "--words", metavar="LANGUAGE", choices=list(LANGUAGES), help=f"the language of the words: {names} (en)"
    )


def writer(arguments: Namespace, settings: Settings) -> Callable[[PageRecord], str]:
    """Give the function that puts one page into words or JSON, as the options ask.

    Raises
    ------
    MisuseError
        When two ways of writing are asked for at once, or a language where only English is offered.
    """
    if arguments.json and (arguments.reader or (arguments.words and not arguments.redraw)):
        raise MisuseError("--json is for programs and has no words", "Leave out --json, or --for and --words")
    if arguments.words and not (arguments.reader or arguments.redraw):
        raise MisuseError("--words needs a reader", "Say --for patient or --for clinician with it")
    if arguments.json:
        return lambda record: _json(record, settings)
    if arguments.reader is None:
        return lambda record: _summary(record, settings)
    language = chosen_language(arguments)
    if arguments.reader == PATIENT:
        from ....interpret.words.patient import for_patient

        return lambda record: fit_for_output(for_patient(record, settings, language)) + "\n"
    from ....interpret.words.clinician import for_clinician

    return lambda record: fit_for_output(for_clinician(record, settings, language)) + "\n"


def tells_whose(arguments: Namespace) -> bool:
    """Say whether the words asked for tell which pages of a file belong together: the summary alone does."""
    return not arguments.json and arguments.reader is None


def whose_pages(files: Iterable[Sequence[ReportGroup]]) -> Iterator[str]:
    """Say of each file that has several pages which of them belong together."""
    from ....interpret.words.whose import who_is_who

    for groups in files:
        if sum(len(group.pages) for group in groups) > 1:
            yield who_is_who(groups, ascii_only=_ascii_only()) + "\n"


def closing_of(arguments: Namespace) -> str | None:
    """Give the cautions that close the run; None where each page has its own, or programs read the output."""
    if arguments.json or arguments.reader == PATIENT:
        return None
    if arguments.reader == CLINICIAN:
        return cautions(chosen_language(arguments))
    from ....interpret.words.cautions import closing

    return closing()


def cautions(language: Language) -> str:
    """Give the cautions of a language as the block that closes an output."""
    items = (textwrap.fill(one, _WIDTH, initial_indent="- ", subsequent_indent="  ") for one in language.cautions)
    return fit_for_output("\n".join((language.patient["heading-cautions"], *items)))


def chosen_language(arguments: Namespace) -> Language:
    """Give the language asked for, English by default."""
    from ....interpret.words.languages import language

    return language(arguments.words or "en")


def fit_for_output(text: str) -> str:
    """Write letters and signs beyond ASCII by others where standard output cannot carry them."""
    if not _ascii_only():
        return text
    from ....interpret.words.languages.language import plain

    return plain(text)


def _json(record: PageRecord, settings: Settings) -> str:
    from ....interpret.exports.as_json import to_json_line
    from ....interpret.findings import with_findings

    return to_json_line(with_findings(record, settings))


def _summary(record: PageRecord, settings: Settings) -> str:
    from ....interpret.words.summary import summary

    return summary(record, settings, ascii_only=_ascii_only(), with_cautions=False) + "\n"


def _ascii_only() -> bool:
    """Whether standard output cannot carry every character: it is made UTF-8 by the command, unless it is no file."""
    return (sys.stdout.encoding or "").lower().replace("-", "").replace("_", "") not in ("utf8", "utf8sig")
