"""Which series a keeper's own word for it means, such as a name, a face value or a denomination."""

import re
from collections.abc import Iterable, Mapping
from fractions import Fraction

from daterun.naming import listed
from daterun.problems import Misread, meant
from daterun.records.catalogue import Catalogue
from daterun.records.issuers import Issuer
from daterun.records.series import Series

_NUMBERS = {
    **{word: str(nth) for nth, word in enumerate(("one", "two", "three", "four", "five", "six"), start=1)},
    "ten": "10",
    "half": "1/2",
    "quarter": "1/4",
}


class SeriesNames:
    """The series of a catalogue by every word that a table may call them."""

    def __init__(self, catalogue: Catalogue) -> None:
        self._catalogue = catalogue
        self._by_word: dict[str, list[Series]] = {}
        self._issuers: dict[str, str] = {}
        self._by_face: dict[str, tuple[Series, ...]] = {}
        for issuer in catalogue.issuers.values():
            self._issuers.update({_folded(issuer.id): issuer.id, _folded(issuer.name): issuer.id})
        for series in catalogue.series.values():
            folded = [fold(each) for each in _words(series) for fold in (_folded, _unordered)]
            for word in dict.fromkeys(folded):
                self._by_word.setdefault(word, []).append(series)

    def find(self, word: str, issuer: str, year: int | None) -> Series:
        """Find a series by a word, an issuer ("" where none is named) and a year; raise Misread where none is."""
        exact = self._catalogue.find_series(word)
        if exact is not None:
            return exact
        named = self._by_word.get(_folded(word)) or self._by_word.get(_unordered(word))
        found: Iterable[Series] = named or self._of_face(word)
        if issuer:
            its = self._issuers.get(_folded(issuer))
            if its is None:
                raise Misread(
                    f'"{issuer}" is no issuer of the catalogue', meant(issuer, self._catalogue.issuers)
                )
            found = [each for each in found if each.issuer == its]
        found = list(found)
        if len(found) > 1 and year is not None:
            found = [each for each in found if each.issue(f"{year:04}") is not None] or found
        if len(found) == 1:
            return found[0]
        if found:
            raise Misread(f'"{word}" can be {listed([each.key for each in found], "or")}', "name one of them")
        names = dict.fromkeys(self.short(each) for each in self._catalogue.series.values())
        raise Misread(f'there is no series "{word}"', meant(word, names))

    def is_name(self, word: str) -> bool:
        """Tell whether a word is a name of a series already, as a coin's file may write it."""
        return self._catalogue.find_series(word) is not None

    def short(self, series: Series) -> str:
        """Name a series as a keeper writes it: by its short id while that is unique."""
        return series.id if self._catalogue.find_series(series.id) is series else series.key

    def _of_face(self, word: str) -> tuple[Series, ...]:
        """Find the series of a face value, however that is written: 2/6, 2s 6d, two shillings."""
        if word not in self._by_face:
            self._by_face[word] = tuple(self._with_face(_in_figures(word)))
        return self._by_face[word]

    def _with_face(self, typed: str) -> Iterable[Series]:
        for issuer in self._catalogue.issuers.values():
            if (value := _value_of(typed, issuer)) is not None:
                its = (each for each in self._catalogue.series.values() if each.issuer == issuer.id)
                yield from (each for each in its if each.face and _value_of(each.face, issuer) == value)


def _value_of(face: str, issuer: Issuer) -> Fraction | None:
    try:
        return issuer.money.parse_face(face).value if issuer.money is not None else None
    except Misread:
        return None


def _words(series: Series) -> Iterable[str]:
    for word in (series.key, series.id, series.name, series.denomination, series.face):
        if word:
            yield from (word, f"{word}s", f"{word[:-1]}ies" if word.endswith("y") else word)


def _folded(text: str) -> str:
    """Take case, spaces and hyphens from a word, so that Half crown and halfcrown are one."""
    return re.sub(r"[\s-]+", "", text.casefold())


def _unordered(text: str) -> str:
    """Take the order and signs from words, so that Threepence, silver and silver threepence are one."""
    return " ".join(sorted(re.findall(r"\w+", text.casefold())))


def _in_figures(text: str) -> str:
    words = re.sub(r"(?<=\w)-(?=\w)", " ", text.casefold()).split()
    return " ".join(_NUMBERS.get(each, each) for each in words)


def canonical(values: Mapping[str, object], series: Series | None) -> Mapping[str, object]:
    """Give the values of a coin with the series' whole name, by which two files of one coin are told alike."""
    return {**values, "series": series.key} if series is not None else values
