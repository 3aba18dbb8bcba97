"""The edition that stands: where nothing has changed since it was made, a look at the files' stamps tells.

No file is opened for it. What is remembered is one digest of the stamps of all that an edition is made from, and
one of those of all that it consists of; losing it costs a build, nothing else.
"""

import hashlib
import json
import os
import sys
import time
from collections.abc import Callable, Iterable, Mapping
from contextlib import suppress
from dataclasses import asdict
from pathlib import Path
from typing import Any

from daterun.bundled import themes_folder
from daterun.press.folders import PRINTED, choose_output, memory_of
from daterun.problems import Place, Problem, Severity
from daterun.readers.reader import Reader
from daterun.records.stamps import has_settled
from daterun.result import BuildResult, Progress, silent
from daterun.sealed import seal, unseal

_NOT_READ = frozenset((".git", "__pycache__"))

PassedOver = Callable[[str], bool]


def _nothing(address: str) -> bool:
    return False


def bring_up_to_date(
    folder: Path, reader: Reader, output: Path | None = None, progress: Progress = silent, web: str = ""
) -> BuildResult:
    """Build an edition as ``site.build`` does, unless it stands and nothing that it is made from has changed.

    Raise CannotContinue as that does.
    """
    standing = look(folder, reader, output, web)
    last = standing.last_result()
    if last is not None:
        return last
    from daterun.press.turns import taking_turns
    from daterun.site import build

    with taking_turns(folder, reader.value, standing.root):
        result = build(folder, reader, output, progress, web)
        standing.remember(result)
    return result


def look(folder: Path, reader: Reader, output: Path | None = None, web: str = "") -> "Standing":
    """Look at all that an edition is made from. Raise CannotContinue as ``site.build`` does for its folder."""
    root = choose_output(folder, reader.value, output)
    memory = memory_of(folder, reader.value, root).with_suffix(".standing")
    return Standing(folder, root, memory, (reader.value, web))


class Standing:
    """A look at all that an edition is made from, taken before a build reads any of it.

    The memory is the file in which is remembered what stands; the wishes are what the build was asked for.
    """

    def __init__(self, folder: Path, root: Path, memory: Path, wishes: Iterable[str]) -> None:
        self.root = root
        self.memory = memory
        now = time.time_ns()
        look = _Look()
        look.note(str(folder.resolve()), str(root), sys.version, *wishes)
        for each in (folder / "content", folder / "themes", themes_folder(), Path(__file__).parent):
            look.at_tree(each)
        for place in sys.path:
            look.at_place(place)
        self._from = look.digest
        self._is_settled = look.can_tell and has_settled(look.newest_ns, now)

    def last_result(self) -> BuildResult | None:
        """Give what the last build came to, with nothing made; None where anything is not as it was then."""
        if not self._is_settled:
            return None
        try:
            stored = json.loads(unseal(self.memory.read_text(encoding="utf-8")))
            if stored["from"] != self._from or stored["stands"] != _stands(self.root):
                return None
            return BuildResult(
                tuple(_problem(each) for each in stored["problems"]),
                int(stored["coins"]),
                self.root,
                int(stored["pages"]),
                strangers=tuple(str(each) for each in stored["strangers"]),
            )
        except (OSError, ValueError, KeyError, TypeError, AttributeError, RecursionError):
            return None

    def remember(self, result: BuildResult) -> None:
        """Remember an edition that was made whole; what cannot be written is let go."""
        with suppress(OSError):
            self.memory.unlink(missing_ok=True)
            if result.has_errors or not self._is_settled:
                return
            stored = {
                "from": self._from,
                "stands": _stands(self.root),
                "problems": [asdict(each) for each in result.problems],
                "coins": result.coins,
                "pages": result.pages_total,
                "strangers": result.strangers,
            }
            self.memory.parent.mkdir(parents=True, exist_ok=True)
            new = self.memory.with_name(f"{self.memory.name}.new")
            new.write_text(seal(json.dumps(stored)), encoding="utf-8")
            new.replace(self.memory)


class _Look:
    """The stamps of files, gathered into one digest: name, size, times, and the number that a disk gives a file.

    It cannot tell where a link to another folder stands among them, whose files it does not see.
    """

    def __init__(self) -> None:
        self._total = hashlib.blake2b(digest_size=16)
        self.newest_ns = 0
        self.can_tell = True

    @property
    def digest(self) -> str:
        return self._total.hexdigest()

    def note(self, *texts: str) -> None:
        self._total.update(repr(texts).encode("utf-8", "surrogateescape"))

    def at_place(self, path: str) -> None:
        """Look at one folder or file by itself, which need not be there."""
        with suppress(OSError, ValueError):
            self.note(path, str(Path(path).stat().st_mtime_ns))

    def at_tree(self, root: Path, is_passed_over: PassedOver = _nothing) -> None:
        """Look at every file below a folder, which need not be there, and at a link both ways."""
        self.note(str(root))
        lines: list[str] = []
        if root.is_symlink():
            self.can_tell = False
        self._tree(os.fspath(root), "", lines, is_passed_over)
        self._total.update("\n".join(lines).encode("utf-8", "surrogateescape"))

    def _tree(self, folder: str, under: str, lines: list[str], is_passed_over: PassedOver) -> None:
        try:
            with os.scandir(folder) as found:
                entries = sorted(found, key=lambda each: each.name)
        except OSError as error:
            lines.append(f"{under} {error.errno}")
            return
        for entry in entries:
            address = f"{under}{entry.name}"
            if entry.name in _NOT_READ or is_passed_over(address):
                continue
            if entry.is_dir(follow_symlinks=False):
                lines.append(f"{address}/")
                self._tree(entry.path, f"{address}/", lines, is_passed_over)
                continue
            if entry.is_symlink():
                self.can_tell = self.can_tell and not entry.is_dir()
                lines.append(self._stamp(os.lstat(entry.path)))
            try:
                lines.append(f"{address} {self._stamp(entry.stat())}")
            except OSError as error:
                lines.append(f"{address} {error.errno}")

    def _stamp(self, status: os.stat_result) -> str:
        newest = max(status.st_mtime_ns, status.st_ctime_ns)
        self.newest_ns = max(self.newest_ns, newest)
        return f"{status.st_mode} {status.st_size} {status.st_mtime_ns} {status.st_ctime_ns} {status.st_ino}"


def _stands(root: Path) -> str:
    """Look at an edition as it stands, but for what is printed into it; "" where that cannot be told."""
    look = _Look()
    look.at_tree(root, lambda address: PRINTED.fullmatch(address) is not None)
    return look.digest if look.can_tell else ""


def _problem(stored: Mapping[str, Any]) -> Problem:
    return Problem(
        str(stored["rule"]),
        str(stored["sentence"]),
        Place(**stored["place"]),
        str(stored["hint"]),
        Severity(stored["severity"]),
        tuple(Place(**each) for each in stored["others"]),
    )
