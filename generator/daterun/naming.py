"""Names made fit for addresses: slugs, and words joined for reading."""

import unicodedata
from collections.abc import Sequence

_LETTERS = str.maketrans({"ø": "o", "æ": "ae", "đ": "d", "ł": "l"})
_SIGNS = {"½": "half", "¼": "quarter", "¾": "three quarters", "£": "pound", "$": "dollar"}


def slug(text: str) -> str:
    """Make a name fit for an address: small letters and figures of ASCII, joined by hyphens.

    Letters of other scripts are kept, for an address may hold them; a name of signs alone is ``x``.
    """
    for sign, word in _SIGNS.items():
        text = text.replace(sign, f" {word} ")
    apart = unicodedata.normalize("NFKD", text.casefold()).casefold().translate(_LETTERS)
    kept = "".join(each if _is_of_a_word(each) else " " for each in apart if not _is_accent(each))
    return unicodedata.normalize("NFC", "-".join(kept.split())) or "x"


def _is_accent(sign: str) -> bool:
    """Tell whether a sign is one of the accents set over or under letters of any script of Europe."""
    return "\u0300" <= sign <= "\u036f"


def _is_of_a_word(sign: str) -> bool:
    """Tell whether a sign is a letter, a figure, or a mark without which other scripts cannot be read."""
    return sign.isalnum() or unicodedata.category(sign).startswith("M")


def listed(words: Sequence[str], joint: str = "and") -> str:
    """Join words for reading: ``a``, ``a and b``, ``a, b and c``."""
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} {joint} {words[-1]}"
