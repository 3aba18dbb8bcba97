"""Times what is printed.

    python tests/bench/bench_print.py [--coins 1000] [--runs 3] [--size 900x900] [--keep FOLDER]

Each coin has two photos of noise, the worst for JPEG. Each figure is the median of so many runs, of a fresh
process each: seconds of wall clock, seconds of the processor, the peak memory with that of the largest volume,
for volumes are set one after the other in processes of their own, and the size of the PDFs. The first line is of
pictures still to be made, the others with them remembered. On a machine that others use, go by the processor;
even that is the higher the more they use it. The catalogue is made anew in a folder that is thrown away, or once
in the folder to be kept.
"""

import argparse
import json
import os
import platform
import statistics
import subprocess
import sys
import tempfile
import time
from contextlib import nullcontext
from pathlib import Path

from catalogues import make_catalogue

MEASURED = """
import resource, sys
from daterun.command.main import main
code = main(sys.argv[1:])
own, volumes = (resource.getrusage(each) for each in (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN))
used = sum(each.ru_utime + each.ru_stime for each in (own, volumes))
print(used, own.ru_maxrss + volumes.ru_maxrss, file=sys.stderr)
sys.exit(code)
"""


def timed(*arguments: str) -> tuple[float, float, float]:
    """Run a command; give its seconds, those of the processor, and its peak memory in megabytes."""
    start = time.perf_counter()
    ran = subprocess.run(
        [sys.executable, "-c", MEASURED, *arguments], check=True, capture_output=True, text=True
    )
    processor, peak = ran.stderr.split()[-2:]
    return time.perf_counter() - start, float(processor), int(peak) / 1024


def main() -> None:
    """Make a catalogue, time each thing printed, print a table and a line of JSON."""
    parser = argparse.ArgumentParser(description="Time what is printed.")
    parser.add_argument("--coins", type=int, default=1000)
    parser.add_argument("--runs", type=int, default=3)
    parser.add_argument("--size", default="900x900")
    parser.add_argument("--keep", type=Path)
    chosen = parser.parse_args()
    width, height = (int(each) for each in chosen.size.split("x"))
    with nullcontext(chosen.keep) if chosen.keep else tempfile.TemporaryDirectory() as place:
        folder = Path(place)
        if not (folder / "content").exists():
            make_catalogue(folder, chosen.coins, 2 * chosen.coins, width, height)
        coins = sum(1 for _ in (folder / "content/coins").rglob("*.md"))
        photos = sum(1 for _ in (folder / "content/photos").rglob("*.jpg"))
        print(f"{coins} coins, {photos} photos of {chosen.size}, medians of {chosen.runs}")
        load = (
            ", ".join(f"{each:.1f}" for each in os.getloadavg()) if hasattr(os, "getloadavg") else "unknown"
        )
        print(
            f"{platform.machine()}, {os.cpu_count()} cores, load {load}, Python {platform.python_version()}"
        )
        found: dict[str, float] = {}
        for name, what, runs in (
            ("catalogue, at first", "catalogue", 1),
            ("catalogue", "catalogue", chosen.runs),
            ("schedule", "schedule", chosen.runs),
            ("labels", "labels", chosen.runs),
            ("wants", "wants", chosen.runs),
        ):
            times, processor, peaks = zip(
                *(timed("print", what, "--for", "keeper", "--folder", str(folder)) for _ in range(runs)),
                strict=True,
            )
            made = sorted((folder / "output/keeper/print").glob(f"{what}*.pdf"))
            size = sum(each.stat().st_size for each in made) / 1_000_000
            found[name] = round(statistics.median(times), 2)
            print(
                f"{name:20} {found[name]:8.2f} s, of the processor {statistics.median(processor):7.2f} s,"
                f" {max(peaks):6.0f} MB, PDF {size:6.1f} MB in {len(made)} files",
                flush=True,
            )
        print(json.dumps(found))


if __name__ == "__main__":
    main()
