"""The facts of a page: what labels announce, each with its place, its probability and whether it is sure."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from ....interpret.reasons import remark
from ....interpret.record import Box, Fact, Remark, Report
from ...chart import MeasuredChart
from ...page import UNMAPPED, Word
from ...shades import grey_of
from ...sheet import Sheet
from ..growth import Mask, ink_of
from ..lines import CELL_GAP, Line, box_around, cut_at_bars
from ..stray import crosses_letters, holds_space, ink_beside, loses_accents
from ..words import ReportWords
from .certainty import chance_of, sure_from, words_sure
from .dating import dates_of
from .draft import Draft
from .numbering import page_number
from .printed.labels import Label, labels_of
from .printed.pairs import NEAR, Pair, pairs_of
from .printed.vocabulary import parts_of, vocabulary
from .tested import dates_over_charts
from .texts import fits, texts_of
from .values.dates import dates_in
from .wrapping import may_go_on


@dataclass(frozen=True, slots=True)
class ReadFacts:
    """The facts of a page in reading order, and remarks on what stands there and could not be read as one."""

    facts: tuple[Fact, ...]
    remarks: tuple[Remark, ...]


def read_facts(
    sheet: Sheet, charts: tuple[MeasuredChart, ...], words: ReportWords, lines: tuple[Line, ...]
) -> ReadFacts:
    """Read the facts of a sheet.

    Parameters
    ----------
    sheet : Sheet
        For tick boxes and for places on the page.
    charts : tuple of MeasuredChart
        Its charts: a date over one may be its test's.
    words : ReportWords
        Whether its words were given or had to be read.
    lines : tuple of Line
        Its lines (``lines_of``).

    Returns
    -------
    ReadFacts
        At most one fact of a name and value; several dates of test stand side by side.
    """
    if words.unread:
        return ReadFacts((), ())
    lines = cut_at_bars(lines)
    labels = labels_of(lines)
    pairs = _best_told(pairs_of(lines, labels, fits))
    over = dates_over_charts(lines, charts, pairs)
    dates, impossible = dates_of(pairs, lines, over, lambda some: words_sure(some, given=words.given))
    texts = texts_of(pairs, grey_of(sheet.pixels) if pairs else None, dict(enumerate(line.height for line in lines)))
    drafts = [*dates, *texts, *page_number(lines)]
    drafts = [_unnamed(_told(_with_strays(one, pairs))) for one in drafts]
    drafts = [_wrapped(one, lines, labels) for one in drafts]
    drafts = _once(drafts)
    if not words.given and drafts:
        ink = ink_of(grey_of(sheet.pixels))
        drafts = [_doubted(one, ink, words.words) for one in drafts]
    facts = [_fact(sheet, one, given=words.given) for one in drafts]
    facts.sort(key=lambda fact: (round(fact.box[1], 2), fact.box[0]) if fact.box else (0.0, 0.0))
    return ReadFacts(tuple(facts), tuple(_impossible(sheet, pair) for pair in impossible))


def _best_told(pairs: Sequence[Pair]) -> tuple[Pair, ...]:
    """Leave out what a sentence says where a label of its own says it as well."""
    plain = {pair.label.names for pair in pairs if not pair.label.told}
    return tuple(pair for pair in pairs if not (pair.label.told and pair.label.names in plain))


def report_of(facts: tuple[Fact, ...]) -> Report:
    """Give the report that facts make; the values that rules work with are repeated only where they are sure."""

    def value(name: str) -> str | None:
        return next((fact.value for fact in facts if fact.name == name and fact.standing == "sure"), None)

    return Report(value("patient-name"), value("birth-date"), value("transducer"), value("reliability"), facts)


def _in_block(label: Label, pairs: Sequence[Pair]) -> bool:
    """Say whether a label without a colon stands in a block of such: others on its line, and others above it.

    A house's name may begin like a label, but stands above all of them.
    """
    bare = [pair.label for pair in pairs if not (pair.label.colon or pair.label.alone) and pair.label is not label]
    return any(one.line == label.line for one in bare) and any(one.line < label.line for one in bare)


def _told(one: Draft) -> Draft:
    """Let a value ask that a sentence tells: it may be about somebody else, or of another day."""
    told = one.label is not None and one.label.told and "label-uncertain" not in one.why_ask
    return replace(one, why_ask=(*one.why_ask, "label-uncertain")) if told else one


def _unnamed(one: Draft) -> Draft:
    """Let a value ask that holds a sign of which its font does not say what it is."""
    return replace(one, why_ask=(*one.why_ask, "text-uncertain")) if UNMAPPED in one.value else one


def _wrapped(one: Draft, lines: Sequence[Line], labels: Sequence[Label]) -> Draft:
    """Let a text ask that may go on below."""
    loses = one.name in _MAY_LOSE and not one.why_ask and may_go_on(one, lines, labels)
    return replace(one, why_ask=("text-uncertain",)) if loses else one


def _once(drafts: list[Draft]) -> list[Draft]:
    """Keep the better of two that say the same; of names and the like that differ, let both ask."""
    kept: list[Draft] = []
    for one in sorted(drafts, key=lambda d: (bool(d.why_ask), d.at[1], d.at[0])):
        if not any((one.name, one.value.casefold()) == (other.name, other.value.casefold()) for other in kept):
            kept.append(one)
    return [_alone(one, kept) for one in kept]


def _alone(one: Draft, others: list[Draft]) -> Draft:
    differ = any(other.name == one.name and other.value.casefold() != one.value.casefold() for other in others)
    if one.name not in _SINGLE or not differ or "two-readings" in one.why_ask:
        return one
    return replace(one, why_ask=(*one.why_ask, "two-readings"))


_FREE = frozenset({"patient-name", "tester", "place", "audiometer", "reason", "note"})
"""Facts in words of their own, in which a lost space does not show."""
_NAMES = frozenset({"patient-name", "tester"})
_MAY_LOSE = _FREE | {"record-number", "birth-date", "test-date", "calibration-date"}
"""Facts that may be such still when a word or a digit is lost at their ends."""
_GLUED = re.compile(r"[^\W\d_]\.[^\W\d_]{2,}|[a-zß-ÿ][A-Z]|[^\W\d_]{3,}\d")
"""What looks like two words without their space."""


def _with_strays(one: Draft, pairs: Sequence[Pair]) -> Draft:
    """Let a text ask that holds what looks like another fact, or stands where the page's other values do not."""
    if one.name not in _FREE or one.why_ask:
        return one
    label = one.label
    if one.name == "place" and label is not None and not (label.colon or label.alone or _in_block(label, pairs)):
        return replace(one, why_ask=("label-uncertain",))  # "Clinic at the quay" may be the house's name as a whole
    if _parted(one) or (one.name != "note" and _names_another(one)):
        return replace(one, why_ask=("text-uncertain",))
    if _oddly_placed(one, pairs):
        return replace(one, why_ask=("label-uncertain",))
    if one.name != "note" and (":" in one.value or dates_in(one.value)):
        return replace(one, why_ask=("text-uncertain",))
    return one


