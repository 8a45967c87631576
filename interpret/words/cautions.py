"""The cautions that every output for people carries."""

from __future__ import annotations

import textwrap

CAUTIONS: tuple[str, ...] = (
    "This is a reading of a chart. It is not a hearing test and not a diagnosis.",
    "Every value and word here was taken from a picture of the page: check them against the original before use.",
    (
        "See a doctor promptly for a sudden loss of hearing, a loss in one ear or clearly worse in one ear, pain, "
        "discharge, dizziness, or ringing in one ear."
    ),
    "Hearing aids, implants, fitness for work and treatment are matters for licensed practitioners and local rules.",
    "Scales of degree differ from country to country; the one used is named with every degree.",
)
"""One sentence or two each, in the order in which they are printed."""


def closing(width: int = 100) -> str:
    """Give the cautions as the plain-text block that closes what is printed for a person.

    Parameters
    ----------
    width : int
        The longest line, characters.
    """
    wrapped = (textwrap.fill(one, width, initial_indent="- ", subsequent_indent="  ") for one in CAUTIONS)
    return "\n".join(("Please note", *wrapped))
