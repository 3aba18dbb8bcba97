"""Whether a coin came and left in an order and in ways that can be, and which coins were exchanged for it."""

from collections.abc import Iterator

from daterun.checks.ids import hint_for_coin
from daterun.checks.places import place_of_word
from daterun.checks.wholeness import is_broken
from daterun.naming import listed
from daterun.problems import Place, Problem, Severity
from daterun.records.catalogue import Catalogue
from daterun.records.coins import Coin
from daterun.records.located import Mapping
from daterun.records.ownership import WAYS_IN, WAYS_OUT, Acquired, How, Owner, Parted
from daterun.trade.dates import Day


def check_histories(catalogue: Catalogue) -> Iterator[Problem]:
    """Find partings before acquisitions, ways in and out that are not, odd exchanges and owners."""
    for coin in catalogue.coins:
        came = _came(catalogue, coin)
        yield from _check_order(coin, came)
        if coin.acquired is not None:
            yield from check_way(coin.acquired.how, coin.acquired.at, WAYS_IN, "way in")
            yield from _check_exchange(catalogue, coin, coin.acquired)
        if coin.parted is not None:
            yield from check_way(coin.parted.how, coin.parted.at, WAYS_OUT, "way out")
            yield from _check_exchange(catalogue, coin, coin.parted)
        for owner in coin.provenance:
            yield from _check_owner(owner)


def _came(catalogue: Catalogue, coin: Coin) -> tuple[Day, Mapping] | None:
    """Find the day on which a coin came, by its own word or else by its lot's, and where it is written."""
    if coin.acquired is not None and coin.acquired.on is not None:
        return coin.acquired.on, coin.acquired.at
    lot = catalogue.lots.get(coin.lot)
    if lot is not None and lot.on is not None:
        return lot.on, lot.at
    return None


def _check_order(coin: Coin, came: tuple[Day, Mapping] | None) -> Iterator[Problem]:
    if came is None:
        return
    on, at = came
    if coin.parted is not None and coin.parted.on is not None and coin.parted.on.last < on.first:
        yield Problem(
            "parted before acquired",
            f"the coin left {_when(coin.parted.on)}, before it came {_when(on)}",
            coin.parted.at.place_of("on"),
            "look at both days again",
            others=(at.place_of("on"),),
        )
    if coin.added is not None and coin.added.last < on.first:
        yield Problem(
            "added before acquired",
            f"the coin was entered {_when(coin.added)}, before it came {_when(on)}",
            coin.at.place_of("added"),
            "look at both days again",
            Severity.ADVICE,
            (at.place_of("on"),),
        )


def _check_owner(owner: Owner) -> Iterator[Problem]:
    if owner.since is not None and owner.until is not None and owner.until.last < owner.since.first:
        yield Problem(
            "until before since",
            f"{owner.owner} had the coin until {owner.until}, and only since {owner.since}",
            owner.at.place_of("until"),
            "look at both days again",
            others=(owner.at.place_of("since"),),
        )


def _when(day: Day) -> str:
    return f"in {day}" if day.day is None else f"on {day}"


def check_way(how: How | None, at: Mapping, ways: tuple[How, ...], rule: str) -> Iterator[Problem]:
    """Report a way of coming or leaving, written in a mapping, that is none of the ways given."""
    if how is not None and how not in ways:
        verb = "comes in" if rule == "way in" else "leaves"
        hint = f"write {listed([each.value for each in ways], 'or')}"
        yield Problem(rule, f'no coin {verb} by being "{how.value}"', at.place_of("how"), hint)


def _check_exchange(catalogue: Catalogue, coin: Coin, event: Acquired | Parted) -> Iterator[Problem]:
    for coin_id in event.exchanged_for:
        other = catalogue.coin(coin_id)
        if other is coin:
            yield Problem(
                "exchange",
                "a coin is not exchanged for itself",
                place_of_word(event.at, "for", coin_id),
                "name the other coin, or take this one out",
                Severity.ADVICE,
            )
        elif other is None:
            if not is_broken(catalogue, "coins", coin_id):
                hint = hint_for_coin(coin_id, (each.id for each in catalogue.coins if each is not coin))
                place = place_of_word(event.at, "for", coin_id)
                yield Problem("unknown coin", f'there is no coin "{coin_id}"', place, hint)
        elif isinstance(event, Acquired) and other.parted is None and "parted" not in other.at:
            yield Problem(
                "exchange",
                f"{coin_id} was given for this coin, and has not left by its own file",
                place_of_word(event.at, "for", coin_id),
                "write parted: {how: exchanged} there",
                Severity.ADVICE,
                (Place(other.path),),
            )
    if event.exchanged_for and event.how not in (None, How.EXCHANGED):
        yield Problem(
            "exchange",
            f'coins are named under "for", and the coin was "{event.how}"',
            event.at.place_of_key("for"),
            "write how: exchanged, or take the coins out",
            Severity.ADVICE,
            (event.at.place_of("how"),),
        )
