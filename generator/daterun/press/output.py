"""The folder of an edition on disk: only what differs is written, whole, and only what is ours is removed."""

import hashlib
import os
from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager, suppress
from dataclasses import dataclass, field
from pathlib import Path
from typing import TypeVar

from daterun.press.fingerprints import Mark, mark_bytes, reason_for
from daterun.press.folders import PRINTED, SIGN
from daterun.press.made import Made, add_made, read_made, write_last, write_made
from daterun.problems import CannotContinue
from daterun.records.files import fold_name

Thing = TypeVar("Thing")

_NEW = ".daterun-new"
"""The ending of a file that is being written; one left over by a build that was killed is removed."""


@dataclass(slots=True)
class Output:
    """The folder of one edition while a build is at work on it.

    On disk are size and time of every file found there at the start; made is what earlier builds and this
    one made. All addresses are relative to the folder.
    """

    root: Path
    reader: str
    memory: Path
    on_disk: dict[str, tuple[int, int]]
    made: dict[str, Made]
    is_ours: bool
    half_written: list[str]
    links: frozenset[str]
    reasons: dict[str, str] = field(default_factory=dict)

    def reason(self, address: str, mark: Mark) -> str:
        """Say why a file must be made; "" where the one on disk is as it was made, by the same mark."""
        before = self.made.get(address)
        if before is None:
            return "it is new"
        if not before.time_ns:
            return "the build that was to make it was cut short"
        if (why := reason_for(before.mark, mark)) != "":
            return why
        if address not in self.on_disk:
            return "its file was gone"
        return "" if self._is_as_made(address, before) else "its file was not as it was made"

    def expect(self, address: str, mark: Mark, reason: str, data: bytes | None = None) -> None:
        """Note what is about to be made and why; once saved, a build that is killed loses track of nothing."""
        self.reasons[address] = reason
        before = self.made.get(address)
        earlier = before.digest if before is not None else ""
        self.made[address] = Made(mark, 0, 0, digest_of(data) if data is not None else "", earlier, reason)

    def expect_stale(self, marked: Iterable[tuple[Thing, str, Mark]]) -> list[Thing]:
        """Expect what is stale of some things, each given with its address and mark; return those that are."""
        stale = []
        for thing, address, mark in marked:
            if reason := self.reason(address, mark):
                self.expect(address, mark, reason)
                stale.append(thing)
        return stale

    def expect_files(self, files: Mapping[str, bytes]) -> dict[str, bytes]:
        """Expect those files that are stale, by what is in them, and return them."""
        stale = {}
        for address, data in files.items():
            mark = mark_bytes(data)
            if reason := self.reason(address, mark):
                self.expect(address, mark, reason, data)
                stale[address] = data
        return stale

    def write(self, address: str, data: bytes) -> bool:
        """Write a file that was expected, where its bytes differ; tell whether they did.

        Several threads may write at once, each another address.
        """
        # Paths are texts here: making a Path takes longer than what is then done with it.
        path = f"{self.root}/{address}"
        differs = self._differs(address, path, data)
        try:
            if differs:
                new = f"{path.rpartition('/')[0]}/.{digest_of(address.encode())[:12]}{_NEW}"
                try:
                    _write_whole(new, data)
                except FileNotFoundError:
                    os.makedirs(os.path.dirname(path), exist_ok=True)  # noqa: PTH103, PTH120
                    _write_whole(new, data)
                os.replace(new, path)  # noqa: PTH105
            found = os.stat(path)  # noqa: PTH116
        except OSError as error:
            raise CannotContinue(f"{path} cannot be written: {error.strerror or error}") from error
        self._note(address, len(data), found.st_mtime_ns, digest_of(data))
        return differs

    def _note(self, address: str, size: int, time_ns: int, digest: str) -> None:
        """Remember a file that was written as it was expected."""
        expected = self.made[address]
        self.on_disk[address] = (size, time_ns)
        self.made[address] = Made(expected.mark, size, time_ns, digest, "", expected.reason)

    def adopt(self, address: str, path: Path, digest: str) -> bool:
        """Move a file that was expected to where nothing lies yet; tell whether that could be done.

        The digest is that of what it holds.
        """
        if address in self.on_disk:
            return False
        try:
            place = self.root / address
            place.parent.mkdir(parents=True, exist_ok=True)
            found = path.replace(place).stat()
        except OSError:  # as where they lie on two disks
            return False
        self._note(address, found.st_size, found.st_mtime_ns, digest)
        return True

    def revise(self, marks: Mapping[str, Mark], files: Mapping[str, bytes], gone: Iterable[str]) -> list[str]:
        """Write a few files anew and remove a few; return which of them differ from what was there.

        What is remembered is kept in step at each step, so that a revision that is killed loses track of nothing.
        """
        self.reasons.clear()
        for address, data in files.items():
            if reason := self.reason(address, marks[address]):
                self.expect(address, marks[address], reason, data)
        self._add(files)
        written = [address for address, data in files.items() if self.write(address, data)]
        self._add(files)
        for address in gone:
            if address in self.on_disk and self._was_made(address, self.made[address]):
                self._remove(address)
                del self.on_disk[address]
            del self.made[address]
        self._add(gone)
        write_last(self.memory, self.reasons)
        return written

    def _add(self, addresses: Iterable[str]) -> None:
        try:
            add_made(self.memory, {each: self.made.get(each) for each in addresses})
        except OSError as error:
            raise CannotContinue(f"{self.memory} cannot be written: {error.strerror or error}") from error

    def remove_leftovers(self, kept: Iterable[str]) -> tuple[str, ...]:
        """Remove what earlier builds made and this one did not, where it is still as it was made."""
        keep = set(kept)
        folded = {fold_name(each) for each in keep}
        removed = []
        for address in sorted(self.made.keys() - keep):
            is_twin = fold_name(address) in folded and self._is_one_of(address, keep)
            if address in self.on_disk and self._was_made(address, self.made[address]) and not is_twin:
                self._remove(address)
                removed.append(address)
            del self.made[address]
        for address in self.half_written:
            self._remove(address)
        return tuple(removed)

    def _remove(self, address: str) -> None:
        path = self.root / address
        try:
            path.unlink(missing_ok=True)
        except OSError as error:
            raise CannotContinue(f"{path} cannot be removed: {error.strerror or error}") from error
        self._remove_empty(Path(address).parent)

    def strangers(self, kept: Iterable[str]) -> tuple[str, ...]:
        """List the files found that no build made and none is about to; they are never touched."""
        ours = set(kept) | self.made.keys() | {SIGN}
        return tuple(sorted(each for each in self.on_disk.keys() - ours if not PRINTED.fullmatch(each)))

    @contextmanager
    def remembering(self) -> Iterator[None]:
        """Keep the memory of what was made in step with what is done within, however that ends."""
        self._save()
        write_last(self.memory, self.reasons)
        try:
            yield
        finally:
            self._save()

    def _save(self) -> None:
        try:
            write_made(self.memory, self.made)
        except OSError as error:
            raise CannotContinue(f"{self.memory} cannot be written: {error.strerror or error}") from error

    def check_free(self, addresses: Iterable[str]) -> None:
        """Raise CannotContinue where a file that is not ours stands at an address that is needed.

        In a folder that is ours, while nothing is remembered, all files at such addresses count as ours.
        """
        if self.is_ours and not self.made:
            return
        taken = sorted(each for each in addresses if each in self.on_disk and each not in self.made)
        if taken:
            raise CannotContinue(
                f"{self.root / taken[0]} is there already and was not made by Daterun;"
                " name an empty folder for the edition"
            )

    def _is_as_made(self, address: str, made: Made) -> bool:
        """Tell whether a file is as it was made: by size and time, else by its bytes."""
        if address in self.links or self.on_disk[address][0] != made.size:
            return False
        return self.on_disk[address][1] == made.time_ns or self._digest_on_disk(address) == made.digest

    def _was_made(self, address: str, made: Made) -> bool:
        """Tell whether a leftover is ours: as it was made, or as a build that was cut short may have left it."""
        if address in self.links:
            return False
        if not made.digest or self.on_disk[address] == (made.size, made.time_ns):
            return True
        return self._digest_on_disk(address) in {made.digest, made.earlier}

    def _digest_on_disk(self, address: str) -> str:
        try:
            return digest_of((self.root / address).read_bytes())
        except OSError:
            return ""

    def _differs(self, address: str, path: str, data: bytes) -> bool:
        known = self.on_disk.get(address)
        if known is None or known[0] != len(data) or address in self.links:
            return True
        try:
            return Path(path).read_bytes() != data
        except OSError:
            return True

    def _is_one_of(self, address: str, kept: set[str]) -> bool:
        """Tell whether a leftover and a file that is kept are one, as on systems that fold case."""
        twins = [each for each in kept if fold_name(each) == fold_name(address)]
        with suppress(OSError):
            return any((self.root / address).samefile(self.root / each) for each in twins)
        return False

    def _remove_empty(self, folder: Path) -> None:
        while folder != Path():
            try:
                (self.root / folder).rmdir()
            except OSError:
                return
            folder = folder.parent


