"""Lets the tests of themes share the samples and the rendering that `look.py` uses as well, and the browser."""

import sys
from pathlib import Path

HERE = Path(__file__).parent
sys.path[:0] = [str(HERE), str(HERE.parent / "demo" / "browser")]

from chromium import browser  # noqa: E402, F401  (a fixture)
