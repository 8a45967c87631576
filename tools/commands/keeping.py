"""What a run keeps of its readings for files: tables, and charts drawn anew; they are written when all is read."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace
from pathlib import Path
from typing import TYPE_CHECKING

from ...interpret.errors import MisuseError
from ...interpret.record import PageRecord
from .whole_file import check_place, write_whole

if TYPE_CHECKING:
    from ...interpret.exports.tables import Row
    from ...interpret.settings import Settings

_TABLES, _DRAWINGS = (".csv", ".parquet"), (".pdf", ".svg")


def add_keeping_arguments(parser: ArgumentParser) -> None:
    """Declare the options."""
    group = parser.add_argument_group("files", "written when all is read, whole or not at all")
    group.add_argument(
        "--table",
        metavar="OUT.csv",
        type=Path,
        help="one row a threshold, and one row a finding in OUT-findings.csv; or OUT.parquet, which needs pyarrow",
    )
    group.add_argument(
        "--redraw",
        metavar="OUT.pdf",
        type=Path,
        help="the values drawn anew on a clean chart, a page each; or OUT.svg, and OUT-2.svg for a second page",
    )


class Kept:
    """What is kept for the files that were asked for.

    Parameters
    ----------
    arguments : Namespace
        With ``table`` and ``redraw``, a path or None each, and ``words``, the language of the charts.
    settings : Settings
        What is asked of the values.

    Raises
    ------
    MisuseError
        When a name ends in nothing that can be written.
    CannotWrite
        When a file could not be written at the end.
    MissingProgram
        When Parquet is asked for and pyarrow is missing.
    """

    def __init__(self, arguments: Namespace, settings: Settings) -> None:
        self._table: Path | None = arguments.table
        self._redraw: Path | None = arguments.redraw
        self._language: str = arguments.words or "en"
        self._settings = settings
        self._thresholds: list[Row] = []
        self._findings: list[Row] = []
        self._drawn: list[PageRecord] = []
        for path, endings in ((self._table, _TABLES), (self._redraw, _DRAWINGS)):
            if path is not None:
                if path.suffix.lower() not in endings:
                    what = f"'{path}' does not say what is to be written"
                    raise MisuseError(what, f"Name a file that ends in {' or '.join(endings)}")
                check_place(path)
        if self._table is not None and self._table.suffix.lower() == ".parquet":
            from ...interpret.exports.tables.files import need_pyarrow

            need_pyarrow()

    def add(self, record: PageRecord) -> None:
        """Keep what the files need of a page."""
        if self._table is not None:
            from ...interpret.exports.tables import finding_rows, threshold_rows
            from ...interpret.findings import with_findings

            self._thresholds += threshold_rows(record)
            self._findings += finding_rows(with_findings(record, self._settings))
        if self._redraw is not None and any(audiogram.thresholds for audiogram in record.audiograms):
            self._drawn.append(record)

    def write(self) -> tuple[str, ...]:
        """Write the files and give what the person should know.

        Raises
        ------
        CannotWrite
            When one cannot be written; no other one is then, either.
        """
        write_whole({**self._tables(), **self._charts()})
        if self._redraw is not None and not self._drawn:
            return (f"nothing was drawn to {self._redraw}: no page had a value",)
        return ()

    def _tables(self) -> dict[Path, bytes]:
        if self._table is None:
            return {}
        from ...interpret.exports.tables import FINDING_COLUMNS, THRESHOLD_COLUMNS, csv_of, parquet_of

        bytes_of = csv_of if self._table.suffix.lower() == ".csv" else parquet_of
        beside = self._table.with_name(f"{self._table.stem}-findings{self._table.suffix}")
        return {
            self._table: bytes_of(THRESHOLD_COLUMNS, self._thresholds),
            beside: bytes_of(FINDING_COLUMNS, self._findings),
        }

    def _charts(self) -> dict[Path, bytes]:
        path = self._redraw
        if path is None or not self._drawn:
            return {}
        from ...interpret.exports.redraw import redrawn_pdf, redrawn_svg

        if path.suffix.lower() == ".pdf":
            return {path: redrawn_pdf(self._drawn, language=self._language)}
        names = (
            path if number == 1 else path.with_name(f"{path.stem}-{number}{path.suffix}")
            for number in range(1, len(self._drawn) + 1)
        )
        return {
            name: redrawn_svg(record, language=self._language).encode()
            for name, record in zip(names, self._drawn, strict=True)
        }
