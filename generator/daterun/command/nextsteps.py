"""What to do next in a folder, said when no command is given."""

from collections.abc import Iterator
from pathlib import Path

SETTINGS = Path("content", "catalogue.yaml")
TABLES = (".csv", ".tsv", ".xlsx")


def say_next(folder: Path) -> Iterator[str]:
    """Say, a line at a time, how a folder stands and which commands come next; nothing is written."""
    if not (folder / SETTINGS).is_file():
        yield from _without_catalogue(folder)
        return
    from daterun.checks.catalogue import check_catalogue
    from daterun.records.catalogue import read_catalogue

    catalogue, problems = read_catalogue(folder)
    coins = len(catalogue.coins)
    errors = sum(each.is_error for each in (*problems, *check_catalogue(catalogue, None)))
    yield f"{catalogue.settings.title}: {_counted(coins, 'coin')} of {len(catalogue.series)} series."
    if errors:
        yield f"{_counted(errors, 'error')} to be mended first; this shows each with its line:"
        yield "  daterun check"
        return
    if not catalogue.series:
        yield "No series is there yet. Write one into content/series, as the README shows, or begin anew with"
        yield "starter series: daterun start NEW-FOLDER --series united-kingdom"
        return
    if not coins:
        yield "No coin is there yet. Add one, or take in a spreadsheet:"
        yield f"  daterun add {_a_series(list(catalogue.series))} DATE"
        yield f"  daterun intake {_table_in(folder) or 'FILE.csv'}"
        return
    yield from _with_coins(folder)


def say_where(folder: Path) -> str:
    """Say where a command that found no catalogue in a folder could find one; "" where there is one after all."""
    if (folder / SETTINGS).is_file():
        return ""
    if (above := _catalogue_above(folder)) is not None:
        return f"there is one in {above}: go there, or say --folder {above}"
    return "say --folder to name the folder of your catalogue, or begin one with daterun start"


def _catalogue_above(folder: Path) -> Path | None:
    return next((each for each in folder.absolute().parents if (each / SETTINGS).is_file()), None)


def _without_catalogue(folder: Path) -> Iterator[str]:
    if (above := _catalogue_above(folder)) is not None:
        yield f"This folder lies within the catalogue {above}. Commands are given there:"
        yield f"  cd {above}"
        return
    if any(each for each in folder.iterdir() if not each.name.startswith(".")):
        yield "There is no catalogue in this folder. Begin one in a new folder beside what is here:"
    else:
        yield "There is no catalogue in this folder. Begin one here, or in a new folder:"
        yield "  daterun start"
    yield "  daterun start my-coins"
    yield "  daterun start my-coins --series united-kingdom"
    if table := _table_in(folder):
        yield f"Then take in the table that lies here: daterun intake --folder my-coins {table}"


def _with_coins(folder: Path) -> Iterator[str]:
    page = folder / "output" / "public" / "index.html"
    if not page.is_file():
        yield "The site is not built yet:"
        yield "  daterun build"
    elif _newest(folder / "content") > page.parent.joinpath(".daterun-edition").stat().st_mtime:
        yield "Files have changed since the site was last made; make it again, or watch it as you write:"
        yield "  daterun build"
    else:
        yield f"The site is built; open {page.resolve().as_uri()}"
    yield "  daterun preview"
    yield "Which dates are missing:"
    yield "  daterun gaps"


def _newest(root: Path) -> float:
    return max((each.stat().st_mtime for each in root.rglob("*") if each.is_file()), default=0.0)


def _table_in(folder: Path) -> str:
    found = sorted(each.name for each in folder.iterdir() if each.suffix.lower() in TABLES and each.is_file())
    return found[0] if found else ""


def _a_series(keys: list[str]) -> str:
    first = sorted(keys)[0]
    short = first.rpartition("/")[2]
    return short if sum(key.endswith(f"/{short}") for key in keys) == 1 else first


def _counted(number: int, what: str) -> str:
    return f"{number:,} {what if number == 1 else what + 's'}"
