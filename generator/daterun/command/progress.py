"""The progress of long work: a bar on a terminal, a line for each long stage elsewhere."""

import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager

Tell = Callable[[str, int, int], None]

STAGES = {
    "reading": "Reading the catalogue",
    "photos": "Looking at photos",
    "checking": "Checking",
    "pages": "Making pages",
    "pictures": "Making pictures",
    "plates": "Drawing plates",
    "typesetting": "Setting the sheets",
    "writing": "Writing",
}

SHOWN_EVERY = 0.1
"""Seconds between two pictures of the bar."""

LONG = 200
"""A stage of fewer pieces is over before a line about it would be read."""


@contextmanager
def show_progress() -> Iterator[Tell]:
    """Show the progress on standard error while the work within goes on."""
    if not sys.stderr.isatty():
        yield tell_in_lines(lambda line: print(line, file=sys.stderr, flush=True))
        return
    from rich.console import Console
    from rich.progress import BarColumn, MofNCompleteColumn, Progress, TextColumn

    with Progress(
        TextColumn("{task.description}"),
        BarColumn(),
        MofNCompleteColumn(),
        console=Console(stderr=True),
        transient=True,
        auto_refresh=False,  # by a thread of its own, and a process with threads cannot be copied
    ) as bars:
        bar = bars.add_task("", total=None)
        shown = 0.0

        def tell(stage: str, done: int, total: int) -> None:
            nonlocal shown
            now = time.monotonic()
            is_due = now - shown > SHOWN_EVERY or done in (0, total)
            shown = now if is_due else shown
            name = STAGES.get(stage, stage)
            bars.update(bar, description=name, completed=done, total=total or None, refresh=is_due)

        yield tell


def tell_in_lines(write: Callable[[str], None]) -> Tell:
    """Make a teller that writes one line as each long stage begins, in every build that it is told of."""
    begun: set[str] = set()

    def tell(stage: str, done: int, total: int) -> None:
        if stage == "reading":
            begun.clear()
        if total >= LONG and stage not in begun:
            begun.add(stage)
            write(f"{STAGES.get(stage, stage)}: {total:,}")

    return tell
