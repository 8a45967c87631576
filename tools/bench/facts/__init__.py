"""Facts and other tests beside thresholds: held against the truth, summed up, and put into a table."""

from __future__ import annotations

from .figures import FactFigures, fact_figures
from .matching import FactFinding, compare_facts
from .stated import Item, items_of

__all__ = ["FactFigures", "FactFinding", "Item", "compare_facts", "fact_figures", "items_of"]
