"""A JPEG joined of parts that were coded apart, side by side and one below the other; no pixel is coded again.

Every part is coded with a restart marker after the same number of blocks, at which a decoder begins anew (ITU-T
T.81, E.1.4 and F.1.1.5.1), so that the stretches between them can be laid out as those of the whole would lie.
"""

import io
import re
import struct
from collections.abc import Iterator, Sequence

from PIL import Image

BLOCK_PX = 16
"""A side of what is coded together, four blocks of brightness and one of each colour."""

STRETCH = 30
"""Blocks from one marker to the next. A part is a whole number of stretches wide, or the whole would not be."""

_FRAME, _SCAN, _END = 0xC0, 0xDA, b"\xff\xd9"
_MARKER = re.compile(rb"\xff[\xd0-\xd7]")


def code_part(picture: Image.Image, quality: int) -> bytes:
    """Code a part, by tables that are the same for all parts of one quality."""
    out = io.BytesIO()
    picture.save(out, "JPEG", quality=quality, subsampling="4:2:0", restart_marker_blocks=STRETCH)
    return out.getvalue()


def join_parts(bands: Sequence[Sequence[bytes]]) -> bytes:
    """Join bands of parts, from top to bottom, the parts of each from left to right.

    The parts of a band are equally high, and bands equally wide; all but the lowest are whole blocks high.
    """
    begin, stretches = b"", []
    wide = high = 0
    for band in bands:
        parts = [_take_apart(each) for each in band]
        begin, frame, wide, _, _ = parts[0]
        wide, high = sum(part[2] for part in parts), high + parts[0][3]
        rows = [_rows(part[4], part[2]) for part in parts]
        for across in zip(*rows, strict=True):
            stretches += [each for row in across for each in row]
    joined = [begin[:frame], struct.pack(">HH", high, wide), begin[frame + 4 :], stretches[0]]
    for nth, each in enumerate(stretches[1:]):
        joined += (bytes((0xFF, 0xD0 + nth % 8)), each)
    return b"".join((*joined, _END))


def _take_apart(data: bytes) -> tuple[bytes, int, int, int, list[bytes]]:
    """Give what a coded part begins with, where in it the size stands, width, height, and the stretches."""
    at, frame = 2, 0
    while data[at + 1] != _SCAN:
        if data[at + 1] == _FRAME:
            frame = at + 5
        at += 2 + struct.unpack_from(">H", data, at + 2)[0]
    at += 2 + struct.unpack_from(">H", data, at + 2)[0]
    height, width = struct.unpack_from(">HH", data, frame)
    return data[:at], frame, width, height, _MARKER.split(data[at : data.rindex(_END)])


def _rows(stretches: Sequence[bytes], width: int) -> Iterator[Sequence[bytes]]:
    """Part the stretches into rows of blocks."""
    across = width // (BLOCK_PX * STRETCH)
    return (stretches[i : i + across] for i in range(0, len(stretches), across))
