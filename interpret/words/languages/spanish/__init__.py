"""Español: todo lo que octavo dice a una persona sobre los hallazgos (Spanish; the English folder is its pattern)."""

from __future__ import annotations

from ..language import Language
from .chart import CHART
from .found import NOTES, NUMBERS, PARTS, PHRASES, TITLES, WORDS
from .patient import CAUTIONS, PATIENT, QUESTIONS, TERMS, TIPS

SPANISH = Language(
    id="es",
    name="español",
    decimal=",",
    titles=TITLES,
    parts=PARTS,
    words=WORDS,
    numbers=NUMBERS,
    ears={"right": "derecho", "left": "izquierdo", "both": "ambos oídos", "unspecified": "oído sin nombrar"},
    in_ears={"right": "derecho", "left": "izquierdo", "both": "mejor", "unspecified": "sin nombrar"},
    conductions={"air": "aérea", "bone": "ósea", "field": "altavoz"},
    phrases=PHRASES,
    chart=CHART,
    patient=PATIENT,
    terms=TERMS,
    tips=TIPS,
    questions=QUESTIONS,
    cautions=CAUTIONS,
    notes=NOTES,
    units={"percentile": "", "index": "", "share": ""},
)
