"""Files are written whole or not at all."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from octavo.interpret.errors import CannotWrite
from octavo.tools.commands.whole_file import check_place, write_whole


def test_an_old_file_is_replaced_as_a_whole(tmp_path: Path) -> None:
    (tmp_path / "a").write_bytes(b"an older and longer text")
    write_whole({tmp_path / "a": b"new", tmp_path / "b": b"other"})
    assert {path.name: path.read_bytes() for path in tmp_path.iterdir()} == {"a": b"new", "b": b"other"}


def test_a_fault_leaves_every_file_as_it_was(tmp_path: Path) -> None:
    (tmp_path / "a").write_bytes(b"old")
    with pytest.raises(CannotWrite, match=r"b: the file cannot be written \(No such file or directory\)"):
        write_whole({tmp_path / "a": b"new", tmp_path / "none" / "b": b"other"})
    assert {path.name: path.read_bytes() for path in tmp_path.iterdir()} == {"a": b"old"}


def test_a_full_disk_leaves_nothing_behind(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def full(_: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(CannotWrite, match=r"No space left on device\)\. Free some space"):
        write_whole({tmp_path / "a": b"new"})
    assert list(tmp_path.iterdir()) == []


def test_a_link_stays_a_link(tmp_path: Path) -> None:
    (tmp_path / "there").mkdir()
    (tmp_path / "link").symlink_to(tmp_path / "there" / "a")
    write_whole({tmp_path / "link": b"new"})
    assert (tmp_path / "link").is_symlink()
    assert (tmp_path / "there" / "a").read_bytes() == b"new"


def test_new_files_may_be_read_by_whom_the_system_lets(tmp_path: Path) -> None:
    write_whole({tmp_path / "a": b"new"})
    (tmp_path / "b").write_bytes(b"as any program does")
    assert (tmp_path / "a").stat().st_mode == (tmp_path / "b").stat().st_mode


def test_a_folder_in_the_file_s_place_is_complained_of(tmp_path: Path) -> None:
    with pytest.raises(CannotWrite, match="a folder has this name"):
        check_place(tmp_path)
