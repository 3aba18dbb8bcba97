"""What of a text in Markdown is shown to whoever reads its page: no comments, and of a link its words."""

import re
from collections.abc import Container

from daterun.records.links import LINK_PATTERN, Link, parse_link

_HIDDEN = tuple(
    (re.compile(begin, re.IGNORECASE), re.compile(end, re.IGNORECASE))
    for begin, end in (("<!--", "-->"), ("<script", "</script[^<>]*>"), ("<style", "</style[^<>]*>"))
)
_LINK = re.compile(LINK_PATTERN)


def without_hidden(text: str) -> str:
    """Take out comments, programs and styles; one that has no end is shown as it was typed, and stays."""
    if "<" not in text:
        return text
    for begin, end in _HIDDEN:
        kept, at = [], 0
        while (opening := begin.search(text, at)) and (closing := end.search(text, opening.end())):
            kept.append(text[at : opening.start()])
            at = closing.end()
        text = "".join((*kept, text[at:]))
    return text


def words_of(link: Link) -> str:
    """Give the words that stand for a link where it leads nowhere."""
    return link.label or (link.coin.replace("/", " ") if link.is_coin else f"{link.series} {link.date}")


def without_targets(text: str, kept: Container[str] = ()) -> str:
    """Put words in the place of links to coins, but for coins that are kept, which are named by their ids."""

    def words(found: re.Match[str]) -> str:
        link = parse_link(found.group(1))
        return found.group() if not link.is_coin or link.coin in kept else words_of(link)

    return _LINK.sub(words, text) if "[[" in text else text
