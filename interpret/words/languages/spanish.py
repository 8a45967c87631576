"""Español: todo lo que octavo dice a una persona sobre los hallazgos (Spanish; the English file is its pattern)."""

from __future__ import annotations

from .language import Language

TITLES = {
    "average": "PTA, dB HL por kHz,",
    "average-better-ear": "PTA del mejor oído, dB HL por kHz",
    "average-binaural": "PTA, media de ambos oídos, dB HL por kHz",
    "degree": "Grado",
    "air-bone-gap": "Diferencia aéreo-ósea",
    "bone-may-be-felt": "La vía ósea pudo sentirse y no oírse",
    "loss-type": "Tipo",
    "air-masking-not-shown": "La vía aérea puede ser respuesta del otro oído, sin enmascaramiento visible",
    "bone-masking-not-shown": "La vía ósea no puede asignarse, sin enmascaramiento visible",
    "configuration": "Configuración",
    "pitch-low": "Tonos graves",
    "pitch-middle": "Tonos medios",
    "pitch-high": "Tonos agudos",
    "notch": "Muesca",
    "asymmetry": "Asimetría",
    "threshold-change": "Cambio",
    "average-change": "Cambio de la PTA en 0,5, 1, 2 y 4 kHz, dB",
    "standard-threshold-shift": "Desplazamiento estándar del umbral",
    "recordable-shift": "Registrable, si se debe al trabajo",
    "significant-shift": "Desplazamiento significativo del umbral, por confirmar de inmediato",
    "age-percentile": "Percentil por edad y sexo",
    "noise-expectation": "Desplazamiento esperado por el ruido, mediana",
    "handicap": "Discapacidad auditiva",
    "handicap-biap": "Promedio para oídos desiguales",
    "audibility-quiet": "Audibilidad del habla en silencio (SII)",
    "audibility-noise": "Audibilidad del habla en ruido (SII)",
    "speech-region-voice": "Voz, vocales, m, n",
    "speech-region-vowels": "Vocales, l, r, p, j, g",
    "speech-region-stops": "ch, k, t",
    "speech-region-hiss": "f, s, z",
    "gain-indication": "Primera ganancia según la regla, orientativa; la ajusta y verifica un profesional",
}

PARTS = {
    "averages": "Promedios",
    "degree": "Grado",
    "type": "Tipo y enmascaramiento",
    "configuration": "Configuración",
    "ears": "Comparación de los oídos",
    "change": "Cambio",
    "age and noise": "Edad y ruido (grupos, no este oído)",
    "handicap": "Discapacidad (convenciones legales)",
    "audibility": "Audibilidad, sin audífono",
    "speech": "Habla",
    "middle ear": "Oído medio",
    "emissions": "Otoemisiones acústicas",
    "plausibility": "Plausibilidad",
    "referral": "Derivación",
}

WORDS = {
    "met": "se cumple",
    "not met": "no se cumple",
    "normal": "normal",
    "normal or subnormal": "normal o casi normal",
    "no descriptor given": "sin descriptor",
    "slight": "ligera",
    "mild": "leve",
    "moderate": "moderada",
    "moderately severe": "moderadamente severa",
    "severe": "severa",
    "profound": "profunda",
    "complete": "completa",
    "unilateral": "unilateral",
    "grade 0 no impairment": "grado 0, sin deficiencia",
    "grade 1 slight": "grado 1, ligera",
    "grade 2 moderate": "grado 2, moderada",
    "grade 3 severe": "grado 3, severa",
    "grade 4 profound": "grado 4, profunda",
    "moderate 1st degree": "moderada de 1.er grado",
    "moderate 2nd degree": "moderada de 2.º grado",
    "severe 1st degree": "severa de 1.er grado",
    "severe 2nd degree": "severa de 2.º grado",
    "very severe 1st degree": "muy severa de 1.er grado",
    "very severe 2nd degree": "muy severa de 2.º grado",
    "very severe 3rd degree": "muy severa de 3.er grado",
    "total (cophosis)": "total (cofosis)",
    "within normal limits": "dentro de los límites normales",
    "conductive": "conductiva",
    "sensorineural": "neurosensorial",
    "mixed": "mixta",
    "cannot tell without bone": "no se sabe sin vía ósea",
    "cannot tell, masking not shown": "no se sabe, sin enmascaramiento visible",
    "cannot tell, not heard": "no se sabe, sin respuesta",
    "flat": "plana",
    "rising": "ascendente",
    "gently sloping": "descendente suave",
    "steeply sloping": "descendente pronunciada",
    "precipitously sloping": "descendente abrupta",
    "trough": "en cubeta",
    "peaked": "en pico",
    "notched": "con muesca",
    "high-frequency": "de altas frecuencias",
    "corner": "en esquina",
    "sloping": "descendente",
    "low-frequency": "de bajas frecuencias",
    "U-shaped": "en U",
    "other": "otra",
    "low-frequency ascending": "de bajas frecuencias, ascendente",
    "mid-frequency U-shaped": "de frecuencias medias, en U",
    "better": "mejor",
    "perhaps better": "quizá mejor",
    "within retest": "dentro de la repetición",
    "perhaps worse": "quizá peor",
    "worse": "peor",
    "heard": "se oye",
    "partly heard": "se oye en parte",
    "not heard": "no se oye",
    "not for conductive parts": "no sirve para la parte conductiva",
}

