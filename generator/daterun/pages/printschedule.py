"""The keeper's schedule for the insurer: each coin by the categories of Object ID, its value, and the totals.

The categories are those of the Object ID checklist (ICOM, archives.icom.museum/object-id/heritage/check.html):
type of object, materials and techniques, measurements, inscriptions and markings, distinguishing features, title,
subject, date or period, maker, a short description, photographs.
"""

from collections.abc import Iterable

from daterun.naming import listed
from daterun.pages.amounts import say_money
from daterun.pages.binder import Binder
from daterun.pages.pieces import Fact, Link, Table
from daterun.pages.printchoice import Choice, choose_coins
from daterun.pages.printentries import capital, say_size
from daterun.pages.printpieces import ScheduleItem, ScheduleSheets
from daterun.pages.printsides import PrintedSides
from daterun.pages.printtitle import title_of
from daterun.pages.sides import FACES, face_of
from daterun.pages.standing import Standing
from daterun.pages.wording import (
    name_coin,
    name_mint,
    name_variety,
    say_alloy,
    say_date,
    say_day,
    say_grade_line,
    say_kind,
    say_metal,
)
from daterun.pages.words import Words
from daterun.problems import CannotContinue
from daterun.readers.closed import KeeperFields
from daterun.readers.reader import Reader
from daterun.records.coins import CoinKind, Strike
from daterun.trade.measures import show_grams, show_millimetres
from daterun.trade.money import Money

ITEMS_OF_A_VOLUME = 1_500
"""A schedule of more coins is made in volumes, for the memory follows the pictures of one."""


def plan_schedule(binder: Binder, sides: PrintedSides, choice: Choice) -> tuple[ScheduleSheets, ...]:
    """Plan the schedule. Raise CannotContinue for any reader but the keeper."""
    if binder.catalogue.reader is not Reader.KEEPER:
        raise CannotContinue("the schedule is for the keeper alone; write --for keeper")
    chosen = choose_coins(binder.cabinet, choice)
    words = binder.words
    title = title_of(binder, "schedule")
    facts = _front(binder, chosen)
    totals = _totals(chosen, words)
    blanks = tuple(words.say(f"print.{key}") for key in ("address", "policy", "signed"))
    cautions = (words.say("caution.values"), words.say("caution.grades"))
    starts = range(0, max(len(chosen), 1), ITEMS_OF_A_VOLUME)
    return tuple(
        ScheduleSheets(
            title,
            words.say("print.volume", number=nth, of=len(starts)) if len(starts) > 1 else "",
            facts,
            totals,
            blanks,
            tuple(
                _item(binder, sides, each, number)
                for number, each in enumerate(chosen[start : start + ITEMS_OF_A_VOLUME], start=start + 1)
            ),
            cautions,
        )
        for nth, start in enumerate(starts, start=1)
    )


def _front(binder: Binder, chosen: tuple[Standing, ...]) -> tuple[Fact, ...]:
    words = binder.words
    pieces = sum(each.coin.private.quantity for each in chosen if each.coin.private is not None)
    valued = sum(
        1 for each in chosen if each.coin.private is not None and each.coin.private.value is not None
    )
    days = sorted(
        each.coin.private.value.on
        for each in chosen
        if each.coin.private is not None
        and each.coin.private.value is not None
        and each.coin.private.value.on is not None
    )
    facts = [
        Fact(words.say("print.collection"), binder.catalogue.settings.title),
        Fact(words.say("print.owner"), binder.catalogue.settings.keeper or words.say("print.not-told")),
        Fact(words.say("print.items"), words.count("coins", len(chosen)), words.count("pieces", pieces)),
        Fact(
            words.say("print.photographed"),
            words.count("coins", sum(1 for each in chosen if each.coin.photos)),
        ),
        Fact(words.say("print.valued"), words.count("coins", valued)),
    ]
    if days:
        span = [say_day(days[0], words), say_day(days[-1], words)]
        facts.append(Fact(words.say("print.values-of"), " – ".join(dict.fromkeys(span))))
    return tuple(facts)


def _totals(chosen: Iterable[Standing], words: Words) -> Table:
    """Add up the values, each currency by itself; coins without a value are counted apart."""
    sums: dict[str, tuple[int, Money]] = {}
    without = 0
    for each in chosen:
        value = each.coin.private.value if each.coin.private is not None else None
        if value is None:
            without += 1
            continue
        currency = value.amount.currency
        count, total = sums.get(currency, (0, None))
        added = value.amount if total is None else Money(total.amount + value.amount.amount, currency)
        sums[currency] = (count + 1, added)
    rows = [
        (Link(currency), Link(words.number(count)), Link(say_money(total, words)))
        for currency, (count, total) in sorted(sums.items())
    ]
    if without:
        rows.append((Link(words.say("print.no-value")), Link(words.number(without)), Link("")))
    headings = tuple(words.say(f"print.{key}") for key in ("currency", "items", "total"))
    return Table(words.say("print.totals"), headings, tuple(rows), (1, 2))


