"""From which files each page, picture and other file of an edition is made.

A file is named where a change of it changes what is made, or may. What a page shows tells of most of them; what
is counted there without being shown follows from what the page is about.
"""

import re
from collections.abc import Iterable
from dataclasses import dataclass, field
from urllib.parse import unquote

from daterun.pages import addresses
from daterun.pages.findviews import DataFile
from daterun.pages.leads import leads_of
from daterun.pages.pictures import PictureOrder
from daterun.pages.plan import Plan
from daterun.pages.plates import PlateOrder
from daterun.pages.subjects import WHOLE, Subject, subjects_of
from daterun.pages.tags import web_of
from daterun.pages.tagviews import Announcements
from daterun.pages.views import Page
from daterun.press.included import NOTES, templates_of
from daterun.press.plates import LETTERS
from daterun.press.theme import Theme
from daterun.press.words import words_files
from daterun.problems import Misread
from daterun.readers.reader import Reader
from daterun.records.links import find_links
from daterun.sourcefiles import SETTINGS, Part, SourceFiles, Sources
from daterun.trade.dates import parse_coin_date

_LATER_PART = re.compile(r"(?<=/)page-\d+\.html$")


@dataclass(slots=True)
class _Found:
    """What is found of one thing, by the ids and names of records; photos, own, templates and assets by paths."""

    own: set[str] = field(default_factory=set)
    photos: set[str] = field(default_factory=set)
    coins: set[str] = field(default_factory=set)
    counted: set[str] = field(default_factory=set)
    series: set[str] = field(default_factory=set)
    issuers: set[str] = field(default_factory=set)
    essays: set[str] = field(default_factory=set)
    lots: set[str] = field(default_factory=set)
    templates: set[str] = field(default_factory=set)
    assets: set[str] = field(default_factory=set)
    has_choice: bool = False


