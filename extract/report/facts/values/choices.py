"""Facts whose value is one of a few: sex, reliability and transducers, as words or as ticked boxes."""

from __future__ import annotations

from dataclasses import dataclass

from ....page import Pixels, Word
from ...lines import Cell, Line
from ..printed.spelling import misread, slips_allowed
from ..printed.tokens import Token, tokens_of
from ..printed.vocabulary import vocabulary
from .ticks import tick_before

ORDER = ("inserts", "supra-aural", "circumaural", "bone-vibrator", "loudspeaker")
"""How several transducers are ordered in a fact."""
TICKED, UNTICKED = frozenset("☒☑✓✔✗✘"), frozenset("☐□")
BOXES = TICKED | UNTICKED
JOINING = frozenset({"and", "und", "y", "et", "with", "mit", "con", "avec", "e", "plus", "ear", "type"})


@dataclass(frozen=True, slots=True)
class Chosen:
    """The values that words name.

    ``values`` are distinct and in order, ``words`` those that name them. ``slips`` counts letters that must have been
    misread, ``rest`` letters that belong to no value. ``boxes`` says that tick boxes stand there; ``unclear`` that one
    of them is neither clearly ticked nor empty.
    """

    values: tuple[str, ...]
    words: tuple[Word, ...]
    slips: int = 0
    rest: int = 0
    boxes: bool = False
    unclear: bool = False


def chosen(
    name: str, words: tuple[Word, ...], grey: Pixels | None = None, height: float = 0.0, after: float = 0.0
) -> Chosen:
    """Read a choice.

    Parameters
    ----------
    name : str
        ``sex``, ``reliability`` or ``transducer``.
    words : tuple of Word
        The value's words, in sheet pixels.
    grey : ndarray, shape (height, width), uint8, optional
        The sheet, for tick boxes; without it none are looked for.
    height : float
        The height of the letters, in sheet pixels.
    after : float
        Where the label on their line ends; no tick box stands left of that.
    """
    line = Line((Cell(words),), max(height, 1.0))
    tokens = tokens_of(line)
    found: list[tuple[str, int, int, int]] = []
    rest = at = 0
    while at < len(tokens):
        match = _match(name, tokens, at)
        if match is None:
            said = tokens[at].said
            rest += 0 if said in JOINING else len(said)
            at += 1
        else:
            found.append((match[0], at, match[1], match[2]))
            at = match[1]
    if not found:
        return Chosen((), (), rest=rest)
    states = [_state(tokens, words, start, (grey, height, after)) for _, start, _, _ in found]
    boxes = any(state is not None for state in states)
    taken = [one for one, state in zip(found, states, strict=True) if not boxes or state is True]
    values = tuple(dict.fromkeys(value for value, *_ in taken))
    if name == "transducer":
        values = tuple(value for value in ORDER if value in values)
    used = dict.fromkeys(t.word for _, start, end, _ in taken for t in tokens[start:end])
    unclear = boxes and any(state in (None, "unclear") for state in states)
    return Chosen(
        values, tuple(words[k] for k in used), sum(slips for *_, slips in taken), 0 if boxes else rest, boxes, unclear
    )


def _match(name: str, tokens: tuple[Token, ...], at: int) -> tuple[str, int, int] | None:
    """Give the value that is named from here on, the token after it, and the letters misread."""
    best: tuple[str, int, int] | None = None
    for phrase in vocabulary().choices[name]:
        wanted = "".join(phrase.parts)
        if len(wanted) == 1 and sum(not t.sign for t in tokens) > 1 and not _single(tokens):
            continue  # one letter among other words names nothing
        end, slips = _spelled(wanted, tokens, at)
        if end and (best is None or (end, -slips) > (best[1], -best[2])):
            best = (phrase.meaning, end, slips)
    return best


def _spelled(wanted: str, tokens: tuple[Token, ...], at: int) -> tuple[int, int]:
    """Give the token after those that spell a text, hyphens left out, and the letters misread; 0 for none."""
    allowed = 0 if tokens[at].told else slips_allowed(len(wanted))
    spelled, k = ("",), at
    while k < len(tokens) and (not tokens[k].sign or (k > at and tokens[k].sign in "-‐–")):
        if not tokens[k].sign:
            spelled = tuple(f"{before}{reading}" for before in spelled for reading in tokens[k].readings[:2])[:4]
            missed = min((misread(wanted, one) for one in spelled), default=99)
            ended = k + 1 >= len(tokens) or tokens[k + 1].sign not in ("-", "‐")
            if missed <= allowed and ended:
                return k + 1, missed
            if min(map(len, spelled)) > len(wanted) + allowed:
                break
        k += 1
    return 0, 0


def _single(tokens: tuple[Token, ...]) -> bool:
    """Say whether only single letters and signs stand here, as in "F [ ]  M [x]"."""
    return all(token.sign or len(token.said) <= 1 for token in tokens)


def _state(
    tokens: tuple[Token, ...], words: tuple[Word, ...], start: int, sight: tuple[Pixels | None, float, float]
) -> bool | str | None:
    """Say whether the box before a value is ticked; None where there is none."""
    before = "".join(t.sign or t.said for t in tokens[max(start - 3, 0) : start])
    if before[-1:] in TICKED | UNTICKED and words[tokens[start - 1].word].confidence < 1.0:
        return "unclear"
    if before[-1:] in TICKED or before[-3:] in ("[x]", "(x)"):
        return True
    if before[-1:] in UNTICKED or before[-2:] in ("[]", "()"):
        return False
    grey, height, after = sight
    if grey is None:
        return None
    number = tokens[start].word
    before_it = [w.box[2] for w in words[:number] if sum(c.isalnum() for c in w.text) > 2]
    return tick_before(grey, words[number].box, height, after=max((after, *before_it)))


def names_one(name: str, text: str) -> bool:
    """Say whether a text names a value of a choice."""
    words = tuple(Word(part, (20.0 * k, 0.0, 20.0 * k + 15, 10.0)) for k, part in enumerate(text.split()))
    return bool(words) and bool(chosen(name, words).values)


def ticked(words: tuple[Word, ...]) -> tuple[Word, ...]:
    """Give the words behind the one ticked box of several options; all words where it is not clear which that is.

    >>> row = [Word(text, (20.0 * k, 0, 20.0 * k + 9, 9)) for k, text in enumerate(["☐", "Vertigo", "☒", "Tinnitus"])]
    >>> [word.text for word in ticked(tuple(row))]
    ['Tinnitus']
    """
    boxes = [number for number, word in enumerate(words) if word.text in BOXES]
    chosen_boxes = [number for number in boxes if words[number].text in TICKED]
    if len(boxes) < 2 or len(chosen_boxes) != 1 or any(words[number].confidence < 1.0 for number in boxes):
        return words
    start = chosen_boxes[0] + 1
    stop = next((number for number in boxes if number >= start), len(words))
    return words[start:stop] or words
