"""``daterun start``: lay out a new catalogue folder, with an example or with starter series."""

from argparse import Namespace
from pathlib import Path

from daterun.command.options import Subparsers, add_command, say


def add(subparsers: Subparsers) -> None:
    parser = add_command(
        subparsers,
        "start",
        "Lay out a new catalogue folder, with a small example or with starter series.",
        "daterun start my-coins --series united-kingdom new-zealand/florin",
    )
    parser.add_argument(
        "into",
        nargs="?",
        type=Path,
        metavar="NEW",
        help="the folder to lay out, new or empty (that of --folder unless said)",
    )
    parser.add_argument(
        "--series",
        nargs="+",
        default=[],
        metavar="NAME",
        help="starter series: an issuer for all of its series, or single ones as ISSUER/SERIES; "
        "united-kingdom, new-zealand, australia and union-of-south-africa are carried",
    )
    parser.set_defaults(run=run)


def run(args: Namespace) -> int:
    from daterun.exchange.carried import left_out, say_verified
    from daterun.exchange.start import lay_out
    from daterun.records.catalogue import read_catalogue

    folder: Path = args.into or args.folder
    laid = lay_out(folder, args.series)
    say(f"Laid out {folder}:")
    for name in laid.files:
        if not name.startswith(("content/series/", "content/issuers/")) or not laid.series:
            say(f"  {name}")
    if laid.series:
        catalogue, _ = read_catalogue(folder)
        say("How far each starter series is verified; every figure has its source beside it in the file:")
        for key in laid.series:
            say(f"  {key}: {say_verified(catalogue.series[key])}")
        for each in left_out(tuple(catalogue.issuers.values())):
            say(f"  {each}")
        say("They are yours to correct. What is from memory says so in the files and on the site.")
    where = "" if folder.resolve() == Path.cwd() else f" --folder {folder}"
    say("Next:")
    say(f"  write your title into {folder / 'content' / 'catalogue.yaml'}")
    say(f"  daterun intake{where} FILE.csv   (where you have a spreadsheet)")
    say(f"  daterun add{where} SERIES DATE")
    say(f"  daterun preview{where}")
    return 0
