"""What the words say that the label reader learns from: axis numbers of every form, units, and words of reports."""

from __future__ import annotations

import numpy as np

FREQUENCIES = (125, 250, 375, 500, 750, 1000, 1500, 2000, 3000, 4000, 5000, 6000, 8000, 9000, 10000, 11200, 12500,
               14000, 16000, 18000, 20000)  # fmt: skip
LEVELS = tuple(range(-20, 141, 5))
UNITS = ("Hz", "kHz", "dB", "dB HL", "HL", "Hz.", "(Hz)", "(kHz)", "(dB)", "(dB HL)", "%", "dB(HL)", "dBHL", "dB SPL",
         "in Hz", "in dB", "en Hz", "en dB", "[Hz]", "[dB]")  # fmt: skip

ENGLISH = """
frequency hearing level loss right left ear ears both air bone conduction masked unmasked masking not response
no threshold thresholds hertz decibel pure tone tones audiogram audiometry audiometer speech reception recognition
discrimination word score list test tests report patient name date birth born age sex male female clinic referred
comments notes remarks signed tested by key legend symbol symbols aided unaided sound field free uncomfortable
comfortable loudness most ull ucl mcl srt pta sds ac bc nr average normal mild moderate moderately severe severely
profound deaf sensorineural conductive mixed tympanometry tympanogram immittance pressure volume compliance reflex
acoustic stapedial ipsilateral contralateral otoscopy clear wax tinnitus vertigo inserts headphones transducer
calibration reliability good fair poor warble narrow band noise pulsed vibrotactile implant cochlear with without
and or of the in for at to is a page follow-up today previous result results
r l r/l re le rt lt r. l. mask mask. resp resp. unmask freq. thr. avg. vs
"""
GERMAN = """
rechts links rechtes linkes ohr ohren beide luftleitung knochenleitung luft knochen leitung hörschwelle hörverlust
hörpegel schwelle vertäubt unvertäubt maskiert unmaskiert nicht ohne mit vertäubung keine antwort frequenz
tonaudiogramm reintonaudiogramm sprachaudiogramm hörgerät freifeld unbehaglichkeit geburtsdatum datum patientin
befund prüfer normalhörig geringgradig mittelgradig hochgradig taubheit sprache einsilber zahlen pegel legende zeichen
verständlichkeit mithörschwelle gehör prüfung größe für und oder seite von
"""
FRENCH = """
oreille oreilles droite gauche aérienne osseuse conduction voie os air masquée masqué masquage masque non sans avec
seuil seuils fréquence fréquences intensité perte auditive audition réponse pas absence audiogramme tonale vocale
inconfort légende légère moyenne sévère profonde normale surdité perception transmission mixte acouphènes né née
âge prénom nom à côté sœur bruit champ libre appareillage examen résultat médecin l'oreille d'intensité
"""
SPANISH = """
oído oídos derecho izquierdo derecha izquierda vía aérea ósea óseo aéreo enmascarado enmascarada enmascaramiento sin con
umbral umbrales frecuencia frecuencias intensidad pérdida auditiva audición respuesta ausencia audiograma audiometría
tonal habla molestia leyenda leve moderada severa profunda normal hipoacusia conductiva neurosensorial fecha nombre edad
años nacimiento observaciones niño examinador campo ruido palabras según también máximo mínimo
"""
WORDS = tuple(dict.fromkeys((ENGLISH + GERMAN + FRENCH + SPANISH).split()))
"""Words of hearing-test reports and of their keys, in four languages."""

LETTERS = "abcdefghijklmnopqrstuvwxyz"
ACCENTED = "äöüßéèêëçáíóúñàâîïôûùœ"
OTHERS = '°§#*=;"@±×_!'


def word_text(rng: np.random.Generator) -> str:
    """Choose what a word says: six in ten axis labels, one in eight other numbers and units, the rest words."""
    kind = rng.random()
    if kind < 0.32:
        return frequency_text(int(rng.choice(FREQUENCIES)), rng)
    if kind < 0.58:
        return level_text(int(rng.choice(LEVELS)), rng)
    if kind < 0.60:  # two labels that stand so close that they are seen as one word
        first = int(rng.integers(len(FREQUENCIES) - 1))
        return f"{FREQUENCIES[first]} {FREQUENCIES[first + 1]}" if rng.random() < 0.7 else _random_number(rng)
    if kind < 0.65:
        return str(rng.choice(UNITS))
    if kind < 0.72:
        return _random_number(rng)
    if kind < 0.94:
        return _dressed(str(rng.choice(WORDS)), rng)
    return _random_letters(rng)


