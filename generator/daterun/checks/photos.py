"""What can be wrong with the photos of coins, told from facts that were found before."""

from collections.abc import Iterator
from dataclasses import dataclass, field

from daterun.photos.photo import Photo
from daterun.problems import Problem
from daterun.records.catalogue import Catalogue


@dataclass(frozen=True, slots=True)
class PhotoFacts:
    """The files under ``content/photos``, by path relative to the catalogue folder, and what each was found to be."""

    files: tuple[str, ...]
    examined: dict[str, Photo] = field(hash=False)


def check_photos(catalogue: Catalogue, photos: PhotoFacts) -> Iterator[Problem]:
    yield from ()
