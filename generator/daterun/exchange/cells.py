"""Cells as people type them, brought to how a catalogue writes them: money, days, measures and dates.

What is well written already stays as it was typed. What can be read in two ways is refused with a reason.
"""

import re
from collections.abc import Callable
from dataclasses import dataclass, replace

from daterun.exchange.months import month_of
from daterun.exchange.tables import Figure
from daterun.problems import Misread
from daterun.trade.dates import parse_coin_date, parse_day
from daterun.trade.measures import parse_axis, parse_length, parse_weight
from daterun.trade.money import parse_currency, parse_money

BLANKS = {"", "-", "–", "—", "n/a", "?"}
"""What says nothing in a cell of a number, day, grade or mint mark."""


@dataclass(frozen=True, slots=True)
class Habits:
    """How a table was typed: which of day and month comes first (None where not said), and its decimals.

    The currency is that of amounts without one, "" where none is known. Hours tells that bare numbers for the
    die axis are hours.
    """

    day_first: bool | None = None
    decimal_comma: bool = False
    currency: str = ""
    hours: bool = True


_SIGNS = {"£": "GBP", "€": "EUR"}
_NUMBER = r"[0-9][0-9.,' \u00a0\u202f_]*|[.,][0-9]+"
_AMOUNT = re.compile(rf"(?P<before>[^\W\d]+|[£€$])?\s*(?P<number>{_NUMBER})\s*(?P<after>[^\W\d]+|[£€$])?")
_MEASURED = re.compile(rf"(?P<number>{_NUMBER})\s*(?P<unit>[^\d\s].*)?")
_YEAR_FIRST = re.compile(r"([0-9]{4})[-./]([0-9]{1,2})[-./]([0-9]{1,2})(?:[T ][0-9:.]+)?")
_YEAR_LAST = re.compile(r"([0-9]{1,2})\s*[-./]\s*([0-9]{1,2})\s*[-./]\s*([0-9]{2}|[0-9]{4})")
_NAMED = re.compile(
    r"(?:(?P<day>[0-9]{1,2})(?:st|nd|rd|th|er)?[ .-]+)?(?P<month>[^\W\d_]{3,9})\.?[ -]+"
    r"(?:(?P<later>[0-9]{1,2})(?:st|nd|rd|th)?,? +)?(?P<year>[0-9]{4})"
)
_WAYS = {
    "purchase": "bought",
    "purchased": "bought",
    "buy": "bought",
    "gift": "given",
    "present": "given",
    "swap": "exchanged",
    "swapped": "exchanged",
    "trade": "exchanged",
    "traded": "exchanged",
    "exchange": "exchanged",
    "inheritance": "inherited",
    "find": "found",
}


def write_number(text: str, habits: Habits) -> str:
    """Write a number with a point: "1.234,50" and "1,234.50" leave no doubt, "1,234" is by the habits."""
    plain = re.sub(r"[' \u00a0\u202f_]", "", text)
    comma, point = plain.rfind(","), plain.rfind(".")
    if comma >= 0 and point >= 0:
        decimal = "," if comma > point else "."
        plain = plain.replace("." if decimal == "," else ",", "")
        return plain.replace(",", ".")
    if comma >= 0:
        grouped = re.fullmatch(r"[0-9]{1,3}(,[0-9]{3})+", plain)
        if grouped and not (habits.decimal_comma and plain.count(",") == 1):
            return plain.replace(",", "")
        return plain.replace(",", ".") if plain.count(",") == 1 else plain
    if re.fullmatch(r"[0-9]{1,3}(\.[0-9]{3})+", plain) and (habits.decimal_comma or plain.count(".") > 1):
        return plain.replace(".", "")
    return plain


def write_money(text: str, habits: Habits) -> str:
    """Write an amount with its currency behind it."""
    if not (habits.decimal_comma and "," in text) and _is_good(parse_money, text):
        return text
    found = _AMOUNT.fullmatch(text)
    if found is None or (found["before"] and found["after"]):
        raise Misread(f'"{text}" is not an amount of money')
    sign = found["before"] or found["after"] or ""
    currency = _SIGNS.get(sign, sign.upper()) or habits.currency
    if sign == "$":
        if not habits.currency.endswith("D"):
            raise Misread(f'"{text}" does not say which dollar', "say the currency, as in --currency NZD")
        currency = habits.currency
    if not currency:
        raise Misread(f'"{text}" names no currency', "say which is meant, as in --currency GBP")
    written = f"{write_number(found['number'].strip(), habits)} {currency}"
    try:
        parse_money(written)
    except Misread:
        raise Misread(f'"{text}" is not an amount of money', "as in 45.00 GBP") from None
    return written


def write_currency(text: str) -> str:
    """Write a currency by its three letters; raise Misread where it is none."""
    return parse_currency(_SIGNS.get(text, text.upper()))


