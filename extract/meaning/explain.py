"""Explain the marks of one chart: each slot (ear, conduction, masking, measure, frequency) gets at most one value."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, replace

from ...interpret.record import Conduction, Ear, Seen, Threshold
from ...interpret.symbols import Glyph, Ink, Meaning, ear_of
from ..chart import Mark, MeasuredChart
from ..sheet import Sheet
from .beneath import beneath, ghost, in_each_ink, other_ears, two_brackets
from .beside import Beside, beside_lines
from .certainty import Surroundings, certainty, evidence, probability
from .doubts.arrow import (
    STEP_DB,
    anothers_arrow,
    ends_above,
    hidden_at_limit,
    loudest_of,
    near_end_asked,
    told_by_level,
    unheard_with_any,
)
from .doubts.letters import in_caption, letters_asked, loudness_asked, made_letters_asked, specimens_asked
from .doubts.one_size import DrawnBy, drawn_by
from .doubts.overlaid import earlier_asked, grey_of_earlier, overlaid_asked
from .doubts.place import SHARED_LEVEL_MISS_DB, doubtful_place, unprinted_alone
from .doubts.plotted import habit_of
from .doubts.shape import outshone, shape_open
from .doubts.strays import perhaps_stray
from .doubts.unsteady import last_of_few_asked, unsteady_asked, without_air_asked
from .frequencies import Habit
from .grouping import MOST_STRAYS, only_of
from .in_row import FREE_SCORE, in_gaps
from .limbs import read_marks
from .nearby import ARROW_REACH, ARROW_SURE, another, heard, same_place
from .slots import Candidate, doubted, one_a_slot
from .symbols.convention import Convention
from .symbols.either_ear import without_open_ear
from .symbols.key import borrowed
from .symbols.lent_ink import INK_STRAYS, colour_differs, coloured_shapes, ink_lent
from .symbols.one_ink import BOTH_INKS, denied_inks, plain, shapes_without_colour

SURE_SCORE = 0.55
"""Of the sure values of painted scans 2% stood below it, and a third of those were wrong."""
MOST_SPECKS = 2
"""So few marks, all faint, are all of a chart: specks and streaks of a copier on a blank form look like marks so often
that they are told as what may be missing, and give no value."""
HALF_SEEN = 0.5
"""Peak up to which an arrow may be strokes of other marks or of lines."""
NO_INK = 0.12
"""Share of a mark's ink in a colour below which it has none of it."""
LEAST_BONE_HZ, MOST_BONE_HZ = 250.0, 6000.0
"""Bone is not tested beyond these (ASHA 2005: octaves 250 to 4000 Hz, 3000 Hz as needed)."""


@dataclass(frozen=True, slots=True)
class Scene:
    """A chart with all that its marks have in common: what stands there, and how it was drawn."""

    sheet: Sheet
    chart: MeasuredChart
    number: int
    convention: Convention
    taken: tuple[Mark, ...]
    beside: Beside
    """How far marks beside their line stand from it."""
    habit: Habit
    """How the marks were set."""
    drawn_by: DrawnBy
    """What drew them, by that and by their sizes."""
    apart: frozenset[Ear]
    """Ears that have a chart of their own elsewhere on the page."""
    only_ear: Ear | None
    strays: bool
    """Whether so few shapes of one ear stand on it that they may be strays."""
    surroundings: Surroundings
    denied_inks: frozenset[Ink]
    """Inks in which shapes of the other ear stand too."""
    without_colour: frozenset[Glyph]
    """Shapes that a pen without colour drew."""
    own_colour: frozenset[Glyph]
    """Shapes that show a colour of their own beneath others."""
    loudest: Mapping[Conduction, float]
    """Up to which level marks without a trace of an arrow were heard."""


@dataclass(frozen=True, slots=True)
class Explained:
    """A chart's thresholds, the marks too weak to be one, and whether the test went by steps finer than 5 dB."""

    thresholds: tuple[Threshold, ...]
    weak: tuple[Mark, ...]
    evidence: tuple[tuple[float, ...], ...]
    """What speaks for and against each threshold, in their order (see ``certainty``)."""
    finely: bool = False


