"""Words from pixels: every call of the Tesseract program stands here.

Few calls with large pictures cost least: starting the program takes longer than reading a strip of labels.
"""

from __future__ import annotations

import math
import os
import shlex
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
ENGLISH = ("eng",)


def read_strip(
    pixels: Pixels, *, whitelist: str | None = None, psm: int = 11, languages: tuple[str, ...] = ENGLISH
) -> tuple[Word, ...] | None:
    """Read the words of a picture that was put together from pieces, such as a strip of axis labels.

    Parameters
    ----------
    pixels : Pixels
        Shape (height, width) or (height, width, 3), uint8, dark on light. Digits of 25 to 40 px are read best.
    whitelist : str, optional
        The only characters that may be read.
    psm : int
        Tesseract's page segmentation mode: 11 for words anywhere, 7 for one line, 6 for one block.
    languages : tuple of str
        The languages to expect, by the names of Tesseract's data.

    Returns
    -------
    tuple of Word or None
        Boxes in pixels of the picture given, confidence 0 to 1, in reading order; None when the program failed or took
        too long, which the caller says with the remark ``ocr-missing``.

    Raises
    ------
    MissingProgram
        Tesseract or its data for one of the languages is not installed.
    """
    options = [f"--psm {psm}"]
    if whitelist is not None:
        options.append(f"-c tessedit_char_whitelist={shlex.quote(whitelist)}")
    scale = min(1.0, OCR_SIDE_PX / max(pixels.shape[:2]))
    if scale < 1.0:
        height, width = pixels.shape[:2]
        size = (max(1, math.floor(width * scale)), max(1, math.floor(height * scale)))
        pixels = np.asarray(cv2.resize(pixels, size, interpolation=cv2.INTER_AREA), dtype=np.uint8)
    table = _recognised(pixels, " ".join(options), languages)
    return None if table is None else _words(table, 1 / scale)


def require_languages(languages: tuple[str, ...]) -> None:
    """Make sure, before any page is read, that text recognition can read these languages.

    Parameters
    ----------
    languages : tuple of str
        Names of Tesseract's data, such as ``deu``.

    Raises
    ------
    MissingProgram
        Tesseract is not installed, or has no data for one of them; the message says which and how to get it.
    """
    for language in languages:
        blank = np.full((3, 3), 255, np.uint8)
        _recognised(blank, "--psm 7", (language,))


def _recognised(pixels: Pixels, options: str, languages: tuple[str, ...]) -> str | None:
    if min(pixels.shape[:2]) < 3:
        return ""
    picture = Image.fromarray(pixels)
    picture.format = "PPM"  # the form in which it is handed over: writing a PNG would take as long as reading a strip
    try:
        with _one_thread():
            # Not image_to_data: it first asks the program for its version, without any bound of time.
            table = pytesseract.run_and_get_output(
                picture,
                "tsv",
                "+".join(languages),
                f"-c tessedit_create_tsv=1 {options}",
                timeout=int(OCR_SECONDS),
                return_bytes=True,
            )
    except pytesseract.TesseractNotFoundError as error:
        raise MissingProgram("the text recognition program Tesseract is not installed", _INSTALL) from error
    except pytesseract.TesseractError as error:
        if "language" in str(error).lower() or "traineddata" in str(error).lower():
            raise _no_data(languages) from error
        return None
    except RuntimeError:  # what pytesseract raises when the time is over
        return None
    except (OSError, ValueError, NameError):  # no room for its files, no answer, or no folder for temporary files
        return None
    return table.decode("utf-8", "replace") if isinstance(table, bytes) else table


def _no_data(languages: tuple[str, ...]) -> MissingProgram:
    if languages == ENGLISH:
        return MissingProgram("Tesseract has no English data", _INSTALL)
    names = ", ".join(f"'{language}'" for language in languages)
    packages = " ".join(f"tesseract-ocr-{language.lower().replace('_', '-')}" for language in languages)
    do = f"Install it (Debian: apt-get install {packages}), or leave out --languages"
    return MissingProgram(f"Tesseract has no data for {names}", do)


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


def _words(table: str, scale: float) -> tuple[Word, ...] | None:
    """Read the program's table: level, page, block, paragraph, line, word, left, top, width, height, conf, text."""
    words = []
    for line in table.splitlines()[1:]:
        cells = line.split("\t")
        if len(cells) < 11:
            return None
        text = "\t".join(cells[11:]).strip()
        try:
            left, top, width, height, confidence = (float(cell) for cell in cells[6:11])
        except ValueError:
            return None
        if text and confidence >= 0:
            box = (left * scale, top * scale, (left + width) * scale, (top + height) * scale)
            words.append(Word(text, box, min(confidence, 100.0) / 100))
    return tuple(words)
