"""The page of one coin: both sides, its record, its place in the run, and what the keeper alone may see."""

from daterun.checks.slots import figures_of
from daterun.naming import listed
from daterun.pages import addresses
from daterun.pages.binder import Binder
from daterun.pages.cabinet import Standing
from daterun.pages.cards import cards
from daterun.pages.issues import part_of, say_part, sentences
from daterun.pages.keeper import private_facts
from daterun.pages.measured import (
    content_fact,
    diameter_hundredths,
    face_fact,
    measured_table,
)
from daterun.pages.pieces import Fact, Link, Table
from daterun.pages.plates import plate_of
from daterun.pages.slots import diameter_mm
from daterun.pages.views import CoinView, Page, RunPlace
from daterun.pages.wording import (
    name_mint,
    name_variety,
    say_date,
    say_day,
    say_grade,
    say_grade_line,
    say_kind,
    say_metal,
    say_owner,
    say_source,
    say_source_of,
    say_struck,
)
from daterun.pages.words import Words
from daterun.readers.reader import Reader
from daterun.records.coins import CoinKind, Strike
from daterun.records.series import Standard
from daterun.records.struck import DateIssue
from daterun.trade.measures import show_grams, show_millimetres

MOST_HELD = 4
"""Coins that are held for comparison at once: as many as can be told apart across a screen."""

STRIP = 6
"""How many slots of the run stand on each side of a coin's own in the strip above its page."""

MOST_COMPANIONS = 24
"""Coins of the same series and date that a page shows; the page of the date shows them all."""


def coin_pages(binder: Binder) -> list[Page]:
    """Plan a page per coin, in the order of the cabinet."""
    return [coin_page(binder, each) for each in binder.cabinet.coins]


def coin_page(binder: Binder, standing: Standing) -> Page:
    """Plan the page of one coin."""
    words, series = binder.words, standing.series
    trail = binder.once.of(
        ("trail", series.key),
        lambda: (
            Link(words.say("nav.denominations"), addresses.DENOMINATIONS),
            Link(addresses.denomination_of(series), addresses.of_denomination(series)),
        ),
    )
    view = coin_view(binder, standing)
    description = f"{sentences([view.heading, say_grade_line(standing.coin, words)])}."
    return binder.page(binder.sides.link(standing).address, "coin", view, description, trail)


def coin_view(binder: Binder, standing: Standing) -> CoinView:
    """Lay out what the page of one coin shows."""
    words, coin = binder.words, standing.coin
    companions = [
        each
        for each in binder.cabinet.of_date(standing.series, coin.date)[: MOST_COMPANIONS + 1]
        if each.coin.id != coin.id
    ]
    measured = _measured(binder, standing)
    content = _content(binder, standing)
    opinions = _opinions(binder, standing)
    diameter = diameter_hundredths(standing)
    return CoinView(
        id=coin.id,
        heading=binder.sides.name(standing),
        lead=binder.once.of(("lead", *_alike(standing)), lambda: _lead(binder, standing)),
        kind=say_kind(coin.kind, words) if coin.kind is not CoinKind.REGULAR else "",
        departs=coin.departs,
        sides=binder.sides.faces(standing),
        run=binder.once.of(("strip", standing.series.key, coin.date.key), lambda: _strip(binder, standing)),
        run_name=binder.once.of(
            ("run", standing.series.key),
            lambda: Link(standing.series.name, addresses.of_denomination(standing.series)),
        ),
        record=_record(binder, standing, content),
        measured=measured,
        measured_remark=words.say("caution.weights") if measured is not None else "",
        opinions=opinions,
        opinions_remark=words.say("caution.opinions") if opinions is not None else "",
        provenance=tuple(say_owner(each, words) for each in coin.provenance),
        notes=binder.notes.note(coin.notes),
        references=coin.references,
        photo_remarks=tuple(
            words.say("photo.fallback", side=words.say(f"side.{side}"), reason=photo.fallback)
            for side, photo in sorted(coin.photos.items())
            if photo.disc is None and photo.fallback
        ),
        diameter=diameter,
        actual_size=binder.once.of(("actual size", diameter), lambda: _actual_size(diameter, words)),
        companions=cards(companions[:MOST_COMPANIONS], binder.sides, words),
        private=private_facts(binder, standing),
        cautions=_cautions(binder, standing, content),
        neighbours=_neighbours(binder, standing),
        holding=Link(words.say("coin.compare", n="{n}"), addresses.COMPARE) if coin.is_held else Link(""),
        most_held=MOST_HELD,
        plate=_plate(binder, standing),
    )


def _plate(binder: Binder, standing: Standing) -> Link:
    plate = plate_of(binder, standing)
    return Link(binder.words.say("coin.plate"), plate.address) if plate is not None else Link("")


