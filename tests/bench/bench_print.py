"""Times what is printed.

    python tests/bench/bench_print.py [--coins 1000] [--runs 3] [--size 900x900]

Each coin has two photos. Each figure is the median of so many runs, in seconds of wall clock, of a fresh process
each, with its seconds of processor, its own peak memory, and the size of the PDFs. The first line is with the
pictures still to be made, the others with them remembered. On a machine that others use, go by the processor.
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
from pathlib import Path

from catalogues import make_catalogue

MEASURED = """
import resource, sys
from daterun.command.main import main
code = main(sys.argv[1:])
used = resource.getrusage(resource.RUSAGE_SELF)
print(used.ru_utime + used.ru_stime, used.ru_maxrss, file=sys.stderr)
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
    chosen = parser.parse_args()
    width, height = (int(each) for each in chosen.size.split("x"))
    with tempfile.TemporaryDirectory() as place:
        folder = make_catalogue(Path(place), chosen.coins, 2 * chosen.coins, width, height)
        print(f"{chosen.coins} coins, {2 * chosen.coins} photos of {chosen.size}, medians of {chosen.runs}")
        print(f"{platform.machine()}, {os.cpu_count()} cores, Python {platform.python_version()}")
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
