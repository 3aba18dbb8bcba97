"""The build, told as a story: read all, check all, close for the reader, plan, make what is stale, tidy up.

Nothing of an edition is replaced before every page of it has been made, so that a mistake leaves the last good
one as it was.
"""

from collections.abc import Iterable, Mapping, Sequence
from contextlib import nullcontext
from dataclasses import dataclass, replace
from functools import partial
from pathlib import Path
from urllib.parse import urlsplit

from daterun.bundled import themes_folder
from daterun.checks.catalogue import check_catalogue
from daterun.checks.claims import claimed_photos
from daterun.checks.photos import PhotoFacts
from daterun.desk import Desk, digest_of_notes
from daterun.pages.pictures import PictureOrder
from daterun.pages.plan import Plan, plan_pages
from daterun.pages.plates import PlateOrder
from daterun.pages.words import MissingWord, Words
from daterun.photos.examine import Use
from daterun.photos.memory import PhotoMemory
from daterun.photos.named import find_photos
from daterun.photos.photo import Photo
from daterun.press.ahead import Ahead
from daterun.press.beside import files_beside
from daterun.press.faces import Faces, FaceStore
from daterun.press.fingerprints import mark_picture
from daterun.press.folders import MEMORY, choose_output, memory_of
from daterun.press.inspection import Inspection
from daterun.press.needles import make_needles
from daterun.press.output import Output, check_addresses, claim, open_output
from daterun.press.pictures import make_pictures
from daterun.press.plates import PlatePress, draw_plates
from daterun.press.searching import Search, word_finds
from daterun.press.sheets import Sheets
from daterun.press.slips import SLIPS, Slips
from daterun.press.templates import Press
from daterun.press.theme import Theme, ThemeMistake, find_theme
from daterun.press.turns import taking_turns
from daterun.press.words import read_words
from daterun.pressing import print_stale, put_in_place
from daterun.problems import Place, Problem, sort_problems
from daterun.readers.closed import ClosedCatalogue
from daterun.readers.closing import close_catalogue
from daterun.readers.reader import Reader
from daterun.readers.said import gather_said
from daterun.readers.withheld import gather_withheld
from daterun.records.catalogue import Catalogue, read_catalogue
from daterun.records.remembered import RecordMemory
from daterun.records.series import Side
from daterun.result import BuildResult, Progress, silent
from daterun.shares import meanwhile

_MANY_COINS = 20_000
"""Coins from which on memory is dearer than time: a copy that goes through all records holds them twice."""

ROBOTS = b"User-agent: *\nDisallow: /\n"


@dataclass(frozen=True, slots=True)
class Checked:
    """A catalogue as it was read, every problem found in it, and its photos by coin and side."""

    catalogue: Catalogue
    problems: tuple[Problem, ...]
    photos: Mapping[tuple[str, Side], Photo]

    @property
    def has_errors(self) -> bool:
        return any(each.is_error for each in self.problems)


@dataclass(frozen=True, slots=True)
class Parts:
    """What an edition was made with, for those who go on from there."""

    checked: Checked
    plan: Plan
    press: Press
    search: Search
    edition: Output


@dataclass(frozen=True, slots=True)
class Built:
    """What a build came to, with its parts, or what it leaves lying ready; with neither where it failed."""

    result: BuildResult
    parts: Parts | None = None
    desk: Desk | None = None


def check(
    folder: Path,
    progress: Progress = silent,
    ahead: Ahead | None = None,
    records: RecordMemory | None = None,
    keeps: bool = True,
) -> Checked:
    """Read and check a whole catalogue folder. Raise CannotContinue where it is none.

    Of photos looked at for the first time, pictures are made ahead where asked for, and what was seen is kept.
    """
    progress("reading", 0, 0)
    catalogue, problems = read_catalogue(folder, records)
    files = find_photos(folder)
    claimed = claimed_photos(catalogue, files)
    use = ahead.making(catalogue, claimed) if ahead is not None else None
    examined = _examine_photos(folder, claimed.values(), progress, use, keeps)
    progress("checking", 0, 0)
    found = sort_problems([*problems, *check_catalogue(catalogue, PhotoFacts(files, examined))])
    photos = {key: examined[path] for key, path in claimed.items() if path in examined}
    return Checked(catalogue, found, photos)


def build(
    folder: Path, reader: Reader, output: Path | None = None, progress: Progress = silent, web: str = ""
) -> BuildResult:
    """Build the edition of a reader, into ``output/<reader>`` of the catalogue folder unless said otherwise.

    The web address, where one is given, stands for that of the settings in this build. Raise CannotContinue
    where the folder is no catalogue, or the edition may not be written where it is to go.
    """
    root = choose_output(folder, reader.value, output)
    return build_with(folder, reader, root, progress, web).result


