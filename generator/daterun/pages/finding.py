"""The page on which coins are found: all of them as a table, and the rows of data that its script reads.

The rows serve the page of comparison too. What may be in them is what the closed records hold.
"""

import hashlib
import re
from collections.abc import Iterable

from daterun.checks.slots import figures_of
from daterun.pages import addresses
from daterun.pages.addresses import denomination_of
from daterun.pages.binder import Binder
from daterun.pages.cabinet import Standing
from daterun.pages.findviews import Cell, Choice, DataFile, FindRow, FindView
from daterun.pages.measured import diameter_hundredths
from daterun.pages.pieces import Link, Picture
from daterun.pages.sides import tone_of
from daterun.pages.views import Page
from daterun.pages.wording import (
    name_coin,
    name_mint,
    name_type,
    name_variety,
    say_date,
    say_grade,
    say_kind,
    say_struck,
)
from daterun.records.coins import CoinKind, Strike
from daterun.records.series import Side
from daterun.trade.measures import show_grams, show_millimetres

MOST_ROWS = 400
"""Rows in the page itself, some 400 bytes each; beyond, only the first stand there without scripts."""

PART = 2000
"""Rows in one file of data: some 600 kB, and their texts, which a browser reads at once."""

_NO_YEAR = 9999
"""Sorts coins without a year after all others."""

_MARKUP = re.compile(r"https?://\S+|[*_`#>|\[\]]+")

Row = tuple[Cell, ...]


def data_files(binder: Binder) -> tuple[DataFile, ...]:
    """Make the data of all coins held, in the order of the cabinet: rows in parts, then their texts in parts."""
    held = held_coins(binder)
    return (
        *_parts("coins", "daterunCoins", [row_of(binder, each) for each in held]),
        *_parts("texts", "daterunTexts", [text_of(binder, each) for each in held]),
    )


def held_coins(binder: Binder) -> tuple[Standing, ...]:
    return tuple(each for each in binder.cabinet.coins if each.coin.is_held)


def find_page(binder: Binder, data: Iterable[DataFile]) -> Page:
    """Plan the page on which coins are found."""
    words, held = binder.words, held_coins(binder)
    shown = held if len(held) <= MOST_ROWS else held[:MOST_ROWS]
    is_whole = len(shown) == len(held)
    view = FindView(
        heading=words.say("find.heading"),
        lead=words.say("find.lead"),
        choices=_choices(binder, held),
        columns=tuple(
            Link(words.say(f"find.{key}"), key)
            for key in ("name", "date", "monarch", "metal", "grade", "problem")
        ),
        rows=tuple(_plain_row(binder, each) for each in shown),
        remark=words.count("coins", len(held))
        if is_whole
        else words.say("find.first", n=len(shown), all=words.number(len(held))),
        rest=Link("") if is_whole else Link(words.say("find.rest"), addresses.COINS),
        data=tuple(each.address for each in data),
    )
    return binder.page(addresses.FIND, "find", view, view.lead)


def row_of(binder: Binder, standing: Standing) -> Row:
    """Lay out a coin as a row of data; find.js and compare.js know the places by number."""
    words, coin, place = binder.words, standing.coin, standing.place
    standard = place.standard
    grade = coin.grade
    diameter = coin.diameter or (standard.diameter if standard is not None else None)
    return (
        coin.id,
        name_coin(standing, words),
        _denomination(binder, standing),
        say_date(coin.date, words),
        coin.date.year if coin.date.year is not None else _NO_YEAR,
        _monarch(binder, standing),
        _metal(binder, standing),
        say_grade(coin, words) if grade is not None else "",
        int(grade.low * 100) if grade is not None else 0,
        int(grade.high * 100) if grade is not None else 0,
        _problems(binder, standing),
        tuple(name_variety(each) for each in place.varieties),
        _strike(binder, standing),
        name_mint(coin.mint, standing, words) if coin.mint else "",
        name_type(place.type, standing.series, standing.issuer) if place.type is not None else "",
        show_grams(coin.weight.grams) if coin.weight is not None else "",
        show_millimetres(diameter.mm) if diameter is not None else "",
        str(coin.axis) if coin.axis is not None else "",
        say_struck(figures_of(place.issue), words)
        if place.issue is not None and coin.kind is CoinKind.REGULAR
        else "",
        _picture(binder.sides.telling(standing).picture),
        _picture(binder.sides.side(standing, Side.OBVERSE).picture),
        _picture(binder.sides.side(standing, Side.REVERSE).picture),
        tone_of(standard.metal if standard is not None else None),
        diameter_hundredths(standing),
    )


