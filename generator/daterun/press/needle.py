"""A needle: one way in which a page might tell a private value; and how it is remembered without telling it."""

import hashlib
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from daterun.readers.withheld import Withheld

Tokens = tuple[str, ...]

ALONE = "alone"
"""Stands in a veiled needle that counts only by itself."""


@dataclass(frozen=True, slots=True)
class Needle:
    """The words and numbers that are sought, in order.

    Alone tells that it counts only as the whole of an element, an attribute or a text in data. A proper one is
    a single word with a capital letter, which counts only as it was typed. One that is spared is not sought, for
    the keeper says it freely in what a reader sees, and would be if that were taken out.
    """

    tokens: Tokens
    withheld: "Withheld"
    is_alone: bool = False
    proper: str = ""
    is_spared: bool = False


def veil(needle: Needle) -> str:
    """Word a needle by the number of its words, digests of the first and of all, and how it counts.

    So none can be read where it is remembered, though one that is guessed can be told to be there.
    """
    words = needle.tokens
    kind = ALONE if needle.is_alone else digest_of_words([needle.proper]) if needle.proper else "-"
    return f"{len(words)} {digest_of_words(words[:1])[:8]} {digest_of_words(words)} {kind}"


def digest_of_words(words: Sequence[str]) -> str:
    return hashlib.blake2b(" ".join(words).encode("utf-8", "surrogatepass"), digest_size=8).hexdigest()
