"""The tables of a denomination page: its standards over time, its varieties, and its dates with what is held."""

from collections.abc import Sequence

from daterun.checks.slots import figures_of
from daterun.naming import listed
from daterun.pages import addresses
from daterun.pages.binder import Binder
from daterun.pages.issues import remarks_on, sentences
from daterun.pages.pieces import Link, Table
from daterun.pages.wording import (
    name_variety,
    say_alloy,
    say_date,
    say_grade_line,
    say_metal,
    say_source,
    say_struck,
)
from daterun.records.coins import CoinKind, Strike
from daterun.records.issuers import Issuer
from daterun.records.series import Series, Standard
from daterun.records.struck import DateIssue
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
        Link(say_source(standard.source, standard.checked, words)),
    )


def varieties_table(binder: Binder, series: Sequence[Series]) -> Table | None:
    """Make the table of varieties with their years and the coins held of each; None where there are none."""
    words = binder.words
    rows = []
    for one in series:
        for variety in one.varieties:
            held = [
                each
                for each in binder.cabinet.of_series(one)
                if variety.id in each.coin.varieties and each.coin.is_held
            ]
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
    words, struck = binder.words, series.struck
    rows = tuple(
        (
            Link(say_date(issue.date, words), addresses.of_date(issue.date)),
            Link(say_struck(figures_of(issue), words)),
            Link(_remark(issue, series, issuer, binder)),
            _held(series, issue, binder),
        )
        for issue in series.issues
    )
    notes = []
    if source := say_source(struck.source, struck.checked, words):
        notes.append(words.say("dates.source", source=source))
    for key, spans in (("dates.not-struck", struck.not_struck), ("dates.not-known", struck.not_known)):
        if spans:
            notes.append(words.say(key, years=listed([str(each) for each in spans], words.say("and"))))
    if struck.note:
        notes.append(struck.note)
    headings = tuple(words.say(f"table.{key}") for key in ("date", "struck", "remark", "held"))
    return Table(words.say("dates.caption", series=series.name), headings, rows, (), tuple(notes))


def _remark(issue: DateIssue, series: Series, issuer: Issuer, binder: Binder) -> str:
    """Word what else is told of an issue, with the sources of its figures where they are not the table's."""
    words = binder.words
    remarks = remarks_on(issue, series, issuer, words)
    for figures in (issue.figures, *(part.figures for part in issue.parts)):
        if figures.source and figures.source != series.struck.source:
            source = say_source(figures.source, figures.checked, words)
            remarks.append(words.say("dates.source", source=source))
        elif not figures.checked:
            remarks.append(words.say("source.unchecked"))
    return sentences(list(dict.fromkeys(remarks)))


def _held(series: Series, issue: DateIssue, binder: Binder) -> Link:
    """Word what the keeper has of a date, the coin that fills its slot first."""
    words = binder.words
    held = [
        each
        for each in binder.cabinet.of_date(series, issue.date)
        if each.coin.is_held and each.coin.kind is CoinKind.REGULAR
    ]
    if not held:
        return Link(words.say("held.none"))
    filled = binder.cabinet.state(series, issue.date)
    first = next((each for each in held if filled is not None and each.coin.id == filled.coin), held[0])
    text = say_grade_line(first.coin, words)
    if first.coin.strike is not Strike.ORDINARY:
        text = f"{words.say(f'strike.{first.coin.strike.value}')}, {text}"
    if len(held) > 1:
        text = f"{text}, {words.count('held.more', len(held) - 1)}"
    return Link(text, addresses.of_coin(first.coin.id))
