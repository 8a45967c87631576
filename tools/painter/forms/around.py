"""What stands round the charts of a report: head, patient, speech table, remarks, tympanogram, numbers, foot."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from .. import fonts
from ..chart.chance import grey, pick
from ..patient import Tone
from ..pen import BLACK, Colour, Pen
from ..sheet import Sheet
from .form import Box

_CLINICS = (
    "Harbour Lane Hearing Clinic",
    "Harbour Lane Clinic",
    "Harbour Lane - Audiology",
    "HARBOUR LANE CLINIC",
    "Hearing Service at Harbour Lane",
)
_FIRST = (
    "Ada",
    "Bruno",
    "Carla",
    "Dov",
    "Edda",
    "Femi",
    "Greta",
    "Hugo",
    "Ines",
    "Jonas",
    "Kira",
    "Luca",
    "Mina",
    "Noor",
)
_LAST = (
    "Ashdown",
    "Brandt",
    "Corvey",
    "Dunmore",
    "Eklund",
    "Farrow",
    "Grenfell",
    "Hollis",
    "Inveree",
    "Jarl",
    "Kestrel",
)
_REMARKS = (
    "Good cooperation, results reliable.",
    "Cerumen removed before the test.",
    "Patient reports ringing in both ears.",
    "Noise at work for 20 years.",
    "Test repeated at 1 kHz: within 5 dB.",
    "Masking noise: narrow band.",
    "Follow-up in 12 months.",
    "Reliability: good",
    "Insert phones used.",
    "See letter of referral.",
    "Results explained to the patient.",
)
_TITLES = (
    "AUDIOGRAM",
    "Pure-tone audiometry",
    "Hearing test report",
    "Audiological report",
    "Pure Tone Audiogram",
    "Tonaudiogramm",
)


def any_date(rng: np.random.Generator) -> str:
    """Invent a date, as ISO 8601."""
    return f"{int(rng.integers(2009, 2026))}-{int(rng.integers(1, 13)):02d}-{int(rng.integers(1, 29)):02d}"


def date_words(rng: np.random.Generator, iso: str) -> str:
    """Write a date the way some clinic does."""
    year, month, day = iso.split("-")
    return pick(rng, (iso, f"{day}.{month}.{year}", f"{day}/{month}/{year}", f"{month}/{day}/{year}"))


def ornament(pen: Pen, at: tuple[float, float], size: float, colour: Colour, kind: int) -> None:
    """Draw an invented ornament in the place of a letterhead's emblem."""
    x, y = at
    if kind == 0:
        for k in range(3):
            pen.ellipse((x, y), size * (0.5 - 0.14 * k), size * (0.5 - 0.14 * k), colour, 1.2, None)
    elif kind == 1:
        pen.path(
            [
                (x - size / 2, y + size / 3),
                (x - size / 6, y - size / 3),
                (x + size / 6, y + size / 3),
                (x + size / 2, y - size / 3),
            ],
            colour,
            2,
        )
    else:
        pen.rect((x - size / 2, y - size / 2, x + size / 2, y + size / 2), None, fill=colour)
        pen.ellipse(at, size * 0.3, size * 0.3, None, 0, (1, 1, 1))


