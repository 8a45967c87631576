"""Spanish on the redrawn chart."""

from __future__ import annotations

from ..chart_words import ChartWords

CHART = ChartWords(
    code="es",
    title="Audiograma",
    tested_on="prueba del {date}",
    date_unknown="fecha de la prueba no leída",
    several="{n} pruebas, la más reciente a pleno color",
    several_undated="{n} pruebas en el orden de la página, la última a pleno color; no se leyeron todas las fechas",
    made_from="Dibujado de nuevo por octavo según su lectura de {name}, página {page} de {pages}",
    made_from_files="Dibujado de nuevo por octavo según sus lecturas de {names}",
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
