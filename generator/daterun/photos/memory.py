"""What was found out about photos, remembered: by the file while it is unchanged, and by what the file holds.

Losing the memory costs time, nothing else; a broken one counts as an empty one.
"""

import contextlib
import json
import os
import tempfile
import time
from collections.abc import Callable, Iterable, Iterator, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from pathlib import Path
from typing import Any, NamedTuple

from daterun.photos.bound import MOST_HELD, Bound, HeldTooMuch
from daterun.photos.examine import Use, examine_quietly, without_warnings
from daterun.photos.heap import give_back, keep_freed_memory
from daterun.photos.opened import know_formats
from daterun.photos.photo import Disc, Photo
from daterun.records import stamps
from daterun.records.stamps import has_settled
from daterun.sealed import seal, unseal
from daterun.shares import processes, share_out

VERSION = 5
"""Changes whenever photos would be examined with another result."""

Stamp = tuple[int, int, int]
"""Size in bytes, time of change in nanoseconds, inode."""

Row = list[Any]
"""A photo as it is stored: width, height, disc or null, fallback, fault. It is read when it is asked for."""

Progress = Callable[[int, int], None]

WORTH_A_COPY = 8
"""Photos from which on copies of the process are made: each takes a twentieth of a second and more, a copy some
hundredths once."""


class _Seen(NamedTuple):
    """A photo that was looked at, with the stamp of its file; None where that cannot be trusted."""

    photo: Photo
    stamp: Stamp | None


