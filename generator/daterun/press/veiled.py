"""The search for private values of which only digests are remembered."""

from collections.abc import Iterable

from daterun.press.needle import ALONE, digest_of_words
from daterun.press.plaintext import tokens_of
from daterun.press.searching import Find, Search, fingerprint_of


class VeiledSearch(Search):
    """Seeks what a search sought whose veiled needles are given, and what it spared.

    A find has no needle, for it cannot be told what was found; and a proper name is found in small letters too.
    Raise ValueError for what is no veiled needle.
    """

    def __init__(self, veiled: Iterable[str], spared: Iterable[str]) -> None:
        super().__init__(())
        self.veiled, self.spared = tuple(veiled), tuple(spared)
        self.fingerprint = fingerprint_of(self.veiled)
        self._lengths: dict[str, set[int]] = {}
        self._runs: set[str] = set()
        self._wholes: set[str] = set()
        for each in self.veiled:
            length, first, run, kind = each.split(" ")
            if kind == ALONE:
                self._wholes.add(run)
            else:
                self._lengths.setdefault(first, set()).add(int(length))
                self._runs.add(run)
        self._seeks_wholes = bool(self._wholes)

    def __bool__(self) -> bool:
        return bool(self._runs or self._wholes)

    def spares(self, text: str) -> bool:
        return bool(VeiledSearch(self.spared, ()).in_text("", text))

    def _run(self, address: str, text: str, is_name: bool = False) -> list[Find]:
        tokens = tokens_of(text)
        lengths = {each: self._lengths.get(digest_of_words([each])[:8], ()) for each in set(tokens)}
        for nth, token in enumerate(tokens):
            if any(digest_of_words(tokens[nth : nth + length]) in self._runs for length in lengths[token]):
                return [Find(address, None)]
        return []

    def _whole(self, address: str, wholes: set[str]) -> list[Find]:
        if any(digest_of_words([each]) in self._wholes for each in wholes):
            return [Find(address, None)]
        return []
