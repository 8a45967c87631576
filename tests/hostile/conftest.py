"""Lets the hostile tests use the files that the intake's own tests make by hand."""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent.parent / "extract" / "intake"))
