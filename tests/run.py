"""Passes the tests: format, lint, types and everything else, each told by a heading.

    python tests/run.py

All steps are run, so that one run tells of everything; the exit code is that of the first step that failed.
"""

import importlib.util
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent

STEPS = (
    ("Lint", ("ruff", "check", ".")),
    ("Format", ("ruff", "format", "--check", ".")),
    ("Types", ("mypy",)),
    ("Tests", ("pytest",)),
)


def main() -> int:
    """Run every step, and give the exit code of the first that failed, 0 where none did."""
    failed = 0
    for heading, (module, *arguments) in STEPS:
        print(f"== {heading}: {' '.join((module, *arguments))}", flush=True)
        if importlib.util.find_spec(module) is None:
            print(f"{module} is not installed: pip install --editable '.[test]'", flush=True)
            code = 2
        else:
            code = subprocess.run([sys.executable, "-m", module, *arguments], cwd=ROOT).returncode
        failed = failed or code
    return failed


if __name__ == "__main__":
    sys.exit(main())
