"""What is to be read besides the charts, and in which languages: from the options to the choices of the run."""

from __future__ import annotations

import re
from argparse import ArgumentParser, ArgumentTypeError, Namespace
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from ....extract.choices import Choices

_NAME = re.compile(r"[A-Za-z][A-Za-z_]{1,30}")


def add_text_arguments(parser: ArgumentParser) -> None:
    """Declare ``--charts-only`` and ``--languages``."""
    group = parser.add_argument_group("text around the charts")
    group.add_argument("--charts-only", action="store_true", help="read the charts alone: quicker, and no facts")
    group.add_argument(
        "--languages",
        metavar="NAMES",
        type=_languages,
        help="the languages of the text, by the names of Tesseract's data: eng, or eng,deu (eng); each takes longer",
    )


def choices_from(arguments: Namespace) -> Choices:
    """Build the choices of a run from the parsed options.

    Raises
    ------
    MissingProgram
        When languages are asked for that text recognition has no data for.
    """
    from ....extract.choices import Choices

    choices = Choices(arguments.symbols, report=not arguments.charts_only)
    if not arguments.languages or not choices.report:
        return choices
    from ....extract.intake.words import require_languages

    require_languages(arguments.languages)
    return Choices(arguments.symbols, languages=arguments.languages)


def _languages(text: str) -> tuple[str, ...]:
    names = tuple(dict.fromkeys(re.split(r"[,+]", text)))
    if not all(_NAME.fullmatch(name) for name in names):
        raise ArgumentTypeError(f"{text!r} names no languages")
    return names
