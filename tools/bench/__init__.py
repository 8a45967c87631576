"""The benchmark: pages that nothing was trained on, read as a user reads them, and scored against their truth."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace


def add_arguments(parser: ArgumentParser) -> None:
    """Give a parser the options of ``octavo bench``."""
    from .run import add_arguments as add

    add(parser)


def main(arguments: Namespace) -> int:
    """Run the benchmark as asked and print its table.

    Parameters
    ----------
    arguments : argparse.Namespace
        What a parser with :func:`add_arguments` gave.

    Returns
    -------
    int
        0 when the benchmark ran to its end, whatever its figures say.
    """
    from .run import main as run

    return run(arguments)
