"""How well the picture of a word agrees with each of the texts that may stand there, by two networks."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from ...eyes.words import printed, reader

Box = tuple[float, float, float, float]
Logs = npt.NDArray[np.float64]


@dataclass(frozen=True, slots=True, eq=False)
class Weights:
    """What two networks say of some texts.

    ``as_print`` and ``as_label``, shape (words, texts), are logarithms of the chance of each text over that of the
    likeliest text of all: 0 or more for the text that the network would read, far below for others.
    """

    as_print: Logs
    as_label: Logs


def weigh(grey: npt.NDArray[np.uint8], boxes: Sequence[Box], texts: Sequence[str]) -> Weights:
    """Weigh texts for each of some words.

    Parameters
    ----------
    grey : ndarray, shape (height, width), uint8
        The sheet.
    boxes : sequence of tuple of float
        The words' ink boxes (left, top, right, bottom) in sheet pixels.
    texts : sequence of str
        What may stand there; the network for labels weighs them without regard to case.
    """
    label = reader.label_logits(grey, boxes)
    as_label = reader.chances(label, texts) - _best(label)[:, None] if len(boxes) else np.zeros((0, len(texts)))
    as_print = np.zeros((len(boxes), len(texts)))
    logits = printed.printed_logits(grey, boxes)
    for steps in {len(one) for one in logits}:
        places = [i for i, one in enumerate(logits) if len(one) == steps]
        some = np.stack([logits[i] for i in places])
        as_print[places] = reader.chances(some, texts, printed.CHARSET) - _best(some)[:, None]
    return Weights(as_print, as_label)


def _best(logits: npt.NDArray[np.float32]) -> Logs:
    """Give the logarithm of the chance of each word's best path."""
    shifted = logits.astype(np.float64) - logits.max(axis=2, keepdims=True)
    return -np.log(np.exp(shifted).sum(axis=2)).sum(axis=1)
