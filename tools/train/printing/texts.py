"""What the words say that the reader of print learns from: words of four languages, names, numbers, codes."""

from __future__ import annotations

from pathlib import Path

import numpy as np

from ..lettering.texts import ACCENTED, LETTERS, LEVELS, UNITS, frequency_text, level_text
from ..lettering.texts import FREQUENCIES as HERTZ
from ..lettering.texts import WORDS as TRADE_WORDS

SIGNS = (
    "-", "--", "NR", "N.R.", "nr", "DNT", "CNT", "n/a", "R", "L", "RE", "LE", "AD", "AS", "OD", "OI", "OS", "G", "D",
    "B", "A", "C", "As", "Ad", "(+)", "+", "*", "m", "dB", "HL", "Hz", "kHz", "daPa", "ml", "mmho", "cm³", "%", "/",
    ":", "&", "x", "N/A", "AC", "BC", "SRT", "SDT", "PTA", "WRS", "MCL", "UCL", "CD", "II", "III", "IV", "S/N", "No.",
    "Nr.", "N°", "n°", "Dr.", "Dr", "Mr.", "Ms.", "Mrs.", "Fr.", "Hr.", "Sr.", "Sra.", "Mme", "M.", "geb.", "né",
    "née", "vs.", "u.", "i.", "re.", "li.", "der.", "izq.", "dr.", "g.", "pass", "refer", "PASS", "REFER", "Pass",
    "Refer", "absent", "Abs.",
)  # fmt: skip
"""Short words of reports. Common practice."""
CONSONANTS, VOWELS = "bcdfghjklmnprstvwz", "aeiou"
CODES = "ABCDEFGHJKLMNPRSTUVWXYZ"


def words_from(path: Path) -> tuple[str, ...]:
    """Load a list of words, one a line, in small letters; those of the trade come along."""
    told = (word.strip() for word in path.read_text("utf-8").splitlines())
    return tuple(dict.fromkeys([*TRADE_WORDS, *(word for word in told if word)]))


def printed_text(rng: np.random.Generator, words: tuple[str, ...]) -> str:
    """Choose what one word of a report says."""
    kind = rng.random()
    if kind < 0.44:
        listed = TRADE_WORDS if rng.random() < 0.25 else words
        return _dressed(_cased(str(listed[int(rng.integers(len(listed)))]), rng), rng)
    if kind < 0.56:
        return _dressed(_name(rng), rng)
    if kind < 0.61:
        return _initials(rng)
    if kind < 0.84:
        return _number(rng)
    if kind < 0.89:
        return _code(rng)
    if kind < 0.95:
        return str(rng.choice(SIGNS)) if rng.random() < 0.8 else str(rng.choice(UNITS))
    if kind < 0.98:
        return frequency_text(int(rng.choice(HERTZ)), rng) if rng.random() < 0.5 else level_text(
            int(rng.choice(LEVELS)), rng)  # fmt: skip
    letters = rng.choice(list(LETTERS * 4 + ACCENTED), int(rng.integers(2, 12)))
    return _cased("".join(str(c) for c in letters), rng)


def _cased(word: str, rng: np.random.Generator) -> str:
    case = rng.random()
    if case < 0.42:
        return word
    if case < 0.84 or "ß" in word:
        return word[:1].upper() + word[1:]
    return word.upper()


def _name(rng: np.random.Generator) -> str:
    """Make a name of syllables up, at times with an accent, in two parts or in capitals."""
    text = ""
    for _ in range(int(rng.integers(1, 4))):
        vowel = str(rng.choice(list(VOWELS)))
        if rng.random() < 0.06:
            vowel = str(rng.choice(list("äöüéèáíóú")))
        text += str(rng.choice(list(CONSONANTS))) + vowel
        if rng.random() < 0.45:
            text += str(rng.choice(list("nrlstmkxy"))) * (2 if rng.random() < 0.2 else 1)
    text = text[0].upper() + text[1:]
    joint = rng.random()
    if joint < 0.06:
        text += "-" + _name(rng)
    elif joint < 0.09:
        text = str(rng.choice(["O'", "D'", "Mc", "Mac", "Fitz"])) + text
    return text.upper() if rng.random() < 0.15 else text


