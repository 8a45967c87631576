from __future__ import annotations

import re
from pathlib import Path

import pytest

from octavo.interpret.errors import MissingProgram
from octavo.tools.painter import FAMILIES, fonts, paint

MOST_BYTES = 12_000_000
"""The folder of fonts travels to the training machine with the rest of the work."""


def test_there_are_over_thirty_faces() -> None:
    assert len(fonts.FACES) >= 30


def test_no_embedded_face_serves_training_and_benchmark_alike() -> None:
    used: dict[str, set[bytes]] = {"train": set(), "bench": set()}
    for name, family in FAMILIES.items():
        if "none" not in family.tags:
            for seed in range(4):
                used[family.split] |= set(re.findall(rb"/FontName /[A-Z]+\+([\w-]+)", paint(name, seed).pdf))
    assert len(used["train"]) > 5
    assert len(used["bench"]) > 5
    assert not used["train"] & used["bench"]


def test_collected_fonts_are_all_that_another_machine_needs(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    files = fonts.collect(tmp_path)
    assert sum(file.stat().st_size for file in files) < MOST_BYTES
    monkeypatch.setattr(fonts, "find_spec", lambda _: None)
    monkeypatch.setattr(fonts, "_folders", [tmp_path])
    for face in fonts.FACES.values():
        if face.file is not None:
            assert fonts._find(face).parent == tmp_path


def test_a_font_that_is_missing_names_the_package_to_install(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(fonts, "find_spec", lambda _: None)
    monkeypatch.setattr(fonts, "_folders", [])
    with pytest.raises(MissingProgram, match="pip install font-roboto"):
        fonts._find(fonts.FACES["Roboto-Regular"])
