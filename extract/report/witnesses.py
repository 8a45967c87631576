"""Three readings of one piece of a line put together: where words begin and end, and what each reading says of them."""

from __future__ import annotations

import json
import math
import re
from collections.abc import Callable
from dataclasses import replace
from functools import lru_cache
from importlib.resources import files
from itertools import pairwise

from ..eyes.words.printed import CHARSET
from ..page import Word
from .layout.vocabulary import plain
from .trust import UNSEEN, Said, trust_in

Look = Callable[[Word, tuple[Said, Said, Said]], None]

INSIDE = 0.5
"""A box lies in another when so much of its width does."""
ALONE = 0.5
"""What our networks' confidence counts for where Tesseract saw no word at all."""
UNFOUND = 0.3
"""A word that our networks did not find is taken from this confidence of Tesseract's on."""
NUMBER = re.compile(r"[-+>(\[]?\d[\d.,:/]*[%*)\]]?")
"""What both of our networks read better than Tesseract does."""
BOTH_SURE = (0.98, 0.9)
"""From these confidences on, of print and of labels, a number that both of our networks read needs no third reader:
of 147 such numbers on painted pages that Tesseract read otherwise, one was wrong."""
CUT, LEAST_CUT = 0.8, 2
"""A text that Tesseract read with this confidence, and that is so much longer, is that of a word whose box was cut."""
CONTRADICTED = 0.8
"""From this confidence on, the network for labels may doubt what the other two read alike: a digit for a letter."""
SPECKS = frozenset("|_-—–~=.,:;'`‘’“”\"\\")
"""What is read from dirt and pieces of rules: no word where our network saw no letter."""
NAMES = ("print", "recognised", "recognised-as-label", "print-as-label", "print-alone", "number")


@lru_cache(maxsize=1)
def _weights() -> tuple[tuple[float, ...], float]:
    """Load the weights by which print is held against Tesseract (``witnesses.json``, with their provenance)."""
    told = json.loads(files("octavo.extract.report").joinpath("witnesses.json").read_text("utf-8"))
    return tuple(float(told["weights"][name]) for name in NAMES), float(told["constant"])


def put_together(found: tuple[Word, ...], read: tuple[Word, ...], look: Look | None = None) -> list[Word]:
    """Put three readings of a piece together.

    Parameters
    ----------
    found : tuple of Word
        The words as our own networks found them, from left to right: ``text`` as print, and as labels, in lower case,
        in ``others``.
    read : tuple of Word
        The words as Tesseract read them, in the same pixels.
    look : callable, optional
        Called with each word of ``found`` and what the three readers said of it.

    Returns
    -------
    list of Word
        The words of ``found``, which knows better where a word ends: each with Tesseract's text, and the own reading
        among its ``others``. A text that runs over several of them is cut where their lengths say so, or else the words
        become one. Where Tesseract saw nothing the own reading stands alone.
    """
    of_found: dict[int, list[Word]] = {}
    spans: list[tuple[int, int, Word]] = []
    unfound: list[Word] = []
    for word in sorted(read, key=lambda w: w.box[0]):
        under = [i for i, one in enumerate(found) if _shared(one, word) > INSIDE]
        if not under:
            nearest = [i for i, one in enumerate(found) if _shared(word, one) > INSIDE or _beside_itself(word, one)]
            for i in nearest[:1]:
                of_found.setdefault(i, []).append(word)
            if not nearest and word.confidence >= UNFOUND:
                unfound.append(replace(word, chance=min(UNSEEN, word.confidence)))
        elif len(under) == 1:
            for i, part in _parted(found, under[0], word).items():
                said = "".join(one.text for one in of_found.get(i, ()))
                if i == under[0] or not said.endswith(part.text):
                    of_found.setdefault(i, []).append(part)
        else:
            spans.append((under[0], under[-1], word))
    spans += _run_on(found, of_found)
    words: list[Word] = []
    at = 0
    while at < len(found):
        span = next((s for s in spans if s[0] <= at <= s[1]), None)
        if span is None or any(of_found.get(i) for i in range(span[0], span[1] + 1)):
            words.append(_word(found[at], of_found.get(at, []), look))
            at += 1
        else:
            words += _cut(found[at : span[1] + 1], span[2], look)
            at = span[1] + 1
    return sorted((word for word in (*words, *unfound) if not _speck(word)), key=lambda word: word.box[0])


def _beside_itself(word: Word, own: Word) -> bool:
    """Say whether a word that was read is one that was found, though its box stands aside: it is no second one."""
    return word.text == own.text and _shared(word, own) > 0


def _parted(found: tuple[Word, ...], at: int, word: Word) -> dict[int, Word]:
    """Part what was read in one found word together with its neighbour's end: "23,2016" after "Oct 23,"."""
    own, text = found[at].text, word.text
    more = len(text) - len(own)
    if own and more >= LEAST_CUT:
        if at and text.endswith(own) and found[at - 1].text.endswith(text[:more]):
            return {at - 1: replace(word, text=text[:more]), at: replace(word, text=own)}
        if at + 1 < len(found) and text.startswith(own) and found[at + 1].text.startswith(text[-more:]):
            return {at: replace(word, text=own), at + 1: replace(word, text=text[-more:])}
    return {at: word}


def _run_on(found: tuple[Word, ...], of_found: dict[int, list[Word]]) -> list[tuple[int, int, Word]]:
    """Take texts out that say the next word as well, for which nothing else was read."""
    spans = []
    for i in range(len(found) - 1):
        read = of_found.get(i, [])
        more = len(read[0].text) - len(found[i].text) if len(read) == 1 else 0
        if i + 1 not in of_found and more > 0 and more >= len(found[i + 1].text) - 1:
            spans.append((i, i + 1, read[0]))
            del of_found[i]
    return spans


