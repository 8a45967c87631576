"""Lets the files of this folder import one another by their plain names, under every import mode of pytest."""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))