NUMBERS = {
    "gap_db": "diferencia",
    "air_db_hl": "aérea",
    "bone_db_hl": "ósea",
    "limit_db": "desde",
    "least_db_hl": "mínimo",
    "most_db_hl": "máximo",
    "from_hz": "desde Hz",
    "to_hz": "hasta Hz",
    "old_db_hl": "antes",
    "new_db_hl": "ahora",
    "old_mean_db_hl": "media antes",
    "new_mean_db_hl": "media ahora",
    "shift_db": "desplazamiento",
    "level_db_hl": "nivel",
    "median_db_hl": "mediana",
    "tenth_db_hl": "mejor décimo",
    "ninetieth_db_hl": "peor décimo",
    "noise_tenth_db": "mejor décimo",
    "noise_median_db": "mediana",
    "noise_ninetieth_db": "peor décimo",
    "age_and_noise_tenth_db_hl": "con la edad: mejor décimo",
    "age_and_noise_median_db_hl": "con la edad: mediana",
    "age_and_noise_ninetieth_db_hl": "con la edad: peor décimo",
    "right_mean_db_hl": "derecho",
    "left_mean_db_hl": "izquierdo",
    "distance_m": "m",
    "index_by_octaves": "por octavas",
    "speech_to_noise_db": "señal a ruido dB",
}

PHRASES = {
    "and": "y",
    "or": "o",
    "test": "Prueba del {date}",
    "test_undated": "Prueba, fecha no leída",
    "age": "edad {years}",
    "female": "mujer",
    "male": "hombre",
    "symbols": "símbolos: {symbols}",
    "earphone": "auricular: {earphone}",
    "reliability": "fiabilidad indicada: {reliability}",
    "to_check": "{asking} de {count} valores por comprobar, marcados con ?",
    "nothing_to_check": "ningún valor por comprobar",
    "at_least": "al menos {text}",
    "missing": "sin valor en {hertz}",
    "silent": "sin respuesta en {hertz}",
    "range": "{low} a {high}",
    "open_range": "{low} o más",
    "up_to": "hasta {high}",
    "could_be": "podría ser {words}",
    "check_first": "comprobar antes {hertz}",
    "check": "comprobar antes",
    "untold": "no se puede saber",
    "both": "ambos oídos",
    "normal_limit": "Límite normal usado: {source}.",
    "scheme_note": "Sobre el grado, {name}: {note}.",
    "no_audiogram": "No se leyó ningún audiograma en esta página.",
    "date_unknown": "fecha no leída",
    "compared": "{new} comparada con {old}",
    "no_age_correction": "Sin sexo y fecha de nacimiento no hay corrección por edad del desplazamiento.",
    "plot_title": "Umbrales aéreos en el tiempo, dB HL",
    "plot_legend": "500 a 8k: frecuencia en Hz    ? por comprobar    flecha: sin respuesta a este nivel",
    "old": "antes",
    "new": "ahora",
    "change": "cambio",
}

