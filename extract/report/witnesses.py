"""Two readings of one piece of a line put together: where words begin and end, and what each reading says of them."""

from __future__ import annotations

import re
from dataclasses import replace
from itertools import pairwise

from ..page import Word

INSIDE = 0.5
"""A box lies in another when so much of its width does."""
ALONE = 0.5
"""What our network's confidence counts for where Tesseract saw no word at all."""
UNFOUND = 0.3
"""A word that our network did not find is taken from this confidence of Tesseract's on."""
NUMBER = re.compile(r"[\d.,:/+\-() %]*\d[\d.,:/+\-() %]*")
"""What our network reads better than Tesseract does."""
ACCENT_READ = 0.5
"""The same for words with accents."""
BETTER, MARGIN = 0.6, 0.1
"""It stands against any text that Tesseract is less sure of: of 100 such words on painted pages it was right of 84."""
NUMBER_READ = 0.9
"""From this confidence on, its number stands against what Tesseract read."""
LETTERS_READ = 0.8
"""Letters alone that Tesseract read with this confidence are not taken for digits: GOOD looks like 6000 to the
network."""
SPECKS = frozenset("|_-—–~=.,:;'`‘’“”\"\\")
"""What is read from dirt and pieces of rules: no word where our network saw no letter."""


def put_together(found: tuple[Word, ...], read: tuple[Word, ...]) -> list[Word]:
    """Put two readings of a piece together.

    Parameters
    ----------
    found : tuple of Word
        The words as our own networks found and read them, from left to right, in lower case.
    read : tuple of Word
        The words as Tesseract read them, in the same pixels.

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
            nearest = [i for i, one in enumerate(found) if _shared(word, one) > INSIDE]
            for i in nearest[:1]:
                of_found.setdefault(i, []).append(word)
            if not nearest and word.confidence >= UNFOUND:
                unfound.append(word)
        elif len(under) == 1:
            of_found.setdefault(under[0], []).append(word)
        else:
            spans.append((under[0], under[-1], word))
    spans += _run_on(found, of_found)
    words: list[Word] = []
    at = 0
    while at < len(found):
        span = next((s for s in spans if s[0] <= at <= s[1]), None)
        if span is None or any(of_found.get(i) for i in range(span[0], span[1] + 1)):
            words.append(_word(found[at], of_found.get(at, [])))
            at += 1
        else:
            words += _cut(found[at : span[1] + 1], span[2])
            at = span[1] + 1
    return sorted((word for word in (*words, *unfound) if not _speck(word)), key=lambda word: word.box[0])


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


def _word(own: Word, read: list[Word]) -> Word:
    """Give one found word its two texts, the likelier one first."""
    if not read:
        return replace(own, confidence=ALONE * own.confidence, others=())
    text = _spaced(own.text, read)
    confidence = min(word.confidence for word in read)
    better = _better(own, text, confidence)
    if better is not None:
        return replace(own, text=better, others=((text, confidence),))
    return replace(own, text=text, confidence=confidence, others=((own.text, own.confidence),))


def _spaced(own: str, read: list[Word]) -> str:
    """Join what was read in one found word: with a space only where both readings have one."""
    joined = "".join(word.text for word in read)
    parts = own.split()
    if len(parts) > 1 and "".join(parts) == joined.lower():
        cuts = [sum(map(len, parts[:k])) for k in range(len(parts) + 1)]
        return " ".join(joined[a:b] for a, b in pairwise(cuts))
    return joined


def _better(own: Word, text: str, confidence: float) -> str | None:
    """Give the own reading, in Tesseract's capitals, where it is the better one."""
    if text.lower() == own.text or not own.text:
        return None
    letters = text.isalpha() and confidence >= LETTERS_READ
    if own.confidence >= NUMBER_READ and NUMBER.fullmatch(own.text) and not letters:
        return own.text
    if own.confidence >= BETTER and confidence < LETTERS_READ and own.confidence > confidence + MARGIN:
        return _in_capitals(own.text, text)
    if own.text.isascii() or own.confidence < ACCENT_READ:
        return None
    # English data does not know accented letters: others stand in Tesseract's text in their order
    pattern = "".join(re.escape(c) if c.isascii() else r"[^\s]{1,3}?" for c in own.text)
    return _in_capitals(own.text, text) if re.fullmatch(pattern, text.lower()) else None


def _in_capitals(own: str, text: str) -> str:
    if text.isupper() and sum(c.isalpha() for c in text) > 2:
        return own.upper()
    return own[0].upper() + own[1:] if text[:1].isupper() else own


def _cut(found: tuple[Word, ...], read: Word) -> list[Word]:
    """Cut a text that runs over several words."""
    lengths = [len(word.text) for word in found]
    if sum(lengths) == len(read.text):
        words, at = [], 0
        for own, length in zip(found, lengths, strict=True):
            words.append(_word(own, [replace(read, text=read.text[at : at + length])]))
            at += length
        return words
    boxes = [word.box for word in found]
    whole = Word(
        "".join(word.text for word in found),
        (min(b[0] for b in boxes), min(b[1] for b in boxes), max(b[2] for b in boxes), max(b[3] for b in boxes)),
        min(word.confidence for word in found),
    )
    return [_word(whole, [read])]
