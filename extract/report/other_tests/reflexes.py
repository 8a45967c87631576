"""Acoustic reflexes: the level or the absence of each, by the ear that heard the sound and the ear measured."""

from __future__ import annotations

from dataclasses import dataclass, replace

from ....interpret.record import Immittance, Reflex, Side
from ...sheet import Sheet
from ..layout.context import Found, Layout
from ..layout.frequencies import Named, frequencies, frequency_of
from ..layout.tokens import Token
from ..layout.values import BEYOND, LIMITS, sign_before, unit_of
from ..layout.wording.doubts import doubts_of
from .evidence import Evidence, judge

PATHS = frozenset({"ipsi", "contra"})
ROLES = frozenset({"stimulus", "probe_ear"})
WANTED = PATHS | {"decay"}
LEVELS = frozenset({"dB{HL}", "dB"})
LEAST_DB, MOST_DB = 50.0, 125.0
"""Reflex thresholds stand at 70 to 100 dB HL in normal ears and instruments give 120 dB at most (common practice)."""
STEP_DB = 1.0
USUAL_STEP_DB, FEW_ODD = 5.0, 3
"""Most instruments step by 5 dB, some by 1 or 2 (common practice); one level in so many between steps was misread."""
STIMULI_HZ = frozenset({250.0, 500.0, 1000.0, 2000.0, 3000.0, 4000.0})
"""Tones at which reflexes are sought (common practice); 226 Hz, say, is the probe's."""
NOT_HEARD = BEYOND | {"+"}
"""Signs of a reflex that is beyond what the instrument gives."""
OTHER: dict[Side, Side] = {"right": "left", "left": "right"}


@dataclass(frozen=True, slots=True)
class _Way:
    """From which ear's sound to which ear's measurement a reflex goes."""

    probe: Side
    stimulus: Side
    why: tuple[str, ...]


def read_reflexes(layout: Layout, sheet: Sheet) -> tuple[Immittance, ...]:
    """Read the acoustic reflexes that a page prints.

    Parameters
    ----------
    layout : Layout
        The page's lines.
    sheet : Sheet
        The page they stand on.

    Returns
    -------
    tuple of Immittance
        One for each ear that was measured, the right one first, without a tympanogram. Where a contralateral reflex is
        named by one ear alone, that is taken for the measured one and the value asks: clinics differ.
    """
    named = frequencies(layout)
    found: list[tuple[Side, Reflex]] = []
    seen: dict[Side, list[Token]] = {"right": [], "left": []}
    for number, row in enumerate(layout.rows):
        for token in row.tokens:
            one = _reflex(layout, sheet, named, number, token)
            if one is not None:
                found.append(one)
                seen[one[0]].append(token)
    found = _in_steps(found)
    kinds = [(probe, reflex.stimulus_ear, reflex.frequency_hz) for probe, reflex in found]
    found = [
        (probe, _twice(reflex) if kinds.count(kind) > 1 else reflex)
        for (probe, reflex), kind in zip(found, kinds, strict=True)
    ]
    return tuple(
        _immittance(sheet, ear, tuple(reflex for probe, reflex in found if probe == ear), seen[ear])
        for ear in seen
        if seen[ear]
    )


def reflexes_unread(layout: Layout) -> bool:
    """Say whether a reflex stands on the page whose frequency or ear was not read."""
    named = frequencies(layout)
    for number, row in enumerate(layout.rows):
        for token in row.tokens:
            label = layout.find(number, token, WANTED) if _may_be_reflex(token) and token.kind == "number" else None
            if label is None or not label.token.meanings & PATHS or _of_other_test(layout, number, token):
                continue
            known = _frequency(layout, named, number, token), _way(layout, number, token, label)
            if None in known and not any(one.token is token for one in named.get(number, ())):
                return True
    return False


def _in_steps(found: list[tuple[Side, Reflex]]) -> list[tuple[Side, Reflex]]:
    """Let a level ask that alone is no multiple of 5 dB: the others show the instrument's step."""
    odd = [(side, one) for side, one in found if one.level_db_hl is not None and one.level_db_hl % USUAL_STEP_DB]
    levels = sum(one.level_db_hl is not None for _, one in found)
    if len(odd) * FEW_ODD > levels:
        return found
    doubted = {id(one) for _, one in odd}
    return [(side, _doubted(one, "implausible") if id(one) in doubted else one) for side, one in found]


def _twice(reflex: Reflex) -> Reflex:
    """Let a reflex ask that the page seems to state twice."""
    return _doubted(reflex, "two-readings")


def _doubted(reflex: Reflex, code: str) -> Reflex:
    return replace(reflex, standing="ask", why_ask=tuple(dict.fromkeys((*reflex.why_ask, code))))


def _reflex(
    layout: Layout, sheet: Sheet, named: dict[int, tuple[Named, ...]], row: int, token: Token
) -> tuple[Side, Reflex] | None:
    if not _may_be_reflex(token) or any(one.token is token for one in named.get(row, ())):
        return None
    label = layout.find(row, token, WANTED)
    if label is None or not label.token.meanings & PATHS or _of_other_test(layout, row, token):
        return None
    hz, way = _frequency(layout, named, row, token), _way(layout, row, token, label)
    if hz is None or way is None:
        return None
    why, level = list(way.why), token.value
    sign = sign_before(layout, row, token)
    heard = level is not None and sign not in NOT_HEARD
    why += doubts_of(layout, row, token, label)
    if sign in LIMITS:
        why.append("two-readings")
    if not label.aligned:
        why.append("label-uncertain")
    if level is not None:
        unit = unit_of(layout, row, token, label) or _unit_of_table(layout, row, token)
        if unit is None:
            why.append("unit-missing")
        elif unit not in LEVELS:
            why.append("unit-differs")
        if not LEAST_DB <= level <= MOST_DB or level % STEP_DB:
            why.append("implausible")
    if hz.hz is not None and hz.hz not in STIMULI_HZ:
        why.append("implausible")
    if token.kind == "dash" or "not_tested" in token.meanings:
        why.append("dash-unclear")
    tone = () if hz.token is None else (hz.token,)
    evidence = judge(sheet, "reflex", [token, *tone], why, tone)
    return way.probe, Reflex(
        way.stimulus, hz.hz, level, heard, None, evidence.standing, evidence.why_ask, evidence.probability,
        judge(sheet, "reflex", [token], ()).box,
    )  # fmt: skip


