"""Arrows that the paths of a drawn page show by themselves, and the marks that they hang from."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np
import numpy.typing as npt

from .....interpret.symbols import Glyph
from ....sightings import MarkSight
from .apart import Figure, dense
from .heads import LEAST_FALL, SLANT, Arrow, bare_head

ARROW = 0.5
"""Peak from which an arrow is seen."""
CERTAIN = 0.9
"""What the arrow of a mark counts that owns it beyond doubt."""
CLEAR = 0.6
"""Peak from which a figure is a mark whatever else it looks like."""
REACH = 0.75
"""An arrow begins this near its mark's box, in sizes of the mark."""
CLEARLY_NEARER = 0.3
"""By so many sizes the second mark must be farther than the first for an arrow to be the first's."""
FAR_REACH = 2.5
"""An arrow without a mark so near may belong to those within this, which are asked about."""
LESS = 0.45
"""What an arrow counts of a mark that stands a little farther from it than another does."""
SCRAP_REACH, LEAST_DOWN = 1.8, 0.4
LEAST_SCRAP, MOST_SCRAP = 0.3, 1.8
"""Where and how large, in sizes of a mark, something below it may be its arrow, be it of a shape that nobody knows."""
AGAINST: dict[int, frozenset[Glyph]] = {
    0: frozenset({"cross", "cross-filled", "square", "angle-right", "bracket-right"}),
    1: frozenset({"circle", "circle-filled", "triangle", "angle-left", "bracket-left"}),
}
"""Shapes of the ear that an arrow to the left or to the right does not point to: right ears' arrows point left on the
page and left ears' right (ASHA 1990)."""
SIDE_REACH = 1.5
"""A mark of the arrow's own side this near makes doubtful whether it hangs from one of the other side."""
PARTS, SHAFT_PARTS = 10, 3
"""An arrow's widths are looked at in so many parts along it; so many of them at least are shaft alone."""
TAIL, TIP, SHORT_TIP = 0.35, 0.05, 0.02
"""Shares of an arrow that are its tail and its tip, be its head long or no longer than one of the parts."""
MOST_WIDTH, MOST_SHAFT = 0.8, 0.3
"""The head and the shaft are at most so wide, in lengths of the arrow; ``LEAST_HEAD`` and ``HEAD_WIDER`` say how much
the head outdoes the shaft, and ``TIP_NARROWER`` how far it comes to a point: the foot of a bracket does not."""
LEAST_WING = 0.3
"""The head stands out on both sides of the shaft, on one at least so much of what it does on the other: the second
stroke of an angle is no head."""
ONE_WINGED_HEAD, THIN_SHAFT, THIN_PARTS = 0.4, 0.1, 6
"""Unless the head is no wider than this and the shaft thin all the way to it: some arrows have one wing alone,
and the second stroke of an angle is as long as the first."""
MOST_OFF = 0.15
"""Ink stands all along the way from an arrow's tail to its tip, no farther off than this in lengths of that way."""
LEAST_HEAD = 0.04
HEAD_WIDER = 1.4
TIP_NARROWER = 0.75
NO_WAY = 0.9
"""What spreads across by so much of what it does along has no way: either stroke of an even cross might be a shaft."""
FINE = 64
"""Outlines that are the same to such a part of a pixel are one shape."""


@dataclass(frozen=True, slots=True, eq=False)
class Alone:
    """A piece of a drawing that is a mark, and what was seen of it."""

    piece: Figure
    sight: MarkSight


def near(one: MarkSight, other: MarkSight, share: float) -> bool:
    """Say whether two marks stand within a share of their size of one another."""
    reach = share * max(*one.size, *other.size)
    return abs(one.at[0] - other.at[0]) < reach and abs(one.at[1] - other.at[1]) < reach


def arrow_of(figure: Figure) -> Arrow | None:
    """Say whether a figure is an arrow that points down: one shaft, and a head at its lower end.

    Parameters
    ----------
    figure : Figure
        The figure.

    Returns
    -------
    Arrow or None
        None for anything else.
    """
    corner = np.array(figure.box[:2])
    outlines = tuple(np.round((o - corner) * FINE).astype(np.int32).tobytes() for o in figure.outlines)
    found = _arrow_in(outlines, round(max(*figure.size, 1.0) * FINE))
    if found is None:
        return bare_head(figure)
    return replace(found, tail=(found.tail[0] + figure.box[0], found.tail[1] + figure.box[1]))