def build_with(
    folder: Path,
    reader: Reader,
    root: Path,
    progress: Progress,
    web: str,
    records: RecordMemory | None = None,
) -> Built:
    """Build an edition, in the folder chosen for it, with the records that are remembered.

    Without such a memory nothing of the catalogue is kept longer than it is needed, and no parts are given.
    Then slips of pages are kept on disk and something is left ready for other notes, unless coins are very many.
    """
    with taking_turns(folder, reader.value, root):
        return _build(folder, reader, root, progress, web, records)


def _build(
    folder: Path, reader: Reader, root: Path, progress: Progress, web: str, records: RecordMemory | None
) -> Built:
    """Build the edition while nobody else does."""
    memory = memory_of(folder, reader.value, root)
    store = FaceStore(folder / MEMORY / "faces")
    ahead = Ahead(memory.with_suffix(".ahead"), root, store, with_parted=reader is Reader.KEEPER)
    checked = _at_address(check(folder, progress, ahead, records), web)
    problems, coins = checked.problems, len(checked.catalogue.coins)
    if checked.has_errors:
        return Built(BuildResult(problems, coins, root))

    try:
        theme, words = open_theme(folder, checked.catalogue)
        closed = close_catalogue(checked.catalogue, checked.photos, reader)
        worth = coins if coins < _MANY_COINS else 0
        with meanwhile(partial(search_for, checked, closed, words, theme), worth) as given_search:
            plan = plan_edition(closed, words, theme)
            search = given_search()
        photos = {each.key: (folder / each.path, each.path) for each in checked.photos.values()}
        base = urlsplit(closed.settings.web).path
        desk = _lay_desk(checked.catalogue, search, base) if records is None and worth else None
        kept_parts = (checked, plan) if records is not None else None
        if kept_parts is None:  # of many coins, half of what is held goes with these
            plan = replace(plan, find=None, binder=None)
            del checked, closed, given_search
        files = plain_files(theme, reader) | files_beside(plan)
        edition = open_output(root, reader.value, memory)
        kept = _addresses(plan, files)
        check_addresses(kept)
        edition.check_free(kept)
        strangers = edition.strangers(kept)

        slips = Slips(memory.with_suffix(SLIPS)) if desk is not None else None
        with Sheets() as sheets, slips or nullcontext():
            press = Press(theme, words, base)
            inspection = Inspection(search, edition)
            print_stale(plan.pages, press, inspection, sheets, slips, progress)
            inspection.search_around(sheets.addresses, files, kept)
            inspection.search_drawn(
                (each.address, (each.caption, each.line, each.credit)) for each in plan.plates
            )
            if inspection.finds:
                return _refused(problems, coins, inspection, reader, root)
            pictures = edition.expect_stale(
                (each, each.address, mark_picture(each)) for each in plan.pictures
            )
            plate_press = PlatePress(theme)
            plates = edition.expect_stale(
                (each, each.address, plate_press.mark(each)) for each in plan.plates
            )
            stale_files = edition.expect_files(files)
            claim(edition)
            with edition.remembering():
                inspection.begin_writing()
                found = _make_pictures(pictures, photos, inspection, ahead, progress)
                if found:
                    _look_again(folder, (each.place.path for each in found))
                    return Built(BuildResult(sort_problems([*problems, *found]), coins, root))
                if plates:
                    faces = Faces(root, store, plan.pictures, photos)
                    _draw_plates(plates, plate_press, faces, inspection, progress)
                    store.clear_all_but(photos)
                if inspection.finds:
                    return _refused(problems, coins, inspection, reader, root)
                for address, data in stale_files.items():
                    edition.write(address, data)
                pages_written = put_in_place(sheets, edition, progress)
                removed = edition.remove_leftovers(kept)
                inspection.end_writing()
                ahead.clear()
            if slips is not None:
                slips.take_place()
    except ThemeMistake as mistake:
        return Built(BuildResult(sort_problems([*problems, mistake.problem]), coins, root))

    made = len(pictures) + len(plates)
    result = BuildResult(problems, coins, root, len(plan.pages), pages_written, made, removed, strangers)
    parts = Parts(*kept_parts, press, search, edition) if kept_parts is not None else None
    return Built(result, parts, desk)


