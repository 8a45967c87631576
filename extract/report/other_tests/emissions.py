"""Otoacoustic emissions: levels, noise, their ratio and the printed result of each band."""

from __future__ import annotations

from dataclasses import dataclass

from ....interpret.record import EmissionBand, EmissionMethod, EmissionResult, OtoacousticEmission, Side
from ...sheet import Sheet
from ..layout.context import Found, Layout
from ..layout.frequencies import Named, frequencies, frequency_of
from ..layout.tokens import Token
from ..layout.values import unit_of
from ..layout.wording.doubts import doubts_of
from .evidence import judge

METHODS = frozenset({"dpoae", "teoae"})
NUMBERS = frozenset({"amplitude", "level", "noise", "noise_ratio", "frequency"})
UNREAD = "unread"
"""What a number in a band's line is whose head says nothing known."""
RESULTS = frozenset({"pass", "refer"})
LETTERS = {"P": "pass", "R": "refer", "F": "refer"}
"""Results as one letter in a column of results (common practice): passed, referred, failed."""
LEAST_DB, MOST_DB = -40.0, 60.0
"""Emissions and their noise stand between these, dB SPL, and so does their ratio, dB (common practice)."""
ROUNDING_DB = 0.15
"""How far a printed ratio may be from level less noise: each is printed to a tenth at best, and rounded by itself."""
WHOLE_DB = 1.0
"""The same where numbers are printed without decimals."""
UNITS = {"amplitude": ("dB{SPL}", "dB"), "noise": ("dB{SPL}", "dB"), "noise_ratio": ("dB",)}


@dataclass(frozen=True, slots=True)
class _Item:
    """One value of a band, or of the whole measurement where ``hz`` is None."""

    method: EmissionMethod
    ear: Side
    what: str
    hz: float | None
    number: float | None
    token: Token
    why: tuple[str, ...]


def read_emissions(layout: Layout, sheet: Sheet) -> tuple[OtoacousticEmission, ...]:
    """Read the otoacoustic emissions that a page prints.

    Parameters
    ----------
    layout : Layout
        The page's lines.
    sheet : Sheet
        The page they stand on.

    Returns
    -------
    tuple of OtoacousticEmission
        One for each method and ear, in page order. Where the page doesn't say which method, nothing is read.
    """
    named = frequencies(layout)
    items = [
        item
        for number, row in enumerate(layout.rows)
        for token in row.tokens
        if (item := _item(layout, named, number, token)) is not None
    ]
    kinds = dict.fromkeys((item.method, item.ear) for item in items)
    lost = {
        _method(layout, number, token)
        for number, named_here in named.items()
        for token in layout.rows[number].tokens
        if _is_of_no_ear(layout, number, token, named_here)
    }
    return tuple(
        _emission(sheet, [i for i in items if (i.method, i.ear) == kind], lost=kind[0] in lost) for kind in kinds
    )


def _is_of_no_ear(layout: Layout, row: int, token: Token, named: tuple[Named, ...]) -> bool:
    """Say whether a number stands behind a band's frequency, and nothing tells its ear: some ear's bands are lost."""
    band = named[0].token if len(named) == 1 else token
    behind = token.kind == "number" and token is not band and band.box[0] < token.box[0]
    return behind and layout.ear(row, token) is None


def _item(layout: Layout, named: dict[int, tuple[Named, ...]], row: int, token: Token) -> _Item | None:
    named_by = layout.rows[row].tokens[0] if token.text in LETTERS else token  # an R in a column of results is no ear
    method, ear = _method(layout, row, named_by), layout.ear(row, named_by)
    if method is None or ear is None or ear.ear == "both" or any(one.token is token for one in named.get(row, ())):
        return None
    why = ("ear-uncertain",) if ear.doubt else ()
    hz = frequency_of(layout, named, row, token)
    if hz is not None and hz.token.box[3] < _title_bottom(layout, row, token):
        hz = None
    owner = (method, ear.ear)
    head = _result_head(layout, row, token)
    if token.meanings & RESULTS and token.kind == "label":
        whole = head is not None and head.row in named  # a column behind those of the bands
        return _result(layout, row, token, hz, owner, why, whole=whole)
    if hz is None:
        return None
    if token.text in LETTERS:
        return _Item(*owner, LETTERS[token.text], hz.hz, None, token, why) if head is not None else None
    if token.kind != "number" or token.unit not in (None, "dB", "dB{SPL}"):
        return None
    return _number(layout, row, token, hz, owner, why, in_band=any(one.token is hz.token for one in named.get(row, ())))


def _result(
    layout: Layout, row: int, token: Token, hz: Named | None, owner: tuple[EmissionMethod, Side], why: tuple[str, ...],
    *, whole: bool,
) -> _Item | None:  # fmt: skip
    """Give a printed result: a band's, or that of the whole measurement."""
    clear = len(token.meanings & RESULTS) == 1 and not token.meanings & {"present", "absent"}
    what = "pass" if "pass" in token.meanings else "refer"
    line = layout.find(row, token, frozenset({"result", "frequency"} | NUMBERS))
    named_here = any(one.meanings & {"result", "dpoae", "teoae", "emissions"} for one in layout.rows[row].tokens)
    if hz is None and not (named_here or whole):  # a band whose frequency was not read
        return None
    overall = hz is None or (line is not None and line.how != "above" and "result" in line.token.meanings)
    codes = (*why, *(() if clear else ("two-readings",)))
    return _Item(*owner, what, None if overall else hz.hz if hz else None, None, token, codes)


