"""What is sought: each private value as the words and numbers in which a page might tell it.

What cannot be told from what a reader sees anyway is not sought, and a value too short to mean anything within a
text is sought only where it stands alone.
"""

from collections import Counter
from collections.abc import Collection, Iterable, Iterator
from dataclasses import replace

from daterun.pages.amounts import say_money
from daterun.pages.wording import say_day
from daterun.pages.words import Words
from daterun.press.needle import Needle, Tokens
from daterun.press.plaintext import tokens_of
from daterun.readers.said import Said
from daterun.readers.withheld import Value, Withheld
from daterun.trade.dates import Day
from daterun.trade.gradewords import known_words
from daterun.trade.money import SIGNS, Money

SHORTEST = 4
"""Letters and figures. A shorter text is sought only where it stands alone."""

LONG_ENOUGH_TO_PART = 5
"""Words. A line or sentence of as many is sought by itself too, so that a part of a long note is found."""

_ORDINALS = {1: "st", 2: "nd", 3: "rd"}


def make_needles(
    withheld: Iterable[Withheld], said: Said, words: Words, theme_texts: Iterable[str], allowed: Iterable[str]
) -> tuple[Needle, ...]:
    """Make what is sought of private values, given what is said anyway and what the keeper allows by name.

    What only the keeper's own free words say is given too, as spared.
    """
    first: dict[tuple[Value, bool], Withheld] = {}
    for each in withheld:  # one that is the same gives the same needles, of which the first counts
        first.setdefault((each.value, each.is_strict), each)
    possible = [needle for each in first.values() for needle in _needles(each, words, said)]
    known = _Known(said, words, theme_texts, allowed, {each.tokens for each in possible})
    sought: dict[tuple[Tokens, bool], Needle] = {}
    spared: dict[tuple[Tokens, bool], Needle] = {}
    for needle in possible:
        if not known.tells(needle):
            found = spared if known.says_freely(needle) else sought
            found.setdefault((needle.tokens, needle.is_alone), needle)
    spare = (replace(each, is_spared=True) for key, each in spared.items() if key not in sought)
    return *sought.values(), *spare


class _Known:
    """Which runs of words, of those that are sought, a reader sees anyway."""

    def __init__(
        self,
        said: Said,
        words: Words,
        theme_texts: Iterable[str],
        allowed: Iterable[str],
        sought: Collection[Tokens],
    ) -> None:
        runs = _Runs(sought)
        self.allowed = {tuple(tokens_of(each)) for each in allowed}
        self.names = {tuple(tokens_of(each)) for each in said.names}
        self.theme = runs.met_in(theme_texts)
        self.coinage = runs.met_in(said.known)
        self.within_names = runs.met_in(said.names)
        self.within_persons = runs.met_in(said.persons)
        patterns = {pattern for each in sought if (pattern := _pattern_of(each)) is not None}
        self.patterns = _Runs(patterns).met_in((*words.with_gaps(" 0 "), *_OWN_NAMES))
        self.within_free = runs.met_in(said.free)

    def tells(self, needle: Needle) -> bool:
        tokens = needle.tokens
        withheld = needle.withheld
        if self.allowed and not self.allowed.isdisjoint((tokens, tuple(tokens_of(str(withheld.value))))):
            return True
        if not isinstance(withheld.value, str):
            return tokens in self.coinage  # a price may be a face value of the realm
        if tokens in self.names or tokens in self.coinage or tokens in self.theme:
            return True
        if tokens in self.within_persons or _pattern_of(tokens) in self.patterns:
            return True
        return not withheld.is_strict and tokens in self.within_names

    def says_freely(self, needle: Needle) -> bool:
        """Tell whether what no page needs to tell stands in the keeper's own words, which is let be."""
        withheld = needle.withheld
        return (
            isinstance(withheld.value, str) and not withheld.is_strict and needle.tokens in self.within_free
        )


_OWN_NAMES = (
    "table 0",
    "coins 0",
    "texts 0",
    "names 0",
    "dates 0",
    "grid 0",
    "strip 0",
    "records 0",
    "page 0",
)
"""How places on pages and files of an edition are called, with a number behind the word."""

_GRADES = frozenset(word.lower() for word in known_words())


def _pattern_of(tokens: Tokens) -> Tokens | None:
    """Give words with 0 for every number and grade; None where there is none, or nothing else."""
    pattern = tuple("0" if each[0].isdigit() or each in _GRADES else each for each in tokens)
    return pattern if 0 < pattern.count("0") < len(pattern) else None


class _Runs:
    """Runs of words that are looked for in texts all at once, each by the word that fewest others have."""

    def __init__(self, runs: Iterable[Tokens]) -> None:
        sought = list(runs)
        shares = Counter(word for each in sought for word in set(each))
        self._by_word: dict[str, list[tuple[int, Tokens]]] = {}
        for each in sought:
            word = min(each, key=shares.__getitem__)
            self._by_word.setdefault(word, []).append((each.index(word), each))

    def met_in(self, texts: Iterable[str]) -> set[Tokens]:
        """Give those of the runs that stand in any of the texts."""
        met: set[Tokens] = set()
        for text in texts:
            tokens = tokens_of(text)
            for nth, word in enumerate(tokens):
                for at, run in self._by_word.get(word, ()):
                    begin = nth - at
                    if begin >= 0 and tuple(tokens[begin : begin + len(run)]) == run:
                        met.add(run)
        return met


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
    whole, _, cents = f"{money.amount:.2f}".partition(".")
    for sign in " .’" if len(whole) > 3 else "":
        grouped = f"{int(whole):,}".replace(",", sign)
        figures.add(tuple(tokens_of(grouped)))
        figures.add(tuple(tokens_of(f"{grouped},{cents}")))
    for each in sorted(figures):
        yield (*each, currency)
        yield (currency, *each)
        if money.currency in SIGNS:
            yield (SIGNS[money.currency], *each)
            yield (*each, SIGNS[money.currency])
    yield (f"{number}{currency}",)
    yield (f"{currency}{number}",)
    if "." in number and len(number) > 5:
        yield (number,)


def _day(day: Day, words: Words) -> Iterator[Tokens]:
    month = words.say(f"month.{day.month}")
    assert day.day is not None, "whole days are sought"
    nth = f"{day.day}{_ORDINALS.get(day.day % 10 if day.day not in (11, 12, 13) else 0, 'th')}"
    short = [f"{number} {name}" for number in (day.day, nth) for name in (month, month[:3])]
    short += [f"{name} {number}" for number in (day.day, nth) for name in (month, month[:3])]
    for text in (
        say_day(day, words),
        *(f"{each} {day.year}" for each in short),
        *(f"{each}, {day.year}" for each in short),
        f"{day.day}/{day.month}/{day.year}",
        f"{day.month}/{day.day}/{day.year}",
        f"{day.month:02}/{day.day:02}/{day.year}",
        str(day),
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
