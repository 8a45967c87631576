"""Rows as the bytes of a file: CSV, or Parquet where pyarrow is installed."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable
from typing import Any

from ...errors import MissingProgram
from ..printable import printable_text
from .columns import Column
from .rows import Cell, Row

_FORMULA = ("=", "+", "-", "@", "\t", "\r")


def csv_of(columns: tuple[Column, ...], rows: Iterable[Row]) -> bytes:
    """Write rows as CSV, UTF-8, a head line first; how cells are written stands in ``TABLES.md``."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(column.name for column in columns)
    for row in rows:
        writer.writerow(map(_written, row))
    return out.getvalue().encode("utf-8")


def _written(cell: Cell) -> str:
    if cell is None:
        return ""
    if isinstance(cell, bool):
        return "true" if cell else "false"
    if isinstance(cell, str):
        return printable_text(f"'{cell}" if cell.startswith(_FORMULA) else cell)
    return f"{cell:.10g}"


def need_pyarrow() -> Any:
    """Give the package pyarrow.

    Raises
    ------
    MissingProgram
        When it is not installed.
    """
    try:
        import pyarrow
        import pyarrow.parquet
    except ImportError as fault:
        do = 'Install it with pip install "octavo[parquet]", or name a file that ends in .csv'
        raise MissingProgram("Parquet files need the package pyarrow", do) from fault
    return pyarrow


def parquet_of(columns: tuple[Column, ...], rows: Iterable[Row]) -> bytes:
    """Write rows as a Parquet file; every column carries its unit and meaning.

    Raises
    ------
    MissingProgram
        When pyarrow is not installed.
    """
    pa = need_pyarrow()
    kinds = {"text": pa.string(), "number": pa.float64(), "whole": pa.int64(), "yes or no": pa.bool_()}
    given = list(rows)
    fields = [
        pa.field(column.name, kinds[column.kind], metadata={"unit": column.unit, "meaning": column.meaning})
        for column in columns
    ]
    arrays = [
        pa.array([_stored(row[index], column) for row in given], kinds[column.kind])
        for index, column in enumerate(columns)
    ]
    out = io.BytesIO()
    pa.parquet.write_table(pa.Table.from_arrays(arrays, schema=pa.schema(fields)), out)
    return out.getvalue()


def _stored(cell: Cell, column: Column) -> Cell:
    if isinstance(cell, str):
        return printable_text(cell)
    return float(cell) if column.kind == "number" and cell is not None else cell
