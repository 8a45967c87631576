"""Español: lo que se le dice al paciente, frase a frase (Spanish)."""

from __future__ import annotations

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
    "heading-other": "Otras pruebas",
    "word-recognition": "Su oído {ear} acertó {number} de 100 palabras{term_words}.",
    "tympanogram-type:A": "Su tímpano {ear} se mueve como debe{term_tympanogram}.",
    "tympanogram-type:As": "Su tímpano {ear} se mueve algo menos que la mayoría{term_tympanogram}.",
    "tympanogram-type:Ad": "Su tímpano {ear} se mueve algo más que la mayoría{term_tympanogram}.",
    "tympanogram-type:C": (
        "Detrás de su tímpano {ear} hay menos presión de aire{term_tympanogram}. Por favor, pregunte."
    ),
    "tympanogram-type:B": "Su tímpano {ear} casi no se mueve{term_tympanogram}. Por favor, pregunte a un médico.",
    "emissions:pass": "Su oído interno {ear} responde a los sonidos con ecos muy pequeños{term_emissions}.",
    "emissions:refer": (
        "Los ecos muy pequeños de su oído interno {ear} no se vieron en la prueba{term_emissions}. Por favor, pregunte."
    ),
    "heading-doctor": "Un médico debería saberlo",
    "refer-sudden:within 24 hours": "Usted dijo que su audición bajó de repente. Por favor, vaya hoy al médico.",
    "refer-sudden:within 2 weeks": (
        "Usted dijo que su audición bajó de repente. Por favor, vaya al médico en dos semanas como mucho."
    ),
    "refer-if-sudden": "¿Empeoró su oído {ear} en pocos días? Entonces vaya hoy al médico.",
    "refer-ears-differ": "Sus oídos no son iguales. Se aconseja que un médico lo mire.",
    "refer-gap": "Se aconseja que un médico mire su oído {ear} antes de ponerle un audífono.",
    "refer-child": "Tiene menos de 18 años. Primero va el médico, luego el audífono.",
    "implant-evaluation": (
        "Si los audífonos no le ayudan bastante, puede preguntar a un especialista por un implante{term_implant}."
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
    "implant": "un implante coclear",
    "words": "su reconocimiento de palabras",
    "tympanogram": "lo muestra un timpanograma",
    "emissions": "otoemisiones acústicas",
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
