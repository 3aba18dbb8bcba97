"""The figures: their first page, and all the pages of figures under it."""

from daterun.pages import addresses
from daterun.pages.acquisitions import acquisition_pages, acquisitions_section, coins_by_year
from daterun.pages.binder import Binder
from daterun.pages.certificatefigures import certificate_pages
from daterun.pages.costfigures import amounts_table, cost_pages
from daterun.pages.figurepages import card_of, figures_page
from daterun.pages.figureviews import FigureSection
from daterun.pages.gradefigures import coins_by_step, grade_pages, grades_section
from daterun.pages.holdings import Holding, Holdings, gather
from daterun.pages.metalfigures import content_table, metal_pages, price_facts
from daterun.pages.runfigures import completeness_section, struck_pages
from daterun.pages.sidebyside import side_by_side_pages
from daterun.pages.views import Page
from daterun.pages.weightfigures import weighings_table, weight_pages
from daterun.readers.reader import Reader
from daterun.records.series import Series


def figure_pages(binder: Binder) -> list[Page]:
    """Plan all pages of figures, the first page first; none where there is no series."""
    if not binder.cabinet.denominations:
        return []
    holdings = gather(binder.cabinet, binder.sides)
    steps, years = coins_by_step(holdings), coins_by_year(binder)
    chapters = [
        struck_pages(binder),
        side_by_side_pages(binder, holdings.links),
        certificate_pages(binder, holdings.links),
        metal_pages(binder, holdings),
        weight_pages(binder, holdings),
        cost_pages(binder, holdings, years),
    ]
    cards = tuple(card_of(pages[0], pages[0].frame.description) for pages in chapters if pages)
    words = binder.words
    sections = [
        *(completeness_section(binder, issuer) for issuer in binder.issuers),
        grades_section(binder, steps),
        acquisitions_section(binder, years),
    ]
    first = figures_page(
        binder,
        addresses.FIGURES,
        words.say("nav.figures"),
        words.say("figures.lead"),
        sections,
        ("grades",),
        cards,
    )
    return [
        first,
        *(page for pages in chapters for page in pages),
        *grade_pages(binder, steps),
        *acquisition_pages(binder, years, holdings.links),
        *_series_pages(binder, holdings),
    ]


def _series_pages(binder: Binder, holdings: Holdings) -> list[Page]:
    """Plan, for each series of which any coin is held, the page on which each coin stands with its figures."""
    pages = []
    for denomination in binder.cabinet.denominations:
        for series in denomination.series:
            held = holdings.of(series)
            if held:
                pages.append(_series_page(binder, series, held))
    return pages


def _series_page(binder: Binder, series: Series, held: tuple[Holding, ...]) -> Page:
    words = binder.words
    tables = [
        ("weights", weighings_table(binder, held)),
        ("metal", content_table(binder, held)),
        ("amounts", amounts_table(binder, held)),
    ]
    prices = {"metal": price_facts(binder)}
    sections = [
        FigureSection(name, "", facts=prices.get(name, ()), tables=(table,))
        for name, table in tables
        if table is not None
    ]
    name = binder.of_issuer(series.name, series.issuer)
    lead = words.count("figures.series.lead", len(held))
    if not sections:
        lead = f"{lead} {words.say('figures.series.nothing')}"
    cautions = ["weights", "metal", *(["values"] if binder.catalogue.reader is Reader.KEEPER else [])]
    return figures_page(
        binder,
        addresses.of_figures(series),
        words.say("figures.series.heading", series=name),
        lead,
        sections,
        cautions,
        description=f"{words.say('figures.series.heading', series=name)}: {lead}",
    )
