"""What is registered of every kind of finding."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Part = Literal[
    "averages", "degree", "type", "configuration", "ears", "change", "age and noise", "handicap", "audibility",
    "speech", "middle ear", "emissions", "plausibility", "referral",
]  # fmt: skip
"""What a finding belongs to; the documented table is in this order."""


@dataclass(frozen=True, slots=True)
class FindingCode:
    """One registered kind of finding.

    Attributes
    ----------
    code : str
        As it stands in the record; never renamed, never given another meaning.
    part : str
        What it belongs to.
    meaning : str
        What it says, one sentence without a full stop.
    rule : str
        The rule in short, with its edges.
    source : str
        Where the rule is published; "common practice" where no text could be named.
    do : str
        What a person should do with it, one sentence without a full stop.
    checked : bool
        The numbers of the rule were read in a public text; else they are common practice, offered as a named choice.
    """

    code: str
    part: Part
    meaning: str
    rule: str
    source: str
    do: str
    checked: bool = True