def frequency_text(hz: int, rng: np.random.Generator) -> str:
    """Write a frequency in one of the forms that axes have."""
    form = rng.random()
    if form < 0.5:
        text = str(hz)
    elif form < 0.58 and hz >= 1000:
        text = f"{hz // 1000}{rng.choice([' ', ',', '.'])}{hz % 1000:03d}"
    elif form < 0.72 and hz >= 1000:
        text = f"{hz / 1000:g}{rng.choice(['k', 'K', ' k'])}"
    else:
        text = f"{hz / 1000:g}"
        if rng.random() < 0.25 and text.startswith("0."):
            text = text[1:]
        if rng.random() < 0.3:
            text = text.replace(".", ",")
    if rng.random() < 0.06:
        text += str(rng.choice([" Hz", " kHz", "Hz", "kHz"]))
    return text


def level_text(level: int, rng: np.random.Generator) -> str:
    """Write a level as axes do, its minus sign in one of three lengths."""
    sign = str(rng.choice(["-", "\u2212", "\u2013"])) if level < 0 else "+" if level and rng.random() < 0.02 else ""
    gap = " " if level < 0 and rng.random() < 0.08 else ""
    return f"{sign}{gap}{abs(level)}" + (str(rng.choice([" dB", "dB", " dB HL"])) if rng.random() < 0.04 else "")


def _random_number(rng: np.random.Generator) -> str:
    """Write a date, a time, a share, a decimal or just digits."""
    kind, (a, b, c) = rng.random(), (int(n) for n in rng.integers(0, 100, 3))
    if kind < 0.25:
        day, month, year = 1 + a % 28, 1 + b % 12, 1930 + c
        mark = str(rng.choice(["/", ".", "-"]))
        forms = (f"{day:02d}{mark}{month:02d}{mark}{year}", f"{year}-{month:02d}-{day:02d}",
                 f"{day}{mark}{month}{mark}{year % 100:02d}")  # fmt: skip
        return forms[int(rng.integers(3))]
    if kind < 0.32:
        return f"{a % 24:02d}:{b % 60:02d}"
    if kind < 0.42:
        return f"{a}%" if kind < 0.38 else f"({a}"
    if kind < 0.55:
        return f"{a % 20}{rng.choice(['.', ','])}{b}"
    if kind < 0.62:
        return f"{a}{rng.choice(['/', '-', '+', ':', ' - '])}{b}"
    return "".join(str(int(d)) for d in rng.integers(0, 10, int(rng.integers(1, 7))))


def _dressed(word: str, rng: np.random.Generator) -> str:
    """Set a word in some case, and at times with a second word, a mark or brackets."""
    word = _cased(word, rng)
    form = rng.random()
    if form < 0.05 and len(word) < 8:
        other = str(rng.choice(WORDS))
        joint = str(rng.choice([" ", " ", "/", "-", "&", ", ", " & "]))
        return f"{word}{joint}{_cased(other, rng)}" if len(other) < 8 else word
    if form < 0.17:
        return f"{word}:"
    if form < 0.27:
        return f"{word},"
    if form < 0.31:
        return f"{word}."
    if form < 0.40:
        return str(rng.choice([f"({word})", f"({word}", f"{word})"]))
    if form < 0.42:
        return f"{word}{rng.choice(list(OTHERS))}"
    return word


def _cased(word: str, rng: np.random.Generator) -> str:
    case = rng.random()
    if case < 0.4 and word[0] + word[-1] not in ("rr", "ll", "r.", "l.", "rl"):  # ears are named by capitals
        return word
    if case < 0.75 or "ß" in word:  # there is no capital sharp s in most faces
        return word[0].upper() + word[1:]
    return word.upper()


def _random_letters(rng: np.random.Generator) -> str:
    """Write letters at random, as names and words of no list have them; seldom digits or marks among them."""
    letters = rng.choice(list(LETTERS * 4 + ACCENTED), int(rng.integers(2, 10)))
    text = _cased("".join(str(c) for c in letters), rng)
    if rng.random() < 0.15:
        at = int(rng.integers(1, len(text)))
        text = text[:at] + str(rng.choice(list("0123456789-'/.:+&" + OTHERS))) + text[at:]
    return text
