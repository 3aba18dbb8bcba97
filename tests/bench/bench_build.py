"""Times whole builds.

    python tests/bench/bench_build.py [--coins 1000] [--photos 0] [--size 1600x1600] [--runs 5]

Each figure is the median of so many runs, in seconds of wall clock, of a fresh process each, with the peak memory
of the largest process. The cases are a first build, a build with nothing changed, with one note changed, with one
grade changed, with one photo replaced, and `daterun --help`.
"""

import argparse
import json
import os
import platform
import resource
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

from catalogues import coin_id, make_catalogue, photo

DATERUN = (sys.executable, "-m", "daterun")


def timed(command: tuple[str, ...]) -> tuple[float, float]:
    """Run a command; give its seconds and the peak memory of any child so far, in megabytes."""
    start = time.perf_counter()
    subprocess.run(command, check=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    peak = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / 1024
    return time.perf_counter() - start, peak


def median_of(runs: int, command: tuple[str, ...], before: Callable[[int], None]) -> tuple[float, float]:
    """Time a command after a change, so often; the first run, which warms up, is not counted."""
    seconds, peak = [], 0.0
    for nth in range(runs + 1):
        before(nth)
        spent, peak = timed(command)
        seconds.append(spent)
    return statistics.median(seconds[1:]), peak


def main() -> None:
    """Make a catalogue, time the cases, print a table and a line of JSON."""
    parser = argparse.ArgumentParser(description="Time whole builds.")
    parser.add_argument("--coins", type=int, default=1000)
    parser.add_argument("--photos", type=int, default=0)
    parser.add_argument("--size", default="1600x1600")
    parser.add_argument("--runs", type=int, default=5)
    chosen = parser.parse_args()
    width, height = (int(each) for each in chosen.size.split("x"))
    with tempfile.TemporaryDirectory() as place:
        folder = make_catalogue(Path(place), chosen.coins, chosen.photos, width, height)
        series = len(list((folder / "content/series/vessmark").iterdir()))
        note = folder / f"content/coins/{coin_id(1, series)}.md"
        text = note.read_text(encoding="utf-8")
        picture = folder / f"content/photos/{coin_id(0, series)}.obverse.jpg"
        build = (*DATERUN, "build", "--folder", str(folder))

        def fresh(_: int) -> None:
            for name in ("output", ".daterun"):
                shutil.rmtree(folder / name, ignore_errors=True)

        cases: dict[str, tuple[tuple[str, ...], Callable[[int], None]]] = {
            "first build": (build, fresh),
            "nothing changed": (build, lambda _: None),
            "one note changed": (
                build, lambda nth: _put(note, f"{text}Seen again, for the time numbered {nth}.\n")
            ),
            "one grade changed": (
                build, lambda nth: _put(note, text.replace("grade: ", f"grade: VF{(20, 25, 30, 35)[nth % 4]} # "))
            ),
            "help": ((*DATERUN, "--help"), lambda _: None),
        }  # fmt: skip
        if chosen.photos:
            cases["one photo replaced"] = (
                build, lambda nth: picture.write_bytes(photo(10_000 + nth, width, height)) and None
            )  # fmt: skip
        found = {name: median_of(chosen.runs, *case) for name, case in cases.items()}
    print(f"{chosen.coins} coins, {chosen.photos} photos of {chosen.size}, medians of {chosen.runs}")
    print(f"{platform.machine()}, {os.cpu_count()} cores, Python {platform.python_version()}")
    for name, (seconds, peak) in found.items():
        print(f"{name:20} {seconds:8.2f} s {peak:8.0f} MB at most so far")
    print(json.dumps({name: round(seconds, 3) for name, (seconds, _) in found.items()}))


def _put(path: Path, text: str) -> None:
    path.write_text(text, encoding="utf-8")


if __name__ == "__main__":
    main()