def write_day(text: str, habits: Habits) -> str:
    """Write a day by year, month and day; raise Misread where day and month cannot be told apart."""
    if _is_good(parse_day, text):
        return text
    if found := _YEAR_FIRST.fullmatch(text):
        return _day(text, int(found[1]), int(found[2]), int(found[3]))
    if found := _NAMED.fullmatch(text):
        month = month_of(found["month"])
        day = found["day"] or found["later"]
        if month is not None and not (found["day"] and found["later"]):
            return _day(text, int(found["year"]), month, int(day)) if day else f"{found['year']}-{month:02}"
    if found := _YEAR_LAST.fullmatch(text):
        first, second = int(found[1]), int(found[2])
        if len(found[3]) == 2:
            raise Misread(f'"{text}" has a year of two figures', "write four")
        if habits.day_first is None and first <= 12 and second <= 12 and first != second:
            raise Misread(
                f'of "{text}" it is not said whether day or month comes first',
                "say --day-first or --month-first",
            )
        day_first = first > 12 or (second <= 12 and habits.day_first is not False)
        day_number, month = (first, second) if day_first else (second, first)
        return _day(text, int(found[3]), month, day_number)
    raise Misread(f'"{text}" is not a day', "as in 2024-02-11")


def _day(text: str, year: int, month: int, day: int) -> str:
    written = f"{year:04}-{month:02}-{day:02}"
    try:
        parse_day(written)
    except Misread as misread:
        raise Misread(f'"{text}" is no day of the calendar', misread.hint) from None
    return written


def _measure(unit: str, parse: Callable[[str], object]) -> Callable[[str, Habits], str]:
    def write(text: str, habits: Habits) -> str:
        if not (habits.decimal_comma and "," in text) and _is_good(parse, text):
            return text
        found = _MEASURED.fullmatch(text)
        written = (
            f"{write_number(found['number'].strip(), habits)} {found['unit'] or unit}" if found else text
        )
        parse(written)
        return written

    return write


def write_axis(text: str, habits: Habits) -> str:
    """Write a die axis; a bare number is in hours or degrees as the whole column is."""
    if re.fullmatch(r"[0-9]{1,3}", text):
        text = f"{text}h" if habits.hours else f"{text}°"
    parse_axis(text)
    return text


def write_coin_date(text: str, _: Habits) -> str:
    """Write the date on a coin; "n.d." is a coin without one."""
    typed = text.removesuffix(".0")
    return "undated" if typed.casefold() in ("n.d.", "nd", "n.d", "no date", "undated") else typed


def _whole(text: str, _: Habits) -> str:
    return text.removesuffix(".0")


def _word(text: str, _: Habits) -> str:
    return _WAYS.get(text.casefold(), text.lower())


def _yes_or_no(text: str, _: Habits) -> str:
    return {"y": "yes", "n": "no", "x": "yes", "1": "yes", "0": "no"}.get(text.casefold(), text)


_NO_FIRMS = {"no", "n", "none", "raw", "ungraded", "not graded", "uncertified"}
"""What says in the column of the grading firm that the coin has no certificate."""


def _firm(text: str, _: Habits) -> str:
    """Write who gave a certificate; raise Misread where it is said only that there is one."""
    if text.casefold() in ("yes", "y", "x"):
        raise Misread(f'"{text}" does not say which firm graded the coin', "write its name")
    return "" if text.casefold() in _NO_FIRMS else text


_weight, _length = _measure("g", parse_weight), _measure("mm", parse_length)

WRITERS: dict[str, Callable[[str, Habits], str]] = {
    **dict.fromkeys(("acquired price", "parted price", "value amount"), write_money),
    **dict.fromkeys(("added", "acquired on", "parted on", "value on", "certificate on"), write_day),
    **dict.fromkeys(("weight", "gravity dry", "gravity wet", "gravity reading"), _weight),
    **dict.fromkeys(("diameter", "thickness"), _length),
    **dict.fromkeys(("strike", "kind", "acquired how", "parted how"), _word),
    "axis": write_axis,
    "date": write_coin_date,
    "quantity": _whole,
    "certificate by": _firm,
    "certificate sealed": _yes_or_no,
}
"""How a cell of a column is written; those of other columns stay as they are."""

_NO_TEXT = {*WRITERS, "series", "grade", "certificate grade", "mint"}
"""Columns of no free text, where a dash is no more than a blank."""


def write_cell(column: str, text: str, habits: Habits) -> str:
    """Write a cell as a catalogue does; "" where it says nothing."""
    if column == "notes":
        return text
    if isinstance(text, Figure):
        habits = replace(habits, decimal_comma=False)
    typed = text.strip()
    if column in _NO_TEXT and typed.casefold() in BLANKS:
        return ""
    return WRITERS[column](typed, habits) if typed and column in WRITERS else typed


def _is_good(parse: Callable[[str], object], text: str) -> bool:
    try:
        parse(text)
    except Misread:
        return False
    return True


def splits_mint(text: str) -> tuple[str, str] | None:
    """Part a date typed with its mint mark, as in "1902 K" or "1902-K"; None where it is none."""
    found = re.fullmatch(r"([0-9]{4})[ -]?([A-Za-z]{1,3})", text.strip())
    if found is None:
        return None
    return parse_coin_date(found[1]).key, found[2]
