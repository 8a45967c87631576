"""``tools/fresh.sh`` on machines that lack things, each played by a PATH of its own."""

from __future__ import annotations

import shutil
import subprocess
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
SCRIPT = ROOT / "tools" / "fresh.sh"
NEEDED = ("sh", "dirname", "cat", "cksum", "id", "rm", "tail", "grep")


@pytest.fixture
def machine(tmp_path: Path) -> Path:
    """Give a copy of what the script needs of the repository, and beside it a PATH of bare tools."""
    (tmp_path / "bin").mkdir()
    for name in NEEDED:
        found = shutil.which(name)
        assert found is not None
        (tmp_path / "bin" / name).symlink_to(found)
    (tmp_path / "clone" / "tools").mkdir(parents=True)
    shutil.copy(SCRIPT, tmp_path / "clone" / "tools" / "fresh.sh")
    shutil.copy(ROOT / "pyproject.toml", tmp_path / "clone")
    (tmp_path / "clone" / "uv.lock").write_text("")
    return tmp_path


def fresh(machine: Path, *words: str) -> subprocess.CompletedProcess[str]:
    command = [str(machine / "bin" / "sh"), str(machine / "clone" / "tools" / "fresh.sh"), *words]
    return subprocess.run(command, env={"PATH": str(machine / "bin")}, capture_output=True, text=True, check=False)


def program(machine: Path, name: str, text: str) -> None:
    path = machine / "bin" / name
    path.write_text(f"#!{machine}/bin/sh\n{text}\n")
    path.chmod(0o755)


def ready_venv(machine: Path, *, cv2: str = "exit 0") -> None:
    """Play an environment that is made and installed already, so that only programs can be missing."""
    place = machine / "clone" / ".venv" / "bin"
    place.mkdir(parents=True)
    python = place / "python"
    python.write_text(f'#!{machine}/bin/sh\ncase "$*" in *cv2*) {cv2} ;; *pytest*) echo tested "$@" ;; esac\n')
    python.chmod(0o755)
    both = (machine / "clone" / "pyproject.toml").read_bytes() + (machine / "clone" / "uv.lock").read_bytes()
    sums = subprocess.run("cksum", input=both, capture_output=True, check=True).stdout
    for extra in ("run", "dev"):
        (machine / "clone" / ".venv" / f"octavo-{extra}.installed").write_bytes(sums)


@pytest.mark.parametrize("words", [(), ("tset",)])
def test_it_says_what_it_can_do(machine: Path, words: tuple[str, ...]) -> None:
    done = fresh(machine, *words)
    assert done.returncode == 64
    assert done.stderr == "fresh: say what to do: sh tools/fresh.sh demo, or sh tools/fresh.sh test\n"


def test_without_a_python_it_names_the_version_needed(machine: Path) -> None:
    done = fresh(machine, "test")
    assert done.returncode == 69
    assert done.stderr == "fresh: Python 3.11 or later is needed and was not found. Install it, then run this again.\n"


def test_an_old_python_is_not_taken(machine: Path) -> None:
    program(machine, "python3", "exit 1")
    assert "Python 3.11 or later is needed" in fresh(machine, "test").stderr


def test_without_a_package_manager_it_says_plainly_what_to_install(machine: Path) -> None:
    ready_venv(machine)
    done = fresh(machine, "test")
    assert done.returncode == 69
    assert done.stderr.splitlines()[-1] == (
        "fresh: Tesseract with English is missing and this machine has no apt-get, dnf or brew. "
        "Install it, then run this again."
    )


@pytest.mark.parametrize(
    ("manager", "called"),
    [
        ("apt-get", "install -y --no-install-recommends tesseract-ocr tesseract-ocr-eng"),
        ("dnf", "install -y tesseract tesseract-langpack-eng"),
        ("brew", "install tesseract"),
    ],
)
def test_a_missing_tesseract_is_installed_through_the_manager_that_is_there(
    machine: Path, manager: str, called: str
) -> None:
    ready_venv(machine)
    program(machine, "env", 'shift; exec "$@"')
    (machine / "bin" / "id").unlink()
    program(machine, "id", "echo 0")
    program(machine, manager, f'echo "$@" >>{machine}/calls')
    done = fresh(machine, "test")
    assert (machine / "calls").read_text().splitlines()[-1] == called
    assert done.returncode == 0
    assert "tested -m pytest" in done.stdout


def test_without_the_right_to_install_it_says_what_root_must_run(machine: Path) -> None:
    ready_venv(machine)
    (machine / "bin" / "id").unlink()
    program(machine, "id", "echo 1000")
    program(machine, "apt-get", "exit 0")
    done = fresh(machine, "test")
    assert done.returncode == 69
    assert done.stderr.endswith("As root, run: apt-get install tesseract-ocr tesseract-ocr-eng\n")


def test_what_is_there_already_is_not_installed_again(machine: Path) -> None:
    ready_venv(machine)
    program(machine, "tesseract", "echo eng")
    program(machine, "apt-get", f"echo called >>{machine}/calls")
    done = fresh(machine, "test", "-x")
    assert done.returncode == 0
    assert not (machine / "calls").exists()
    assert done.stdout == "tested -m pytest -x\n"


def test_the_libraries_that_opencv_loads_are_installed_when_it_does_not_load(machine: Path) -> None:
    ready_venv(machine, cv2="exit 1")
    program(machine, "tesseract", "echo eng")
    (machine / "bin" / "id").unlink()
    program(machine, "id", "echo 0")
    program(machine, "env", 'shift; exec "$@"')
    program(machine, "apt-get", f'echo "$@" >>{machine}/calls')
    done = fresh(machine, "test")
    assert (machine / "calls").read_text().splitlines()[-1].endswith("libgl1 libglib2.0-0")
    assert done.returncode == 69
    assert "OpenCV cannot be loaded" in done.stderr
