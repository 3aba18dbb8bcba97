"""Sheets: pages that are made and wait apart until all are, so that no edition is ever half new."""

import os
from collections.abc import Iterator
from contextlib import suppress
from tempfile import TemporaryFile, gettempdir
from types import TracebackType
from typing import IO, Self

from daterun.problems import CannotContinue

_IN_MEMORY = 64_000_000
"""Bytes kept in memory, some 5,000 pages; what goes beyond waits in a file without a name."""


class Sheets:
    """The waiting pages, in the order in which they were made. It is closed by leaving its ``with``."""

    def __init__(self) -> None:
        self.addresses: list[str] = []
        self._held: list[bytes | tuple[int, int]] = []
        self._in_memory = self._in_file = 0
        self._file: IO[bytes] | None = None

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, traceback: TracebackType | None
    ) -> None:
        if self._file is not None:
            with suppress(OSError):  # what could not be written was told
                self._file.close()

    def __len__(self) -> int:
        return len(self.addresses)

    def __iter__(self) -> Iterator[tuple[str, bytes]]:
        """Give each page's address and bytes."""
        return (self.at(nth) for nth in range(len(self)))

    def add(self, address: str, data: bytes) -> None:
        self.addresses.append(address)
        if self._in_memory + len(data) <= _IN_MEMORY:
            self._in_memory += len(data)
            self._held.append(data)
            return
        try:
            if self._file is None:
                self._file = TemporaryFile()  # noqa: SIM115 - closed in __exit__
            self._file.write(data)
            self._file.flush()  # a copy of this process reads it, and a full disk is told at once
        except OSError as error:
            where = f"the folder for files that are not kept, {gettempdir()}"
            raise CannotContinue(f"{where}, cannot be written: {error.strerror or error}") from error
        self._held.append((self._in_file, len(data)))
        self._in_file += len(data)

    def at(self, nth: int) -> tuple[str, bytes]:
        """Give the address and the bytes of a page by its number, from 0, in this process or a copy of it."""
        held = self._held[nth]
        if isinstance(held, bytes):
            return self.addresses[nth], held
        assert self._file is not None, "what is not in memory is in the file"
        begin, length = held
        if hasattr(
            os, "pread"
        ):  # a copy of this process has the same place in the file, and must not move it
            return self.addresses[nth], os.pread(self._file.fileno(), length, begin)
        self._file.seek(begin)
        return self.addresses[nth], self._file.read(length)
