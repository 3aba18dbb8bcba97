"""Passes the tests: format, lint, types and everything else, each told by a heading.

    python tests/run.py

All steps are run, so that one run tells of everything; the exit code is that of the first step that failed.
The tests are run in two halves at once, which takes little more than half of the time on two cores. They are
processes of their own, for what makes pages in copies of itself does so only in a process without threads.
"""

import importlib.util
import subprocess
import sys
from pathlib import Path
from tempfile import TemporaryFile
from typing import IO

ROOT = Path(__file__).resolve().parent.parent

STEPS = (
    ("Lint", ("ruff", "check", ".")),
    ("Format", ("ruff", "format", "--check", ".")),
    ("Types", ("mypy",)),
)

HALF = (
    *("tests/demo", "tests/exchange", "tests/mutations", "tests/pages", "tests/photos", "tests/preview"),
    *("tests/printed", "tests/themes"),
)
"""The folders of tests that take about as long as all others together."""

HALVES = (HALF, ("tests", *(f"--ignore={each}" for each in HALF)))


def main() -> int:
    """Run every step, and give the exit code of the first that failed, 0 where none did."""
    failed = 0
    for heading, (module, *arguments) in STEPS:
        print(f"== {heading}: {' '.join((module, *arguments))}", flush=True)
        if is_installed(module):
            code = subprocess.run([sys.executable, "-m", module, *arguments], cwd=ROOT).returncode
        else:
            code = 2
        failed = failed or code
    print("== Tests: pytest, in two halves", flush=True)
    code = run_halves() if is_installed("pytest") else 2
    return failed or code


def is_installed(module: str) -> bool:
    """Tell whether a tool is there, and say so where it is not."""
    found = importlib.util.find_spec(module) is not None
    if not found:
        print(f"{module} is not installed: pip install --editable '.[test]'", flush=True)
    return found


def run_halves() -> int:
    """Run both halves of the tests at once, and tell one after the other what they came to."""
    halves: list[subprocess.Popen[bytes]] = []
    with TemporaryFile() as other:
        try:
            halves.append(start(HALVES[0], None))
            halves.append(start(HALVES[1], other))
            codes = [half.wait() for half in halves]
        finally:
            for half in halves:
                half.kill()
            other.seek(0)
            print(other.read().decode("utf-8", "replace"), flush=True)
    return next((code for code in codes if code), 0)


def start(half: tuple[str, ...], told: IO[bytes] | None) -> subprocess.Popen[bytes]:
    """Start a half, told into a file where one is given."""
    command = [sys.executable, "-m", "pytest", "-p", "no:cacheprovider", *half]
    return subprocess.Popen(command, cwd=ROOT, stdout=told, stderr=subprocess.STDOUT if told else None)


if __name__ == "__main__":
    sys.exit(main())
