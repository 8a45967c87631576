"""Pages of words and numbers without any chart: letters, bills, tables, calendars, forms."""

from __future__ import annotations

import calendar
from collections.abc import Sequence

import numpy as np

from .. import fonts
from ..chart.chance import pick
from ..forms.around import any_date, date_words, draw_head, draw_remarks, draw_table
from ..forms.form import A4, LETTER, new_sheet
from ..pen import BLACK, Pen
from ..sheet import Sheet
from .plot import GREY, PALE, any_face, draw_marker

_SUBJECTS = ("Your appointment on Tuesday", "Hearing aid trial", "Change of opening hours", "Your enquiry", "Batteries")
_SENTENCES = (
    "thank you for your visit to our clinic last week.",
    "Please bring your hearing aids and the remote control with you.",
    "The ear canals were clear on both sides and the drums looked normal.",
    "We have sent a copy of this letter to your family doctor.",
    "The trial period is 4 weeks; the devices can be returned at any time before it ends.",
    "The clinic is closed from 24 December to 2 January.",
    "If you cannot come, please call us on 555 0142 at least one day before.",
    "The batteries (size 312, 1.45 V) last about 6 days.",
    "Noise levels of 85 dB(A) and more call for hearing protection at work.",
    "The speech test gave 95 % at 65 dB on the right side and 90 % at 70 dB on the left.",
    "Pure tones of 500, 1000, 2000 and 4000 Hz will be used at your next visit.",
    "Parking is free for patients at Quay 3, a walk of 250 m.",
    "Please avoid loud sounds for 14 hours before the test.",
    "An interpreter can be booked without charge.",
)


def flowing(
    pen: Pen, rng: np.random.Generator, at: tuple[float, float], width: float, face: str, size: float, count: int
) -> float:
    """Write sentences as a paragraph; give the y below it."""
    x, y = at
    line = ""
    chosen = [_SENTENCES[int(k)] for k in rng.integers(0, len(_SENTENCES), count)]
    for word in " ".join(chosen).split():
        longer = f"{line} {word}".strip()
        if fonts.width(face, longer, size) > width:
            pen.text((x, y), line, face, size)
            y += size * 1.35
            longer = word
        line = longer
    pen.text((x, y), line, face, size)
    return y + size * 2.2


def letter(rng: np.random.Generator, mono: bool) -> Sheet:
    """Letter of a page, in sentences."""
    return _letter(rng, mono, any_face(rng, "train"))


def note(rng: np.random.Generator, mono: bool) -> Sheet:
    """Short letter with a list, set in a bench face."""
    sheet = _letter(rng, mono, face := any_face(rng, "bench"), paragraphs=2)
    y = sheet.pen.height * 0.62
    for k in range(int(rng.integers(3, 7))):
        pen = sheet.pen
        if k % 2:
            pen.rect((74, y - 7, 82, y + 1), GREY, 0.7)
        else:
            pen.ellipse((78, y - 3), 3, 3, GREY, 0.8, None)
        pen.text((92, y), pick(rng, _SENTENCES), face, 10)
        y += 17
    return sheet


def _letter(rng: np.random.Generator, mono: bool, face: str, paragraphs: int = 4) -> Sheet:
    sheet = new_sheet(A4 if rng.random() < 0.6 else LETTER, mono=mono)
    pen = sheet.pen
    bold = fonts.load(fonts.FACES[face].bold)
    size = float(rng.uniform(9.5, 12))
    left, width = float(rng.uniform(55, 85)), pen.width - 150
    pen.text((left, 60), "Harbour Lane Clinic", bold, size * 1.6, (0.1, 0.25, 0.45))
    pen.text((left, 60 + size * 1.8), "12 Harbour Lane", face, size)
    pen.text((pen.width - left, 150), date_words(rng, any_date(rng)), face, size, anchor=1.0)
    pen.text((left, 190), pick(rng, _SUBJECTS), bold, size * 1.1)
    pen.text((left, 215), pick(rng, ("Dear Mr Hollis,", "Dear Ms Farrow,", "Dear colleague,")), face, size)
    y = 215 + size * 2
    for _ in range(int(rng.integers(1, paragraphs + 1))):
        y = flowing(pen, rng, (left, y), width, face, size, int(rng.integers(2, 7)))
    pen.text((left, y + 10), "Yours sincerely,", face, size)
    x = np.linspace(0, 90, 50)
    wave = 8 * np.sin(x / rng.uniform(4, 9)) * np.exp(-x / 60) + rng.normal(0, 0.8, 50)
    pen.path([(left + float(a), y + 38 + float(b)) for a, b in zip(x, wave, strict=True)], (0.1, 0.1, 0.5), 1.1)
    return sheet


def invoice(rng: np.random.Generator, mono: bool) -> Sheet:
    """Bill with a ruled table of items."""
    sheet = new_sheet(A4, mono=mono)
    pen, face = sheet.pen, any_face(rng, "train")
    bold = fonts.load(fonts.FACES[face].bold)
    pen.text((60, 70), "Harbour Lane Clinic", bold, 15)
    pen.text((60, 110), f"Invoice no. {int(rng.integers(1000, 9999))}", bold, 12)
    pen.text((pen.width - 60, 110), date_words(rng, any_date(rng)), face, 10, anchor=1.0)
    items = ("Hearing test", "Ear mould", "Batteries 312", "Repair", "Fitting", "Check-up", "Ear plugs", "Domes 8 mm")
    rows: list[Sequence[str]] = [("Pos.", "Item", "Qty", "Price", "Sum")]
    total = 0.0
    for k in range(int(rng.integers(4, 14))):
        count, price = int(rng.integers(1, 6)), float(rng.integers(200, 9000)) / 100
        total += count * price
        rows.append((str(k + 1), pick(rng, items), str(count), f"{price:.2f}", f"{count * price:.2f}"))
    rows.append(("", "Total", "", "", f"{total:.2f}"))
    pen.rect((60, 140, pen.width - 55, 140 + 17), None, fill=(0.8, 0.88, 0.95))
    y = draw_table(pen, (60, 140), rows, face, 10, (40, 210, 50, 80, 100), ruled=bool(rng.random() < 0.7))
    flowing(pen, rng, (60, y + 40), pen.width - 120, face, 9, 2)
    return sheet


