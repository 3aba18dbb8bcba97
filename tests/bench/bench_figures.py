"""Times all completeness, aims and figures of a great many coins, in one process.

    python tests/bench/bench_figures.py [COINS [SERIES]]

100,000 coins in 50 series unless said otherwise. The records are made in memory, closed for the keeper, and
arranged; what is timed is all that is worked out of them: runs, aims with their curves, completeness by series,
monarch, decade and year, wants, upgrades and spares, metal, worth, cost and weights. Beside it stands what
wording all of it for pages takes.
"""

import gc
import itertools
import platform
import resource
import sys
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path

from daterun.bundled import themes_folder
from daterun.checks.wanted import spare_everywhere
from daterun.checks.weighing import losses_by_word
from daterun.checks.worth import sum_content, sum_money
from daterun.pages.aims import aim_pages
from daterun.pages.binder import Binder
from daterun.pages.cabinet import arrange
from daterun.pages.counts import by_decade, by_monarch, by_series, by_year
from daterun.pages.figures import figure_pages
from daterun.pages.gatherings import gathering_pages
from daterun.pages.grids import Grids
from daterun.pages.holdings import gather
from daterun.pages.notes import Notes
from daterun.pages.sides import Sides
from daterun.pages.wanted import upgrades_of, wanted_slots
from daterun.press.theme import DEFAULT, find_theme
from daterun.press.words import read_words
from daterun.problems import Place
from daterun.readers.closing import close_catalogue
from daterun.readers.reader import Reader
from daterun.records.catalogue import Catalogue, read_catalogue
from daterun.records.coins import Coin, read_coin
from daterun.records.fields import Reading
from daterun.records.frontmatter import PartedText
from daterun.records.located import Mapping, read_located
from daterun.trade.dates import parse_coin_date

GRADES = ("G4", "VG8", "F12", "VF20", "VF30–EF40", "EF45", "AU55", "MS63", "GVF", "EF45 details, cleaned")
FIRST, LAST = 1801, 1900
MONARCHS = ("one", "two", "three", "four")


def issuer_text() -> str:
    reigns = "\n".join(
        f"  {name}: {{name: Monarch {name}, reign: {{from: {FIRST + 25 * nth}, to: {FIRST + 25 * nth + 25}}}}}"
        for nth, name in enumerate(MONARCHS)
    )
    return f"name: Realm\nmoney: {{crown: 1000 bit}}\nmints: {{none: Here, K: There}}\nmonarchs:\n{reigns}\n"


def mintage_text(year: int) -> str:
    return "unknown" if year % 7 == 0 else f"{{by mint: {{none: {year * 13 % 9973 + 1}, K: {year}}}}}"


def series_text(nth: int) -> str:
    types = "\n".join(
        f"  - {{id: {name}, dates: {FIRST + 25 * at}–{FIRST + 25 * at + 24}, monarch: {name}}}"
        for at, name in enumerate(MONARCHS)
    )
    struck = "\n".join(f"    {year}: {mintage_text(year)}" for year in range(FIRST, LAST + 1))
    return (
        f"name: Piece {nth}\nissuer: realm\nface: {nth + 1} bit\n"
        f"standards: [{{dates: {FIRST}–{LAST}, metal: silver, fineness: .900, weight: 10 g, source: Law}}]\n"
        f"types:\n{types}\nissues:\n  source: Reports\n  struck:\n{struck}\n"
    )


def settings_text(series: int) -> str:
    every = ", ".join(f"s{nth}" for nth in range(series))
    aims = (
        ("by-date", "one per: [date], at least: F12, problems: refused"),
        ("by-mint", "one per: [date, mint]"),
        ("by-type", "one per: [type], at least: VF20, counts: high"),
        ("by-monarch", "one per: [monarch], across series: yes, at least: MS60"),
        ("by-year", "one per: [date], across series: yes, at least: EF40, problems: refused"),
        ("proofs", "one per: [date], strikes: [proof]"),
    )
    lines = [f"  - {{id: {name}, name: Aim {name}, series: [{every}], {rest}}}" for name, rest in aims]
    price = "{price: 0.61 VKR, per: g, on: 2026-10-02, source: paper}"
    head = f"title: Many\ncurrency: VKR\nas of: 2026-11-01\nmetals: {{silver: {price}}}\naims:\n"
    return head + "\n".join(lines) + "\n"


