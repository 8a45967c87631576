"""The most memory that a reading held, in this process or in one that it started."""

from __future__ import annotations

import sys
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path


@dataclass(frozen=True, slots=True)
class MemoryWatch:
    """What the system knew before the reading began, in 10^6 bytes."""

    children_before: float

    @classmethod
    def start(cls) -> MemoryWatch:
        """Begin to watch; Linux forgets this process's peak so far, elsewhere it is that of its whole life."""
        with suppress(OSError):
            Path("/proc/self/clear_refs").write_text("5", encoding="ascii")
        return cls(_children_mb())

    def peak_mb(self) -> float:
        """Give the largest resident memory of this process, or of one that it started and that has ended.

        The system keeps one peak of all ended processes. So theirs counts only where it rose: one that stays below
        the peak of an earlier one (another page's, or a Tesseract pass as yardstick) is not seen.
        """
        children = _children_mb()
        return max(_own_mb(), children if children > self.children_before else 0.0)


def _own_mb() -> float:
    with suppress(OSError):
        for line in Path("/proc/self/status").read_text(encoding="utf-8").splitlines():
            if line.startswith("VmHWM:"):
                return int(line.split()[1]) * 1024 / 1e6
    return _usage_mb(children=False)


def _children_mb() -> float:
    return _usage_mb(children=True)


def _usage_mb(*, children: bool) -> float:
    try:
        import resource
    except ImportError:  # Windows
        return 0.0
    unit = 1 if sys.platform == "darwin" else 1024
    who = resource.RUSAGE_CHILDREN if children else resource.RUSAGE_SELF
    return resource.getrusage(who).ru_maxrss * unit / 1e6
