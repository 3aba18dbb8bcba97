"""Sheets: pages that are made and wait apart until all are, so that no edition is ever half new."""

from collections.abc import Iterator
from contextlib import suppress
from tempfile import SpooledTemporaryFile, gettempdir
from types import TracebackType
from typing import Self

from daterun.problems import CannotContinue

_IN_MEMORY = 64_000_000
"""Bytes kept in memory, some 5,000 pages; what goes beyond waits in a file without a name."""


class Sheets:
    """The waiting pages, in the order in which they were made. It is closed by leaving its ``with``."""

    def __init__(self) -> None:
        self._file = SpooledTemporaryFile(max_size=_IN_MEMORY)  # noqa: SIM115 - closed in __exit__
        self._lengths: list[tuple[str, int]] = []

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, traceback: TracebackType | None
    ) -> None:
        with suppress(OSError):  # what could not be written was told
            self._file.close()

    def __len__(self) -> int:
        return len(self._lengths)

    @property
    def addresses(self) -> list[str]:
        return [address for address, _ in self._lengths]

    def __iter__(self) -> Iterator[tuple[str, bytes]]:
        """Give each page's address and bytes."""
        self._file.seek(0)
        for address, length in self._lengths:
            yield address, self._file.read(length)

    def add(self, address: str, data: bytes) -> None:
        try:
            self._file.write(data)
            self._file.flush()  # a full disk is told at once
        except OSError as error:
            where = f"the folder for files that are not kept, {gettempdir()}"
            raise CannotContinue(f"{where}, cannot be written: {error.strerror or error}") from error
        self._lengths.append((address, len(data)))
