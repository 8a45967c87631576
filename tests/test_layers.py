"""Who imports whom, read from the code's own imports, and how long a file may be."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent
LAYERS = ("extract", "interpret", "tools")
CODE = sorted(path for layer in LAYERS for path in (ROOT / layer).rglob("*.py"))
TESTS = sorted((ROOT / "tests").rglob("*.py"))

GROUND_FLOOR = {"record", "symbols", "reach", "reasons", "errors"}
PIXELS_AND_FILES = {"cv2", "skimage", "pdfplumber", "pdfminer", "pypdfium2", "pytesseract"}
MOST_LINES = 400
BANNED = {"imread", "imwrite", "imreadmulti", "imwritemulti"}


def module_of(path: Path) -> tuple[str, ...]:
    """Name a file as a module of the package: ``extract/page.py`` is ("octavo", "extract", "page")."""
    parts = path.relative_to(ROOT).with_suffix("").parts
    return ("octavo", *(parts[:-1] if parts[-1] == "__init__" else parts))


def is_module(name: tuple[str, ...]) -> bool:
    place = ROOT.joinpath(*name[1:])
    return place.with_suffix(".py").is_file() or place.is_dir()


def imports_of(path: Path, source: str | None = None) -> Iterator[tuple[str, ...]]:
    """Give every module that a file imports, anywhere in it, relative ones spelled out."""
    tree = ast.parse(path.read_text("utf-8") if source is None else source)
    package = module_of(path) if path.name == "__init__.py" else module_of(path)[:-1]
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            yield from (tuple(alias.name.split(".")) for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            start = package[: len(package) - node.level + 1] if node.level else ()
            base = (*start, *(node.module or "").split(".")) if node.module else start
            for alias in node.names:
                deeper = (*base, alias.name)
                yield deeper if base[:1] == ("octavo",) and is_module(deeper) else base


def names_taken_from_opencv(source: str) -> set[str]:
    """Give every name that the source takes from cv2, under whatever name it imports cv2 itself."""
    nodes = list(ast.walk(ast.parse(source)))
    imported = [alias for node in nodes if isinstance(node, ast.Import) for alias in node.names]
    cv2 = {alias.asname or alias.name for alias in imported if alias.name == "cv2"}
    taken = {node.attr for node in nodes if isinstance(node, ast.Attribute) and ast.unparse(node.value) in cv2}
    for node in nodes:
        if isinstance(node, ast.ImportFrom) and node.module == "cv2":
            taken |= {alias.name for alias in node.names}
    return taken


def breach(importer: tuple[str, ...], imported: tuple[str, ...]) -> str | None:
    """Say what is wrong with an import, or give None."""
    top, target, part, *_ = (*imported, "", "", "")
    layer = importer[1]
    if top != "octavo":
        target = part = ""
    if layer == "interpret" and (top in PIXELS_AND_FILES or target in ("extract", "tools")):
        return "interpret imports neither extract nor tools nor what opens pages"
    if layer == "extract" and target == "tools":
        return "extract does not import tools"
    if layer == "extract" and target == "interpret" and part not in ("", *GROUND_FLOOR):
        return "extract takes from interpret the ground floor only"
    if importer[1:3] == ("tools", "painter") and target == "extract":
        return "the painter never imports extract: truth must not lean on the reader"
    return None


@pytest.mark.parametrize("path", CODE, ids=lambda path: str(path.relative_to(ROOT)))
def test_a_file_imports_only_what_its_layer_may(path: Path) -> None:
    found = {(".".join(name), why) for name in imports_of(path) if (why := breach(module_of(path), name))}
    assert found == set()


@pytest.mark.parametrize("path", CODE, ids=lambda path: str(path.relative_to(ROOT)))
def test_a_file_imports_the_package_s_own_modules_relatively(path: Path) -> None:
    tree = ast.parse(path.read_text("utf-8"))
    absolute = [
        node.lineno
        for node in ast.walk(tree)
        if (isinstance(node, ast.ImportFrom) and not node.level and (node.module or "").split(".")[0] == "octavo")
        or (isinstance(node, ast.Import) and any(alias.name.split(".")[0] == "octavo" for alias in node.names))
    ]
    assert absolute == []


@pytest.mark.parametrize("path", [*CODE, *TESTS], ids=lambda path: str(path.relative_to(ROOT)))
def test_no_file_is_longer_than_the_wall(path: Path) -> None:
    assert len(path.read_text("utf-8").splitlines()) <= MOST_LINES


@pytest.mark.parametrize("path", [*CODE, *TESTS], ids=lambda path: str(path.relative_to(ROOT)))
def test_no_file_reads_or_writes_pictures_by_name_through_opencv(path: Path) -> None:
    # They fail silently on names that are not ASCII.
    assert names_taken_from_opencv(path.read_text("utf-8")) & BANNED == set()


@pytest.mark.parametrize(
    "source",
    [
        "import cv2\ncv2.imread('a')",
        "import cv2 as cv\ncv.imwrite('a', b)",
        "from cv2 import imread as read\nread('a')",
    ],
)
def test_a_banned_call_is_seen(source: str) -> None:
    assert names_taken_from_opencv(source) & BANNED


def test_another_library_s_function_of_that_name_is_let_pass() -> None:
    assert names_taken_from_opencv("import tifffile\ntifffile.imwrite('a', b)") == set()


def test_the_face_imports_nothing_of_the_package_when_it_is_loaded() -> None:
    tree = ast.parse((ROOT / "__init__.py").read_text("utf-8"))
    at_load = [node for node in tree.body if isinstance(node, ast.Import | ast.ImportFrom)]
    assert [node for node in at_load if isinstance(node, ast.ImportFrom) and node.level] == []


@pytest.mark.parametrize(
    ("where", "source"),
    [
        ("interpret/findings.py", "import cv2"),
        ("interpret/findings.py", "from ..extract.page import Page"),
        ("interpret/rules/degree.py", "from ... import tools"),
        ("interpret/rules/degree.py", "def later():\n    import pytesseract"),
        ("extract/page.py", "from ..interpret.findings import findings"),
        ("extract/page.py", "from ..interpret import findings"),
        ("extract/intake/__init__.py", "from ...tools import reading"),
        ("tools/painter/__init__.py", "from ...extract.page import Page"),
    ],
)
def test_a_forbidden_import_is_seen(where: str, source: str) -> None:
    path = ROOT / where
    assert any(breach(module_of(path), name) for name in imports_of(path, source))


@pytest.mark.parametrize(
    ("where", "source"),
    [
        ("extract/page.py", "from ..interpret.record import Source"),
        ("extract/intake/__init__.py", "from ...interpret import reasons"),
        ("tools/command.py", "from ..extract.page import Page"),
        ("interpret/rules/degree.py", "from ..errors import MisuseError"),
    ],
)
def test_a_lawful_import_is_let_pass(where: str, source: str) -> None:
    path = ROOT / where
    assert [breach(module_of(path), name) for name in imports_of(path, source)] == [None]
