"""Lines made ready: what no value is taken out of them, and labels between two ears' values are put before them."""

from __future__ import annotations

from collections.abc import Sequence

from ..tokens import Row
from .between import labels_first
from .dates import without_dates
from .letters import without_people
from .norms import without_norms
from .options import without_empty_boxes


def ready(rows: Sequence[Row]) -> tuple[Row, ...]:
    """Give lines as the readers of tests expect them.

    Parameters
    ----------
    rows : sequence of Row
        The page's lines, from its top.

    Returns
    -------
    tuple of Row
        As many, with every token that still says something in its place on the page.
    """
    cleaned = (without_empty_boxes(without_people(without_dates(row))) for row in rows)
    return labels_first(without_norms(tuple(cleaned)))