def draw_head(sheet: Sheet, rng: np.random.Generator, box: Box, face: str, date: str, *, size: float = 9.0) -> float:
    """Draw a letterhead and the patient's lines into the top of a box; give the y below them."""
    pen = sheet.pen
    bold = fonts.load(fonts.FACES[face].bold)
    left, top, right, _ = box
    y = top + size * 1.6
    colour = pick(rng, (BLACK, (0.1, 0.2, 0.4), (0.35, 0.35, 0.35), (0.0, 0.35, 0.35)))
    style = int(rng.integers(0, 4))
    if style:
        shift = 0.0
        if style == 2:
            ornament(pen, (left + size * 1.5, y - size * 0.4), size * 2.6, colour, int(rng.integers(0, 3)))
            shift = size * 3.6
        pen.text((left + shift, y), pick(rng, _CLINICS), bold, size * 1.5, colour)
        pen.text((right, y), f"{int(rng.integers(1, 90))} Harbour Lane", face, size * 0.85, colour, anchor=1)
        y += size * 1.6
        if rng.random() < 0.6:
            pen.line((left, y - size * 0.8), (right, y - size * 0.8), colour, float(rng.uniform(0.4, 1.5)))
    if rng.random() < 0.75:
        y += size * 0.6
        pen.text(((left + right) / 2, y), pick(rng, _TITLES), bold, size * 1.35, anchor=0.5)
        y += size * 1.4
    name = f"{pick(rng, _LAST)}, {pick(rng, _FIRST)}"
    born = f"{int(rng.integers(1931, 2015))}-{int(rng.integers(1, 13)):02d}-{int(rng.integers(1, 29)):02d}"
    lines = [
        ("Name:", name),
        ("Born:", born),
        ("Date:", date_words(rng, date)),
        ("Tester:", pick(rng, ("M. O.", "J. K.", "A. S."))),
    ]
    columns = int(rng.integers(1, 4))
    if rng.random() < 0.3:
        depth = size * 1.6 * ((len(lines) + columns - 1) // columns) + 4
        pen.rect((left - 3, y - size * 0.9, right + 3, y - size * 0.9 + depth), grey(rng, 0.2, 0.7), 0.5)
    for k, (what, value) in enumerate(lines):
        x = left + (right - left) * (k % columns) / columns
        line_y = y + size * 1.6 * (k // columns) + size * 0.4
        along = pen.text((x, line_y), what, bold, size)
        pen.text((x + along + 5, line_y), value, face, size)
    sheet.report = replace(sheet.report, patient=name, born=born)
    return y + size * 1.6 * ((len(lines) + columns - 1) // columns) + size * 0.4


def draw_foot(pen: Pen, rng: np.random.Generator, face: str) -> None:
    """Write a foot line: page number, form number, a caution."""
    y = pen.height - float(rng.uniform(14, 30))
    start = int(rng.integers(0, 4))
    words = (
        f"Page 1 of {int(rng.integers(1, 4))}",
        f"Form HL-{int(rng.integers(10, 99))}",
        "Confidential",
        "dB HL re ISO 389",
    )
    for k in range(int(rng.integers(1, 4))):
        pen.text((40 + (pen.width - 80) * k / 2, y), words[(k + start) % 4], face, 7, (0.3, 0.3, 0.3), anchor=k / 2)


def draw_table(
    pen: Pen,
    at: tuple[float, float],
    rows: Sequence[Sequence[str]],
    face: str,
    size: float,
    widths: Sequence[float],
    *,
    ruled: bool = True,
) -> float:
    """Draw a table of words with its top left corner at ``at``; give the y below it."""
    pitch = size * 1.7
    x0, y0 = at
    total = sum(widths)
    for r, row in enumerate(rows):
        x = x0
        for text, width in zip(row, widths, strict=True):
            pen.text((x + width / 2, y0 + r * pitch + size * 1.2), text, face, size, anchor=0.5)
            x += width
    if ruled:
        for r in range(len(rows) + 1):
            pen.line((x0, y0 + r * pitch), (x0 + total, y0 + r * pitch), BLACK, 0.4)
        x = x0
        for width in (0.0, *widths):
            x += width
            pen.line((x, y0), (x, y0 + len(rows) * pitch), BLACK, 0.4)
    return y0 + len(rows) * pitch


def draw_speech(pen: Pen, rng: np.random.Generator, at: tuple[float, float], face: str, size: float) -> float:
    """Draw a table of speech results; give the y below it."""
    rows = [("Speech", "SRT (dB)", "WRS (%)", "at (dB)")]
    for ear in ("Right", "Left"):
        srt, score, level = (int(rng.integers(low, high)) for low, high in ((1, 14), (10, 26), (9, 19)))
        rows.append((ear, str(5 * srt), str(4 * score), str(5 * level)))
    return draw_table(pen, at, rows, face, size, [size * 6] * 4, ruled=bool(rng.random() < 0.7))


def draw_numbers(
    pen: Pen, tones: Sequence[Tone], at: tuple[float, float], face: str, size: float, width: float
) -> float:
    """Print the unmasked or masked air results of both ears as a table of numbers; give the y below it."""
    hz_list = sorted({tone.frequency_hz for tone in tones if tone.conduction == "air" and tone.measure == "threshold"})
    rows = [("Hz", *(f"{hz:g}" for hz in hz_list))]
    for ear, name in (("right", "Right AC"), ("left", "Left AC")):
        cells = []
        for hz in hz_list:
            found = [
                t for t in tones if (t.ear, t.conduction, t.measure, t.frequency_hz) == (ear, "air", "threshold", hz)
            ]
            found.sort(key=lambda t: t.masked)
            cells.append("-" if not found else f"{found[-1].level_db_hl:g}" + ("" if found[-1].response else "+"))
        if any(cell != "-" for cell in cells):
            rows.append((name, *cells))
    first = size * 5
    rest = min((width - first) / max(len(hz_list), 1), size * 3.5)
    fitted = min(size, rest / 2.6)
    return draw_table(pen, at, rows, face, fitted, [first, *[rest] * len(hz_list)])


def draw_tympanogram(pen: Pen, rng: np.random.Generator, box: Box, face: str, size: float, title: str) -> None:
    """Draw a small sketch of a tympanogram: pressure along, admittance up."""
    left, top, right, bottom = box
    left += size * 2.5
    bottom -= size * 2
    pen.rect((left, top, right, bottom), (0.3, 0.3, 0.3), 0.5)
    peak, height = float(rng.uniform(-150, 30)), float(rng.uniform(0.15, 0.85))
    points = []
    for pressure in np.linspace(-400, 200, 40):
        admittance = 0.08 + height * float(np.exp(-((pressure - peak) ** 2) / 6000))
        points.append((left + (pressure + 400) / 600 * (right - left), bottom - admittance * (bottom - top)))
    pen.corners(round_ends=False, round_joins=True)
    pen.path(points, BLACK, 1.0)
    for pressure in (-400, -200, 0, 200):
        x = left + (pressure + 400) / 600 * (right - left)
        pen.text((x, bottom + size * 1.1), str(pressure), face, size * 0.8, anchor=0.5)
    pen.text(((left + right) / 2, bottom + size * 2.1), f"{title} (daPa)", face, size * 0.85, anchor=0.5)


def draw_remarks(
    pen: Pen, rng: np.random.Generator, box: Box, face: str, size: float, *, by_hand: bool = False
) -> None:
    """Write remarks, ruled or plain, into a box as far as there is room; ``by_hand`` allows the training hands."""
    left, top, right, bottom = box
    pen.text(
        (left, top + size),
        pick(rng, ("Remarks:", "Comments", "Bemerkungen:", "Notes:")),
        fonts.load(fonts.FACES[face].bold),
        size,
    )
    y = top + size * 2.8
    ruled = rng.random() < 0.4
    written = fonts.load(pick(rng, (face, "Intuitive", "AmaticSC-Bold"))) if by_hand else face
    said = [str(words) for words in rng.permutation(_REMARKS)]
    count = 0
    while y < bottom - 4 and count < 4:
        if rng.random() < 0.8:
            pen.text((left + 4, y - 2), said[count], written, size)
        if ruled:
            pen.line((left, y + 1), (right, y + 1), (0.6, 0.6, 0.6), 0.4)
        y += size * 1.8
        count += 1


def draw_stamp(pen: Pen, rng: np.random.Generator, at: tuple[float, float]) -> None:
    """Print a stamp outside the charts."""
    colour = pick(rng, ((0.2, 0.2, 0.6), (0.6, 0.1, 0.1), (0.2, 0.4, 0.3)))
    face = fonts.load("Helvetica-Bold")
    words = pick(rng, ("COPY", "RECEIVED", "SCANNED", "FILED"))
    width = fonts.width(face, words, 14)
    pen.rect((at[0] - 6, at[1] - 15, at[0] + width + 6, at[1] + 6), colour, 1.5)
    pen.text(at, words, face, 14, colour)


def draw_scribble(pen: Pen, rng: np.random.Generator, frame: Box, chart: int) -> None:
    """Write or stamp over a chart's frame, as people do on paper."""
    left, top, right, bottom = frame
    at = (float(rng.uniform(left, (left + right) / 2)), float(rng.uniform(top + 20, bottom - 10)))
    if rng.random() < 0.3:
        draw_stamp(pen, rng, at)
        return
    words = pick(rng, ("see remarks", "repeat!", "with insert phones", "checked", "not reliable?", "before surgery"))
    face = fonts.load(pick(rng, ("Intuitive", "AmaticSC-Bold")))
    size = float(rng.uniform(8, 14))
    pen.text(at, words, face, size, pick(rng, (BLACK, (0.1, 0.1, 0.5), (0.4, 0.4, 0.4))), chart=chart)
