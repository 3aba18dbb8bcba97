"""What is sought: each private value as the words and numbers in which a page might tell it.

What cannot be told from what a reader sees anyway is not sought, and a value too short to mean anything within a
text is sought only where it stands alone.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from daterun.pages.amounts import say_money
from daterun.pages.wording import say_day
from daterun.pages.words import Words
from daterun.press.plaintext import tokens_of
from daterun.readers.said import Said
from daterun.readers.withheld import Withheld
from daterun.trade.dates import Day
from daterun.trade.money import Money

Tokens = tuple[str, ...]

SHORTEST = 4
"""Letters and figures. A shorter text is sought only where it stands alone."""

LONG_ENOUGH_TO_PART = 5
"""Words. A line or sentence of as many is sought by itself too, so that a part of a long note is found."""

_SIGNS = {"GBP": "£", "USD": "$", "EUR": "€", "JPY": "¥"}


@dataclass(frozen=True, slots=True)
class Needle:
    """One way in which a page might tell a private value.

    Alone tells that it counts only as the whole of an element, an attribute or a text in data. A proper one is
    a single word with a capital letter, which counts only as it was typed.
    """

    tokens: Tokens
    withheld: Withheld
    is_alone: bool = False
    proper: str = ""


def make_needles(
    withheld: Iterable[Withheld], said: Said, words: Words, theme_texts: Iterable[str], allowed: Iterable[str]
) -> tuple[Needle, ...]:
    """Make what is sought of private values, given what is said anyway and what the keeper allows by name."""
    known = _Known(said, theme_texts, allowed)
    found: dict[tuple[Tokens, bool], Needle] = {}
    for each in withheld:
        for needle in _needles(each, words, said):
            if not known.tells(needle):
                found.setdefault((needle.tokens, needle.is_alone), needle)
    return tuple(found.values())


class _Known:
    """What a reader sees anyway, as words and numbers."""

    def __init__(self, said: Said, theme_texts: Iterable[str], allowed: Iterable[str]) -> None:
        self.allowed = {tuple(tokens_of(each)) for each in allowed}
        self.names = {tuple(tokens_of(each)) for each in said.names}
        self.theme = _Stretch(theme_texts)
        self.coinage = _Stretch(said.known)
        self.everything = _Stretch([*said.names, *said.known, *said.free])

    def tells(self, needle: Needle) -> bool:
        tokens = needle.tokens
        if tokens in self.allowed or tuple(tokens_of(str(needle.withheld.value))) in self.allowed:
            return True
        if not isinstance(needle.withheld.value, str):
            return False
        if tokens in self.names or tokens in self.coinage or tokens in self.theme:
            return True
        return not needle.withheld.is_strict and tokens in self.everything


class _Stretch:
    """Texts in which a run of words can be looked up."""

    def __init__(self, texts: Iterable[str]) -> None:
        parted = [tokens_of(each) for each in texts]
        self._words = {word for each in parted for word in each}
        self._text = f" {' / '.join(' '.join(each) for each in parted)} "

    def __contains__(self, tokens: Tokens) -> bool:
        return self._words.issuperset(tokens) and f" {' '.join(tokens)} " in self._text


def _needles(withheld: Withheld, words: Words, said: Said) -> Iterator[Needle]:
    value = withheld.value
    if isinstance(value, Money):
        if value not in said.amounts:
            yield from (Needle(each, withheld) for each in dict.fromkeys(_amount(value, words)))
    elif isinstance(value, Day):
        if value.day is not None and value not in said.days:
            yield from (Needle(each, withheld) for each in dict.fromkeys(_day(value, words)))
    else:
        yield from _text(value, withheld)


def _amount(money: Money, words: Words) -> Iterator[Tokens]:
    """Word an amount with its currency before or behind it; alone only where it can be taken for nothing else."""
    number, currency = tokens_of(f"{money.amount:f}")[0], money.currency.lower()
    figures = {(number,), tuple(tokens_of(say_money(money, words)))[:-1]}
    figures.add((f"{money.amount:.2f}".replace(".", ","),))
    for each in sorted(figures):
        yield (*each, currency)
        yield (currency, *each)
        if money.currency in _SIGNS:
            yield (_SIGNS[money.currency], *each)
            yield (*each, _SIGNS[money.currency])
    yield (f"{number}{currency}",)
    yield (f"{currency}{number}",)
    if "." in number and len(number) > 5:
        yield (number,)


def _day(day: Day, words: Words) -> Iterator[Tokens]:
    month = words.say(f"month.{day.month}")
    for text in (
        say_day(day, words),
        str(day),
        f"{day.day} {month} {day.year}",
        f"{month} {day.day} {day.year}",
        f"{day.day}.{day.month}.{day.year}",
        f"{day.day:02}.{day.month:02}.{day.year}",
        f"{day.day:02}/{day.month:02}/{day.year}",
    ):
        yield tuple(tokens_of(text))


def _text(text: str, withheld: Withheld) -> Iterator[Needle]:
    whole = tuple(tokens_of(text))
    if not whole:
        return
    if len(whole) == 1 and whole[0].isdecimal() and len(whole[0]) <= SHORTEST:
        return  # a bare number or a year: every page has such
    has_form = any(c.isupper() or c.isdigit() for c in text)
    telling = [each for each in whole if len(each) > 2 or each[0].isdigit()]
    if sum(map(len, whole)) < SHORTEST or (len(telling) < 2 and not has_form):
        yield Needle(whole, withheld, is_alone=True)
        return
    proper = text.strip() if len(whole) == 1 and whole[0].isalpha() else ""
    yield Needle(whole, withheld, proper=proper)
    for part in _parts(text):
        tokens = tuple(tokens_of(part))
        if len(tokens) >= LONG_ENOUGH_TO_PART and tokens != whole:
            yield Needle(tokens, withheld)


def _parts(text: str) -> Iterator[str]:
    """Part a note into its lines and sentences."""
    for line in text.splitlines():
        yield line
        piece = line
        for stop in (". ", "! ", "? ", "; "):
            piece = piece.replace(stop, "\n")
        yield from piece.splitlines()
