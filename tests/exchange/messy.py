"""An invented table of three hundred coins as people keep them: mixed days, two currencies, blank rows, slips."""

import random

HEADINGS = (
    "Denomination;Year;Mint mark;Condition;Mass;Price paid;Date bought;Bought from;Die axis;Where kept;"
    "Remarks;Bag no"
)
KINDS = (
    "coin",
    "blank",
    "no such date",
    "no such grade",
    "no such series",
    "unclear day",
    "total",
    "long row",
)


def messy_rows(count=300, seed=7):
    """Make the rows, each with what sort it is; unclear days are clear once the day is said to come first."""
    choose = random.Random(seed)
    for number in range(count):
        sort = choose.choices(KINDS, weights=(80, 5, 3, 3, 2, 4, 1, 1))[0]
        yield sort, _row(choose, sort, number)


def _row(choose, sort, number):
    if sort == "blank":
        return choose.choice((";;;;;;;;;;;", "", " ; ;;;;;;;;;;"))
    if sort == "total":
        return ";;;;;1.234,50;;;;;Total;"
    year = choose.choice((1891, 1892, 1893, 1897, 1900, 1901, 1902, 1903, 1904, 1905, 1906))
    cells = [
        choose.choice(("Ort", "ort", "1 ort", "vessmark/ort", " Ort ")),
        str(year),
        choose.choice(("K", "none")) if year == 1902 else "",
        choose.choice(("VF", "GVF", "VF-30", "EF/VF", "about EF", "F12", "", "-")),
        choose.choice(("8,97", "8.95 g", "9", "138.4 gr", "")),
        choose.choice(("12,50 €", "£4.50", "1.250,00 EUR", "45", "45.00 GBP", "")),
        choose.choice(("2019-04-03", "13/4/2019", "4.4.2019", "3 April 2019", "April 2019", "2018", "")),
        choose.choice(("R. Tarn", "A. Moss, Kaldhamn", "the spring fair", "")),
        choose.choice(("12", "6", "")),
        choose.choice(("cabinet 1", "tray: 4", "#3", "")),
        choose.choice((f"note {number}", "=1+1", "- worn", '"""dark"""', "NO", "a | b", "")),
        str(number),
    ]
    if sort == "no such date":
        cells[1] = choose.choice(("1898", "189", "19O2", "1887"))
    elif sort == "no such grade":
        cells[3] = choose.choice(("lovely", "MS-72", "80"))
    elif sort == "no such series":
        cells[0] = choose.choice(("Crown", "orrt", "penny"))
    elif sort == "unclear day":
        cells[6] = choose.choice(("3/4/2019", "12.11.2020"))
    elif sort == "long row":
        cells.append("one too many")
    return ";".join(cells)
