"""What is read when folders are named."""

from __future__ import annotations

from pathlib import Path

from octavo.interpret.errors import MissingFile, MisuseError
from octavo.tools.commands.files import named_files


def fill(folder: Path, *names: str) -> None:
    for name in names:
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(b"")


def test_a_folder_gives_its_pages_in_order_and_those_below_it(tmp_path: Path) -> None:
    fill(tmp_path, "b.PDF", "a.tif", "notes.txt", "later/c.jpeg", "c.webp", "page.bmp", "x.png")
    found = [path.relative_to(tmp_path).as_posix() for path in named_files([str(tmp_path)]) if isinstance(path, Path)]
    assert found == ["a.tif", "b.PDF", "c.webp", "page.bmp", "x.png", "later/c.jpeg"]


def test_hidden_files_and_folders_are_left_out_of_a_folder(tmp_path: Path) -> None:
    fill(tmp_path, "._scan.pdf", ".trash/old.pdf", "scan.pdf")
    assert list(named_files([str(tmp_path)])) == [tmp_path / "scan.pdf"]


def test_a_file_named_outright_is_read_whatever_its_name(tmp_path: Path) -> None:
    fill(tmp_path, ".hidden", "scan")
    names = [str(tmp_path / ".hidden"), str(tmp_path / "scan")]
    assert list(named_files(names)) == [Path(name) for name in names]


def test_a_folder_without_pages_is_said_to_hold_none(tmp_path: Path) -> None:
    fill(tmp_path, "notes.txt")
    (error,) = named_files([str(tmp_path)])
    assert isinstance(error, MissingFile)
    told = "the folder holds no PDF, TIFF, PNG, JPEG, WebP, BMP or GIF file. Name another folder."
    assert str(error) == f"{tmp_path}: {told}"


def test_a_loop_of_links_is_walked_once(tmp_path: Path) -> None:
    fill(tmp_path, "scan.pdf")
    (tmp_path / "again").symlink_to(tmp_path, target_is_directory=True)
    assert list(named_files([str(tmp_path)])) == [tmp_path / "scan.pdf"]


def test_a_name_longer_than_any_file_system_takes_is_passed_on_for_the_reader_to_refuse() -> None:
    name = "x" * 5000 + ".pdf"
    assert list(named_files([name])) == [Path(name)]


def test_standard_input_is_refused_in_its_place_and_the_other_files_stay() -> None:
    error, path = named_files(["-", "a.pdf"])
    assert isinstance(error, MisuseError)
    assert path == Path("a.pdf")
