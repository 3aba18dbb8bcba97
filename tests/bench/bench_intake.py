"""Times the intake of a table of coins.

    python tests/bench/bench_intake.py [--rows 5000] [--runs 3]

The rows are the invented, messy ones of the tests: mixed days, two currencies, blank rows, slips. Each figure is
the median of so many runs, in seconds of wall clock, of a fresh process each, with its seconds of processor and
its peak memory: shown only, written into an empty catalogue, and taken in once more, which adds nothing. On a
machine that others use, go by the processor. For systems that tell what a process has used: not for Windows.
"""

import argparse
import importlib.util
import json
import os
import platform
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

TESTS = Path(__file__).resolve().parent.parent


def messy_table(count: int) -> bytes:
    """Make the table as a spreadsheet of Windows saves it."""
    spec = importlib.util.spec_from_file_location("messy", TESTS / "exchange/messy.py")
    assert spec is not None and spec.loader is not None
    messy = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(messy)
    rows = [messy.HEADINGS, *(row for _, row in messy.messy_rows(count))]
    return "\r\n".join(rows).encode("cp1252")


def timed(*arguments: str) -> tuple[float, float, float]:
    """Run a command; give its seconds, those of the processor, and its peak memory in megabytes."""
    start = time.perf_counter()
    process = subprocess.Popen([sys.executable, "-m", "daterun", *arguments], stdout=subprocess.DEVNULL)
    _, status, used = os.wait4(process.pid, 0)
    seconds = time.perf_counter() - start
    process.returncode = os.waitstatus_to_exitcode(status)
    assert process.returncode in (0, 1), "rows that are rejected give 1"
    return seconds, used.ru_utime + used.ru_stime, used.ru_maxrss / 1024


def main() -> None:
    """Take a table in so many times, print a table and a line of JSON."""
    parser = argparse.ArgumentParser(description="Time the intake of a table of coins.")
    parser.add_argument("--rows", type=int, default=5000)
    parser.add_argument("--runs", type=int, default=3)
    chosen = parser.parse_args()
    found: dict[str, list[tuple[float, float, float]]] = {"shown only": [], "written": [], "once more": []}
    with tempfile.TemporaryDirectory() as place:
        table = Path(place) / "mine.csv"
        table.write_bytes(messy_table(chosen.rows))
        folder = Path(place) / "coins"
        words = ("intake", "--folder", str(folder), str(table), "--day-first", "--currency", "GBP")
        for _ in range(chosen.runs):
            shutil.rmtree(folder, ignore_errors=True)
            shutil.copytree(TESTS / "cases/base", folder)
            for name, more in (("shown only", ()), ("written", ("--write",)), ("once more", ("--write",))):
                found[name].append(timed(*words, *more))
        coins = len(list((folder / "content/coins").rglob("*.md")))
    assert coins, "nothing was taken in"
    print(f"{chosen.rows} rows, {coins} coins, medians of {chosen.runs}")
    print(f"{platform.machine()}, {os.cpu_count()} cores, Python {platform.python_version()}")
    medians = {
        name: [statistics.median(each) for each in zip(*runs, strict=True)] for name, runs in found.items()
    }
    print(f"{'':12}{'wall s':>8}{'processor s':>13}{'peak MB':>9}")
    for name, (wall, processor, peak) in medians.items():
        print(f"{name:12}{wall:8.2f}{processor:13.2f}{peak:9.0f}")
    print(json.dumps({name: [round(each, 3) for each in figures] for name, figures in medians.items()}))


if __name__ == "__main__":
    main()
