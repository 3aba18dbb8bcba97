"""The links in notes and essays: ``[[ort/1897]]`` to a coin, ``[[ort 1881]]`` to a date, held or not.

``[[ort/1897 both]]`` is a plate of both sides, ``obverse`` and ``reverse`` of one. Where a link leads is for
``checks`` and ``press`` to say.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum

from daterun.problems import Place

_LINK = re.compile(r"\[\[([^\[\]\n]{1,200})\]\]")
_IMAGE = re.compile(r"!\[[^\[\]\n]{0,200}\]\([^()\n]{0,400}\)")
_CODE = re.compile(r"(`+)(?!`).*?(?<!`)\1(?!`)")
_FENCE = re.compile(r" {0,3}(?:(`{3,})[^`]*|(~{3,}).*)")


class Plate(StrEnum):
    """What of a coin a plate shows."""

    BOTH = "both"
    OBVERSE = "obverse"
    REVERSE = "reverse"


@dataclass(frozen=True, slots=True)
class Link:
    """One link as written. A coin link has an id and perhaps a plate; a date link has a series and a date."""

    coin: str
    plate: Plate | None
    series: str
    date: str
    label: str

    @property
    def is_coin(self) -> bool:
        return bool(self.coin)


@dataclass(frozen=True, slots=True)
class PlacedLink:
    """A link, its whole text, and where it stands."""

    link: Link
    text: str
    place: Place


def parse_link(inside: str) -> Link:
    """Read what stands between the brackets; ``|`` parts off a label of the keeper's own.

    A text with a space whose last word is a plate is a coin; one with a space otherwise is a series and a
    date; one without is a coin.
    """
    target, _, label = inside.partition("|")
    words = target.split()
    label = label.strip()
    if len(words) == 2 and words[1] in set(Plate):
        return Link(words[0], Plate(words[1]), "", "", label)
    if len(words) >= 2:
        return Link("", None, words[0], " ".join(words[1:]), label)
    return Link(words[0] if words else "", None, "", "", label)


def find_links(text: str, path: str, first_line: int) -> tuple[PlacedLink, ...]:
    """Find every link of a Markdown text with its place; what stands as code is not a link."""
    return tuple(
        PlacedLink(parse_link(match.group(1)), match.group(), place)
        for match, place in _find(_LINK, text, path, first_line)
    )


def find_images(text: str, path: str, first_line: int) -> tuple[Place, ...]:
    """Find the pictures typed in Markdown's own way, ``![words](file)``, which notes do not show."""
    return tuple(place for _, place in _find(_IMAGE, text, path, first_line))


def _find(
    pattern: re.Pattern[str], text: str, path: str, first_line: int
) -> Iterator[tuple[re.Match[str], Place]]:
    for number, line in _lines_without_code(text, first_line):
        for match in pattern.finditer(line):
            yield match, Place(path, number, match.start() + 1, match.end() - match.start())


def _lines_without_code(text: str, first_line: int) -> Iterator[tuple[int, str]]:
    """Give the lines outside fences, numbered, with spaces in place of what stands as code."""
    fence = ""
    for number, line in enumerate(text.split("\n"), start=first_line):
        if fence:
            if _closes(fence, line):
                fence = ""
        elif opening := _FENCE.fullmatch(line):
            fence = opening.group(1) or opening.group(2)
        else:
            yield number, _CODE.sub(lambda code: " " * len(code.group()), line)


def _closes(fence: str, line: str) -> bool:
    """Tell whether a line closes a fence: the same sign, at least as often, and nothing else."""
    marks = line.strip()
    return len(marks) >= len(fence) and set(marks) == set(fence)


LINK_PATTERN = _LINK.pattern
"""The pattern of a link, for the Markdown processor that makes links of them."""
