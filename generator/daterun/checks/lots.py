"""Whether lots and sets hold the coins they should, and a lot's price is shared out to the last piece."""

import re
from collections import defaultdict
from collections.abc import Iterator

from daterun.checks.histories import check_way
from daterun.checks.places import place_of_entry
from daterun.checks.wholeness import is_broken, mapping_is_whole
from daterun.problems import Place, Problem, Severity, meant
from daterun.records.catalogue import Catalogue
from daterun.records.coins import Coin
from daterun.records.located import Mapping
from daterun.records.lots import Lot
from daterun.records.ownership import WAYS_IN
from daterun.trade.money import totals


def check_lots(catalogue: Catalogue) -> Iterator[Problem]:
    """Find lots that are not there or hold nothing, and shares that do not go with their coins or price."""
    members: dict[str, list[Coin]] = defaultdict(list)
    for coin in catalogue.coins:
        if coin.lot:
            members[coin.lot].append(coin)
            yield from _check_coin(catalogue, coin)
    for lot in catalogue.lots.values():
        yield from check_way(lot.how, lot.at, WAYS_IN, "way in")
        coins = members[lot.id]
        if (sound := re.sub(r"[^\w-]+", "-", lot.id)) != lot.id:
            yield Problem(
                "short name",
                f'"{lot.id}" is not a short name, so that no coin can name this lot',
                Place(lot.path),
                f"call the file {sound.strip('-') or 'fair-2019'}.yaml",
            )
        elif not coins:
            yield Problem(
                "empty lot",
                f'no coin names the lot "{lot.id}"',
                Place(lot.path),
                f"write lot: {lot.id} in the files of its coins",
                Severity.ADVICE,
            )
        yield from _check_shares(catalogue, lot, coins)
    yield from _check_sets(catalogue)


def _check_coin(catalogue: Catalogue, coin: Coin) -> Iterator[Problem]:
    lot = catalogue.lots.get(coin.lot)
    if lot is None:
        if not is_broken(catalogue, "lots", coin.lot):
            yield Problem(
                "unknown lot",
                f'there is no lot "{coin.lot}"',
                coin.at.place_of("lot"),
                meant(coin.lot, catalogue.lots) or f"it is written in content/lots/{coin.lot}.yaml",
            )
    elif coin.acquired is not None and coin.acquired.price is not None and lot.price is not None:
        yield Problem(
            "price twice",
            "the coin has a price of its own and a share of its lot's",
            coin.acquired.at.place_of("price"),
            "take this one out, or write it as the coin's share in the lot",
            Severity.ADVICE,
            (lot.at.place_of("price"),),
        )


def _check_shares(catalogue: Catalogue, lot: Lot, coins: list[Coin]) -> Iterator[Problem]:
    """Check the shares that are written out; a price shared equally leaves nothing to check."""
    in_lot = [each.id for each in coins]
    for coin_id in lot.shares:
        place = place_of_entry(lot.at, "share", coin_id)
        if coin_id in in_lot or is_broken(catalogue, "coins", coin_id):
            continue
        there = catalogue.coin(coin_id)
        said = f'there is no coin "{coin_id}"' if there is None else f"{coin_id} does not name this lot"
        hint = meant(coin_id, in_lot) if there is None else f"write lot: {lot.id} in its file, or take it out"
        yield Problem("share of no coin", said, place, hint)
    if not lot.shares or not mapping_is_whole(lot.at, "share", lot.shares):
        return
    yield from _check_sum(lot)
    for coin in coins:
        if coin.id not in lot.shares:
            yield Problem(
                "coin without a share",
                f"{coin.id} belongs to this lot and has no share of its price",
                lot.at.place_of_key("share"),
                f"write {coin.id}: with its amount",
                Severity.ADVICE,
                (coin.at.place_of("lot"),),
            )


def _check_sum(lot: Lot) -> Iterator[Problem]:
    currencies = {each.currency for each in lot.shares.values()}
    if lot.price is not None:
        currencies.add(lot.price.currency)
    if len(currencies) > 1:
        at = lot.at.get("share")
        base = lot.price.currency if lot.price is not None else next(iter(lot.shares.values())).currency
        odd = next(coin_id for coin_id, each in lot.shares.items() if each.currency != base)
        yield Problem(
            "currencies",
            f"a share in {lot.shares[odd].currency} makes no sum with {base}",
            at.place_of(odd) if isinstance(at, Mapping) else lot.at.place_of("share"),
            "write the whole lot in one currency",
            others=(lot.at.place_of("price"),) if lot.price is not None else (),
        )
        return
    (total,) = totals(lot.shares.values())
    if lot.price is not None and total.amount != lot.price.amount:
        yield Problem(
            "shares",
            f"the shares add up to {total}, and the price is {lot.price}",
            lot.at.place_of("price"),
            f"{abs(total.amount - lot.price.amount)} {total.currency} "
            f"{'too much' if total.amount > lot.price.amount else 'too little'} is shared out",
            others=(lot.at.place_of_key("share"),),
        )


def _check_sets(catalogue: Catalogue) -> Iterator[Problem]:
    sets: dict[str, list[Coin]] = defaultdict(list)
    for coin in catalogue.coins:
        if coin.set:
            sets[coin.set].append(coin)
    for name, coins in sets.items():
        if len(coins) == 1 and coins[0].quantity < 2:
            others = [each for each in sets if each != name]
            close = meant(name, others)
            yield Problem(
                "set of one",
                f'no other coin belongs to the set "{name}"',
                coins[0].at.place_of("set"),
                close if close.startswith("did you mean") else "",
                Severity.ADVICE,
            )
