"""Mint marks as they are typed; which mint a mark stands for is said by the issuer."""

import re
from dataclasses import dataclass

from daterun.problems import Misread

_LONGEST = 12
_MARK = re.compile(rf"[^\W_]{{1,{_LONGEST}}}")


@dataclass(frozen=True, slots=True, order=True)
class MintMark:
    """A mint mark in the case that the coin has; the text "none" is the mint that uses no mark."""

    text: str

    def __str__(self) -> str:
        return self.text


NONE = MintMark("none")


def parse_mint_mark(text: str) -> MintMark:
    """Read a mint mark of letters and figures, or "none" for coins without one.

    Capitals count: "k" and "K" are two marks. Raise Misread for signs, spaces and more than 12 characters.
    """
    typed = text.strip()
    if not typed:
        raise Misread("the mint mark is empty", "write none for the mint that uses no mark")
    if typed.casefold() == NONE.text:
        return NONE
    if len(typed) > _LONGEST:
        raise Misread(f'"{text}" is too long for a mint mark', f"at most {_LONGEST} letters and figures")
    if not _MARK.fullmatch(typed):
        raise Misread(
            f'"{text}" is not a mint mark',
            "a mint mark is made of letters and figures; put a sign into a word, such as star",
        )
    return MintMark(typed)
