"""The options that say what is asked of the values and what is known of the listener, the same in every command."""

from __future__ import annotations

from argparse import ArgumentParser, ArgumentTypeError, Namespace
from collections.abc import Callable
from typing import TYPE_CHECKING, get_args

if TYPE_CHECKING:
    from ....interpret.settings import Settings


def add_listener_arguments(parser: ArgumentParser) -> None:
    """Declare every option."""
    from ....interpret.rules.degree import DEFAULT_SCHEME, NORMAL_LIMITS, SCHEMES
    from ....interpret.settings import GapRule

    group = parser.add_argument_group("findings", "what is asked of the values; nothing of the listener is guessed")
    group.add_argument(
        "--scheme",
        metavar="NAME",
        choices=list(SCHEMES),
        default=DEFAULT_SCHEME,
        help=f"the scheme that names the degree of a loss: {', '.join(SCHEMES)} (%(default)s)",
    )
    limits = ", ".join(f"{limit.id} {limit.db_hl:g} dB" for limit in NORMAL_LIMITS.values())
    group.add_argument(
        "--normal",
        metavar="WHO",
        choices=list(NORMAL_LIMITS),
        help=f"the limit of normal thresholds: {limits} (child where the age is known to be under 18, else adult)",
    )
    group.add_argument(
        "--gap-rule",
        metavar="RULE",
        choices=get_args(GapRule),
        default="gap-10",
        help="the rule that names the type of a loss from air-bone gaps: gap-10 or gap-15 (%(default)s)",
    )
    add_person_arguments(group.add_argument)
    group.add_argument("--age", metavar="YEARS", type=_number, help="or the age at the test")
    group.add_argument(
        "--noise",
        metavar=("DBA", "YEARS"),
        nargs=2,
        type=_number,
        help="what ISO 1999 expects after so many years of noise at this daily level, dB(A) over 8 h",
    )
    group.add_argument(
        "--sudden",
        metavar="DAYS",
        type=_number,
        help="the listener says that hearing went suddenly, within 3 days, beginning so many days ago",
    )


def add_person_arguments(add_argument: Callable[..., object]) -> None:
    """Declare ``--born`` and ``--sex`` alone, by the parser's (or its group's) own ``add_argument``."""
    from ....interpret.settings import Sex

    add_argument("--born", metavar="DATE", help="the listener's birth date, year first, where the page has none")
    add_argument("--sex", metavar="SEX", choices=get_args(Sex), help="female or male, as the age tables have it")


def settings_from(arguments: Namespace) -> Settings:
    """Build the settings from the parsed options.

    Raises
    ------
    MisuseError
        When a number or date cannot be.
    """
    from ....interpret.settings import Noise, Settings

    return Settings(
        scheme=arguments.scheme,
        normal=arguments.normal,
        gap_rule=arguments.gap_rule,
        age_years=arguments.age,
        born=arguments.born,
        sex=arguments.sex,
        noise=Noise(*arguments.noise) if arguments.noise else None,
        sudden_days_ago=arguments.sudden,
    )


def _number(text: str) -> float:
    try:
        number = float(text)
    except ValueError:
        number = float("nan")
    if not 0 <= number < 1e6:
        raise ArgumentTypeError(f"{text!r} is not a number that can stand here")
    return number
