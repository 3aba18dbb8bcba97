"""Gives the tests of this folder the browser, and what they share beside each other."""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))

from chromium import browser  # noqa: F401  (a fixture)
