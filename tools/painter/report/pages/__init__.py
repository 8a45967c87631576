"""Families of pages whose facts and other tests are all in their truth."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from ...sheet import Sheet
from ..languages import Split
from . import bench, penned, prose, training

FACT_FAMILIES: dict[str, tuple[Split, Callable[[np.random.Generator, bool], Sheet], tuple[str, ...]]] = {
    "fact-lines": ("train", training.fact_lines, ()),
    "fact-boxes": ("train", training.fact_boxes, ()),
    "fact-side": ("train", training.fact_side, ()),
    "fact-ears": ("train", training.fact_ears, ()),
    "fact-foot": ("train", training.fact_foot, ()),
    "fact-tests": ("train", training.fact_tests, ()),
    "fact-words": ("train", training.fact_words, ("chartless",)),
    "fact-middle": ("train", training.fact_middle, ("chartless",)),
    "fact-emissions": ("train", training.fact_emissions, ("chartless",)),
    "fact-letter": ("train", prose.fact_letter, ("chartless",)),
    "logbook": ("bench", bench.logbook, ()),
    "beacon": ("bench", bench.beacon, ()),
    "wharf": ("bench", bench.wharf, ()),
    "sextant": ("bench", bench.sextant, ()),
    "jetty": ("bench", bench.jetty, ()),
    "sluice": ("bench", bench.sluice, ("chartless",)),
    "bollard": ("bench", bench.bollard, ("chartless",)),
    "haven": ("bench", bench.haven, ("chartless",)),
    "compass": ("bench", bench.compass, ()),
    "pennant": ("bench", prose.pennant, ("chartless",)),
}
"""By name: the split, what draws the page, and tags beside "facts" ("chartless": no thresholds on the page)."""

FACT_PEN_FAMILIES: dict[str, tuple[Split, Callable[[np.random.Generator, bool], Sheet], tuple[str, ...]]] = {
    "fact-pen": ("train", penned.fact_pen, ()),
    "slate": ("bench", penned.slate, ()),
}
"""The same, tagged "facts-pen": what is filled in by hand."""
