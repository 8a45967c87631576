"""How sure a value of a table is: the share of such values that was right on painted pages."""

from __future__ import annotations

import json
from dataclasses import dataclass
from functools import lru_cache
from importlib.resources import files
from typing import Literal

Way = Literal["given", "two-readings", "one-reading", "by-hand"]
"""How a cell was read: from the page's own words, by two readers that agree, by one of them, or written by hand."""


@dataclass(frozen=True, slots=True)
class Shares:
    """Chances by the way of reading; ``doubted`` where something speaks against a value."""

    right: dict[Way, float]
    doubted: float


@lru_cache(maxsize=1)
def shares() -> Shares:
    """Load the fitted shares; ``certainty.json`` says from which pages they come."""
    data = json.loads(files("octavo.extract.table").joinpath("certainty.json").read_text("utf-8"))
    return Shares(data["right"], data["doubted"])


def probability_of(way: Way, *, doubted: bool) -> float:
    """Give the chance that a value is right in all respects."""
    fitted = shares()
    return fitted.doubted if doubted else fitted.right[way]
