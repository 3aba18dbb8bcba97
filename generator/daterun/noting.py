"""Taking up other notes: where nothing but the notes of a few coins has changed since an edition was made.

The pages of those coins, and the words by which they are found, are made of what the last build left ready; the
catalogue is not read. That the edition is what a build from nothing makes is held by ``tests/test_noting.py``.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from daterun.bundled import themes_folder
from daterun.desk import DESK, Desk, digest_of_notes, read_desk
from daterun.pages import addresses
from daterun.pages.findtexts import is_data, rows_of
from daterun.pages.findviews import DataFile, FindView
from daterun.pages.renoting import find_by_texts, notes_on, renote, reword
from daterun.pages.views import Page
from daterun.press.datafiles import read_data
from daterun.press.inspection import sought_last
from daterun.press.made import made_of, read_rows
from daterun.press.output import Output, open_few
from daterun.press.searching import Search
from daterun.press.slips import SLIPS, add_slips, read_slip
from daterun.press.templates import Press
from daterun.press.theme import ThemeMistake, find_theme
from daterun.press.words import read_words
from daterun.problems import Place, tells_of
from daterun.records.files import read_text
from daterun.records.frontmatter import PartedText, part_front_matter
from daterun.result import BuildResult
from daterun.revising import Revised

MOST = 40
"""Coins whose notes are taken up by themselves; with more, all is read again."""

MOST_TIMES = 200
"""How often notes are taken up before all is read again: each time adds to what is remembered."""


class _NotByItself(Exception):
    """More has changed, or may have, than what can be taken up by itself."""


@dataclass(frozen=True, slots=True)
class _Tools:
    """What the few files are made, searched and put in place with."""

    press: Press
    search: Search
    edition: Output


@dataclass(frozen=True, slots=True)
class Renoted:
    """An edition with other notes: what that came to, its desk, and the addresses of files changed or gone."""

    result: BuildResult
    desk: Desk
    changed: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _Coin:
    """A coin with other notes: its id, its page as it was, and its notes now."""

    id: str
    page: Page
    notes: str


class _Edition:
    """An edition as the last build left it, with what lies on its desk."""

    def __init__(self, folder: Path, reader: str, root: Path, memory: Path, desk: Desk) -> None:
        self.folder = folder
        self.reader = reader
        self.root = root
        self.memory = memory
        self.desk = desk
        self.made = read_rows(memory)

    def renoted(self, path: str) -> tuple[str, _Coin | None]:
        """Read a coin's file; give the digest of its notes, and the coin where they are other ones."""
        text = read_text(self.folder, path)
        parted = part_front_matter(text, path) if isinstance(text, str) else text
        matter, notes = self.desk.typed[path]
        if not isinstance(parted, PartedText) or parted.digest != matter:
            raise _NotByItself
        now = digest_of_notes(parted.text)
        if now == notes:
            return now, None
        coin_id = path.removeprefix("content/coins/").removesuffix(".md")
        page = self.page(addresses.of_coin(coin_id))
        before = notes_on(page)
        if digest_of_notes(before) != notes or self.desk.search.spares(before):
            raise _NotByItself
        return now, _Coin(coin_id, page, parted.text)

    def page(self, address: str) -> Page:
        """Take up a page as it was made."""
        made = made_of(self.made, address)
        slips = self.memory.with_suffix(SLIPS)
        page = read_slip(slips, address, made.mark, self.desk.base) if made is not None else None
        if page is None:
            raise _NotByItself
        return page

    def data(self, address: str) -> DataFile:
        """Take up a part of the data for scripts, which lies nowhere but beside the page of finding."""
        if not is_data(address):
            raise _NotByItself
        try:
            return read_data(address, (self.root / address).read_bytes())
        except (OSError, ValueError) as error:
            raise _NotByItself from error

    def revised(self, coins: Sequence[_Coin]) -> Revised[_Tools]:
        """Tell what other notes make of the edition."""
        pages = [renote(each.page, each.notes) for each in coins]
        find = self.page(addresses.FIND)
        before, after = self._reworded(find, coins)
        if after:
            pages.append(find_by_texts(find, before, after))
        whole = tuple(each for each in pages if each is not None)
        if len(whole) < len(pages):
            raise _NotByItself
        desk = self.desk
        theme = find_theme(desk.theme, self.folder, themes_folder(), Place(""))
        press = Press(theme, read_words(theme, desk.language), desk.base)
        touched = [*(each.address for each in whole), *(each.address for each in (*before, *after))]
        made = {each: row for each in touched if (row := made_of(self.made, each)) is not None}
        edition = open_few(self.root, self.reader, self.memory, made, touched)
        if any((each in edition.on_disk) != (each in made) for each in touched):
            raise _NotByItself  # something of the keeper's lies where words are to lie
        revised = Revised(_Tools(press, desk.search, edition), tuple(each.address for each in before))
        revised.print(whole, after, before)
        return revised

    def _reworded(self, find: Page, coins: Iterable[_Coin]) -> tuple[list[DataFile], list[DataFile]]:
        """Give the parts of the words by which coins are found that are other ones now, as they were and are."""
        by_id = {each.id: each for each in coins}
        view = find.body
        if not isinstance(view, FindView) or len(rows_of(view)) != len(view.texts):
            raise _NotByItself
        before, after = [], []
        for rows, texts in zip(rows_of(view), view.texts, strict=True):
            ids = [row[0] if isinstance(row, tuple) and row else "" for row in self.data(rows).rows]
            met = [nth for nth, each in enumerate(ids) if each in by_id]
            if not met:
                continue
            part = now = self.data(texts)
            if len(part.rows) != len(ids):
                raise _NotByItself
            for nth in met:
                coin = by_id[str(ids[nth])]
                other = reword(now, nth, notes_on(coin.page), coin.notes)
                if other is None:
                    raise _NotByItself
                now = other
            if now.address != part.address:
                before.append(part)
                after.append(now)
        return before, after


