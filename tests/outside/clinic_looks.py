"""How clinics' programs, word processors and forms make an audiogram look: drawn by lot, one decision a field."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np
from cases import pick
from clinic_tools import FACES, Colour

from octavo.interpret.record import Ear

OCTAVES = (125, 250, 500, 1000, 2000, 4000, 8000)
ALL = (125, 250, 500, 750, 1000, 1500, 2000, 3000, 4000, 6000, 8000)
INTER = frozenset({750, 1500, 3000, 6000})
AXES: dict[str, tuple[tuple[int, ...], bool]] = {
    "octaves": (OCTAVES, False), "from 250": (OCTAVES[1:], False), "inter-octaves": (ALL, False),
    "high inter-octaves": ((125, 250, 500, 1000, 2000, 3000, 4000, 6000, 8000), False), "equal": (ALL, True),
    "extended": ((125, 250, 500, 1000, 2000, 4000, 8000, 10000, 12500, 16000), True),
}  # fmt: skip
"""The printed frequencies, and whether all stand equally far apart."""
Symbols = Literal["usual", "british", "turned"]


@dataclass(frozen=True, slots=True)
class Words:
    """What a page prints, in its language; of titles one is drawn by lot."""

    frequency: tuple[str, ...]
    level: tuple[str, ...]
    right: tuple[str, ...]
    left: tuple[str, ...]
    air: str
    bone: str
    masked: str
    unmasked: str
    field: str
    loud: str
    title: str
    degrees: tuple[str, ...]


LANGUAGES = {
    "english": Words(
        ("Frequency (Hz)", "Frequency in Hertz", "Hz"), ("Hearing Level (dB HL)", "dB HL", "Hearing level in decibels"),
        ("Right ear", "RIGHT"), ("Left ear", "LEFT"), "Air", "Bone", "masked", "unmasked", "Sound field",
        "Uncomfortable level", "Audiogram", ("Normal", "Mild", "Moderate", "Mod. severe", "Severe", "Profound"),
    ),
    "german": Words(
        ("Frequenz (Hz)", "Frequenz in Hz", "Hz"), ("Hörverlust (dB)", "dB HL", "Hörpegel dB"),
        ("Rechtes Ohr", "RECHTS"), ("Linkes Ohr", "LINKS"), "Luftleitung", "Knochenleitung", "vertäubt", "unvertäubt",
        "Freifeld", "Unbehaglichkeitsschwelle", "Tonaudiogramm",
        ("normal", "gering", "mittel", "mittel-hoch", "hoch", "resthörig"),
    ),
    "french": Words(
        ("Fréquence (Hz)", "Fréquences en Hz"), ("Perte auditive (dB)", "dB HL"), ("Oreille droite", "DROITE"),
        ("Oreille gauche", "GAUCHE"), "Conduction aérienne", "Conduction osseuse", "masquée", "non masquée",
        "Champ libre", "Seuil d'inconfort", "Audiométrie tonale",
        ("Normale", "Légère", "Moyenne", "Moyenne II", "Sévère", "Profonde"),
    ),
    "spanish": Words(
        ("Frecuencia (Hz)", "Hz"), ("Nivel de audición (dB HL)", "Pérdida auditiva (dB)"), ("Oído derecho", "DERECHO"),
        ("Oído izquierdo", "IZQUIERDO"), "Vía aérea", "Vía ósea", "enmascarada", "sin enmascarar", "Campo libre",
        "Umbral de molestia", "Audiometría tonal", ("Normal", "Leve", "Moderada", "Mod. severa", "Severa", "Profunda"),
    ),
    "dutch": Words(
        ("Frequentie (Hz)", "Hz"), ("Gehoorverlies (dB)", "dB HL"), ("Rechteroor", "RECHTS"), ("Linkeroor", "LINKS"),
        "Luchtgeleiding", "Beengeleiding", "gemaskeerd", "ongemaskeerd", "Vrije veld", "Onaangenaam luid",
        "Toonaudiogram", ("Normaal", "Licht", "Matig", "Matig ernstig", "Ernstig", "Zeer ernstig"),
    ),
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Look:
    """All that a clinic decides once; lengths in points."""

    words: Words
    face: str
    dpi: int
    kind: Literal["letter", "program", "screen"]
    axis: str
    levels: tuple[int, int]
    label_step: int
    label_side: Literal["left", "right", "both"]
    frequencies_at: Literal["above", "below", "both"]
    thousands: Literal["1000", "1k", "kHz", "1 000"]
    margin: float
    charts: Literal["one", "beside", "stacked"]
    inks: dict[Ear, Colour]
    grid: Literal["solid", "dashed", "level", "minor", "none"]
    grid_ink: Colour
    grid_width: float
    frame_width: float
    mark: float
    stroke: float
    joins: tuple[str, str, str]
    """How the right ear's air, the left ear's and bone are joined: solid, dashed or none."""
    join_width: float
    symbols: Symbols
    beside: float
    arrow: tuple[float, bool, bool]
    """How long it is in marks, whether its head is filled, and whether it hangs straight down."""
    key: Literal["none", "below", "right"]
    zones: Literal["none", "shades", "words", "both"]
    more: Literal["none", "loud", "field"]
    type_size: float

    @property
    def ticks(self) -> tuple[int, ...]:
        """The printed frequencies."""
        return AXES[self.axis][0]


def by_lot(rng: np.random.Generator) -> Look:
    """Draw a clinic's habits."""
    red = pick(rng, ((255, 0, 0), (200, 0, 0), (220, 20, 60), (192, 57, 43)))
    blue = pick(rng, ((0, 0, 255), (0, 0, 160), (30, 100, 200), (0, 70, 140)))
    black = (0, 0, 0)
    coloured = bool(rng.random() < 0.75)
    symbols: Symbols = pick(rng, ("usual", "usual", "usual", "usual", "british", "turned"))
    join = pick(rng, ("solid", "solid", "dashed", "none"))
    charts: Literal["one", "beside", "stacked"] = pick(rng, ("one", "beside", "stacked"))
    more: Literal["none", "loud", "field"] = pick(rng, ("none", "none", "loud", "field"))
    if (more == "field" and charts != "one") or (more == "loud" and charts == "one" and not coloured):
        more = "none"  # then no mark says which ear heard it
    return Look(
        words=LANGUAGES[pick(rng, list(LANGUAGES))],
        face=pick(rng, list(FACES)),
        dpi=pick(rng, (96, 120, 150, 200, 300)),
        kind=pick(rng, ("letter", "program", "program", "screen")),
        axis=pick(rng, list(AXES)),
        levels=(pick(rng, (-10, -10, -20, 0)), pick(rng, (100, 110, 120, 130))),
        label_step=pick(rng, (10, 10, 20)),
        label_side=pick(rng, ("left", "left", "right", "both")),
        frequencies_at=pick(rng, ("above", "below", "both")),
        thousands=pick(rng, ("1000", "1000", "1k", "kHz", "1 000")),
        margin=pick(rng, (0.0, 0.25, 0.5)),
        charts=charts,
        inks={"right": red, "left": blue} if coloured else {"right": black, "left": black},
        grid=pick(rng, ("solid", "solid", "solid", "dashed", "level", "minor", "none")),
        grid_ink=pick(
            rng, (black, (120, 120, 120), (190, 190, 190), (215, 215, 215), (150, 180, 210), (170, 200, 170))
        ),
        grid_width=pick(rng, (0.25, 0.4, 0.5, 0.75, 1.0)),
        frame_width=pick(rng, (0.5, 1.0, 1.5, 2.0)),
        mark=pick(rng, (2.2, 3.0, 3.5, 4.0, 4.5, 5.5)),
        stroke=pick(rng, (0.4, 0.7, 1.0, 1.3, 1.8)),
        joins=(join, join if join == "none" else pick(rng, (join, "dashed")), pick(rng, ("none", "dashed", "solid"))),
        join_width=pick(rng, (0.4, 0.7, 1.0, 1.5)),
        symbols=symbols,
        beside=pick(rng, (0.9, 1.2, 1.6)),
        arrow=(pick(rng, (1.6, 2.2, 3.2)), bool(rng.random() < 0.3), bool(rng.random() < 0.3)),
        key=pick(rng, ("none", "below", "right") if symbols == "usual" else ("below", "right")),
        zones=pick(rng, ("none", "none", "shades", "words", "both")),
        more=more,
        type_size=pick(rng, (5.5, 6.5, 7.5, 8.5)),
    )
