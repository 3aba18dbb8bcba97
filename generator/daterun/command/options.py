"""Options that several commands share, and how a misspelt one is met: with the nearest word there is."""

import argparse
import sys
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import NoReturn, TypeAlias

from daterun.problems import meant

READERS = ("public", "club", "keeper")


class Parser(argparse.ArgumentParser):
    """Parses arguments; tells of wrong usage in one sentence, with a hint."""

    def __init__(self, *args: object, **kwargs: object) -> None:
        kwargs.setdefault("allow_abbrev", False)
        kwargs.setdefault("formatter_class", argparse.RawDescriptionHelpFormatter)
        super().__init__(*args, **kwargs)  # type: ignore[arg-type]

    def error(self, message: str) -> NoReturn:
        sentence, _, hint = message.partition("\n")
        self.wrong(sentence, hint)

    def wrong(self, sentence: str, hint: str = "") -> NoReturn:
        """Tell what is wrong, with a hint if there is one, and leave with exit code 2."""
        hinted = f"\n  hint: {hint}" if hint else ""
        self.exit(2, f"{self.prog}: {sentence}{hinted}\n")

    def option_names(self) -> list[str]:
        """List the long options, as they are typed."""
        found = (word.strip(",[]") for word in self.format_usage().split())
        return sorted({each for each in found if each.startswith("--")})


Subparsers: TypeAlias = "argparse._SubParsersAction[Parser]"
"""What a command's ``add`` is given; argparse has no public name for it."""


@dataclass(frozen=True, slots=True)
class OneOf:
    """Reads an option that takes one of some words; a shell can complete them."""

    words: tuple[str, ...]
    what: str

    def __call__(self, text: str) -> str:
        if text in self.words:
            return text
        raise argparse.ArgumentTypeError(f'"{text}" is not {self.what}\n{meant(text, self.words)}')


def one_of(words: Sequence[str], what: str) -> OneOf:
    """Make a reader of an option that takes one of some words."""
    return OneOf(tuple(words), what)


def add_command(subparsers: Subparsers, name: str, summary: str, example: str) -> Parser:
    """Add a command with its help and an example; every command takes the catalogue folder."""
    parser = subparsers.add_parser(name, help=summary, description=summary, epilog=f"example:\n  {example}")
    parser.set_defaults(parser=parser)
    parser.add_argument(
        "--folder",
        type=Path,
        default=Path(),
        metavar="FOLDER",
        help="the catalogue folder, which holds content (the current one unless said)",
    )
    return parser


def add_reader(parser: Parser) -> None:
    parser.add_argument(
        "--for",
        dest="reader",
        type=one_of(READERS, "a reader"),
        default="public",
        metavar="READER",
        help="for whom: public, club or keeper (public unless said)",
    )


def say(text: str) -> None:
    """Print a line for the person or program that asked."""
    print(text, flush=True)


def say_aside(text: str) -> None:
    """Print what is said beside the answer, where it spoils no output."""
    print(text, file=sys.stderr, flush=True)
