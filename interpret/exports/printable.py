"""Text that a terminal can be given."""

from __future__ import annotations

from dataclasses import replace

from ..record import Audiogram, Immittance, PageRecord


def printable(record: PageRecord, *, ascii_only: bool = False) -> PageRecord:
    """Give the same record with every letter that cannot be printed written as its escape.

    Parameters
    ----------
    record : PageRecord
        Any record; a name from a file or a word of the page could else steer the terminal.
    ascii_only : bool
        Write everything beyond ASCII as its escape, too.

    Notes
    -----
    Patients' names and birth dates, and findings, are not meant for a terminal and stay as they are.
    """

    def safe(text: str) -> str:
        return printable_text(text, ascii_only=ascii_only)

    def maybe(text: str | None) -> str | None:
        return None if text is None else safe(text)

    def immittance(one: Immittance) -> Immittance:
        trace = one.tympanogram
        return (
            one if trace is None else replace(one, tympanogram=replace(trace, printed_type=maybe(trace.printed_type)))
        )

    def audiogram(one: Audiogram) -> Audiogram:
        values = tuple(replace(t, why_ask=tuple(map(safe, t.why_ask))) for t in one.thresholds)
        return replace(
            one,
            tested_on=maybe(one.tested_on),
            symbol_set=maybe(one.symbol_set),
            thresholds=values,
            speech=tuple(replace(speech, word_list=maybe(speech.word_list)) for speech in one.speech),
            immittance=tuple(map(immittance, one.immittance)),
        )

    about = replace(
        record.report,
        transducer=maybe(record.report.transducer),
        reliability=maybe(record.report.reliability),
        facts=tuple(
            replace(fact, value=safe(fact.value), written=safe(fact.written), why_ask=tuple(map(safe, fact.why_ask)))
            for fact in record.report.facts
        ),
    )
    return replace(
        record,
        source=replace(record.source, name=safe(record.source.name)),
        audiograms=tuple(map(audiogram, record.audiograms)),
        report=about,
        remarks=tuple(replace(remark, text=safe(remark.text)) for remark in record.remarks),
    )


def printable_text(text: str, *, ascii_only: bool = False) -> str:
    """Give a text with every letter that cannot be printed written as its escape; as ``printable``."""
    return "".join(c if c.isprintable() and (c.isascii() or not ascii_only) else ascii(c)[1:-1] for c in text)