PATIENT = {
    "title": "Su prueba de oído en palabras sencillas",
    "dated": "Trata de la prueba del {date}.",
    "undated": "La fecha de la prueba no se pudo leer.",
    "reading": (
        "Un programa leyó los números en una imagen de su gráfico. No midió su oído. No sabe por qué oye usted así."
    ),
    "ask": "Una persona tiene que comprobar antes algunos números. Lo que depende de ellos lleva la marca (?).",
    "no-audiogram": "En esta página no se encontró un gráfico de audición.",
    "heading-hearing": "Cómo oye usted",
    "level": (
        "Un número dice qué fuerza necesitó un sonido para que usted lo oyera{term_threshold}. Se cuenta en"
        " decibelios, o dB. Un número pequeño es bueno: basta un sonido suave. Un susurro son unos 30 dB. "
        "Una charla son unos 60 dB."
    ),
    "ear": "Su oído {ear}",
    "pitch-low": "Sonidos graves, como un tambor o una voz profunda: {levels}.",
    "pitch-middle": "Sonidos medios, como casi toda la voz: {levels}.",
    "pitch-high": "Sonidos agudos, como los pájaros o las letras s y f: {levels}.",
    "levels": "necesita de {least} a {most} dB",
    "levels-one": "necesita unos {least} dB",
    "levels-silent": "necesita {least} dB o más, y algún tono no se oyó",
    "degree": 'La escala "{rule}" llama a esto: {word}{term_degree}.',
    "degree-at-least": 'La escala "{rule}" llama a esto: {word}, o más{term_degree}.',
    "degree-person": 'Para los dos oídos juntos la escala "{rule}" dice: {word}.',
    "degree-missing": "Hay muy pocos números para ponerle un nombre.",
    "could-be": "Hasta que se comprueben los números también podría ser: {words}.",
    "loss-type:within normal limits": "",
    "loss-type:conductive": "Parece que el sonido se frena en el camino, antes del oído interno{term_conductive}.",
    "loss-type:sensorineural": (
        "Parece que el sonido entra bien. El oído interno o su nervio transmite menos{term_sensorineural}."
    ),
    "loss-type:mixed": "Parece que el sonido se frena en el camino y que el oído interno transmite menos{term_mixed}.",
    "loss-type:cannot tell without bone": "Este gráfico no muestra de qué parte del oído se trata.",
    "loss-type:cannot tell, masking not shown": (
        "Este gráfico no muestra con seguridad de qué parte del oído se trata. Un oído pudo ayudar al otro "
        "en la prueba{term_masking}."
    ),
    "loss-type:cannot tell, not heard": (
        "Este gráfico no muestra de qué parte del oído se trata. Algunos tonos no se oyeron ni siendo fuertes."
    ),
    "heading-speech": "Qué significa para hablar con otros",
    "audible-quiet": (
        "Una voz normal, a un metro y sin ruido: su oído {ear} recibe {near} de sus "
        "sonidos{term_audibility}. A cuatro metros recibe {far}."
    ),
    "audible-noise": (
        "Con un ruido tan fuerte como la voz recibe {noisy}. También un buen oído recibe entonces solo la mitad."
    ),
    "tenths": "unos {count} de cada 10",
    "tenths-none": "casi ninguno",
    "tenths-all": "casi todos",
    "regions-not-heard": "Su oído {ear} no recibe bien estos sonidos: {sounds}.",
    "regions-partly": "Su oído {ear} recibe en parte estos sonidos: {sounds}.",
    "speech-region-voice": "la parte grave de la voz, m y n",
    "speech-region-vowels": "a, e, o, y también l y r",
    "speech-region-stops": "k, t y ch",
    "speech-region-hiss": "f, s y z",
    "heading-ears": "Sus dos oídos",
    "asymmetry-met": (
        "Su oído {ear} oye menos que el otro, según al menos una regla que usan los médicos. Por favor, "
        "pregunte a un médico{term_asymmetry}."
    ),
    "asymmetry-open": "Puede ser que su oído {ear} oiga menos que el otro. Haga comprobar los números.",
    "asymmetry-small": (
        "Su oído {ear} oye un poco menos que el otro. Una diferencia tan pequeña puede venir de la prueba."
    ),
    "asymmetry-none": "Sus dos oídos oyen más o menos igual.",
    "heading-age": "Usted y otras personas de su edad",
    "age-percentile": (
        "Piense en 100 personas de su edad y sexo. Unas {count} oyen los sonidos agudos igual que su oído "
        "{ear}, o mejor."
    ),
    "heading-tips": "Qué ayuda al hablar",
    "heading-questions": "Qué puede preguntar a su audiólogo",
    "heading-cautions": "Tenga en cuenta",
    "better-ear": "Siéntese con su oído {ear} hacia la persona que habla.",
}

TERMS = {
    "threshold": "su umbral",
    "degree": "el grado de la pérdida auditiva",
    "conductive": "una pérdida conductiva",
    "sensorineural": "una pérdida neurosensorial",
    "mixed": "una pérdida mixta",
    "masking": "lo que evita el enmascaramiento",
    "audibility": "la audibilidad",
    "asymmetry": "una asimetría",
}

TIPS = (
    "Pida que le miren y que hablen claro, no fuerte.",
    "Acérquese. A la mitad de distancia la voz suena mucho más fuerte.",
    "Apague la música o la televisión mientras hablan.",
    "Siéntese donde la luz dé en la cara de la otra persona.",
    "Diga lo que oyó y pregunte por la parte que le faltó.",
    "En un grupo, pida que hable una persona cada vez.",
)

QUESTIONS = (
    "¿Qué significan mis números para mi día a día?",
    "¿Ha cambiado mi audición desde la última prueba?",
    "¿De qué parte de mi oído se trata?",
    "¿Necesito otra prueba, o un médico?",
    "¿Qué me puede ayudar en casa, en la escuela o en el trabajo?",
    "¿Cuándo debo repetir la prueba?",
)

CAUTIONS = (
    "Esta página explica la imagen de un gráfico. No es una prueba de oído y no dice qué tiene usted.",
    "Compare los números con su gráfico antes de usarlos.",
    (
        "Vaya pronto al médico si de repente oye mucho menos, o sobre todo en un oído. También si le duele "
        "o le supura el oído, si se marea, o si le zumba un solo oído."
    ),
    "Pregunte a un profesional de la audición por los audífonos y otras ayudas, y por el trabajo.",
    "Los nombres cambian de un país a otro. Esta página nombra la escala que usó.",
)

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
    patient=PATIENT,
    terms=TERMS,
    tips=TIPS,
    questions=QUESTIONS,
    cautions=CAUTIONS,
    units={"percentile": "", "index": "", "share": ""},
)
