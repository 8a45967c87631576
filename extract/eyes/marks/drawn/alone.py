"""See the marks of a drawn chart figure by figure, and put them in place of what was seen of the whole."""

from __future__ import annotations

import math
from collections import defaultdict
from dataclasses import replace

import numpy as np

from .....interpret.symbols import Glyph
from ....page import DrawnPath, Word
from ....sightings import ChartArea, MarkSight, alike
from ..crops import ChartCrop, crop_scale
from ..network import marks_in
from .apart import LARGEST, Box, Figure, Look, figures
from .arrows import ARROW, CLEAR, Alone, arrow_of, near, with_hung
from .headless import with_headless
from .joins import without_joins
from .lettered import READ, Lettered, as_read
from .parted import SEEN, Place, as_marks, begins_with_mark, believed, may_be_arrow, one_shape, parted
from .spread import MARGIN_PX, Spread, spread

MOST_PARTS = 7
"""A mark and its arrow are drawn by so many paths at most."""
MOST_PATHS = 500
"""A region with more small paths holds writing, lettering or a picture; it is seen as a whole."""
MOST_LOOKS = 250
"""A region with more pieces that look unlike holds handwriting: a machine draws few shapes many times."""
LETTER_REACH = 1.3
"""A letter this near, in sizes, may be a mark's arrow."""
UNDRAWN_ARROW = 0.45
"""What an arrow that only the whole shows counts at the most."""
NEIGHBOUR = 1.6
"""An arrow this far from its mark, in sizes, may have been seen at another mark of the whole."""
ONE_SIZE = 0.02
"""Marks of one glyph whose sizes differ by less, in sizes, were drawn alike."""
MACHINE_SHARE = 0.6
"""Share of marks drawn alike from which a machine drew the chart."""
NEAR = 0.5
"""A figure has a mark's support where one was seen within so many sizes."""
ALIKE_PX = 0.15
"""Figures whose outlines differ by less than this in the picture look alike."""
WANTED_PX = 20.0
"""Figures are drawn so that the usual mark has this size."""

Known = dict[Look, list[MarkSight]]


