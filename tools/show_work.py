"""A picture of the page after each step of the road, and of what was read from it in the end (``--show-work``)."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import cv2

from ..extract.page import Page, Pixels
from ..interpret.errors import CannotWrite, InternalFault, OctavoError
from ..interpret.record import PageRecord
from .asked_picture import draw_asked
from .reading_picture import draw_reading
from .step_pictures import draw_charts, draw_sheet, draw_sightings

STEPS = ("page", "sheet", "sightings", "charts", "thresholds")
"""The steps of the road in order; their pictures are numbered from 1, the reading and what it asks come last."""

Drawing = Callable[[dict[str, Any]], Pixels]
"""Makes the picture of one step from the results of all steps so far, by their names."""

DRAWINGS: dict[str, Drawing] = {
    "page": lambda done: done["page"].pixels,
    "sheet": lambda done: draw_sheet(done["sheet"]),
    "sightings": lambda done: draw_sightings(done["sheet"], done["sightings"]),
    "charts": lambda done: draw_charts(done["sheet"], done["charts"]),
    "thresholds": lambda done: draw_reading(done["page"].pixels, done["thresholds"]),
}
"""How each step is drawn; a step without a drawing leaves no picture."""


class WorkFolder:
    """The folder that the pictures go to.

    Parameters
    ----------
    folder : pathlib.Path
        Made, with the folders above it, where it is missing.

    Raises
    ------
    CannotWrite
        When it cannot be made.
    """

    def __init__(self, folder: Path) -> None:
        self._folder, self._stems = folder, set[str]()
        try:
            folder.mkdir(parents=True, exist_ok=True)
        except OSError as fault:
            raise CannotWrite(
                f"the folder for the pictures cannot be made ({fault.strerror})", "Name another one", file=str(folder)
            ) from fault

    def work_of(self, file: Path) -> FileWork:
        """Give the observer of one file; files of one name in different folders get different pictures."""
        stem, again = file.stem, 1
        while stem in self._stems:
            again += 1
            stem = f"{file.stem}-{again}"
        self._stems.add(stem)
        return FileWork(self._folder, stem)


class FileWork:
    """The pictures of one file: an observer of the road, which ``reading_pages`` calls after each step.

    Parameters
    ----------
    folder : pathlib.Path
        Where the pictures go.
    stem : str
        What their names begin with: ``STEM-p003-2-sheet.png`` is the sheet made of page 3.
    """

    def __init__(self, folder: Path, stem: str) -> None:
        self._folder, self._stem = folder, stem
        self._done: dict[str, Any] = {}
        self.failure: OctavoError | None = None
        """Why pictures are missing; the reading itself is not lost for want of a picture."""

    def __call__(self, step: str, result: object) -> None:
        """Draw the result of a step, named as in :data:`STEPS`."""
        if isinstance(result, Page):
            self._done = {}
        self._done[step] = result
        drawing = DRAWINGS.get(step)
        if drawing is not None and "page" in self._done:
            self._write(lambda: drawing(self._done), f"{STEPS.index(step) + 1}-{step}")

    def reading(self, record: PageRecord) -> None:
        """Draw the record over the page that it was read from, and every value of it that asks by itself."""
        page = self._done.get("page")
        if page is not None and page.source.page == record.source.page:
            self._write(lambda: draw_reading(page.pixels, record), f"{len(STEPS) + 1}-reading")
            self._write(lambda: draw_asked(page.pixels, record), f"{len(STEPS) + 2}-asked")

    def _write(self, draw: Callable[[], Pixels | None], name: str) -> None:
        if self.failure is not None:
            return
        path = self._folder / f"{self._stem}-p{self._done['page'].source.page:03d}-{name}.png"
        try:
            picture = draw()
            if picture is not None:
                write_png(picture, path)
        except CannotWrite as failure:
            self.failure = failure
        except Exception as fault:  # noqa: BLE001  # the page is read all the same
            what = f"octavo failed to draw this picture ({type(fault).__name__})"
            self.failure = InternalFault(what, "Report this; the reading is not affected", file=str(path))


def write_png(picture: Pixels, path: Path) -> None:
    """Write a picture.

    Parameters
    ----------
    picture : Pixels
        Shape (height, width, 3), uint8, RGB.
    path : pathlib.Path
        The file to write.

    Raises
    ------
    CannotWrite
        When the file cannot be written.
    """
    png = cv2.imencode(".png", cv2.cvtColor(picture, cv2.COLOR_RGB2BGR))[1].tobytes()
    try:
        path.write_bytes(png)
    except OSError as fault:
        what = f"the picture cannot be written ({fault.strerror})"
        raise CannotWrite(what, "Free some space or name another folder", file=str(path)) from fault
