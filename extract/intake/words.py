"""Words from pixels: every call of the Tesseract program stands here.

Few calls with large pictures cost least: starting the program takes longer than reading a strip of labels.
"""

from __future__ import annotations

import math
import os
from collections.abc import Iterator
from contextlib import contextmanager

import cv2
import numpy as np
import pytesseract
from PIL import Image

from ...interpret.errors import MissingProgram
from ..limits import OCR_SECONDS, OCR_SIDE_PX
from ..page import Pixels, Word

_INSTALL = "Install Tesseract 4 or later with its English data (Debian: apt-get install tesseract-ocr)"


def read_strip(pixels: Pixels, *, whitelist: str | None = None, psm: int = 11) -> tuple[Word, ...] | None:
    """Read the words of a picture that was put together from pieces, such as a strip of axis labels.

    Parameters
    ----------
    pixels : Pixels
        Shape (height, width) or (height, width, 3), uint8, dark on light. Digits of 25 to 40 px are read best.
    whitelist : str, optional
        The only characters that may be read.
    psm : int
        Tesseract's page segmentation mode: 11 for words anywhere, 7 for one line, 6 for one block.

    Returns
    -------
    tuple of Word or None
        Boxes in pixels of the picture given, confidence 0 to 1, in reading order; None when the program failed or took
        too long, which the caller says with the remark ``ocr-missing``.

    Raises
    ------
    MissingProgram
        Tesseract or its English data is not installed.
    """
    options = [f"--psm {psm}"]
    if whitelist is not None:
        options.append(f"-c tessedit_char_whitelist={whitelist}")
    scale = min(1.0, OCR_SIDE_PX / max(pixels.shape[:2]))
    if scale < 1.0:
        height, width = pixels.shape[:2]
        size = (max(1, math.floor(width * scale)), max(1, math.floor(height * scale)))
        pixels = np.asarray(cv2.resize(pixels, size, interpolation=cv2.INTER_AREA), dtype=np.uint8)
    table = _recognised(pixels, " ".join(options))
    return None if table is None else _words(table, 1 / scale)


def read_page(pixels: Pixels) -> tuple[Word, ...] | None:
    """Read all words of a whole page; otherwise as ``read_strip``.

    Parameters
    ----------
    pixels : Pixels
        Shape (height, width) or (height, width, 3), uint8.
    """
    return read_strip(pixels, psm=11)


def _recognised(pixels: Pixels, options: str) -> dict[str, list[str]] | None:
    if min(pixels.shape[:2]) < 3:
        return {}
    picture = Image.fromarray(pixels)
    picture.format = "PPM"  # the form in which it is handed over: writing a PNG would take as long as reading a strip
    try:
        with _one_thread():
            return pytesseract.image_to_data(
                picture, lang="eng", config=options, timeout=OCR_SECONDS, output_type=pytesseract.Output.DICT
            )
    except pytesseract.TesseractNotFoundError as error:
        raise MissingProgram("the text recognition program Tesseract is not installed", _INSTALL) from error
    except pytesseract.TesseractError as error:
        if "language" in str(error).lower() or "traineddata" in str(error).lower():
            raise MissingProgram("Tesseract has no English data", _INSTALL) from error
        return None
    except RuntimeError:  # what pytesseract raises when the time is over
        return None
    except (OSError, ValueError, KeyError, IndexError, TypeError):  # no room for its files, or an answer that is none
        return None


@contextmanager
def _one_thread() -> Iterator[None]:
    """Tell the program to use one thread: with more, a page takes six times as long (tesseract-ocr/tesseract#2609).

    pytesseract hands this process's own environment on, so the variable is set for the time of the call.
    """
    before = os.environ.get("OMP_THREAD_LIMIT")
    os.environ["OMP_THREAD_LIMIT"] = "1"
    try:
        yield
    finally:
        if before is None:
            del os.environ["OMP_THREAD_LIMIT"]
        else:
            os.environ["OMP_THREAD_LIMIT"] = before


def _words(table: dict[str, list[str]], scale: float) -> tuple[Word, ...]:
    columns = ("text", "conf", "left", "top", "width", "height")
    if any(name not in table for name in columns):
        return ()
    words = []
    for text, conf, *sides in zip(*(table[name] for name in columns), strict=True):
        if not str(text).strip() or float(conf) < 0:
            continue
        left, top, width, height = (float(side) * scale for side in sides)
        words.append(Word(str(text).strip(), (left, top, left + width, top + height), float(conf) / 100))
    return tuple(words)
