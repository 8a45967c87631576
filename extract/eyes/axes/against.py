"""What speaks against a row of frequencies that was found: labels in another's place, and rows that few forms print."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

import numpy as np
import numpy.typing as npt

from ...page import Word
from ...sightings import LabelRun
from ..words.numbers import INTER_OCTAVES, STANDARD_HZ, Number

LOG_SLACK = 0.045
"""Octaves by which a label may miss a logarithmic axis (labels are set by hand and eye)."""
CONTRADICTION = 2
"""A label that contradicts the others counts as so many strays: the axis is in doubt."""
STRETCHED_CHANCE = 0.85
COLUMN_CHANCE = 0.6
"""How surely a label in a column must have been read: its place and its order speak for it as well."""
EXTENDED_FROM_HZ = 8000.0
RARE_HZ = frozenset({187.5, 375.0, 5000.0, 9000.0, 11200.0})
"""A label that keeps an axis' order alone must be read surely, and be none that few forms print."""
COLUMNS_HZ = (125.0, 250.0, 500.0, 750.0, 1000.0, 1500.0, 2000.0, 3000.0, 4000.0, 6000.0, 8000.0)
"""The frequencies of a form that has a column for each."""
FEWEST_COUNTED, OFF_COLUMNS = 5, 0.15
"""So many labels can say how many columns were lost between them, each so near to its place, in columns."""
BETWEEN = 2.5
"""Where so many other words for each label stand between the labels of a run, these are some of the words of a text or
of a pattern, be it of a table cloth. Of 209 painted charts no row had more than 1.7, the columns of words that the
reader sees in patterns and in newspapers 3 and more."""
BETWEEN_BOTH = 0.6
"""The same of both axes of a chart together: 0.4 at the most of those painted charts, and more where two chance runs
of a pattern meet."""
HALF_LABEL = {"x": 2.0, "y": 0.5}
"""What stands so near to a label's middle, in text heights, is a part of it: "1" and "000" may be two words."""
OWN_PLACE = 0.2
"""And what stands so near to where such an axis has a label of its own, in steps of its levels or text heights on its
row: it was misread, as labels on poor copies are. Words of a pattern stand anywhere."""
LIKE_SIZE, IN_LINE = 2.0, 0.6
"""Such words are as high as the labels within this factor, and so near to their line, in heights of them."""


def doubted(run: LabelRun, fitting: list[Number], every: list[Number]) -> LabelRun:
    """Doubt an evenly spaced axis of which all but one or two labels fit a logarithmic one.

    Where such a label stands in another octave's very place, it may have been misread; not so where a second one was
    read well and fits no octave, for then the axis is not logarithmic.
    """
    firm = [n for n in fitting if n.value not in INTER_OCTAVES]  # others many forms print half way
    firm = firm if len(firm) > 1 else fitting
    octave = (firm[-1].x - firm[0].x) / math.log2(firm[-1].value / firm[0].value)
    others = [n for n in every if n not in fitting]
    slipped = [n for n in others if _slipped(n, firm, octave)]
    refuted = any(n not in slipped and n.confidence > COLUMN_CHANCE for n in others)
    if len(fitting) >= 3 and len(others) < 3 and slipped and not refuted:
        return replace(run, strays=run.strays + CONTRADICTION)
    return run


def _slipped(n: Number, members: list[Number], octave: float) -> bool:
    """Say whether a label stands where the members put another octave whose number differs in one digit."""
    step = math.log2(members[0].value / 1000) + (n.x - members[0].x) / octave
    if abs(step - round(step)) >= LOG_SLACK:
        return False
    said, there = f"{n.value:g}", f"{1000 * 2 ** round(step):g}"
    return len(said) == len(there) and sum(a != b for a, b in zip(said, there, strict=True)) == 1


def runs_on(n: Number, members: list[Number]) -> bool:
    """Say whether a label just beyond an axis' end would continue it by its value, though it does not by its place."""
    first, last = members[0], members[-1]
    reach = 2 * (last.x - first.x) / math.log2(last.value / first.value)
    above = last.x < n.x < last.x + reach and n.value >= last.value
    return above or (first.x - reach < n.x < first.x and n.value <= first.value)


