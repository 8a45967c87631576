"""The folder of pictures: which picture is called what, and what happens when one cannot be written."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import cv2
import numpy as np
import pytest

from octavo.extract.choices import Choices
from octavo.extract.page import Page
from octavo.interpret.errors import CannotWrite, InternalFault
from octavo.interpret.record import PageRecord, Source
from octavo.tools import show_work
from octavo.tools.reading import read_pages
from octavo.tools.show_work import STEPS, WorkFolder, write_png

MakeRecord = Callable[..., PageRecord]
SAMPLE = Path(__file__).parents[2] / "sample_charts" / "drawn-both-ears.pdf"


def a_page(number: int = 1) -> Page:
    pixels = np.full((120, 90, 3), 255, np.uint8)
    pixels[10, 20] = (200, 30, 10)
    return Page(source=Source("fax.tif", "0" * 64, number, 3, "scan"), pixels=pixels, dpi=None)


def picture_in(path: Path) -> np.ndarray:
    """Give the picture in a file, BGR."""
    picture = cv2.imdecode(np.frombuffer(path.read_bytes(), np.uint8), cv2.IMREAD_COLOR)
    assert picture is not None
    return picture


def test_pictures_are_named_by_file_page_step_and_number(tmp_path: Path, make_record: MakeRecord) -> None:
    work = WorkFolder(tmp_path / "new" / "folder").work_of(Path("in/fax.tif"))
    work("page", a_page(3))
    work.reading(make_record(page=3, pages=3))
    assert sorted(path.name for path in (tmp_path / "new" / "folder").iterdir()) == [
        "fax-p003-1-page.png",
        "fax-p003-6-reading.png",
    ]


def test_the_picture_of_the_page_is_the_page(tmp_path: Path) -> None:
    work = WorkFolder(tmp_path).work_of(Path("fax.tif"))
    work("page", a_page())
    assert np.array_equal(picture_in(tmp_path / "fax-p001-1-page.png")[:, :, ::-1], a_page().pixels)


def test_files_of_one_name_in_two_folders_do_not_overwrite_each_other(tmp_path: Path) -> None:
    folder = WorkFolder(tmp_path)
    for file in ("a/fax.tif", "b/fax.tif", "b/fax.pdf"):
        folder.work_of(Path(file))("page", a_page())
    assert len(list(tmp_path.iterdir())) == 3


def test_a_record_of_another_page_is_not_drawn_over_this_one(tmp_path: Path, make_record: MakeRecord) -> None:
    work = WorkFolder(tmp_path).work_of(Path("fax.tif"))
    work("page", a_page(1))
    work.reading(make_record(page=2, pages=3))
    assert [path.name for path in tmp_path.iterdir()] == ["fax-p001-1-page.png"]


def test_a_picture_that_cannot_be_written_is_kept_as_the_failure_and_stops_no_reading(tmp_path: Path) -> None:
    work = WorkFolder(tmp_path / "gone").work_of(Path("fax.tif"))
    (tmp_path / "gone").rmdir()
    work("page", a_page())
    assert isinstance(work.failure, CannotWrite)
    assert "fax-p001-1-page.png: the picture cannot be written (No such file or directory)" in str(work.failure)


def test_a_folder_that_cannot_be_made_is_said_at_once(tmp_path: Path) -> None:
    (tmp_path / "taken").write_text("a file")
    with pytest.raises(CannotWrite, match="the folder for the pictures cannot be made"):
        WorkFolder(tmp_path / "taken")


def test_a_picture_is_written_whatever_its_name(tmp_path: Path) -> None:
    path = tmp_path / "ä-日本.png"
    write_png(a_page().pixels, path)
    assert path.read_bytes().startswith(b"\x89PNG")


def test_every_step_of_the_road_leaves_a_picture_that_shows_more_than_the_one_before(tmp_path: Path) -> None:
    work = WorkFolder(tmp_path).work_of(SAMPLE)
    (record,) = read_pages(SAMPLE, Choices(), observer=work)
    assert isinstance(record, PageRecord)
    work.reading(record)
    assert work.failure is None
    names = sorted(path.name for path in tmp_path.iterdir())
    assert names == [f"drawn-both-ears-p001-{n + 1}-{step}.png" for n, step in enumerate((*STEPS, "reading"))]
    page, sheet, sightings, charts, thresholds, _ = (picture_in(tmp_path / name) for name in names)
    for one, other in ((page, sheet), (sheet, sightings), (sightings, charts), (charts, thresholds)):
        assert one.shape != other.shape or (one != other).any(axis=2).mean() > 0.002
    marks = [t.seen.at for t in record.audiograms[0].thresholds if t.seen is not None and t.seen.at is not None]
    assert marks
    for picture in (sightings, charts, thresholds):
        # The sheet of a drawn page is the page itself, so that a mark has one place in all of them.
        assert picture.shape == page.shape
        for x, y in marks:
            column, row = round(x * page.shape[1]), round(y * page.shape[0])
            near = picture[row - 26 : row + 27, column - 26 : column + 27]
            assert (near.max(axis=2).astype(int) - near.min(axis=2) > 120).sum() > 20


def test_a_fault_in_drawing_is_kept_as_the_failure_and_stops_no_reading(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fail(done: dict[str, object]) -> None:
        raise ZeroDivisionError

    monkeypatch.setitem(show_work.DRAWINGS, "page", fail)
    work = WorkFolder(tmp_path).work_of(Path("fax.tif"))
    work("page", a_page())
    assert isinstance(work.failure, InternalFault)
    assert "octavo failed to draw this picture (ZeroDivisionError)" in str(work.failure)
