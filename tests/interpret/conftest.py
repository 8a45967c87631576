"""Lets the tests of this folder and below import the invented pages by their plain name."""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))
