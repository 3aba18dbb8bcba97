"""``daterun why``: what a page, picture or other file was made from, and why it was made again or was not."""

import json
from argparse import Namespace
from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path
from typing import TYPE_CHECKING

from daterun.command.options import Parser, Subparsers, add_command, add_reader, say, say_aside

if TYPE_CHECKING:
    from daterun.edition import Fate
    from daterun.reasons import Absent, Bearing, Made, Taken, Unsound

SHOWN = 5
"""Files or addresses of one sort that are named in the terminal; more are counted."""

PARTS: Mapping[str, tuple[str, str, str]] = {
    "own": ("its own record and photos", "other file", "other files"),
    "photo": ("photos that it shows", "other photo", "other photos"),
    "shown": ("coins that it shows or leads to", "other coin", "other coins"),
    "counted": ("coins that are counted, or among which it has its place", "other coin", "other coins"),
    "choice": ("photos among which there is a choice of what is shown", "other photo", "other photos"),
    "series": ("series", "other series", "other series"),
    "issuer": ("issuers", "other issuer", "other issuers"),
    "essay": ("essays", "other essay", "other essays"),
    "lot": ("lots", "other lot", "other lots"),
    "settings": ("the settings", "other file", "other files"),
    "there": ("what makes links or names on every page by being there", "other file", "other files"),
    "template": ("templates", "other template", "other templates"),
    "words": ("the theme's words", "other file of words", "other files of words"),
    "asset": ("the theme's assets", "other asset", "other assets"),
}
"""How the part is worded that files take in a thing, and how more of them are counted."""

AS_PART: Mapping[str, str] = {
    "own": "about it",
    "photo": "showing it",
    "shown": "showing or naming it",
    "counted": "counting it, or with a place among its fellows",
    "choice": "with a choice of what they show",
    "there": "otherwise only for its being there",
}
"""How things are told in which a file takes a part; in all others it simply takes part."""

KINDS: Mapping[str, tuple[str, str]] = {
    "page": ("page", "pages"),
    "picture": ("picture", "pictures"),
    "plate": ("plate", "plates"),
    "data": ("file of data", "files of data"),
    "asset": ("asset", "assets"),
    "feed": ("feed", "feeds"),
    "site map": ("site map", "site maps"),
    "word to robots": ("word to robots", "words to robots"),
}

LACKS: Mapping[str, str] = {
    "parted with": "the coin was parted with",
    "printed": "it is not made by a build, but by daterun print",
    "the sign of the edition": "it is the sign by which Daterun knows the folder of an edition",
    "left over": "an earlier build made it; the next one will take it away",
    "not made by Daterun": "no build made it, and none will touch it",
}
UNUSED: Mapping[str, str] = {
    "parted with": "the coin was parted with, and only the keeper's edition shows it",
    "of no coin": "no coin claims this photo",
    "of no theme that is used": "it is of no theme that the catalogue uses, or another file stands before it",
    "for print alone": "it bears on what is printed alone",
    "not read": "this edition has no use for it, or it is of another language than the catalogue",
}


def add(subparsers: Subparsers) -> None:
    parser = add_command(
        subparsers,
        "why",
        "Say what a page, picture or other file was made from, and why the last build made it or left it.",
        "daterun why coins/ort/1897/ --for keeper",
    )
    parser.add_argument(
        "path",
        metavar="PATH",
        help="an address of the site, a file of the edition, or one of yours: a coin, a photo, a template",
    )
    add_reader(parser)
    parser.add_argument(
        "--output",
        type=Path,
        metavar="FOLDER",
        help="the folder of the site (output/READER in the catalogue folder unless said)",
    )
    parser.add_argument("--json", action="store_true", help="print all of it for a program to read")
    parser.set_defaults(run=run)


def run(args: Namespace) -> int:
    from daterun.command.progress import show_progress
    from daterun.readers.reader import Reader
    from daterun.reasons import Absent, Bearing, Made, Unknown, explain

    with show_progress() as progress:
        answer = explain(args.folder, Reader(args.reader), args.output, args.path, Path(), progress)
    if isinstance(answer, Unknown):
        parser: Parser = args.parser
        parser.wrong(f'"{answer.asked}" is nothing in the {args.reader} edition or its sources', answer.hint)
    match answer:
        case Made():
            said, lines = _made_json(answer, args.reader), made_text(answer, args.reader)
        case Bearing():
            said, lines = _bearing_json(answer, args.reader), bearing_text(answer, args.reader)
        case Absent():
            said, lines = _absent_json(answer, args.reader), absent_text(answer, args.reader)
        case _:
            return _unsound(answer, args)
    say(json.dumps(said, indent=2) if args.json else "\n".join(lines))
    return 0


def _unsound(answer: "Unsound", args: Namespace) -> int:
    from daterun.command.report import report_json, summary

    if args.json:
        say(report_json(answer.problems).rstrip())
    else:
        say(summary(answer.problems, answer.coins))
    say_aside("Nothing can be planned until daterun check is clean.")
    return 1


