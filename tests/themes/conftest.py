"""Lets the tests of themes share the samples and the rendering that `look.py` uses as well."""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))
