"""``daterun intake``: a spreadsheet's rows into coin files; shown first, and written only when asked for."""

from argparse import Namespace
from collections import Counter
from pathlib import Path
from typing import TYPE_CHECKING

from daterun.command.options import Subparsers, add_command, say, say_aside
from daterun.naming import listed

if TYPE_CHECKING:
    from collections.abc import Sequence

    from daterun.exchange.intake import Intake, Reject
    from daterun.exchange.mapping import ColumnMapping
    from daterun.exchange.tables import Table

SHOWN = 3
MOST_REASONS = 20


def add(subparsers: Subparsers) -> None:
    parser = add_command(
        subparsers,
        "intake",
        "Turn the rows of a spreadsheet into coin files. Nothing is written unless --write is said.",
        "daterun intake my-coins.csv --day-first --currency GBP",
    )
    parser.add_argument(
        "table", type=Path, metavar="FILE", help="a CSV file, or an XLSX workbook's first sheet"
    )
    parser.add_argument(
        "--write", action="store_true", help="write the coins; without it they are only shown"
    )
    order = parser.add_mutually_exclusive_group()
    order.add_argument("--day-first", action="store_true", help="03/04/2019 is the third of April")
    order.add_argument("--month-first", action="store_true", help="03/04/2019 is the fourth of March")
    parser.add_argument("--decimal-comma", action="store_true", help="1,234 is one and a bit")
    parser.add_argument("--currency", default="", metavar="XYZ", help="the currency of amounts without one")
    parser.add_argument("--series", default="", metavar="NAME", help="the series of rows that name none")
    parser.add_argument(
        "--rejects", type=Path, metavar="FILE", help="write the rows rejected into a new CSV file"
    )
    parser.set_defaults(run=run)


def run(args: Namespace) -> int:
    from daterun.exchange.guessing import guess_columns, guess_decimals
    from daterun.exchange.intake import take_in, write
    from daterun.exchange.mapping import ColumnMapping, complete, mapping_path, read_mapping, write_mapping
    from daterun.exchange.placing import place_new, replace_own
    from daterun.exchange.rejects import write_rejects
    from daterun.exchange.tables import WORKBOOKS, read_table
    from daterun.problems import CannotContinue
    from daterun.records.catalogue import read_catalogue

    if args.rejects and args.rejects.suffix.lower() in WORKBOOKS:
        raise CannotContinue(
            f"{args.rejects} would be a workbook; rejected rows are written as CSV, so name it .csv"
        )
    catalogue, _ = read_catalogue(args.folder)
    table = read_table(args.table)
    kept_at = mapping_path(args.table)
    kept = read_mapping(kept_at)
    before = kept or ColumnMapping({})
    order = "day first" if args.day_first else "month first" if args.month_first else ""
    columns = complete(before, guess_columns(table))
    mapping = ColumnMapping(
        columns,
        order or before.order,
        "comma" if args.decimal_comma else before.decimals or guess_decimals(table, columns),
        args.currency.upper() or before.currency,
        args.series or before.series,
    )
    intake = take_in(args.folder, catalogue, table, mapping)
    if mapping != kept:
        replace_own(kept_at, write_mapping(mapping).encode("utf-8"))
    _show(args.folder, table, mapping, intake, kept_at)
    if args.rejects and intake.rejects:
        place_new(args.rejects, write_rejects(table, intake.rejects))
        replace_own(mapping_path(args.rejects), write_mapping(mapping).encode("utf-8"))
        say(f"The rows rejected are in {args.rejects}; mend them there and take that file in as this one.")
    if args.write:
        write(args.folder, intake)
        say(f"Wrote {_coins(len(intake.taken))}." if intake.taken else "Nothing to write.")
    elif intake.taken:
        say_aside("Nothing was written; say --write to write the coins.")
    return 1 if intake.rejects else 0


def _show(folder: Path, table: "Table", mapping: "ColumnMapping", intake: "Intake", kept_at: Path) -> None:
    from daterun.photos.named import FOLDER as PHOTOS

    width = max((len(each) for each in mapping.columns), default=0)
    say(f"Columns, as kept in {kept_at}:")
    for column, target in mapping.columns.items():
        say(f"  {column:{width}}  {'–' if target == 'ignored' else '→'} {target}")
    said = {
        "days": mapping.order,
        "decimals": mapping.decimals,
        "currency": mapping.currency,
        "series": mapping.series,
    }
    if any(said.values()):
        say(f"Read with {', '.join(f'{key}: {value}' for key, value in said.items() if value)}.")
    for each in intake.taken[:SHOWN]:
        lines = each.text.split("\n")
        fields = "; ".join(lines[1 : lines.index("---", 1)])
        say(f"Row {each.row.number} is {each.coin.id}: {fields}")
    parts = [f"{_coins(len(intake.taken))} new"]
    parts += [f"{len(intake.there):,} there already"] if intake.there else []
    parts += [f"{intake.blank:,} blank"] if intake.blank else []
    parts += [f"{len(intake.rejects):,} rejected"] if intake.rejects else []
    say(f"{len(table.rows):,} {'row' if len(table.rows) == 1 else 'rows'}: {', '.join(parts)}.")
    _show_rejects(intake.rejects)
    lacking = sorted(
        {
            photo.file
            for each in intake.taken
            for photo in each.coin.photos.values()
            if not (folder / PHOTOS / photo.file).is_file()
        }
    )
    if lacking:
        what = (
            f"photo {lacking[0]} is"
            if len(lacking) == 1
            else f"{len(lacking):,} photos, {lacking[0]} first, are"
        )
        say(f"The {what} not in {folder / PHOTOS} yet; put what is lacking there before you build.")


def _show_rejects(rejects: "Sequence[Reject]") -> None:
    """Show why rows are rejected, those of one reason together, and the rest by column where they are many."""
    alike: dict[tuple[str, str], list[int]] = {}
    for each in rejects:
        alike.setdefault((each.column, each.reason), []).append(each.row.number)
    shown = list(alike.items())[:MOST_REASONS]
    for (column, reason), numbers in shown:
        where = f", {column}" if column else ""
        say(f"  {_rows(numbers)}{where}: {reason}")
    if (more := len(rejects) - sum(len(numbers) for _, numbers in shown)) > 0:
        by_column = Counter(each.column or "the whole row" for each in rejects)
        counted = ", ".join(f"{count} for {column}" for column, count in by_column.most_common())
        say(f"  and {more:,} more; in all {counted}. --rejects FILE writes them all.")


def _rows(numbers: list[int]) -> str:
    if len(numbers) == 1:
        return f"row {numbers[0]}"
    if len(numbers) <= 4:
        return f"rows {listed([str(each) for each in numbers])}"
    return f"rows {', '.join(str(each) for each in numbers[:3])} and {len(numbers) - 3:,} more"


def _coins(number: int) -> str:
    return f"{number:,} {'coin' if number == 1 else 'coins'}"
