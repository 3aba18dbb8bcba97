"""Which series a keeper's own word for it means, such as a name, a face value or a denomination."""

from collections.abc import Iterable, Mapping

from daterun.naming import listed
from daterun.problems import Misread, meant
from daterun.records.catalogue import Catalogue
from daterun.records.series import Series


class SeriesNames:
    """The series of a catalogue by every word that a table may call them."""

    def __init__(self, catalogue: Catalogue) -> None:
        self._catalogue = catalogue
        self._by_word: dict[str, list[Series]] = {}
        self._issuers: dict[str, str] = {}
        for issuer in catalogue.issuers.values():
            self._issuers.update({_folded(issuer.id): issuer.id, _folded(issuer.name): issuer.id})
        for series in catalogue.series.values():
            for word in dict.fromkeys(_folded(each) for each in _words(series)):
                self._by_word.setdefault(word, []).append(series)

    def find(self, word: str, issuer: str, year: int | None) -> Series:
        """Find a series by a word, an issuer ("" where none is named) and a year; raise Misread where none is."""
        exact = self._catalogue.find_series(word)
        if exact is not None:
            return exact
        found = self._by_word.get(_folded(word), [])
        if issuer:
            its = self._issuers.get(_folded(issuer))
            if its is None:
                raise Misread(f'"{issuer}" is no issuer of the catalogue', meant(issuer, self._issuers))
            found = [each for each in found if each.issuer == its]
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


def _words(series: Series) -> Iterable[str]:
    yield from (series.key, series.id, series.name, f"{series.name}s")
    yield from (each for each in (series.denomination, series.face) if each)


def _folded(text: str) -> str:
    return " ".join(text.replace("-", " ").casefold().split())


def canonical(values: Mapping[str, object], series: Series | None) -> Mapping[str, object]:
    """Give the values of a coin with the series' whole name, by which two files of one coin are told alike."""
    return {**values, "series": series.key} if series is not None else values
