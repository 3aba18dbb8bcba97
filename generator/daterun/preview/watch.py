"""The watch over the keeper's files: it waits for a change, and then until the editor has finished with it.

Editors save by writing, by replacing, by moving aside; several events are one change once they are followed by
a short quiet.
"""

import queue
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Protocol

QUIET = 0.15
"""Seconds without an event after which a change is over: picture programs seldom rest longer while they write."""

QUICK = 0.02
"""Seconds for a file saved after a calm that is a text, or told to be whole: a save by replacing takes a few
milliseconds."""

CALM = 0.5
"""Seconds without an event after which a save is one by itself, not one of several."""

_TEXTS = (".md", ".yaml")

WATCHED = ("content", "themes")
_CHANGES = frozenset(("created", "modified", "closed", "deleted", "moved"))

_WHOLE = ("closed", "moved")
"""What tells that a file is whole: it was closed after it was written, which Linux tells, or moved there."""

Events = queue.SimpleQueue[tuple[str, str]]
"""Paths in the order in which they were touched, and what happened to each."""


class Event(Protocol):
    """What is asked of an event: what happened, and where; one of a move has also ``dest_path``."""

    event_type: str
    is_directory: bool
    src_path: bytes | str


class Watch:
    """Waits for changes in a catalogue folder; the events come from threads of the watch's own."""

    def __init__(
        self, events: Events, quiet: float = QUIET, clock: Callable[[], float] = time.monotonic
    ) -> None:
        self.events = events
        self.quiet = quiet
        self.clock = clock
        self._last = -CALM

    def changes(self) -> Iterator[frozenset[str]]:
        """Give the paths of each change as it is over, without end; an interrupt ends it."""
        while True:
            yield self.next_change()

    def next_change(self) -> frozenset[str]:
        """Wait for an event, then for quiet; return the paths that were touched."""
        touched: dict[str, bool] = {}
        while not touched:
            # On some systems an interrupt is only heard between two waits.
            self._take(touched, 1.0)
        is_calm = self.clock() - self._last >= CALM
        while True:
            is_quick = is_calm and all(whole or each.endswith(_TEXTS) for each, whole in touched.items())
            if not self._take(touched, min(QUICK, self.quiet) if is_quick else self.quiet):
                self._last = self.clock()
                return frozenset(touched)

    def _take(self, touched: dict[str, bool], seconds: float) -> bool:
        """Take an event in, where one comes in so many seconds; tell whether one did."""
        try:
            path, what = self.events.get(timeout=seconds)
        except queue.Empty:
            return False
        if what != "closed" or path in touched:  # that a file was closed is no change by itself
            touched[path] = what in _WHOLE
        return True


@contextmanager
def watching(folder: Path, quiet: float = QUIET) -> Iterator[Watch]:
    """Watch the contents and themes of a catalogue folder while the work within goes on."""
    from watchdog.events import FileSystemEvent, FileSystemEventHandler
    from watchdog.observers import Observer

    events: Events = queue.SimpleQueue()
    observer = Observer()
    watched: dict[str, object] = {}

    def watch_new() -> None:
        for name in WATCHED:
            if name not in watched and (folder / name).is_dir():
                watched[name] = observer.schedule(Within(), str(folder / name), recursive=True)

    class Within(FileSystemEventHandler):
        def on_any_event(self, event: FileSystemEvent) -> None:
            for path in relevant(event):
                events.put((path, event.event_type))

    class Above(FileSystemEventHandler):
        """Sees the watched folders themselves come and go."""

        def on_any_event(self, event: FileSystemEvent) -> None:
            for path in paths_of(event):
                name = Path(path).name
                if name in WATCHED and Path(path).parent.resolve() == folder.resolve():
                    if not (folder / name).is_dir():
                        watched.pop(name, None)
                    watch_new()
                    if event.event_type != "modified":
                        events.put((path, event.event_type))

    observer.schedule(Above(), str(folder), recursive=False)
    watch_new()
    observer.start()
    try:
        yield Watch(events, quiet)
    finally:
        observer.stop()
        observer.join()


def relevant(event: Event) -> list[str]:
    """List the paths of an event that are of interest: files changed, none that readers pass over."""
    if event.event_type not in _CHANGES or (event.is_directory and event.event_type == "modified"):
        return []
    return [each for each in paths_of(event) if not _is_passed_over(Path(each).name)]


def paths_of(event: Event) -> list[str]:
    """List the paths of an event as text: where it was, and where it went."""
    found = (event.src_path, getattr(event, "dest_path", ""))
    return [each.decode(errors="replace") if isinstance(each, bytes) else str(each) for each in found if each]


def _is_passed_over(name: str) -> bool:
    """Tell whether a file is hidden, or an editor's spare copy."""
    return name.startswith((".", "#")) or name.endswith(("~", ".swp", ".tmp"))
