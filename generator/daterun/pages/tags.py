"""What a page says of itself to other programs: where it lies, what to show of it, and its coin as linked data.

There is none of it where the catalogue names no web address, nor in an edition that is not for the public, for
the address is the public one's.
"""

import json
from collections.abc import Iterable, Iterator
from dataclasses import replace
from urllib.parse import quote

from daterun.pages import addresses
from daterun.pages.binder import Binder
from daterun.pages.cabinet import Standing
from daterun.pages.measured import diameter_hundredths
from daterun.pages.plates import HEIGHT_PX, WIDTH_PX, plate_of
from daterun.pages.tagviews import Announcements, Arrival, SocialPicture, Tags
from daterun.pages.views import Body, CoinView, DenominationView, EssayView, HomeView, MonarchView, Page
from daterun.pages.wording import say_grade_line
from daterun.readers.reader import Reader
from daterun.records.coins import CoinKind

MOST_ARRIVALS = 30

_ENCODER = json.JSONEncoder(ensure_ascii=False, sort_keys=True)

_SAFE = "/-._~!$&'()*+,;=@"


def web_of(binder: Binder) -> str:
    """Tell where the public edition lies, with a slash at its end; "" where nothing is to be said of it."""
    settings = binder.catalogue.settings
    if not settings.web or binder.catalogue.reader is not Reader.PUBLIC:
        return ""
    return settings.web.rstrip("/") + "/"


def url_of(web: str, address: str) -> str:
    """Word an address of the site as a whole one; a page that is the index of its folder goes by the folder."""
    return web + quote(address.removesuffix("index.html"), safe=_SAFE)


def tag_pages(binder: Binder, pages: Iterable[Page]) -> list[Page]:
    """Put into each page's frame what it says of itself; the page for lost addresses says nothing."""
    web = web_of(binder)
    if not web:
        return list(pages)
    has_feed = any(each.coin.added is not None and each.coin.is_held for each in binder.cabinet.coins)
    feed = addresses.FEED if has_feed else ""
    return [
        _tagged(binder, web, each, feed) if each.address != addresses.NOT_FOUND else each for each in pages
    ]


def announce(binder: Binder, pages: Iterable[Page]) -> Announcements | None:
    """Gather what the edition tells of itself, its pages tagged; None where it tells nothing."""
    web = web_of(binder)
    if not web:
        return None
    settings = binder.catalogue.settings
    return Announcements(
        settings.title,
        settings.summary,
        settings.keeper or settings.title,
        settings.language,
        web,
        _arrivals(binder, web),
        tuple(each.frame.tags.canonical for each in pages if each.frame.tags is not None),
    )


def _tagged(binder: Binder, web: str, page: Page, feed: str) -> Page:
    standing = binder.cabinet.by_id.get(page.body.id) if isinstance(page.body, CoinView) else None
    url = url_of(web, page.address)
    pictures = (_picture_of(binder, web, each) for each in _shown_by(binder, page.body))
    picture = next((each for each in pictures if each is not None), None)
    linked = _linked_data(binder, standing, url, picture) if standing is not None else ""
    kind = "article" if standing is not None or page.address.startswith("essays/") else "website"
    tags = Tags(url, kind, feed, picture, linked)
    return Page(page.address, page.template, replace(page.frame, tags=tags), page.body)


def _shown_by(binder: Binder, body: Body) -> Iterator[Standing]:
    """List the coins by which a page may be shown elsewhere, the first choice first."""
    match body:
        case CoinView():
            found = [addresses.of_coin(body.id)]
        case HomeView():
            found = [each.link.address for each in body.latest]
        case MonarchView():
            found = [each.link.address for each in (*body.portraits, *body.coins)]
        case DenominationView():
            slots = [
                slot
                for grid in body.grids
                for row in grid.rows
                for cell in row.cells
                for slot in cell.slots
                if slot.picture is not None
            ]
            found = [each.address for each in sorted(slots, key=lambda each: -each.rank)]
        case EssayView():
            found = [each.address for each in body.text.links]
        case _:
            found = []
    for address in found:
        coin = address.removeprefix("coins/").removesuffix("/index.html")
        if address == addresses.of_coin(coin) and coin in binder.cabinet.by_id:
            yield binder.cabinet.by_id[coin]


def _picture_of(binder: Binder, web: str, standing: Standing) -> SocialPicture | None:
    """Choose what shows a coin elsewhere: its plate, else the side that tells most; None without a photo."""
    if (plate := plate_of(binder, standing)) is not None:
        return SocialPicture(web + plate.address, WIDTH_PX, HEIGHT_PX, plate.caption)
    picture = binder.sides.telling(standing).picture
    if picture is None:
        return None
    shown = picture.largest
    return SocialPicture(web + shown.address, shown.width_px, shown.height_px, picture.text)


def _linked_data(binder: Binder, standing: Standing, url: str, picture: SocialPicture | None) -> str:
    """Word a coin as JSON-LD in the terms of schema.org, its context within, so that nothing need be fetched."""
    coin, standard = standing.coin, standing.place.standard
    regular = coin.kind is CoinKind.REGULAR
    metal = binder.words.say(f"metal.{standard.metal.name.replace(' ', '-')}") if standard and regular else ""
    diameter = diameter_hundredths(standing)
    said: dict[str, object] = {
        "@context": {"@vocab": "https://schema.org/"},
        "@id": url,
        "@type": "VisualArtwork",
        "artform": binder.words.say("tags.coin"),
        "name": binder.sides.name(standing),
        "url": url,
        "isPartOf": {
            "@type": "Collection",
            "name": binder.catalogue.settings.title,
            "url": web_of(binder),
        },
    }
    if coin.date.year is not None:
        said["dateCreated"] = f"{coin.date.year:04}"
    if metal:
        said["artMedium"] = metal
    if diameter:
        said["width"] = {"@type": "QuantitativeValue", "value": diameter / 100, "unitCode": "MMT"}
    if coin.weight is not None:
        said["weight"] = {
            "@type": "QuantitativeValue",
            "value": float(coin.weight.grams),
            "unitCode": "GRM",
        }
    if picture is not None:
        said["image"] = _image(picture)
    return _ENCODER.encode(said)


def _image(picture: SocialPicture) -> dict[str, object]:
    return {
        "@type": "ImageObject",
        "contentUrl": picture.url,
        "width": picture.width_px,
        "height": picture.height_px,
    }


def exchange_picture(tags: Tags, after: SocialPicture) -> Tags:
    """Show a page by another picture elsewhere, and its coin in the linked data."""
    assert tags.picture is not None, "there is another to exchange"
    before, other = (_ENCODER.encode(_image(each)) for each in (tags.picture, after))
    return replace(tags, picture=after, linked_data=tags.linked_data.replace(before, other))


def _arrivals(binder: Binder, web: str) -> tuple[Arrival, ...]:
    """List the coins held that entered the catalogue last, newest first; those with no day are left out."""
    dated = [
        (each.coin.added.last, each.coin.id, each)
        for each in binder.cabinet.coins
        if each.coin.added is not None and each.coin.is_held
    ]
    dated.sort(key=lambda each: (each[0], each[1]), reverse=True)
    found = []
    for day, coin_id, standing in dated[:MOST_ARRIVALS]:
        picture = _picture_of(binder, web, standing)
        found.append(
            Arrival(
                binder.sides.name(standing),
                url_of(web, addresses.of_coin(coin_id)),
                day.isoformat(),
                say_grade_line(standing.coin, binder.words),
                picture.url if picture is not None else "",
            )
        )
    return tuple(found)
