"""Spanish for the findings beside the tones: speech, middle ear, emissions, plausibility, referral."""

from __future__ import annotations

TITLES = {
    "srt-agreement": "URV menos PTA, dB",
    "srt-better-than-average": "URV mucho mejor que la PTA",
    "word-recognition": "Reconocimiento de palabras, mejor resultado",
    "word-recognition-between-ears": "Reconocimiento de palabras, el oído peor menos el otro",
    "word-recognition-change": "Reconocimiento de palabras, cambio",
    "word-recognition-below-expected": "Reconocimiento de palabras por debajo de lo que la PTA hace esperar",
    "rollover": "Índice de caída (rollover)",
    "tympanogram-type": "Timpanograma",
    "tympanogram-type-differs": "Timpanograma, el tipo impreso no encaja con sus números",
    "ear-canal-volume": "Volumen del conducto",
    "tympanogram-width": "Ancho del timpanograma",
    "tympanogram-screening": "Timpanograma, cribado",
    "reflex-ipsilateral": "Reflejo ipsilateral",
    "reflex-contralateral": "Reflejo contralateral, oído estimulado",
    "reflex-pattern": "Reflejos ausentes o elevados",
    "reflex-decay": "Decaimiento del reflejo",
    "emissions-dpoae": "Productos de distorsión (DPOAE)",
    "emissions-teoae": "Emisiones transitorias (TEOAE)",
    "emissions-result-differs": "Emisiones, el resultado impreso no encaja con los números",
    "emissions-and-thresholds": "Las emisiones no encajan con los umbrales",
    "implausible-value": "Difícilmente puede ser así",
    "shadow-curve": "La curva puede ser la respuesta del otro oído",
    "low-bone-not-heard": "Vía ósea de baja frecuencia no oída",
    "printed-average-differs": "El promedio impreso no encaja con los valores",
    "ears-may-be-swapped": "Los oídos pueden estar cambiados",
    "refer-if-sudden": "Tamaño de una pérdida súbita; si llegó en 3 días, al médico enseguida",
    "refer-asymmetry": "Asimetría que según las guías debe verse",
    "refer-one-sided": "Pérdida de un oído que según las guías debe verse",
    "refer-gap": "Diferencia aérea-ósea que según las guías debe verse",
    "refer-child": "Menor de edad: antes al médico",
    "refer-word-scores": "Diferencia de palabras que según las guías debe verse",
    "refer-worsening": "Empeoró deprisa: según las guías, al médico en dos semanas",
    "implant-evaluation": "Se puede hablar con un especialista de una evaluación para implante",
}

WORDS = {
    "good": "bueno",
    "fair": "regular",
    "poor": "malo",
    "agrees": "concuerda",
    "differs": "difiere",
    "excellent": "excelente",
    "very poor": "muy malo",
    "different": "diferente",
    "borderline": "en el límite",
    "not different": "no diferente",
    "A": "A",
    "As": "As",
    "Ad": "Ad",
    "A, height not stated": "A, altura no indicada",
    "C": "C",
    "peak at positive pressure": "pico en presión positiva",
    "B, normal volume": "B, volumen normal",
    "B, large volume": "B, volumen grande",
    "B, small volume": "B, volumen pequeño",
    "B, volume not stated": "B, volumen no indicado",
    "small": "pequeño",
    "normal": "normal",
    "large": "grande",
    "narrow": "estrecho",
    "wide": "ancho",
    "pass": "pasa",
    "refer": "no pasa",
    "present": "presente",
    "elevated": "elevado",
    "absent": "ausente",
    "positive": "positivo",
    "negative": "negativo",
    "all present": "todos presentes",
    "whenever the right ear is stimulated": "siempre que se estimula el oído derecho",
    "whenever the left ear is stimulated": "siempre que se estimula el oído izquierdo",
    "whenever measured in the right ear": "siempre que se miden en el oído derecho",
    "whenever measured in the left ear": "siempre que se miden en el oído izquierdo",
    "the crossed ones alone": "solo los cruzados",
    "all absent or elevated": "todos ausentes o elevados",
    "no pattern of these": "ningún patrón de estos",
    "not heard where air was": "no oída donde la aérea sí",
    "at the vibrator's limit": "en el límite del vibrador",
}

NUMBERS = {
    "srt_db_hl": "URV",
    "average_db_hl": "PTA",
    "other_average_db_hl": "otro oído",
    "words": "palabras",
    "other_words": "otra lista",
    "alike_from_percent": "igual por azar desde %",
    "alike_to_percent": "hasta %",
    "score_percent": "resultado %",
    "other_score_percent": "otro %",
    "best_percent": "mejor %",
    "least_percent": "peor %",
    "limit": "límite",
    "peak_dapa": "daPa",
    "peak_mmho": "mmho",
    "volume_ml": "mL",
    "width_dapa": "ancho daPa",
    "printed_db_hl": "impreso",
    "read_db_hl": "leído",
}

PATIENT = {
    "heading-words": "Cómo entiende las palabras",
    "word-recognition": (
        "Su oído {ear} acertó {percent} de cada 100 palabras cuando eran lo bastante fuertes{term_words}."
    ),
    "word-recognition-alike": "Sus dos oídos entienden las palabras más o menos igual de bien.",
    "word-recognition-differ": "Su oído {ear} entiende menos palabras que el otro.",
    "heading-seen": "Qué preguntar a un médico",
    "refer-if-sudden": (
        "¿Un oído empeoró mucho en tres días? Entonces vaya al médico enseguida, hoy si puede. Si es así desde "
        "hace mucho, dígaselo a su audiólogo."
    ),
    "refer-asymmetry": "Sus dos oídos oyen tan distinto que un médico debería mirarlos.",
    "refer-one-sided": "Un oído oye mucho menos que el otro. Un médico debería mirarlo.",
    "refer-gap": "Parece que el sonido se frena en el camino a su oído {ear}. Un médico debería mirarlo.",
    "refer-child": "Un menor debe ver a un médico antes de llevar un audífono.",
    "refer-word-scores": "Sus dos oídos entienden las palabras de forma distinta. Un médico debería mirarlos.",
    "refer-worsening": "Su oído {ear} oye menos que hace poco. Por favor, vaya al médico en dos semanas.",
    "implant-evaluation": (
        "Si los audífonos no ayudan bastante, puede preguntar a un especialista si un implante ayudaría. Es solo "
        "una pregunta{term_implant}."
    ),
}

TERMS = {
    "words": "el reconocimiento de palabras",
    "implant": "una evaluación para implante coclear",
}