def take_up_notes(
    folder: Path, reader: str, memory: Path, stamps: Mapping[str, str], last: BuildResult
) -> Renoted | None:
    """Bring an edition up to date with other notes; None where more has changed than those of a few coins.

    The stamps are those of the coins' files now. All else has to be as it was when the desk was laid, and the
    edition as it was left then, with the result given. Raise CannotContinue as ``site.build`` does.
    """
    desk = read_desk(memory.with_suffix(DESK))
    if desk is None or desk.search.fingerprint != sought_last(memory):
        return None
    if desk.stamps.keys() != stamps.keys() or not desk.typed.keys() >= stamps.keys():
        return None
    touched = {path for path, stamp in stamps.items() if not stamp or stamp != desk.stamps[path]}
    if len(touched) > MOST or desk.times >= MOST_TIMES or tells_of(touched, last.problems):
        return None
    edition = _Edition(folder, reader, last.output, memory, desk)
    try:
        read = {path: edition.renoted(path) for path in sorted(touched)}
        coins = [coin for _, coin in read.values() if coin is not None]
        revised = edition.revised(coins) if coins else None
    except (_NotByItself, ThemeMistake):
        return None
    if revised is None:
        return Renoted(last, desk, ())
    if not revised.tells_nothing_private():
        return None
    written = revised.parts.edition.revise(revised.marks, revised.files, revised.gone)
    add_slips(memory.with_suffix(SLIPS), map(repr, revised.pages))
    typed = {path: (desk.typed[path][0], now) for path, (now, _) in read.items()}
    pages = sum(each.address in written for each in revised.pages)
    result = replace(last, pages_written=pages, removed=revised.gone)
    desk = replace(desk, typed={**desk.typed, **typed}, times=desk.times + 1)
    return Renoted(result, desk, (*revised.files, *revised.gone))
