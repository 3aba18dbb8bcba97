"""A sample page of an aim, with every part that a page of lists can have, as in ``samples.py``."""

from samples import HOME, coin_card, frame, run_grid

from daterun.pages.aimviews import Gathered, ListingView
from daterun.pages.figureviews import Bar, BarChart
from daterun.pages.pieces import Fact, Link, Table
from daterun.pages.views import Page

CURVE = (("at any grade", 97), ("F12, as the aim asks", 93), ("VF20", 80), ("EF40", 34), ("MS63", 1))


def aim_page() -> Page:
    curve = BarChart(
        "What a higher or lower grade would do",
        ("At least", "Filled"),
        tuple(
            Bar(Link(step), Link(f"{filled} of 201"), 1000, filled * 1000 // 201) for step, filled in CURVE
        ),
        ("None would be filled at MS64 or better.",),
    )
    missing = Table(
        "Missing, the scarcest first",
        ("Date", "Ordinary strikes", "Remarks"),
        (
            (Link("Ort 1892", "dates/1892/index.html"), Link("2,310"), Link("scarce date")),
            (Link("Daler 1903", "dates/1903/index.html"), Link("764 or 1,128"), Link("")),
            (Link("Half daler 1917", "dates/1917/index.html"), Link("not known"), Link("")),
        ),
        (1,),
    )
    body = ListingView(
        "Silver by date, Fine or better",
        "93 of 201 filled, 13 below the aim, 95 missing, 3 left out.",
        (
            Fact("Series", "", "", (Link("Ort", "denominations/ort/index.html"), Link("Daler"))),
            Fact("Grade", "F12 or better", "of a range of grades the low end counts"),
            Fact("Weakest", "F12:", "", (Link("Ort 1877", "coins/ort/1877/index.html"),)),
        ),
        (run_grid(1871, 1917, "Silver by date: every slot"),),
        (
            Gathered(Link("Ort", "denominations/ort/index.html"), "2 of 3", (coin_card(0, 1899, "VF30"),)),
            Gathered(Link(""), "", (coin_card(1, 1900, "EF40", "below the aim"),)),
        ),
        (curve,),
        (missing,),
        ("A grade is an opinion, the keeper’s or a grading firm’s.",),
        (Link(""), Link("Proofs", "aims/proofs/index.html")),
    )
    trail = (HOME, Link("Aims", "aims/index.html"))
    return Page("aims/silver/index.html", "listing", frame(body.heading, "Aims", *trail), body)
