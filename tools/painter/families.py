"""The families of painted pages, by name: which layout, for which split, and what is special in it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal

import numpy as np

from .forms import bench, bench_odd, bench_several, training
from .forms.penned import medley as pen_medley
from .forms.penned import tables as pen_tables
from .forms.penned import training as penned
from .forms.penned.bench import PENNED_BENCH
from .forms.tables import bench as tables_bench
from .forms.tables import training as tables
from .other import OTHER_FAMILIES
from .report.pages import FACT_FAMILIES, FACT_PEN_FAMILIES
from .sheet import Sheet
from .wild import pages as wild

Draw = Callable[[np.random.Generator, bool], Sheet]
"""Draws one page from a generator; the flag asks for a page in black and grey alone."""


@dataclass(frozen=True, slots=True)
class Family:
    """A layout family; one used for the benchmark is never used for training.

    ``tags`` may hold "odd" (axes out of the ordinary), "several" (two or more charts or dates), "key" (a printed key
    of symbols, on most pages), "none" (no thresholds on the page), "blank" (an empty form), "mono" (never any colour),
    "wild" (any mixture of marks, for training to see them; no symbol set gives its values).

    Of forms filled in by hand, those for training have "by-hand"; the benchmark's with a chart have "pen" and either
    "two-pens" (red for the right ear, blue for the left) or "one-pen"; "pen-table" is a printed table with thresholds
    as digits by hand, and "table" says that the page has no chart beside it. "printed-table" is a table of printed
    thresholds, alone or ("checked") beside the chart that shows them.

    "facts" are pages whose truth holds every fact and other test that they print (``ToldPage``); of these, "chartless"
    ones hold no thresholds. "facts-pen" are the same with the facts filled in by hand.
    """

    name: str
    split: Literal["train", "bench"]
    tags: frozenset[str]
    summary: str
    draw: Draw


def _family(name: str, split: Literal["train", "bench"], draw: Draw, *tags: str) -> Family:
    summary = (draw.__doc__ or "").splitlines()[0]
    return Family(name, split, frozenset(tags), summary, draw)


FAMILIES: dict[str, Family] = {
    family.name: family
    for family in (
        _family("single", "train", training.single),
        _family("keyed", "train", training.keyed, "key"),
        _family("beside", "train", training.beside, "several"),
        _family("stacked", "train", training.stacked, "several"),
        _family("dates", "train", training.dates, "several"),
        _family("report", "train", training.report),
        _family("small", "train", training.small),
        _family("wide", "train", training.wide, "key"),
        _family("uneven", "train", training.uneven, "odd"),
        _family("one-ear", "train", training.one_ear),
        _family("strip", "train", training.strip, "several"),
        _family("penned", "train", penned.penned, "by-hand"),
        _family("jotted", "train", penned.jotted, "by-hand"),
        _family("filled-in", "train", penned.filled_in, "by-hand"),
        _family("pen-notes", "train", penned.pen_notes, "by-hand"),
        _family("pen-card", "train", penned.pen_card, "by-hand"),
        _family("pen-medley", "train", pen_medley.pen_medley, "wild", "by-hand"),
        _family("pen-dates", "train", penned.pen_dates, "by-hand"),
        _family("figure", "train", wild.figure, "wild"),
        _family("crowded", "train", wild.crowded, "wild"),
        _family("lettered", "train", wild.lettered, "wild"),
        _family("saved", "train", wild.saved, "wild"),
        _family("mingled", "train", wild.mingled, "wild"),
        _family("overlaid", "train", wild.overlaid, "wild"),
        _family("noted", "train", wild.noted, "wild"),
        _family("tiny", "train", wild.tiny, "wild"),
        _family("harbour", "bench", bench.harbour, "key"),
        _family("quay", "bench", bench_several.quay, "several"),
        _family("lantern", "bench", bench.lantern, "key"),
        _family("mole", "bench", bench.mole, "mono"),
        _family("ledger", "bench", bench_several.ledger, "several"),
        _family("pier", "bench", bench_several.pier, "several"),
        _family("buoy", "bench", bench.buoy, "key"),
        _family("cove", "bench", bench.cove),
        _family("ferry", "bench", bench.ferry),
        _family("tide", "bench", bench_odd.tide, "odd"),
        _family("reef", "bench", bench_odd.reef, "odd"),
        _family("kelp", "bench", bench_odd.kelp, "odd", "key"),
        _family("spar", "bench", bench_odd.spar, "odd"),
        _family("plotted", "bench", bench_odd.plotted),
        _family("twin", "bench", bench_odd.twin, "odd", "several", "key"),
        _family("pen-table", "train", pen_tables.pen_table, "pen-table"),
        _family("pen-register", "train", pen_tables.pen_register, "pen-table", "table"),
        _family("register", "bench", pen_tables.register, "pen-table", "table"),
        _family("tally", "bench", pen_tables.tally, "pen-table", "table"),
        _family("berth", "bench", pen_tables.berth, "pen-table"),
        _family("table-page", "train", tables.table_page, "printed-table", "table"),
        _family("table-pair", "train", tables.table_pair, "printed-table", "table"),
        _family("table-chart", "train", tables.table_chart, "printed-table", "checked"),
        _family("manifest", "bench", tables_bench.manifest, "printed-table", "table"),
        _family("capstan", "bench", tables_bench.capstan, "printed-table", "table"),
        _family("fender", "bench", tables_bench.fender, "printed-table", "table"),
        _family("rigging", "bench", tables_bench.rigging, "printed-table", "checked"),
        _family("hawser", "bench", tables_bench.hawser, "printed-table", "checked"),
        *(_family(name, "bench", draw, "pen", tag) for name, (draw, tag) in PENNED_BENCH.items()),
        *(_family(name, split, draw, "facts", *tags) for name, (split, draw, tags) in FACT_FAMILIES.items()),
        *(_family(name, split, draw, "facts-pen", *tags) for name, (split, draw, tags) in FACT_PEN_FAMILIES.items()),
        *(_family(name, split, draw, "none", *tags) for name, (split, draw, tags) in OTHER_FAMILIES.items()),
    )
}
