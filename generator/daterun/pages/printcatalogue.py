"""The printed catalogue: its volumes, each with cover, grids, denominations, entries, collections and index."""

from collections.abc import Iterable, Sequence
from dataclasses import replace

from daterun.pages.binder import Binder
from daterun.pages.cabinet import Cabinet
from daterun.pages.denominations import sources_of
from daterun.pages.grids import Run, count_runs, say_years
from daterun.pages.gridviews import GridView
from daterun.pages.pieces import Fact
from daterun.pages.printchoice import Choice, choose_coins, choose_plates, reigning, say_choice
from daterun.pages.printentries import capital, entry_of, refer_back, say_face_of
from daterun.pages.printgrids import whole_grids
from daterun.pages.printindex import index_of
from daterun.pages.printpieces import (
    CatalogueSheets,
    Collection,
    Entry,
    Essay,
    Plate,
    PrintedSide,
    PrintedType,
    Section,
)
from daterun.pages.printsides import PrintedSides
from daterun.pages.printtitle import title_of
from daterun.pages.sides import FACES, face_of
from daterun.pages.standards import dates_table, standards_table, varieties_table
from daterun.pages.standing import Standing
from daterun.pages.wording import (
    name_coin,
    name_type,
    say_grade_line,
)
from daterun.pages.words import Words
from daterun.problems import CannotContinue
from daterun.records.series import Series

COINS_OF_A_VOLUME = 1_000
"""A catalogue of more coins is made in volumes, for the memory follows the pictures of one."""

COVER, PLATE = 6200, 7600
"""How wide a coin is on the cover and on a plate, in hundredths of a millimetre."""


def plan_catalogue(binder: Binder, sides: PrintedSides, choice: Choice) -> tuple[CatalogueSheets, ...]:
    """Plan the catalogue, in as many volumes as it needs; the numbers of the entries run through them all."""
    chosen = order_by_reign(binder.cabinet, choose_coins(binder.cabinet, choice))
    numbers = {each.coin.id: nth for nth, each in enumerate(chosen, start=1)}
    plates = choose_plates(binder.cabinet, choice)
    if lost := [each.coin.id for each in plates if each.coin.id not in numbers]:
        raise CannotContinue(f"{lost[0]} is to be a plate, but is not among the coins chosen")
    sections = list(_sections(binder, sides, chosen, numbers, choice))
    volumes = _volumes(sections, binder.words)
    whole = whole_grids(binder) if choice.is_whole else ()
    found = []
    for nth, each in enumerate(volumes, start=1):
        own = {entry.number for section in each for entry in section.entries}
        here = [standing for standing in chosen if numbers[standing.coin.id] in own]
        is_first = nth == 1
        found.append(
            CatalogueSheets(
                title=title_of(binder, "catalogue"),
                volume=_volume(binder.words, nth, len(volumes)),
                first_number=min(own, default=1),
                choice=say_choice(choice, binder.cabinet, binder.words),
                cover=_cover(binder, sides, here),
                introduction=_introduction(binder, choice) if is_first else None,
                grids=whole if is_first else (),
                sections=tuple(each),
                plates=tuple(
                    _plate(binder, sides, one, numbers[one.coin.id])
                    for one in plates
                    if numbers[one.coin.id] in own
                ),
                collections=_collections(binder, here, numbers),
                sources=sources_of(_series(binder, here, choice)),
                index=index_of(binder, here, numbers),
                reading=_reading(binder),
                cautions=_cautions(binder),
                colophon=_colophon(binder, len(chosen)),
            )
        )
    return tuple(found)


def order_by_reign(cabinet: Cabinet, coins: Iterable[Standing]) -> tuple[Standing, ...]:
    """Order coins by denomination, then by reign, those of none last; within a reign they stay as they were."""
    shelf = {series.key: nth for nth, each in enumerate(cabinet.denominations) for series in each.series}

    def place(standing: Standing) -> tuple[int, int]:
        monarch = reigning(standing)
        monarchs = standing.issuer.monarchs if standing.issuer is not None else ()
        reign = monarchs.index(monarch) if monarch in monarchs else len(monarchs)
        return shelf[standing.series.key], reign

    return tuple(sorted(coins, key=place))


def _volume(words: Words, nth: int, of: int) -> str:
    return words.say("print.volume", number=nth, of=of) if of > 1 else ""


def _series(binder: Binder, standings: Iterable[Standing], choice: Choice) -> list[Series]:
    """List the series of which there are coins, or all of them where all is printed, in their order."""
    keys = {each.series.key for each in standings}
    every = [series for each in binder.cabinet.denominations for series in each.series]
    return [each for each in every if choice.is_whole or each.key in keys]