def _lay_desk(catalogue: Catalogue, search: Search, base: str) -> Desk:
    """Tell what the next build needs to take up other notes of coins without reading everything."""
    typed = {each.path: (each.matter_digest, digest_of_notes(each.notes)) for each in catalogue.coins}
    return Desk(catalogue.settings.theme, catalogue.settings.language, base, typed, search)


def _examine_photos(
    folder: Path, paths: Iterable[str], progress: Progress, use: Use | None, keeps: bool
) -> dict[str, Photo]:
    """Look at every photo that a coin claims; what was seen is remembered by the file's content."""
    memory = PhotoMemory.load(folder / MEMORY / "photos.json")
    found = memory.examine_all(
        folder, sorted(set(paths)), lambda done, total: progress("photos", done, total), use
    )
    if keeps:
        memory.save()
    return found


def _look_again(folder: Path, paths: Iterable[str]) -> None:
    """Forget what was seen of photos of which no picture could be made: they may have been replaced meanwhile."""
    memory = PhotoMemory.load(folder / MEMORY / "photos.json")
    memory.forget(paths)
    memory.save()


def _at_address(checked: Checked, web: str) -> Checked:
    """Have the site lie at another address than the settings say, where one is given."""
    if not web:
        return checked
    settings = replace(checked.catalogue.settings, web=web)
    return replace(checked, catalogue=replace(checked.catalogue, settings=settings))


def open_theme(folder: Path, catalogue: Catalogue) -> tuple[Theme, Words]:
    """Find the theme of a catalogue and its words; raise ThemeMistake for what is wrong in it."""
    settings = catalogue.settings
    theme = find_theme(settings.theme, folder, themes_folder(), settings.at.place_of("theme"))
    return theme, read_words(theme, settings.language)


def check_theme(folder: Path, checked: Checked) -> Checked:
    """Add what keeps the theme of a catalogue from being opened, in whose words a build would refuse it."""
    try:
        open_theme(folder, checked.catalogue)
    except ThemeMistake as mistake:
        return replace(checked, problems=sort_problems([*checked.problems, mistake.problem]))
    return checked


def plan_edition(closed: ClosedCatalogue, words: Words, theme: Theme) -> Plan:
    """Plan an edition; a word that the theme lacks is a mistake of the theme."""
    try:
        return plan_pages(closed, words)
    except MissingWord as missing:
        place = Place(theme.words[0].shown if theme.words else f"themes/{theme.name}/words")
        raise ThemeMistake(Problem("theme", str(missing), place)) from missing


def plain_files(theme: Theme, reader: Reader) -> dict[str, bytes]:
    """Gather what goes into the edition as it is: the theme's assets, and the word to robots."""
    files = {theme.asset_address(name): asset.path.read_bytes() for name, asset in theme.assets.items()}
    if reader is Reader.KEEPER:
        files["robots.txt"] = ROBOTS
    return files


def _addresses(plan: Plan, files: Mapping[str, bytes]) -> list[str]:
    pictures = (*(each.address for each in plan.pictures), *(each.address for each in plan.plates))
    return [*(each.address for each in plan.pages), *pictures, *files]


def search_for(checked: Checked, closed: ClosedCatalogue, words: Words, theme: Theme) -> Search:
    """Make ready the search for all that the reader may not see, but for what the program's own theme says."""
    withheld = gather_withheld(checked.catalogue, checked.photos, closed.reader)
    if not withheld:
        return Search(())
    allowed = checked.catalogue.settings.may_be_named
    return Search(
        make_needles(withheld, gather_said(closed), words, theme.own_texts(themes_folder()), allowed)
    )


def _refused(
    problems: Sequence[Problem], coins: int, inspection: Inspection, reader: Reader, root: Path
) -> Built:
    """Refuse an edition in which something private was found; the last good one stays."""
    finds = word_finds(inspection.finds, reader.value)
    return Built(BuildResult(sort_problems([*problems, *finds]), coins, root))


def _make_pictures(
    orders: list[PictureOrder],
    photos: Mapping[str, tuple[Path, str]],
    inspection: Inspection,
    ahead: Ahead,
    progress: Progress,
) -> tuple[Problem, ...]:
    return make_pictures(
        orders, photos, inspection.write, lambda *told: progress("pictures", *told), ahead.into(inspection)
    )


def _draw_plates(
    stale: list[PlateOrder], press: PlatePress, faces: Faces, inspection: Inspection, progress: Progress
) -> None:
    """Draw plates of the pictures that now lie in the edition."""
    draw_plates(stale, press, faces, inspection.write, lambda done, total: progress("plates", done, total))
