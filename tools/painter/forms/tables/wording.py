"""What printed tables of thresholds say: names of ears and conductions in four languages, and what cells hold."""

from __future__ import annotations

from dataclasses import dataclass

from ...patient import Tone

Row = tuple[str, str, bool, bool]
"""Ear, conduction, masked, aided."""


@dataclass(frozen=True, slots=True)
class Tongue:
    """A language's words; each tuple goes from the longest form to the shortest."""

    right: tuple[str, ...]
    left: tuple[str, ...]
    air: tuple[str, ...]
    bone: tuple[str, ...]
    field: tuple[str, ...]
    masked: tuple[str, ...]
    aided: tuple[str, ...]
    frequency: str
    title: tuple[str, ...]
    note_masked: str
    note_unheard: str
    note_untested: str


TONGUES: dict[str, Tongue] = {
    "english": Tongue(
        ("Right ear", "Right", "R", "RE"), ("Left ear", "Left", "L", "LE"),
        ("Air conduction", "Air", "AC", "AC"), ("Bone conduction", "Bone", "BC", "BC"),
        ("Sound field", "Sound field", "SF", "SF"), ("masked", "masked", "m", "m"),
        ("aided", "aided", "aided", "aided"), "Frequency",
        ("Thresholds in dB HL", "Pure-tone thresholds (dB HL)", "Hearing thresholds"),
        "masked", "no response at this level", "not tested",
    ),
    "german": Tongue(
        ("Rechtes Ohr", "Rechts", "R", "re"), ("Linkes Ohr", "Links", "L", "li"),
        ("Luftleitung", "Luft", "LL", "LL"), ("Knochenleitung", "Knochen", "KL", "KL"),
        ("Freifeld", "Freifeld", "FF", "FF"), ("vertäubt", "vertäubt", "vert.", "vert."),
        ("mit Hörgerät", "versorgt", "versorgt", "versorgt"), "Frequenz",
        ("Hörschwellen in dB HL", "Tonschwellen (dB HL)"),
        "vertäubt", "keine Antwort bei diesem Pegel", "nicht geprüft",
    ),
    "spanish": Tongue(
        ("Oído derecho", "Derecho", "OD", "OD"), ("Oído izquierdo", "Izquierdo", "OI", "OI"),
        ("Vía aérea", "Aérea", "VA", "VA"), ("Vía ósea", "Ósea", "VO", "VO"),
        ("Campo libre", "Campo libre", "CL", "CL"), ("enmascarado", "enmasc.", "enm.", "m"),
        ("con audífono", "con audífono", "con audífono", "con audífono"), "Frecuencia",
        ("Umbrales en dB HL", "Umbrales tonales (dB HL)"),
        "enmascarado", "sin respuesta a este nivel", "no explorado",
    ),
    "french": Tongue(
        ("Oreille droite", "Droite", "OD", "D"), ("Oreille gauche", "Gauche", "OG", "G"),
        ("Conduction aérienne", "Aérienne", "CA", "CA"), ("Conduction osseuse", "Osseuse", "CO", "CO"),
        ("Champ libre", "Champ libre", "CL", "CL"), ("masqué", "masqué", "masq.", "m"),
        ("appareillé", "appareillé", "appareillé", "appareillé"), "Fréquence",
        ("Seuils en dB HL", "Seuils tonaux (dB HL)"),
        "masqué", "pas de réponse à ce niveau", "non testé",
    ),
}  # fmt: skip


def ear_name(tongue: Tongue, ear: str, form: int) -> str:
    """Name an ear; the empty text for a loudspeaker's row, which names none."""
    return {"right": tongue.right, "left": tongue.left}.get(ear, ("",) * 4)[form]


def way_name(tongue: Tongue, row: Row, form: int) -> str:
    """Name a row's conduction."""
    return {"air": tongue.air, "bone": tongue.bone, "field": tongue.field}[row[1]][form]


def added(tongue: Tongue, row: Row, form: int) -> str:
    """Say that a row is masked or aided, where it is."""
    return " ".join(words[form] for words, is_so in ((tongue.masked, row[2]), (tongue.aided, row[3])) if is_so)


@dataclass(frozen=True, slots=True)
class Signs:
    """How cells say what is no plain level.

    Attributes
    ----------
    masked : str
        ``row`` (rows of their own), ``none`` (not told), or a sign at the number: ``*``, ``m``, ``[]``, ``()``.
    unheard : str
        No response at a level: ``+`` or an arrow behind it, ``>`` before it, ``NR`` behind it; ``bare`` is NR alone.
    untested : str
        What stands where nothing was measured.
    """

    masked: str = "row"
    unheard: str = "+"
    untested: str = ""


def cell_text(tone: Tone | None, signs: Signs) -> str:
    """Write a cell."""
    if tone is None:
        return signs.untested
    text = f"{tone.level_db_hl + 0.0:g}"  # no "-0"
    if not tone.response:
        forms = {"+": f"{text}+", ">": f">{text}", "NR": f"{text} NR", "bare": "NR", "down": f"{text}↓"}
        text = forms[signs.unheard]
    if tone.masked and signs.masked not in ("row", "none"):
        text = f"{signs.masked[0]}{text}{signs.masked[1]}" if len(signs.masked) == 2 else f"{text}{signs.masked}"
    return text


def notes(tongue: Tongue, signs: Signs) -> tuple[str, ...]:
    """Explain the signs, as a line below the table does."""
    lines = []
    if signs.masked not in ("row", "none"):
        lines.append(f"{' '.join(signs.masked)} = {tongue.note_masked}")
    if signs.unheard in ("+", ">", "NR", "down"):
        sign = "↓" if signs.unheard == "down" else signs.unheard
        lines.append(f"{sign} = {tongue.note_unheard}")
    if signs.untested in ("DNT", "CNT", "n.t."):
        lines.append(f"{signs.untested} = {tongue.note_untested}")
    return tuple(lines)