def open_output(root: Path, reader: str, memory: Path) -> Output:
    """Look through the folder of an edition, which need not be there yet.

    Raise CannotContinue where a folder below leads elsewhere, or holds another edition.
    """
    on_disk: dict[str, tuple[int, int]] = {}
    half_written: list[str] = []
    links: set[str] = set()
    for address, entry in _walk(root, ""):
        if entry.name.endswith(_NEW):
            half_written.append(address)
            continue
        if entry.name == SIGN and address != SIGN:
            raise CannotContinue(f"{root} holds another edition, in {Path(address).parent}")
        if entry.is_symlink():
            links.add(address)
        status = entry.stat(follow_symlinks=False)
        on_disk[address] = (status.st_size, status.st_mtime_ns)
    return Output(
        root, reader, memory, on_disk, read_made(memory), SIGN in on_disk, half_written, frozenset(links)
    )


def open_few(
    root: Path, reader: str, memory: Path, made: dict[str, Made], addresses: Iterable[str]
) -> Output:
    """Look at a few files of an edition that stands as it was left, with what was made of them.

    All others stay as they are.
    """
    on_disk: dict[str, tuple[int, int]] = {}
    for address in addresses:
        with suppress(OSError):
            status = os.lstat(root / address)
            on_disk[address] = (status.st_size, status.st_mtime_ns)
    return Output(root, reader, memory, on_disk, made, True, [], frozenset())


