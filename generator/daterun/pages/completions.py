"""Completeness as tables that lead to the coins: by series, monarch, decade and year."""

from collections.abc import Callable, Sequence
from dataclasses import replace
from fractions import Fraction

from daterun.pages import addresses
from daterun.pages.aimviews import ListingView
from daterun.pages.binder import Binder
from daterun.pages.counts import Count, by_decade, by_monarch, by_series, by_year
from daterun.pages.grids import say_tally
from daterun.pages.pieces import Fact, Link, Table
from daterun.pages.recounts import STEPS, at_steps, recounted
from daterun.pages.slotnames import link_to_coin, links_to_coins
from daterun.pages.views import Page
from daterun.pages.wording import say_grade
from daterun.records.aims import End
from daterun.trade.scales import nearest_step


def completeness_page(binder: Binder) -> Page:
    """Plan the page of completeness by series, monarch, decade and year."""
    words, cabinet = binder.words, binder.cabinet
    series = by_series(cabinet)
    whole = Count("", "", "", tuple(state for each in series for state in each.states))

    def lead(count: Count, key: str = "completeness.lead") -> str:
        counted = count.tally
        return words.say(key, filled=words.number(counted.filled), slots=words.number(counted.slots))

    def lead_at(step: int) -> str:
        return lead(whole.at(step, cabinet), "completeness.lead-at")

    tables = (
        count_table(binder, words.say("completeness.by-series"), words.say("table.series"), series),
        count_table(
            binder, words.say("completeness.by-monarch"), words.say("table.monarch"), by_monarch(cabinet)
        ),
        count_table(
            binder, words.say("completeness.by-decade"), words.say("table.decade"), by_decade(cabinet)
        ),
        count_table(
            binder, words.say("completeness.by-year"), words.say("table.year"), by_year(cabinet), False
        ),
    )
    view = ListingView(
        words.say("completeness.heading"),
        lead(whole),
        tables=tuple(each for each in tables if each is not None),
        cautions=(words.say("caution.grades"), words.say("completeness.mean")),
        again=at_steps(lead(whole), lead_at),
    )
    return binder.page(addresses.COMPLETENESS, "listing", view, view.lead)


def count_table(
    binder: Binder, caption: str, heading: str, counts: Sequence[Count], has_stretches: bool = True
) -> Table | None:
    """Make a table of counts: how far filled, the longest unbroken stretch, and the grades; None for none.

    Within one year there are no stretches. All but the names are counted again at a grade.
    """
    if not counts:
        return None
    words = binder.words
    headings = (
        heading,
        words.say("theme.tally"),
        words.say("table.stretch"),
        words.say("table.mean"),
        words.say("table.weakest"),
    )
    rows = tuple(_row(binder, each, has_stretches) for each in counts)
    keep = [nth for nth in range(len(headings)) if nth < 2 or any(row[nth].text for row in rows)]
    return Table(
        caption,
        tuple(headings[nth] for nth in keep),
        tuple(tuple(row[nth] for nth in keep) for row in rows),
        tuple(keep.index(nth) for nth in (1, 3) if nth in keep),
    )


def _row(binder: Binder, count: Count, has_stretches: bool) -> tuple[Link, ...]:
    """Word a count, once for all pages; its states are kept beside, so that none takes their place in memory."""
    key = ("count", id(count.states), count.name, count.address, has_stretches)
    return binder.once.of(key, lambda: (count.states, _word_row(binder, count, has_stretches)))[1]


def _word_row(binder: Binder, count: Count, has_stretches: bool) -> tuple[Link, ...]:
    name = Link(count.name, count.address or addresses.DATES)
    now = _figures(binder, count, has_stretches)
    later = [_figures(binder, count.at(step, binder.cabinet), has_stretches) for step in STEPS]
    return (
        name,
        *(recounted(cell, [each[nth] for each in later]) for nth, cell in enumerate(now)),
    )


def _figures(binder: Binder, count: Count, has_stretches: bool) -> tuple[Link, ...]:
    words, counted = binder.words, count.tally
    grades = count.grades(binder.cabinet)
    return (
        Link(say_tally(counted.filled, counted.slots - counted.left_out, words)),
        Link(say_stretch(binder, count) if has_stretches else ""),
        Link(f"{float(grades.mean):.1f}" if grades.mean is not None else ""),
        link_to_coin(binder, grades.weakest[0]) if grades.weakest else Link(""),
    )


def say_stretch(binder: Binder, count: Count) -> str:
    """Word the longest unbroken stretch: how many slots, from the first to the last; nothing for none.

    Its series is named where the count is of several.
    """
    stretch = count.stretch
    if stretch is None:
        return ""
    words = binder.words
    key = "stretch.one" if stretch.length == 1 else "stretch.many"
    said = words.say(key, n=stretch.length, first=stretch.first, last=stretch.last)
    if len({each.slot.series for each in count.states}) == 1 or any(
        each.slot.members for each in count.states
    ):
        return said
    return words.say("stretch.of", series=binder.catalogue.series[stretch.series].name, stretch=said)


def grade_facts(binder: Binder, count: Count, counts: End = End.LOW) -> tuple[Fact, ...]:
    """List the longest stretch, the mean grade, the weakest coins, and those without a grade.

    The first three are counted again at a grade.
    """
    now = _grade_facts(binder, count, counts)
    later = [_grade_facts(binder, count.at(step, binder.cabinet, counts), counts) for step in STEPS]
    by_step = dict(zip(STEPS, later, strict=True))
    none = binder.words.say("held.none")

    def again(name: str) -> Callable[[int], Fact]:
        return lambda step: by_step[step].get(name, Fact(name, none))

    facts = [replace(fact, again=at_steps(fact, again(name))) for name, fact in now.items()]
    ungraded = count.grades(binder.cabinet, counts).ungraded
    if ungraded:
        facts.append(Fact(binder.words.say("fact.ungraded"), "", "", links_to_coins(binder, ungraded)))
    return tuple(facts)


def _grade_facts(binder: Binder, count: Count, counts: End) -> dict[str, Fact]:
    words = binder.words
    grades = count.grades(binder.cabinet, counts)
    facts = []
    if count.stretch is not None:
        facts.append(Fact(words.say("table.stretch"), say_stretch(binder, count)))
    if grades.mean is not None:
        facts.append(
            Fact(words.say("table.mean"), say_mean(binder, grades.mean), words.say("completeness.mean"))
        )
        weakest = say_grade(binder.cabinet.by_id[grades.weakest[0]].coin, words)
        links = links_to_coins(binder, grades.weakest)
        facts.append(Fact(words.say("table.weakest"), f"{weakest}:", "", links))
    return {each.name: each for each in facts}


def say_mean(binder: Binder, mean: Fraction) -> str:
    """Word a mean grade by its number, with the nearest step of the scale."""
    return binder.words.say("mean.grade", mean=f"{float(mean):.1f}", step=nearest_step(float(mean)))