def _number(
    layout: Layout, row: int, token: Token, hz: Named, owner: tuple[EmissionMethod, Side], why: tuple[str, ...],
    *, in_band: bool,
) -> _Item | None:  # fmt: skip
    """Give a number of a band with what its label, its head or its title says that it is."""
    label = layout.find(row, token, NUMBERS | {"primaries"})
    if label is not None and "primaries" in label.token.meanings:  # what the ear was given, not what it answered
        return None
    what = next(iter(sorted(label.token.meanings & (NUMBERS - {"frequency"}))), None) if label is not None else None
    if label is None or what is None:
        titled = {m for one in layout.title_tokens(row, token) for m in one.meanings} & (NUMBERS - {"frequency"})
        if len(titled) != 1:
            told = in_band or any(one.meanings & NUMBERS for one in layout.rows[row].tokens)
            return _Item(*owner, UNREAD, hz.hz, token.value, token, ("label-uncertain",)) if told else None
        what = titled.pop()
    elif not label.aligned:
        why = (*why, "label-uncertain")
    why = (*why, *doubts_of(layout, row, token, label))
    named_here = label is not None and what in label.token.meanings
    unit = unit_of(layout, row, token, label) if label is not None and named_here else token.unit
    what = "amplitude" if what == "level" else what
    if unit not in (None, *UNITS[what]):
        why = (*why, "unit-differs")
    if not LEAST_DB <= (token.value or 0.0) <= MOST_DB:
        why = (*why, "implausible")
    return _Item(*owner, what, hz.hz, token.value, token, why)


def _result_head(layout: Layout, row: int, token: Token) -> Found | None:
    """Give the head of the column of results that a token stands in; None where it stands in none."""
    head = next(layout.above(row, token), None)
    return head if head is not None and head.aligned and "result" in head.token.meanings else None


def _method(layout: Layout, row: int, token: Token) -> EmissionMethod | None:
    """Find the method that the nearest title names, or the line itself."""
    title = layout.title(row, token)
    if not title & (METHODS | {"emissions"}):
        return None
    told = title & METHODS
    if not told:
        found = layout.find(row, token, METHODS)
        told = found.token.meanings & METHODS if found is not None else frozenset()
    if len(told) != 1:
        return None
    return "dpoae" if "dpoae" in told else "teoae"


def _title_bottom(layout: Layout, row: int, token: Token) -> float:
    """Give where the value's title ends: frequencies above it belong to something else."""
    title = layout.title_tokens(row, token)
    own = layout.rows[row].cell(token.cell)
    text = own if any(one is word for one in title for word in own) else title  # a text's lines are not a table's
    return max((one.box[1] for one in text), default=0.0)


def _emission(sheet: Sheet, items: list[_Item], *, lost: bool) -> OtoacousticEmission:
    why = [*(code for item in items for code in item.why), *(["label-uncertain"] if lost else [])]
    bands: dict[float, dict[str, float | None]] = {}
    overall: list[EmissionResult] = []
    for item in items:
        if item.what == UNREAD:
            continue
        if item.hz is None:
            overall.append("pass" if item.what == "pass" else "refer")
            continue
        band = bands.setdefault(item.hz, {})
        key = "result" if item.what in RESULTS else item.what
        number = item.number if item.what not in RESULTS else float(item.what == "pass")
        if band.setdefault(key, number) != number:
            why.append("two-readings")
    decimals = min((item.token.decimals for item in items if item.number is not None), default=0)
    borne_out: set[float] = set()
    for hz, band in bands.items():
        level, noise, ratio = band.get("amplitude"), band.get("noise"), band.get("noise_ratio")
        if level is None or noise is None or ratio is None:
            continue
        signed = _signed(level, noise, ratio, ROUNDING_DB if decimals else WHOLE_DB, given=sheet.words_given)
        if signed is None:
            why.append("numbers-differ")
        else:
            band |= {"amplitude": signed[0], "noise": signed[1], "noise_ratio": signed[2]}
            borne_out.add(hz)
    if len(set(overall)) > 1:
        why.append("two-readings")
    checked = [item.token for item in items if item.hz in borne_out]
    evidence = judge(sheet, "emission", [item.token for item in items], why, checked)
    return OtoacousticEmission(
        items[0].ear, items[0].method, tuple(_band(hz, bands[hz]) for hz in sorted(bands)),
        overall[0] if overall else None, evidence.standing, evidence.why_ask, evidence.probability, evidence.box,
    )  # fmt: skip


def _signed(level: float, noise: float, ratio: float, spare: float, *, given: bool) -> tuple[float, ...] | None:
    """Give level, noise and ratio so that they agree; None where they do not, nor with one minus lost or made.

    What was read from a picture may have lost a minus: where one sign alone makes all three agree, it is that one.
    """
    read = (level, noise, ratio)
    if abs(level - noise - ratio) <= spare:
        return read
    flipped = [tuple(-x if i == at else x for i, x in enumerate(read)) for at in range(3)]
    fitting = [one for one in flipped if abs(one[0] - one[1] - one[2]) <= spare]
    return fitting[0] if len(fitting) == 1 and not given else None


def _band(hz: float, told: dict[str, float | None]) -> EmissionBand:
    result: EmissionResult | None = None
    if "result" in told:
        result = "pass" if told["result"] else "refer"
    return EmissionBand(hz, told.get("amplitude"), told.get("noise"), told.get("noise_ratio"), result)
