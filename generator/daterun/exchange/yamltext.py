"""Texts, lists and mappings written as the YAML of a catalogue, so that they read back as they were.

A plain value is a text, a list or a mapping of plain values. What the values mean is left to the records.
"""

import re
from collections.abc import Mapping, Sequence
from typing import TypeAlias

Plain: TypeAlias = str | Sequence["Plain"] | Mapping[str, "Plain"]
"""What a YAML file says, without places: texts as typed, lists, and mappings."""

# Signs that mean nothing to YAML wherever they stand within a text, in braces as well as outside of them.
_BARE = re.compile(r"(?:[^\W_]|[.£€½¼¾])(?:[\w .\-/'()+=;!%°½¼¾–—£€$&~×]*(?:[^\W_]|[.')%°!½¼¾+]))?")

_ESCAPED = {'"': '\\"', "\\": "\\\\", "\n": "\\n", "\t": "\\t", "\r": "\\r", "\0": "\\0"}


def text_of(value: str) -> str:
    """Write a text as a scalar: bare where that is safe, else in double quotes."""
    if _BARE.fullmatch(value):
        return value
    return quoted(value)


def quoted(value: str) -> str:
    """Write a text in double quotes."""
    return '"' + "".join(_escaped(each) for each in value) + '"'


def _escaped(sign: str) -> str:
    if sign in _ESCAPED:
        return _ESCAPED[sign]
    if sign.isprintable():
        return sign
    number = ord(sign)
    if number < 0x100:
        return f"\\x{number:02x}"
    return f"\\u{number:04x}" if number < 0x10000 else f"\\U{number:08x}"


def flow_of(value: Plain) -> str:
    """Write a value on one line: a text, ``[a, b]`` or ``{key: value}``."""
    if isinstance(value, str):
        return text_of(value)
    if isinstance(value, Mapping):
        return "{" + ", ".join(f"{text_of(key)}: {flow_of(each)}" for key, each in value.items()) + "}"
    return "[" + ", ".join(flow_of(each) for each in value) + "]"


def line_of(key: str, value: Plain) -> str:
    """Write a key with its value as a line of its own, where a comma ends no value."""
    is_bare = isinstance(value, str) and bool(_BARE.fullmatch(value.replace(",", "-")))
    return f"{text_of(key)}: {value if is_bare else flow_of(value)}"


def lines_of(values: Mapping[str, Plain]) -> str:
    """Write a mapping with a line for each key; empty where there is none."""
    return "".join(f"{line_of(key, value)}\n" for key, value in values.items())