def explain(
    sheet: Sheet, chart: MeasuredChart, number: int, convention: Convention, *, apart: frozenset[Ear] = frozenset()
) -> Explained:
    """Turn one chart's marks into thresholds.

    Parameters
    ----------
    sheet : Sheet
        For positions on the page.
    chart : MeasuredChart
        The chart with its marks measured.
    number : int
        The chart's number in its audiogram.
    convention : Convention
        The page's symbol set.
    apart : frozenset of str
        The ears that other charts of the page show alone.

    Returns
    -------
    Explained
        Thresholds with standing and reasons; of two marks in one slot the stronger stands, as ``ask``.
    """
    taken, weak = read_marks(chart.marks)
    faint = [m for m in weak if m.sight.score >= FREE_SCORE and not m.sight.apart]
    habit = habit_of(taken, chart)
    scene = Scene(
        sheet, chart, number, convention, tuple(taken), beside_lines(tuple(taken), chart.frequency),
        habit, drawn_by(habit, taken), apart, *_only_ear(taken, convention),
        Surroundings.of(sheet, chart, taken, weak), denied_inks(taken), shapes_without_colour(taken),
        coloured_shapes(taken), loudest_of(taken, convention.symbol_set.meanings),
    )  # fmt: skip
    candidates, besides = _candidates(scene)
    weak += besides
    weak = [m for m in weak if not ghost(m, scene.taken, weak)]
    candidates = earlier_asked(candidates, grey_of_earlier(scene.taken))
    kept, dropped = one_a_slot(candidates, chart.frequency)
    kept, _ = one_a_slot([*kept, *in_gaps(_meant(scene, faint), kept, taken)], chart.frequency)
    kept = specimens_asked(letters_asked(made_letters_asked(doubted(kept)), dropped, weak, chart), sheet)
    kept = without_air_asked(last_of_few_asked(unsteady_asked(kept))) if scene.drawn_by == "hand" else kept
    kept = loudness_asked(near_end_asked(overlaid_asked(kept, candidates)), told=convention.loudness_told)
    kept = without_open_ear(kept, convention.ear_open)
    if len(kept) <= MOST_SPECKS and all("faint" in c.threshold.why_ask for c in kept):
        return Explained((), (*weak, *dropped, *(c.mark for c in kept)), ())
    told = (*weak, *dropped, *beneath(chart.marks, taken, weak))
    return Explained(tuple(c.threshold for c in kept), told, tuple(c.evidence for c in kept), habit.finer)


def _candidates(scene: Scene) -> tuple[list[Candidate], list[Mark]]:
    """Give the values of the marks that mean anything; and what else may stand at them, and what means nothing."""
    candidates: list[Candidate] = []
    besides: list[Mark] = []
    for mark in scene.taken:
        meaning = scene.convention.symbol_set.meanings.get(mark.sight.glyph) or borrowed(mark.sight.glyph)
        if meaning is None:
            besides.append(mark)
            continue
        if in_caption(mark, scene.chart, scene.sheet):
            continue
        mark = _in_its_ink(scene, mark, meaning)
        besides += other_ears(mark, meaning) + two_brackets(mark, scene.convention)
        inks = in_each_ink(mark, meaning, scene.taken)
        candidates += [_candidate(scene, replace(mark, sight=ink), meaning, shared=len(inks) > 1) for ink in inks]
    return candidates, besides


def ear_alone(chart: MeasuredChart, convention: Convention) -> Ear | None:
    """Name the ear that a chart shows alone by the shapes of its marks, a few strays aside."""
    return _only_ear(read_marks(chart.marks)[0], convention)[0]


