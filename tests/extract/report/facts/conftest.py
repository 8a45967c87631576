"""Lets these tests import what is written by hand for them, in this folder, by its plain name."""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))