def made_text(made: "Made", reader: str) -> Iterator[str]:
    """Lay out what one thing is made from and what became of it."""
    yield f"{made.address}: a {KINDS[made.kind.value][0]} of the {reader} edition"
    yield ""
    if not made.sources:
        yield "Made from nothing but the program itself."
    else:
        yield "Made from"
    for part, files in made.sources.items():
        heading, *more = PARTS[part.value]
        yield f"  {heading}"
        yield from _some(files, more[0], more[1], "    ")
    yield ""
    yield f"In the last build: {_last(made.fate)}"
    yield f"Now: {_now(made.fate)}"


def bearing_text(bearing: "Bearing", reader: str) -> Iterator[str]:
    """Lay out all that is made from one file."""
    if bearing.lack is not None:
        yield f"{bearing.path}: nothing of the {reader} edition is made from it."
        yield f"The reason: {UNUSED[bearing.lack.value]}."
        return
    yield f"{bearing.path}: made from it in the {reader} edition"
    yield ""
    groups: dict[tuple[str, str], list[Taken]] = {}
    kinds, parts = list(KINDS), list(PARTS)
    for each in sorted(
        bearing.things, key=lambda each: (kinds.index(each.kind.value), parts.index(each.part.value))
    ):
        groups.setdefault((each.kind.value, AS_PART.get(each.part.value, "")), []).append(each)
    for (kind, part), things in groups.items():
        one, many = KINDS[kind]
        counted = _counted(len(things), one, many)
        yield f"  {counted}, {part}" if part else f"  {counted}"
        yield from _some([each.address for each in things], f"other {one}", f"other {many}", "    ")
    if any(each.part.value in ("template", "words", "asset") for each in bearing.things):
        yield ""
        yield "A change of any file of the theme has every page made anew, and those written that differ."
    yield ""
    fates = [each.fate for each in bearing.things]
    made = sum(bool(each.last) for each in fates)
    yield f"In the last build: {_of(made, len(fates))} made."
    stale = sum(bool(each.now) for each in fates)
    yield f"Now: {_of(stale, len(fates))} would be made again." if stale else "Now: all as they were made."


def absent_text(absent: "Absent", reader: str) -> Iterator[str]:
    """Say that and why an edition lacks something, and who has it."""
    why = LACKS.get(absent.lack.value, "")
    if absent.lack.value in ("printed", "the sign of the edition", "not made by Daterun", "left over"):
        yield f"{absent.address}: {why}."
        return
    yield f"{absent.address}: the {reader} edition has no such thing{f', for {why}' if why else ''}."
    if absent.readers:
        names = " and ".join(f"--for {each.value}" for each in absent.readers)
        yield f"There is one with {names}."


def _some(names: Iterable[str], one: str, many: str, indent: str) -> Iterator[str]:
    """List the first few names and count the rest; one more than few is named as well."""
    every = list(names)
    few = every if len(every) <= SHOWN + 1 else every[:SHOWN]
    yield from (f"{indent}{each}" for each in few)
    if len(every) > len(few):
        yield f"{indent}and {_counted(len(every) - len(few), one, many)}"


def _counted(number: int, one: str, many: str) -> str:
    return f"{number:,} {one if number == 1 else many}"


def _of(number: int, every: int) -> str:
    return f"{number:,} of {every:,}"


def _last(fate: "Fate") -> str:
    if fate.last is None:
        return "not made; no build has made it yet."
    if fate.last:
        return f"made, because {fate.last}."
    before = f" It was made last because {fate.before}." if fate.before else ""
    return f"left as it was.{before}"


def _now(fate: "Fate") -> str:
    return f"would be made again, because {fate.now}." if fate.now else "as it was made."


def _fate_json(fate: "Fate") -> dict[str, object]:
    return {
        "made_in_last_build": None if fate.last is None else bool(fate.last),
        "last_made_because": fate.last or fate.before,
        "would_be_made_again": bool(fate.now),
        "because": fate.now,
    }


def _made_json(made: "Made", reader: str) -> dict[str, object]:
    sources = {part.value: list(files) for part, files in made.sources.items()}
    return {
        "address": made.address,
        "kind": made.kind.value,
        "for": reader,
        "made_from": sources,
    } | _fate_json(made.fate)


def _bearing_json(bearing: "Bearing", reader: str) -> dict[str, object]:
    things = [
        {"address": each.address, "kind": each.kind.value, "part": each.part.value} | _fate_json(each.fate)
        for each in bearing.things
    ]
    lack = bearing.lack.value if bearing.lack is not None else ""
    return {"path": bearing.path, "kind": "source", "for": reader, "makes": things, "lack": lack}


def _absent_json(absent: "Absent", reader: str) -> dict[str, object]:
    readers = [each.value for each in absent.readers]
    return {
        "address": absent.address,
        "kind": "absent",
        "for": reader,
        "lack": absent.lack.value,
        "editions": readers,
    }