def _meant(scene: Scene, faint: list[Mark]) -> list[Candidate]:
    """Give what marks too weak to be taken would say."""
    meanings = scene.convention.symbol_set.meanings
    told = (
        (m, meanings[m.sight.glyph])
        for m in faint
        if m.sight.glyph in meanings and not in_caption(m, scene.chart, scene.sheet)
    )
    return [_candidate(scene, _in_its_ink(scene, m, meaning), meaning, shared=False) for m, meaning in told]


def _in_its_ink(scene: Scene, mark: Mark, meaning: Meaning) -> Mark:
    """Take the colour of other marks and of lines from one that a pen without colour drew, where ink names its ear."""
    black = meaning.ear == "by-colour" and mark.sight.glyph in scene.without_colour
    return plain(mark) if black else mark


def _only_ear(marks: list[Mark], convention: Convention) -> tuple[Ear | None, bool]:
    """Name the ear that nearly all marks of the chart name, where their shape names one, and whether a few do not."""
    meanings = (convention.symbol_set.meanings.get(mark.sight.glyph) for mark in marks)
    count = Counter(m.ear for m in meanings if m)
    few, many = sorted((count["right"], count["left"]))
    return only_of(count["right"], count["left"]), 0 < few <= MOST_STRAYS and 2 * few < many


def _candidate(scene: Scene, mark: Mark, meaning: Meaning, *, shared: bool) -> Candidate:
    """Give a mark its value; ``shared`` says that it is seen once and stands for one of each ear."""
    sight = mark.sight
    placed = scene.beside.placed(mark, scene.chart.frequency)
    ear, unsure = _whose(scene, mark, meaning)
    why = [*scene.chart.doubts, *unsure]
    level = scene.habit.step_of(mark.level_db_hl)
    why += doubtful_place(scene.chart, scene.habit, scene.taken, mark, placed)
    if shared and scene.habit.miss_db(mark.level_db_hl) > SHARED_LEVEL_MISS_DB:
        why.append("marks-overlap")
    open_shape = shape_open(mark, scene.taken, scene.convention, drawn_by=scene.drawn_by, black=scene.without_colour)
    if open_shape or perhaps_stray(mark, scene.taken, scene.surroundings.weak, scene.only_ear or scene.chart.titled):
        why.append("two-readings")
    if meaning.conduction == "bone" and not LEAST_BONE_HZ <= placed.frequency_hz <= MOST_BONE_HZ:
        why.append("implausible")
    why += _doubtful_meaning(scene, mark, meaning, ear)
    if colour_differs(mark, ear, scene.taken):
        why.append("colour-and-shape-differ")
    response, unsure = _response(scene, mark, meaning, ear, placed.frequency_hz, level)
    why += unsure
    reasons = evidence(scene.surroundings, mark, ear, scene.habit.miss_db(mark.level_db_hl), placed.miss_octaves)
    chance = probability(reasons)
    crowded = not sight.apart and any(another(o, mark) and same_place(o, mark, 0.55) for o in scene.taken)
    if sight.score < SURE_SCORE:
        why.append("faint")
    elif outshone(mark, scene.chart, scene.taken):
        why.append("marks-overlap")
    elif chance < certainty().sure_from:
        why.append("marks-overlap" if crowded else "low-certainty")
    elif unprinted_alone(scene.chart.frequency, scene.taken, mark, placed.frequency_hz):
        why.append("faint")
    threshold = Threshold(
        ear, meaning.conduction, meaning.masked, placed.frequency_hz, float(level), meaning.aided, meaning.measure,
        response, "ask" if why else "sure", min(0.9999, chance), tuple(dict.fromkeys(why)),
        Seen(scene.number, scene.sheet.on_page(*sight.at), round(mark.frequency_hz, 1), round(mark.level_db_hl, 1)),
    )  # fmt: skip
    return Candidate(mark, threshold, placed, reasons)


