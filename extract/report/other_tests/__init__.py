"""The tests beside the thresholds, read from a page's words: speech, middle ear, emissions, printed averages."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from ....interpret.record import Audiogram, Immittance, OtoacousticEmission, PrintedAverage, Speech
from ...sheet import Sheet
from ..layout.context import Layout
from ..layout.latin import with_types_told
from ..layout.rows import ready
from ..layout.tokens import rows_of
from ..lines import Line
from .averages import read_averages
from .curve import read_curves
from .emissions import read_emissions
from .reflexes import read_reflexes, reflexes_unread
from .speech import read_speech
from .tympanometry import read_tympanometry


@dataclass(frozen=True, slots=True)
class OtherTests:
    """What a page says of the tests beside the thresholds; each value with its standing and place."""

    speech: tuple[Speech, ...] = ()
    immittance: tuple[Immittance, ...] = ()
    otoacoustic: tuple[OtoacousticEmission, ...] = ()
    printed_averages: tuple[PrintedAverage, ...] = ()
    unread: bool = False
    """A part of the page names such a test and holds numbers, and none of it was read, or not all."""

    def __bool__(self) -> bool:
        return bool(self.speech or self.immittance or self.otoacoustic or self.printed_averages)

    def into(self, audiograms: tuple[Audiogram, ...]) -> tuple[Audiogram, ...]:
        """Give the page's audiograms with these tests: in the first, or in one of its own where there is none.

        On a page of several test dates every value asks which date it is of.
        """
        if not self:
            return audiograms
        first, *others = audiograms or (Audiogram(),)
        tests = self._of_unknown_date() if others else self
        filled = replace(
            first,
            speech=tests.speech,
            immittance=tests.immittance,
            otoacoustic=tests.otoacoustic,
            printed_averages=tests.printed_averages,
        )
        return (filled, *others)

    def _of_unknown_date(self) -> OtherTests:
        return OtherTests(
            tuple(replace(one, standing="ask", why_ask=_dated(one.why_ask)) for one in self.speech),
            tuple(replace(one, standing="ask", why_ask=_dated(one.why_ask)) for one in self.immittance),
            tuple(replace(one, standing="ask", why_ask=_dated(one.why_ask)) for one in self.otoacoustic),
            tuple(replace(one, standing="ask", why_ask=_dated(one.why_ask)) for one in self.printed_averages),
        )


def all_sure(audiogram: Audiogram) -> bool:
    """Say whether nothing that was read of the other tests asks."""
    return all(
        one.standing == "sure"
        for one in (
            *audiogram.speech,
            *audiogram.immittance,
            *(reflex for one in audiogram.immittance for reflex in one.reflexes),
            *audiogram.otoacoustic,
            *audiogram.printed_averages,
        )
    )


def _dated(why: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(dict.fromkeys((*why, "test-date-uncertain")))


def read_other_tests(lines: Sequence[Line], sheet: Sheet) -> OtherTests:
    """Read the tests beside the thresholds.

    Parameters
    ----------
    lines : sequence of Line
        The page's lines outside its charts, from the top.
    sheet : Sheet
        The page they stand on.

    Returns
    -------
    OtherTests
        Nothing that the page doesn't state: a value whose ear or frequency is not named is left out.
    """
    layout = with_types_told(Layout(ready(rows_of(lines))))
    speech, emissions = read_speech(layout, sheet), read_emissions(layout, sheet)
    traces, reflexes = read_tympanometry(layout, sheet), read_reflexes(layout, sheet)
    traces = (*traces, *read_curves(layout, sheet, [one.ear for one in traces]))
    parts = {"speech": speech, "tympanometry": traces, "reflexes": reflexes, "emissions": emissions}
    silent = frozenset(part for part, found in parts.items() if not found)
    return OtherTests(
        speech,
        _joined(traces, reflexes),
        emissions,
        read_averages(layout, sheet),
        unread=_unread(layout, silent) or reflexes_unread(layout),
    )


def _unread(layout: Layout, silent: frozenset[str]) -> bool:
    """Say whether numbers stand under the title of a test of which nothing was read."""
    wanted = silent | (frozenset({"dpoae", "teoae"}) if "emissions" in silent else frozenset())
    return any(
        token.kind == "number"
        and layout.title(number, token) & wanted
        and layout.rows[number].tokens[0].kind == "label"
        for number, row in enumerate(layout.rows)
        for token in row.tokens
    )


def _joined(traces: tuple[Immittance, ...], reflexes: tuple[Immittance, ...]) -> tuple[Immittance, ...]:
    """Put the tympanogram and the reflexes of an ear together; the tympanogram has its own standing."""
    found: list[Immittance] = []
    for ear in ("right", "left"):
        trace = next((one for one in traces if one.ear == ear), None)
        reflex = next((one for one in reflexes if one.ear == ear), None)
        if trace is not None and reflex is not None and trace.box is not None and reflex.box is not None:
            one, other = trace.box, reflex.box
            box = (min(one[0], other[0]), min(one[1], other[1]), max(one[2], other[2]), max(one[3], other[3]))
            found.append(replace(trace, reflexes=reflex.reflexes, box=box))
        elif trace is not None or reflex is not None:
            found += [one for one in (trace, reflex) if one is not None]
    return tuple(found)
