"""The networks as another runtime than ours runs them, and how quietly they run."""

from __future__ import annotations

import os
import subprocess
import sys
from importlib.resources import files
from pathlib import Path

import cv2
import numpy as np
import pytest

from octavo.extract.eyes.networks import said_by

TAKES = {
    "marks/closely": (3, 3, 80, 80),
    "words/labels": (5, 1, 32, 48),
    "words/printed": (2, 1, 32, 96),
}


@pytest.mark.parametrize("name", TAKES)
def test_a_network_says_what_another_runtime_says_of_the_same_picture(name: str) -> None:
    """The other is OpenCV's, which shares no code with ours; it sums in another order, so the last digits differ."""
    seen = np.random.default_rng(83000001).random(TAKES[name], np.float32)
    other = cv2.dnn.readNetFromONNX(
        np.frombuffer(files("octavo.extract.eyes").joinpath(f"{name}.onnx").read_bytes(), np.uint8)
    )
    other.setInput(seen)
    expected = other.forward()
    said = said_by(name, seen)
    np.testing.assert_allclose(said, np.reshape(expected, said.shape), atol=2e-3 * float(np.ptp(expected)))
    assert np.std(said) > 0


@pytest.mark.parametrize("name", ["marks/marks", "marks/by-hand"])
def test_a_network_in_whole_numbers_says_what_another_runtime_says_of_the_same_picture(name: str) -> None:
    """OpenCV's goes through the same steps in fractions; what lies between two steps may be rounded to either."""
    seen = np.random.default_rng(83000003).integers(0, 256, (1, 12, 32, 48), np.uint8)
    other = cv2.dnn.readNetFromONNX(
        np.frombuffer(files("octavo.extract.eyes").joinpath(f"{name}.onnx").read_bytes(), np.uint8)
    )
    other.setInput(seen)
    off = np.abs(said_by(name, seen) - other.forward())
    assert np.mean(off > 0.01) < 0.01
    assert np.std(said_by(name, seen)) > 0.5


def test_another_size_of_picture_needs_no_other_network() -> None:
    """A picture twice as wide, its left half the same, says the same where the right one is out of reach."""
    seen = np.random.default_rng(83000002).random((1, 1, 32, 128), np.float32)
    np.testing.assert_allclose(
        said_by("words/labels", seen)[0, 0, :8], said_by("words/labels", seen[..., :64])[0, 0, :8], atol=1e-3
    )


QUIET = """
import os
import cv2
import numpy as np
cv2.setNumThreads(1)
from octavo.extract.eyes.networks import said_by
threads = lambda: len(os.listdir("/proc/self/task")) if os.path.isdir("/proc/self/task") else 0  # Linux alone has it
before = threads()
said_by("marks/closely", np.zeros((1, 3, 80, 80), np.float32))
try:
    said_by("marks/closely", np.zeros((1, 3, 81, 80), np.float32))
except Exception:
    print(threads() - before)
"""


def test_a_network_starts_no_thread_writes_no_line_and_leaves_nothing_in_the_users_folder(tmp_path: Path) -> None:
    """A line of the library's would break the promise of one line a fault; releases from 1.29 on report their use."""
    told = {name: value for name, value in os.environ.items() if name not in NO_REPORTS}
    told |= {"HOME": str(tmp_path), "XDG_CACHE_HOME": str(tmp_path)}
    done = subprocess.run([sys.executable, "-c", QUIET], capture_output=True, text=True, check=True, env=told)
    assert (done.stdout.strip(), done.stderr) == ("0", "")
    assert not list(tmp_path.iterdir())


NO_REPORTS = frozenset({"ORT_DISABLE_TELEMETRY", "ORT_RUNNING_UNIT_TESTS", "CI", "GITHUB_ACTIONS", "TF_BUILD"})
"""What keeps the library from reporting by itself."""