def _initials(rng: np.random.Generator) -> str:
    count = int(rng.integers(1, 3))
    letters = [str(rng.choice(list(CODES + "IOQÄÖÜÉ"))) for _ in range(count)]
    return "".join(f"{one}." for one in letters) if rng.random() < 0.8 else "".join(letters)


def _code(rng: np.random.Generator) -> str:
    """Make up the name of a device, a form or a record, in which letters stand by digits."""
    letters = "".join(str(c) for c in rng.choice(list(CODES + "IO"), int(rng.integers(1, 4))))
    digits = "".join(str(int(d)) for d in rng.integers(0, 10, int(rng.integers(1, 6))))
    joint = str(rng.choice(["", "", "-", "/", " "]))
    form = rng.random()
    if form < 0.6:
        return f"{letters}{joint}{digits}"
    if form < 0.8:
        return f"{digits}{joint}{letters}"
    return f"{letters}{joint}{digits}{letters[:1]}"


def _digits(rng: np.random.Generator, low: int, high: int) -> str:
    return "".join(str(int(d)) for d in rng.integers(0, 10, int(rng.integers(low, high))))


def _number(rng: np.random.Generator) -> str:
    """Write a date, a time, a level, a decimal, a share, a record number."""
    kind, (a, b, c) = rng.random(), (int(n) for n in rng.integers(0, 100, 3))
    sign = str(rng.choice(["-", "\u2212", "-", "\u2013", "+"])) if rng.random() < 0.35 else ""
    if kind < 0.22:
        day, month, year = 1 + a % 31, 1 + b % 12, 1925 + c
        mark = str(rng.choice(["/", ".", "-"]))
        forms = (
            f"{day:02d}{mark}{month:02d}{mark}{year}", f"{year}-{month:02d}-{day:02d}",
            f"{day}{mark}{month}{mark}{year % 100:02d}", f"{month}/{day}/{year}", f"{day}.", f"{year}", f"{day},",
        )  # fmt: skip
        return forms[int(rng.integers(len(forms)))]
    if kind < 0.29:
        return f"{a % 24:02d}{rng.choice([':', ':', '.', 'h'])}{b % 60:02d}"
    if kind < 0.48:
        text = f"{sign}{a % 25}{rng.choice(['.', '.', ','])}{b % 10}" + (str(c % 10) if rng.random() < 0.3 else "")
        return f"{text}{rng.choice([' ml', 'ml', ' dB', ',', ';'])}" if rng.random() < 0.1 else text
    if kind < 0.72:
        level = f"{sign}{5 * (a % 25)}" if rng.random() < 0.7 else f"{sign}{a}{b % 10 if rng.random() < 0.3 else ''}"
        form = rng.random()
        if form < 0.75:
            return level
        ends = ("*", "m", "+", ",", ";", " dB", "dB", ")", "%", " %", "NR", "/", ".")
        return (
            f"{level}{ends[int(rng.integers(len(ends)))]}"
            if form < 0.9
            else f"{rng.choice(['>', '(', '[', '<'])}{level}"
        )
    if kind < 0.82:
        return f"{a}%" if rng.random() < 0.6 else f"{a % 50}/{25 if rng.random() < 0.5 else 50}"
    if kind < 0.9:
        return f"{_digits(rng, 1, 5)}{rng.choice(['/', '-', '.', ':', ' '])}{_digits(rng, 1, 6)}"
    return _digits(rng, 1, 8)


def _dressed(word: str, rng: np.random.Generator) -> str:
    form = rng.random()
    if form < 0.14:
        return f"{word}:"
    if form < 0.23:
        return f"{word},"
    if form < 0.30:
        return f"{word}."
    if form < 0.34:
        return str(rng.choice([f"({word})", f"({word}", f"{word})", f"{word};", f"[{word}]", f"{word}/"]))
    return word
