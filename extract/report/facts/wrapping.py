"""Texts that may go on at the beginning of the next line, where facts follow each other as in a sentence."""

from __future__ import annotations

from collections.abc import Sequence

from ..lines import Line
from .draft import Draft
from .printed.labels import Label
from .printed.pairs import ALIGNED, CLOSE, FULL


def may_go_on(one: Draft, lines: Sequence[Line], labels: Sequence[Label]) -> bool:
    """Say whether a text ends a full line and the line below begins, at the block's edge, with no label.

    Parameters
    ----------
    one : Draft
        A text whose label stands within its line.
    lines : sequence of Line
        The page's lines.
    labels : sequence of Label
        All labels on them.
    """
    label = one.label
    if label is None or label.first == 0 or one.lines > 1:
        return False
    line = lines[label.line]
    full = FULL * max(other.box[2] for other in lines)
    if line.box[2] < full or one.at[2] < line.box[2] - line.height or one.at[1] > line.box[3]:
        return False
    begun = {other.line for other in labels if other.first == 0}
    return any(
        abs(under.box[0] - line.box[0]) < ALIGNED * line.height
        and 0 < (under.box[1] + under.box[3] - line.box[1] - line.box[3]) / 2 < CLOSE * line.height
        and number not in begun
        for number, under in enumerate(lines)
    )
