"""Choices: what the person asked for, built once by the command and handed down."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Choices:
    """Settings of one run.

    Attributes
    ----------
    symbols : str or None
        The symbol set to assume where the page prints no key and shows no evidence of its own.
    report : bool
        Read what stands around the charts as well; without it only the charts are read, and no text recognition runs.
    languages : tuple of str
        The languages that text recognition is to expect, by the names of Tesseract's data ("eng", "deu", ...).
    """

    symbols: str | None = None
    report: bool = True
    languages: tuple[str, ...] = ("eng",)