def _sections(
    binder: Binder,
    sides: PrintedSides,
    chosen: Sequence[Standing],
    numbers: dict[str, int],
    choice: Choice,
) -> Iterable[Section]:
    words = binder.words
    kept = {each.key for each in _series(binder, chosen, choice)}
    of_series: dict[str, list[Standing]] = {}
    for each in chosen:
        of_series.setdefault(each.series.key, []).append(each)
    for denomination in binder.cabinet.denominations:
        series = [each for each in denomination.series if each.key in kept]
        if not series:
            continue
        runs = [Run(each, binder.cabinet.runs[each.key], each.name) for each in series]
        filled, slots = count_runs(runs)
        coins = [each for one in series for each in of_series.get(one.key, ())]
        coins.sort(key=lambda each: numbers[each.coin.id])
        yield Section(
            heading=binder.of_issuer(denomination.name, denomination.issuer.id),
            lead=words.say(
                "denomination.lead",
                face=series[0].face or denomination.name,
                issuer=denomination.issuer.name,
                years=say_years(runs, words),
                filled=words.number(filled),
                slots=words.number(slots),
            ),
            grids=tuple(grid for run in runs if (grid := _tray(binder, run)) is not None),
            standards=standards_table(binder, series),
            types=tuple(_type(binder, one, nth) for one in series for nth in range(len(one.types))),
            varieties=varieties_table(binder, series),
            dates=tuple(dates_table(binder, each, denomination.issuer) for each in series),
            entries=tuple(entry_of(binder, sides, each, numbers[each.coin.id]) for each in coins),
        )


def _tray(binder: Binder, run: Run) -> GridView | None:
    filled, slots = (binder.words.number(each) for each in count_runs((run,)))
    return binder.grids.tray(
        run, binder.words.say("denomination.tray", series=run.name, filled=filled, slots=slots)
    )


def _type(binder: Binder, series: Series, nth: int) -> PrintedType:
    words, coin_type = binder.words, series.types[nth]
    facts = []
    for side in FACES:
        face = face_of(coin_type, side)
        if face is not None and say_face_of(face):
            facts.append(Fact(capital(words.say(f"side.{side.value}")), say_face_of(face), face.designer))
    if coin_type.note:
        facts.append(Fact(words.say("fact.note"), coin_type.note))
    issuer = binder.catalogue.issuers.get(series.issuer)
    name, years = name_type(coin_type, series, issuer), str(coin_type.span)
    return PrintedType(name, "" if years in name else years, tuple(facts))


def _volumes(sections: Sequence[Section], words: Words) -> list[list[Section]]:
    """Part the denominations into volumes; one of very many coins goes on in the next."""
    volumes: list[list[Section]] = [[]]
    room = COINS_OF_A_VOLUME
    for section in sections:
        rest = section.entries
        first = True
        while first or rest:
            if room == 0:
                volumes.append([])
                room = COINS_OF_A_VOLUME
            taken, rest = rest[:room], rest[room:]
            room -= len(taken)
            taken = refer_back(taken, words)
            volumes[-1].append(replace(section, entries=taken) if first else _continued(section, taken))
            first = False
    return volumes


def _continued(section: Section, entries: tuple[Entry, ...]) -> Section:
    return Section(section.heading, "", (), None, (), None, (), entries)


def _cover(binder: Binder, sides: PrintedSides, coins: Sequence[Standing]) -> tuple[PrintedSide, ...]:
    """Choose the plate of the cover: the best coin that has photos of both sides."""
    best = binder.cabinet.best(each for each in coins if {"obverse", "reverse"} <= each.coin.photos.keys())
    return sides.faces(best, COVER) if best is not None else ()


def _plate(binder: Binder, sides: PrintedSides, standing: Standing, number: int) -> Plate:
    words = binder.words
    line = f"{name_coin(standing, words)}. {capital(say_grade_line(standing.coin, words))}."
    return Plate(number, f"{number}  {line}", sides.faces(standing, PLATE))


def _introduction(binder: Binder, choice: Choice) -> Essay | None:
    if not choice.introduction:
        return None
    essay = next((each for each in binder.catalogue.essays if each.id == choice.introduction), None)
    if essay is None:
        known = ", ".join(each.id for each in binder.catalogue.essays) or "none"
        raise CannotContinue(f'there is no essay "{choice.introduction}"; known here: {known}')
    text = binder.notes.note(essay.text)
    return Essay(essay.title, text) if text is not None else None


def _collections(
    binder: Binder, coins: Iterable[Standing], numbers: dict[str, int]
) -> tuple[Collection, ...]:
    """Gather the coins by the former owners whose names are published."""
    by_owner: dict[str, list[tuple[int, str]]] = {}
    for each in coins:
        for owner in dict.fromkeys(owner.owner for owner in each.coin.provenance if owner.publish):
            by_owner.setdefault(owner, []).append((numbers[each.coin.id], name_coin(each, binder.words)))
    return tuple(Collection(owner, tuple(by_owner[owner])) for owner in sorted(by_owner, key=str.casefold))


def _reading(binder: Binder) -> tuple[str, ...]:
    """Word how the entries are to be read, for the page after the cover."""
    return tuple(binder.words.say(f"print.reading-{key}") for key in ("order", "measures", "sides"))


def _cautions(binder: Binder) -> tuple[str, ...]:
    words = binder.words
    return tuple(words.say(f"caution.{key}") for key in ("grades", "weights", "cleaning"))


def _colophon(binder: Binder, coins: int) -> tuple[str, ...]:
    words = binder.words
    return (words.say("print.made", coins=words.count("coins", coins)), words.say("print.type"))
