"""``daterun add``: write the file of a new coin, take its photos along, and say what it does for the aims."""

from argparse import Namespace
from pathlib import Path

from daterun.command.options import Subparsers, add_command, say, say_aside
from daterun.exchange.yamltext import Plain

TEXTS = {
    "grade": "the grade, as in VF30 or GVF/EF",
    "mint": "its mint mark, none for the mint without one",
    "type": "its type, where the date has more than one",
    "standard": "its standard, where the date has more than one",
    "strike": "ordinary, proof or specimen",
    "kind": "error, mule, off metal, pattern, counterstamped, forgery or doubtful",
    "departs": "how a coin that is not regular departs from the rule",
    "weight": "the weight with its unit, as in 8.97g",
    "diameter": "the diameter with its unit, as in 26.4mm",
    "axis": "the die axis, as in 12h",
    "lot": "the lot it was bought in",
    "kept": "where it is kept",
    "private": "a note for yourself alone",
}
"""The options that are fields of a coin of the same name."""

LISTS = {"variety": "its variety or varieties", "problem": "why it is a problem coin"}
ACQUIRED = {
    "acquired": ("on", "the day on which it came to you, as in 2024-02-11"),
    "from": ("from", "the seller or giver"),
    "how": ("how", "bought, exchanged, given, inherited or found"),
    "price": ("price", "what was paid, with its currency, as in 45GBP"),
}
SIDES = ("obverse", "reverse", "edge")


def add(subparsers: Subparsers) -> None:
    parser = add_command(
        subparsers,
        "add",
        "Write the file of a new coin, and say what the coin does for the series and the aims.",
        "daterun add ort 1897 --grade VF30 --acquired 2024-02-11 --price 45VKR --obverse ~/camera/0412.jpg",
    )
    parser.add_argument("series", metavar="SERIES", help="the short name of its series")
    parser.add_argument("date", metavar="DATE", help="the date on it, as in 1897, 1895-96, 18?2 or undated")
    for name, about in TEXTS.items():
        parser.add_argument(f"--{name}", metavar="TEXT", help=about)
    for name, about in LISTS.items():
        parser.add_argument(f"--{name}", nargs="+", metavar="TEXT", help=about)
    for name, (_, about) in ACQUIRED.items():
        parser.add_argument(f"--{name}", dest=f"acquired_{name}", metavar="TEXT", help=about)
    parser.add_argument("--notes", default="", metavar="TEXT", help="the notes, in Markdown")
    for side in SIDES:
        parser.add_argument(
            f"--{side}", type=Path, metavar="FILE", help=f"a photo of the {side}, to be copied"
        )
    parser.add_argument("--id", default="", metavar="ID", help="its id, where you would choose it yourself")
    parser.set_defaults(run=run)


def run(args: Namespace) -> int:
    import datetime

    from daterun.command.report import report_text
    from daterun.exchange.add import prepare, write
    from daterun.exchange.coinfile import coin_path
    from daterun.records.catalogue import read_catalogue

    catalogue, _ = read_catalogue(args.folder)
    values = _values(args)
    values["added"] = datetime.date.today().isoformat()
    photos = {side: getattr(args, side) for side in SIDES if getattr(args, side)}
    coin = prepare(args.folder, catalogue, args.series, args.date, values, args.notes, photos, args.id)
    lines = coin.text.splitlines()

    def source_line(path: str, line: int) -> str | None:
        of_coin = path == coin_path(coin.id) and 1 <= line <= len(lines)
        return lines[line - 1] if of_coin else None

    if coin.problems:
        say(report_text(coin.problems, source_line))
    if not coin.is_sound:
        say_aside("Nothing was written.")
        return 1
    for path in write(args.folder, coin):
        say(f"Wrote {path}")
    for each in coin.gains:
        say(f"{each[0].upper()}{each[1:]}.")
    return 0


def _values(args: Namespace) -> dict[str, Plain]:
    values: dict[str, Plain] = {}
    for name in (*TEXTS, *LISTS):
        given = getattr(args, name)
        if given:
            values[name] = given[0] if isinstance(given, list) and len(given) == 1 else given
    acquired = {
        key: given for name, (key, _) in ACQUIRED.items() if (given := getattr(args, f"acquired_{name}"))
    }
    if acquired:
        values["acquired"] = acquired
    return values
