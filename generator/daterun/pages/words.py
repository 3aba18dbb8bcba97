"""The words of the pages: a theme's phrases with their gaps filled in, and numbers as a language writes them.

Reading the phrases from a theme's files is left to the press.
"""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from functools import lru_cache

Phrase = str | Mapping[str, str]
"""One text, or the forms of a counted one: ``one`` and ``other``, perhaps ``zero``."""

_GAP = re.compile(r"\{([a-z_]+)\}")

_NARROW, _FULL = "\u202f", "\u00a0"
_SEPARATORS = {
    **dict.fromkeys(("en", "ja", "zh", "ko", "he", "th"), ","),
    **dict.fromkeys(("de", "nl", "da", "es", "it", "pt", "tr", "id", "el"), "."),
    **dict.fromkeys(("fr",), _NARROW),
    **dict.fromkeys(("sv", "nb", "nn", "no", "fi", "cs", "sk", "pl", "ru", "uk", "hu", "bg", "et"), _FULL),
}
_ONE_FOR_ZERO = ("fr", "pt")
"""Languages in which nought counts as one piece does: "0 pièce"."""


@lru_cache(maxsize=2048)
def _cut(phrase: str) -> tuple[str, ...]:
    """Cut a phrase at its gaps: text, gap, text, and so on, for it is filled tens of thousands of times."""
    return tuple(_GAP.split(phrase))


class MissingWord(KeyError):
    """A phrase that the theme does not have, or a gap in a phrase that nothing fills."""

    def __init__(self, key: str, gap: str = "") -> None:
        super().__init__(key)
        self.key = key
        self.gap = gap

    def __str__(self) -> str:
        if self.gap:
            return f'the phrase "{self.key}" has a gap "{{{self.gap}}}" that nothing fills'
        return f'the theme has no phrase "{self.key}"'


@dataclass(frozen=True, slots=True)
class Words:
    """The phrases of one theme in one language, by key."""

    language: str
    phrases: Mapping[str, Phrase] = field(repr=False)

    def say(self, key: str, /, **values: object) -> str:
        """Word a phrase, its gaps filled.

        A count ``n`` chooses the form and is grouped, the rest stand as given. Raise MissingWord for a key
        that the theme lacks, or a gap that no value fills.
        """
        phrase = self.phrases.get(key)
        if phrase is None:
            raise MissingWord(key)
        if not isinstance(phrase, str):
            n = values.get("n")
            phrase = phrase[self._form(phrase, n if isinstance(n, int) else 2)]
        if "{" not in phrase:
            return phrase
        said = list(_cut(phrase))
        for nth in range(1, len(said), 2):
            gap = said[nth]
            if gap not in values:
                raise MissingWord(key, gap)
            value = values[gap]
            said[nth] = self.number(value) if gap == "n" and isinstance(value, int) else str(value)
        return "".join(said)

    def count(self, key: str, n: int, /, **values: object) -> str:
        """Word a counted phrase: ``count("coins", 1)`` is "1 coin"."""
        return self.say(key, **{**values, "n": n})

    def number(self, n: int) -> str:
        """Write a whole number with its thousands grouped as the language does.

        Four figures stand ungrouped where the separator is a space.
        """
        if -1000 < n < 1000:
            return str(n)
        separator = _SEPARATORS.get(self.language.split("-")[0].lower(), _NARROW)
        if separator in (_NARROW, _FULL) and abs(n) < 10_000:
            return str(n)
        return f"{n:,}".replace(",", separator)

    def with_gaps(self, filling: str) -> Iterator[str]:
        """Give every form of the phrases that have gaps, with the same filling in each."""
        for phrase in self.phrases.values():
            for text in (phrase,) if isinstance(phrase, str) else phrase.values():
                if "{" in text:
                    yield _GAP.sub(filling, text)

    def __contains__(self, key: object) -> bool:
        return key in self.phrases

    def _form(self, forms: Mapping[str, str], n: int) -> str:
        if n == 0 and "zero" in forms:
            return "zero"
        is_one = n == 1 or (n == 0 and self.language.split("-")[0].lower() in _ONE_FOR_ZERO)
        return "one" if is_one and "one" in forms else "other"
