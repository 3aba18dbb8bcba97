"""The notes of coins and essays with where their links lead, for the press to make into HTML."""

from daterun.naming import listed
from daterun.pages import addresses
from daterun.pages.cabinet import Cabinet, Standing
from daterun.pages.sides import Sides
from daterun.pages.views import Note, NoteLink, SideView
from daterun.pages.wording import name_coin, say_grade_line
from daterun.pages.words import Words
from daterun.records.links import Link as WrittenLink
from daterun.records.links import Plate, find_links
from daterun.records.series import Side


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
                return NoteLink(written, link.label or link.coin, "", False, (), "")
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
            if each.reading and len(standing.series.varieties_of(standing.coin.date)) > 1
        ]
        return listed(parts, self.words.say("and")) + "."

    def _to_date(self, link: WrittenLink, written: str) -> NoteLink:
        series = self.cabinet.catalogue.find_series(link.series)
        key = link.date.replace("–", "-").replace("/", "-")
        issue = series.issue(key) if series is not None else None
        text = link.label or (f"{series.name} {link.date}" if series is not None else link.date)
        if series is None or issue is None:
            return NoteLink(written, text, "", False, (), "")
        filled = [each for each in self.cabinet.runs.get(series.key, ()) if each.slot.date.key == key]
        held = next((self.cabinet.by_id[each.coin] for each in filled if each.coin), None)
        sides = (self.sides.telling(held),) if held is not None else ()
        return NoteLink(written, text, addresses.of_date(issue.date), False, sides, "")
