"""The figures' place in the README."""

from __future__ import annotations

import pytest

from octavo.interpret.errors import CannotWrite, MissingFile
from octavo.tools.bench.report.readme import Run, commit_of, write_figures

RUN = Run("octavo bench --n 24 --seed 7", 7, "0.1.0", "abc1234", "2025-01-02")


def test_only_what_stands_between_the_marks_is_replaced(tmp_path):
    readme = tmp_path / "README.md"
    readme.write_text("# octavo ä\n<!-- figures -->\nold\n<!-- /figures -->\nafter\n", encoding="utf-8")
    write_figures(readme, "| a |", RUN)
    assert readme.read_text(encoding="utf-8") == (
        "# octavo ä\n<!-- figures -->\n| a |\n\n"
        "Measured on 2025-01-02 with octavo 0.1.0, commit abc1234, seed 7: `octavo bench --n 24 --seed 7`.\n"
        "<!-- /figures -->\nafter\n"
    )


def test_writing_twice_gives_the_same_as_writing_once(tmp_path):
    readme = tmp_path / "README.md"
    readme.write_text("<!-- figures --><!-- /figures -->", encoding="utf-8")
    write_figures(readme, "| a |", RUN)
    once = readme.read_text(encoding="utf-8")
    write_figures(readme, "| a |", RUN)
    assert readme.read_text(encoding="utf-8") == once


@pytest.mark.parametrize(
    "text",
    [
        "nothing",
        "<!-- figures --> no end",
        "<!-- /figures --><!-- figures -->",
        "<!-- figures --><!-- /figures --><!-- figures --><!-- /figures -->",
    ],
)
def test_a_readme_without_its_two_marks_is_left_as_it_is(text, tmp_path):
    readme = tmp_path / "README.md"
    readme.write_text(text, encoding="utf-8")
    with pytest.raises(CannotWrite, match="must each stand there once"):
        write_figures(readme, "| a |", RUN)
    assert readme.read_text(encoding="utf-8") == text


def test_no_readme_is_said_so(tmp_path):
    with pytest.raises(MissingFile, match="there is no README to write the figures to"):
        write_figures(tmp_path / "README.md", "| a |", RUN)


def test_outside_a_checkout_there_is_no_commit(tmp_path):
    assert commit_of(tmp_path) is None
