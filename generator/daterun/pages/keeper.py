"""What of a coin only the keeper sees, worded: how it came, what it cost, where it is kept, how it left."""

from daterun.naming import listed
from daterun.pages.binder import Binder
from daterun.pages.cabinet import Standing
from daterun.pages.pieces import Fact, Link
from daterun.pages.wording import say_day
from daterun.readers.closed import KeeperFields

MOST_FELLOWS = 40
"""Pieces of a set that each of them names; more are counted, or a set of thousands would fill every page."""


def private_facts(binder: Binder, standing: Standing) -> tuple[Fact, ...]:
    """List the private facts of a coin; none at all in an edition that is not the keeper's."""
    private = standing.coin.private
    if private is None:
        return ()
    words = binder.words
    facts = [
        *_acquired(binder, private),
        *_parted(binder, private),
        *([Fact(words.say("fact.kept"), private.kept)] if private.kept else []),
    ]
    if private.value is not None:
        on = say_day(private.value.on, words) if private.value.on is not None else ""
        remark = "; ".join(each for each in (on, private.value.basis) if each)
        facts.append(Fact(words.say("fact.value"), str(private.value.amount), remark))
    if private.lot:
        lot = binder.catalogue.lots.get(private.lot)
        facts.append(Fact(words.say("fact.lot"), (lot.name if lot is not None else "") or private.lot))
    if private.set:
        pieces = binder.cabinet.of_set(private.set)
        fellows = [each for each in pieces[: MOST_FELLOWS + 1] if each.coin.id != standing.coin.id]
        shown = tuple(_to(each, binder) for each in fellows[:MOST_FELLOWS])
        more = len(pieces) - 1 - len(shown)
        remark = words.count("held.more", more) if more else ""
        facts.append(Fact(words.say("fact.set"), private.set, remark, shown))
    if private.quantity != 1:
        facts.append(Fact(words.say("fact.quantity"), words.count("pieces", private.quantity)))
    if private.note:
        facts.append(Fact(words.say("fact.private"), private.note))
    if private.photo_files:
        facts.append(
            Fact(words.say("fact.photos"), listed(sorted(private.photo_files.values()), words.say("and")))
        )
    return tuple(facts)


def _to(standing: Standing, binder: Binder) -> Link:
    return binder.sides.link(standing)


def _acquired(binder: Binder, private: KeeperFields) -> list[Fact]:
    words, acquired = binder.words, private.acquired
    facts = []
    if acquired is not None:
        way = _way(
            words.say(f"how.{acquired.how.value}") if acquired.how is not None else "",
            words.say("how.from", who=acquired.source) if acquired.source else "",
            say_day(acquired.on, words) if acquired.on is not None else "",
        )
        given = _coins(binder, acquired.exchanged_for)
        if way or acquired.note or given:
            facts.append(Fact(words.say("fact.acquired"), way, acquired.note, given))
    if private.cost is not None:
        remark = words.say("fact.cost-of-lot") if acquired is None or acquired.price is None else ""
        facts.append(Fact(words.say("fact.cost"), str(private.cost), remark))
    return facts


def _parted(binder: Binder, private: KeeperFields) -> list[Fact]:
    words, parted = binder.words, private.parted
    if parted is None:
        return []
    way = _way(
        words.say(f"how.out.{parted.how.value}") if parted.how is not None else "",
        words.say("how.to", who=parted.to) if parted.to else "",
        say_day(parted.on, words) if parted.on is not None else "",
    )
    price = str(parted.price) if parted.price is not None else ""
    received = _coins(binder, parted.exchanged_for)
    return [Fact(words.say("fact.parted"), way, price, received)]


def _way(how: str, who: str, when: str) -> str:
    """Word how a coin came or left: bought from R. Tarn, 3 April 2019."""
    deed = " ".join(each for each in (how, who) if each)
    return ", ".join(each for each in (deed, when) if each)


def _coins(binder: Binder, ids: tuple[str, ...]) -> tuple[Link, ...]:
    """Name the coins of an exchange; one that has no file stands by its id alone."""
    found = []
    for each in ids:
        standing = binder.cabinet.by_id.get(each)
        found.append(_to(standing, binder) if standing is not None else Link(each))
    return tuple(found)
