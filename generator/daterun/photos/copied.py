"""A photo's bytes taken once, so that key and pixels are of the same, whatever becomes of its file meanwhile."""

import errno
import hashlib
import io
import stat
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from tempfile import TemporaryFile
from typing import BinaryIO, cast

IN_MEMORY = 32_000_000
"""Bytes up to which the copy stays in memory; a larger one goes to a file without a name."""

_PIECE = 1 << 20


@contextmanager
def copied(path: Path) -> Iterator[tuple[BinaryIO, str]]:
    """Copy a photo for the work within, and give the copy with the hex BLAKE2b of 128 bits of what it holds.

    Raise OSError where the file cannot be read, and where it is none: a pipe would be waited for, and a device
    never come to an end.
    """
    status = path.stat()
    if not stat.S_ISREG(status.st_mode):
        raise OSError(errno.EINVAL, "it is not a file")
    if status.st_size <= IN_MEMORY:
        data = path.read_bytes()
        yield io.BytesIO(data), hashlib.blake2b(data, digest_size=16).hexdigest()
        return
    total = hashlib.blake2b(digest_size=16)
    with TemporaryFile() as copy:
        with path.open("rb") as file:
            while piece := file.read(_PIECE):
                total.update(piece)
                copy.write(piece)
        copy.seek(0)
        yield cast(BinaryIO, copy), total.hexdigest()
