"""Speech tests: thresholds for speech, word and phoneme scores, comfortable and uncomfortable levels."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from ....interpret.record import Conduction, Ear, Speech, SpeechMeasure
from ...sheet import Sheet
from ..layout.context import Found, Layout
from ..layout.tokens import Token
from ..layout.values import BEYOND, LIMITS, Value, after, follows, named_by_head, sign_before, values
from ..layout.wording.doubts import doubts_of
from .evidence import judge
from .owners import SCORES, THRESHOLDS, Owner, lacks, list_text, list_tokens, owners_of, something_unread
from .speech_checks import LEVELS, check_level, check_score, check_snr, within, without_rivals, word_count

LEVELLED = frozenset({"level", "masking", "noise_ratio"})
ATTRIBUTES = LEVELLED | {"words"}
WANTED = THRESHOLDS | SCORES | ATTRIBUTES | {"list"}
CONDITIONS = frozenset({"aided", "unaided", "masked", "unmasked", "field", "in_noise", "quiet"})
NAMES = THRESHOLDS | SCORES | {"right", "left", "both"}
PREPOSITIONS = frozenset({"at", "@", "bei", "a", "\u00e0"})
"""Words that mean a level only directly before a number."""
OPPOSITES = (frozenset({"aided", "unaided"}), frozenset({"masked", "unmasked"}), frozenset({"in_noise", "quiet"}))
UNKNOWN = "unknown"
"""What a word means that may have been misread."""
MOST_LIST = 25
"""Word lists have numbers to 20 or so (common practice): "48" may be a misread "4B"."""
_MEASURES: dict[str, SpeechMeasure] = {"srt": "srt", "sdt": "sdt", "mcl": "mcl", "ucl": "ucl"}


def read_speech(layout: Layout, sheet: Sheet) -> tuple[Speech, ...]:
    """Read every speech test that a page prints.

    Parameters
    ----------
    layout : Layout
        The page's lines.
    sheet : Sheet
        The page they stand on.

    Returns
    -------
    tuple of Speech
        In reading order.
    """
    found = [named for value in values(layout, _wanted) if _fits(layout, named := _named(layout, value))]
    owners = [value for value in found if value.meaning in THRESHOLDS | SCORES]
    attributes: dict[int, list[Value]] = {number: [] for number in range(len(owners))}
    for value in found:
        if value.meaning in ATTRIBUTES | {"list"}:
            for number in owners_of(layout, value, owners):
                attributes[number].append(value)
    told = {
        value.meaning for number, owner in enumerate(owners) if owner.meaning in SCORES for value in attributes[number]
    }
    owned = [
        Owner(
            owner,
            tuple(attributes[number]),
            something_unread(layout, owner, attributes[number], found, given=sheet.words_given)
            or lacks(layout, owner, attributes[number], told),
        )
        for number, owner in enumerate(owners)
    ]
    language = layout.language
    return without_rivals(
        tuple(_speech(layout, sheet, one, language, shared=_shares_ear(layout, one, owned)) for one in owned)
    )


def _shares_ear(layout: Layout, one: Owner, owned: Sequence[Owner]) -> bool:
    """Say whether a value has its ear from a name that another value of its kind has it from.

    The second one's own ear may have been misread then: it would be given to the wrong one.
    """
    ear = layout.ear(one.value.row, one.value.token)
    if ear is None:
        return False
    conditions = _conditions(layout, one, [])
    others = [other for other in owned if other is not one and _named_by(layout, other, ear.token)]
    alike = [
        other for other in others if other.value.meaning in THRESHOLDS and _conditions(layout, other, []) == conditions
    ]
    meanings = [other.value.meaning for other in (one, *alike) if other.value.meaning in THRESHOLDS]
    if len(meanings) != len(set(meanings)):
        return True
    scores = [other for other in others if other.value.meaning in SCORES and one.value.meaning in SCORES]
    named = {found.ear for other in owned if (found := layout.ear(other.value.row, other.value.token)) is not None}
    return bool(scores) and not {"right", "left"} <= named


def _named_by(layout: Layout, other: Owner, token: Token) -> bool:
    ear = layout.ear(other.value.row, other.value.token)
    return ear is not None and ear.token is token


def _wanted(token: Token) -> frozenset[str]:
    if token.kind == "word":
        return WANTED
    if token.meanings & {"yes", "no"}:
        return frozenset({"masking"}) | THRESHOLDS | SCORES
    if "absent" in token.meanings:
        return THRESHOLDS
    if token.kind != "number":
        return frozenset()
    if token.unit == "%":
        return SCORES
    return THRESHOLDS | SCORES | ATTRIBUTES | {"list"} if token.unit is None else THRESHOLDS | SCORES | LEVELLED


def _named(layout: Layout, value: Value) -> Value:
    """Let the head of a column, or the word behind a number, say what of a test it is."""
    if value.token.unit is None and follows(layout, value.row, value.token, frozenset({"words"})):
        return replace(value, meaning="words", doubts=())  # its own label stands behind it
    if _is_bracketed_masking(layout, value):
        return replace(value, meaning="masking", doubts=())
    if value.meaning == "level" and value.label.token.text.casefold() in PREPOSITIONS:
        return _obtained_at(layout, value)
    if value.token.unit in LEVELS and value.meaning in SCORES:
        return replace(value, meaning="level")
    if value.meaning in THRESHOLDS | SCORES:
        headed = named_by_head(layout, value, ATTRIBUTES | {"list", "score_of"})
        if headed.meaning == "score_of":
            return replace(value, unit=headed.unit or value.unit)
        return headed
    return value


def _is_bracketed_masking(layout: Layout, value: Value) -> bool:
    """Say whether a level stands in brackets with its own label behind it, as in "76 % at 85 dB HL (50 dB mask)"."""
    cell = layout.rows[value.row].cell(value.token.cell)
    at = cell.index(value.token)
    behind = [one for one in cell[at + 1 :] if one.kind != "unit"][:1]
    return (
        value.token.unit in (None, *LEVELS) and at > 0 and cell[at - 1].text in ("(", "[")
        and bool(behind) and "masking" in behind[0].meanings
    )  # fmt: skip


def _obtained_at(layout: Layout, value: Value) -> Value:
    """Take "the SRT was obtained at 25 dB" for the threshold, where no number stands between the two."""
    cell = layout.rows[value.row].cell(value.token.cell)
    for one in reversed(cell[: cell.index(value.token)]):
        if one.kind == "number" or one.meanings & SCORES:
            break
        if one.meanings & THRESHOLDS:
            label = Found(one, "beside", value.row)
            meaning = sorted(one.meanings & THRESHOLDS)[0]
            return replace(value, label=label, meaning=meaning, doubts=doubts_of(layout, value.row, value.token, label))
    return value


def _fits(layout: Layout, value: Value) -> bool:
    """Say whether a value may be what its label says: by its kind and its unit."""
    token, meaning = value.token, value.meaning
    if meaning == "list":
        return _begins_list(layout, value)
    if token.kind == "word" or layout.title(value.row, token) & {"dpoae", "teoae", "emissions", "reflexes"}:
        return False
    if token.meanings & {"yes", "no"}:
        return meaning == "masking"
    if "absent" in token.meanings:
        return meaning in ("srt", "sdt")
    if meaning == "level" and value.label.token.text.casefold() in PREPOSITIONS and not _directly(layout, value):
        return False
    if meaning in SCORES:
        return token.unit in (None, "%") and value.unit in (None, "%", "dB", "dB{HL}")
    if meaning == "words":
        return token.unit is None
    return token.unit not in ("%", "Hz", "kHz", "daPa", "mL", "mmho", "mm[H2O]")


def _directly(layout: Layout, value: Value) -> bool:
    """Say whether a label stands directly before its value, or above its column."""
    if value.label.how == "above":
        return value.label.aligned
    tokens = layout.rows[value.row].tokens
    return tokens.index(value.token) - tokens.index(value.label.token) == 1


def _begins_list(layout: Layout, value: Value) -> bool:
    tokens = layout.rows[value.row].cell(value.token.cell)
    at = tokens.index(value.token)
    return (
        value.token.unit is None
        and (at == 0 or tokens[at - 1].kind in ("label", "sign"))
        and (at < 2 or tokens[at - 1] is value.label.token or tokens[at - 2] is value.label.token)
    )


def _speech(layout: Layout, sheet: Sheet, one: Owner, language: str | None, *, shared: bool) -> Speech:
    value, token = one.value, one.value.token
    meaning = value.meaning
    why: list[str] = []
    ear = layout.ear(value.row, token)
    conditions = _conditions(layout, one, why)
    name: Ear = ear.ear if ear is not None else "both" if "field" in conditions else "unspecified"
    if shared or (ear is None and "field" not in conditions) or (ear is not None and ear.doubt):
        why.append("ear-uncertain")
    if value.loose or one.unread:
        why.append("label-uncertain")
    told = {a.meaning: a for a in one.attributes if a.token.value is not None or a.token.meanings & {"yes", "no"}}
    lists = [attribute for attribute in one.attributes if attribute.meaning == "list"]
    masking = told.get("masking")
    snr = told.get("noise_ratio")
    if "in_noise" in conditions and snr is None:
        why.append("conditions-unclear")
    if len({(a.meaning, a.token.value) for a in one.attributes}) != len({a.meaning for a in one.attributes}):
        why.append("two-readings")
    is_score = meaning in SCORES
    level = told.get("level") if is_score else value
    words = told.get("words")
    sign = sign_before(layout, value.row, token)
    heard = token.value is not None and sign not in BEYOND
    why += [code for one in (value, *one.attributes) for code in one.doubts]
    check_level(level, why, language)
    check_score(value if is_score else None, words, phonemes=meaning == "phonemes", why=why)
    check_snr(snr, why)
    if not heard:
        why.append("arrow-uncertain" if token.value is None else "two-readings")
    if sign in LIMITS:
        why.append("two-readings")
    named = [token for value in lists[:1] for token in list_tokens(layout, value)]
    if any((token.value or 0) > MOST_LIST for token in named):
        why.append("implausible")
    seen = [token, *(a.token for a in one.attributes), *named]
    evidence = judge(sheet, "speech", seen, why)
    measure = _MEASURES.get(meaning, "word-recognition")
    conduction: Conduction = "field" if "field" in conditions else "air"
    return Speech(
        name, measure, within(level, -100, 200), within(value if is_score else None, 0, 100), word_count(words),
        list_text(layout, lists[0]) if lists else None, meaning == "phonemes", conduction,
        masked="masked" in conditions or _says_masked(masking, conditions),
        aided="aided" in conditions, snr_db=snr.token.value if snr is not None else None, response=heard,
        standing=evidence.standing, why_ask=evidence.why_ask, probability=evidence.probability, box=evidence.box,
    )  # fmt: skip


def _says_masked(masking: Value | None, conditions: set[str]) -> bool:
    return masking is not None and "no" not in masking.token.meanings and "unmasked" not in conditions


def _conditions(layout: Layout, one: Owner, why: list[str]) -> set[str]:
    """Find how a test was done: with hearing aids, masked, in noise, by loudspeaker."""
    told: set[str] = set()
    value = one.value
    order = layout.rows[value.row].tokens.index
    parts = [value, *(a for a in one.attributes if a.row == value.row and order(a.token) > order(value.token))]
    behind = {m for part in parts for m in _said_behind(layout, part)}
    if all(token.well_read for part in parts for token in layout.rows[part.row].cell(part.token.cell)):
        behind.discard(UNKNOWN)  # words that were read well and say nothing of conditions
    for group in (*OPPOSITES, frozenset({"field"})):
        if behind & group:
            told |= behind & group
        elif (found := layout.find(value.row, value.token, group)) is not None and _holds(layout, value, found):
            told |= found.token.meanings & group
    starred = any(token.text == "*" for token in after(layout, value.row, value.token))
    star = layout.star() if starred else frozenset()
    told |= {"masked"} if star & {"masked", "masking"} else star & {"unmasked"}
    if any(group <= told for group in OPPOSITES) or UNKNOWN in behind:
        why.append("conditions-unclear")
    if any(_breaks_off(layout, part) for part in parts):
        why.append("conditions-unclear")
    if starred and not star & {"masked", "masking", "unmasked"}:
        why.append("masking-uncertain")
    return told


def _said_behind(layout: Layout, value: Value) -> set[str]:
    """Give what is said behind a value, before the next test or ear is named."""
    said: set[str] = set()
    last = list_tokens(layout, value)[-1] if value.meaning == "list" else value.token
    for one in after(layout, value.row, last):
        if one.meanings & NAMES:
            break
        said |= one.meanings
        if one.kind == "word" and len(one.text) > 2 and not one.well_read:
            said.add(UNKNOWN)
    return said


def _breaks_off(layout: Layout, value: Value) -> bool:
    """Say whether a line ends in a comma behind a value and the next one begins anew: the rest is cut off or unread."""
    tokens = layout.rows[value.row].tokens
    for at in range(tokens.index(value.token) + 1, len(tokens)):
        if tokens[at].text == ",":
            later = tokens[at + 1] if at + 1 < len(tokens) else None
            return later is None or (bool(later.meanings & NAMES) and later.box[1] > tokens[at].box[3])
        if tokens[at].kind == "number":
            return False
    return False


def _holds(layout: Layout, value: Value, condition: Found) -> bool:
    """Say whether a condition named before a value is its own: in one text, no other number stands between them."""
    if condition.row != value.row or condition.token.cell != value.token.cell:
        return condition.aligned and condition.how != "line"
    tokens = layout.rows[value.row].tokens
    at = tokens.index(condition.token)
    between = tokens[at + 1 : tokens.index(value.token)]
    if any(one.kind == "number" for one in between):
        return False
    ends_last = any(one.kind == "number" for one in tokens[:at]) and tokens[at - 1].text not in (";", ".")
    return not (ends_last and any(one.meanings & NAMES for one in between))
