"""Sample pages of figures, and of grades side by side, as in ``samples.py``."""

from samples import DENOMINATIONS, HOME, frame, ort_sides, slug

from daterun.pages.figureviews import (
    Bar,
    BarChart,
    FigureSection,
    FiguresView,
    GradedCoin,
    Guide,
    Mark,
    Plot,
    SideBySideView,
    Strip,
    Tick,
)
from daterun.pages.gridviews import LegendItem
from daterun.pages.pieces import Card, Fact, Link, Table
from daterun.pages.views import Page


def bar_chart() -> BarChart:
    bars = []
    for name, _, _, first, last, spread in DENOMINATIONS:
        slots, filled = last - first + 1, (last - first) // 10 * spread
        address = f"denominations/{slug(name)}/index.html"
        bars.append(
            Bar(
                Link(name, address),
                Link(f"{filled} of {slots}", address),
                slots * 1000 // 47,
                min(filled, slots) * 1000 // 47,
            )
        )
    bars.append(Bar(Link("Not yet begun"), Link("0"), 0, 0))
    return BarChart("Completeness by run", ("Series", "Dates held"), tuple(bars), ("In all 260 of 390.",))


def plot() -> Plot:
    kinds = ("dot", "ring", "cross", "lozenge")
    marks = tuple(
        Mark(
            80 + nth * 19 % 560,
            40 + nth * 53 % 300,
            kinds[nth % 4],
            f"Ort {1871 + nth}, loss {nth % 7} %",
            f"coins/ort/{1871 + nth}/index.html" if nth % 3 else "",
        )
        for nth in range(40)
    )
    return Plot(
        caption="Loss of weight against grade",
        summary="40 coins with a weight, a standard and a grade.",
        width=720,
        height=420,
        left=70,
        top=14,
        right=680,
        bottom=364,
        x_title="Grade, by steps of the 70-point scale",
        y_title="Loss, in % of the standard weight",
        x_ticks=(Tick(100, "F12"), Tick(300, "VF20"), Tick(500, "EF40")),
        y_ticks=(Tick(350, "0 %"), Tick(180, "3 %")),
        guides=(Guide(70, 350, 680, 350),),
        marks=marks,
        legend=tuple(LegendItem(kind, f"what a {kind} stands for") for kind in kinds),
    )


def figures_page() -> Page:
    pairs = tuple(
        (
            Link(f"Ort {1871 + nth}", f"coins/ort/{1871 + nth}/index.html"),
            Link("EF40"),
            Link(f"{nth % 3 - 1:+d}"),
        )
        for nth in range(12)
    )
    sections = (
        FigureSection("runs", "", bars=(bar_chart(),)),
        FigureSection(
            "losses",
            "",
            ("Coins that have lost metal otherwise than by wear are left out.",),
            (Fact("Weighed", "40 coins,", "", (Link("listed below", "figures/index.html#pairs"),)),),
            plot=plot(),
            behind=Table("Loss by grade", ("Graded", "Coins"), ((Link("VF, from 20"), Link("12")),), (1,)),
        ),
        FigureSection(
            "pairs", "", tables=(Table("The pairs", ("Coin", "Keeper", "Difference, steps"), pairs, (2,)),)
        ),
        FigureSection(
            "left-out",
            "Left out, and why",
            names=(Fact("No weight", "1 coin:", "", (Link("Ort 1871", "coins/ort/1871/index.html"),)),),
        ),
    )
    cards = (Card(Link("Weights", "figures/weights/index.html"), "Against the standard", "", ()),)
    body = FiguresView(
        "Figures",
        "What the cabinet comes to, in figures.",
        sections,
        cards,
        ("A grade is an opinion.", "Weights and diameters do not prove a coin genuine."),
    )
    return Page("figures/index.html", "figures", frame("Figures", "Figures", HOME), body)


def side_by_side_page() -> Page:
    grades = ("MS63", "AU55", "EF", "GVF/EF", "VF30", "VF20–VF25", "F15", "VG8")
    coins = []
    for nth, grade in enumerate(grades):
        obverse, reverse = ort_sides(1894 + nth)
        coins.append(
            GradedCoin(
                Link(f"Ort {1894 + nth}", f"coins/ort/{1894 + nth}/index.html"),
                grade,
                "about 50–55 on the 70-point scale" if grade == "EF" else "",
                "certified by North Pier Grading" if nth == 1 else "",
                ("problem coin",) if nth == 4 else (),
                obverse,
                reverse,
                "hair over the ear is flat" if nth % 2 else "",
            )
        )
    body = SideBySideView(
        "Ort, Torvald III: grades side by side",
        "8 coins, VG8 to MS63, the best first.",
        (
            Strip("In order of grade, 1 to 6", tuple(coins[:6])),
            Strip("In order of grade, 7 to 8", tuple(coins[6:])),
        ),
        (Link("Ort, Ingrith", "grades/vessmark/ort/ingrith/index.html"), Link("")),
        ("A grade is an opinion.",),
    )
    trail = (HOME, Link("Figures", "figures/index.html"), Link("Grades side by side", "grades/index.html"))
    title = "Ort, Torvald III: grades side by side"
    return Page("grades/vessmark/ort/torvald/index.html", "sidebyside", frame(title, "", *trail), body)
