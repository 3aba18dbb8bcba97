"""The files that an edition is made from, by the records that they hold, and the parts that they take."""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum

from daterun.readers.closed import ClosedCatalogue
from daterun.site import Checked

SETTINGS = "content/catalogue.yaml"


class Part(StrEnum):
    """What part a file takes in something that is made, that which tells most first."""

    OWN = "own"
    PHOTO = "photo"
    SHOWN = "shown"
    COUNTED = "counted"
    CHOICE = "choice"
    SERIES = "series"
    ISSUER = "issuer"
    ESSAY = "essay"
    LOT = "lot"
    SETTINGS = "settings"
    THERE = "there"
    TEMPLATE = "template"
    WORDS = "words"
    ASSET = "asset"


@dataclass(frozen=True, slots=True)
class Sources:
    """The files that one thing is made from, as paths by the part that they take.

    Of the series that are counted, by their whole names, every coin that the reader may see is a source, and
    where there is a choice of what shows them, all their photos. Files that are there show nothing of themselves,
    but every page would be another without them: the only essay makes the link to the essays.
    """

    files: Mapping[Part, frozenset[str]]
    counted: frozenset[str] = frozenset()
    has_choice: bool = False


class SourceFiles:
    """The paths of all records by their ids and whole names, of photos by key and by coin.

    All coins are there, those too that the reader of the closed catalogue may not see.
    """

    def __init__(self, checked: Checked, closed: ClosedCatalogue) -> None:
        catalogue = checked.catalogue
        self._closed = closed
        self.coins = {each.id: each for each in catalogue.coins}
        self.series = {key: each.at.place.path for key, each in catalogue.series.items()}
        self.issuers = {key: each.at.place.path for key, each in catalogue.issuers.items()}
        self.lots = {key: each.at.place.path for key, each in catalogue.lots.items()}
        self.essays = {each.id: each.path for each in catalogue.essays}
        self.of_key: dict[str, list[tuple[str, str]]] = {}
        self.of_coin: dict[str, set[str]] = {}
        self._shown_by: dict[str, set[str]] = {}
        for (coin_id, _), photo in checked.photos.items():
            self.of_key.setdefault(photo.key, []).append((coin_id, photo.path))
            self.of_coin.setdefault(coin_id, set()).add(photo.path)
            self._shown_by.setdefault(photo.path, set()).add(coin_id)
        self._ids = {each.path: each.id for each in catalogue.coins}

    def all_paths(self) -> list[str]:
        """List the paths of the settings, of all records and of all photos that a coin claims."""
        records = (self.series, self.issuers, self.lots, self.essays)
        return [
            SETTINGS,
            *self._ids,
            *(path for each in records for path in each.values()),
            *self._shown_by,
        ]

    def coins_of(self, path: str) -> frozenset[str]:
        """Name the coin of a file, or the coins of a photo; none for any other file."""
        own = {self._ids[path]} if path in self._ids else set()
        return frozenset(own | self._shown_by.get(path, set()))

    def listed(self, sources: Sources) -> dict[Part, tuple[str, ...]]:
        """List all files by their parts, each once, under that which tells most."""
        told: set[str] = set()
        lists = {}
        for part in Part:
            files = set(sources.files.get(part, ()))
            if part is Part.COUNTED:
                files |= {self.coins[each].path for each in self._counted(sources)}
            if part is Part.CHOICE and sources.has_choice:
                for each in self._counted(sources):
                    files |= self.of_coin.get(each, set())
            if left := files - told:
                lists[part] = tuple(sorted(left))
                told |= left
        return lists

    def part_of(self, path: str, sources: Sources) -> Part | None:
        """Tell which part a file takes; None where it takes none."""
        for part in Part:
            if path in sources.files.get(part, ()):
                return part
            is_apart = part is (Part.COUNTED if path in self._ids else Part.CHOICE)
            if is_apart and self._is_counted(path, sources):
                return part
        return None

    def _counted(self, sources: Sources) -> list[str]:
        if not sources.counted:
            return []
        return [each.id for each in self._closed.coins if each.series in sources.counted]

    def _is_counted(self, path: str, sources: Sources) -> bool:
        if path not in self._ids and not sources.has_choice:
            return False
        coins = (self._closed.coin(each) for each in self.coins_of(path))
        return any(each is not None and each.series in sources.counted for each in coins)
