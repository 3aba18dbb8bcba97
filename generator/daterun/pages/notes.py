"""The notes of coins and essays with where their links lead, for the press to make into HTML."""

from daterun.pages import addresses
from daterun.pages.cabinet import Cabinet
from daterun.pages.pieces import Note, NoteLink, SideView
from daterun.pages.sides import Sides
from daterun.pages.standing import Standing
from daterun.pages.wording import name_coin, say_date, say_grade_line
from daterun.pages.words import Words
from daterun.problems import Misread
from daterun.records.coins import CoinKind
from daterun.records.links import Link as WrittenLink
from daterun.records.links import Plate, find_links
from daterun.records.series import Series, Side
from daterun.records.shown import words_of
from daterun.trade.dates import CoinDate, parse_coin_date


class Notes:
    """Finds where the links in notes lead."""

    def __init__(self, cabinet: Cabinet, sides: Sides, words: Words) -> None:
        self.cabinet = cabinet
        self.sides = sides
        self.words = words

    def note(self, markdown: str) -> Note | None:
        """Make a note of a text; None where there is nothing in it but space."""
        if not markdown.strip():
            return None
        links: dict[str, NoteLink] = {}
        for placed in find_links(markdown, "", 1):
            if placed.text not in links:
                links[placed.text] = self._resolve(placed.link, placed.text)
        return Note(markdown, tuple(links.values()))

    def _resolve(self, link: WrittenLink, written: str) -> NoteLink:
        if link.is_coin:
            standing = self.cabinet.by_id.get(link.coin)
            if standing is None:  # one that this reader does not see: its words alone
                return NoteLink(written, words_of(link), "", False, (), "")
            return self._to_coin(link, written, standing)
        return self._to_date(link, written)

    def _to_coin(self, link: WrittenLink, written: str, standing: Standing) -> NoteLink:
        name = name_coin(standing, self.words)
        address = addresses.of_coin(standing.coin.id)
        if link.plate is None:
            return NoteLink(written, link.label or name, address, False, (self.sides.telling(standing),), "")
        caption = link.label or f"{name}. {self._caption(standing)}"
        return NoteLink(written, name, address, True, self._plate(link.plate, standing), caption)

    def _plate(self, plate: Plate, standing: Standing) -> tuple[SideView, ...]:
        match plate:
            case Plate.BOTH:
                return (self.sides.side(standing, Side.OBVERSE), self.sides.side(standing, Side.REVERSE))
            case Plate.OBVERSE:
                return (self.sides.side(standing, Side.OBVERSE),)
            case Plate.REVERSE:
                return (self.sides.side(standing, Side.REVERSE),)

    def _caption(self, standing: Standing) -> str:
        parts = [say_grade_line(standing.coin, self.words)]
        parts += [
            each.reading
            for each in standing.place.varieties
            if each.reading and "variety" in standing.divided
        ]
        caption = ", ".join(parts)
        return f"{caption[:1].upper()}{caption[1:]}."

    def _to_date(self, link: WrittenLink, written: str) -> NoteLink:
        series = self.cabinet.catalogue.find_series(link.series)
        if series is None:
            return NoteLink(written, link.label or f"{link.series} {link.date}", "", False, (), "")
        try:
            date = parse_coin_date(link.date, series.labels)
        except Misread:
            return NoteLink(written, link.label or f"{series.name} {link.date}", "", False, (), "")
        name = self.words.say("coin.name", series=series.name, date=say_date(date, self.words))
        if series.issue(date.key) is None:
            return NoteLink(written, link.label or name, "", False, (), "")
        held = self._held(series, date)
        sides = (self.sides.telling(held),) if held is not None else ()
        return NoteLink(written, link.label or name, addresses.of_date(date), False, sides, "")

    def _held(self, series: Series, date: CoinDate) -> Standing | None:
        """Choose the coin that shows a date: the one that fills its slot, else the best regular one held."""
        filled = self.cabinet.state(series, date)
        if filled is not None and filled.coin:
            return self.cabinet.by_id[filled.coin]
        return self.cabinet.best(
            each
            for each in self.cabinet.of_date(series, date)
            if each.coin.is_held and each.coin.kind is CoinKind.REGULAR
        )