def _item(binder: Binder, sides: PrintedSides, standing: Standing, number: int) -> ScheduleItem:
    words, private = binder.words, standing.coin.private
    assert private is not None
    value = private.value
    basis = []
    if value is not None:
        basis = [say_day(value.on, words) if value.on is not None else "", value.basis]
    facts = [
        Fact(words.say(f"object.{key}"), text) for key, text in _categories(binder, standing, private) if text
    ]
    return ScheduleItem(
        number,
        name_coin(standing, words),
        sides.faces(standing),
        tuple(facts),
        say_money(value.amount, words) if value is not None else words.say("print.no-value"),
        "; ".join(each for each in basis if each),
        binder.notes.note(standing.coin.notes),
    )


def _categories(binder: Binder, standing: Standing, private: KeeperFields) -> Iterable[tuple[str, str]]:
    words, coin, place = binder.words, standing.coin, standing.place
    series, standard, is_regular = standing.series, place.standard, coin.kind is CoinKind.REGULAR
    kind = words.say("print.coin") if is_regular else say_kind(coin.kind, words)
    yield "type", kind + (f", {words.count('pieces', private.quantity)}" if private.quantity != 1 else "")
    made = [words.say("print.struck")]
    if is_regular and standard is not None:
        alloy = say_alloy(standard, words)
        made.insert(0, say_metal(standard, words) + (f" ({alloy})" if alloy else ""))
    if coin.strike is not Strike.ORDINARY:
        made.append(words.say(f"strike.{coin.strike.value}"))
    yield "materials", ", ".join(made)
    yield "measurements", _measurements(standing, words)
    if is_regular:
        legends = [
            f"{capital(words.say(f'side.{side.value}'))}: {face.legend}"
            for side in FACES
            if (face := face_of(place.type, side)) is not None and face.legend
        ]
        if standard is not None and standard.edge:
            legends.append(f"{capital(words.say('side.edge'))}: {standard.edge}")
        yield "inscriptions", "; ".join(legends)
    features = [
        *([coin.departs] if coin.departs else []),
        *(each.reading or name_variety(each) for each in place.varieties if "variety" in standing.divided),
        *coin.problems,
        *([coin.design] if coin.design else []),
        *([coin.grade_reasons] if coin.grade_reasons else []),
    ]
    yield "features", "; ".join(features)
    yield "title", series.name + (f" ({series.face})" if series.face and series.face != series.name else "")
    pictured = [place.monarch.name] if place.monarch is not None else []
    pictured += [
        f"{capital(words.say(f'side.{side.value}'))}: {face.design}"
        for side in FACES
        if is_regular and (face := face_of(place.type, side)) is not None and face.design
    ]
    yield "subject", "; ".join(pictured)
    yield "date", say_date(coin.date, words)
    maker = [name_mint(coin.mint, standing, words)] if coin.mint else []
    maker += [standing.issuer.name] if standing.issuer is not None else []
    yield "maker", ", ".join(maker)
    yield "grade", say_grade_line(coin, words)
    if coin.graded_by:
        yield "certificate", " ".join(each for each in (coin.graded_by, coin.certificate_number) if each)
    yield "photographs", _photographs(standing, words)


def _measurements(standing: Standing, words: Words) -> str:
    """Word what was measured; what was not stands as laid down, and says so."""
    coin, standard = standing.coin, standing.place.standard
    law = standard if coin.kind is CoinKind.REGULAR else None
    parts = []
    if coin.weight is not None:
        parts.append(show_grams(coin.weight.grams))
    elif law is not None and law.weight is not None:
        parts.append(words.say("print.by-standard", value=show_grams(law.weight.grams)))
    if coin.diameter is not None:
        parts.append(show_millimetres(coin.diameter.mm))
    elif law is not None and law.diameter is not None:
        parts.append(words.say("print.by-standard", value=show_millimetres(law.diameter.mm)))
    if coin.thickness is not None:
        parts.append(f"{words.say('measure.thickness')} {show_millimetres(coin.thickness.mm)}")
    if coin.axis is not None:
        parts.append(f"{words.say('measure.axis')} {coin.axis}")
    return ", ".join(parts)


def _photographs(standing: Standing, words: Words) -> str:
    shown = [
        words.say(f"side.{side}") for side in ("obverse", "reverse", "edge") if side in standing.coin.photos
    ]
    if not shown:
        return words.say("print.no-photographs")
    size = say_size(standing, words)
    return listed(shown, words.say("and")) + (f". {size}" if size else "")
