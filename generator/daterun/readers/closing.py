"""A catalogue closed for one reader: records in, closed records out, by the table of who may see what."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import TypeVar

from daterun.photos.photo import Disc, Photo
from daterun.readers.closed import (
    ClosedAim,
    ClosedCatalogue,
    ClosedCertificate,
    ClosedCoin,
    ClosedEssay,
    ClosedGrade,
    ClosedGravity,
    ClosedMetalPrice,
    ClosedOwner,
    ClosedPhoto,
    ClosedSettings,
    ClosedWant,
    KeeperFields,
)
from daterun.readers.reader import Reader
from daterun.readers.table import Access, is_turned_on, may_see
from daterun.records.aims import Aim
from daterun.records.catalogue import Catalogue
from daterun.records.coins import Coin, Gravity
from daterun.records.essays import Essay
from daterun.records.lots import Lot
from daterun.records.opinions import Certificate
from daterun.records.series import Series, Side
from daterun.records.settings import Permissions, Settings
from daterun.trade.dates import Day
from daterun.trade.money import Money

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class _Sight:
    """What one reader may see, with what the keeper has turned on."""

    reader: Reader
    readers: Mapping[str, Permissions]

    def whole(self, record: object, name: str) -> bool:
        return may_see(self.reader, type(record), name, self.readers)

    def of(self, record: object, name: str, otherwise: T) -> T:
        """Give the value of a field where the reader may see all of it, else what stands in its place."""
        value: T = getattr(record, name) if self.whole(record, name) else otherwise
        return value


def close_catalogue(
    catalogue: Catalogue, photos: Mapping[tuple[str, Side], Photo], reader: Reader
) -> ClosedCatalogue:
    """Close a catalogue for a reader; the photos go by coin id and side.

    Coins that were parted with are there only for the keeper. A coin of no known series is in no edition, and
    a photo with a fault is no photo: both are problems that stop a build.
    """
    sight = _Sight(reader, catalogue.settings.readers)
    costs = costs_of(catalogue) if sight.whole(catalogue, "lots") else {}
    coins = tuple(
        _close_coin(coin, series, photos, costs.get(coin.id), sight)
        for coin in catalogue.coins
        if (series := catalogue.find_series(coin.series)) is not None
        and (coin.is_held or sight.whole(coin, "parted"))
    )
    essays = tuple(_close_essay(each, sight) for each in catalogue.essays)
    lots = catalogue.lots if sight.whole(catalogue, "lots") else {}
    days = _days(catalogue.settings, coins, essays, lots)
    settings = _close_settings(catalogue.settings, sight, days)
    return ClosedCatalogue(reader, settings, catalogue.issuers, catalogue.series, coins, essays, lots)


def _close_coin(
    coin: Coin,
    series: Series,
    photos: Mapping[tuple[str, Side], Photo],
    cost: Money | None,
    sight: _Sight,
) -> ClosedCoin:
    certificate = coin.sealed_certificate
    own = coin.newest_own_grade if certificate is None else None
    shown = coin.certificates if sight.whole(coin, "certificates") else (certificate,)
    in_force = certificate or own
    return ClosedCoin(
        id=coin.id,
        series=series.key,
        date=coin.date,
        varieties=sight.of(coin, "varieties", ()),
        mint=sight.of(coin, "mint", None),
        type=sight.of(coin, "type", None),
        standard=sight.of(coin, "standard", None),
        strike=coin.strike,
        kind=coin.kind,
        departs=sight.of(coin, "departs", ""),
        struck_in=sight.of(coin, "struck_in", ""),
        grade=in_force.grade if in_force else None,
        graded_by=certificate.by if certificate else "",
        graded_on=in_force.on if in_force else None,
        grade_reasons=sight.of(own, "reasons", "") if own else "",
        problems=_problems(coin),
        is_problem=coin.is_problem,
        certificate_number=sight.of(certificate, "number", "") if certificate else "",
        certificates=tuple(_close_certificate(each, sight) for each in shown if each is not None),
        own_grades=tuple(
            ClosedGrade(each.grade, each.on, each.reasons)
            for each in (coin.own_grades if sight.whole(coin, "own_grades") else ())
        ),
        weight=sight.of(coin, "weight", None),
        diameter=sight.of(coin, "diameter", None),
        thickness=sight.of(coin, "thickness", None),
        axis=sight.of(coin, "axis", None),
        gravity=_close_gravity(sight.of(coin, "gravity", None)),
        design=sight.of(coin, "design", ""),
        references=sight.of(coin, "references", ()),
        added=sight.of(coin, "added", None),
        provenance=tuple(
            ClosedOwner(each.owner, each.since, each.until, each.sale, each.lot, each.note, each.publish)
            for each in coin.provenance
            if each.publish or sight.whole(coin, "provenance")
        ),
        notes=sight.of(coin, "notes", ""),
        photos=_close_photos(coin, photos),
        private=_private(coin, photos, cost) if sight.reader is Reader.KEEPER else None,
    )


def _problems(coin: Coin) -> tuple[str, ...]:
    """List why it is a problem coin, each reason once: the keeper's, the certificate's, the grade's own."""
    certificate, grade = coin.sealed_certificate, coin.grade
    found = [*coin.problems, *(certificate.problem if certificate else ())]
    if grade is not None and grade.details:
        found += [each.strip() for each in grade.reason.split(",") if each.strip()]
    unique: dict[str, str] = {}
    for each in found:
        unique.setdefault(each.casefold(), each)
    return tuple(unique.values())


