"""Sample pages of the table of all coins and of the comparison, as in ``samples.py``."""

from samples import DENOMINATIONS, HOME, frame, picture, slug, stem

from daterun.pages.findviews import Choice, CompareView, FindRow, FindView
from daterun.pages.pieces import Link
from daterun.pages.views import Page


def find_page(data: tuple[str, ...] = (), texts: tuple[str, ...] = ()) -> Page:
    rows = tuple(
        FindRow(
            f"{slug(name)}/{year}",
            Link(f"{name} {year}", f"coins/{slug(name)}/{year}/index.html"),
            picture(stem(tone, year, "reverse"), f"{name} {year}, reverse") if year % 3 else None,
            tone,
            (str(year), "Torvald III", "silver", "VF30–EF40", "cleaned" if year % 5 == 0 else ""),
        )
        for name, tone, _, first, _, spread in DENOMINATIONS
        for year in range(first, first + 20, spread)
    )
    body = FindView(
        heading="Find a coin",
        lead="Every coin in the cabinet.",
        choices=(
            Choice("monarch", "Monarch", "any", (Link("Ingrith"), Link("Torvald III"))),
            Choice(
                "problem",
                "Problem",
                "with or without",
                (Link("without a problem", "none"), Link("problem coins alone", "any"), Link("cleaned")),
            ),
        ),
        columns=tuple(
            Link(each.title() if each != "name" else "Coin", each)
            for each in ("name", "date", "monarch", "metal", "grade", "problem")
        ),
        rows=rows,
        remark=f"{len(rows)} coins",
        rest=Link("All of them stand in the list of coins", "coins/index.html"),
        data=data,
        texts=texts,
        holding=Link("Compare the {n} held", "compare/index.html"),
        most_held=4,
    )
    return Page("find/index.html", "find", frame("Find a coin", "", HOME), body)


def compare_page() -> Page:
    body = CompareView(
        heading="Side by side",
        lead="Up to 4 coins at their true size beside each other.",
        most=4,
        columns=(Link("Date", "2"), Link("Grade", "8"), Link("Diameter", "12")),
        links=(Link("Find a coin", "find/index.html"),),
        coins=(),
        records=(),
    )
    return Page("compare/index.html", "compare", frame("Side by side", "", HOME), body)
