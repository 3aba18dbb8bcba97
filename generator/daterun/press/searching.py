"""The search for private values in what is about to be published, while it waits apart."""

import hashlib
import re
from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from pathlib import Path

from daterun.press.needle import Needle, veil
from daterun.press.plaintext import (
    beside_pixels,
    has_tags,
    is_picture,
    is_text,
    join_tags,
    join_texts,
    part_text,
    read_wholes,
    stands_by_itself,
    tokens_of,
)
from daterun.problems import Place, Problem

_MANY = 3
"""Files named in a problem; of more, only how many there are."""

_MOST_CLEAN, _LONGEST_CLEAN, _LONGEST_LINE = 20_000, 400, 2_000
"""Pieces, and lines, found clean that are kept in mind, and their length: some 20 MB at most."""

_LEFT_OUT = "<p>"
"""Stands for lines that are left out; no run of words goes over it."""


@dataclass(frozen=True, slots=True)
class Find:
    """A private value found in a file; without a needle, a picture that carries more than its pixels."""

    address: str
    needle: Needle | None


class Search:
    """Seeks all needles at once in any number of files.

    The rarest word of each needle is its key, or rather the one that fewest needles have: a file that holds
    none of the keys costs no more than parting it into words. Needles that are spared are not sought. Veiled are
    those that are, as they may be remembered, and spared those that are not.
    """

    def __init__(self, needles: Sequence[Needle]) -> None:
        self._spared = [replace(each, is_spared=False) for each in needles if each.is_spared]
        sought = self._sought = [each for each in needles if not each.is_spared]
        self.veiled = tuple(sorted(map(veil, sought)))
        self.spared = tuple(sorted(map(veil, self._spared)))
        self._alone = {" ".join(each.tokens): each for each in sought if each.is_alone}
        self._seeks_wholes = bool(self._alone)
        running = [each for each in sought if not each.is_alone]
        shares = Counter(word for each in running for word in set(each.tokens))
        self._keys: dict[str, list[tuple[int, list[str], Needle]]] = {}
        self._clean: set[str] = set()
        self._clean_lines: set[str] = set()
        for each in running:
            words = list(each.tokens)
            key = min(words, key=lambda word: (shares[word], -len(word)))
            self._keys.setdefault(key, []).append((words.index(key), words, each))
        self.fingerprint = fingerprint_of(self.veiled)

    def __bool__(self) -> bool:
        return bool(self._keys or self._alone)

    def numbered(self, finds: Iterable[Find]) -> tuple[int, ...]:
        """Tell finds by the numbers of their needles, -1 for none, to hand them from a copy to its first process.

        A needle itself takes along all of the file in which its value is written.
        """
        numbers = {id(each): nth for nth, each in enumerate(self._sought)}
        return tuple(-1 if each.needle is None else numbers[id(each.needle)] for each in finds)

    def found(self, address: str, numbers: Iterable[int]) -> list[Find]:
        """Give the finds in a file that were told by numbers."""
        return [Find(address, None if nth < 0 else self._sought[nth]) for nth in numbers]

    def spares(self, text: str) -> bool:
        """Tell whether a text says what is not sought only because the keeper says it so freely."""
        return bool(Search(self._spared).in_text("", text))

    def in_file(self, address: str, data: bytes) -> list[Find]:
        """Search a file of an edition: its text, or what a picture carries beside its pixels."""
        found: list[Find] = []
        if is_picture(address):
            if (carried := beside_pixels(data)) != b"":
                said = self.in_text(address, carried.decode("utf-8", "replace"))
                found += said or [Find(address, None)]
        elif is_text(address):
            text = data.decode("utf-8", "replace")
            apart: list[str] = []
            if has_tags(address):
                lines, apart = self._lines_to_search(text)
                text = "\n".join(lines)
            found += self._in_pieces(address, *part_text(address, text))
            if not found:
                short = (each for each in apart if len(each) < _LONGEST_LINE)
                _keep(self._clean_lines, (each for each in short if stands_by_itself(each)))
        return list(dict.fromkeys(found))

    def _lines_to_search(self, text: str) -> tuple[list[str], list[str]]:
        """Give the lines of a page but for those that no other page held without a find: most are met once."""
        lines: list[str] = []
        apart: list[str] = []
        is_in_tag = False
        for line in text.split("\n"):
            if is_in_tag or line not in self._clean_lines:
                lines.append(line)
                if not is_in_tag:
                    apart.append(line)
                if "<" in line or ">" in line:
                    is_in_tag = line.count("<") != line.count(">") or line.rfind("<") > line.rfind(">")
            elif not lines or lines[-1] is not _LEFT_OUT:
                lines.append(_LEFT_OUT)
        return lines, apart

    def _in_pieces(self, address: str, texts: list[str], tags: list[str]) -> list[Find]:
        """Search the pieces of a file that no other held without a find."""
        texts, tags = [
            [each for each in dict.fromkeys(some) if each not in self._clean] for some in (texts, tags)
        ]
        found = self._run(address, join_texts(address, texts)) + self._run(address, join_tags(tags))
        if self._seeks_wholes:
            found += self._whole(address, read_wholes(texts, tags))
        if not found:
            _keep(self._clean, (each for each in (*texts, *tags) if len(each) < _LONGEST_CLEAN))
        return found

    def in_name(self, address: str) -> list[Find]:
        """Search the name of a file and of its folders, in which names are written in small letters."""
        return self._run(address, address, is_name=True)

    def in_text(self, address: str, text: str) -> list[Find]:
        """Search a text that is to be set or shown; the address says where a find is told to be."""
        return self._run(address, text)

    def _run(self, address: str, text: str, is_name: bool = False) -> list[Find]:
        tokens = tokens_of(text)
        met = self._keys.keys() & set(tokens)
        if not met:
            return []
        found: list[Needle] = []
        for nth, token in enumerate(tokens):
            if token not in met:
                continue
            for at, words, needle in self._keys[token]:
                begin = nth - at
                if begin < 0 or tokens[begin] != words[0] or tokens[begin : begin + len(words)] != words:
                    continue
                if is_name or not needle.proper or _as_typed(needle.proper).search(text):
                    found.append(needle)
        return [Find(address, each) for each in dict.fromkeys(found)]

    def _whole(self, address: str, wholes: set[str]) -> list[Find]:
        return [Find(address, self._alone[each]) for each in sorted(self._alone.keys() & wholes)]