def month(rng: np.random.Generator, mono: bool) -> Sheet:
    """Calendar of a month: a grid with numbers, some days circled or crossed."""
    sheet = new_sheet(A4, landscape=bool(rng.random() < 0.6), mono=mono)
    pen, face = sheet.pen, any_face(rng, "train")
    year, number = int(rng.integers(2012, 2027)), int(rng.integers(1, 13))
    pen.text((60, 60), f"{number:02d} / {year}", fonts.load(fonts.FACES[face].bold), 20)
    weeks = calendar.Calendar().monthdayscalendar(year, number)
    wide, high = (pen.width - 120) / 7, (pen.height - 160) / len(weeks)
    line = pick(rng, (GREY, (0.0, 0.0, 0.0), PALE))
    for r, week in enumerate(weeks):
        for c, day in enumerate(week):
            left, top = 60 + c * wide, 100 + r * high
            pen.rect((left, top, left + wide, top + high), line, 0.6)
            if not day:
                continue
            pen.text((left + 6, top + 16), str(day), face, 12)
            middle, chance = (left + wide / 2, top + high / 2), rng.random()
            if chance < 0.12:
                pen.ellipse(middle, 12, 12, (0.8, 0.1, 0.1), 1.3, None)
            elif chance < 0.24:
                draw_marker(pen, middle, "cross", (0.1, 0.2, 0.8), 10, 1.3)
    return sheet


def rota(rng: np.random.Generator, mono: bool) -> Sheet:
    """Duty table with O and X in its cells."""
    sheet = new_sheet(A4, landscape=bool(rng.random() < 0.5), mono=mono)
    pen, face = sheet.pen, any_face(rng, "bench")
    pen.text((50, 60), "Rota, Harbour Lane", fonts.load(fonts.FACES[face].bold), 14)
    columns, lines = int(rng.integers(6, 13)), int(rng.integers(6, 16))
    wide, high = (pen.width - 180) / columns, (pen.height - 160) / (lines + 1)
    for c in range(columns):
        pen.text((130 + (c + 0.5) * wide, 90), str(c + 1), face, 9, anchor=0.5)
    for r in range(lines):
        pen.text((50, 100 + (r + 0.7) * high), pick(rng, ("Brandt", "Corvey", "Dunmore", "Eklund", "Jarl")), face, 9)
        for c in range(columns):
            left, top = 130 + c * wide, 100 + r * high
            pen.rect((left, top, left + wide, top + high), GREY, 0.5)
            middle, radius = (left + wide / 2, top + high / 2), min(wide, high) * 0.25
            chance = rng.random()
            if chance < 0.3:
                draw_marker(pen, middle, "circle", BLACK, radius, 1.0)
            elif chance < 0.6:
                draw_marker(pen, middle, "cross", BLACK, radius, 1.0)
    return sheet


def price_list(rng: np.random.Generator, mono: bool) -> Sheet:
    """Page full of numbers in columns."""
    sheet = new_sheet(A4, mono=mono)
    pen, face = sheet.pen, any_face(rng, "bench")
    pen.text((60, 60), pick(rng, ("Price list", "Stock", "Part numbers")), fonts.load(fonts.FACES[face].bold), 14)
    columns = int(rng.integers(4, 8))
    rows = [
        tuple(f"{int(rng.integers(1, 9000)) * 5 / 10:g}" for _ in range(columns))
        for _ in range(int(rng.integers(15, 40)))
    ]
    draw_table(pen, (60, 80), rows, face, 9, [(pen.width - 120) / columns] * columns, ruled=bool(rng.random() < 0.5))
    pen.line((60, 74), (pen.width - 60, 74), (0.2, 0.4, 0.6), 1.5)
    return sheet


def questions(rng: np.random.Generator, mono: bool) -> Sheet:
    """Questionnaire: a head, lines with boxes, some of them crossed or circled."""
    sheet = new_sheet(A4, mono=mono)
    pen = sheet.pen
    face = any_face(rng, "bench")
    y = draw_head(sheet, rng, (50, 30, pen.width - 50, 0), face, any_date(rng)) + 20
    for _ in range(int(rng.integers(8, 18))):
        pen.text(
            (50, y),
            pick(rng, ("How well do you hear in noise?", "Can you follow the news?", "Do you hear the bell?")),
            face,
            10,
        )
        chosen = int(rng.integers(0, 5))
        for k in range(5):
            x = 330 + 42 * k
            pen.text((x, y), str(k + 1), face, 10, anchor=0.5)
            if k != chosen:
                continue
            if rng.random() < 0.5:
                pen.ellipse((x, y - 3.5), 8, 8, (0.1, 0.1, 0.6), 1.1, None)
            else:
                draw_marker(pen, (x, y - 3.5), "cross", (0.1, 0.1, 0.6), 7, 1.1)
        y += 28
    draw_remarks(pen, rng, (50, y, pen.width - 50, pen.height - 40), "Helvetica", 9)
    return sheet
