"""Bytes kept in files beside what Daterun remembers: whole and as they were, or not at all."""

import hashlib
import os
import threading
from pathlib import Path

_LENGTH = 16


def keep(path: Path, data: bytes) -> None:
    """Keep bytes in a file and make its folder. Raise OSError where they cannot be kept."""
    put(path, data + _digest(data))


def put(path: Path, data: bytes) -> None:
    """Write a file whole or not at all, and make its folder. Raise OSError where it cannot be written."""
    half = path.with_name(f".{path.name}.{os.getpid()}.{threading.get_ident()}")
    try:
        half.write_bytes(data)
    except FileNotFoundError:
        path.parent.mkdir(parents=True, exist_ok=True)
        half.write_bytes(data)
    half.replace(path)


def fetch(path: Path) -> bytes | None:
    """Give the bytes kept in a file; None where there are none, or they are not as they were."""
    try:
        stored = path.read_bytes()
    except OSError:
        return None
    data = stored[:-_LENGTH]
    return data if stored == data + _digest(data) else None


def _digest(data: bytes) -> bytes:
    return hashlib.blake2b(data, digest_size=_LENGTH).digest()
