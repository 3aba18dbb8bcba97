"""The words by which coins are found, and the files of data for scripts in which they lie."""

import hashlib
import re

from daterun.pages.findviews import DataFile, FindView, Rows
from daterun.records.shown import without_hidden, without_targets

_DATA = re.compile(r"find/[a-z]+-\d+-[0-9a-f]+\.js")

_MARKUP = re.compile(
    r"https?://\S+|<[!?/A-Za-z][^<>]*>|^ {0,3}\[(?!\^)[^\]\n]+\]:.*$|[*_`#>|\[\]]+", re.MULTILINE
)


def plain_words(text: str) -> str:
    """Give the words of a text in small letters, without what is markup in notes or is not shown of them."""
    text = without_targets(without_hidden(text))
    return " ".join(_MARKUP.sub(" ", text).lower().split())


def data_file(stem: str, name: str, part: int, rows: Rows) -> DataFile:
    """Lay rows down in a file that is called by what it holds."""
    digest = hashlib.blake2b(repr(rows).encode(), digest_size=6).hexdigest()
    return DataFile(f"find/{stem}-{part + 1}-{digest}.js", name, part, rows)


def is_data(address: str) -> bool:
    """Tell whether a file is called as those in which data are laid down."""
    return _DATA.fullmatch(address) is not None


def rows_of(view: FindView) -> tuple[str, ...]:
    """Tell the addresses of the rows of coins, among those of all data of the page on which they are found."""
    return tuple(each for each in view.data if each.startswith("find/coins-"))


def put_text(file: DataFile, place: int, text: str) -> DataFile:
    """Lay down other words at one place of a part of the texts."""
    rows = tuple(str(each) for each in file.rows)
    return data_file("texts", file.name, file.part, (*rows[:place], text, *rows[place + 1 :]))


def text_with(text: str, before: str, after: str) -> str | None:
    """Give the words by which a coin is found with other notes; None where they do not end in those before."""
    head, tail = text, plain_words(before)
    if tail:
        head = text.removesuffix(tail)
        if head == text or head[-1:] not in ("", " "):
            return None
    return " ".join(each for each in (head.rstrip(" "), plain_words(after)) if each)