def odd_series(members: list[Number]) -> bool:
    """Say whether an evenly spaced axis prints what few forms do, or leaves out 1000 Hz, which all print.

    Its label was but lost where every two labels have as many columns between them as there are frequencies.
    """
    values = [m.value for m in members]
    lacks = 1000.0 not in values and values[0] < 1000 < values[-1]
    odd = any(value in RARE_HZ and not _within_extended(value, values) for value in values)
    return odd or (lacks and not _columns_count_out(members))


def _columns_count_out(members: list[Number]) -> bool:
    """Say whether between any two neighbouring labels lie as many columns as forms have frequencies there.

    A label that was misread has more or fewer on either side. Of 10 such axes of 5,600 painted pages all are right.
    """
    column = min(b.x - a.x for a, b in pairwise(members))
    apart = [((b.x - a.x) / column, 1 + sum(a.value < hz < b.value for hz in COLUMNS_HZ)) for a, b in pairwise(members)]
    return len(members) >= FEWEST_COUNTED and all(abs(there - due) < OFF_COLUMNS for there, due in apart)


def _within_extended(value: float, values: list[float]) -> bool:
    """Say whether a frequency stands between ones from 8 kHz up: forms that print these print more of them."""
    at = values.index(value)
    return at + 1 < len(values) and values[at - 1] >= EXTENDED_FROM_HZ if at else False


def crowded(run: LabelRun, words: Sequence[Word]) -> bool:
    """Say whether so many other words stand between the labels of a run that it is no axis."""
    return words_between(run, words) >= BETWEEN * len(run.at)


def among_words(row: LabelRun, column: LabelRun, words: Sequence[Word]) -> bool:
    """Say whether a row and a column hardly stand out among the words between their labels."""
    between = sum(words_between(run, words) for run in (row, column))
    return between >= BETWEEN_BOTH * (len(row.at) + len(column.at))


def words_between(run: LabelRun, words: Sequence[Word]) -> int:
    """Count the words that stand between the labels of an axis, in their line and of about their size.

    Parameters
    ----------
    run : LabelRun
        The labels.
    words : sequence of Word
        The words of the sheet, the labels among them.
    """
    boxes = np.array([w.box for w in words])
    sizes = np.array([w.box[2] - w.box[0] if w.upright in (90, 270) else w.box[3] - w.box[1] for w in words])
    middles = (boxes[:, :2] + boxes[:, 2:]) / 2
    along = 0 if run.along == "x" else 1
    at, across = middles[:, along], middles[:, 1 - along]
    height, middle = run.text_height, sum(run.at) / len(run.at)
    alike = (sizes < LIKE_SIZE * height) & (sizes * LIKE_SIZE > height)
    on_line = alike & (np.abs(across - run.across - run.lean * (at - middle)) < IN_LINE * height)
    own = HALF_LABEL[run.along] * height
    apart = np.abs(at[:, None] - np.array(run.at)).min(axis=1) > own
    return int((on_line & apart & ~_on_own_places(run, at) & (at > min(run.at)) & (at < max(run.at))).sum())


def _on_own_places(run: LabelRun, at: npt.NDArray[np.float64]) -> npt.NDArray[np.bool_]:
    """Say of each place along an axis whether it has a label of its own there, read or not."""
    values, places = np.array(run.values), np.array(run.at)
    if run.kind == "level":
        step = np.diff(np.sort(values)).min()
        steps = (np.interp(at, places, values) - values[0]) / step
        return np.asarray(np.abs(steps - np.round(steps)) < OWN_PLACE)
    if run.scale != "log":
        return np.zeros(len(at), np.bool_)
    own = np.interp(np.log2(STANDARD_HZ), np.log2(values), places)
    return np.asarray(np.abs(at[:, None] - own).min(axis=1) < run.text_height)
