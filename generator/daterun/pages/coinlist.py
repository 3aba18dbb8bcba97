"""The list of all coins by denomination, with those out of the ordinary apart."""

from daterun.pages import addresses
from daterun.pages.binder import Binder
from daterun.pages.cards import cards
from daterun.pages.pieces import Link
from daterun.pages.views import CoinGroup, CoinListView, Page
from daterun.records.coins import CoinKind


def coin_list_page(binder: Binder) -> Page:
    """Plan the list of all coins: regular ones by denomination, the other kinds, then those parted with."""
    words, cabinet = binder.words, binder.cabinet
    held = [each for each in cabinet.coins if each.coin.is_held]
    groups = []
    for denomination in cabinet.denominations:
        regular = [
            each
            for each in cabinet.of_denomination(denomination)
            if each.coin.is_held and each.coin.kind is CoinKind.REGULAR
        ]
        if regular:
            name = binder.of_issuer(denomination.name, denomination.issuer.id)
            groups.append(
                CoinGroup(
                    Link(name, addresses.of_denomination(denomination.series[0])),
                    words.count("coins", len(regular)),
                    cards(regular, binder.sides, words),
                )
            )
    others = [each for each in held if each.coin.kind is not CoinKind.REGULAR]
    if others:
        groups.append(
            CoinGroup(
                Link(words.say("coins.others")),
                words.say("coins.others-line"),
                cards(others, binder.sides, words),
            )
        )
    parted = [each for each in cabinet.coins if not each.coin.is_held]
    if parted:
        name = words.say("mark.parted")
        groups.append(
            CoinGroup(
                Link(name[:1].upper() + name[1:]),
                words.count("coins", len(parted)),
                cards(parted, binder.sides, words),
            )
        )
    view = CoinListView(words.say("nav.coins"), words.count("coins", len(held)), tuple(groups))
    return binder.page(addresses.COINS, "coins", view)