@dataclass(slots=True)
class PhotoMemory:
    """The key of each photo by its path, with the stamp of the file, and what was seen, by key.

    It is written only when something changed.
    """

    path: Path
    by_path: dict[str, tuple[Stamp, str]]
    rows: dict[str, Row]
    changed: bool = False

    @classmethod
    def load(cls, path: Path) -> "PhotoMemory":
        """Read the memory; an empty one where there is none, or none that can be read."""
        # 10,000 photos: 20 ms, and 45 to look at their stamps (one core of a busy machine, CPython 3.11).
        try:
            stored = json.loads(unseal(path.read_text(encoding="utf-8")))
            if stored["version"] != VERSION or not isinstance(stored["photos"], dict):
                return cls(path, {}, {})
            by_path = {
                shown: ((size, changed, inode), key)
                for shown, (size, changed, inode, key) in stored["files"].items()
            }
        except (OSError, ValueError, TypeError, KeyError, AttributeError, RecursionError):
            return cls(path, {}, {})
        return cls(path, by_path, stored["photos"])

    def examine_all(
        self,
        folder: Path,
        paths: Sequence[str],
        progress: Progress | None = None,
        use: Use | None = None,
    ) -> dict[str, Photo]:
        """Examine photos, as paths relative to the catalogue folder; those remembered are not read again.

        What is examined anew is handed to ``use`` with its pixels, on all cores: in copies of this process, or in
        several threads at once where it cannot be copied. What ``use`` keeps in mind, it loses with a copy.
        """
        found: dict[str, Photo] = {}
        stale: list[str] = []
        root = f"{folder}/"
        for shown in paths:
            known = self.by_path.get(shown)
            photo = None
            if known is not None and known[0] == stamp_of(root + shown):
                photo = self._recall(known[1], shown)
            if photo is None:
                stale.append(shown)
            else:
                found[shown] = photo
        if stale:
            self.changed = True
            with without_warnings():
                for seen in self._look_at_all(folder, stale, use, progress or (lambda done, total: None)):
                    found[seen.photo.path] = seen.photo
                    self._note(seen)
        wanted = set(paths)
        if gone := [shown for shown in self.by_path if shown not in wanted]:
            self.changed = True
            for shown in gone:
                del self.by_path[shown]
        return {shown: found[shown] for shown in paths}

    def forget(self, paths: Iterable[str]) -> None:
        """Look at files again the next time, for they are not what their stamps say."""
        for shown in paths:
            self.changed = self.by_path.pop(shown, None) is not None or self.changed

    def _recall(self, key: str, shown: str) -> Photo | None:
        """Give what was seen of a photo; None where nothing was, or what is stored makes no sense."""
        row = self.rows.get(key)
        if row is None:
            return None
        try:
            width, height, disc, fallback, fault = row
            return Photo(key, shown, width, height, Disc(*disc) if disc else None, fallback, fault)
        except (TypeError, ValueError):
            return None

    def _look_at_all(
        self, folder: Path, stale: Sequence[str], use: Use | None, progress: Progress
    ) -> Iterator[_Seen]:
        """Look at photos on all cores, in any order."""
        # Finding a disc holds the interpreter for a sixth of the time, so that processes do more than threads.
        left = stale
        copies = processes(len(stale), WORTH_A_COPY)
        if copies > 1:
            know_formats()
            keep_freed_memory()
            part = Bound(MOST_HELD // copies, waits=False)
            left = []

            def look(shown: str) -> _Seen | None:
                try:
                    return self._look_at(folder, shown, use, part)
                except HeldTooMuch:
                    return None

            def tell(done: int) -> None:
                """Tell how many are done, where the copies are taken to refuse as many as this process."""
                progress(max(done - copies * len(left), 0), len(stale))

            for nth, seen in share_out(stale, look, tell, WORTH_A_COPY):
                if seen is None:
                    left.append(stale[nth])
                else:
                    yield seen
            give_back()
        if not left:
            return
        # One thread more than cores: it reads the next photo while the others are at work on theirs.
        threads = min((os.cpu_count() or 1) + 1, len(left))
        bound = Bound()
        with ThreadPoolExecutor(threads, thread_name_prefix="photos") as pool:
            looked = pool.map(lambda each: self._look_at(folder, each, use, bound), left)
            for done, seen in enumerate(looked, len(stale) - len(left) + 1):
                yield seen
                progress(done, len(stale))

    def _look_at(self, folder: Path, shown: str, use: Use | None, bound: Bound) -> _Seen:
        path = folder / shown
        before = stamp_of(path)
        photo = examine_quietly(path, shown, lambda key: self._recall(key, shown), use, bound)
        is_sure = before is not None and before == stamp_of(path) and has_settled(before[1], time.time_ns())
        seen = _Seen(photo, before if is_sure else None)
        self._note(seen)  # in a copy as well, where the same photo may come again by another path
        return seen

    def _note(self, seen: _Seen) -> None:
        photo = seen.photo
        if not photo.key:
            return
        self.rows[photo.key] = _row(photo)
        if seen.stamp is not None:
            self.by_path[photo.path] = (seen.stamp, photo.key)
        else:
            self.by_path.pop(photo.path, None)

    def keep(self, photo: Photo, stamp: Stamp) -> None:
        """Keep what was seen of a photo, whose file had that stamp before and after."""
        self.changed = True
        self._note(_Seen(photo, stamp if has_settled(stamp[1], time.time_ns()) else None))

    def save(self) -> None:
        """Write the memory where anything changed, whole or not at all; what cannot be written is let go."""
        if not self.changed:
            return
        stored = {
            "version": VERSION,
            "files": {shown: [*stamp, key] for shown, (stamp, key) in sorted(self.by_path.items())},
            "photos": dict(sorted(self.rows.items())),
        }
        with contextlib.suppress(OSError):
            self.path.parent.mkdir(parents=True, exist_ok=True)
            handle, name = tempfile.mkstemp(prefix=".photos-", dir=self.path.parent)
            try:
                with os.fdopen(handle, "w", encoding="utf-8") as file:
                    file.write(seal(json.dumps(stored, separators=(",", ":"))))
                Path(name).replace(self.path)
            except OSError:
                Path(name).unlink(missing_ok=True)
                raise
            self.changed = False


def stamp_of(path: str | Path) -> Stamp | None:
    """Give the stamp of a photo, without the time of change of its entry; None where there is none."""
    whole = stamps.stamp_of(path)
    return (whole[0], whole[1], whole[3]) if whole is not None else None


def _row(photo: Photo) -> Row:
    disc = photo.disc
    seen = [disc.x, disc.y, disc.diameter] if disc is not None else None
    return [photo.width_px, photo.height_px, seen, photo.fallback, photo.fault]