@dataclass(frozen=True, slots=True)
class _Sound:
    """A tone's frequency, None for broadband noise, and where the page names it."""

    hz: float | None
    token: Token | None


def _frequency(layout: Layout, named: dict[int, tuple[Named, ...]], row: int, token: Token) -> _Sound | None:
    found = frequency_of(layout, named, row, token)
    noise = layout.find(row, token, frozenset({"broadband"}))
    if noise is not None and (noise.how == "above" or found is None or found.token.box[0] < noise.token.box[0]):
        return _Sound(None, noise.token)
    title = layout.title_tokens(row, token)
    if found is None or (title and found.token.box[3] <= min(one.box[1] for one in title)):
        return None  # a frequency above the title belongs to another test
    return _Sound(found.hz, found.token)


def _may_be_reflex(token: Token) -> bool:
    if token.kind == "number":
        return token.unit in (None, "dB", "dB{HL}", "dB{SPL}") and token.decimals == 0
    return token.kind == "dash" or "absent" in token.meanings


def _of_other_test(layout: Layout, row: int, token: Token) -> bool:
    """Say whether a value stands under another test's title: masking is contralateral, too."""
    title = layout.title(row, token)
    return bool(title) and "reflexes" not in title and "tympanometry" not in title


def _unit_of_table(layout: Layout, row: int, token: Token) -> str | None:
    """Give the unit that a table's title or the first cell of its head names."""
    units = [one.unit for one in layout.title_tokens(row, token) if one.kind == "unit"]
    for number in range(row - 1, max(row - 10, -1), -1):
        units += [one.unit for one in layout.rows[number].tokens[:2] if one.kind == "unit" and one.unit in LEVELS]
    return units[0] if units else None


def _way(layout: Layout, row: int, token: Token, label: Found) -> _Way | None:
    """Find which ear heard the sound and which one was measured."""
    path = "ipsi" if "ipsi" in label.token.meanings else "contra"
    ears = _ears(layout, row, token)
    plain, stimulus, probe = ears.get("plain"), ears.get("stimulus"), ears.get("probe_ear")
    if stimulus is not None and probe is not None:
        agrees = (stimulus == probe) == (path == "ipsi")
        return _Way(probe, stimulus, () if agrees else ("ear-uncertain",))
    if probe is not None:
        return _Way(probe, probe if path == "ipsi" else OTHER[probe], ())
    if stimulus is not None:
        return _Way(stimulus if path == "ipsi" else OTHER[stimulus], stimulus, ())
    if plain is None:
        return None
    doubt = ("ear-uncertain",) if ears.get("doubt") else ()
    if path == "ipsi":
        return _Way(plain, plain, doubt)
    return _Way(plain, OTHER[plain], (*doubt, "stimulus-ear-unnamed"))


def _ears(layout: Layout, row: int, token: Token) -> dict[str, Side]:
    """Give the ears named for a value: by what each of them is said to be, "plain" where nothing is said."""
    found: dict[str, Side] = {}
    first = layout.ear(row, token)
    if first is not None and first.ear != "both":
        role = _role(layout, first.row, first.token)
        found[role] = first.ear
        if first.doubt:
            found["doubt"] = first.ear
    for other in layout.labels(row, token):
        side = _side(other.token)
        if side is not None and (first is None or other.token is not first.token):
            role = _role(layout, other.row, other.token)
            if role != "plain":
                found.setdefault(role, side)
    if "stimulus" in found and "probe_ear" in found:
        found.pop("doubt", None)
    return found


def _side(token: Token) -> Side | None:
    if token.kind != "label":
        return None
    return "right" if "right" in token.meanings else "left" if "left" in token.meanings else None


def _role(layout: Layout, row: int, ear: Token) -> str:
    """Say whether an ear's name is said to be of the stimulated or of the measured ear."""
    cell = layout.rows[row].cell(ear.cell)
    at = cell.index(ear)
    for one in (*reversed(cell[:at]), *cell[at + 1 :]):
        if one.meanings & ROLES:
            return sorted(one.meanings & ROLES)[0]
        if _side(one) is not None:
            break
    found = layout.find(row, ear, ROLES)
    if found is not None:
        return sorted(found.token.meanings & ROLES)[0]
    said = [m for one in layout.title_tokens(row, ear) for m in one.meanings if m in ROLES]
    return said[0] if len(said) == 1 else "plain"


def _immittance(sheet: Sheet, ear: Side, reflexes: tuple[Reflex, ...], tokens: list[Token]) -> Immittance:
    asks = all(reflex.standing == "ask" for reflex in reflexes)
    why = tuple(dict.fromkeys(code for reflex in reflexes for code in reflex.why_ask)) if asks else ()
    whole: Evidence = judge(sheet, "reflex", tokens, why)
    least = min(reflex.probability for reflex in reflexes)
    return Immittance(ear, None, reflexes, "ask" if asks else "sure", why, least, whole.box)
