"""The current figures in the README, between two marks that stay where they are."""

from __future__ import annotations

import subprocess
from dataclasses import dataclass
from pathlib import Path

from ....interpret.errors import CannotWrite, MissingFile

START, END = "<!-- figures -->", "<!-- /figures -->"


@dataclass(frozen=True, slots=True)
class Run:
    """What a run was: enough to repeat it."""

    command: str
    seed: int
    version: str
    commit: str | None
    date: str

    @property
    def line(self) -> str:
        """One sentence that stands under the table."""
        commit = f", commit {self.commit}" if self.commit else ""
        return f"Measured on {self.date} with octavo {self.version}{commit}, seed {self.seed}: `{self.command}`."


def write_figures(readme: Path, table: str, run: Run) -> None:
    """Put a table between the marks of a README.

    Parameters
    ----------
    readme : Path
        The file to change.
    table : str
        The table in Markdown.
    run : Run
        What was run.

    Raises
    ------
    MissingFile
        When there is no such file.
    CannotWrite
        When the two marks do not stand in it once each, in order.
    """
    try:
        text = readme.read_text(encoding="utf-8")
    except FileNotFoundError as fault:
        raise MissingFile(
            "there is no README to write the figures to", "Run this from a checkout", file=str(readme)
        ) from fault
    before, start, rest = text.partition(START)
    _, end, after = rest.partition(END)
    if not start or not end or START in after or END in before + after:
        raise CannotWrite(
            f"the marks {START} and {END} must each stand there once, in this order", "Put them back", file=str(readme)
        )
    readme.write_text(f"{before}{START}\n{table}\n\n{run.line}\n{END}{after}", encoding="utf-8")


def commit_of(folder: Path) -> str | None:
    """Name the commit that is checked out, with "+" where files differ from it; None outside a checkout."""
    try:
        head = _git(folder, "rev-parse", "--short", "HEAD")
        return head + ("+" if _git(folder, "status", "--porcelain", "--untracked-files=no") else "")
    except (OSError, subprocess.CalledProcessError):
        return None


def _git(folder: Path, *words: str) -> str:
    done = subprocess.run(["git", "-C", str(folder), *words], check=True, capture_output=True, text=True)
    return done.stdout.strip()
