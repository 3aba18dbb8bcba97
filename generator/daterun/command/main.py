"""The command line: which command was asked for, and the exit code. What a command does is left to its module.

Exit codes: 0 fine, 1 problems in the collection, 2 wrong usage.
"""

import gc
import os
import sys
from argparse import Namespace
from collections.abc import Sequence
from pathlib import Path

from daterun import __version__
from daterun.command import add, build, check, export, intake, preview, sheets, start, why
from daterun.command.completion import SHELLS, PrintCompletion
from daterun.command.options import Parser, Subparsers, add_command, one_of, say
from daterun.problems import CannotContinue, meant

COMMANDS = ("start", "add", "intake", "check", "build", "preview", "print", "gaps", "why", "export")

_EPILOG = (
    "example:\n  daterun build --folder ~/coins --for keeper\n\n"
    "daterun COMMAND --help tells of one command; daterun alone says what to do next."
)


def main(arguments: Sequence[str] | None = None) -> int:
    """Do what the arguments ask for, those of the process unless given; return the exit code."""
    given = list(sys.argv[1:] if arguments is None else arguments)
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="replace")
    args = _parse(given)
    if arguments is None and given[:1] != ["preview"]:
        # What a command makes lives until it ends, and hunting for circles in it takes a quarter of the time:
        # all aims and figures of 100,000 coins 10.4 s with the collector and 7.7 s without, in the same memory.
        gc.disable()
    try:
        code: int = args.run(args)
        return code
    except CannotContinue as reason:
        print(f"daterun: {reason}{_where(args)}", file=sys.stderr)
        return 2
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 1
    except KeyboardInterrupt:
        print("\nstopped", file=sys.stderr)
        return 130


def _parse(given: list[str]) -> Namespace:
    parser = Parser(
        prog="daterun",
        description="Publish a coin collection: a checked record, a web site, and grids of its dates.",
        epilog=_EPILOG,
    )
    parser.add_argument("--version", action="version", version=f"daterun {__version__}")
    parser.add_argument(
        "--completion",
        action=PrintCompletion,
        type=one_of(SHELLS, "a shell"),
        metavar="SHELL",
        help="print what makes a shell complete commands and options: bash, zsh or fish",
    )
    subparsers: Subparsers = parser.add_subparsers(title="commands", metavar="COMMAND", dest="command")
    start.add(subparsers)
    add.add(subparsers)
    intake.add(subparsers)
    check.add(subparsers)
    build.add(subparsers)
    preview.add(subparsers)
    sheets.add(subparsers)
    _add_gaps(subparsers)
    why.add(subparsers)
    export.add(subparsers)
    if not given:
        return Namespace(run=_say_next)
    if not given[0].startswith("-") and given[0] not in COMMANDS:
        parser.wrong(f'there is no command "{given[0]}"', meant(given[0], COMMANDS))
    args, unknown = parser.parse_known_args(given)
    its_parser: Parser = getattr(args, "parser", parser)
    if unknown:
        is_option = unknown[0].startswith("-")
        sentence = (
            f'there is no option "{unknown[0]}"' if is_option else f'"{unknown[0]}" is not asked for here'
        )
        its_parser.wrong(sentence, meant(unknown[0], its_parser.option_names()) if is_option else "")
    if args.command is None:
        parser.wrong("no command is given", meant("", COMMANDS))
    return args


def _where(args: Namespace) -> str:
    """Word the hint for a command that was given where there is no catalogue."""
    from daterun.command.nextsteps import say_where

    said = say_where(args.folder) if getattr(args, "command", "start") != "start" else ""
    return f"\n  hint: {said}" if said else ""


def _say_next(args: Namespace) -> int:
    from daterun.command.nextsteps import say_next

    for line in say_next(Path()):
        say(line)
    say("daterun --help lists all commands.")
    return 0


def _add_gaps(subparsers: Subparsers) -> None:
    parser = add_command(
        subparsers,
        "gaps",
        "Show in the terminal how complete the series and aims are, and which dates are missing.",
        "daterun gaps --json",
    )
    parser.add_argument("--json", action="store_true", help="print it for a program to read")

    def run(args: Namespace) -> int:
        from daterun.command.gaps import run as run_gaps

        return run_gaps(args, sys.stdout)

    parser.set_defaults(run=run)
