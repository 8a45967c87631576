"""The one command: arguments in, exit code out. What it does lives in ``commands``.

Nothing heavy is imported here, so that ``octavo --help`` answers at once; a subcommand imports what it needs when it
runs.
"""

from __future__ import annotations

import argparse
import io
import sys
from collections.abc import Sequence
from typing import NoReturn

from .. import __version__
from ..interpret.errors import InternalFault, MisuseError, OctavoError
from .commands import bench, blank, compare, paint, read
from .commands.output import abandon_output, complain

INTERRUPTED = 130
"""Exit code after Ctrl-C (128 + SIGINT), as shells give it."""
PIPE_CLOSED = 141
"""Exit code when whoever read the output stopped reading (128 + SIGPIPE), as shells give it."""

_CODES = """\
exit codes, of several files the highest:
  0   all read, and every value stands as sure
  1   something to ask: a person must look at the values marked so, or at a page that was not blanked
  2   no audiogram found
  64  the command was called in a way that it does not offer
  65  a file or page cannot be read (damaged, locked, too large, or no page at all)
  66  no such file, or no right to read it
  69  a program or package that octavo needs is missing
  70  octavo itself is at fault
  73  the output cannot be written
  130 stopped with Ctrl-C

A reading of a chart is not a diagnosis and not a hearing test: check the values against the original."""


class _Parser(argparse.ArgumentParser):
    """A parser whose complaint is octavo's own error: one line, exit code 64."""

    def error(self, message: str) -> NoReturn:
        raise MisuseError(message, f"See {self.prog} --help")


def make_parser(argv: Sequence[str]) -> argparse.ArgumentParser:
    """Build the parser of the command.

    Parameters
    ----------
    argv : sequence of str
        The arguments to come: only the subcommand that they name gets its options, since the other ones' may need
        imports that take long.

    Returns
    -------
    argparse.ArgumentParser
        Parsed arguments carry ``run``, a function from them to the exit code.
    """
    parser = _Parser(
        prog="octavo",
        description="Reads audiograms from PDFs, scans, faxes and photos: the thresholds, and whether each is sure.",
        epilog=_CODES,
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    parser.add_argument("--version", action="version", version=f"octavo {__version__}")
    subcommands = parser.add_subparsers(metavar="COMMAND", required=True)
    chosen = next((word for word in argv if not word.startswith("-")), None)
    for module in (read, compare, blank, paint, bench):
        name = module.__name__.rpartition(".")[2]
        subparser = subcommands.add_parser(
            name,
            help=module.SUMMARY,
            description=module.DESCRIPTION,
            formatter_class=argparse.RawDescriptionHelpFormatter,
            allow_abbrev=False,
        )
        if name == chosen:
            module.add_arguments(subparser)
            subparser.set_defaults(run=module.run)
    return parser


def main(argv: Sequence[str] | None = None) -> int:
    """Run the command.

    Parameters
    ----------
    argv : sequence of str, optional
        The arguments after the program's name; those of the process by default.

    Returns
    -------
    int
        The exit code (``octavo --help`` lists them). No exception leaves, and no traceback is printed.
    """
    words = list(sys.argv[1:] if argv is None else argv)
    for stream in (sys.stdout, sys.stderr):
        # The same bytes under every locale; a name that is not valid text shows as an escape.
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(encoding="utf-8", errors="backslashreplace")
    try:
        arguments = make_parser(words).parse_args(words)
        return arguments.run(arguments)
    except SystemExit as done:  # how argparse ends --help and --version
        return done.code if isinstance(done.code, int) else 0
    except OctavoError as error:
        complain(error)
        return error.exit_code
    except KeyboardInterrupt:
        return INTERRUPTED
    except BrokenPipeError:
        abandon_output()
        return PIPE_CLOSED
    except Exception as fault:  # noqa: BLE001  # the last barrier: a person never sees a traceback
        error = InternalFault(f"octavo failed ({type(fault).__name__})", "Report this, with the command that led here")
        complain(error)
        return error.exit_code


if __name__ == "__main__":
    sys.exit(main())