def _doubted(one: Draft, ink: Mask, words: Sequence[Word]) -> Draft:
    """Let a value that was read ask where it may have lost what nobody would miss."""
    if one.name not in _MAY_LOSE or one.why_ask:
        return one
    glued = one.name in _FREE and any(_GLUED.search(word.text) for word in one.words)
    glued = glued or (
        one.name in _FREE and any(holds_space(ink, word.box) for word in one.words if " " not in word.text)
    )
    glued = glued or (one.name in _FREE and any(loses_accents(ink, word) for word in one.words))
    glued = glued or (one.name in _NAMES and any(crosses_letters(ink, word) for word in one.words))
    # nearly everybody has two names: a fax had lost the first, and its comma
    glued = glued or (one.name == "patient-name" and len(one.value.split()) == 1)
    if glued or any(ink_beside(ink, box_around(line), words) for line in _lines(one.words)):
        return replace(one, why_ask=("text-uncertain",))
    return one


def _lines(words: Sequence[Word]) -> list[list[Word]]:
    """Part a text's words, which follow each other, into its lines."""
    lines: list[list[Word]] = []
    for word in words:
        if lines and word.box[0] >= lines[-1][-1].box[0] and word.box[1] < lines[-1][-1].box[3]:
            lines[-1].append(word)
        else:
            lines.append([word])
    return lines


