"""The entries of the printed catalogue: each coin's parts in the order that museum catalogues use."""

from collections.abc import Sequence
from dataclasses import replace

from daterun.checks.slots import figures_of
from daterun.naming import listed
from daterun.pages import addresses
from daterun.pages.binder import Binder
from daterun.pages.measured import diameter_hundredths
from daterun.pages.pieces import Fact, Link
from daterun.pages.printchoice import reigning
from daterun.pages.printpieces import Entry
from daterun.pages.printsides import LARGEST, PrintedSides
from daterun.pages.sides import FACES, face_of
from daterun.pages.standing import Standing
from daterun.pages.wording import (
    name_coin,
    name_mint,
    name_variety,
    say_grade,
    say_kind,
    say_owner,
    say_struck,
)
from daterun.pages.words import Words
from daterun.readers.reader import Reader
from daterun.records.coins import CoinKind, Strike
from daterun.records.series import Face
from daterun.trade.measures import show_grams, show_millimetres

SHORT_NOTE = 600
"""Letters of a note up to which an entry is kept on one page: some eight lines of a column."""


def entry_of(binder: Binder, sides: PrintedSides, standing: Standing, number: int) -> Entry:
    """Make the entry of one coin."""
    words = binder.words
    monarch = reigning(standing)
    notes = binder.notes.note(standing.coin.notes)
    return Entry(
        number,
        name_coin(standing, words),
        addresses.of_coin(standing.coin.id),
        monarch.name if monarch is not None else words.say("print.coins"),
        sides.faces(standing),
        say_size(standing, words),
        tuple(_facts(binder, standing)),
        notes,
        notes is None
        or (len(notes.markdown) <= SHORT_NOTE and not any(each.is_plate for each in notes.links)),
    )


def refer_back(entries: Sequence[Entry], words: Words) -> tuple[Entry, ...]:
    """Word a side once: an entry whose side was described in an earlier one says as which it is."""
    named: dict[str, dict[str, Entry]] = {capital(words.say(f"side.{side.value}")): {} for side in FACES}
    return tuple(_referring(each, named, words) for each in entries)


def _referring(entry: Entry, named: dict[str, dict[str, Entry]], words: Words) -> Entry:
    facts, earlier = [], []
    for fact in entry.facts:
        first = named[fact.name].setdefault(fact.value, entry) if fact.name in named else entry
        if first is not entry:
            fact = replace(fact, value="", links=(_as(first, words),))
            earlier.append(first)
        facts.append(fact)
    if len(earlier) == len(named) and len({each.number for each in earlier}) == 1:
        both = Fact(words.say("print.both-sides"), "", "", (_as(earlier[0], words),))
        at = next(nth for nth, each in enumerate(facts) if each.name in named)
        facts = [each for each in facts if each.name not in named]
        facts.insert(at, both)
    return replace(entry, facts=tuple(facts))


def _as(entry: Entry, words: Words) -> Link:
    return Link(words.say("print.as", number=entry.number), entry.address)


def say_size(standing: Standing, words: Words) -> str:
    """Say where the pictures are not at the coin's own size; empty where they are."""
    if not diameter_hundredths(standing):
        return words.say("print.no-diameter")
    if diameter_hundredths(standing) > LARGEST:
        return words.say("print.reduced")
    if any(photo.disc is None for side, photo in standing.coin.photos.items() if side != "edge"):
        return words.say("print.no-disc")
    return ""


def capital(text: str) -> str:
    return text[:1].upper() + text[1:]


def say_face_of(face: Face) -> str:
    """Word a side by its legend and design."""
    return ". ".join(each for each in (face.legend, face.design) if each)


def side_facts(standing: Standing, words: Words) -> list[Fact]:
    """Word obverse and reverse by the coin's type; a coin that departs from it is left to its own words."""
    facts = []
    for side in FACES:
        face = face_of(standing.place.type, side)
        if face is not None and say_face_of(face):
            facts.append(Fact(capital(words.say(f"side.{side.value}")), say_face_of(face)))
    return facts


