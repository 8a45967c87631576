"""The words that stand on a redrawn chart, by language."""

from __future__ import annotations

from dataclasses import dataclass

from ..errors import MisuseError
from ..record import Threshold


@dataclass(frozen=True, slots=True)
class ChartWords:
    """The words of one language; those in braces are filled in."""

    code: str
    title: str
    tested_on: str
    date_unknown: str
    several: str
    made_from: str
    frequency_axis: str
    level_axis: str
    ears: dict[str, str]
    conductions: dict[str, str]
    masked: str
    aided: str
    measures: dict[str, str]
    no_response: str
    not_heard: str
    open_to_question: str
    to_check: str
    speech_region: str
    caution: str

    def kind(self, threshold: Threshold) -> str:
        """Name what a mark stands for: "right ear, bone, masked"."""
        parts = (
            self.ears[threshold.ear],
            self.conductions[threshold.conduction]
            if threshold.ear != "both" or threshold.conduction != "field"
            else "",
            self.masked if threshold.masked else "",
            self.aided if threshold.aided else "",
            self.measures.get(threshold.measure, ""),
        )
        return ", ".join(part for part in parts if part)

    def level(self, threshold: Threshold) -> str:
        """Write a level: "35 dB HL", "not heard at 110 dB HL", "35 dB HL (to check)"."""
        level = f"{threshold.level_db_hl:g} dB HL"
        told = level if threshold.response else self.not_heard.format(level=level)
        return f"{told} ({self.to_check})" if threshold.standing == "ask" else told


_ENGLISH = ChartWords(
    code="en",
    title="Audiogram",
    tested_on="tested on {date}",
    date_unknown="test date not read",
    several="{n} tests, the latest in full colour",
    made_from="Drawn anew by octavo from its reading of {name}, page {page} of {pages}",
    frequency_axis="Frequency (Hz)",
    level_axis="Hearing level (dB HL)",
    ears={"right": "right ear", "left": "left ear", "both": "both ears, loudspeaker", "unspecified": "ear not named"},
    conductions={"air": "air", "bone": "bone", "field": "loudspeaker"},
    masked="masked",
    aided="aided",
    measures={"mcl": "most comfortable level", "ucl": "uncomfortable level"},
    no_response="no response at this level",
    not_heard="not heard at {level}",
    open_to_question="open to question: look at the original",
    to_check="to check",
    speech_region="average conversation at 1 m (ANSI S3.5-1997)",
    caution="This is a reading of a chart. It is not a hearing test and not a diagnosis. Every value was taken from a "
    "picture of the page: check it against the original before use.",
)
_SPANISH = ChartWords(
    code="es",
    title="Audiograma",
    tested_on="prueba del {date}",
    date_unknown="fecha de la prueba no leída",
    several="{n} pruebas, la más reciente a pleno color",
    made_from="Dibujado de nuevo por octavo según su lectura de {name}, página {page} de {pages}",
    frequency_axis="Frecuencia (Hz)",
    level_axis="Nivel de audición (dB HL)",
    ears={"right": "oído derecho", "left": "oído izquierdo", "both": "ambos oídos, altavoz",
          "unspecified": "oído no indicado"},
    conductions={"air": "vía aérea", "bone": "vía ósea", "field": "altavoz"},
    masked="enmascarado",
    aided="con audífono",
    measures={"mcl": "nivel más cómodo", "ucl": "nivel molesto"},
    no_response="sin respuesta a este nivel",
    not_heard="no oído a {level}",
    open_to_question="dudoso: mire el original",
    to_check="por comprobar",
    speech_region="conversación media a 1 m (ANSI S3.5-1997)",
    caution="Esto es la lectura de un gráfico. No es una prueba de audición ni un diagnóstico. Cada valor se tomó "
    "de una imagen de la página: compruébelo con el original antes de usarlo.",
)  # fmt: skip
_LANGUAGES = {"english": _ENGLISH, "spanish": _SPANISH}


def chart_words(language: str) -> ChartWords:
    """Give the words of a language, or say which there are (MisuseError)."""
    if language not in _LANGUAGES:
        raise MisuseError(f"there are no words in '{language}'", f"Choose one of {', '.join(_LANGUAGES)}")
    return _LANGUAGES[language]
