"""Sample pages for looking at a theme: one of each template, filled as a grown catalogue would fill it.

Everything here is invented. What is held, missing or scarce follows from arithmetic on the dates, so that
the same pages come out each time.
"""

from dataclasses import replace

from daterun.pages.addresses import of_part
from daterun.pages.gridviews import GridCell, GridColumn, GridGroup, GridRow, GridSlot, GridView, LegendItem
from daterun.pages.partviews import Parts
from daterun.pages.pieces import (
    Card,
    CoinCard,
    Drawing,
    Fact,
    Link,
    Note,
    NoteLink,
    Picture,
    SideView,
    Size,
    Table,
)
from daterun.pages.views import (
    CoinGroup,
    CoinListView,
    CoinView,
    DateRow,
    DateView,
    DenominationView,
    EssayView,
    Frame,
    HomeView,
    IndexView,
    MonarchView,
    NavigationLink,
    NotFoundView,
    Page,
    RunPlace,
    TypeView,
)

# Name, tone, diameter in hundredths of a millimetre, first and last date, a number that spreads the gaps.
DENOMINATIONS = (
    ("Daler", "silver", 3700, 1872, 1911, 9),
    ("Half daler", "silver", 3100, 1871, 1917, 5),
    ("Ort", "silver", 2650, 1871, 1917, 7),
    ("12 skilling", "silver", 2250, 1871, 1917, 4),
    ("8 skilling", "silver", 1950, 1872, 1917, 6),
    ("4 skilling", "silver", 1650, 1871, 1917, 3),
    ("2 skilling", "copper", 2900, 1871, 1917, 8),
    ("1 skilling", "copper", 2500, 1871, 1917, 5),
    ("1/2 skilling", "copper", 2000, 1871, 1917, 7),
)
MONARCHS = (("Ingrith", 1871, 1893), ("Torvald III", 1894, 1907), ("Sunniva", 1908, 1917))
PICTURES = (
    "silver-obverse",
    "silver-reverse",
    "toned-obverse",
    "toned-reverse",
    "copper-obverse",
    "copper-reverse",
)
LEGEND = (
    LegendItem("filled", "in the cabinet"),
    LegendItem("below", "below the aim"),
    LegendItem("missing", "missing"),
    LegendItem("scarce", "missing, scarce date"),
    LegendItem("left-out", "left out"),
    LegendItem("not-struck", "none struck"),
    LegendItem("proofs-only", "proofs only"),
    LegendItem("not-known", "not known"),
)
NOBODY = (Link(""), Link(""))


def slug(name: str) -> str:
    return name.lower().replace(" ", "-").replace("/", "-")


def picture(stem: str, text: str, is_round: bool = True) -> Picture:
    sizes = tuple(Size(f"pictures/{stem}-{px}.jpg", px, px) for px in (160, 640, 1600))
    return Picture(
        sizes, text, is_round, "" if is_round else "the disc could not be told from its background"
    )


def stem(tone: str, number: int, side: str) -> str:
    return f"copper-{side}" if tone == "copper" else f"{('silver', 'toned')[number % 2]}-{side}"


def side(tone: str, number: int, name: str, of: str, design: str = "") -> SideView:
    return SideView(name, picture(stem(tone, number, name.lower()), f"{of}, {name.lower()}"), None, design)


def drawn(name: str, of: str, legend: str, middle: str, tone: str = "silver") -> SideView:
    return SideView(name, None, Drawing(legend, middle, tone, f"{of}, {name.lower()}, drawn"), "")