def measure_facts(standing: Standing, words: Words) -> list[Fact]:
    """Word weight, diameter and die axis as measured, each beside its standard where that differs."""
    coin, standard = standing.coin, standing.place.standard
    facts = []
    if coin.weight is not None:
        law = (
            show_grams(standard.weight.grams) if standard is not None and standard.weight is not None else ""
        )
        remark = words.say("print.standard", value=law) if law else ""
        facts.append(Fact(words.say("measure.weight"), show_grams(coin.weight.grams), remark))
    elif standard is not None and standard.weight is not None and coin.kind is CoinKind.REGULAR:
        law = show_grams(standard.weight.grams)
        facts.append(Fact(words.say("measure.weight"), words.say("print.by-standard", value=law)))
    if coin.diameter is not None:
        facts.append(Fact(words.say("measure.diameter"), show_millimetres(coin.diameter.mm)))
    elif standard is not None and standard.diameter is not None and coin.kind is CoinKind.REGULAR:
        law = show_millimetres(standard.diameter.mm)
        facts.append(Fact(words.say("measure.diameter"), words.say("print.by-standard", value=law)))
    if coin.axis is not None:
        facts.append(Fact(words.say("measure.axis"), str(coin.axis)))
    return facts


def grade_facts(binder: Binder, standing: Standing) -> list[Fact]:
    """Word the grade, what is against the coin, and its certificate where the reader may see the number."""
    words, coin = binder.words, standing.coin
    remark = words.say("grade.by", by=coin.graded_by) if coin.graded_by else coin.grade_reasons
    facts = [Fact(words.say("fact.grade"), say_grade(coin, words), remark)]
    if coin.problems:
        facts.append(Fact(words.say("fact.problem"), listed(coin.problems, words.say("and"))))
    if coin.certificate_number:
        facts.append(Fact(words.say("fact.certificate"), coin.certificate_number, coin.graded_by))
    return facts


def provenance_of(binder: Binder, standing: Standing) -> tuple[str, ...]:
    """Word the former owners whom the reader may see."""
    is_keeper = binder.catalogue.reader is Reader.KEEPER
    return tuple(
        say_owner(each, binder.words) for each in standing.coin.provenance if each.publish or is_keeper
    )


def _facts(binder: Binder, standing: Standing) -> list[Fact]:
    words, coin, place = binder.words, standing.coin, standing.place
    facts = []
    if coin.mint and (standing.issuer is None or len(standing.issuer.mints) > 1 or coin.mint != "none"):
        facts.append(Fact(words.say("fact.mint"), name_mint(coin.mint, standing, words)))
    if coin.kind is not CoinKind.REGULAR:
        facts.append(Fact(words.say("print.kind"), say_kind(coin.kind, words), coin.departs))
    if coin.strike is not Strike.ORDINARY:
        facts.append(Fact(words.say("fact.strike"), words.say(f"strike.{coin.strike.value}")))
    for variety in place.varieties if "variety" in standing.divided else ():
        facts.append(Fact(words.say("fact.variety"), name_variety(variety), variety.reading))
    if coin.kind is CoinKind.REGULAR:
        facts += side_facts(standing, words)
    facts += measure_facts(standing, words)
    facts += grade_facts(binder, standing)
    if coin.design:
        facts.append(Fact(words.say("fact.design"), coin.design))
    if coin.kind is CoinKind.REGULAR and place.issue is not None:
        figures = figures_of(place.issue)
        scarce = words.say("remark.scarce") if figures.scarce else ""
        facts.append(Fact(words.say("fact.struck"), say_struck(figures, words), scarce))
    if coin.struck_in:
        facts.append(Fact(words.say("fact.struck-in"), coin.struck_in))
    if owners := provenance_of(binder, standing):
        facts.append(Fact(words.say("print.provenance"), "; ".join(owners)))
    if coin.references:
        facts.append(Fact(words.say("print.references"), "; ".join(coin.references)))
    return facts
