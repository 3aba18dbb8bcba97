"""``daterun build``: make the site of a reader, and say what was made and where to open it."""

import time
from argparse import ArgumentTypeError, Namespace
from pathlib import Path

from daterun.command.options import Subparsers, add_command, add_reader, say, say_aside


def add(subparsers: Subparsers) -> None:
    parser = add_command(
        subparsers,
        "build",
        "Check the catalogue and make its site; with errors the last good site stays as it was.",
        "daterun build --folder ~/coins --for club",
    )
    add_reader(parser)
    parser.add_argument(
        "--output",
        type=Path,
        metavar="FOLDER",
        help="the folder of the site (output/READER in the catalogue folder unless said)",
    )
    parser.add_argument(
        "--web",
        type=_web,
        metavar="ADDRESS",
        help="where the site will be published, in place of what catalogue.yaml says in this build",
    )
    parser.set_defaults(run=run)


def _web(text: str) -> str:
    from daterun.problems import Misread
    from daterun.records.web import parse_web

    try:
        return parse_web(text)
    except Misread as misread:
        raise ArgumentTypeError(f"{misread.sentence}\n{misread.hint}") from misread


def run(args: Namespace) -> int:
    from daterun.command.progress import show_progress
    from daterun.command.report import report_text, summary
    from daterun.command.sources import Sources
    from daterun.readers.reader import Reader
    from daterun.standing import bring_up_to_date

    begun = time.monotonic()
    with show_progress() as progress:
        result = bring_up_to_date(args.folder, Reader(args.reader), args.output, progress, args.web or "")
    took = time.monotonic() - begun
    if result.has_errors:
        say(report_text(result.problems, Sources(args.folder)))
        say(summary(result.problems, result.coins))
        say_aside("Nothing was built; the last good site, if there is one, is as it was.")
        return 1
    if result.problems:
        say(f"{summary(result.problems, result.coins)} daterun check shows it.")
    say(
        f"{describe(result.pages_total, result.pages_written, result.pictures_made, len(result.removed))}"
        f" It took {took:.1f} s."
    )
    if told := describe_strangers(result.strangers):
        say(told)
    say(f"Open {(result.output / 'index.html').as_uri()}")
    return 0


def describe(pages: int, written: int, pictures: int, removed: int) -> str:
    """Say in a sentence what a build made."""
    whole = f"{pages:,} {'page' if pages == 1 else 'pages'}"
    if not (written or pictures or removed):
        return f"{whole}, all as they were."
    parts = [f"{written:,} of them written"]
    if pictures:
        parts.append(f"{pictures:,} {'picture' if pictures == 1 else 'pictures'} made")
    if removed:
        parts.append(f"{removed:,} {'file' if removed == 1 else 'files'} removed")
    return f"{whole}: {', '.join(parts)}."


def describe_strangers(strangers: tuple[str, ...]) -> str:
    """Name the files that no build made, or the first of them; "" where there is nothing to tell.

    A hidden folder is named as one, and a repository, from which an edition is pushed, not at all.
    """
    named = list(dict.fromkeys(_as_told(each) for each in strangers if not each.startswith(".git/")))
    if not named:
        return ""
    more = f" and {len(named) - 3:,} more" if len(named) > 3 else ""
    return f"Not made by Daterun, and left alone: {', '.join(named[:3])}{more}."


def _as_told(path: str) -> str:
    first, within, _ = path.partition("/")
    return f"{first}{within}" if first.startswith(".") else path