def _whose(scene: Scene, mark: Mark, meaning: Meaning) -> tuple[Ear, list[str]]:
    """Name the ear of a mark, by its shape or its ink, else by the chart; and say why that may be wrong."""
    ear = ear_of(meaning, mark.sight.ink)
    if meaning.ear != "by-colour":
        return ear, []
    why: list[str] = []
    # where a chart shows one ear alone, a mark without colour is that ear's too
    either_way = ear == scene.only_ear and not scene.strays and meaning.measure == "threshold"
    own = mark.sight.apart or mark.sight.glyph in scene.own_colour
    if ear != "unspecified" and not either_way and not own:
        lent = ink_lent(mark, scene.taken)
        ear = "unspecified" if lent else ear
        why += [] if lent is ink_lent(mark, scene.taken, INK_STRAYS) is False else ["ear-uncertain"]
    if ear == "unspecified" and scene.only_ear is not None:
        ear = scene.only_ear
        # of the other ear loudness alone may stand here, if no title says whose chart it is, the other ear has none of
        # its own, and colour that would tell may be lost
        untold = scene.sheet.taken_by != "drawn" and scene.chart.titled != ear and scene.apart <= {ear}
        loudness = meaning.measure != "threshold" and untold
        why += ["ear-uncertain"] if scene.strays or loudness else []
    elif ear == "unspecified" and scene.strays:
        why.append("ear-uncertain")
    return ear, why


def _response(
    scene: Scene, mark: Mark, meaning: Meaning, ear: Ear, frequency_hz: float, level_db: float
) -> tuple[bool, list[str]]:
    """Say whether a mark was heard, and why that may be wrong."""
    place = (meaning.conduction, frequency_hz, level_db, scene.loudest)
    strongest = max(mark.sight.arrows)
    own = told_by_level(mark, scene.taken, scene.convention.symbol_set.meanings, scene.loudest)
    if meaning.measure == "threshold" and ends_above(*place) and (strongest < HALF_SEEN or own is False):
        return True, []
    response, certain = heard(
        mark, ear, scene.taken, deepest_db=scene.chart.level.printed[1], earless=scene.convention.earless,
        with_any=unheard_with_any(mark, ear, scene.taken, scene.convention.symbol_set.meanings),
        louder=meaning.measure != "threshold" or ends_above(*place, STEP_DB),
    )  # fmt: skip
    if own and not response and (mark.sight.apart or strongest >= ARROW_SURE):
        return False, []
    hidden = response and meaning.conduction == "bone" and hidden_at_limit(mark, scene.taken)
    # what is comfortable is heard: the arrow is another mark's
    unheard = not response and (
        meaning.measure == "mcl"
        or anothers_arrow(mark, scene.taken, scene.chart.marks, scene.convention.symbol_set.meanings)
    )
    if not (hidden or unheard or not certain):
        return response, []
    # an arrow where other marks stand is theirs, if no audiometer ends at this level
    crowded = any(another(o, mark) and same_place(o, mark, ARROW_REACH) for o in scene.taken)
    return response or (crowded and meaning.measure == "threshold" and ends_above(*place)), ["arrow-uncertain"]


def _doubtful_meaning(scene: Scene, mark: Mark, meaning: Meaning, ear: Ear) -> list[str]:
    """Give the reasons why a glyph's meaning is open on this page."""
    sight, convention, why = mark.sight, scene.convention, list[str]()
    if sight.glyph in convention.open_glyphs or sight.glyph not in convention.symbol_set.meanings:
        why.append("symbol-set-unknown")
    if meaning.ear == "by-colour":
        plain = meaning.conduction == "bone" and max(sight.red, sight.blue) < NO_INK
        seen = scene.sheet.taken_by == "scan" or convention.in_colour
        told = scene.sheet.taken_by == "drawn" or (plain and seen)
        if sight.ink == "neutral" and ear == "unspecified" and not told:
            why.append("ear-uncertain")  # a grey scan of a coloured page looks the same
        # one coloured pen may have filled in a form by hand: then its colour names no ear
        any_pen = scene.habit.by_hand and sight.ink != "neutral" and not convention.in_both_colours
        if min(sight.red, sight.blue) > BOTH_INKS or sight.ink in scene.denied_inks or any_pen:
            why.append("ear-uncertain")
    return why
