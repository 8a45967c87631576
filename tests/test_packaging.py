"""The package as it is built: nothing left out of it, nothing swept into it."""

from __future__ import annotations

import subprocess
import sys
import tomllib
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))
NOT_DATA = {".py", ".pyc", ".md", ".sh", ".png"}
"""Code, and what only someone with a clone needs: texts, the installer, the README's picture."""
CODE_FOLDERS = ("extract", "interpret", "tools")


def test_packages_named_are_the_folders_that_hold_code() -> None:
    found = {"octavo"}
    for folder in CODE_FOLDERS:
        for init in (ROOT / folder).rglob("__init__.py"):
            found.add(".".join(("octavo", *init.parent.relative_to(ROOT).parts)))
    assert set(PROJECT["tool"]["setuptools"]["packages"]) == found


def test_every_folder_with_code_is_a_package() -> None:
    folders = {code.parent for folder in CODE_FOLDERS for code in (ROOT / folder).rglob("*.py")}
    assert [folder for folder in sorted(folders) if not (folder / "__init__.py").exists()] == []


def test_every_data_file_beside_the_code_is_packaged() -> None:
    patterns = PROJECT["tool"]["setuptools"]["package-data"]
    taken = {path for package, globs in patterns.items() for glob in globs for path in _folder(package).glob(glob)}
    data = {
        path
        for folder in CODE_FOLDERS
        for path in (ROOT / folder).rglob("*")
        if path.is_file() and path.suffix not in NOT_DATA
    }
    assert sorted(data - taken) == []


def test_package_data_does_not_sweep_in_samples_or_tests() -> None:
    patterns = PROJECT["tool"]["setuptools"]["package-data"]
    assert patterns["octavo"] == ["py.typed"]
    assert not any(
        "sample_charts" in path.parts or "tests" in path.parts
        for package, globs in patterns.items()
        for glob in globs
        for path in _folder(package).glob(glob)
    )


def test_version_of_the_face_is_that_of_the_project() -> None:
    import octavo

    assert octavo.__version__ == PROJECT["project"]["version"]


def test_lock_names_the_public_index_alone() -> None:
    lock = tomllib.loads((ROOT / "uv.lock").read_text("utf-8"))
    registries = {package["source"].get("registry") for package in lock["package"]}
    assert registries - {None} == {"https://pypi.org/simple"}


def test_importing_the_face_loads_no_heavy_package() -> None:
    heavy = {"cv2", "numpy", "onnxruntime", "skimage", "pdfplumber"}
    code = f"import sys, octavo; print(sorted({heavy} & set(sys.modules)))"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"


def _folder(package: str) -> Path:
    return ROOT.joinpath(*package.split(".")[1:])