def _close_certificate(certificate: Certificate, sight: _Sight) -> ClosedCertificate:
    return ClosedCertificate(
        certificate.by,
        certificate.grade,
        sight.of(certificate, "number", ""),
        certificate.on,
        certificate.sealed,
        certificate.problem,
    )


def _close_gravity(gravity: Gravity | None) -> ClosedGravity | None:
    return ClosedGravity(gravity.dry, gravity.wet, gravity.reading) if gravity else None


def _close_photos(coin: Coin, photos: Mapping[tuple[str, Side], Photo]) -> dict[str, ClosedPhoto]:
    closed = {}
    for side in Side:
        photo = photos.get((coin.id, side))
        if photo is None or photo.fault or not photo.key:
            continue
        closed[side.value] = close_photo(coin, side, photo)
    return closed


def close_photo(coin: Coin, side: Side, photo: Photo) -> ClosedPhoto:
    """Close a photo that is sound, cropped as the keeper says."""
    named = coin.photos.get(side)
    crop = named.crop if named else None
    disc, fallback = photo.disc, photo.fallback
    if crop is not None:
        disc, fallback = Disc(float(crop.x), float(crop.y), float(crop.diameter)), ""
    return ClosedPhoto(photo.key, photo.width_px, photo.height_px, disc, fallback)


def _private(coin: Coin, photos: Mapping[tuple[str, Side], Photo], cost: Money | None) -> KeeperFields:
    files = {side.value: photos[coin.id, side].path for side in Side if (coin.id, side) in photos}
    return KeeperFields(
        acquired=coin.acquired,
        parted=coin.parted,
        kept=coin.kept,
        value=coin.value,
        cost=cost,
        note=coin.private,
        lot=coin.lot,
        set=coin.set,
        quantity=coin.quantity,
        photo_files=files,
    )


def costs_of(catalogue: Catalogue) -> dict[str, Money]:
    """Find what each coin cost: its own price, else its part of its lot's."""
    costs: dict[str, Money] = {}
    for lot in catalogue.lots.values():
        together = {each.id: max(1, each.quantity) for each in catalogue.coins if each.lot == lot.id}
        parts = {each: lot.share_of(each, together) for each in together}
        costs.update({each: part for each, part in parts.items() if part is not None})
    for coin in catalogue.coins:
        if coin.acquired is not None and coin.acquired.price is not None:
            costs[coin.id] = coin.acquired.price
    return costs


def _close_essay(essay: Essay, sight: _Sight) -> ClosedEssay:
    return ClosedEssay(
        essay.id,
        essay.title,
        sight.of(essay, "summary", ""),
        sight.of(essay, "on", None),
        essay.order,
        sight.of(essay, "part_of", ""),
        sight.of(essay, "text", ""),
    )


def _close_settings(settings: Settings, sight: _Sight, days: Iterator[Day]) -> ClosedSettings:
    shows_wants = is_turned_on(Access.IF_WANTS, sight.reader, sight.readers)
    return ClosedSettings(
        title=settings.title,
        keeper=sight.of(settings, "keeper", ""),
        summary=sight.of(settings, "summary", ""),
        language=settings.language,
        grading=settings.grading,
        theme=settings.theme,
        web=settings.web,
        currency=sight.of(settings, "currency", ""),
        as_of=settings.as_of or max(days, default=None),
        metals={
            name: ClosedMetalPrice(each.price, each.per, each.on, each.source)
            for name, each in settings.metals.items()
        },
        pictures=settings.pictures,
        shows_wants=shows_wants,
        shows_certificate_numbers=is_turned_on(Access.IF_NUMBERS, sight.reader, sight.readers),
        aims=tuple(_close_aim(each, sight) for each in settings.aims),
        wants=tuple(
            ClosedWant(each.slot, sight.of(each, "at_most", None), sight.of(each, "remark", ""))
            for each in (settings.wants if shows_wants else ())
        ),
    )


def _close_aim(aim: Aim, sight: _Sight) -> ClosedAim:
    reasons = sight.whole(aim, "leave_out")
    return ClosedAim(
        aim.id,
        aim.name,
        aim.series,
        aim.span,
        aim.one_per,
        aim.strikes,
        aim.at_least,
        aim.counts,
        aim.problems,
        aim.kinds,
        {
            series: {slot: reason if reasons else "" for slot, reason in slots.items()}
            for series, slots in aim.leave_out.items()
        },
        aim.across_series,
    )


def _days(
    settings: Settings,
    coins: tuple[ClosedCoin, ...],
    essays: tuple[ClosedEssay, ...],
    lots: Mapping[str, Lot],
) -> Iterator[Day]:
    """List the days on record that the reader may see, so that nothing private leaks through the latest."""
    found: list[Day | None] = [each.on for each in settings.metals.values()]
    found += [each.on for each in essays] + [each.on for each in lots.values()]
    for coin in coins:
        found += [coin.added, coin.graded_on]
        found += [each.on for each in coin.certificates] + [each.on for each in coin.own_grades]
        private = coin.private
        if private is not None:
            found += [each.on for each in (private.acquired, private.parted, private.value) if each]
    return (each for each in found if each is not None)