@lru_cache(maxsize=2048)  # a machine draws the same shapes many times
def _arrow_in(outlines: tuple[bytes, ...], size: int) -> Arrow | None:
    """Do what ``arrow_of`` does, for outlines from the figure's corner in parts of a pixel, and its size in them."""
    shapes = [np.frombuffer(outline, np.int32).reshape(-1, 2) / FINE for outline in outlines]
    points = np.concatenate([dense(shape, size / FINE / 60) for shape in shapes])
    (least, most), ways = np.linalg.eigh(np.cov(points.T))
    if least > NO_WAY * most:
        return None
    along = ways[:, 1]
    along = along if along[1] > 0 else -along
    far = _share(points, along)
    # the upper part is the shaft alone, and says better than the whole which way it runs
    begins, goes_on = points[far < 0.2], points[(far > 0.3) & (far < 0.5)]
    if not len(goes_on):
        return None
    shaft = goes_on.mean(axis=0) - begins.mean(axis=0)
    along = shaft / max(float(np.hypot(*shaft)), 1e-9)
    if not along[1] >= LEAST_FALL:
        return None
    far, off = _share(points, along), points @ np.array([-along[1], along[0]])
    length = float(np.ptp(points @ along))
    widths = [_width(off[(far >= k / PARTS) & (far <= (k + 1) / PARTS)]) / length for k in range(PARTS)]
    widest = max(range(SHAFT_PARTS, PARTS), key=lambda k: widths[k])
    head, shaft = widths[widest], max(widths[: max(widest - 1, SHAFT_PARTS)])
    ends = SHORT_TIP if widest == PARTS - 1 else TIP
    tail, tip = (_width(part) / length for part in (off[far <= TAIL], off[far >= 1 - ends]))
    if tail > MOST_SHAFT or head > MOST_WIDTH or head < shaft * HEAD_WIDER + LEAST_HEAD or tip > TIP_NARROWER * head:
        return None
    beyond = off[far > SHAFT_PARTS / PARTS] - off[far <= SHAFT_PARTS / PARTS].mean()
    one_winged = min(-beyond.min(), beyond.max()) < LEAST_WING * max(-beyond.min(), beyond.max())
    if one_winged and (head > ONE_WINGED_HEAD or max(widths[:THIN_PARTS]) > THIN_SHAFT):
        return None
    if _is_bent(points, along):
        return None
    start = points[far < 0.05].mean(axis=0)
    sideways = float(along[0])
    return Arrow(2 if abs(sideways) < SLANT else int(sideways > 0), (float(start[0]), float(start[1])))


def _is_bent(points: npt.NDArray[np.float64], along: npt.NDArray[np.float64]) -> bool:
    """Say whether a figure leaves the straight way from its tail to its tip, as an angle or a corner does."""
    far = _share(points, along)
    tail, tip = points[far < 0.05].mean(axis=0), points[far > 0.98].mean(axis=0)
    way = tip - tail
    on_the_way = tail + np.arange(1, PARTS)[:, None] / PARTS * way
    off = np.hypot(*(points[:, None] - on_the_way[None]).transpose(2, 0, 1)).min(axis=0)
    return bool(off.max() > MOST_OFF * np.hypot(*way))


def _share(points: npt.NDArray[np.float64], along: npt.NDArray[np.float64]) -> npt.NDArray[np.float64]:
    """Give how far along a direction points lie, from 0 to 1."""
    far = points @ along
    return (far - far.min()) / max(float(np.ptp(far)), 1e-9)


def _width(off: npt.NDArray[np.float64]) -> float:
    return float(np.ptp(off)) if len(off) else 0.0


def with_hung(found: list[Alone], arrows: list[Figure], scraps: Sequence[Figure] = ()) -> list[Alone]:
    """Give marks the arrows that were drawn apart from them; an arrow alone may look like a mark itself.

    Parameters
    ----------
    found : list of Alone
        The marks.
    arrows : list of Figure
        Figures that are arrows (``arrow_of``).
    scraps : sequence of Figure
        Figures that are nothing known: one that hangs below a mark may be an arrow all the same.

    Returns
    -------
    list of Alone
        The marks; where two may own an arrow, or what hangs there may be none or a mark, theirs are half seen.
    """
    shown = [(arrow, figure) for figure in arrows if (arrow := arrow_of(figure)) is not None]
    clear: set[int] = set()
    for mark in tuple(found):
        arrow = arrow_of(mark.piece)
        if arrow is not None and _owners(arrow, mark.piece, found):
            shown.append((arrow, mark.piece))
            found = [f for f in found if f is not mark]
            clear |= {id(mark.piece)} if mark.sight.score >= CLEAR and not mark.piece.is_letter else set()
    hung: dict[int, tuple[float, int]] = {}
    owned = _one_each([(arrow, figure, _owners(arrow, figure, found)) for arrow, figure in shown])
    for arrow, figure, owners in owned:
        certain = len(owners) == 1 and id(figure) not in clear
        scores = [(owner, CERTAIN if certain else ARROW) for owner in owners]
        for owner, score in scores or _far_owners(arrow, figure, found):
            hung[id(owner)] = max(hung.get(id(owner), (0.0, 0)), (score, arrow.way))
    for mark in (mark for scrap in scraps for mark in found if _hangs(scrap, mark)):
        hung.setdefault(id(mark), (LESS, 2))
    return [_hung(f, *hung[id(f)]) if id(f) in hung and max(f.sight.arrows) < ARROW else f for f in found]


