"""Choices: what the person asked for, built once by the command and handed down."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Choices:
    """Settings of one run.

    ``symbols`` is the symbol set to assume where the page prints no key and shows no evidence of its own.
    """

    symbols: str | None = None
