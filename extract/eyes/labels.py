"""Read short printed labels (axis numbers and units) with a small network, many words in one pass."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from importlib.resources import files

import numpy as np
import numpy.typing as npt

HEIGHT, WIDTH = 32, 128
TEXT_HEIGHT = 18.0
"""How high a word's own box stands in the crop, in pixels of the crop."""

CHARSET = "0123456789.,-/kHzdBL% ?"
"""What the network can say; ``?`` stands for any other character. Index 0 of its output is the CTC blank."""


@dataclass(frozen=True, slots=True)
class LabelReading:
    """What one word says and how sure the network is (the least probability along the best path)."""

    text: str
    confidence: float


def label_crop(grey: npt.NDArray[np.uint8], box: tuple[float, float, float, float]) -> npt.NDArray[np.uint8]:
    """Cut one word out of a page at the size the network expects.

    Parameters
    ----------
    grey : ndarray, shape (height, width), uint8
        The sheet.
    box : tuple of float
        The word's ink box (left, top, right, bottom) in sheet pixels.

    Returns
    -------
    ndarray, shape (32, 128), uint8
        The word, its box 18 pixels high, starting 8 pixels from the left; darkest 0, lightest 255.
    """
    import cv2

    left, top, right, bottom = box
    scale = min(TEXT_HEIGHT / max(bottom - top, 4.0), (WIDTH - 12.0) / max(right - left, 4.0))
    pad = 10.0 / scale
    x0, y0 = int(max(left - pad, 0)), int(max(top - pad, 0))
    x1, y1 = int(min(right + pad, grey.shape[1])) + 1, int(min(bottom + pad, grey.shape[0])) + 1
    part = grey[y0:y1, x0:x1]
    if scale < 0.7:
        size = (max(1, round(part.shape[1] * scale)), max(1, round(part.shape[0] * scale)))
        fx, fy = size[0] / part.shape[1], size[1] / part.shape[0]
        part = cv2.resize(part, size, interpolation=cv2.INTER_AREA)
    else:
        fx = fy = 1.0
    middle = ((top + bottom) / 2 - y0) * fy
    matrix = np.array(
        [[scale / fx, 0, 8 - (left - x0) * scale], [0, scale / fy, HEIGHT / 2 - middle * scale / fy]], np.float64
    )
    crop = cv2.warpAffine(
        part, matrix, (WIDTH, HEIGHT), flags=cv2.INTER_LINEAR, borderMode=cv2.BORDER_CONSTANT, borderValue=255
    )
    keep = min(WIDTH, int(8 + (right - left) * scale + 7))
    crop[:, keep:] = 255
    low, high = np.percentile(crop[:, :keep], (1, 85))
    low = min(low, high - 40.0)
    return np.clip((crop.astype(np.float32) - low) * (255.0 / (high - low)), 0, 255).astype(np.uint8)


def decode(logits: npt.NDArray[np.float32]) -> LabelReading:
    """Turn one word's outputs, shape (steps, characters + 1), into text by the best path of CTC."""
    shifted = logits - logits.max(axis=1, keepdims=True)
    chances = np.exp(shifted)
    chances /= chances.sum(axis=1, keepdims=True)
    best = chances.argmax(axis=1)
    text, confidence, before = [], 1.0, 0
    for step, index in enumerate(best):
        if index != before and index != 0:
            text.append(CHARSET[index - 1])
        confidence = min(confidence, float(chances[step, index]))
        before = index
    return LabelReading("".join(text).strip(), confidence)


def read_labels(
    grey: npt.NDArray[np.uint8], boxes: list[tuple[float, float, float, float]]
) -> tuple[LabelReading, ...]:
    """Read the words in the given boxes.

    Parameters
    ----------
    grey : ndarray, shape (height, width), uint8
        The sheet.
    boxes : list of tuple of float
        Ink boxes (left, top, right, bottom) in sheet pixels.

    Returns
    -------
    tuple of LabelReading
        One for each box, in the order given.
    """
    if not boxes:
        return ()
    network = _network()
    readings: list[LabelReading] = []
    for start in range(0, len(boxes), 64):
        crops = np.stack([label_crop(grey, box) for box in boxes[start : start + 64]])
        network.setInput(1.0 - crops[:, None].astype(np.float32) / 255.0)
        readings += [decode(word) for word in network.forward()]
    return tuple(readings)


@lru_cache(maxsize=1)
def _network():
    import cv2

    data = np.frombuffer(files("octavo.extract.eyes").joinpath("labels.onnx").read_bytes(), np.uint8)
    return cv2.dnn.readNetFromONNX(data)