def _alike(standing: Standing) -> tuple[object, ...]:
    """Tell what coins have in common that are of one type and standard of one date, by what cannot change."""
    place = standing.place
    is_regular = standing.coin.kind is CoinKind.REGULAR
    parts = (id(place.issue), id(place.type), id(place.standard), id(place.monarch))
    return (standing.series.key, *parts, is_regular)


def _actual_size(diameter: int, words: Words) -> str:
    return words.say("actual.size", n=f"{diameter / 100:g}") if diameter else ""


def _measured(binder: Binder, standing: Standing) -> Table | None:
    """Make the table of measures; coins of one standard that measure the same share one."""
    coin = standing.coin
    if coin.gravity is not None:
        return measured_table(standing, binder.words)
    sizes = (str(each.mm) if each is not None else "" for each in (coin.diameter, coin.thickness))
    weight = str(coin.weight.grams) if coin.weight is not None else ""
    axis = str(coin.axis) if coin.axis is not None else ""
    key = ("measured", id(standing.place.standard), weight, axis, *sizes)
    return binder.once.of(key, lambda: measured_table(standing, binder.words))


def _content(binder: Binder, standing: Standing) -> Fact | None:
    """Word the fine metal in a regular coin; see ``measured.content_fact``."""
    coin = standing.coin
    if coin.kind is not CoinKind.REGULAR:
        return None
    weight = str(coin.weight.grams) if coin.weight is not None else ""
    key = ("content", id(standing.place.standard), weight)
    return binder.once.of(key, lambda: content_fact(standing, binder.words))


def _lead(binder: Binder, standing: Standing) -> str:
    """Word a coin in one line: monarch, metal, weight and size by law, and how many were struck."""
    words, place = binder.words, standing.place
    parts = []
    if place.monarch is not None:
        parts.append(place.monarch.name)
    if (standard := place.standard) is not None and standing.coin.kind is CoinKind.REGULAR:
        parts.append(say_metal(standard, words))
        if standard.weight is not None:
            parts.append(show_grams(standard.weight.grams))
        if standard.diameter is not None:
            parts.append(show_millimetres(standard.diameter.mm))
    if place.issue is not None and standing.coin.kind is CoinKind.REGULAR:
        parts.append(say_struck(figures_of(place.issue), words))
    return " · ".join(parts)


def _strip(binder: Binder, standing: Standing) -> tuple[RunPlace, ...]:
    """Take the part of the run around a coin's date; empty where its date has no slot."""
    states = binder.cabinet.runs[standing.series.key]
    here = next(
        (nth for nth, each in enumerate(states) if each.slot.date.key == standing.coin.date.key), None
    )
    if here is None:
        return ()
    first = max(0, min(here - STRIP, len(states) - 2 * STRIP - 1))
    shown = states[first : first + 2 * STRIP + 1]
    largest = max(diameter_mm(standing.series, each) for each in shown)
    return tuple(
        RunPlace(
            binder.grids.slot(each, standing.series, largest),
            say_date(each.slot.date, binder.words),
            each.slot.date.key == standing.coin.date.key,
        )
        for each in shown
    )


def _neighbours(binder: Binder, standing: Standing) -> tuple[Link, Link]:
    """Find the coins before and after in the series, in order of date."""
    before, after = binder.cabinet.neighbours(standing)
    return (_link(before, binder), _link(after, binder))


def _link(standing: Standing | None, binder: Binder) -> Link:
    return binder.sides.link(standing) if standing is not None else Link("")


def _record(binder: Binder, standing: Standing, content: Fact | None) -> tuple[Fact, ...]:
    """List the rows of a coin's record, in the order in which catalogues give them."""
    facts = [
        *_grade_facts(binder, standing),
        *_struck_facts(binder, standing),
        *_metal_facts(binder, standing, content),
    ]
    words, coin = binder.words, standing.coin
    if coin.design:
        facts.append(Fact(words.say("fact.design"), coin.design))
    if coin.added is not None:
        facts.append(binder.fact(words.say("fact.added"), say_day(coin.added, words)))
    return tuple(facts)


def _grade_facts(binder: Binder, standing: Standing) -> list[Fact]:
    words, coin = binder.words, standing.coin
    by = words.say("grade.by", by=coin.graded_by) if coin.graded_by else ""
    name = words.say("fact.grade" if coin.graded_by or coin.grade is None else "fact.own-grade")
    facts = [binder.fact(name, say_grade(coin, words), by or coin.grade_reasons)]
    if coin.grade is not None and coin.grade.approximate:
        facts.append(
            binder.fact(words.say("fact.scale"), _on_the_scale(standing, binder), words.say("caution.scale"))
        )
    if coin.problems:
        facts.append(Fact(words.say("fact.problem"), listed(coin.problems, words.say("and"))))
    if coin.certificate_number:
        facts.append(Fact(words.say("fact.certificate"), coin.certificate_number, coin.graded_by))
    return facts


