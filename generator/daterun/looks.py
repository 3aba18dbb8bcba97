"""A look at files by their stamps alone: whether any among them is another than before, without opening one."""

import hashlib
import os
from collections.abc import Callable, Iterable
from contextlib import suppress
from pathlib import Path

Asked = Callable[[str], bool]
"""Is asked of an address below the folder that is looked at."""

_NOT_READ = frozenset((".git", "__pycache__"))


def _nothing(address: str) -> bool:
    return False


class Look:
    """The stamps of files, gathered into one digest: name, size, times, and the number that a disk gives a file.

    Apart are the stamps, and the newest times in nanoseconds, of files told apart, by their addresses; they are
    not in the digest. A look cannot tell where a link to another folder stands among the files, for it does not
    see what lies there.
    """

    def __init__(self, is_apart: Asked = _nothing, is_passed_over: Asked = _nothing) -> None:
        self._is_apart = is_apart
        self._is_passed_over = is_passed_over
        self._seen: dict[str, str] = {}
        self.apart: dict[str, tuple[str, int]] = {}
        self.newest_ns = 0
        self.can_tell = True

    @property
    def digest(self) -> str:
        """Give the digest of all that was seen; "" where that cannot be told."""
        whole = "\n\n".join(f"{path}\n{seen}" for path, seen in self._seen.items())
        return digest_of_stamps(whole) if self.can_tell else ""

    def note(self, *texts: str) -> None:
        """Note something that is told beside the files."""
        self._seen[f"noted {len(self._seen)}"] = repr(texts)

    def at_place(self, path: str) -> None:
        """Look at one folder or file by itself, which need not be there."""
        with suppress(OSError, ValueError):
            self.note(path, str(Path(path).stat().st_mtime_ns))

    def at_tree(self, root: Path) -> None:
        """Look at every file below a folder, which need not be there, and at a link both ways."""
        if root.is_symlink():
            self.can_tell = False
        self._tree(os.fspath(root), "")

    def again(self, root: Path, addresses: Iterable[str]) -> None:
        """Look again at the folders of some files below a folder that was looked at, and at no others."""
        for under in dict.fromkeys(each.rpartition("/")[0] for each in addresses):
            folder = os.path.join(root, *under.split("/")) if under else os.fspath(root)  # noqa: PTH118
            folders = self._folder(folder, f"{under}/" if under else "")
            if any(path not in self._seen for path, _ in folders):
                self.can_tell = False

    def _tree(self, folder: str, under: str) -> None:
        for path, address in self._folder(folder, under):
            self._tree(path, address)

    def _folder(self, folder: str, under: str) -> list[tuple[str, str]]:
        """Look at the files of one folder; return the paths and addresses of the folders in it."""
        lines: list[str] = []
        folders: list[tuple[str, str]] = []
        self._seen[folder] = ""  # before those within it
        try:
            with os.scandir(folder) as found:
                entries = sorted(found, key=lambda each: each.name)
        except OSError as error:
            self._seen[folder] = str(error.errno)
            return []
        for entry in entries:
            address = f"{under}{entry.name}"
            if entry.name in _NOT_READ or self._is_passed_over(address):
                continue
            if entry.is_dir(follow_symlinks=False):
                lines.append(f"{entry.name}/")
                folders.append((entry.path, f"{address}/"))
                continue
            is_link = entry.is_symlink()
            if is_link:
                self.can_tell = self.can_tell and not entry.is_dir()
                lines.append(self._noted(os.lstat(entry.path)))
            try:
                status = entry.stat()
            except OSError as error:
                lines.append(f"{entry.name} {error.errno}")
                continue
            if self._is_apart(address) and not is_link:
                self.apart[address] = (_stamp(status), _newest(status))
            else:
                lines.append(f"{entry.name} {self._noted(status)}")
        self._seen[folder] = "\n".join(lines)
        return folders

    def _noted(self, status: os.stat_result) -> str:
        self.newest_ns = max(self.newest_ns, _newest(status))
        return _stamp(status)


def digest_of_stamps(text: str) -> str:
    return hashlib.blake2b(text.encode("utf-8", "surrogateescape"), digest_size=16).hexdigest()


def _newest(status: os.stat_result) -> int:
    return max(status.st_mtime_ns, status.st_ctime_ns)


def _stamp(status: os.stat_result) -> str:
    return f"{status.st_mode} {status.st_size} {status.st_mtime_ns} {status.st_ctime_ns} {status.st_ino}"
