"""Names made fit for addresses: slugs, and words joined for reading."""

import unicodedata
from collections.abc import Sequence

_LETTERS = str.maketrans(
    {"ø": "o", "Ø": "o", "æ": "ae", "Æ": "ae", "ß": "ss", "đ": "d", "Đ": "d", "ł": "l", "Ł": "l"}
)
_SIGNS = {"½": "half", "¼": "quarter", "£": "pound", "$": "dollar"}


def slug(text: str) -> str:
    """Make a name fit for an address: small letters and figures of ASCII, joined by hyphens.

    Letters of other scripts are kept, for an address may hold them; a name of signs alone is ``x``.
    """
    for sign, word in _SIGNS.items():
        text = text.replace(sign, f" {word} ")
    plain = unicodedata.normalize("NFKD", text.translate(_LETTERS).casefold())
    kept = "".join(c if c.isalnum() else " " for c in plain if not unicodedata.combining(c))
    return "-".join(kept.split()) or "x"


def listed(words: Sequence[str], joint: str = "and") -> str:
    """Join words for reading: ``a``, ``a and b``, ``a, b and c``."""
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} {joint} {words[-1]}"
