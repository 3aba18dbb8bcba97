"""What commas in braces part that was meant to be one value, said in the collector's words."""

import re
from collections.abc import Sequence
from itertools import pairwise

from daterun.problems import Place, Problem

# The rest of a number grouped by commas.
_CUT_OFF = re.compile(r"[0-9]{3}(?![0-9])")

# The rest of a number with a comma before its decimals, and what may stand before that: no day, no fraction.
_DECIMALS = re.compile(r"[0-9]{1,2}(?![0-9])")
_WHOLE = re.compile(r"(?:.*[^0-9/–-])?[0-9]+")


_MOST = 12
"""Pieces that are told; beyond so many the file is hostile or a slip."""


def tell_of_comma(key: str, pieces: Sequence[tuple[str, Place]]) -> Problem:
    """Say that commas in braces parted the value of a key, and how it is written to be one.

    Text without a colon, which could only be a key without a value, is most likely more of the value before it.
    """
    many, pieces = len(pieces) > _MOST, pieces[:_MOST]
    first, *rest = (text for text, _ in pieces)
    beside = [
        before.line == after.line and before.column + before.length + 1 == after.column
        for (_, before), (_, after) in pairwise(pieces)
    ]
    joined = first + "".join(
        f"{',' if close else ', '}{each}" for each, close in zip(rest, beside, strict=True)
    )
    if many:
        joined += ", …"
    said = f'inside braces a comma ends a value, so of "{joined}" only {first} is read'
    rule = "number in braces"
    if many:
        rule, hint = "text in braces", "put it in quotes"
    elif first[-1].isdigit() and all(_CUT_OFF.match(each) for each in rest):
        hint = f"write the number without the comma: {''.join(text for text, _ in pieces)}"
    elif beside == [True] and _WHOLE.fullmatch(first) and _DECIMALS.match(rest[0]):
        hint = f"write the number with a point: {first}.{rest[0]}"
    elif all(beside) and _WHOLE.fullmatch(first) and all(each[0].isdigit() for each in rest):
        hint = "write the number without commas, its decimals behind a point"
    else:
        rule = "text in braces"
        hint = f'write it in quotes, as in {key}: "{joined}"' if '"' not in joined else "put it in quotes"
        if rest[-1].islower():
            hint += f', or give "{rest[-1]}" a colon and a value if it is a key'
    return Problem(rule, said, pieces[1][1], hint)
