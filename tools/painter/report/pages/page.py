"""A report page as it is filled from its top to its foot: head, facts, charts, other tests."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

import numpy as np

from .....interpret.record import Fact
from ...chart.axes import Scale
from ...chart.chance import pick
from ...chart.draw import draw_chart
from ...chart.look import Look
from ...forms.form import BOTH, Box, invent, new_sheet, of_ear, seat
from ...patient import Tone
from ...pen import BLACK, Colour
from ...sheet import Sheet
from ..cells import Cell, Told
from ..fields import Layout, draw_cells
from ..languages import CODES, Code, Split, language
from ..results.averages import draw_averages, tone_averages
from ..results.emissions import draw_emissions
from ..results.reflexes import draw_reflexes
from ..results.speech import draw_speech_results, invent_speech
from ..results.traces import invent_traces
from ..results.tympanometry import draw_tympanometry
from ..scribe import Scribe, Setting, add_facts, any_setting, write
from ..told import invent_report

_HEADING: tuple[Colour, ...] = (BLACK, (0.1, 0.25, 0.45), (0.0, 0.35, 0.35), (0.35, 0.1, 0.2))


@dataclass(slots=True)
class ReportPage:
    """One page in the making; ``y`` is how far down it is filled, in points."""

    sheet: Sheet
    rng: np.random.Generator
    told: Told
    setting: Setting
    scribe: Scribe
    left: float
    y: float = 36.0
    audiogram: int = -1
    tones: tuple[Tone, ...] = field(default=())

    @property
    def right(self) -> float:
        """Where the words end, in points."""
        return self.sheet.pen.width - self.left

    def has_room(self, height: float) -> bool:
        """Say whether so many points are left above the foot."""
        return self.y + height < self.sheet.pen.height - 36

    def head(self, *, letterhead: bool, title: bool, centred: bool = False) -> None:
        """Print the clinic's name, which is where the test was though no label says so, and a title."""
        pen, rng, setting, size = self.sheet.pen, self.rng, self.setting, self.setting.size
        colour = pick(rng, _HEADING)
        x, anchor = ((self.left + self.right) / 2, 0.5) if centred else (self.left, 0.0)
        if letterhead:
            clinic = setting.language.words("places")[int(rng.integers(2))]
            self.y += size * 1.5
            box = write(self.sheet, (x, self.y), clinic, setting.bold, size * 1.5, colour, anchor=anchor)
            add_facts(self.sheet, [Fact("place", clinic, clinic, box, 1.0, "ask")])
            if rng.random() < 0.6:
                self.y += size * 0.7
                pen.line((self.left, self.y), (self.right, self.y), colour, float(rng.uniform(0.5, 1.5)))
            self.y += size * 0.4
        if title:
            self.y += size * 1.9
            pen.text((x, self.y), setting.language.word(rng, "titles"), setting.bold, size * 1.3, BLACK, anchor=anchor)
        self.y += size * 0.9

    def cells(self, layout: Layout, *, columns: int = 2, only: Sequence[Cell] | None = None) -> None:
        """Write the facts over the page's width."""
        frame = (self.left, self.y, self.right, 0.0)
        chosen = self.told.cells if only is None else only
        self.y = draw_cells(self.scribe, chosen, frame, layout, columns=columns) + self.setting.size * 0.6

    def chart(self, scale: Scale, look: Look, box: Box, *, busy: float, apart: bool = False) -> None:
        """Draw one chart, or with ``apart`` one for each ear side by side, and remember its test."""
        self.audiogram = self.sheet.open_audiogram(look.symbol_set, self.told.tested_on)
        self.tones = invent(self.rng, scale, look, alone=apart, busy=busy)
        if not apart:
            draw_chart(self.sheet, self.audiogram, seat(box, scale, look), look, self.tones, self.rng)
            return
        middle = (box[0] + box[2]) / 2
        halves = ((box[0], box[1], middle - 5, box[3]), (middle + 5, box[1], box[2], box[3]))
        for ear, half in zip(BOTH, halves, strict=True):
            words = self.setting.language.words(ear, "ears")
            titled = replace(look, lettering=replace(look.lettering, title=words[1 % len(words)]))
            axes = seat(half, scale, titled)
            draw_chart(self.sheet, self.audiogram, axes, titled, of_ear(self.tones, ear), self.rng, only=ear)

    def open(self) -> None:
        """Begin the results of a page without a chart."""
        self.audiogram = self.sheet.open_audiogram(None, self.told.tested_on)

    def speech(self, *, left: float | None = None, width: float | None = None) -> None:
        """Add speech results."""
        results = invent_speech(self.rng, self.setting, tone_averages(self.tones))
        at, wide = self._place(left, width)
        self.y = self._after(draw_speech_results(self.sheet, self.audiogram, self.rng, self.setting, at, wide, results))

    def averages(self, *, left: float | None = None, width: float | None = None) -> None:
        """Add averages of the chart's own thresholds."""
        at, wide = self._place(left, width)
        self.y = self._after(draw_averages(self.sheet, self.audiogram, self.rng, self.setting, at, wide, self.tones))

    def tympanometry(self, curves: str) -> None:
        """Add tympanograms."""
        at, wide = self._place(None, None)
        traces = invent_traces(self.rng)
        self.y = self._after(
            draw_tympanometry(self.sheet, self.audiogram, self.rng, self.setting, at, wide, traces, curves=curves)
        )

    def reflexes(self) -> None:
        """Add acoustic reflexes."""
        at, wide = self._place(None, None)
        self.y = self._after(draw_reflexes(self.sheet, self.audiogram, self.rng, self.setting, at, wide))

    def emissions(self) -> None:
        """Add otoacoustic emissions."""
        at, wide = self._place(None, None)
        self.y = self._after(draw_emissions(self.sheet, self.audiogram, self.rng, self.setting, at, wide))

    def finish(self) -> Sheet:
        """State all facts and give the sheet."""
        self.foot()
        self.scribe.finish()
        self.sheet.told = True
        return self.sheet

    def foot(self) -> None:
        """Print, on some pages, the page's and the form's numbers at the very foot; the form's is no fact."""
        rng, setting, pen = self.rng, self.setting, self.sheet.pen
        if rng.random() > 0.4:
            return
        y, size, count = pen.height - 16, setting.size * 0.75, int(rng.integers(1, 4))
        number = int(rng.integers(1, count + 1))
        said = setting.language.words("page")[0].format(n=number, all=count)
        pen.text((self.left, y), f"HL-{int(rng.integers(10, 99))}", setting.face, size, (0.35, 0.35, 0.35))
        box = write(self.sheet, (self.right, y), said, setting.face, size, (0.35, 0.35, 0.35), anchor=1)
        add_facts(self.sheet, [Fact("page-number", f"{number}/{count}", said, box, 1.0, "sure")])

    def _place(self, left: float | None, width: float | None) -> tuple[tuple[float, float], float]:
        start = self.left if left is None else left
        return (start, self.y), (self.right - start if width is None else width)

    def _after(self, y: float) -> float:
        return y + self.setting.size * 0.9


def begin(
    rng: np.random.Generator,
    mono: bool,
    split: Split,
    paper: tuple[float, float],
    *,
    code: Code | None = None,
    size: float = 9.0,
    busy: float = 0.7,
    landscape: bool = False,
) -> ReportPage:
    """Begin a page: its paper, its language (by default any), its patient and its words."""
    words = language(code or pick(rng, CODES, (0.55, 0.2, 0.12, 0.13)))
    sheet = new_sheet(paper, mono=mono, landscape=landscape)
    told = invent_report(rng, words, split, busy=busy)
    setting = any_setting(rng, words, split, size=size)
    return ReportPage(sheet, rng, told, setting, Scribe(sheet, told, setting), left=float(rng.uniform(38, 58)))
