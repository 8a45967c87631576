"""The bar and the lines on standard error."""

from __future__ import annotations

import io

import pytest

from octavo.interpret.errors import UnreadableFile
from octavo.tools.commands.output import Progress, complain


class Terminal(io.StringIO):
    """A stream that says that it is a terminal."""

    def isatty(self) -> bool:
        return True


def test_the_bar_names_file_and_page_and_is_taken_away() -> None:
    terminal = Terminal()
    progress = Progress(2, terminal)
    progress.page(1, 3, 6)
    shown = terminal.getvalue()
    assert "[##################      ] file 2 of 2, page 3 of 6, 0 min 0 s left" in shown
    progress.clear()
    assert terminal.getvalue().endswith("\r\x1b[K")


def test_a_few_pages_get_no_bar() -> None:
    terminal = Terminal()
    Progress(1, terminal).page(0, 1, 3)
    assert terminal.getvalue() == ""


def test_clearing_what_was_never_shown_writes_nothing() -> None:
    terminal = Terminal()
    Progress(1, terminal).clear()
    assert terminal.getvalue() == ""


def test_an_error_is_one_line_even_where_the_name_holds_line_ends(capsys: pytest.CaptureFixture[str]) -> None:
    complain(UnreadableFile("it is damaged", "Scan it again", file="two\nlines\x1b[31m-ä-日本.pdf"))
    assert capsys.readouterr().err == "octavo: two\\nlines\\x1b[31m-ä-日本.pdf: it is damaged. Scan it again.\n"
