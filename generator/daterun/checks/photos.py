"""What can be wrong with the photos of coins, told from facts that were found before."""

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from daterun.checks.claims import PHOTOS, claimed_photos, claims_by_name
from daterun.photos.photo import Photo
from daterun.problems import Place, Problem, Severity, meant
from daterun.records.catalogue import Catalogue
from daterun.records.coins import Coin
from daterun.records.photographed import Crop
from daterun.records.series import Side

_Claims = dict[tuple[str, Side], str]


@dataclass(frozen=True, slots=True)
class PhotoFacts:
    """The files under ``content/photos``, by path from the catalogue folder, and what each was seen to be.

    A file that was not looked at is not among the examined.
    """

    files: tuple[str, ...]
    examined: dict[str, Photo] = field(hash=False)


def check_photos(catalogue: Catalogue, photos: PhotoFacts) -> Iterator[Problem]:
    """Find photos that are missing, broken, claimed by none or more than once, or show no coin."""
    claimed = claimed_photos(catalogue, photos.files)
    coins = {each.id: each for each in catalogue.coins}
    yield from _check_named(catalogue, photos.files)
    yield from _check_names(catalogue, photos.files)
    yield from _check_unclaimed(catalogue, photos.files, claimed)
    yield from _check_once(coins, photos, claimed)
    for (coin_id, side), path in claimed.items():
        photo = photos.examined.get(path)
        if photo is not None:
            yield from check_photo(coins[coin_id], side, photo)


def place_of_photo(coin: Coin, side: Side, path: str) -> Place:
    """Find where a side's photo is named; the photo's own file where its name says it all."""
    named = coin.photos.get(side)
    if named is None or not named.file:
        return Place(path)
    return named.at.place_of("file")


def _check_named(catalogue: Catalogue, files: Sequence[str]) -> Iterator[Problem]:
    there = set(files)
    known = [each.removeprefix(PHOTOS) for each in files]
    for coin in catalogue.coins:
        for named in coin.photos.values():
            if named.file and PHOTOS + named.file not in there:
                hint = meant(named.file, known) or f"it is looked for at {PHOTOS}{named.file}"
                place = named.at.place_of("file")
                yield Problem("missing photo", f'there is no photo "{named.file}"', place, hint)


def _check_names(catalogue: Catalogue, files: Sequence[str]) -> Iterator[Problem]:
    named = {(each.id, side) for each in catalogue.coins for side, photo in each.photos.items() if photo.file}
    for (coin_id, side), paths in claims_by_name(catalogue, files).items():
        if len(paths) > 1 and (coin_id, side) not in named:
            first, *others = sorted(paths)
            yield Problem(
                "two photos",
                f"{len(paths)} photos are named after the {side.value} of {coin_id}",
                Place(first),
                "keep one, or name the right one in the coin's file under photos",
                others=tuple(Place(each) for each in others),
            )


def _check_unclaimed(catalogue: Catalogue, files: Sequence[str], claimed: _Claims) -> Iterator[Problem]:
    """Find photos that no coin shows."""
    shown = set(claimed.values())
    by_name = claims_by_name(catalogue, files)
    rivals = {path: key for key, paths in by_name.items() for path in paths if key in claimed}
    for path in files:
        if path in shown:
            continue
        said = "no coin claims this photo"
        hint = "name it after a coin, as in ort/1899.obverse.jpg, or name it in the coin's file under photos"
        if path in rivals:
            coin_id, side = rivals[path]
            if claimed[coin_id, side] in by_name[coin_id, side]:
                continue
            said = f"this photo is named after the {side.value} of {coin_id}, which names another"
            hint = "take one of the two away"
        yield Problem("unclaimed photo", said, Place(path), hint, Severity.ADVICE)


def _check_once(coins: dict[str, Coin], photos: PhotoFacts, claimed: _Claims) -> Iterator[Problem]:
    """Find one photo, or two of the same bytes, shown more than once."""
    shown: dict[str, list[tuple[str, Side, str]]] = defaultdict(list)
    for (coin_id, side), path in sorted(claimed.items()):
        photo = photos.examined.get(path)
        shown[photo.key if photo is not None and photo.key else path].append((coin_id, side, path))
    for first, *others in shown.values():
        first_id, first_side, first_path = first
        first_place = place_of_photo(coins[first_id], first_side, first_path)
        for coin_id, side, path in others:
            place = place_of_photo(coins[coin_id], side, path)
            if coin_id == first_id:
                rule = "same photo"
                said = f"the {side.value} shows the same photo as the {first_side.value}"
            else:
                rule = "photo used twice"
                said = f"the {side.value} shows the same photo as the {first_side.value} of {first_id}"
            yield Problem(rule, said, place, "look which of the two it shows", others=(first_place,))


def check_photo(coin: Coin, side: Side, photo: Photo) -> Iterator[Problem]:
    """Find what is wrong with the photo of one side by itself."""
    place = place_of_photo(coin, side, photo.path)
    if photo.fault:
        yield Problem("broken photo", f"this photo {photo.fault}", place)
        return
    named = coin.photos.get(side)
    crop = named.crop if named is not None else None
    if crop is not None:
        yield from _check_crop(crop, photo)
    elif photo.disc is None:
        yield Problem(
            "no disc",
            f"the coin was not found in this photo: {photo.fallback}",
            place,
            f"its middle is shown; give photos: {{{side.value}: {{crop: {{x: …, y: …, diameter: …}}}}}}",
            Severity.ADVICE,
        )


def _check_crop(crop: Crop, photo: Photo) -> Iterator[Problem]:
    radius = crop.diameter / 2
    sides = (
        ("left", crop.x - radius < 0),
        ("right", crop.x + radius > photo.width_px),
        ("top", crop.y - radius < 0),
        ("bottom", crop.y + radius > photo.height_px),
    )
    out = [side for side, is_out in sides if is_out]
    if out or crop.diameter == 0:
        over = f"reaches out of the photo at the {out[0]}" if out else "has no size"
        yield Problem(
            "crop",
            f"the crop {over}; the photo is {photo.width_px} by {photo.height_px} pixels",
            crop.at.place_of("diameter"),
            "x and y are the centre of the coin, counted from the upper left corner, the right way up",
        )
