"""What a page says twice, held against each other: agreement makes a value surer, disagreement makes it ask.

Pure functions from values to values: nothing here looks at the page.
"""

from __future__ import annotations

from .averages import against_averages
from .chart_and_table import Checked, against_tables
from .pages import same_test_twice

__all__ = ["Checked", "against_averages", "against_tables", "same_test_twice"]
