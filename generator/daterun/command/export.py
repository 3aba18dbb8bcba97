"""``daterun export``: take everything out, for a reader, as a table, as JSON or as linked data, with photos."""

import os
import sys
from argparse import Namespace
from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING

from daterun.command.options import Subparsers, add_command, add_reader, one_of, say_aside

if TYPE_CHECKING:
    from daterun.problems import Problem
    from daterun.readers.closed import ClosedCatalogue
    from daterun.site import Checked

FORMS = ("csv", "json", "json-ld", "schema")


def add(subparsers: Subparsers) -> None:
    parser = add_command(
        subparsers,
        "export",
        "Take the coins out as a table (csv), as JSON or as linked data, with what a reader may see.",
        "daterun export --for keeper --as csv --output ~/coins.csv --photos ~/coins-photos",
    )
    add_reader(parser)
    parser.add_argument(
        "--as",
        dest="form",
        type=one_of(FORMS, "a form of export"),
        default="csv",
        metavar="FORM",
        help="csv, json, json-ld, or schema for the JSON Schema of json (csv unless said)",
    )
    parser.add_argument("--output", type=Path, metavar="FILE", help="a new file (printed unless said)")
    parser.add_argument("--photos", type=Path, metavar="FOLDER", help="put the photos into a new folder too")
    parser.set_defaults(run=run)


def run(args: Namespace) -> int:
    from daterun.command.progress import show_progress
    from daterun.command.report import report_text, summary
    from daterun.command.sources import Sources
    from daterun.exchange.placing import place_new
    from daterun.readers.closing import close_catalogue
    from daterun.readers.reader import Reader
    from daterun.site import check

    for path in (args.output, args.photos):
        if path is not None:
            _refuse_other_editions(path, args.reader)
    with show_progress() as progress:
        checked = check(args.folder, progress)
    if checked.has_errors:
        say_aside(summary(checked.problems, len(checked.catalogue.coins)))
        say_aside("What could not be read is not in the export; daterun check shows it.")
    closed = close_catalogue(checked.catalogue, checked.photos, Reader(args.reader))
    photos = _names_of_photos(closed, args) if args.photos else {}
    data = _write(args.form, checked, closed, photos)
    is_for_others = args.reader != Reader.KEEPER and args.form != "schema"
    if is_for_others and (found := _private_in(data, args, checked, closed)):
        say_aside(report_text(found, Sources(args.folder)))
        say_aside("Nothing was written.")
        return 1
    if args.photos:
        _place_photos(args, checked, closed)
    if args.output is not None:
        place_new(args.output, data)
        say_aside(f"Wrote {args.output}")
    else:
        sys.stdout.buffer.write(data)
        sys.stdout.buffer.flush()
    return 1 if checked.has_errors else 0


def _write(form: str, checked: "Checked", closed: "ClosedCatalogue", photos: "Photos") -> bytes:
    if form == "json-ld":
        from daterun.exchange.linked import write_linked

        return write_linked(closed, photos)
    if form == "schema":
        import json

        from daterun.exchange.schemas import DRAFT, export_schema

        return (json.dumps({"$schema": DRAFT, **export_schema()}, indent=1) + "\n").encode("utf-8")
    from daterun.exchange.csvtext import write_csv
    from daterun.exchange.jsontext import write_json
    from daterun.exchange.outgoing import coins_for

    coins = coins_for(checked.catalogue, closed)
    return write_csv(coins) if form == "csv" else write_json(checked.catalogue, closed, coins, photos)


Photos = Mapping[str, Mapping[str, str]]
"""Where photos lie beside the export, by coin and side."""


def _names_of_photos(closed: "ClosedCatalogue", args: Namespace) -> Photos:
    beside = args.output.resolve().parent if args.output is not None else Path.cwd()
    folder = Path(os.path.relpath(args.photos.resolve(), beside)).as_posix()
    return {
        coin.id: {side: f"{folder}/{_name(closed, coin.id, side)}" for side in coin.photos}
        for coin in closed.coins
        if coin.photos
    }


def _name(closed: "ClosedCatalogue", coin_id: str, side: str) -> str:
    """Name a photo as the keeper's are named; for others otherwise, for the names of those are private."""
    coin = closed.coin(coin_id)
    if coin is None or coin.private is None:
        return f"{coin_id}/{side}.jpeg"
    return f"{coin_id}.{side}{Path(coin.private.photo_files[side]).suffix.lower()}"


def _place_photos(args: Namespace, checked: "Checked", closed: "ClosedCatalogue") -> None:
    """Copy the keeper's photos, or for others make them anew without a word of place, camera or owner."""
    from daterun.exchange.placing import place_new
    from daterun.pages.pictures import PictureOrder, square_of
    from daterun.press.pictures import make_pictures
    from daterun.problems import CannotContinue

    if args.photos.exists() and any(args.photos.iterdir()):
        raise CannotContinue(f"{args.photos} is in use; name a new or empty folder for the photos")
    orders = []
    for coin in closed.coins:
        for side, photo in coin.photos.items():
            name = _name(closed, coin.id, side)
            if coin.private is not None:
                place_new(args.photos / name, (args.folder / coin.private.photo_files[side]).read_bytes())
            else:
                square = square_of(photo.width_px, photo.height_px, photo.disc)
                orders.append(PictureOrder(photo.key, square, square.side, "jpeg", name))
    files = {each.key: (args.folder / each.path, each.path) for each in checked.photos.values()}
    problems = make_pictures(orders, files, lambda name, data: place_new(args.photos / name, data))
    for each in problems:
        say_aside(f"{each.place.path}: {each.sentence}")


def _private_in(
    data: bytes, args: Namespace, checked: "Checked", closed: "ClosedCatalogue"
) -> "tuple[Problem, ...]":
    """Search what is about to go out for every value that its reader may not see."""
    from daterun.bundled import themes_folder
    from daterun.press.needles import make_needles
    from daterun.press.searching import Search, word_finds
    from daterun.press.theme import find_theme
    from daterun.press.words import read_words
    from daterun.readers.said import gather_said
    from daterun.readers.withheld import gather_withheld

    settings = checked.catalogue.settings
    theme = find_theme(settings.theme, args.folder, themes_folder(), settings.at.place_of("theme"))
    words = read_words(theme, settings.language)
    withheld = gather_withheld(checked.catalogue, checked.photos, closed.reader)
    own = theme.own_texts(themes_folder())
    search = Search(make_needles(withheld, gather_said(closed), words, own, settings.may_be_named))
    name = args.output.name if args.output is not None else f"the {args.form}"
    return word_finds(search.in_file(name, data), args.reader) if search else ()


def _refuse_other_editions(path: Path, reader: str) -> None:
    """Refuse to put an export where another reader's edition lies, from which it would be published."""
    from daterun.press.folders import SIGN
    from daterun.problems import CannotContinue

    for above in (path.resolve(), *path.resolve().parents):
        sign = above / SIGN
        if sign.is_file() and sign.read_text(encoding="utf-8").strip() != reader:
            raise CannotContinue(
                f"{path} lies inside another reader's edition, in {above}; name another place"
            )