def _speck(word: Word) -> bool:
    """Say whether neither reading holds a letter or digit."""
    return not any(c.isalnum() for text, _ in word.readings for c in text) and set(word.text) <= SPECKS


def _shared(word: Word, other: Word) -> float:
    """Give the part of a word's width that lies in another's."""
    shared = min(word.box[2], other.box[2]) - max(word.box[0], other.box[0])
    return shared / max(word.box[2] - word.box[0], 1e-6)


def _word(own: Word, read: list[Word], look: Look | None) -> Word:
    """Give one found word its text, another reading of it, and the chance that the text is right."""
    label = own.others[0] if own.others else ("", 0.0)
    word = _chosen(own, label, read)
    recognised = Said(_spaced(own.text, read), min(one.confidence for one in read)) if read else Said("", 0.0)
    readers = Said(own.text, own.confidence), Said(*label), recognised
    if look is not None:
        look(word, readers)
    return replace(word, chance=trust_in(word.text, readers))


def _chosen(own: Word, label: tuple[str, float], read: list[Word]) -> Word:
    """Give one found word its text and another reading of it, the likelier one first."""
    if not read:
        alike = (own.text, label[1]) if own.text.lower() == label[0] else label
        return replace(own, confidence=ALONE * own.confidence, others=(alike,) if own.text and own.others else ())
    text = _spaced(own.text, read)
    confidence = min(word.confidence for word in read)
    if "".join(own.text.split()) == "".join(text.split()):
        second = label if label[1] >= CONTRADICTED and _like_digits(text, label[0]) else (text, confidence)
        return replace(own, text=text, confidence=max(confidence, own.confidence), others=(second,))
    if not text.isascii() or own.text.isascii() or plain(text) != plain(own.text):
        alike = None
    else:  # English data knows no accents
        alike = own.text if own.text.lower() == label[0] else text
    if alike is not None:
        return replace(own, others=((alike, max(confidence, label[1])),))
    if _own_is_better(own, label, text, confidence):
        number = NUMBER.fullmatch(own.text) and not _longer_by_a_letter(own.text, text)
        sure = own.confidence >= BOTH_SURE[0] and label[1] >= BOTH_SURE[1]
        second = (own.text, label[1]) if number and sure and own.text.lower() == label[0] else (text, confidence)
        return replace(own, others=(second,))
    return replace(own, text=text, confidence=confidence, others=((own.text, own.confidence),))


def _own_is_better(own: Word, label: tuple[str, float], text: str, confidence: float) -> bool:
    """Say whether our network for print is likelier right than Tesseract where they differ."""
    mine = own.text
    longer = len(text) - len(mine) >= LEAST_CUT and (text.startswith(mine) or text.endswith(mine))
    if mine and any(c not in CHARSET and not c.isalpha() for c in text):
        return True
    if not mine or (longer and confidence >= CUT) or _longer_by_a_letter(mine, text):
        return False
    weights, constant = _weights()
    evidence = (
        _logit(own.confidence), _logit(confidence), float(text.lower() == label[0]),
        float(mine.lower() == label[0]), float(not text), float(bool(NUMBER.fullmatch(mine))),
    )  # fmt: skip
    return constant + sum(w * e for w, e in zip(weights, evidence, strict=True)) > 0


def _longer_by_a_letter(mine: str, text: str) -> bool:
    """Say whether a text has one sign more at an end: the next word's first letter, or a rule beside it.

    Not where the sign may belong to a number: a digit, a minus, a decimal sign.
    """
    if len(mine) != len(text) + 1 or not text:
        return False
    more = mine[0] if mine[1:] == text else mine[-1] if mine[:-1] == text else ""
    return bool(more) and not (more in "0123456789-.," and text[:1].isdigit() and NUMBER.fullmatch(mine))


def _like_digits(text: str, label: str) -> bool:
    """Say whether a label differs in nothing but letters that look like digits: of these each reader takes its own."""
    if len(text) != len(label) or text.lower() == label:
        return False
    return all(
        one == other or frozenset((one, other)) in _ALIKE for one, other in zip(text.lower(), label, strict=True)
    )


_ALIKE = frozenset(frozenset(pair) for pair in ("5s", "0o", "1i", "1l", "8b", "2z", "6b", "6g", "9g", "0d"))


def _logit(chance: float) -> float:
    chance = min(max(chance, 1e-3), 1 - 1e-4)
    return math.log(chance / (1 - chance))


def _spaced(own: str, read: list[Word]) -> str:
    """Join what was read in one found word: with a space only where both readings have one."""
    joined = "".join(word.text for word in read)
    parts = own.split()
    if len(parts) > 1 and "".join(parts).lower() == joined.lower():
        cuts = [sum(map(len, parts[:k])) for k in range(len(parts) + 1)]
        return " ".join(joined[a:b] for a, b in pairwise(cuts))
    return joined


def _cut(found: tuple[Word, ...], read: Word, look: Look | None) -> list[Word]:
    """Cut a text that runs over several words."""
    lengths = [len(word.text) for word in found]
    if sum(lengths) == len(read.text):
        words, at = [], 0
        for own, length in zip(found, lengths, strict=True):
            words.append(_word(own, [replace(read, text=read.text[at : at + length])], look))
            at += length
        return words
    boxes = [word.box for word in found]
    whole = Word(
        "".join(word.text for word in found),
        (min(b[0] for b in boxes), min(b[1] for b in boxes), max(b[2] for b in boxes), max(b[3] for b in boxes)),
        min(word.confidence for word in found),
        others=(("".join(w.others[0][0] for w in found if w.others), min(w.confidence for w in found)),),
    )
    return [_word(whole, [read], look)]
