"""What a new coin does for the series and the aims: which slots it fills or betters, told in sentences."""

from collections.abc import Iterator
from dataclasses import replace
from decimal import Decimal

from daterun.checks.aims import AimState, fill_aim, left_out_slots
from daterun.checks.completeness import Filled, Fitting, StandardWeight, State, fill_series
from daterun.readers.closed import ClosedCatalogue, ClosedCoin
from daterun.readers.closing import close_catalogue
from daterun.readers.reader import Reader
from daterun.records.attribution import attribute
from daterun.records.catalogue import Catalogue


def say_gains(before: Catalogue, after: Catalogue, coin_id: str) -> tuple[str, ...]:
    """Say what the coin that ``after`` has beside ``before`` does: a sentence for its series and each aim."""
    old, new = (close_catalogue(each, {}, Reader.KEEPER) for each in (before, after))
    found = new.coin(coin_id)
    if found is None or not found.is_held:
        return ()
    series = new.series[found.series]
    run = [fill_series(series, _attributed(each), standard=_standard_of(each)) for each in (old, new)]
    said = [*_compare(series.name, run[0], run[1], new, coin_id)]
    for aim_before, aim_after in zip(_aims(old), _aims(new), strict=True):
        said += _compare(f"the aim “{aim_after.name}”", aim_before.states, aim_after.states, new, coin_id)
    return tuple(said)


def _attributed(catalogue: ClosedCatalogue) -> list[Fitting]:
    """Give the coins with the mint, type and varieties that follow from their dates."""
    coins: list[Fitting] = []
    for coin in catalogue.coins:
        found = attribute(coin, catalogue.series[coin.series], None)
        coins.append(
            replace(
                coin,
                mint=found.mint,
                type=found.type.id if found.type else None,
                varieties=tuple(each.id for each in found.varieties),
            )
        )
    return coins


def _standard_of(catalogue: ClosedCatalogue) -> StandardWeight:
    def weight(coin: Fitting) -> Decimal | None:
        if not isinstance(coin, ClosedCoin):
            return None
        standard = attribute(coin, catalogue.series[coin.series], None).standard
        return standard.weight.grams if standard is not None and standard.weight is not None else None

    return weight


def _aims(catalogue: ClosedCatalogue) -> list[AimState]:
    coins, standard = _attributed(catalogue), _standard_of(catalogue)
    return [
        fill_aim(aim, catalogue.series, coins, left_out_slots(aim.leave_out, catalogue.series), standard)
        for aim in catalogue.settings.aims
    ]


def _compare(
    what: str,
    before: tuple[Filled, ...],
    after: tuple[Filled, ...],
    catalogue: ClosedCatalogue,
    coin_id: str,
) -> Iterator[str]:
    for old, new in zip(before, after, strict=True):
        name = new.slot.name
        if coin_id in new.spares:
            held = catalogue.coin(new.coin or "")
            yield f"spare in {what}: {_with_grade(held)} fills {name} as well or better"
        if new.coin != coin_id:
            continue
        held = catalogue.coin(old.coin or "")
        if new.state is State.LEFT_OUT:
            yield f"{what} leaves {name} out"
        elif new.state is State.BELOW:
            yield f"{name} in {what} is there now, but below what is asked for"
        elif held is None:
            yield f"fills a gap in {what}: {name}"
        elif old.state is State.BELOW:
            yield f"fills {name} in {what}, for which {_with_grade(held)} was not good enough"
        else:
            yield f"better than the piece held in {what}: {_with_grade(held)} is spare now"


def _with_grade(coin: ClosedCoin | None) -> str:
    if coin is None:
        return "the coin there"
    return f"{coin.id} ({coin.grade})" if coin.grade is not None else coin.id