def grid_cell(name: str, tone: str, size: int, year: int, spread: int, first: int, last: int) -> GridCell:
    label = f"{name} {year}"
    if not first <= year <= last:
        return GridCell(str(year), (), "outside", "")
    chance = (year * 37 + spread * spread * 11 + year // 10 * spread) % 23
    if spread == 9 and chance > 7:
        return GridCell(str(year), (), "not-struck", f"{label}: none struck")
    if chance == 17 and year % 2:
        return GridCell(str(year), (), "proofs-only", f"{label}: struck only as proofs")
    if chance == 18:
        return GridCell(str(year), (), "not-known", f"{label}: not known whether any were struck")
    if chance == 19:
        return GridCell(str(year), (), "not-struck", f"{label}: none struck")
    slots = []
    for kind in ("old spelling", "new spelling") if (year, name) == (1899, "Ort") else ("",):
        what = f"{label}, {kind}" if kind else label
        if chance in (3, 9, 14):
            slots.append(GridSlot("missing", False, f"{what}: missing", "", None, tone, size, 0, 0))
        elif chance == 11:
            address = f"dates/{year}/index.html"
            slots.append(
                GridSlot("missing", True, f"{what}: missing, scarce date", address, None, tone, size, 0, 0)
            )
        elif chance == 21 and spread == 4:
            slots.append(GridSlot("left-out", False, f"{what}: left out", "", None, tone, size, 0, 0))
        else:
            state = "below" if chance == 5 else "filled"
            grade = (4, 12, 20, 30, 45, 50, 55, 62, 64)[(year + spread) % 9]
            words = f"{what}, grade {grade}" + (", below the aim" if state == "below" else "")
            face = None if chance == 8 else picture(stem(tone, chance, "reverse"), words)
            pieces = 2 if chance == 12 else 1
            slots.append(
                GridSlot(
                    state,
                    False,
                    words,
                    f"coins/{slug(name)}/{year}/index.html",
                    face,
                    tone,
                    size,
                    pieces,
                    grade * 100,
                )
            )
    return GridCell(str(year), tuple(slots), "", "")


def row_of(link: Link, cells: tuple[GridCell, ...]) -> GridRow:
    slots = [slot for cell in cells for slot in cell.slots if slot.state != "left-out"]
    filled = sum(slot.state == "filled" for slot in slots)
    return GridRow(link, cells, f"{filled} of {len(slots)}", filled, len(slots))


def run_grid(first: int, last: int, caption: str) -> GridView:
    """A column a date, a row a denomination."""
    reigns = [
        (name, max(start, first), min(end, last))
        for name, start, end in MONARCHS
        if start <= last and end >= first
    ]
    years = range(first, last + 1)
    largest = max(diameter for _, _, diameter, _, _, _ in DENOMINATIONS)
    rows = tuple(
        row_of(
            Link(name, f"denominations/{slug(name)}/index.html"),
            tuple(grid_cell(name, tone, mm * 1000 // largest, year, spread, start, end) for year in years),
        )
        for name, tone, mm, start, end, spread in DENOMINATIONS
    )
    groups = tuple(
        GridGroup(Link(name, f"monarchs/{slug(name)}/index.html"), f"{start}–{end}", end - start + 1)
        for name, start, end in reigns
    )
    columns = tuple(
        GridColumn(
            str(year),
            f"{year % 100:02}",
            f"dates/{year}/index.html",
            any(year == start for _, start, _ in reigns),
        )
        for year in years
    )
    return GridView("run", caption, "Denomination", groups, columns, rows, LEGEND)


def tray_grid(number: int) -> GridView:
    """A row a decade, a column a year of it."""
    name, tone, _, start, end, spread = DENOMINATIONS[number]
    rows = tuple(
        row_of(
            Link(f"{decade}s"),
            tuple(grid_cell(name, tone, 1000, decade + year, spread, start, end) for year in range(10)),
        )
        for decade in range(1870, 1920, 10)
    )
    columns = tuple(GridColumn(str(year), str(year), "", False) for year in range(10))
    caption = f"{name}, {start} to {end}, a row to each decade"
    return GridView("tray", caption, "Decade", (), columns, rows, LEGEND[:6])


def coin_card(number: int, year: int, line: str, *marks: str, name: str = "Reverse") -> CoinCard:
    denomination, tone = DENOMINATIONS[number][:2]
    title = f"{denomination} {year}"
    link = Link(title, f"coins/{slug(denomination)}/{year}/index.html")
    return CoinCard(link, side(tone, year, name, title), line, marks)


def frame(title: str, current: str, *trail: Link, notice: str = "") -> Frame:
    rooms = ("Grid", "Monarchs", "Denominations", "Dates", "Grades", "Wanted", "Figures", "Essays")
    return Frame(
        site_title="The Wrenfield cabinet",
        title=title,
        description=f"{title}: from the coinage of Vessmark, by date",
        language="en-GB",
        navigation=tuple(
            NavigationLink(
                Link(room, "index.html" if room == "Grid" else f"{slug(room)}/index.html"), room == current
            )
            for room in rooms
        ),
        trail=trail,
        notice=notice,
        keeps_robots_out=bool(notice),
        foot=(
            Link("The Wrenfield cabinet, kept by Ida Quennell"),
            Link("All coins", "coins/index.html"),
            Link("About this catalogue", "essays/about/index.html"),
        ),
    )


HOME = Link("The Wrenfield cabinet", "index.html")

TORVALD = (
    "Bearded head to the right, the hair short and combed forward over the ear",
    "A spruce above three waves, a star to each side; the date in the exergue",
)


def ort_sides(year: int) -> tuple[SideView, ...]:
    title = f"Ort {year}"
    return (
        side("silver", year, "Obverse", title, TORVALD[0]),
        side("silver", year, "Reverse", title, TORVALD[1]),
    )


def home_page() -> Page:
    scarcest = Table(
        "Scarcest dates still missing",
        ("Date", "Reign", "Struck"),
        tuple(
            (Link(date, "dates/1881/index.html"), Link(reign), Link(struck))
            for date, reign, struck in (
                ("Half daler 1881", "Ingrith", "2,310"),
                ("Ort 1899, new spelling", "Torvald III", "8,400"),
                ("8 skilling 1881", "Ingrith", "11,050"),
                ("Daler 1898", "Torvald III", "14,200"),
                ("12 skilling 1904", "Torvald III", "21,766"),
            )
        ),
        numeric=(2,),
    )
    monarchs = tuple(
        Card(
            Link(name, f"monarchs/{slug(name)}/index.html"),
            f"{start}–{end}",
            tally,
            (
                side("silver", number, "Obverse", f"Half daler {start}"),
                side("copper", 0, "Reverse", f"2 skilling {end}"),
            ),
        )
        for number, ((name, start, end), tally) in enumerate(
            zip(MONARCHS, ("112 of 160 dates", "75 of 98 dates", "41 of 59 dates"), strict=True)
        )
    )
    essays = (
        Card(
            Link("How the spelling changed", "essays/spelling/index.html"),
            "OORT became ORT in the spring of 1899, and for a year both were struck.",
            "",
            (),
        ),
        Card(
            Link("Weighing what wear has left", "essays/weighing/index.html"),
            "A balance, a glass of water, and what they can and cannot tell.",
            "",
            (),
        ),
        Card(
            Link("The branch mint at Kaldhamn", "essays/kaldhamn/index.html"),
            "Forty summers of striking, and a fire.",
            "",
            (),
        ),
    )
    body = HomeView(
        "The coinage of Vessmark, 1871–1917",
        "Nine denominations, three reigns. 228 of 317 dates are in the cabinet; "
        "every ring below is one still to be found.",
        (
            run_grid(
                1871,
                1917,
                "Every date of every denomination, each coin at a size in proportion to its diameter",
            ),
        ),
        scarcest,
        (
            coin_card(0, 1872, "EF40"),
            coin_card(2, 1897, "VF30–EF40", "cleaned"),
            coin_card(6, 1910, "MS63 brown"),
        ),
        monarchs,
        essays,
    )
    return Page("index.html", "home", frame("The Wrenfield cabinet", "Grid"), body)


def index_page() -> Page:
    cards = tuple(
        Card(
            Link(name, f"denominations/{slug(name)}/index.html"),
            f"{'Silver' if tone == 'silver' else 'Bronze'}, {mm / 100:.1f} mm, {start}–{end}",
            f"{20 + spread} of {end - start - spread} dates",
            (side(tone, spread, "Obverse", name), side(tone, spread, "Reverse", name)),
        )
        for name, tone, mm, start, end, spread in DENOMINATIONS
    )
    body = IndexView(
        "Denominations", "From the daler of the merchants to the half skilling of the church box.", cards
    )
    return Page("denominations/index.html", "index", frame("Denominations", "Denominations", HOME), body)


def monarch_page() -> Page:
    body = MonarchView(
        "Torvald III, 1893–1908",
        "A careful reign: the fineness of the ort was lowered, "
        "and the branch mint at Kaldhamn took up striking again.",
        (
            Fact("Reign", "20 November 1893 to 3 February 1908"),
            Fact("On coins dated", "1894 to 1907"),
            Fact("Mints", "Vessborg, Kaldhamn", "K below the waves from 1902"),
            Fact("Held", "75 of 98 dates"),
        ),
        (
            coin_card(1, 1894, "Bare head, 1894–1899", name="Obverse"),
            coin_card(2, 1902, "Bearded head, 1900–1907", name="Obverse"),
            coin_card(6, 1902, "The head on the bronze", name="Obverse"),
        ),
        run_grid(1894, 1907, "Every date of the reign"),
        tuple(
            coin_card(number, 1894 + number, ("EF40", "VF20", "AU55", "F12")[number % 4])
            for number in range(9)
        ),
        (Link("Ingrith", "monarchs/ingrith/index.html"), Link("Sunniva", "monarchs/sunniva/index.html")),
    )
    trail = (HOME, Link("Monarchs", "monarchs/index.html"))
    return Page("monarchs/torvald-iii/index.html", "monarch", frame("Torvald III", "Monarchs", *trail), body)


def denomination_page() -> Page:
    standards = Table(
        "Standards",
        ("Dates", "Metal", "Fineness", "Weight", "Remedy", "Diameter", "Edge", "Law"),
        (
            tuple(
                map(
                    Link,
                    (
                        "1871–1903",
                        "silver",
                        ".750",
                        "9.000 g",
                        "0.040 g",
                        "26.5 mm",
                        "milled",
                        "Coinage Law of 1870",
                    ),
                )
            ),
            tuple(
                map(
                    Link,
                    (
                        "1904–1917",
                        "silver",
                        ".500",
                        "9.000 g",
                        "0.045 g",
                        "26.5 mm",
                        "milled",
                        "Coinage Law of 1904",
                    ),
                )
            ),
        ),
        numeric=(2, 3, 4, 5),
    )
    varieties = Table(
        "Varieties",
        ("Variety", "Dates", "Reading", "Held"),
        (
            (Link("Old spelling"), Link("1891–1899"), Link("value spelt OORT"), Link("8 of 9")),
            (Link("New spelling"), Link("1899–1917"), Link("value spelt ORT"), Link("14 of 18")),
            (
                Link("Nine over eight", "coins/ort/1899/index.html"),
                Link("1899"),
                Link("last figure cut over an 8"),
                Link("1 of 1"),
            ),
        ),
        numeric=(3,),
    )
    dates = Table(
        "Dates",
        ("Date", "Struck", "Proofs", "Held", "Grade", "Source"),
        tuple(
            (
                Link(str(year), f"dates/{year}/index.html"),
                Link(f"{(year * 7919) % 890 + 12},{(year * 31) % 1000:03}"),
                Link("60" if year % 6 == 0 else ""),
                Link(("1", "2", "none")[year % 3], "" if year % 3 == 2 else f"coins/ort/{year}/index.html"),
                Link(("EF40", "VF30–EF40", "")[year % 3]),
                Link("Report of 1898" if year == 1897 else ""),
            )
            for year in range(1891, 1907)
        ),
        numeric=(1, 2),
        notes=("Mint reports, 1891 to 1906. The mintage includes the proofs.",),
    )
    ingrith = (
        side("silver", 0, "Obverse", "Ort 1891", "Crowned head to the left"),
        side("silver", 0, "Reverse", "Ort 1891", "A spruce above three waves"),
    )
    sunniva = (
        drawn("Obverse", "Ort 1908", "SUNNIVA QUEEN OF VESSMARK", "1908"),
        drawn("Reverse", "Ort 1908", "KINGDOM OF VESSMARK", "1 ORT"),
    )
    types = (
        TypeView(
            "ingrith",
            "Ingrith",
            "1871–1893",
            ingrith,
            (Fact("Obverse", "INGRITH QUEEN OF VESSMARK"), Fact("Reverse", "KINGDOM OF VESSMARK")),
        ),
        TypeView(
            "torvald",
            "Torvald III",
            "1894–1907",
            ort_sides(1897),
            (Fact("Obverse", "TORVALD III KING OF VESSMARK"), Fact("Reverse", "KINGDOM OF VESSMARK")),
        ),
        TypeView(
            "sunniva",
            "Sunniva",
            "1908–1917",
            sunniva,
            (Fact("Obverse", "SUNNIVA QUEEN OF VESSMARK"), Fact("Reverse", "KINGDOM OF VESSMARK")),
        ),
    )
    body = DenominationView(
        "Ort",
        "Twenty-four skilling, the quarter of a daler: the coin that market women bit.",
        (tray_grid(2),),
        standards,
        types,
        varieties,
        (dates,),
        (
            coin_card(2, 1889, "struck off centre", "error"),
            coin_card(2, 1895, "a cast copy, kept as a warning", "forgery"),
        ),
        ("Mint reports, 1891 to 1906", "Report of 1898, plate 3", "Coinage Laws of 1870 and 1904"),
        (
            "Metal worth is arithmetic, not an offer. Melting coin is against the law in some places: "
            "look it up first.",
        ),
        (
            Link("Half daler", "denominations/half-daler/index.html"),
            Link("12 skilling", "denominations/12-skilling/index.html"),
        ),
    )
    trail = (HOME, Link("Denominations", "denominations/index.html"))
    return Page("denominations/ort/index.html", "denomination", frame("Ort", "Denominations", *trail), body)


def date_page() -> Page:
    rows = (
        DateRow(Link("Daler", "denominations/daler/index.html"), "not-struck", "None struck", "", None, ()),
        DateRow(
            Link("Half daler", "denominations/half-daler/index.html"),
            "missing",
            "2,310 struck",
            "A scarce date",
            Drawing("TORVALD III KING OF VESSMARK", "1899", "silver", "Half daler 1899, drawn"),
            (),
        ),
        DateRow(
            Link("Ort", "denominations/ort/index.html"),
            "filled",
            "298,000 struck, of them 40 proofs",
            "210,000 with the old spelling, 88,000 with the new",
            None,
            (
                coin_card(2, 1899, "old spelling, VF30–EF40", "cleaned"),
                coin_card(2, 1899, "new spelling, AU55", name="Obverse"),
            ),
        ),
        DateRow(
            Link("2 skilling", "denominations/2-skilling/index.html"),
            "below",
            "1,204,000 struck",
            "",
            None,
            (coin_card(6, 1899, "G4"),),
        ),
    )
    body = DateView(
        "1899",
        "The year of two spellings. Four denominations were struck; three are here.",
        (Link("Torvald III", "monarchs/torvald-iii/index.html"),),
        rows,
        (Link("1898", "dates/1898/index.html"), Link("1900", "dates/1900/index.html")),
    )
    return Page(
        "dates/1899/index.html", "date", frame("1899", "Dates", HOME, Link("Dates", "dates/index.html")), body
    )


def coin_page() -> Page:
    cells = tray_grid(2).rows
    places = tuple(
        RunPlace(slot, cell.date, cell.date == "1897")
        for row in cells
        for cell in row.cells
        for slot in cell.slots
    )
    body = CoinView(
        id="ort/1897",
        heading="Ort, 1897",
        lead="Torvald III · .750 silver · 9.00 g · 26.5 mm · 412,000 struck",
        kind="",
        departs="",
        sides=ort_sides(1897),
        run=places,
        run_name=Link("The run of the ort, 1871 to 1917", "denominations/ort/index.html"),
        record=(
            Fact("Grade", "AU50", "hair over the ear is a little flat"),
            Fact("Certificate", "North Pier Grading, AU50", "sealed, 2 May 2025"),
            Fact("Variety", "old spelling, nine over eight"),
            Fact("Mint", "Vessborg"),
            Fact("Strike", "ordinary", "strong on the spruce, weak on the date"),
            Fact("Silver", "6.73 g fine", "0.216 oz t"),
            Fact("Mintage", "412,000", "Mint reports, 1891 to 1906"),
            Fact(
                "See also",
                "",
                links=(
                    Link("1897", "dates/1897/index.html"),
                    Link("Torvald III", "monarchs/torvald-iii/index.html"),
                ),
            ),
        ),
        measured=Table(
            "Measured against the standard",
            ("", "Standard", "This coin", "Differs by"),
            (
                (Link("Weight"), Link("9.000 g ± 0.040"), Link("8.970 g"), Link("−0.030 g")),
                (Link("Diameter"), Link("26.50 mm"), Link("26.40 mm"), Link("−0.10 mm")),
                (Link("Die axis"), Link("12 h"), Link("12 h"), Link("")),
                (Link("Density"), Link("10.06"), Link("10.08 ± 0.11"), Link("+0.02")),
            ),
            numeric=(1, 2, 3),
        ),
        measured_remark="Weight, size and density can prove a coin wrong; they never prove it genuine.",
        opinions=Table(
            "Opinions of the grade",
            ("On", "By", "Grade", "Reasons"),
            (
                (
                    Link("11 February 2024"),
                    Link("the keeper"),
                    Link("VF30–EF40"),
                    Link("hair over the ear is flat"),
                ),
                (Link("2 May 2025"), Link("North Pier Grading"), Link("AU50"), Link("sealed in its holder")),
            ),
        ),
        opinions_remark="A grade is an opinion.",
        provenance=(
            "Hallin collection, until 1988",
            "Kaldhamn autumn sale, lot 212, 1988",
            "A family in Vessborg, until 2019",
        ),
        notes=Note(
            "Sharp lettering on both sides; the spruce is full except for its top, where this die was "
            "always weak. Lilac and straw toning, deeper at the rim, and a thin hairline across the "
            "field before the face.\n\n"
            "The 9 was cut over an 8 in a die left from the year before, in which nothing was struck: compare "
            "[[ort 1899]], where the same punch appears again.",
            (
                NoteLink(
                    "ort 1899",
                    "the ort of 1899",
                    "coins/ort/1899/index.html",
                    False,
                    (ort_sides(1899)[1],),
                    "",
                ),
            ),
        ),
        references=("Report of 1899, plate 3",),
        photo_remarks=(),
        diameter=2640,
        actual_size="26.4 mm across, where a screen tells its size truly; on paper always.",
        companions=(coin_card(1, 1897, "AU55"), coin_card(3, 1897, "AU53"), coin_card(6, 1897, "EF45")),
        private=(),
        cautions=(
            "A grade is an opinion. Never clean a coin on account of what is written here.",
            "Metal worth is arithmetic, not an offer; melting coin is against the law in some places: "
            "look it up first.",
        ),
        neighbours=(
            Link("Ort, 1896", "coins/ort/1896/index.html"),
            Link("Ort, 1898", "coins/ort/1898/index.html"),
        ),
    )
    trail = (
        HOME,
        Link("Denominations", "denominations/index.html"),
        Link("Ort", "denominations/ort/index.html"),
    )
    return Page("coins/ort/1897/index.html", "coin", frame("Ort, 1897", "Denominations", *trail), body)


def keeper_page() -> Page:
    """A coin as its keeper sees it: drawn on one side, not found on the other, with what is private."""
    title = "Half skilling, undated"
    plain = picture("toned-reverse", f"{title}, reverse", is_round=False)
    body = CoinView(
        id="half-skilling/off-centre",
        heading=title,
        lead="Bronze · 2.81 g · 20.1 mm",
        kind="error",
        departs="Struck some four millimetres off centre, so that the date fell off the flan.",
        sides=(
            drawn("Obverse", title, "TORVALD III KING OF VESSMARK", "½", "copper"),
            SideView("Reverse", plain, None, "A spruce, its left half lost"),
        ),
        run=(),
        run_name=Link(""),
        record=(Fact("Grade", "nearly VF"), Fact("Problem", "bent"), Fact("Edge", "plain")),
        measured=None,
        measured_remark="",
        opinions=None,
        opinions_remark="",
        provenance=(),
        notes=None,
        references=(),
        photo_remarks=(
            "Reverse: the disc could not be told from its background, so the photo is shown square.",
        ),
        diameter=2010,
        actual_size="20.1 mm across",
        companions=(),
        private=(
            Fact("Acquired", "3 April 2019, bought from R. Tarn", "45.00 VKR"),
            Fact("Kept", "cabinet 2, tray 4"),
            Fact("Value", "80 VKR", "10 January 2026: two sales in 2025"),
            Fact("Photo files", "a.jpg, b.jpg"),
        ),
        cautions=("A value here is an opinion; for insurance and sale, ask a licensed valuer.",),
        neighbours=NOBODY,
    )
    notice = "For the keeper alone. This edition holds prices, places and names: do not publish it."
    trail = (HOME, Link("Out of the ordinary", "ordinary/index.html"))
    return Page(
        "coins/half-skilling/off-centre/index.html", "coin", frame(title, "", *trail, notice=notice), body
    )


def coins_page() -> Page:
    grades = ("G4", "F12", "VF20", "VF30–EF40", "EF45", "AU55", "MS62", "MS64")
    cards = tuple(coin_card(2, 1894 + number, grade, name="Obverse") for number, grade in enumerate(grades))
    drawing = CoinCard(
        Link("Ort 1903", "coins/ort/1903/index.html"),
        drawn("Obverse", "Ort 1903", "TORVALD III KING OF VESSMARK", "1903"),
        "F15",
        ("not yet photographed",),
    )
    body = CoinListView(
        "Grades side by side",
        "The coins of one type in order of grade, the most worn first.",
        (
            CoinGroup(
                Link("Ort, Torvald III", "denominations/ort/index.html#torvald"),
                "Look at the hair over the ear: it goes first.",
                (*cards, drawing),
            ),
            CoinGroup(
                Link("2 skilling, Sunniva"),
                "Bronze shows wear on the cheek.",
                tuple(coin_card(6, 1908 + n, g) for n, g in enumerate(grades[:3])),
            ),
        ),
    )
    return Page("grades/index.html", "coins", frame("Grades side by side", "Grades", HOME), body)


def essay_page() -> Page:
    plate = NoteLink(
        "plate ort 1897",
        "Ort, 1897",
        "coins/ort/1897/index.html",
        True,
        ort_sides(1897),
        "Both sides. The upright of the R leans on the tree.",
    )
    mention = NoteLink(
        "ort 1899", "ort of 1899", "coins/ort/1899/index.html", False, (ort_sides(1899)[1],), ""
    )
    text = Note(
        "In the spring of 1899 the engraver at Vessborg received a letter of four lines. The Academy had settled "
        "the spelling of the realm, and the word on the second coin of the kingdom was now short by a letter.\n\n"
        "He did not cut new punches at once. The [[ort 1899]] is known with both spellings, the old one commoner "
        "by more than two to one, and the dies were paired as they came to hand.\n\n"
        "[[plate ort 1897]]\n\n"
        "## What to look for\n\n"
        "The shorter word was centred afresh under the spruce, so on the new dies the waves stand **a little "
        "higher**. A worn coin that has lost its value can still be told:\n\n"
        "- on the old dies the lowest wave touches the O;\n- on the new dies it runs clear above the word.\n\n"
        "| | 1898 and before | 1899 | 1900 and after |\n|---|---|---|---|\n"
        "| OORT | yes | yes | no |\n| ORT | no | yes | yes |\n\n"
        "> No one in the market remarked upon it, and the bakers least of all.\n",
        (plate, mention),
    )
    body = EssayView(
        "How the spelling changed",
        "OORT became ORT in the spring of 1899, and for a year both were struck.",
        "Ida Quennell, March 2026",
        text,
        (Link(""), Link("Weighing what wear has left", "essays/weighing/index.html")),
    )
    trail = (HOME, Link("Essays", "essays/index.html"))
    return Page(
        "essays/spelling/index.html", "essay", frame("How the spelling changed", "Essays", *trail), body
    )


def not_found_page() -> Page:
    body = NotFoundView(
        "Nothing lies in this place",
        "The page may have moved, or the address may have a slip in it.",
        (Link("The whole coinage", "index.html"), Link("All coins", "coins/index.html")),
    )
    return Page("404.html", "not-found", frame("Nothing here", ""), body)


def in_parts(page: Page) -> Page:
    """Give a page as the eighth of several over which its list is spread."""

    def part(nth: int) -> str:
        return of_part(page.address, nth)

    parts = Parts(
        "Page 8 of 21",
        Link("Previous", part(7)),
        Link("Next", part(9)),
        tuple(
            Link(str(nth) if nth else "", part(nth) if nth not in (0, 8) else "")
            for nth in (1, 0, 6, 7, 8, 9, 10, 0, 21)
        ),
        tuple(
            Link(name, part(nth)) for nth, name in enumerate(("Daler", "Half daler", "Ort", "12 skilling"), 1)
        ),
    )
    return replace(page, address=part(8), frame=replace(page.frame, parts=parts))


def all_pages() -> tuple[Page, ...]:
    from aimsamples import aim_page
    from figuresamples import figures_page, side_by_side_page  # which are made of what is above
    from finding import compare_page, find_page

    return (
        home_page(),
        index_page(),
        monarch_page(),
        denomination_page(),
        date_page(),
        coin_page(),
        keeper_page(),
        coins_page(),
        in_parts(coins_page()),
        essay_page(),
        not_found_page(),
        find_page(),
        compare_page(),
        figures_page(),
        side_by_side_page(),
        aim_page(),
    )
