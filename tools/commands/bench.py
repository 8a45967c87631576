"""``octavo bench``: how well octavo reads, on pages that it paints itself and has never seen."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace

SUMMARY = "measure how well pages are read"
DESCRIPTION = "Paints pages that were never used for building or training, reads them, and scores the reading."


def add_arguments(parser: ArgumentParser) -> None:
    """Declare the options of ``octavo bench``."""
    from ..bench import add_arguments as add

    add(parser)


def run(arguments: Namespace) -> int:
    """Run the benchmark and give the exit code."""
    from ..bench import main

    return main(arguments)
