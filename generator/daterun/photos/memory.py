"""What was found out about photos, remembered: by the file while it is unchanged, and by what the file holds.

Losing the memory costs time, nothing else; a broken one counts as an empty one.
"""

import contextlib
import json
import os
import tempfile
import time
from collections.abc import Callable, Iterable, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from daterun.photos.bound import Bound
from daterun.photos.examine import Use, examine_quietly, without_warnings
from daterun.photos.photo import Disc, Photo
from daterun.records.stamps import has_settled
from daterun.sealed import seal, unseal

VERSION = 5
"""Changes whenever photos would be examined with another result."""

Stamp = tuple[int, int, int]
"""Size in bytes, time of change in nanoseconds, inode."""

Row = list[Any]
"""A photo as it is stored: width, height, disc or null, fallback, fault. It is read when it is asked for."""

Progress = Callable[[int, int], None]


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

        What is examined anew is handed to ``use`` with its pixels, by several threads at once, for Pillow lets go
        of the interpreter while it decodes.
        """
        found: dict[str, Photo] = {}
        stale: list[str] = []
        root = f"{folder}/"
        for shown in paths:
            known = self.by_path.get(shown)
            photo = None
            if known is not None and known[0] == _stamp(root + shown):
                photo = self._recall(known[1], shown)
            if photo is None:
                stale.append(shown)
            else:
                found[shown] = photo
        if stale:
            self.changed = True
            bound = Bound()
            # One thread more than cores: it reads the next photo while the others are at work on theirs.
            threads = min((os.cpu_count() or 1) + 1, len(stale))
            with without_warnings(), ThreadPoolExecutor(threads, thread_name_prefix="photos") as pool:
                for done, photo in enumerate(
                    pool.map(lambda each: self._examine(folder, each, use, bound), stale), 1
                ):
                    found[photo.path] = photo
                    if progress is not None:
                        progress(done, len(stale))
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

    def _examine(self, folder: Path, shown: str, use: Use | None, bound: Bound) -> Photo:
        path = folder / shown
        before = _stamp(path)
        photo = examine_quietly(path, shown, lambda key: self._recall(key, shown), use, bound)
        if not photo.key or before is None or before != _stamp(path):
            return photo
        self.rows[photo.key] = _row(photo)
        if has_settled(before[1], time.time_ns()):
            self.by_path[shown] = (before, photo.key)
        else:
            self.by_path.pop(shown, None)
        return photo

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


def _stamp(path: str | Path) -> Stamp | None:
    try:
        status = os.stat(path)  # noqa: PTH116 - a third of the time of making a Path first
    except (OSError, ValueError):
        return None
    return (status.st_size, status.st_mtime_ns, status.st_ino)


def _row(photo: Photo) -> Row:
    disc = photo.disc
    seen = [disc.x, disc.y, disc.diameter] if disc is not None else None
    return [photo.width_px, photo.height_px, seen, photo.fallback, photo.fault]
