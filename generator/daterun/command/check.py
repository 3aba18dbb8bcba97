"""``daterun check``: read everything, check everything, and tell all that was found."""

from argparse import Namespace
from pathlib import Path
from typing import TYPE_CHECKING

from daterun.command.options import Subparsers, add_command, say, say_aside

if TYPE_CHECKING:
    from daterun.records.catalogue import Catalogue


def add(subparsers: Subparsers) -> None:
    parser = add_command(
        subparsers,
        "check",
        "Check every file of the catalogue and show all problems at once.",
        "daterun check --folder ~/coins",
    )
    parser.add_argument("--json", action="store_true", help="print the problems for a program to read")
    parser.add_argument(
        "--schemas",
        action="store_true",
        help="also write JSON Schemas for editors, with the catalogue's own series, into .daterun/schemas",
    )
    parser.set_defaults(run=run)


def run(args: Namespace) -> int:
    from daterun.command.progress import show_progress
    from daterun.command.report import report_json, report_text, summary
    from daterun.command.sources import Sources
    from daterun.site import check, check_theme

    with show_progress() as progress:
        checked = check_theme(args.folder, check(args.folder, progress))
    if args.schemas:
        _write_schemas(args.folder, checked.catalogue)
    if args.json:
        say(report_json(checked.problems).rstrip("\n"))
    else:
        if checked.problems:
            say(report_text(checked.problems, Sources(args.folder)))
        say(summary(checked.problems, len(checked.catalogue.coins)))
    return 1 if checked.has_errors else 0


def _write_schemas(folder: Path, catalogue: "Catalogue") -> None:
    import json

    from daterun.exchange.placing import replace_own
    from daterun.exchange.schemas import all_schemas

    place = folder / ".daterun" / "schemas"
    for name, schema in all_schemas(catalogue).items():
        replace_own(place / name, (json.dumps(schema, indent=1, ensure_ascii=False) + "\n").encode("utf-8"))
    say_aside(f"Wrote the schemas for editors into {place}")
