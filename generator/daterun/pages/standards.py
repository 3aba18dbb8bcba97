"""The tables of a denomination page: its standards over time, its varieties, and its dates with what is held."""

from collections.abc import Sequence

from daterun.checks.completeness import Filled
from daterun.naming import listed
from daterun.pages import addresses
from daterun.pages.binder import Binder
from daterun.pages.cabinet import Standing
from daterun.pages.views import Link, Table
from daterun.pages.wording import (
    name_mint_of,
    name_variety,
    say_alloy,
    say_date,
    say_grade_line,
    say_metal,
    say_struck,
    source_of,
)
from daterun.records.coins import CoinKind, Strike
from daterun.records.issuers import Issuer
from daterun.records.series import Series, Standard
from daterun.records.struck import DateIssue, Part
from daterun.trade.measures import show_grams, show_millimetres


def standards_table(binder: Binder, series: Sequence[Series]) -> Table | None:
    """Make the table of standards over time; None where none is laid down."""
    words = binder.words
    standards = sorted((each for one in series for each in one.standards), key=lambda each: each.span.first)
    if not standards:
        return None
    headings = tuple(
        words.say(f"table.{key}")
        for key in ("dates", "metal", "weight", "remedy", "diameter", "edge", "axis", "source")
    )
    return Table(
        words.say("standards.caption"),
        headings,
        tuple(_standard_row(binder, each) for each in standards),
        (2, 3, 4),
    )


def _standard_row(binder: Binder, standard: Standard) -> tuple[Link, ...]:
    words = binder.words
    metal = say_metal(standard, words)
    alloy = say_alloy(standard, words)
    return (
        Link(str(standard.span)),
        Link(f"{metal} ({alloy})" if alloy else metal),
        Link(show_grams(standard.weight.grams) if standard.weight else ""),
        Link(f"± {show_grams(standard.remedy.grams)}" if standard.remedy else ""),
        Link(show_millimetres(standard.diameter.mm) if standard.diameter else ""),
        Link(standard.edge),
        Link(str(standard.axis) if standard.axis else ""),
        Link(_sourced(standard.source, standard.checked, binder)),
    )


def _sourced(source: str, checked: bool, binder: Binder) -> str:
    """Name a source, and say where it is from memory."""
    if checked:
        return source
    unchecked = binder.words.say("source.unchecked")
    return f"{source} ({unchecked})" if source else unchecked


def varieties_table(binder: Binder, series: Sequence[Series]) -> Table | None:
    """Make the table of varieties with their years and the coins held of each; None where there are none."""
    words = binder.words
    rows = []
    for one in series:
        for variety in one.varieties:
            held = [each for each in binder.cabinet.of_series(one) if variety.id in each.coin.varieties]
            rows.append(
                (
                    Link(name_variety(variety)),
                    Link(listed([str(each) for each in variety.spans], words.say("and"))),
                    Link(words.say(f"side.{variety.side.value}") if variety.side else ""),
                    Link(variety.reading),
                    Link(words.count("coins", len(held)) if held else words.say("held.none")),
                )
            )
    if not rows:
        return None
    keys = ("variety", "dates", "side", "reading", "held")
    keep = [nth for nth in range(len(keys)) if any(row[nth].text for row in rows)]
    return Table(
        words.say("varieties.caption"),
        tuple(words.say(f"table.{keys[nth]}") for nth in keep),
        tuple(tuple(row[nth] for nth in keep) for row in rows),
    )


def dates_table(binder: Binder, series: Series, issuer: Issuer) -> Table:
    """Make the table of a run: each date with what was struck and what the keeper has of it."""
    words = binder.words
    states = {each.slot.date.key: each for each in binder.cabinet.runs[series.key]}
    coins: dict[str, list[Standing]] = {}
    for each in binder.cabinet.of_series(series):
        if each.coin.kind is CoinKind.REGULAR:
            coins.setdefault(each.coin.date.key, []).append(each)
    rows = []
    for issue in series.issues:
        held = coins.get(issue.date.key, [])
        rows.append(
            (
                Link(say_date(issue.date, words), addresses.of_date(issue.date)),
                Link(say_struck(issue.figures, words)),
                Link(_remark(issue, series, issuer, binder)),
                _held(held, states.get(issue.date.key), binder),
            )
        )
    sources = [series.struck.source] if series.struck.source else []
    notes = [
        words.say("dates.source", source=_sourced(each, series.struck.checked, binder)) for each in sources
    ]
    if series.struck.not_struck:
        years = listed([str(each) for each in series.struck.not_struck], words.say("and"))
        notes.append(words.say("dates.not-struck", years=years))
    if series.struck.not_known:
        years = listed([str(each) for each in series.struck.not_known], words.say("and"))
        notes.append(words.say("dates.not-known", years=years))
    if series.struck.note:
        notes.append(series.struck.note)
    headings = tuple(words.say(f"table.{key}") for key in ("date", "struck", "remark", "held"))
    return Table(words.say("dates.caption", series=series.name), headings, tuple(rows), (), tuple(notes))


def _remark(issue: DateIssue, series: Series, issuer: Issuer, binder: Binder) -> str:
    """Word what else is told of an issue: that it is scarce, how it divides, notes, and a source of its own."""
    words = binder.words
    figures = issue.figures
    parts = [words.say("remark.scarce")] if figures.scarce else []
    divided = [
        words.say(
            "remark.part",
            name=_part_name(each, series, issuer, binder),
            struck=say_struck(each.figures, words),
        )
        if each.figures.mintage or each.figures.proofs is not None
        else _part_name(each, series, issuer, binder)
        for each in issue.parts
    ]
    if divided:
        parts.append("; ".join(divided))
    if figures.note:
        parts.append(figures.note)
    if figures.source and source_of(issue, series) != series.struck.source:
        parts.append(words.say("dates.source", source=_sourced(figures.source, figures.checked, binder)))
    elif not figures.checked:
        parts.append(words.say("source.unchecked"))
    return ". ".join(each[:1].upper() + each[1:] for each in parts)


def _part_name(part: Part, series: Series, issuer: Issuer, binder: Binder) -> str:
    names = []
    if part.mint:
        names.append(name_mint_of(part.mint, issuer, binder.words))
    if part.variety and (variety := series.variety(part.variety)) is not None:
        names.append(name_variety(variety))
    if part.type and (coin_type := series.type(part.type)) is not None:
        monarch = issuer.monarch(coin_type.monarch)
        names.append(coin_type.name or (monarch.name if monarch else coin_type.id))
    return ", ".join(names)


def _held(held: Sequence[Standing], filled: Filled | None, binder: Binder) -> Link:
    """Word what the keeper has of a date, the coin that fills its slot first."""
    words = binder.words
    if not held:
        return Link(words.say("held.none"))
    first = next((each for each in held if filled is not None and each.coin.id == filled.coin), held[0])
    text = say_grade_line(first.coin, words)
    if first.coin.strike is not Strike.ORDINARY:
        text = f"{words.say(f'strike.{first.coin.strike.value}')}, {text}"
    if len(held) > 1:
        text = f"{text}, {words.count('held.more', len(held) - 1)}"
    return Link(text, addresses.of_coin(first.coin.id))