@lru_cache(maxsize=1024)
def _as_typed(name: str) -> re.Pattern[str]:
    """Find a proper name as it was typed, in capitals, or in the address of a site or of post."""
    ways = "|".join(re.escape(each) for each in dict.fromkeys((name, name.upper())))
    return re.compile(rf"\b(?:{ways})\b|(?:@|//(?:www\.)?){re.escape(name.lower())}\.")


def _keep(clean: set[str], found: Iterable[str]) -> None:
    """Keep in mind what was found clean; once it is much, begin anew, for pages are most like the last ones."""
    if len(clean) > _MOST_CLEAN:
        clean.clear()
    clean.update(found)


def fingerprint_of(veiled: Iterable[str]) -> str:
    """Mark what is sought, and how, so that files searched for the same need not be searched again."""
    total = hashlib.blake2b(digest_size=16)
    for name in ("searching", "needle", "needles", "plaintext"):
        total.update((Path(__file__).parent / f"{name}.py").read_bytes())
    for line in veiled:
        total.update(f"{line}\n".encode())
    return total.hexdigest()


def word_finds(finds: Iterable[Find], reader: str) -> tuple[Problem, ...]:
    """Word what was found as problems, one for each value and record, at the place where the value is written."""
    by_value: dict[tuple[object, ...], tuple[Find, list[str]]] = {}
    for find in finds:
        value = find.needle.withheld if find.needle else None
        key = (value,) if value else (find.address,)
        by_value.setdefault(key, (find, []))[1].append(find.address)
    return tuple(_problem(find, sorted(set(pages)), reader) for find, pages in by_value.values())


def _problem(find: Find, pages: list[str], reader: str) -> Problem:
    if find.needle is None:
        sentence = f"{find.address} of the {reader} edition would carry more than its pixels"
        return Problem("private value", sentence, Place(find.address))
    withheld = find.needle.withheld
    shown = ", ".join(pages[:_MANY])
    more = f" and {len(pages) - _MANY:,} other files" if len(pages) > _MANY else ""
    said = " ".join(str(withheld.value).split())
    said = said if len(said) <= 60 else f"{said[:60]}…"
    sentence = (
        f'the {reader} edition would tell "{said}", which is private ({withheld.field}, {withheld.whose}),'
        f" in {shown}{more}"
    )
    hint = "take it out of what readers see"
    if not said.endswith("…"):
        hint += f', or allow it in content/catalogue.yaml: may be named: ["{said}"]'
    return Problem("private value", sentence, withheld.place, hint)
