"""How the keeper's own grades fared against certificates; for club and keeper, who see earlier own grades."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from daterun.checks.agreement import (
    WEAK_UNDER,
    Agreement,
    Certified,
    Opinion,
    Pair,
    Unpaired,
    Why,
    agree,
    pair_up,
    step_of,
)
from daterun.pages import addresses
from daterun.pages.amounts import say_number, say_share, say_steps
from daterun.pages.binder import Binder
from daterun.pages.cabinet import Cabinet
from daterun.pages.figurepages import figures_page, left_out_fact
from daterun.pages.figureviews import FigureSection, Guide, Mark, Plot
from daterun.pages.gridviews import LegendItem
from daterun.pages.pieces import Fact, Link, Table
from daterun.pages.plots import draw_plot, draw_together, grade_axis, paper
from daterun.pages.views import Page
from daterun.readers.reader import Reader

Links = Mapping[str, Link]

PAIRS = f"{addresses.CERTIFICATES}#pairs"


@dataclass(frozen=True, slots=True)
class Paired:
    """The certificates of all coins, beside own grades or left out."""

    agreement: Agreement
    unpaired: tuple[Unpaired, ...]


def pair_coins(cabinet: Cabinet) -> Paired:
    """Set the certificates of all coins on record beside the keeper's grades before them."""
    pairs: list[Pair] = []
    unpaired: list[Unpaired] = []
    for each in cabinet.coins:
        coin = each.coin
        if coin.certificates:
            own = [Opinion(one.grade, one.on) for one in coin.own_grades]
            certificates = [Certified(one.by, one.grade, one.on, one.problem) for one in coin.certificates]
            found, left_out = pair_up(coin.id, own, certificates)
            pairs += found
            unpaired += left_out
    return Paired(agree(pairs), tuple(unpaired))


def certificate_pages(binder: Binder, links: Links) -> list[Page]:
    """Plan the page of own grades against certificates; none for the public, or where there is no pair."""
    if binder.catalogue.reader is Reader.PUBLIC:
        return []
    paired = pair_coins(binder.cabinet)
    agreement = paired.agreement
    if not agreement.pairs:
        return []
    words = binder.words
    weak = (words.say("figures.certificates.weak", n=WEAK_UNDER),) if agreement.is_weak else ()
    sections = [
        FigureSection(
            "agreement",
            "",
            weak,
            _facts(binder, agreement),
            plot=_plot(binder, agreement, links),
        ),
        FigureSection("pairs", "", tables=(_pairs_table(binder, agreement, links),)),
        _left_out(binder, paired.unpaired),
    ]
    heading, lead = words.say("figures.certificates.heading"), words.say("figures.certificates.lead")
    cautions = ("grades", "opinions", "correspondence")
    return [figures_page(binder, addresses.CERTIFICATES, heading, lead, sections, cautions)]


def _facts(binder: Binder, agreement: Agreement) -> tuple[Fact, ...]:
    words = binder.words
    compared = words.count("figures.certificates.pairs", len(agreement.compared))
    to_pairs = (Link(words.say("figures.certificates.to-pairs"), PAIRS),)
    facts = [Fact(words.say("figures.certificates.compared"), compared, "", to_pairs)]
    if agreement.compared:
        assert agreement.differences is not None
        middle = agreement.differences
        shares = (agreement.exact, agreement.within_one)
        exact, within = (say_share(each, words) for each in shares)
        facts += [
            _fact(binder, "bias", _steps(binder, agreement.bias), "bias-remark"),
            _fact(binder, "spread", words.say("figures.steps", n=say_number(agreement.spread, words))),
            Fact(
                words.say("figures.certificates.median"),
                _steps(binder, middle.median),
                words.say(
                    "figures.certificates.middle-half",
                    low=say_steps(middle.low, words),
                    high=say_steps(middle.high, words),
                ),
            ),
            _fact(binder, "exact", exact),
            _fact(binder, "within-one", within),
            _fact(binder, "kappa", say_number(agreement.kappa, words), "kappa-remark"),
        ]
    returned = words.say(
        "figures.certificates.returned-of",
        share=say_share(agreement.problem_share, words),
        returned=words.number(len(agreement.returned)),
        pairs=words.number(len(agreement.pairs)),
    )
    reasons = ", ".join(
        words.say("figures.certificates.reason", reason=reason, n=count)
        for reason, count in agreement.reasons
    )
    facts.append(Fact(words.say("figures.certificates.returned"), returned, reasons))
    return tuple(facts)


