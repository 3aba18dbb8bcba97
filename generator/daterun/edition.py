"""One edition as a build would make it now, and as it stands: each thing with its sources and its fate.

Nothing is written.
"""

import os
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from enum import StrEnum
from functools import partial
from pathlib import Path
from urllib.parse import urlsplit

from daterun.origins import Origins
from daterun.pages import addresses
from daterun.pages.plan import Plan
from daterun.press.beside import files_beside
from daterun.press.fingerprints import Mark, mark_bytes, mark_page, mark_picture
from daterun.press.folders import memory_of
from daterun.press.made import read_last
from daterun.press.output import open_output
from daterun.press.plates import PlatePress
from daterun.press.theme import Theme
from daterun.readers.closing import close_catalogue
from daterun.readers.reader import Reader
from daterun.site import Checked, open_theme, plain_files, plan_edition
from daterun.sourcefiles import Part, SourceFiles, Sources


class Kind(StrEnum):
    """What sort of thing lies at an address."""

    PAGE = "page"
    PICTURE = "picture"
    PLATE = "plate"
    DATA = "data"
    ASSET = "asset"
    FEED = "feed"
    SITE_MAP = "site map"
    ROBOTS = "word to robots"


@dataclass(frozen=True, slots=True)
class Fate:
    """Why the last build made a thing: "" where it left it as it was, None where no build has made it.

    Before is why it was made when it was made last. Now is why a build would make it again; "" where it would
    not.
    """

    last: str | None
    before: str
    now: str


@dataclass(frozen=True, slots=True)
class Thing:
    """One thing to be made. By what it would be made, and from what, is worked out when it is asked for."""

    kind: Kind
    mark: Callable[[], Mark]
    sources: Callable[[], Sources]


class Edition:
    """One edition as a build would make it, and as it stands."""

    def __init__(self, folder: Path, reader: Reader, root: Path, checked: Checked) -> None:
        self.folder = folder
        self.reader = reader
        self.root = root
        self.checked = checked
        self.theme, self._words = open_theme(folder, checked.catalogue)
        closed = close_catalogue(checked.catalogue, checked.photos, reader)
        self.plan = plan_edition(closed, self._words, self.theme)
        memory = memory_of(folder, reader.value, root)
        self.output = open_output(root, reader.value, memory)
        self.last = read_last(memory)
        self.sources = SourceFiles(checked, closed)
        origins = Origins(self.sources, self.plan, self.theme)
        theme_files = (*self.theme.templates.values(), *self.theme.words, *self.theme.assets.values())
        self.theme_files = {str(each.path.resolve()): each.shown for each in theme_files}
        self.things = dict(
            _things(self.plan, origins, self.theme, reader, urlsplit(closed.settings.web).path)
        )

    def fate(self, address: str) -> Fate:
        """Tell what became of a thing in the last build, and what would in the next."""
        before = self.output.made.get(address)
        known = before is not None and before.time_ns > 0
        last = self.last.get(address, "" if known else None)
        now = self.output.reason(address, self.things[address].mark())
        return Fate(last, before.reason if before is not None else "", now)

    def listed(self, address: str) -> dict[Part, tuple[str, ...]]:
        """List the files that a thing is made from."""
        return self.sources.listed(self.things[address].sources())

    def taken(self, path: str) -> Iterator[tuple[str, Part]]:
        """List the addresses of things in which a file takes a part, each with that part."""
        for address, thing in self.things.items():
            part = self.sources.part_of(path, thing.sources())
            if part is not None:
                yield address, part

    def others_with(self, address: str) -> tuple[Reader, ...]:
        """List the other readers whose editions have something at an address."""
        found = []
        for reader in Reader:
            if reader is not self.reader:
                closed = close_catalogue(self.checked.catalogue, self.checked.photos, reader)
                plan = plan_edition(closed, self._words, self.theme)
                shown = {each.address for each in plan.pages} | {each.address for each in plan.plates}
                shown |= {each.address for each in plan.pictures}
                if address in shown | {*files_beside(plan), *plain_files(self.theme, reader)}:
                    found.append(reader)
        return tuple(found)

    def file_at(self, path: Path) -> str | None:
        """Tell how a file is named among those that an edition is made from; None for any other."""
        for found, home in (
            (straight(path), straight(self.folder)),
            (path.resolve(), self.folder.resolve()),
        ):
            if found.is_relative_to(home):
                name = found.relative_to(home).as_posix()
                if name.startswith(("content/", "themes/")):
                    return name
        return self.theme_files.get(str(path.resolve()))

    def files(self) -> list[str]:
        """List all files that are read for an edition."""
        return [*self.sources.all_paths(), *self.theme_files.values()]


def straight(path: Path) -> Path:
    """Make a path whole without following links."""
    return Path(os.path.normpath(path.absolute()))


def _things(
    plan: Plan, origins: Origins, theme: Theme, reader: Reader, base: str
) -> Iterator[tuple[str, Thing]]:
    """List all things of an edition by their addresses, in the order of the plan."""
    for page in plan.pages:
        mark = partial(mark_page, page, theme.fingerprint, base)
        yield page.address, Thing(Kind.PAGE, mark, partial(origins.of_page, page))
    for picture in plan.pictures:
        mark = partial(mark_picture, picture)
        yield picture.address, Thing(Kind.PICTURE, mark, partial(origins.of_picture, picture))
    press = PlatePress(theme) if plan.plates else None
    for plate in plan.plates:
        assert press is not None
        yield plate.address, Thing(Kind.PLATE, partial(press.mark, plate), partial(origins.of_plate, plate))
    data = {each.address: each for each in plan.data}
    for address, written in files_beside(plan).items():
        if address in data:
            kind, sources = Kind.DATA, partial(origins.of_data, data[address])
        else:
            kind = Kind.FEED if address == addresses.FEED else Kind.SITE_MAP
            assert plan.announcements is not None
            sources = partial(origins.of_announcements, plan.announcements)
        yield address, Thing(kind, partial(mark_bytes, written), sources)
    assets = {theme.asset_address(name): name for name in theme.assets}
    for address, written in plain_files(theme, reader).items():
        if address in assets:
            kind, sources = Kind.ASSET, partial(origins.of_asset, assets[address])
        else:
            kind, sources = Kind.ROBOTS, partial(Sources, {})
        yield address, Thing(kind, partial(mark_bytes, written), sources)