def _hangs(scrap: Figure, mark: Alone) -> bool:
    """Say whether something of a mark's ink and of an arrow's size lies close below it."""
    size = max(mark.sight.size)
    x, y = (scrap.box[0] + scrap.box[2]) / 2, (scrap.box[1] + scrap.box[3]) / 2
    across, down = abs(x - mark.sight.at[0]) / size, (y - mark.sight.at[1]) / size
    beside = across < SCRAP_REACH and LEAST_DOWN < down < SCRAP_REACH
    return beside and LEAST_SCRAP * size < max(scrap.size) < MOST_SCRAP * size and mark.piece.like_ink(scrap)


def _hung(mark: Alone, score: float, way: int) -> Alone:
    left, right, down = (score if i == way else a for i, a in enumerate(mark.sight.arrows))
    return Alone(mark.piece, replace(mark.sight, arrows=(left, right, down)))


def _owners(arrow: Arrow, figure: Figure, found: list[Alone]) -> list[Alone]:
    """Give the marks of an arrow's ink that it may hang from: one, or those that are equally near.

    What was drawn just before the arrow owns it, if that is near.
    """
    options: list[tuple[float, Alone]] = []
    for mark, far in _distances(arrow, figure, found):
        if far > REACH:
            continue
        if mark.piece.paths[-1].number + 1 == figure.paths[0].number:
            return [mark]
        options.append((far, mark))
    nearest = min((far for far, _ in options), default=0.0)
    owners = [mark for far, mark in options if far < nearest + CLEARLY_NEARER]
    if len(owners) == 1 and _against(arrow, owners[0]):
        near_by = [mark for mark, far in _distances(arrow, figure, found) if far < SIDE_REACH]
        owners += [mark for mark in near_by if not _against(arrow, mark)]
    return owners


def _one_each(owned: list[tuple[Arrow, Figure, list[Alone]]]) -> list[tuple[Arrow, Figure, list[Alone]]]:
    """Give two marks of which each may own both of two arrows, one to each side, the one that points to its side."""

    def own(arrow: Arrow, owners: list[Alone]) -> list[Alone]:
        pair = {id(mark) for mark in owners}
        ways = {other.way for other, _, others in owned if {id(mark) for mark in others} == pair}
        mine = [mark for mark in owners if not _against(arrow, mark)]
        return mine if len(pair) == 2 and ways == {0, 1} and len(mine) == 1 else owners

    return [(arrow, figure, own(arrow, owners)) for arrow, figure, owners in owned]


def _against(arrow: Arrow, mark: Alone) -> bool:
    return mark.sight.glyph in AGAINST.get(arrow.way, ())


def _far_owners(arrow: Arrow, figure: Figure, found: list[Alone]) -> list[tuple[Alone, float]]:
    """Give the marks that an arrow without one close by may hang from, half seen: the nearest more than the rest."""
    options = [(mark, far) for mark, far in _distances(arrow, figure, found) if far < FAR_REACH]
    nearest = min((far for _, far in options), default=0.0)
    return [(mark, ARROW if far == nearest else LESS) for mark, far in options if far < nearest + 1]


def _distances(arrow: Arrow, figure: Figure, found: list[Alone]) -> list[tuple[Alone, float]]:
    """Give how far an arrow begins from the marks of its ink above it, in their sizes."""
    near: list[tuple[Alone, float]] = []
    for mark in found:
        if mark.piece is figure or not mark.piece.like_ink(figure) or mark.sight.at[1] > figure.box[3]:
            continue
        half = (mark.sight.size[0] / 2, mark.sight.size[1] / 2)
        beside = [max(0.0, abs(t - c) - h) for t, c, h in zip(arrow.tail, mark.sight.at, half, strict=True)]
        near.append((mark, math.hypot(*beside) / max(mark.sight.size)))
    return near
