"""The published JSON Schema of the page record."""

from __future__ import annotations

import json
from importlib.resources import files
from typing import Any


def page_schema() -> dict[str, Any]:
    """Give the JSON Schema (2020-12) of one page record, a fresh copy with every call.

    Notes
    -----
    octavo checks records by their own classes (``exports.from_json``); the schema is for other programs and the tests.
    """
    return json.loads(files(__name__.rpartition(".")[0]).joinpath("schema.json").read_text(encoding="utf-8"))
