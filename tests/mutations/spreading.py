"""Spreads cases of random change over processes, as many as there are cores, and adds up what came of them."""

import json
import os
import subprocess
import sys
from pathlib import Path

READING = Path(__file__).parent / "reading.py"

AT_MOST_SECONDS = 4 * 3600
"""By the clock, for all the cases of a process: a watchdog, not a measure."""


def spread(cases: int, start: int) -> dict[str, float]:
    """Run so many cases or a few more; raise AssertionError with all that a process says which fails."""
    number = min(os.cpu_count() or 1, 8)
    share = -(-cases // number)
    processes = [
        subprocess.Popen(
            [sys.executable, str(READING), str(share), str(start * 100 + nth)],
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            text=True,
        )
        for nth in range(number)
    ]
    said = [each.communicate(timeout=AT_MOST_SECONDS) for each in processes]
    for process, (_, faults) in zip(processes, said, strict=True):
        assert process.returncode == 0, faults
    results = [json.loads(out.splitlines()[-1]) for out, _ in said]
    total = {key: sum(each[key] for each in results) for key in results[0]}
    return total | {key: max(each[key] for each in results) for key in ("slowest", "MB")}