def take_apart(
    paths: tuple[DrawnPath, ...],
    words: tuple[Word, ...],
    number: int,
    area: ChartArea,
    whole: tuple[MarkSight, ...],
    set_as_letters: tuple[Lettered, ...] = (),
    known: Known | None = None,
) -> tuple[MarkSight, ...]:
    """See again, alone, every mark that paths drew, or that was set as a letter.

    Parameters
    ----------
    paths : tuple of DrawnPath
        The sheet's paths; none where it is a picture.
    words : tuple of Word
        The sheet's words: a mark may be a letter.
    number : int
        The chart's number on the sheet.
    area : ChartArea
        The chart.
    whole : tuple of MarkSight
        What was seen of the chart as a whole: a figure counts where this saw anything at its place, or where it lies
        on a figure that counts.
    set_as_letters : tuple of Lettered
        Letters of the chart that are marks or arrows whatever was seen.
    known : dict, optional
        What was seen already in pieces of this chart, by how they look.

    Returns
    -------
    tuple of MarkSight
        The figures that are marks, and of ``whole`` what stands elsewhere or may be a letter.
    """
    drawn = paths + tuple(path for letter in set_as_letters for path in letter.paths)
    every = figures(drawn, area.box)
    parts = [f for f in every if not f.is_stroke]
    if not parts or not whole or sum(len(f.paths) for f in parts) > MOST_PATHS:
        return whole
    sizes = sorted(max(m.size) for m in whole if m.score > SEEN) or [max(m.size) for m in whole]
    scale = max(crop_scale(area.box), min(WANTED_PX / sizes[len(sizes) // 2], 2.2 * crop_scale(area.box)))
    side = math.sqrt((area.box[2] - area.box[0]) * (area.box[3] - area.box[1]))
    options = [_pieces(figure, side) for figure in parts]
    looks = [[piece.look(ALIKE_PX / scale) for piece in pieces.values()] for pieces in options]
    if len({look for of_figure in looks for look in of_figure}) > MOST_LOOKS:
        return whole
    known = _seen_of(options, looks, scale, number, known or {})
    looked = _with_read(parts, _looked_at(options, looks, scale, known), set_as_letters, number)
    seen, arrows, scraps = _seen_alone(parts, options, looked)
    if not _by_machine(seen):
        return whole
    if len(left := without_joins(paths, seen)) < len(paths):
        return take_apart(left, words, number, area, whole, set_as_letters, known)
    kept = _supported(seen, whole)
    # what alone looks a little like a mark, and the whole shows nothing at, is an arrow all the same
    arrows += [m.piece for m in seen if m not in kept and m.sight.score < CLEAR and arrow_of(m.piece) is not None]
    shafts = [f for f in (*every, *scraps) if f.is_stroke]
    scraps = [f for f in scraps if not f.is_stroke]
    hung = with_headless(with_hung(kept, arrows, scraps), shafts)
    return _with_whole([m.sight for m in hung], whole, words, set_as_letters)


def _with_whole(
    alone: list[MarkSight], whole: tuple[MarkSight, ...], words: tuple[Word, ...], set_as_letters: tuple[Lettered, ...]
) -> tuple[MarkSight, ...]:
    """Put the marks seen alone together with what the whole shows elsewhere, the clearest first."""
    marked = {id(letter.word) for letter in set_as_letters}
    letters = [w.box for w in words if len(w.text) <= 2 and id(w) not in marked and not any(map(str.isdigit, w.text))]
    marks = [_held_against(m, alone, letters, whole) for m in alone]
    rest = [m for m in whole if not _told(m, marks, letters)]
    return tuple(sorted((*marks, *rest), key=lambda m: -m.score))


def _by_machine(seen: list[Alone]) -> bool:
    """Say whether marks of one glyph are of one size, as a machine draws them and no hand does; letters always are."""
    sizes: dict[tuple[Glyph, tuple[int, int, int]], list[tuple[float, float]]] = defaultdict(list)
    for mark in seen:
        if max(mark.sight.arrows) < ARROW and mark.sight.apart and not mark.piece.is_letter:
            sizes[(mark.sight.glyph, mark.piece.ink)].append(mark.piece.size)
    alike = every = 0
    for of_glyph in (np.array(s) for s in sizes.values() if len(s) > 1):
        off = np.abs(of_glyph - np.median(of_glyph, axis=0)) / np.maximum(np.median(of_glyph), 1e-9)
        alike += int((off.max(axis=1) < ONE_SIZE).sum())
        every += len(of_glyph)
    return alike >= MACHINE_SHARE * every


def _seen_of(
    options: list[dict[Place, Figure]], looks: list[list[Look]], scale: float, number: int, known: Known
) -> Known:
    """Look at each piece alone; give the marks seen in each, the clearest first, from the corner of its cell.

    Pieces that look alike are looked at once: a machine draws the same mark many times.
    """
    first: dict[Look, Figure] = {}
    for of_figure, pieces in zip(looks, options, strict=True):
        for look, piece in zip(of_figure, pieces.values(), strict=True):
            if look not in known:
                first.setdefault(look, piece)
    if not first:
        return known
    picture = spread(tuple(first.values()), scale)
    seen = marks_in(ChartCrop(picture.pixels, 1.0, (0.0, 0.0)), number)
    return known | {look: _in_cell(seen, picture, cell) for cell, look in enumerate(first)}


def _looked_at(
    options: list[dict[Place, Figure]], looks: list[list[Look]], scale: float, known: Known
) -> list[dict[Place, list[MarkSight]]]:
    """Give the marks seen in each piece, the clearest first, in sheet pixels."""
    return [
        {
            place: [_on_sheet(mark, piece, scale) for mark in known[look]]
            for look, (place, piece) in zip(of_figure, pieces.items(), strict=True)
        }
        for of_figure, pieces in zip(looks, options, strict=True)
    ]


def _with_read(
    parts: list[Figure], looked: list[dict[Place, list[MarkSight]]], letters: tuple[Lettered, ...], number: int
) -> list[dict[Place, list[MarkSight]]]:
    """Take the letters that are marks by what they say as the file names them, however they look."""
    said = {letter.paths[0].number: letter.word.text for letter in letters if letter.word.text in READ}
    return [
        {place: [as_read(figure, said[figure.paths[0].number], number)] for place in found}
        if figure.paths[0].number in said
        else found
        for figure, found in zip(parts, looked, strict=True)
    ]


def _in_cell(seen: tuple[MarkSight, ...], picture: Spread, cell: int) -> list[MarkSight]:
    """Give the marks in a cell, their places from the corner of its figure, in the picture's pixels."""
    left, top, right, bottom = picture.cells[cell]
    inside = [m for m in seen if left <= m.at[0] < right and top <= m.at[1] < bottom]
    return [replace(m, at=(m.at[0] - left - MARGIN_PX, m.at[1] - top - MARGIN_PX)) for m in inside]


def _on_sheet(mark: MarkSight, piece: Figure, scale: float) -> MarkSight:
    """Put a mark that was seen in a figure alone in its place on the sheet."""
    at = (mark.at[0] / scale + piece.box[0], mark.at[1] / scale + piece.box[1])
    size = (mark.size[0] / scale, mark.size[1] / scale)
    return replace(mark, at=at, size=size, tips=(), apart=True)


def _seen_alone(
    parts: list[Figure], options: list[dict[Place, Figure]], looked: list[dict[Place, list[MarkSight]]]
) -> tuple[list[Alone], list[Figure], list[Figure]]:
    """Part every figure into the marks that its pieces show; give these, the arrows that stand apart, and scraps."""
    found: list[Alone] = []
    arrows: list[Figure] = []
    scraps: list[Figure] = []
    for figure, pieces, in_pieces in zip(parts, options, looked, strict=True):
        seen = {place: believed(piece, in_pieces[place]) for place, piece in pieces.items()}
        maybe = [p for p, piece in pieces.items() if may_be_arrow(piece, seen[p]) and not begins_with_mark(p, seen)]
        shown = {place for place in maybe if arrow_of(pieces[place]) is not None}
        taken = parted(len(figure.groups), seen, shown, {place: piece.box for place, piece in pieces.items()})
        for place in taken:
            if place in shown:
                arrows.append(pieces[place])
            else:
                found += [Alone(pieces[place], sight) for sight in as_marks(seen[place])]
        ends = [0, *(number for place in taken for number in place), len(figure.groups)]
        between = zip(ends[::2], ends[1::2], strict=True)
        scraps += [figure.part(first, end) for first, end in between if end > first]
    return found, arrows, scraps


def _pieces(figure: Figure, side: float) -> dict[Place, Figure]:
    """Give every run of a figure's paths that may be one mark; keys are the first and the end."""
    count = len(figure.groups)
    pieces: dict[Place, Figure] = {}
    for first in range(count):
        for end in range(first + 1, min(first + MOST_PARTS, count) + 1):
            piece = figure.part(first, end)
            if max(piece.size) <= LARGEST * side and not piece.is_stroke:
                pieces[(first, end)] = piece
    return pieces


def _supported(found: list[Alone], whole: tuple[MarkSight, ...]) -> list[Alone]:
    """Keep the marks where the whole showed something, letters that are marks, and those that lie on one of these."""
    kept = [f for f in found if f.piece.is_letter or any(near(f.sight, w, NEAR) for w in whole)]
    waiting = [f for f in found if f not in kept]
    while more := [f for f in waiting if any(_overlap(f.piece.box, k.piece.box) for k in kept)]:
        kept += more
        waiting = [f for f in waiting if f not in more]
    return kept


def _overlap(one: Box, other: Box) -> bool:
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]


def _held_against(
    mark: MarkSight, alone: list[MarkSight], letters: list[Box], whole: tuple[MarkSight, ...]
) -> MarkSight:
    """Give a mark the arrow that was seen of the whole where no path near it explains that, or it may be a letter.

    Such an arrow is half seen at the most: what the file draws at other marks and lines may look like one.
    """
    x, y = mark.at
    reach = LETTER_REACH * max(mark.size)
    lettered = any(_overlap(box, (x - reach, y - reach, x + reach, y + reach)) for box in letters)
    seen = [w.arrows for w in whole if near(mark, w, NEAR)]
    ways = [
        max(own, min(UNDRAWN_ARROW, max(others, default=0.0))) for own, *others in zip(mark.arrows, *seen, strict=True)
    ]
    told = max(mark.arrows) >= ARROW or max(ways) < ARROW
    told = told or any(max(o.arrows) >= ARROW and near(o, mark, NEIGHBOUR) for o in alone)
    if told and not lettered:
        return mark
    return replace(mark, arrows=(ways[0], ways[1], ways[2]), apart=False)


def _told(seen: MarkSight, marks: list[MarkSight], letters: list[Box]) -> bool:
    """Say whether what was seen of the whole is told by the figures that are marks."""
    x, y = seen.at
    there = [m for m in marks if abs(m.at[0] - x) < 0.75 * m.size[0] and abs(m.at[1] - y) < 0.75 * m.size[1]]
    if not there:
        return False
    letter = any(left <= x <= right and top <= y <= bottom for left, top, right, bottom in letters)
    return not letter or any((alike(m.glyph, seen.glyph) or one_shape(m, seen)) and near(m, seen, 0.35) for m in there)
