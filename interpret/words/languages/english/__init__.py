"""English: everything that octavo says to a person about findings. A translation is a folder like this one."""

from __future__ import annotations

from ..language import Language
from .chart import CHART
from .found import NUMBERS, PARTS, PHRASES, TITLES, WORDS
from .patient import CAUTIONS, PATIENT, QUESTIONS, TERMS, TIPS

ENGLISH = Language(
    id="en",
    name="English",
    decimal=".",
    titles=TITLES,
    parts=PARTS,
    words=WORDS,
    numbers=NUMBERS,
    ears={"right": "right", "left": "left", "both": "both ears", "unspecified": "ear not named"},
    in_ears={"right": "right", "left": "left", "both": "better", "unspecified": "unnamed"},
    conductions={"air": "air", "bone": "bone", "field": "loudspeaker"},
    phrases=PHRASES,
    chart=CHART,
    patient=PATIENT,
    terms=TERMS,
    tips=TIPS,
    questions=QUESTIONS,
    cautions=CAUTIONS,
    units={"percentile": "", "index": "", "share": ""},
)