def _parted(one: Draft) -> bool:
    """Say whether a gap stands within a text that parts columns elsewhere; surname and first name may stand apart."""
    if one.label is not None and one.label.names == {"surname"}:
        return False
    return any(
        b.box[0] - a.box[2] > CELL_GAP * max(a.box[3] - a.box[1], b.box[3] - b.box[1])
        for line in _lines(one.words) for a, b in pairwise(line)
    )  # fmt: skip


def _oddly_placed(one: Draft, pairs: Sequence[Pair]) -> bool:
    """Say whether a value stands to its label as most of the page's do not, nor those of the labels on its line."""
    below = sum(pair.place == "below" for pair in pairs)
    for reach in (0, NEAR):
        near = [p.place for p in pairs if one.label is not None and abs(p.label.line - one.label.line) <= reach]
        if len(near) > 1 + bool(reach) and set(near) == {one.place}:
            return False
    return (one.place == "below" and 2 * below < len(pairs)) or (one.place == "next-cell" and 2 * below > len(pairs))


_ENDS = tuple(",;.|(/")
"""What may part two facts that stand behind one label."""
_MOST_PARTS = 4
"""Labels have no more words than this, but for few."""
_LEAST_LETTERS = 5
"""A shorter label may be a part of a name: "A", "Ort"."""


def _names_another(one: Draft) -> bool:
    """Say whether another fact's label begins within a text, behind a comma or the like: it has taken in too much."""
    parts = [parts_of(word.text) for word in one.words]
    for at in range(1, len(parts)):
        if not one.words[at - 1].text.endswith(_ENDS):
            continue
        begun = [part for some in parts[at : at + _MOST_PARTS] for part in some]
        said = {"".join(begun[:count]) for count in range(1, len(begun) + 1)}
        if any(
            label.meaning not in (one.name, "other") and len(label.letters) >= _LEAST_LETTERS and label.letters in said
            for label in vocabulary().labels
        ):
            return True
    return False


_SINGLE = frozenset({"patient-name", "record-number", "birth-date", "sex", "reliability", "test-time"})
"""Facts of which a page has one: two that differ are a contradiction."""


def _fact(sheet: Sheet, one: Draft, *, given: bool) -> Fact:
    probability = chance_of(one, given=given)
    sure = not one.why_ask and probability >= sure_from(given=given)
    why = () if sure else (one.why_ask or ("text-uncertain",))
    return Fact(
        one.name, one.value, one.written, _on_page(sheet, one.at), round(probability, 4), "sure" if sure else "ask", why
    )


def _on_page(sheet: Sheet, box: tuple[float, float, float, float]) -> Box:
    """Carry an upright box of the sheet to one around it on the page."""
    corners = [sheet.on_page(x, y) for x in (box[0], box[2]) for y in (box[1], box[3])]
    xs, ys = [min(max(x, 0.0), 1.0) for x, _ in corners], [min(max(y, 0.0), 1.0) for _, y in corners]
    return min(xs), min(ys), max(xs), max(ys)


def _impossible(sheet: Sheet, pair: Pair) -> Remark:
    left, top, right, bottom = box_around(pair.words)
    return remark("date-impossible", at=sheet.on_page((left + right) / 2, (top + bottom) / 2))
