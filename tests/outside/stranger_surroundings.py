"""What stands around the charts of `drawn_by_strangers`: letterheads, tool bars, forms, text and tables."""

from __future__ import annotations

from collections.abc import Sequence

from cases import Frame, of
from stranger_looks import Look
from stranger_pens import Pen

from octavo.interpret.record import Threshold

LETTER = (
    "Dear colleague,",
    "thank you for referring this patient, who was seen on 14 March 2025. Pure tones were tested",
    "by earphones in a quiet booth; reliability was good. Both ear canals were clear. The chart below",
    "shows the thresholds. We suggest a second test in twelve months, and ear protection at work.",
)
FORM = ("NAME: TEST, CASE", "BORN: 1950-01-02   TESTED: 2025-03-14", "TESTER: 07   EARPHONES: SUPRA-AURAL")


def surround(pen: Pen, look: Look, truth: Sequence[Threshold]) -> None:
    """Draw what belongs to the page and to no chart."""
    width, height = look.page
    if look.around == "letter":
        pen.shape([(0, 0), (width, 0), (width, 44), (0, 44)], fill="#24476b")
        pen.circle((40, 22), 13, fill="#ffffff")
        pen.text((66, 18), "Harbour Lane Hearing", 15, "#ffffff", "l")
        pen.text((66, 34), "12 Harbour Lane, Port Example", 8, "#d0d8e4", "l")
        _lines(pen, LETTER, 60, 90, look)
        pen.text((width / 2, height - 18), "page 1 of 1", 7, "#555555")
    elif look.around == "bar":
        pen.shape([(0, 0), (width, 0), (width, 34), (0, 34)], fill="#3a3f45")
        for number, word in enumerate(("File", "Test", "View", "Help")):
            pen.text((18 + 56 * number, 17), word, 10, "#f0f0f0", "l")
        pen.text((18, 56), "Case, Test  -  2025-03-14", 11, look.ink, "l")
    elif look.around == "form":
        _lines(pen, FORM, 60, 80, look)
        pen.line([(50, 140), (width - 50, 140)], look.ink, 1)
    elif look.around == "text":
        _lines(pen, LETTER, 60, 380, look)
        _averages(pen, look, truth, 60, 560)
    elif look.around == "table":
        _table(pen, look, truth, 70, 120)


def _lines(pen: Pen, lines: Sequence[str], x: float, y: float, look: Look) -> None:
    for row, line in enumerate(lines):
        pen.text((x, y + 15 * row), line, 9, look.ink, "l")


def _averages(pen: Pen, look: Look, truth: Sequence[Threshold], x: float, y: float) -> None:
    for row, ear in enumerate(("right", "left")):
        some = [t for t in of(truth, ear, "air") if t.frequency_hz in (500, 1000, 2000)]
        if len(some) == 3 and all(t.response for t in some):
            mean = sum(t.level_db_hl for t in some) / 3
            pen.text((x, y + 14 * row), f"PTA {ear}: {mean:.0f} dB HL (0.5, 1, 2 kHz)", 9, look.ink, "l")


def _table(pen: Pen, look: Look, truth: Sequence[Threshold], x: float, y: float) -> None:
    """Print the air thresholds in a ruled table, a row an ear; no response as the level with NR."""
    heard = sorted({t.frequency_hz for t in truth if t.conduction == "air"})
    pen.text((x, y - 16), "Air conduction (dB HL)", 10, look.ink, "l")
    right = x + 60 + 38 * len(heard)
    for row in range(4):
        pen.line([(x, y + 18 * row), (right, y + 18 * row)], look.ink, 0.6)
    for column, hz in enumerate(heard):
        pen.text((x + 79 + 38 * column, y + 9), f"{hz:g}", 9, look.ink)
    for row, ear in enumerate(("right", "left")):
        pen.text((x + 4, y + 27 + 18 * row), ear.capitalize(), 9, look.ink, "l")
        for one in of(truth, ear, "air"):
            told = f"{one.level_db_hl:g}{'' if one.response else ' NR'}"
            pen.text((x + 79 + 38 * heard.index(one.frequency_hz), y + 27 + 18 * row), told, 9, look.ink)


def table(pen: Pen, frame: Frame, truth: Sequence[Threshold], look: Look) -> None:
    """Print the heard air levels below a chart, each under its frequency, as spreadsheets do below their charts."""
    left, top, width, height = frame.box
    y0 = top + height + (8 if "b" not in look.sides else 4.2 * look.size)
    for row in range(3):
        pen.line([(left - 40, y0 + 15 * row), (left + width, y0 + 15 * row)], "#999999", 0.5)
    for row, ear in enumerate(("right", "left")):
        pen.text((left - 36, y0 + 7.5 + 15 * row), ear.capitalize(), 8, look.ink, "l")
        for one in of(truth, ear, "air"):
            told = f"{one.level_db_hl:g}{'' if one.response else ' NR'}"
            pen.text((frame.x(one.frequency_hz), y0 + 7.5 + 15 * row), told, 8, look.ink)
