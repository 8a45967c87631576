"""Tables of thresholds: frequencies along one side, ears along the other, levels as numbers between them.

Printed numbers of a drawn page come with the page and are certain where the table's names are. Those of a scan are
read twice, by our own network and by Tesseract, and certain where both readings agree. Numbers by hand are weighed by
their own values, of which none is sure yet.
"""

from __future__ import annotations

from .leftover import all_in_tables, audiograms_of, unchecked, without_numbers
from .reading import Table, Tables, read_tables

__all__ = ["Table", "Tables", "all_in_tables", "audiograms_of", "read_tables", "unchecked", "without_numbers"]