def _fact(binder: Binder, key: str, value: str, remark: str = "") -> Fact:
    words = binder.words
    said = words.say(f"figures.certificates.{remark}") if remark else ""
    return Fact(words.say(f"figures.certificates.{key}"), value, said)


def _steps(binder: Binder, number: Fraction | None) -> str:
    return binder.words.say("figures.steps", n=say_steps(number, binder.words))


def _plot(binder: Binder, agreement: Agreement, links: Links) -> Plot:
    words = binder.words
    steps = [(step_of(each.certified), step_of(each.own)) for each in agreement.pairs]
    axis = grade_axis(step for pair in steps for step in pair)
    on = paper(560, (text for _, text in axis.ticks()))
    marks = [
        Mark(
            on.x(axis.part(certified)),
            on.y(axis.part(own)),
            "cross" if each.is_problem else "dot",
            words.say(
                "figures.certificates.mark",
                coin=links[each.coin].text,
                own=each.own.text,
                certified=each.certified.text,
            ),
            addresses.of_coin(each.coin),
        )
        for each, (certified, own) in zip(agreement.pairs, steps, strict=True)
    ]
    ends = axis.part(axis.first), axis.part(axis.last)
    even = Guide(on.x(ends[0]), on.y(ends[0]), on.x(ends[1]), on.y(ends[1]))
    legend = (
        LegendItem("dot", words.say("figures.certificates.dot")),
        LegendItem("cross", words.say("figures.certificates.cross")),
    )
    return draw_plot(
        on,
        words.say("figures.certificates.caption"),
        words.say("figures.certificates.summary"),
        (words.say("figures.unit.certified"), words.say("figures.unit.own")),
        axis.ticks(),
        axis.ticks(),
        [even],
        draw_together(marks, lambda n: words.count("coins", n), PAIRS),
        legend,
    )


def _pairs_table(binder: Binder, agreement: Agreement, links: Links) -> Table:
    """List every pair, those in which the keeper was furthest above first; problem coins stand last."""
    words = binder.words
    ordered = sorted(agreement.compared, key=lambda each: (-each.difference, each.coin))
    rows = [_pair_row(binder, each, links) for each in (*ordered, *agreement.returned)]
    keys = ("coin", "own-grade", "certified-grade", "by", "difference-steps")
    headings = tuple(words.say(f"table.{key}") for key in keys)
    notes = (words.say("figures.certificates.low-end"),)
    return Table(words.say("figures.certificates.pairs-caption"), headings, tuple(rows), (4,), notes)


def _pair_row(binder: Binder, pair: Pair, links: Links) -> tuple[Link, ...]:
    words = binder.words
    difference = words.say("mark.problem") if pair.is_problem else _whole_steps(pair.difference)
    return (
        links[pair.coin],
        Link(pair.own.text),
        Link(pair.certified.text),
        Link(pair.by),
        Link(difference),
    )


def _whole_steps(steps: int) -> str:
    return f"{steps:+d}".replace("-", "\u2212") if steps else "0"


def _left_out(binder: Binder, unpaired: Sequence[Unpaired]) -> FigureSection | None:
    words = binder.words
    names = []
    for why in Why:
        coins = [binder.cabinet.by_id[each.coin] for each in unpaired if each.why is why]
        if coins:
            reason = words.say(f"figures.unpaired.{why.value.replace(' ', '-')}")
            names.append(left_out_fact(reason, coins, words))
    if not names:
        return None
    return FigureSection("left-out", words.say("figures.left-out"), names=tuple(names))
