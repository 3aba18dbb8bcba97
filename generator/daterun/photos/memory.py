"""What was found out about photos, remembered: by the file while it is unchanged, and by what the file holds.

Losing the memory costs time, nothing else; a broken one counts as an empty one.
"""

import contextlib
import json
import os
import tempfile
import time
from collections.abc import Callable, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from daterun.photos.examine import LARGEST_FILE, examine_quietly, hash_of, without_warnings
from daterun.photos.photo import Disc, Photo

VERSION = 4
"""Changes whenever photos would be examined with another result."""

JUST_NOW_NS = 2_000_000_000
"""A file changed so shortly before it was remembered may have changed again within one tick of its clock."""

Stamp = tuple[int, int, int]
"""Size in bytes, time of change in nanoseconds, inode."""

Progress = Callable[[int, int], None]


@dataclass(slots=True)
class PhotoMemory:
    """Photos by path with the stamp of the file, and by key. It is written only when something changed."""

    path: Path
    by_path: dict[str, tuple[Stamp, str]]
    by_key: dict[str, Photo]
    changed: bool = False

    @classmethod
    def load(cls, path: Path) -> "PhotoMemory":
        """Read the memory; an empty one where there is none, or none that can be read."""
        try:
            stored = json.loads(path.read_text(encoding="utf-8"))
            if stored["version"] != VERSION:
                return cls(path, {}, {})
            by_key = {key: _photo(key, facts) for key, facts in stored["photos"].items()}
            by_path = {
                shown: ((int(size), int(changed), int(inode)), str(key))
                for shown, (size, changed, inode, key) in stored["files"].items()
            }
        except (OSError, ValueError, TypeError, KeyError, AttributeError, RecursionError):
            return cls(path, {}, {})
        return cls(path, by_path, by_key)

    def examine_all(
        self, folder: Path, paths: Sequence[str], progress: Progress | None = None
    ) -> dict[str, Photo]:
        """Examine photos, as paths relative to the catalogue folder; those remembered are not read again.

        The work is shared among threads, for Pillow lets go of the interpreter while it decodes.
        """
        found: dict[str, Photo] = {}
        stale: list[str] = []
        for shown in paths:
            photo = self._remembered(folder / shown, shown)
            if photo is None:
                stale.append(shown)
            else:
                found[shown] = photo
        if stale:
            self.changed = True
            with without_warnings(), ThreadPoolExecutor(os.cpu_count() or 1) as pool:
                for done, photo in enumerate(pool.map(lambda each: self._examine(folder, each), stale), 1):
                    found[photo.path] = photo
                    if progress is not None:
                        progress(done, len(stale))
        wanted = set(paths)
        if gone := [shown for shown in self.by_path if shown not in wanted]:
            self.changed = True
            for shown in gone:
                del self.by_path[shown]
        return {shown: found[shown] for shown in paths}

    def _remembered(self, path: Path, shown: str) -> Photo | None:
        known = self.by_path.get(shown)
        if known is None or known[0] != _stamp(path):
            return None
        photo = self.by_key.get(known[1])
        return replace(photo, path=shown) if photo is not None else None

    def _examine(self, folder: Path, shown: str) -> Photo:
        path = folder / shown
        before = _stamp(path)
        photo = self._by_its_bytes(path, shown)
        if not photo.key or before is None or before != _stamp(path):
            return photo
        self.by_key[photo.key] = photo
        if time.time_ns() - before[1] > JUST_NOW_NS:
            self.by_path[shown] = (before, photo.key)
        else:
            self.by_path.pop(shown, None)
        return photo

    def _by_its_bytes(self, path: Path, shown: str) -> Photo:
        """Examine a photo, unless its bytes were examined under another name or at another time."""
        try:
            key = hash_of(path) if path.stat().st_size <= LARGEST_FILE else ""
        except OSError:
            key = ""
        known = self.by_key.get(key)
        return replace(known, path=shown) if known is not None else examine_quietly(path, shown, key)

    def save(self) -> None:
        """Write the memory where anything changed, whole or not at all; what cannot be written is let go."""
        if not self.changed:
            return
        keys = {key for _, key in self.by_path.values()} | set(self.by_key)
        stored = {
            "version": VERSION,
            "files": {shown: [*stamp, key] for shown, (stamp, key) in sorted(self.by_path.items())},
            "photos": {key: _facts(self.by_key[key]) for key in sorted(keys) if key in self.by_key},
        }
        with contextlib.suppress(OSError):
            self.path.parent.mkdir(parents=True, exist_ok=True)
            handle, name = tempfile.mkstemp(prefix=".photos-", dir=self.path.parent)
            try:
                with os.fdopen(handle, "w", encoding="utf-8") as file:
                    json.dump(stored, file)
                Path(name).replace(self.path)
            except OSError:
                Path(name).unlink(missing_ok=True)
                raise
            self.changed = False


def _stamp(path: Path) -> Stamp | None:
    try:
        status = path.stat()
    except OSError:
        return None
    return (status.st_size, status.st_mtime_ns, status.st_ino)


def _facts(photo: Photo) -> dict[str, Any]:
    disc = photo.disc
    return {
        "path": photo.path,
        "size": [photo.width_px, photo.height_px],
        "disc": [disc.x, disc.y, disc.diameter] if disc is not None else None,
        "fallback": photo.fallback,
        "fault": photo.fault,
    }


def _photo(key: str, facts: dict[str, Any]) -> Photo:
    disc = Disc(*(float(each) for each in facts["disc"])) if facts["disc"] is not None else None
    width, height = (int(each) for each in facts["size"])
    return Photo(key, str(facts["path"]), width, height, disc, str(facts["fallback"]), str(facts["fault"]))
