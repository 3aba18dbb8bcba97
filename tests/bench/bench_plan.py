"""Times the planning of an edition, how it grows with the coins, and how long its longest pages are.

    python tests/bench/bench_plan.py [1000 5000 20000] [--for public] [--runs 5]

Each figure is the median of so many runs after one that warms up, in seconds of processor time of one process
without the cyclic collector, as in a command; the peak memory is that of the process, its records among it.
"""

import argparse
import gc
import json
import platform
import resource
import statistics
import subprocess
import sys
import tempfile
import time
from dataclasses import fields, is_dataclass
from pathlib import Path

from catalogues import make_catalogue

from daterun.bundled import themes_folder
from daterun.pages.findviews import CompareView, FindView
from daterun.pages.pieces import CoinCard, Table
from daterun.pages.plan import Plan, plan_pages
from daterun.press.theme import DEFAULT, find_theme
from daterun.press.words import read_words
from daterun.problems import Place
from daterun.readers.closing import close_catalogue
from daterun.readers.reader import Reader
from daterun.records.catalogue import read_catalogue


def entries(value: object) -> int:
    """Count the rows of tables and the coins shown anywhere in a view."""
    if isinstance(value, CoinCard):
        return 1
    if isinstance(value, Table):
        return len(value.rows)
    if is_dataclass(value):
        return sum(entries(getattr(value, each.name)) for each in fields(value))
    return sum(entries(each) for each in value) if isinstance(value, tuple) else 0


def longest(plan: Plan) -> tuple[int, str]:
    """Find the page with the most rows and coins; those that scripts fill are left out."""
    bodies = [each for each in plan.pages if not isinstance(each.body, FindView | CompareView)]
    return max((entries(each.body), each.address) for each in bodies)


def measure(many: int, reader: Reader, runs: int) -> dict[str, object]:
    """Plan a catalogue of so many coins, in this process."""
    with tempfile.TemporaryDirectory() as place:
        folder = make_catalogue(Path(place), many)
        gc.disable()
        catalogue, _ = read_catalogue(folder)
        theme = find_theme(DEFAULT, folder, themes_folder(), Place(""))
    words = read_words(theme, "en-GB")
    closed = close_catalogue(catalogue, {}, reader)
    before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    seconds = []
    for _ in range(runs + 1):
        start = time.process_time()
        plan = plan_pages(closed, words)
        seconds.append(time.process_time() - start)
        if len(seconds) == 1:
            peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    most, address = longest(plan)
    return {
        "coins": many,
        "pages": len(plan.pages),
        "seconds": round(statistics.median(seconds[1:]), 2),
        "records_mb": round(before),
        "peak_mb": round(peak),
        "longest": most,
        "at": address,
    }


def main() -> None:
    """Measure each number of coins in a process of its own, and print a table."""
    parser = argparse.ArgumentParser(description="Time the planning of an edition.")
    parser.add_argument("coins", type=int, nargs="*", default=[1000, 5000, 20000])
    parser.add_argument("--for", dest="reader", choices=[each.value for each in Reader], default="public")
    parser.add_argument("--runs", type=int, default=5)
    parser.add_argument("--alone", action="store_true", help=argparse.SUPPRESS)
    chosen = parser.parse_args()
    if chosen.alone:
        print(json.dumps(measure(chosen.coins[0], Reader(chosen.reader), chosen.runs)))
        return
    print(f"{platform.machine()}, Python {platform.python_version()}, {chosen.reader}")
    for many in chosen.coins:
        command = [
            sys.executable,
            __file__,
            str(many),
            "--for",
            chosen.reader,
            "--runs",
            str(chosen.runs),
            "--alone",
        ]
        found = json.loads(subprocess.run(command, check=True, capture_output=True).stdout)
        each_ms = found["seconds"] / many * 1000
        print(
            f"{many:7,} coins, {found['pages']:7,} pages: {found['seconds']:6.2f} s, {each_ms:.3f} ms a coin; "
            f"records {found['records_mb']} MB, with one plan {found['peak_mb']} MB; "
            f"the longest page has {found['longest']} rows and coins ({found['at']})"
        )


if __name__ == "__main__":
    main()
