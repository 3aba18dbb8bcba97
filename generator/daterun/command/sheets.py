"""``daterun print``: the catalogue, the want list, labels or the schedule as PDF, and where they are."""

import time
from argparse import Namespace

from daterun.command.options import Subparsers, add_command, add_reader, one_of, say, say_aside
from daterun.naming import listed
from daterun.problems import CannotContinue, Misread

WHAT = ("catalogue", "wants", "labels", "schedule")
PAPERS = ("a4", "letter")

ONLY_FOR = {
    "columns": ("catalogue",),
    "plates": ("catalogue",),
    "introduction": ("catalogue",),
    "monarch": ("catalogue", "labels", "schedule"),
    "series": ("catalogue", "labels", "schedule"),
    "since": ("catalogue", "labels", "schedule"),
    "coins": ("catalogue", "labels", "schedule"),
    "aim": ("wants",),
    "fold": ("wants",),
    "sheet": ("labels",),
    "test": ("labels",),
}
"""What may be printed with each option; the others are for all of it."""


def add(subparsers: Subparsers) -> None:
    parser = add_command(
        subparsers,
        "print",
        "Print the catalogue, the want list, labels or the insurer's schedule as PDF, coins at their own size.",
        "daterun print catalogue --for club --monarch torvald-iii --paper a4",
    )
    parser.add_argument(
        "what",
        nargs="?",
        default="catalogue",
        type=one_of(WHAT, "a thing to print"),
        metavar="WHAT",
        help="catalogue, wants, labels or schedule (catalogue unless said)",
    )
    add_reader(parser)
    parser.add_argument(
        "--paper", type=one_of(PAPERS, "a paper"), default="a4", metavar="PAPER", help="a4 or letter"
    )
    names = {
        "--monarch": "only coins of this monarch, by its short name; may be given again",
        "--series": "only coins of this series; may be given again",
        "--coins": "only this coin, by its id; may be given again",
        "--aim": "only what this aim lacks, by its short name; may be given again",
        "--plates": "show this coin enlarged, by its id; may be given again",
    }
    for name, means in names.items():
        parser.add_argument(name, action="append", default=[], metavar="NAME", help=means)
    parser.add_argument(
        "--since",
        default="",
        metavar="DAY",
        help="only coins that entered the catalogue on this day or later",
    )
    parser.add_argument(
        "--introduction",
        default="",
        metavar="ESSAY",
        help="an essay to stand before the coins, by its short name",
    )
    parser.add_argument(
        "--columns", type=one_of(("1", "2"), "a number of columns"), default=None, metavar="N", help="1 or 2"
    )
    parser.add_argument("--fold", action="store_true", help="the want list in four strips, to be folded")
    parser.add_argument(
        "--sheet",
        default="",
        metavar="SHEET",
        help="small, medium or large labels, or measures in mm:"
        " across=3,down=8,width=63.5,height=33.9,left=7.2,top=13,gap=2.5x0",
    )
    parser.add_argument(
        "--test", action="store_true", help="a sheet of outlines with a ruler, for plain paper"
    )
    parser.set_defaults(run=run)


def run(args: Namespace) -> int:
    for name, things in ONLY_FOR.items():
        if getattr(args, name) and args.what not in things:
            raise CannotContinue(f"--{name} is for {listed(things)}, not for {args.what}")
    from daterun.command.progress import show_progress
    from daterun.command.report import report_text, summary
    from daterun.command.sources import Sources
    from daterun.pages.printchoice import Choice
    from daterun.press.labelsheets import read_label_sheet
    from daterun.printing import Form, print_sheets
    from daterun.readers.reader import Reader

    try:
        labels = read_label_sheet(args.sheet or "medium", args.paper)
    except Misread as error:
        raise CannotContinue(
            f"--sheet: {error.sentence}" + (f"; {error.hint}" if error.hint else "")
        ) from error
    choice = Choice(
        tuple(args.monarch),
        tuple(args.series),
        args.since,
        tuple(args.coins),
        tuple(args.aim),
        tuple(args.plates),
        args.introduction,
    )
    form = Form(args.paper, int(args.columns or "2"), args.fold, labels, args.test)
    begun = time.monotonic()
    with show_progress() as progress:
        result = print_sheets(args.folder, args.what, Reader(args.reader), choice, form, progress)
    took = time.monotonic() - begun
    if result.has_errors:
        say(report_text(result.problems, Sources(args.folder)))
        say(summary(result.problems, 0))
        say_aside("Nothing was printed; what was printed before, if anything, is as it was.")
        return 1
    for each in result.advice:
        say_aside(f"advice: {each}")
    for path in result.files:
        state = "written" if path.name in result.written else "as it was"
        say(f"{path.resolve().as_uri()} ({state})")
    made = f", {result.pictures_made:,} pictures made" if result.pictures_made else ""
    say(f"It took {took:.1f} s{made}.")
    return 0
