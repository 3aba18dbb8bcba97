"""The list of all coins by denomination, with those out of the ordinary apart."""

from daterun.pages import addresses
from daterun.pages.binder import Binder
from daterun.pages.cards import cards
from daterun.pages.views import CoinGroup, CoinListView, Link, Page
from daterun.records.coins import CoinKind


def coin_list_page(binder: Binder) -> Page:
    """Plan the list of all coins: regular ones by denomination, then the other kinds together."""
    words, cabinet = binder.words, binder.cabinet
    groups = []
    for denomination in cabinet.denominations:
        keys = {each.key for each in denomination.series}
        regular = [
            each for each in cabinet.coins if each.series.key in keys and each.coin.kind is CoinKind.REGULAR
        ]
        if regular:
            groups.append(
                CoinGroup(
                    Link(denomination.name, addresses.of_denomination(denomination.series[0])),
                    words.count("coins", len(regular)),
                    cards(regular, binder.sides, words),
                )
            )
    others = [each for each in cabinet.coins if each.coin.kind is not CoinKind.REGULAR]
    if others:
        groups.append(
            CoinGroup(
                Link(words.say("coins.others")),
                words.say("coins.others-line"),
                cards(others, binder.sides, words),
            )
        )
    view = CoinListView(words.say("nav.coins"), words.count("coins", len(cabinet.coins)), tuple(groups))
    return binder.page(addresses.COINS, "coins", view)
