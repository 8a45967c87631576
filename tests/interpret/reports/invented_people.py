"""Pages of invented people, by what they say of their patient."""

from __future__ import annotations

from octavo.interpret.record import Audiogram, Fact, FactName, PageRecord, Report, Source, Standing, Threshold

VALUE = Threshold("right", "air", False, 1000, 30, standing="sure", probability=0.9999)


def fact(name: FactName, value: str, standing: Standing = "sure") -> Fact:
    return Fact(name, value, value, (0.1, 0.1, 0.3, 0.12), 0.9995, standing)


def page(
    number: int,
    *facts: Fact,
    name: str | None = None,
    record: str | None = None,
    born: str | None = None,
    tested_on: tuple[str | None, ...] = (None,),
    of: str | None = None,
    pages: int = 4,
) -> PageRecord:
    """One page with an audiogram for each date given."""
    told: tuple[tuple[FactName, str | None], ...] = (
        ("patient-name", name), ("record-number", record), ("birth-date", born), ("page-number", of),
    )  # fmt: skip
    about = tuple(fact(which, value) for which, value in told if value)
    source = Source("pile.pdf", "5e" * 32, number, pages, "scan")
    audiograms = tuple(Audiogram(tested_on=date, thresholds=(VALUE,)) for date in tested_on)
    return PageRecord(source, "sure", audiograms, Report(name, born, facts=(*about, *facts)))