def _on_the_scale(standing: Standing, binder: Binder) -> str:
    grade = standing.coin.grade
    assert grade is not None
    low, high = float(grade.low), float(grade.high)
    if low == high:
        return f"{low:g}"
    return f"{low:g}–{high:g}"


def _struck_facts(binder: Binder, standing: Standing) -> list[Fact]:
    words, coin, place, series = binder.words, standing.coin, standing.place, standing.series
    facts = []
    if coin.strike is not Strike.ORDINARY:
        facts.append(Fact(words.say("fact.strike"), words.say(f"strike.{coin.strike.value}")))
    if "variety" in standing.divided or coin.kind is not CoinKind.REGULAR:
        for variety in place.varieties:
            facts.append(Fact(words.say("fact.variety"), name_variety(variety), variety.reading))
    named = standing.issuer is not None and len(standing.issuer.mints) > 1
    if coin.mint and (named or "mint" in standing.divided or coin.mint != "none"):
        facts.append(Fact(words.say("fact.mint"), name_mint(coin.mint, standing, words)))
    if coin.struck_in:
        facts.append(Fact(words.say("fact.struck-in"), coin.struck_in))
    if place.issue is not None and coin.kind is CoinKind.REGULAR:
        issue = place.issue
        if len(issue.parts) > 1:
            facts.append(_issue_fact(standing, issue, words))
        else:
            key = ("issue", series.key, id(issue))
            facts.append(binder.once.of(key, lambda: _issue_fact(standing, issue, words)))
    face = binder.once.of(("face", series.key), lambda: face_fact(standing, words))
    if face is not None:
        facts.append(face)
    return facts


def _issue_fact(standing: Standing, issue: DateIssue, words: Words) -> Fact:
    """Tell what was struck with the coin's date, and of what part of it the coin is."""
    series, whole, date = standing.series, figures_of(issue), standing.coin.date
    part = part_of(issue, standing.coin) if len(issue.parts) > 1 else None
    remarks = [
        words.say("remark.scarce") if whole.scarce or (part is not None and part.figures.scarce) else "",
        say_part(part, series, standing.issuer, words) if part is not None else "",
        whole.note,
        part.figures.note if part is not None else "",
        _sourced(say_source_of(issue, series, words), words),
    ]
    link = Link(words.say("fact.date-page", date=say_date(date, words)), addresses.of_date(date))
    remark = "; ".join(each for each in remarks if each)
    return Fact(words.say("fact.struck"), say_struck(whole, words), remark, (link,))


def _sourced(source: str, words: Words) -> str:
    return words.say("dates.source", source=source) if source else ""


def _metal_facts(binder: Binder, standing: Standing, content: Fact | None) -> list[Fact]:
    """Tell the metal, its content and the edge; a coin that departs from its standard has none of it."""
    words, coin, standard = binder.words, standing.coin, standing.place.standard
    if standard is None or coin.kind is not CoinKind.REGULAR:
        return []
    metal, edge = binder.once.of(("metal", id(standard)), lambda: _standard_facts(standard, words))
    return [each for each in (metal, content, edge) if each is not None]


def _standard_facts(standard: Standard, words: Words) -> tuple[Fact, Fact | None]:
    source = _sourced(say_source(standard.source, standard.checked, words), words)
    edge = Fact(words.say("fact.edge"), standard.edge) if standard.edge else None
    return Fact(words.say("fact.metal"), say_metal(standard, words), source), edge


def _opinions(binder: Binder, standing: Standing) -> Table | None:
    """List own grades and certificates beside each other; None where the reader sees one alone."""
    words, coin = binder.words, standing.coin
    if len(coin.own_grades) + len(coin.certificates) < 2:
        return None
    rows = [
        (
            words.say("opinion.own"),
            each.grade.text,
            say_day(each.on, words) if each.on is not None else "",
            each.reasons,
        )
        for each in coin.own_grades
    ]
    rows += [
        (
            each.by,
            each.grade.text,
            say_day(each.on, words) if each.on is not None else "",
            words.say("opinion.sealed" if each.sealed else "opinion.out"),
        )
        for each in coin.certificates
    ]
    headings = tuple(words.say(f"table.{key}") for key in ("by", "grade", "day", "remark"))
    return Table(
        words.say("opinions.caption"), headings, tuple(tuple(Link(cell) for cell in row) for row in rows)
    )


def _cautions(binder: Binder, standing: Standing, content: Fact | None) -> tuple[str, ...]:
    words = binder.words
    cautions = [words.say("caution.grades")]
    if content is not None:
        cautions.append(words.say("caution.metal"))
    if standing.coin.is_problem:
        cautions.append(words.say("caution.cleaning"))
    if binder.catalogue.reader is Reader.KEEPER:
        cautions.append(words.say("caution.values"))
    return tuple(cautions)
