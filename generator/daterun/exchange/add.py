"""One new coin: its file with the fields in order, what is known of its date in comments, and its photos.

Nothing is written before all of it is known to be sound; what a command says of it is left to the command.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from daterun.checks.belonging import unknown_series
from daterun.checks.catalogue import check_catalogue
from daterun.exchange.coinfile import coin_path, problems_in, read_text, with_coins, write_coin
from daterun.exchange.gains import say_gains
from daterun.exchange.ids import free_id, wish_id
from daterun.exchange.placing import place_all
from daterun.exchange.seriesnames import SeriesNames
from daterun.exchange.yamltext import Plain
from daterun.photos.named import FOLDER as PHOTOS
from daterun.problems import CannotContinue, Misread, Place, Problem
from daterun.records.catalogue import Catalogue
from daterun.records.files import PICTURE_SUFFIXES, fold_name, list_files
from daterun.records.series import Series, Standard
from daterun.trade.dates import CoinDate, parse_coin_date


@dataclass(frozen=True, slots=True)
class NewCoin:
    """A coin ready to be written: its file's text, its photos by where they go, and what it does for the aims.

    Photos that lie there under the coin's name already become its own, as they would for any coin.
    """

    id: str
    text: str
    photos: Mapping[str, Path]
    problems: tuple[Problem, ...]
    gains: tuple[str, ...]

    @property
    def is_sound(self) -> bool:
        return not any(each.is_error for each in self.problems)


def prepare(
    folder: Path,
    catalogue: Catalogue,
    series_name: str,
    date_text: str,
    values: Mapping[str, Plain],
    notes: str = "",
    photos: Mapping[str, Path] = {},
    coin_id: str = "",
) -> NewCoin:
    """Prepare a coin of a series and date with further values by key; the photos go by side.

    An id that is given must be free; otherwise one is chosen. Raise CannotContinue where there is no such
    series, the date is none, or a photo is not there.
    """
    series, series_name = _series_of(catalogue, series_name, date_text)
    try:
        date = parse_coin_date(date_text, series.labels)
    except Misread as misread:
        raise CannotContinue(f"{misread.sentence}; {misread.hint}") from None
    own: dict[str, Plain] = {"series": series_name, "date": date_text, **values}
    taken = taken_ids(folder)
    wanted = coin_id or wish_id(SeriesNames(catalogue).short(series), own)
    chosen = wanted if coin_id else free_id(wanted, taken)
    if fold_name(chosen) in taken:
        raise CannotContinue(f"{coin_path(chosen)} is there already; choose another id")
    text = write_coin(own, notes, comments_of(series, date))
    read = read_text(chosen, text, catalogue)
    if read.coin is None:
        return NewCoin(chosen, text, {}, read.problems, ())
    after = with_coins(catalogue, [read.coin])
    found = problems_in([coin_path(chosen)], [*read.problems, *check_catalogue(after, None)])
    return NewCoin(chosen, text, _photos_of(chosen, photos), found, say_gains(catalogue, after, chosen))


def _series_of(catalogue: Catalogue, word: str, date_text: str) -> tuple[Series, str]:
    """Find a series by any word for it, and the name by which the coin's file calls it."""
    exact = catalogue.find_series(word)
    if exact is not None:
        return exact, word
    names = SeriesNames(catalogue)
    year = date_text[:4]
    try:
        found = names.find(word, "", int(year) if year.isascii() and year.isdigit() else None)
    except Misread as misread:
        raise CannotContinue(_why_no_series(catalogue, word, misread)) from None
    return found, names.short(found)


def _why_no_series(catalogue: Catalogue, word: str, misread: Misread) -> str:
    """Say why a word is of no series: in the words of the checks, but where it can be one of several."""
    for problem in unknown_series(catalogue, word, Place("")):
        hint = problem.hint if misread.sentence == problem.sentence else misread.hint
        return f"{misread.sentence}; {hint}" if hint else misread.sentence
    return f'the file of the series "{word}" has errors; daterun check shows them'


def write(folder: Path, coin: NewCoin) -> tuple[str, ...]:
    """Write a coin's file and copy its photos, all or none; return their paths in the catalogue folder."""
    files = {folder / coin_path(coin.id): coin.text.encode("utf-8")}
    for name, photo in coin.photos.items():
        try:
            files[folder / name] = photo.read_bytes()
        except OSError as error:
            raise CannotContinue(f"{photo} cannot be read: {error.strerror or error}") from None
    place_all(files)
    return tuple(path.relative_to(folder).as_posix() for path in files)


def taken_ids(folder: Path) -> set[str]:
    """List, folded, the ids that no new coin may have, for a file has them."""
    files, _ = list_files(folder, "content/coins", ".md")
    return {fold_name(each.removeprefix("content/coins/").removesuffix(".md")) for each in files}


def _photos_of(coin_id: str, photos: Mapping[str, Path]) -> dict[str, Path]:
    found = {}
    for side, path in photos.items():
        suffix = path.suffix.lower()
        if suffix not in PICTURE_SUFFIXES:
            raise CannotContinue(
                f"{path} is no photo: its name ends in none of {', '.join(sorted(PICTURE_SUFFIXES))}"
            )
        if not path.is_file():
            raise CannotContinue(f"there is no photo {path}")
        found[f"{PHOTOS}/{coin_id}.{side}{suffix}"] = path
    return found


def comments_of(series: Series, date: CoinDate) -> dict[str, Sequence[str]]:
    """Word what the series says of a date, by the key above which it stands in the coin's file."""
    comments: dict[str, Sequence[str]] = {}
    if varieties := series.varieties_of(date):
        comments["variety"] = [
            f"Variety of {date}: {each.id}"
            + (f", {each.reading or each.name}" if each.reading or each.name else "")
            for each in varieties
        ]
    if mints := series.mints_of(date):
        comments["mint"] = [f"Mint marks of {date}: {', '.join(mints)}"]
    if types := series.types_of(date):
        comments["type"] = [
            f"Type of {date}: {each.id}" + (f", {each.name}" if each.name else "") for each in types
        ]
    if standards := series.standards_of(date):
        comments["standard"] = [f"Standard of {date}: {_word(each)}" for each in standards]
    return comments


def _word(standard: Standard) -> str:
    fineness = f" {standard.fineness}" if standard.fineness else ""
    parts = [
        f"{standard.metal}{fineness}",
        *(str(each) for each in (standard.weight, standard.diameter) if each),
        *([f"edge {standard.edge}"] if standard.edge else []),
        *([f"axis {standard.axis}"] if standard.axis else []),
    ]
    name = f" ({standard.id})" if standard.id else ""
    return f"{', '.join(parts)}{name}"
