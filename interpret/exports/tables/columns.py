"""Every column of the tables: its name, what it holds, its unit and its meaning."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Kind = Literal["text", "number", "whole", "yes or no"]


@dataclass(frozen=True, slots=True)
class Column:
    """One column; it may be empty where ``empty`` says when."""

    name: str
    kind: Kind
    meaning: str
    unit: str = ""
    empty: str = ""


_PAGE = (
    Column("file", "text", "The file's name as it was given"),
    Column("sha256", "text", "The file's SHA-256, by which the same file is known under another name"),
    Column("page", "whole", "The page, from 1"),
    Column("test", "whole", "Which audiogram of the page, from 1; with file and page it joins the two tables"),
    Column("tested_on", "text", "The test date, year first", empty="not read"),
)

THRESHOLD_COLUMNS: tuple[Column, ...] = (
    *_PAGE,
    Column("taken_by", "text", "How the page was read: drawn, scan, photo, table"),
    Column("symbol_set", "text", "The symbol set by which marks were understood", empty="not known"),
    Column("ear", "text", "right, left, both (loudspeaker), unspecified (a bone mark that names no ear)"),
    Column("conduction", "text", "air, bone, field (loudspeaker)"),
    Column("masked", "yes or no", "The other ear was masked"),
    Column("aided", "yes or no", "With hearing aids"),
    Column("measure", "text", "threshold, mcl (most comfortable level), ucl (uncomfortable loudness level)"),
    Column("frequency_hz", "number", "The audiometric frequency", "Hz"),
    Column("level_db_hl", "number", "The level; without a response the one that was not heard", "dB HL"),
    Column("response", "yes or no", "false: not heard at that level, which is then no threshold"),
    Column("standing", "text", "sure: may be used as it is; ask: a person must look first"),
    Column("probability", "number", "Calibrated chance that the whole value is right", "0 to 1"),
    Column("why_ask", "text", "Codes of why a person must look, apart by semicolons", empty="nothing to ask"),
    Column("chart", "whole", "On which chart of the audiogram it was seen, from 0", empty="seen in a table, or typed"),
    Column("at_x", "number", "Where on the page, from its left edge", "page widths", "not seen on a chart"),
    Column("at_y", "number", "Where on the page, from its upper edge", "page heights", "not seen on a chart"),
    Column("seen_frequency_hz", "number", "The reading before it was given a frequency", "Hz", "not seen on a chart"),
    Column("seen_level_db_hl", "number", "The reading before it was rounded to a step", "dB HL", "not seen on a chart"),
)
"""One row a threshold."""

FINDING_COLUMNS: tuple[Column, ...] = (
    *_PAGE,
    Column("code", "text", "What kind of finding it is (interpret/finding_codes/FINDINGS.md)"),
    Column("rule", "text", "The published name of the rule"),
    Column("ear", "text", "right, left, unspecified, or both, which is the person", empty="of no ear"),
    Column("conduction", "text", "air, bone, field", empty="of no one conduction"),
    Column("frequency_hz", "number", "The frequency", "Hz", "of no one frequency"),
    Column("word", "text", "What was found, in a word of the rule", empty="it is a number, or it cannot be told"),
    Column("could_be", "text", "Every word that it could be, apart by semicolons", empty="the word alone"),
    Column("number", "number", "The number that was found or that decided", "as unit says", "it is a word"),
    Column("unit", "text", "The unit of number, low and high", empty="no number, or one without a unit"),
    Column("low", "number", "The least that the number could be", "as unit says", "open or no number"),
    Column("high", "number", "The most that the number could be", "as unit says", "open or no number"),
    Column("at_least", "yes or no", "A no response entered: this or more"),
    Column("standing", "text", "sure, or ask where it rests on a value that a person must look at first"),
    Column("rests_on", "text", "The frequencies of those values in Hz, apart by semicolons", empty="none"),
    Column("missing_hz", "text", "Frequencies that the rule wants and that have no value", empty="none"),
    Column("no_response_hz", "text", "Frequencies at which nothing was heard", empty="none"),
    Column("numbers", "text", "The other numbers that decided, name=value, apart by semicolons", empty="none"),
)
"""One row a finding."""