def patterns() -> list[Coin]:
    """Read a pattern of each grade from text, as files are read; the coins differ from it in their place."""
    found = []
    for nth, grade in enumerate(GRADES * 4):
        front = (
            f"series: s0\ndate: {FIRST}\ngrade: {grade}\nweight: {10 - nth % 40 / 100:.2f} g\n"
            f"acquired: {{on: {1990 + nth % 36}-05-01, price: {5 + nth % 90}.00 VKR}}\n"
        )
        node, _ = read_located(front, "content/coins/pattern.md")
        assert isinstance(node, Mapping)
        reading = Reading("content/coins/pattern.md", currency="VKR")
        coin = read_coin("pattern", node, PartedText(front, 1, "", 1), reading)
        assert coin is not None, reading.problems
        found.append(coin)
    return found


def coins(number: int, series: int) -> Iterator[Coin]:
    """Make coins by arithmetic, of every date and series in turn."""
    every = patterns()
    dates = [parse_coin_date(str(year)) for year in range(FIRST, LAST + 1)]
    places = itertools.cycle(itertools.product(range(len(dates)), range(series)))
    for nth, (at, of) in zip(range(number), places, strict=False):
        yield replace(
            every[nth * 7 % len(every)],
            id=f"s{of}/{nth}",
            series=f"s{of}",
            date=dates[at],
            mint=None if (FIRST + at) % 7 == 0 else "K" if nth % 3 else "none",
        )


def catalogue_of(number: int, series: int) -> Catalogue:
    with tempfile.TemporaryDirectory() as folder:
        files = {"catalogue.yaml": settings_text(series), "issuers/realm.yaml": issuer_text()}
        files.update({f"series/realm/s{nth}.yaml": series_text(nth) for nth in range(series)})
        for name, text in files.items():
            path = Path(folder, "content", name)
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(text, encoding="utf-8")
        read, problems = read_catalogue(Path(folder))
        assert not [each for each in problems if each.is_error], problems[:3]
    made = tuple(sorted(coins(number, series), key=lambda each: each.id))
    return Catalogue(read.settings, read.issuers, read.series, made, read.lots, read.essays)


@contextmanager
def timed(what: str, seconds: list[float]) -> Iterator[None]:
    """Time the processor, not the clock on the wall: other programs may be running."""
    start = time.process_time()
    yield
    seconds.append(time.process_time() - start)
    print(f"  {what:46} {seconds[-1]:6.2f} s", flush=True)


def main(number: int = 100_000, series: int = 50) -> None:
    print(f"{number:,} coins in {series} series, Python {platform.python_version()}, {platform.machine()}")
    catalogue = catalogue_of(number, series)
    closed = close_catalogue(catalogue, {}, Reader.KEEPER)
    gc.disable()  # as every command but the preview does
    seconds: list[float] = []
    with timed("arranged: coins, runs, aims with their curves", seconds):
        cabinet = arrange(closed)
    with timed("completeness by series, monarch, decade, year", seconds):
        counts = [*by_series(cabinet), *by_monarch(cabinet), *by_decade(cabinet), *by_year(cabinet)]
        grades = [each.grades(cabinet) for each in counts]
    with timed("wants, upgrades and spares", seconds):
        wanted = wanted_slots(cabinet)
        below = [each for aim in cabinet.aims for each in upgrades_of(cabinet, aim)]
        spare = spare_everywhere([*cabinet.runs.values(), *(each.states for each in cabinet.aims)])
    with tempfile.TemporaryDirectory() as nothing:
        words = read_words(find_theme(DEFAULT, Path(nothing), themes_folder(), Place("")), "en-GB")
    sides = Sides(closed.settings.pictures, words)
    with timed("metal, worth, cost and weights of every coin", seconds):
        holdings = gather(cabinet, sides)
        sum_content(each.content for each in holdings.every if each.content is not None)
        sum_money((each.standing.coin.id, each.cost) for each in holdings.every)
        losses_by_word(each.weighing for each in holdings.every if each.weighing is not None)
    print(f"  {'in all':46} {sum(seconds):6.2f} s")
    binder = Binder(cabinet, words, sides, Grids(cabinet, sides, words), Notes(cabinet, sides, words))
    with timed("beside it: their pages in words", seconds):
        pages = [*aim_pages(binder), *gathering_pages(binder)]
    with timed("beside it: figures, and their pages in words", seconds):
        figures = figure_pages(binder)
    print(
        f"  {len(counts)} counts, {len(grades)} means, {len(wanted):,} wanted, {len(below):,} to upgrade,"
        f" {len(spare):,} spare, {len(pages)} and {len(figures)} pages;"
        f" {resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1024:,} MB at most"
    )


if __name__ == "__main__":
    main(*(int(each) for each in sys.argv[1:3]))
