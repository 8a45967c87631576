"""Tidy tables of readings, for pandas, R and databases: one row a threshold, and one row a finding."""

from __future__ import annotations

from .columns import FINDING_COLUMNS, THRESHOLD_COLUMNS, Column
from .files import csv_of, parquet_of
from .rows import Row, finding_rows, threshold_rows

__all__ = [
    "FINDING_COLUMNS",
    "THRESHOLD_COLUMNS",
    "Column",
    "Row",
    "csv_of",
    "finding_rows",
    "parquet_of",
    "threshold_rows",
]
