"""Which letters the fonts of a theme have, so that one they lack is told of and never printed as an empty box."""

import struct
from collections.abc import Iterable
from pathlib import Path

STAND_INS = {
    "\u00ad": "",
    "\u202f": "\u00a0",
    "\u2007": "\u00a0",
    "\u2011": "-",
    "\u2010": "-",
    "\u2248": "~",
    "\ufeff": "",
}
"""What is printed for a sign that a font lacks, where another says the same."""

LACKING = "¤"
"""What is printed for a letter that the fonts lack."""


def read_letters(paths: Iterable[Path]) -> frozenset[int]:
    """Read the code points that every one of some fonts has. Raise ValueError for a file that is no font."""
    found: frozenset[int] | None = None
    for path in paths:
        letters = _letters_of(path.read_bytes())
        found = letters if found is None else found & letters
    return found or frozenset()


def _letters_of(data: bytes) -> frozenset[int]:
    """Read the ``cmap`` table of a TrueType or OpenType font, in its formats 4 and 12 (OpenType 1.9, cmap)."""
    try:
        count = struct.unpack_from(">H", data, 4)[0]
        tables = {
            data[12 + 16 * nth : 16 + 16 * nth]: struct.unpack_from(">I", data, 20 + 16 * nth)[0]
            for nth in range(count)
        }
        start = tables[b"cmap"]
        subtables = struct.unpack_from(">H", data, start + 2)[0]
        letters: set[int] = set()
        for nth in range(subtables):
            platform, _, offset = struct.unpack_from(">HHI", data, start + 4 + 8 * nth)
            if platform in (0, 3):
                letters |= _subtable(data, start + offset)
    except (struct.error, KeyError, IndexError) as error:
        raise ValueError("this file is not a font that can be read") from error
    return frozenset(letters)


def _subtable(data: bytes, at: int) -> set[int]:
    kind = struct.unpack_from(">H", data, at)[0]
    if kind == 12:
        (groups,) = struct.unpack_from(">I", data, at + 12)
        ranges = [struct.unpack_from(">II", data, at + 16 + 12 * nth) for nth in range(groups)]
        return {point for first, last in ranges for point in range(first, min(last, 0x10FFFF) + 1)}
    if kind != 4:
        return set()
    half = struct.unpack_from(">H", data, at + 6)[0] // 2
    ends = struct.unpack_from(f">{half}H", data, at + 14)
    starts = struct.unpack_from(f">{half}H", data, at + 16 + 2 * half)
    deltas = struct.unpack_from(f">{half}H", data, at + 16 + 4 * half)
    offsets_at = at + 16 + 6 * half
    offsets = struct.unpack_from(f">{half}H", data, offsets_at)
    letters = set()
    for nth, (first, last) in enumerate(zip(starts, ends, strict=True)):
        for point in range(first, last + 1):
            glyph = point
            if offsets[nth]:
                place = offsets_at + 2 * nth + offsets[nth] + 2 * (point - first)
                (glyph,) = struct.unpack_from(">H", data, place)
                if not glyph:
                    continue
            if (glyph + deltas[nth]) & 0xFFFF:
                letters.add(point)
    return letters - {0xFFFF}
