"""The binder: what the planner of every page needs at hand, passed on as one value."""

from collections.abc import Sequence
from dataclasses import dataclass

from daterun.pages import addresses
from daterun.pages.cabinet import Cabinet
from daterun.pages.grids import Grids
from daterun.pages.notes import Notes
from daterun.pages.once import Once
from daterun.pages.pieces import Fact, Link
from daterun.pages.sides import Sides
from daterun.pages.views import Body, Frame, NavigationLink, Page
from daterun.pages.words import Words
from daterun.readers.closed import ClosedCatalogue
from daterun.readers.reader import Reader
from daterun.records.issuers import Issuer


@dataclass(frozen=True, slots=True)
class Binder:
    """The cabinet, the words, and the makers of sides, grids and notes."""

    cabinet: Cabinet
    words: Words
    sides: Sides
    grids: Grids
    notes: Notes

    @property
    def once(self) -> Once:
        return self.sides.once

    @property
    def catalogue(self) -> ClosedCatalogue:
        return self.cabinet.catalogue

    @property
    def issuers(self) -> tuple[Issuer, ...]:
        """The issuers that have denominations, in the order of their denominations."""
        return self.once.of(
            "issuers",
            lambda: tuple({each.issuer.id: each.issuer for each in self.cabinet.denominations}.values()),
        )

    def cell(self, text: str) -> Link:
        """Make a cell of a table that leads nowhere; cells alike are one, for most of a long table are."""
        return self.once.of(("cell", text), lambda: Link(text))

    def fact(self, name: str, value: str, remark: str = "") -> Fact:
        """Make a row of a record; rows alike are one, for many coins are of one grade."""
        return self.once.of(("fact", name, value, remark), lambda: Fact(name, value, remark))

    def of_issuer(self, name: str, issuer_id: str) -> str:
        """Add the issuer to a name where there are several, for each may have a denomination so called."""
        if len(self.issuers) < 2:
            return name
        issuer = self.catalogue.issuers.get(issuer_id)
        return f"{name}, {issuer.name if issuer is not None else issuer_id}"

    def page(
        self,
        address: str,
        template: str,
        body: Body,
        description: str = "",
        trail: Sequence[Link] = (),
    ) -> Page:
        """Put a page's view into the frame that stands round every page."""
        settings = self.catalogue.settings
        reader = self.catalogue.reader
        room = address if address == addresses.HOME else address.split("/")[0]
        home = () if address == addresses.HOME else self.once.of("way home", self._way_home)
        frame = Frame(
            site_title=settings.title,
            title=body.heading,
            description=description or settings.summary,
            language=settings.language,
            navigation=self.once.of(("navigation", room), lambda: self._navigation(address)),
            trail=self.once.of(("trail", home, tuple(trail)), lambda: (*home, *trail)),
            notice="" if reader is Reader.PUBLIC else self.words.say(f"notice.{reader.value}"),
            keeps_robots_out=reader is Reader.KEEPER,
            foot=self.once.of("foot", self._foot),
        )
        return Page(address, template, frame, body)

    def _way_home(self) -> tuple[Link, ...]:
        return (Link(self.words.say("nav.home"), addresses.HOME),)

    def _navigation(self, address: str) -> tuple[NavigationLink, ...]:
        rooms = [
            ("nav.grid", addresses.HOME),
            ("nav.monarchs", addresses.MONARCHS),
            ("nav.denominations", addresses.DENOMINATIONS),
            ("nav.dates", addresses.DATES),
            ("nav.coins", addresses.COINS),
            ("nav.find", addresses.FIND),
        ]
        if self.catalogue.settings.aims:
            rooms.append(("nav.aims", addresses.AIMS))
        if self.catalogue.essays:
            rooms.append(("nav.essays", addresses.ESSAYS))
        if self.cabinet.denominations:
            rooms.append(("nav.figures", addresses.FIGURES))
        return tuple(
            NavigationLink(
                Link(self.words.say(key), target),
                address == target
                or (target != addresses.HOME and address.split("/")[0] == target.split("/")[0]),
            )
            for key, target in rooms
        )

    def _foot(self) -> tuple[Link, ...]:
        settings = self.catalogue.settings
        lines = []
        if settings.keeper:
            lines.append(Link(self.words.say("foot.keeper", keeper=settings.keeper)))
        lines.append(Link(self.words.say("foot.caution")))
        return tuple(lines)