def claim(output: Output) -> None:
    """Mark the folder as that of the edition; it is made where it is not there."""
    if output.is_ours:
        return
    try:
        output.root.mkdir(parents=True, exist_ok=True)
        new = output.root / f"{SIGN}{_NEW}"
        new.write_text(f"{output.reader}\n", encoding="utf-8")
        new.replace(output.root / SIGN)
    except OSError as error:
        raise CannotContinue(f"{output.root} cannot be written: {error.strerror or error}") from error


def check_addresses(addresses: Iterable[str]) -> None:
    """Raise CannotContinue where two files would need one place on some machine."""
    by_fold: dict[str, str] = {}
    for address in sorted(addresses):
        other = by_fold.setdefault(fold_name(address), address)
        if other != address:
            raise CannotContinue(
                f"{other} and {address} are one place on some machines; rename one of the two"
            )
    for fold, address in by_fold.items():
        above = fold.rpartition("/")[0]
        while above:
            if above in by_fold:
                raise CannotContinue(f"{by_fold[above]} would be both a file and the folder of {address}")
            above = above.rpartition("/")[0]


def _walk(root: Path, under: str) -> Iterator[tuple[str, os.DirEntry[str]]]:
    try:
        entries = sorted(os.scandir(root / under), key=lambda each: each.name)
    except FileNotFoundError:
        return
    except OSError as error:
        raise CannotContinue(f"{root / under} cannot be read: {error.strerror or error}") from error
    for entry in entries:
        address = f"{under}/{entry.name}" if under else entry.name
        if entry.is_dir(follow_symlinks=False):
            yield from _walk(root, address)
        elif entry.is_symlink() and entry.is_dir():
            raise CannotContinue(
                f"{root / address} is a link to another folder; an edition is written in its own"
            )
        else:
            yield address, entry


def _write_whole(path: str, data: bytes) -> None:
    with open(path, "wb") as file:  # noqa: PTH123
        file.write(data)


def digest_of(data: bytes) -> str:
    """Give the digest by which a file is told to be as it was made."""
    return hashlib.blake2b(data, digest_size=12).hexdigest()
