"""A kept page: read up to the measured charts, without its pixels; and what its meaning comes to when found anew."""

from __future__ import annotations

import pickle
import tempfile
import zlib
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

import numpy as np

from ....extract.choices import Choices
from ....extract.intake import pages
from ....extract.meaning import Reading, mean
from ....extract.page import Page
from ....extract.road import Looked, looked_at, values_of
from ....interpret.record import PageRecord
from ....interpret.rules.plausibility import with_doubts
from ...painter.truth import PaintedMark
from .order import Order, painted

CHARTS_ALONE = Choices(report=False)


@dataclass(frozen=True, slots=True)
class KeptPage:
    """What was seen and measured on a painted page, its picture and paths left out, beside the truth."""

    order: Order
    truth: PageRecord
    marks: tuple[PaintedMark, ...]
    seen: Looked

    def meant(self) -> tuple[Reading, PageRecord]:
        """Find the meaning anew, as the road does for charts without the text around them."""
        reading = mean(self.seen.sheet, self.seen.sightings.key, self.seen.charts, CHARTS_ALONE)
        audiograms, remarks, _ = values_of(self.seen, reading)
        return reading, with_doubts(PageRecord(self.truth.source, "ask", audiograms, remarks=remarks))


def look(order: Order) -> KeptPage | None:
    """Paint a page and read it up to the measured charts; None where the file holds no readable page."""
    with tempfile.TemporaryDirectory() as folder:
        made = painted(order, folder)
        for page in pages(made.path):
            if not isinstance(page, Page):
                return None
            seen = looked_at(page)
            bare = replace(seen.sheet, pixels=np.zeros((1, 1, 3), np.uint8), paths=())
            return KeptPage(order, made.truth, made.marks, replace(seen, sheet=bare))
    return None


def packed(page: KeptPage) -> bytes:
    """Pack a page for a file of many."""
    return zlib.compress(pickle.dumps(page), 6)


def kept_pages(files: Sequence[Path]) -> Iterator[KeptPage]:
    """Unpack the pages of files that ``keep`` wrote with this state of the code."""
    for file in files:
        for page in pickle.loads(file.read_bytes()):
            yield pickle.loads(zlib.decompress(page))