def text_of(binder: Binder, standing: Standing) -> str:
    """Gather the words by which a coin is found, in small letters: name, readings, design, reasons and notes."""
    coin = standing.coin
    parts = [
        name_coin(standing, binder.words),
        *(each.reading for each in standing.place.varieties),
        coin.departs,
        coin.design,
        coin.grade_reasons,
        coin.notes,
    ]
    return " ".join(_MARKUP.sub(" ", " ".join(parts)).lower().split())


def _parts(stem: str, name: str, rows: list[Row] | list[str]) -> list[DataFile]:
    files = []
    for start in range(0, len(rows), PART):
        part = tuple(rows[start : start + PART])
        digest = hashlib.blake2b(repr(part).encode(), digest_size=6).hexdigest()
        files.append(DataFile(f"find/{stem}-{start // PART + 1}-{digest}.js", name, part))  # type: ignore[arg-type]
    return files


def _plain_row(binder: Binder, standing: Standing) -> FindRow:
    words, coin = binder.words, standing.coin
    standard = standing.place.standard
    return FindRow(
        Link(name_coin(standing, words), addresses.of_coin(coin.id)),
        binder.sides.telling(standing).picture,
        tone_of(standard.metal if standard is not None else None),
        (
            say_date(coin.date, words),
            _monarch(binder, standing),
            _metal(binder, standing),
            say_grade(coin, words) if coin.grade is not None else "",
            _problems(binder, standing),
        ),
    )


def _choices(binder: Binder, held: tuple[Standing, ...]) -> tuple[Choice, ...]:
    """Offer what the coins held have; a choice of one thing alone is none."""
    words = binder.words
    problems = sorted({each for standing in held for each in standing.coin.problems})
    found = (
        Choice("monarch", words.say("find.monarch"), words.say("find.any"), _options(_reigns(binder, held))),
        Choice(
            "denomination",
            words.say("find.denomination"),
            words.say("find.any"),
            _options(_denomination(binder, each) for each in held),
        ),
        Choice(
            "metal",
            words.say("find.metal"),
            words.say("find.any"),
            _options(_metal(binder, each) for each in held),
        ),
        Choice(
            "variety",
            words.say("find.variety"),
            words.say("find.any"),
            _options(name_variety(each) for standing in held for each in standing.place.varieties),
        ),
        Choice(
            "problem",
            words.say("find.problem"),
            words.say("find.with-or-without"),
            (
                Link(words.say("find.without"), "none"),
                Link(words.say("find.with"), "any"),
                *(Link(each) for each in problems),
            )
            if any(each.coin.is_problem for each in held)
            else (),
        ),
    )
    return tuple(each for each in found if len(each.options) > 1)


def _options(texts: Iterable[str]) -> tuple[Link, ...]:
    return tuple(Link(each) for each in dict.fromkeys(texts) if each)


def _reigns(binder: Binder, held: tuple[Standing, ...]) -> list[str]:
    """Name the monarchs of coins in order of reign."""
    there = {_monarch(binder, each) for each in held}
    names = [
        binder.of_issuer(monarch.name, issuer.id)
        for issuer in binder.issuers
        for monarch in binder.cabinet.monarchs(issuer.id)
    ]
    return [each for each in names if each in there]


def _denomination(binder: Binder, standing: Standing) -> str:
    return binder.of_issuer(denomination_of(standing.series), standing.series.issuer)


def _monarch(binder: Binder, standing: Standing) -> str:
    if standing.monarch is None:
        return ""
    return binder.of_issuer(standing.monarch.name, standing.series.issuer)


def _metal(binder: Binder, standing: Standing) -> str:
    """Name the metal; that of a coin out of the ordinary is not the standard's."""
    standard = standing.place.standard
    if standard is None or standing.coin.kind is not CoinKind.REGULAR:
        return ""
    return binder.words.say(f"metal.{standard.metal.name.replace(' ', '-')}")


def _problems(binder: Binder, standing: Standing) -> str:
    if standing.coin.problems:
        return ", ".join(standing.coin.problems)
    return binder.words.say("mark.problem") if standing.coin.is_problem else ""


def _strike(binder: Binder, standing: Standing) -> str:
    coin, words = standing.coin, binder.words
    parts = [] if coin.strike is Strike.ORDINARY else [words.say(f"strike.{coin.strike.value}")]
    if coin.kind is not CoinKind.REGULAR:
        parts.append(say_kind(coin.kind, words))
    return ", ".join(parts) or words.say("strike.ordinary")


def _picture(picture: Picture | None) -> Cell:
    """Give a picture's smallest address, a middle one, and whether it is round; nought where there is none."""
    if picture is None:
        return 0
    middle = picture.sizes[max(len(picture.sizes) - 2, 0)]
    return picture.smallest.address, middle.address, int(picture.is_round)