class Origins:
    """Tells what each thing of one planned edition is made from."""

    def __init__(self, files: SourceFiles, plan: Plan, theme: Theme) -> None:
        assert plan.binder is not None, "a plan keeps the binder that it was made with"
        self._cabinet = plan.binder.cabinet
        self._closed = plan.binder.catalogue
        self._web = web_of(plan.binder)
        self._subjects = subjects_of(plan.binder)
        self._files = files
        self._pictures = {each.address: each for each in plan.pictures}
        self._plates = {each.address: each for each in plan.plates}
        self._data = {each.address: each for each in plan.data}
        self._theme = theme
        self._templates: dict[tuple[str, bool], frozenset[str]] = {}
        self._words = frozenset(file.shown for _, file in words_files(theme, self._closed.settings.language))
        self._assets = frozenset(each.shown for each in theme.assets.values())
        self._there = self._lone_files(plan)

    def of_page(self, page: Page) -> Sources:
        found = _Found()
        leads = leads_of(page)
        self._begin(page.address, found)
        for each in leads.addresses:
            self._follow(each, found)
        for each in leads.beside:
            self._pass_by(each, found)
        for note in leads.notes:
            self._read(note.markdown, found)
        found.templates |= self._templates_of(page.template, bool(leads.notes))
        found.assets |= self._assets
        return self._sources(found)

    def of_picture(self, order: PictureOrder) -> Sources:
        found = _Found()
        self._show(order.photo, found)
        files = {
            Part.PHOTO: frozenset(found.photos),
            Part.SHOWN: frozenset(self._files.coins[each].path for each in found.coins),
            Part.SETTINGS: frozenset((SETTINGS,)),
        }
        return Sources(files)

    def of_plate(self, order: PlateOrder) -> Sources:
        found = _Found()
        self._follow(order.address, found)
        if LETTERS in self._theme.assets:
            found.assets.add(self._theme.assets[LETTERS].shown)
        return self._sources(found)

    def of_data(self, file: DataFile) -> Sources:
        """Tell what data for scripts are made from: all coins held, for each has its place among the others."""
        found = _Found()
        self._count_all(found)
        self._follow(file.address, found)
        return self._sources(found)

    def of_announcements(self, told: Announcements) -> Sources:
        """Tell what the feed and the site map are made from."""
        found = _Found(essays=set(self._files.essays))
        self._count_all(found)
        for each in told.arrivals:
            self._follow(each.picture, found)
        return self._sources(found)

    def of_asset(self, name: str) -> Sources:
        """Tell what an asset is made from: it is copied, to an address that tells what all assets hold."""
        own = frozenset((self._theme.assets[name].shown,))
        return Sources({Part.OWN: own, Part.ASSET: self._assets - own})

    def _begin(self, address: str, found: _Found) -> None:
        """Gather the record that a page is about, and what is counted on it."""
        subject = self._subjects.get(_LATER_PART.sub("index.html", address), WHOLE)
        if subject.is_whole and address != addresses.ESSAYS:
            self._count_all(found)
        elif subject.is_whole:
            for each in self._closed.essays:
                self._read(each.text, found)
        found.counted |= subject.counted
        found.coins |= subject.coins
        found.series |= subject.series
        found.has_choice = not subject.coin
        if subject.coin:
            found.own |= {self._files.coins[subject.coin].path, *self._files.of_coin.get(subject.coin, ())}
            self._price((subject.coin,), found)
        elif address.startswith("figures/"):
            self._price((each.id for each in self._closed.coins if each.series in subject.counted), found)
        elif subject.essay:
            found.own.add(self._files.essays[subject.essay])
        elif subject.issuer:
            found.own.add(self._files.issuers[subject.issuer])
        elif subject.series and subject.series == subject.counted:
            found.own |= {self._files.series[each] for each in subject.series}

    def _price(self, coins: Iterable[str], found: _Found) -> None:
        """Add the lots in which coins were bought, and the pieces that share their price, where that is told."""
        if self._closed.reader is Reader.KEEPER:
            lots = {self._files.coins[each].lot for each in coins} - {""}
            found.lots |= lots
            found.coins |= {each.id for each in self._files.coins.values() if each.lot in lots}

    def _count_all(self, found: _Found) -> None:
        found.counted |= self._files.series.keys()
        found.issuers |= self._files.issuers.keys()
        if self._closed.reader is Reader.KEEPER:
            found.lots |= self._files.lots.keys()

    def _follow(self, address: str, found: _Found) -> None:
        """Add what stands behind an address that a page shows or leads to."""
        if self._web and address.startswith(self._web):
            address = unquote(address.removeprefix(self._web))
        if (subject := self._subjects.get(address)) is not None:
            self._name(subject, found)
        elif (picture := self._pictures.get(address)) is not None:
            self._show(picture.photo, found)
        elif (plate := self._plates.get(address)) is not None:
            for side in plate.sides:
                self._follow(side.address, found)
        elif (data := self._data.get(address)) is not None:
            for shown in _pictures_in(data.rows):
                self._follow(shown, found)

    def _name(self, subject: Subject, found: _Found) -> None:
        """Add the record by which a link to a page has its name."""
        if subject.coin:
            found.coins.add(subject.coin)
        elif subject.essay:
            found.essays.add(subject.essay)
        elif subject.issuer:
            found.issuers.add(subject.issuer)
        elif subject.series == subject.counted:
            found.series |= subject.series

    def _pass_by(self, address: str, found: _Found) -> None:
        """Add the record of a page that stands beside, and the only one for which there is such a page."""
        subject = self._subjects.get(address)
        if subject is None:
            return
        self._name(subject, found)
        if len(subject.coins) + len(subject.series) == 1:
            found.coins |= subject.coins
            found.series |= subject.series
        found.series |= subject.counted if len(subject.counted) == 1 else frozenset()

    def _show(self, key: str, found: _Found) -> None:
        """Add the files of a photo, and the coins it is of, which may say where in it they lie."""
        for coin_id, path in self._files.of_key.get(key, ()):
            found.photos.add(path)
            if self._closed.coin(coin_id) is not None:
                found.coins.add(coin_id)

    def _read(self, text: str, found: _Found) -> None:
        """Add what the links of a text lead to; a coin that the reader may not see has words there too."""
        for each in find_links(text, "", 1):
            if each.link.is_coin:
                found.coins |= {each.link.coin} & self._files.coins.keys()
            elif (series := self._closed.find_series(each.link.series)) is not None:
                found.series.add(series.key)
                try:
                    date = parse_coin_date(each.link.date, series.labels)
                except Misread:
                    continue
                for one in self._cabinet.of_date(series, date):
                    found.coins.add(one.coin.id)
                    found.photos |= self._files.of_coin.get(one.coin.id, set())

    def _templates_of(self, template: str, has_notes: bool) -> frozenset[str]:
        key = (template, has_notes)
        if key not in self._templates:
            names = [f"{template}.html.j2", *([NOTES] if has_notes else [])]
            self._templates[key] = frozenset(
                self._theme.templates[each].shown for each in templates_of(self._theme, names)
            )
        return self._templates[key]

    def _lone_files(self, plan: Plan) -> frozenset[str]:
        """Find the files but for which every page would lack a link, or the names of realms beside others."""
        assert plan.binder is not None
        found: set[str] = set()
        if len(self._closed.essays) == 1:
            found |= set(self._files.essays.values())
        if len(self._files.series) == 1:
            found |= set(self._files.series.values())
        told = plan.announcements
        if told is not None and len(told.arrivals) == 1:
            coin = next(
                each for each in self._cabinet.coins if each.coin.added is not None and each.coin.is_held
            )
            found.add(self._files.coins[coin.coin.id].path)
        realms = [each.id for each in plan.binder.issuers]
        if len(realms) == 2:
            found |= {self._files.issuers[each] for each in realms if each in self._files.issuers}
            for each in realms:
                own = [key for key, series in self._closed.series.items() if series.issuer == each]
                found |= {self._files.series[own[0]]} if len(own) == 1 else set()
        return frozenset(found)

    def _sources(self, found: _Found) -> Sources:
        """Add what follows: the series of each coin, the realm of each series, the settings and the words."""
        shown = [each for each in map(self._closed.coin, found.coins) if each is not None]
        series = found.series | found.counted | {each.series for each in shown}
        issuers = found.issuers | {self._closed.series[each].issuer for each in series}
        files: dict[Part, Iterable[str]] = {
            Part.OWN: found.own,
            Part.PHOTO: found.photos,
            Part.SHOWN: (self._files.coins[each].path for each in found.coins),
            Part.SERIES: (self._files.series[each] for each in series),
            Part.ISSUER: (self._files.issuers[each] for each in issuers if each in self._files.issuers),
            Part.ESSAY: (self._files.essays[each] for each in found.essays),
            Part.LOT: (self._files.lots[each] for each in found.lots if each in self._files.lots),
            Part.SETTINGS: (SETTINGS,),
            Part.THERE: self._there,
            Part.TEMPLATE: found.templates,
            Part.WORDS: self._words,
            Part.ASSET: found.assets,
        }
        return Sources(
            {part: frozenset(paths) for part, paths in files.items()},
            frozenset(found.counted),
            found.has_choice,
        )


def _pictures_in(row: object) -> Iterable[str]:
    """Find the addresses of pictures in rows of data."""
    if isinstance(row, str):
        if row.startswith("pictures/"):
            yield row
    elif isinstance(row, tuple):
        for each in row:
            yield from _pictures_in(each)
