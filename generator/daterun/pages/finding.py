"""The page on which coins are found: all of them as a table, which a script sorts and filters."""

from collections.abc import Iterable

from daterun.pages import addresses
from daterun.pages.binder import Binder
from daterun.pages.cabinet import Standing
from daterun.pages.coin import MOST_HELD
from daterun.pages.findrows import denomination, held_coins, metal, monarch, problems, tone
from daterun.pages.findviews import Choice, FindData, FindRow, FindView
from daterun.pages.pieces import Link
from daterun.pages.views import Page
from daterun.pages.wording import name_variety, say_date, say_grade

MOST_ROWS = 400
"""Rows in the page itself, some 400 bytes each; beyond, only the first stand there without scripts."""


def find_page(binder: Binder, data: FindData) -> Page:
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
        data=tuple(each.address for each in (*data.coins, *data.orders)),
        texts=tuple(each.address for each in data.texts),
        holding=Link(words.say("coin.compare", n="{n}"), addresses.COMPARE),
        most_held=MOST_HELD,
    )
    return binder.page(addresses.FIND, "find", view, view.lead)


def _plain_row(binder: Binder, standing: Standing) -> FindRow:
    words, coin = binder.words, standing.coin
    return FindRow(
        coin.id,
        binder.sides.link(standing),
        binder.sides.telling(standing).picture,
        tone(standing),
        (
            say_date(coin.date, words),
            monarch(binder, standing),
            metal(binder, standing),
            say_grade(coin, words) if coin.grade is not None else "",
            problems(binder, standing),
        ),
    )


def _choices(binder: Binder, held: tuple[Standing, ...]) -> tuple[Choice, ...]:
    """Offer what the coins held have; a choice of one thing alone is none."""
    words = binder.words
    found_problems = sorted({each for standing in held for each in standing.coin.problems})
    found = (
        Choice("monarch", words.say("find.monarch"), words.say("find.any"), _options(_reigns(binder, held))),
        Choice(
            "denomination",
            words.say("find.denomination"),
            words.say("find.any"),
            _options(denomination(binder, each) for each in held),
        ),
        Choice(
            "metal",
            words.say("find.metal"),
            words.say("find.any"),
            _options(metal(binder, each) for each in held),
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
                *(Link(each) for each in found_problems),
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
    there = {monarch(binder, each) for each in held}
    names = [
        binder.of_issuer(each.name, issuer.id)
        for issuer in binder.issuers
        for each in binder.cabinet.monarchs(issuer.id)
    ]
    return [each for each in names if each in there]
