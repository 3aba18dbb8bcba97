"""``daterun check``: read everything, check everything, and tell all that was found."""

from argparse import Namespace

from daterun.command.options import Subparsers, add_command, say


def add(subparsers: Subparsers) -> None:
    parser = add_command(
        subparsers,
        "check",
        "Check every file of the catalogue and show all problems at once.",
        "daterun check --folder ~/coins",
    )
    parser.add_argument("--json", action="store_true", help="print the problems for a program to read")
    parser.set_defaults(run=run)


def run(args: Namespace) -> int:
    from daterun.command.progress import show_progress
    from daterun.command.report import report_json, report_text, summary
    from daterun.command.sources import Sources
    from daterun.site import check

    with show_progress() as progress:
        checked = check(args.folder, progress)
    if args.json:
        say(report_json(checked.problems).rstrip("\n"))
    else:
        if checked.problems:
            say(report_text(checked.problems, Sources(args.folder)))
        say(summary(checked.problems, len(checked.catalogue.coins)))
    return 1 if checked.has_errors else 0
