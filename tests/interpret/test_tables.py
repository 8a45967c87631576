"""The packaged tables are the published ones."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from octavo.interpret.tables import published

COPIES = Path(__file__).parents[1] / "published"
PACKAGED = Path(__file__).parents[2] / "interpret" / "tables"
TABLES = sorted(path.name for path in PACKAGED.glob("*.csv"))


@pytest.mark.parametrize("name", TABLES)
def test_a_packaged_table_is_the_published_one(name: str) -> None:
    lines = (COPIES / name).read_text("utf-8").splitlines()
    assert list(published(name)) == list(csv.DictReader(line for line in lines if not line.startswith("#")))


@pytest.mark.parametrize("folder", [COPIES, PACKAGED], ids=["tests", "package"])
def test_every_table_has_its_source(folder: Path) -> None:
    sources = (folder / "SOURCES.md").read_text("utf-8")
    assert [path.name for path in folder.glob("*.csv") if f"`{path.name}`" not in sources] == []
