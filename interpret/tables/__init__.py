"""Published values, one file each; where each comes from stands in ``SOURCES.md``."""

from __future__ import annotations

import csv
from functools import cache
from importlib.resources import files


@cache
def published(name: str) -> tuple[dict[str, str], ...]:
    """Give the rows of a packaged table by its file name, without its lines of notes (``#``)."""
    lines = files(__name__).joinpath(name).read_text(encoding="utf-8").splitlines()
    return tuple(csv.DictReader(line for line in lines if not line.startswith("#")))
