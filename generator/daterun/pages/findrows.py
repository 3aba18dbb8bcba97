"""The data that the scripts of finding and comparing read: rows, ranks, texts and records of the coins held.

What may be in them is what the closed records hold.
"""

import re
import unicodedata
from collections.abc import Iterable, Sequence
from dataclasses import replace

from daterun.checks.slots import figures_of
from daterun.pages.addresses import denomination_of
from daterun.pages.binder import Binder
from daterun.pages.cabinet import Standing
from daterun.pages.findtexts import data_file, plain_words, put_text
from daterun.pages.findviews import Cell, DataFile, FindData
from daterun.pages.measured import diameter_hundredths
from daterun.pages.pieces import Picture
from daterun.pages.sides import tone_of
from daterun.pages.wording import (
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

PART = 2000
"""Coins in one file of rows, of ranks or of texts: some 400 kB, which a browser reads at once."""

RECORDS = 500
"""Coins in one file of records, of which a page reads four at most."""

RANKED = (1, 5, 6, 10)
"""The places in a row of what is sorted by its text: name, monarch, metal and problem."""

NO_YEAR = 9999
"""Sorts coins without a year after all others."""

_FIGURES = re.compile(r"\d+")

Row = tuple[Cell, ...]


def lay_down(binder: Binder, part: int = PART) -> FindData:
    """Lay down the data of all coins held, so many in a part."""
    held = held_coins(binder)
    rows = [row_of(binder, each) for each in held]
    ranks = list(zip(*(rank(str(row[place]) for row in rows) for place in RANKED), strict=True))
    by_id = sorted(held, key=lambda each: each.coin.id.encode("utf-16-be", "surrogatepass"))
    return FindData(
        _parts("coins", "daterunCoins", rows, part),
        tuple(
            data_file(
                "orders",
                "daterunOrders",
                nth,
                tuple(one for each in ranks[start : start + part] for one in each),
            )
            for nth, start in enumerate(range(0, len(ranks), part))
        ),
        _parts("texts", "daterunTexts", [text_of(binder, each) for each in held], part),
        _parts("records", "daterunRecords", [record_of(binder, each) for each in by_id], max(part // 4, 1)),
    )


def lay_down_text(binder: Binder, data: FindData, standing: Standing) -> FindData:
    """Lay down the words of one coin anew; the rest is as it was. A coin that is not held has none there."""
    nth = next((n for n, each in enumerate(held_coins(binder)) if each.coin.id == standing.coin.id), None)
    if nth is None:
        return data
    part, place = divmod(nth, len(data.texts[0].rows))
    made = put_text(data.texts[part], place, text_of(binder, standing))
    return replace(data, texts=(*data.texts[:part], made, *data.texts[part + 1 :]))


def lay_down_picture(data: FindData, coin_id: str, before: Picture, after: Picture) -> FindData:
    """Lay down another picture of a coin; the rest is as it was. A coin that is not held has none there."""
    return replace(
        data,
        coins=_exchange(data.coins, "coins", coin_id, _picture(before, 0), _picture(after, 0)),
        records=_exchange(data.records, "records", coin_id, _picture(before, -2), _picture(after, -2)),
    )


def _exchange(
    files: tuple[DataFile, ...], stem: str, coin_id: str, before: Cell, after: Cell
) -> tuple[DataFile, ...]:
    """Exchange a cell in the row of a coin."""
    for part, file in enumerate(files):
        for nth, row in enumerate(file.rows):
            if isinstance(row, tuple) and row[0] == coin_id:
                other = tuple(after if each == before else each for each in row)
                rows = (*file.rows[:nth], other, *file.rows[nth + 1 :])
                made = data_file(stem, file.name, part, rows)
                return (*files[:part], made, *files[part + 1 :])
    return files


def held_coins(binder: Binder) -> tuple[Standing, ...]:
    return binder.once.of(
        "held coins", lambda: tuple(each for each in binder.cabinet.coins if each.coin.is_held)
    )


def row_of(binder: Binder, standing: Standing) -> Row:
    """Lay out a coin as a row of the table; find.js knows the places by number, and compare.js the first two."""
    words, coin, place = binder.words, standing.coin, standing.place
    grade = coin.grade
    return (
        coin.id,
        binder.sides.name(standing),
        denomination(binder, standing),
        say_date(coin.date, words),
        coin.date.year if coin.date.year is not None else NO_YEAR,
        monarch(binder, standing),
        metal(binder, standing),
        say_grade(coin, words) if grade is not None else "",
        int(grade.low * 100) if grade is not None else 0,
        int(grade.high * 100) if grade is not None else 0,
        problems(binder, standing),
        tuple(name_variety(each) for each in place.varieties),
        _picture(binder.sides.telling(standing).picture, 0),
        tone(standing),
    )


def record_of(binder: Binder, standing: Standing) -> Row:
    """Lay out what is compared of a coin; compare.js knows the places by number, see ``comparing.COLUMNS``."""
    words, coin, place = binder.words, standing.coin, standing.place
    standard = place.standard
    diameter = coin.diameter or (standard.diameter if standard is not None else None)
    return (
        coin.id,
        binder.sides.name(standing),
        say_date(coin.date, words),
        monarch(binder, standing),
        binder.once.of(("type", standing.series.key, id(place.type)), lambda: _type(standing)),
        tuple(name_variety(each) for each in place.varieties),
        name_mint(coin.mint, standing, words) if coin.mint else "",
        _strike(binder, standing),
        say_grade(coin, words) if coin.grade is not None else "",
        problems(binder, standing),
        metal(binder, standing),
        show_grams(coin.weight.grams) if coin.weight is not None else "",
        show_millimetres(diameter.mm) if diameter is not None else "",
        str(coin.axis) if coin.axis is not None else "",
        binder.once.of(
            ("said struck", id(place.issue)),
            lambda: say_struck(figures_of(place.issue), words) if place.issue is not None else "",
        )
        if coin.kind is CoinKind.REGULAR
        else "",
        _picture(binder.sides.side(standing, Side.OBVERSE).picture, -2),
        _picture(binder.sides.side(standing, Side.REVERSE).picture, -2),
        tone(standing),
        diameter_hundredths(standing),
    )


def text_of(binder: Binder, standing: Standing) -> str:
    """Gather the words by which a coin is found, in small letters: name, readings, design, reasons and notes."""
    coin = standing.coin
    parts = [
        binder.sides.name(standing),
        *(each.reading for each in standing.place.varieties),
        coin.departs,
        coin.design,
        coin.grade_reasons,
        coin.notes,
    ]
    return " ".join(each for each in map(plain_words, parts) if each)


def rank(texts: Iterable[str]) -> list[int]:
    """Tell the place of each text among all, alike for like texts; see ``sort_key``."""
    found = list(texts)
    places = {text: nth for nth, text in enumerate(sorted(set(found), key=sort_key))}
    return [places[each] for each in found]


def sort_key(text: str) -> tuple[str, str]:
    """Order texts as a reader looks for them: numbers by their size, letters whatever their case and marks."""
    plain = "".join(
        each for each in unicodedata.normalize("NFKD", text.casefold()) if not unicodedata.combining(each)
    )
    return _FIGURES.sub(lambda found: found[0].zfill(12), plain), text


def denomination(binder: Binder, standing: Standing) -> str:
    series = standing.series
    return binder.once.of(
        ("denomination", series.key), lambda: binder.of_issuer(denomination_of(series), series.issuer)
    )


def monarch(binder: Binder, standing: Standing) -> str:
    if (found := standing.monarch) is None:
        return ""
    issuer = standing.series.issuer
    return binder.once.of(("monarch", issuer, found.id), lambda: binder.of_issuer(found.name, issuer))


def metal(binder: Binder, standing: Standing) -> str:
    """Name the metal; that of a coin out of the ordinary is not the standard's."""
    standard = standing.place.standard
    if standard is None or standing.coin.kind is not CoinKind.REGULAR:
        return ""
    return binder.words.say(f"metal.{standard.metal.name.replace(' ', '-')}")


def problems(binder: Binder, standing: Standing) -> str:
    if standing.coin.problems:
        return ", ".join(standing.coin.problems)
    return binder.words.say("mark.problem") if standing.coin.is_problem else ""


def tone(standing: Standing) -> str:
    standard = standing.place.standard
    return tone_of(standard.metal if standard is not None else None)


def _type(standing: Standing) -> str:
    found = standing.place.type
    return name_type(found, standing.series, standing.issuer) if found is not None else ""


def _strike(binder: Binder, standing: Standing) -> str:
    coin, words = standing.coin, binder.words
    parts = [] if coin.strike is Strike.ORDINARY else [words.say(f"strike.{coin.strike.value}")]
    if coin.kind is not CoinKind.REGULAR:
        parts.append(say_kind(coin.kind, words))
    return ", ".join(parts) or words.say("strike.ordinary")


def _picture(picture: Picture | None, nth: int) -> Cell:
    """Give the address of one size of a picture and whether it is round; nought where there is none."""
    if picture is None:
        return 0
    shown = picture.sizes[max(nth, -len(picture.sizes))]
    return shown.address, int(picture.is_round)


def _parts(stem: str, name: str, rows: Sequence[Row] | Sequence[str], size: int) -> tuple[DataFile, ...]:
    return tuple(
        data_file(stem, name, nth, tuple(rows[start : start + size]))  # type: ignore[arg-type]
        for nth, start in enumerate(range(0, len(rows), size))
    )
