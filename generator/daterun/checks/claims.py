"""Which photo shows which side of which coin: the one its file names, else the one named after it."""

from collections.abc import Sequence

from daterun.photos.named import claim
from daterun.records.catalogue import Catalogue
from daterun.records.series import Side

PHOTOS = "content/photos/"


def claimed_photos(catalogue: Catalogue, files: Sequence[str]) -> dict[tuple[str, Side], str]:
    """Give each side of each coin its photo, as a path relative to the catalogue folder.

    A side whose file names a photo that is not there has none. Of several named after one side the first in
    the order of their names is taken.
    """
    claimed = {key: min(paths) for key, paths in claims_by_name(catalogue, files).items()}
    there = set(files)
    for coin in catalogue.coins:
        for side, named in coin.photos.items():
            if not named.file:
                continue
            claimed.pop((coin.id, side), None)
            if PHOTOS + named.file in there:
                claimed[coin.id, side] = PHOTOS + named.file
    return claimed


def claims_by_name(catalogue: Catalogue, files: Sequence[str]) -> dict[tuple[str, Side], list[str]]:
    """Find the photos named after each side of each coin."""
    found = claim(files, [each.id for each in catalogue.coins])
    return {(coin_id, Side(side)): paths for (coin_id, side), paths in found.items() if paths}
