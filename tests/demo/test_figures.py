"""The demo's figures, reckoned a second time: plain sums over the records, against what its pages say."""

from collections import Counter, defaultdict
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction

import numpy
import pytest

from daterun.bundled import content_folder
from daterun.records.catalogue import read_catalogue

STEPS = (1, 2, 3, 4, 6, 8, 10, 12, 15, 20, 25, 30, 35, 40, 45, 50, 53, 55, 58, *range(60, 71))
"""The thirty numbers of the scale."""

WORDS = {1: "PO", 2: "FR", 3: "AG", 4: "G", 8: "VG", 12: "F", 20: "VF", 40: "EF", 50: "AU", 60: "MS"}
"""Where each word of the scale begins."""

PRICE = Decimal("0.61")
OUNCE_G = Decimal("31.1034768")


@pytest.fixture(scope="module")
def catalogue():
    found, problems = read_catalogue(content_folder().parent)
    assert [each for each in problems if each.is_error] == []
    return found


@pytest.fixture(scope="module")
def held(catalogue):
    return [each for each in catalogue.coins if each.parted is None]


@pytest.fixture(scope="module")
def regular(held):
    return [each for each in held if each.kind.value == "regular"]


def text_of(element) -> str:
    return " ".join("".join(element.itertext()).replace("\u00a0", " ").replace("\u202f", " ").split())


def rows_of(page, caption: str) -> list[list[str]]:
    """Read the body of the one table of a page with a caption."""
    (table,) = [each for each in page.elements("table") if text_of(each.find("caption")) == caption]
    return [[text_of(cell) for cell in row] for row in table.find("tbody")]


def facts_of(page) -> dict[str, str]:
    """Read the facts of a page: each by its name, its value and remark in one."""
    return {
        text_of(each.find("dt")): text_of(each.find("dd"))
        for each in page.elements("div")
        if each.find("dt") is not None
    }


def step(grade) -> int:
    """Find a grade's place among the steps by its low end, of a split grade by its lower side."""
    low = min(side.low for side in grade.sides) if grade.sides else grade.low
    return max(nth for nth, number in enumerate(STEPS) if number <= low)


def in_force(coin):
    """Find the grade in force: the newest certificate's while it is sealed, else the keeper's newest."""
    newest = max(coin.certificates, key=lambda each: str(each.on), default=None)
    if newest is not None and newest.sealed:
        return newest.grade
    return coin.own_grades[-1].grade if coin.own_grades else None


def standard_of(coin, catalogue):
    """Find a coin's standard by its year; the one it names where it names one."""
    series = catalogue.find_series(coin.series)
    if coin.standard:
        return next(each for each in series.standards if coin.standard in (each.id, str(each.span)))
    found = [
        each
        for each in series.standards
        if coin.date.year is not None and each.span.first <= coin.date.year <= each.span.last
    ]
    return found[0] if len(found) == 1 else None


def fine_of(coin, catalogue) -> tuple[str, Decimal, Decimal] | None:
    """Reckon a coin's fine silver in grams, with its fineness and the part of it that was weighed."""
    standard = standard_of(coin, catalogue)
    if standard is None or standard.fineness is None:
        return None
    weight = coin.weight or standard.weight
    part = standard.fineness.value
    grams = weight.grams * part.numerator / part.denominator * coin.quantity
    return str(standard.fineness), grams, grams if coin.weight else Decimal(0)


def rounded(number: Decimal, places: str = "0.01") -> str:
    return f"{number.quantize(Decimal(places), ROUND_HALF_UP):,}"


def test_the_metal_by_fineness_is_the_sum_of_the_coins(edition, regular, catalogue):
    sums = defaultdict(lambda: [0, Decimal(0), Decimal(0)])
    keeper = "robots.txt" in edition.files
    for coin in regular:
        found = fine_of(coin, catalogue)
        if found is not None:
            fineness, grams, weighed = found
            pieces = coin.quantity if keeper else 1
            one = sums[fineness]
            one[0] += 1
            one[1] += grams / coin.quantity * pieces
            one[2] += weighed / coin.quantity * pieces
    expected = [
        [
            "silver",
            fineness,
            str(count),
            f"{rounded(grams)} g",
            f"{rounded(grams / OUNCE_G, '0.001')} oz t",
            f"{rounded(weighed)} g",
            *([f"{rounded(grams * PRICE)} VKR"] if keeper else []),
        ]
        for fineness, (count, grams, weighed) in sorted(sums.items(), reverse=True)
    ]
    assert len(expected) == 3
    assert rows_of(edition.pages["figures/metal/index.html"], "By metal and fineness") == expected


def test_the_metal_of_each_coin_adds_up_to_that_of_its_series(demo):
    by_series = rows_of(demo.pages["figures/metal/index.html"], "By series")
    ort = [Decimal(row[2].removesuffix(" g")) for row in by_series if row[0].startswith("Ort,")]
    coins = rows_of(demo.pages["figures/series/vessmark/ort/index.html"], "Metal")
    fine = [Decimal(row[2].removesuffix(" g")) for row in coins if row[2]]
    assert len(fine) == 41
    assert abs(sum(ort) - sum(fine)) < Decimal("0.005") * (len(fine) + len(ort))


def test_cost_value_metal_and_premium_are_the_sums_of_the_coins_held(keepers_demo, held, catalogue):
    costs = {each.id: each.acquired.price.amount for each in held if each.acquired and each.acquired.price}
    ids = {each.id for each in held}
    for lot in catalogue.lots.values():
        together = [each.id for each in catalogue.coins if each.lot == lot.id]
        shares = {name: share.amount for name, share in lot.shares.items()}
        if not shares:
            shares = {name: lot.price.amount / len(together) for name in together}
        costs.update({name: share for name, share in shares.items() if name in ids})
    values = {each.id: each.value.amount.amount for each in held if each.value}
    metal = {
        each.id: found[1] * PRICE
        for each in held
        if each.kind.value == "regular" and (found := fine_of(each, catalogue)) is not None
    }
    both = values.keys() & metal.keys()
    facts = facts_of(keepers_demo.pages["figures/costs/index.html"])
    cents = Decimal(facts["Cost"].split(" ")[0].replace(",", "")) - sum(costs.values())
    assert abs(cents) < Decimal("0.06")  # an equal share of a lot is told to the hundredth
    assert f"from {len(costs)} coins; {len(held) - len(costs)} coins have no cost" in facts["Cost"]
    assert facts["Value"].startswith(f"{sum(values.values()):,.2f} VKR from {len(values)} coins")
    assert facts["Metal"].startswith(f"{sum(metal.values()):,.2f} VKR from {len(metal)} coins")
    premium = sum(values[each] - metal[each] for each in both)
    assert facts["Premium of value over metal"].startswith(f"{premium:,.2f} VKR from {len(both)} coins")


def test_the_face_value_is_told_in_the_money_of_its_day_and_in_decimal_money(
    keepers_demo, regular, catalogue
):
    skilling = Fraction(0)
    for coin in regular:
        number, unit = catalogue.find_series(coin.series).face.split(" ")
        skilling += Fraction(number) * {"daler": 96, "ort": 24, "skilling": 1}[unit] * coin.quantity
    daler, rest = divmod(skilling, 96)
    ort, rest = divmod(rest, 24)
    facts = facts_of(keepers_demo.pages["figures/costs/index.html"])
    whole, part = divmod(rest, 1)
    said = f"{whole} {part} skilling" if part else f"{whole} skilling"
    assert facts["Face value, in the money of its day"].startswith(f"{daler} daler {ort} ort {said}")
    kron, part = divmod(skilling * 4 / 96, 1)
    assert facts["Face value, in decimal money"].startswith(f"{kron} {part} kron" if part else f"{kron} kron")


def test_acquisitions_are_counted_in_the_year_they_came(keepers_demo, catalogue):
    years = Counter()
    for coin in catalogue.coins:
        day = coin.acquired.on if coin.acquired and coin.acquired.on else None
        lot = catalogue.lots.get(coin.lot)
        years[(day or (lot.on if lot else None)).year] += 1
    rows = rows_of(keepers_demo.pages["figures/index.html"], "Acquisitions by year")
    assert {int(row[0]): int(row[1]) for row in rows if row[1] != "0"} == dict(years)
    assert [int(row[0]) for row in rows] == list(range(min(years), max(years) + 1))


def test_what_was_paid_is_added_up_by_the_year(keepers_demo):
    page = keepers_demo.pages["figures/costs/index.html"]
    paid = {row[0]: row[1] for row in rows_of(page, "Cost by year, in VKR") if row[1]}
    assert len(paid) > 20
    for year, amount in paid.items():
        own = keepers_demo.pages[f"figures/acquired/{year}/index.html"]
        (table,) = own.elements("table")
        costs = [text_of(row[3]).removesuffix(" VKR").replace(",", "") for row in table.find("tbody")]
        assert f"{sum(Decimal(each) for each in costs if each):,.2f} VKR" == amount


def test_the_grades_are_those_in_force(edition, regular):
    counts = Counter(STEPS[step(grade)] if (grade := in_force(each)) else None for each in regular)
    rows = rows_of(edition.pages["figures/index.html"], "Grades")
    shown = {row[0]: int(row[1]) for row in rows}
    ungraded = shown.pop("not graded", 0)
    found = {int("".join(c for c in name.split(",")[0] if c.isdigit())): n for name, n in shown.items()}
    assert ungraded == counts.pop(None, 0)
    assert {number: count for number, count in found.items() if count} == dict(counts)
    for number, count in counts.items():
        (table,) = edition.pages[f"figures/grades/{number}/index.html"].elements("table")
        assert len(table.find("tbody")) == count


def test_completeness_by_run_counts_dates_struck_for_use_and_held(edition, regular, catalogue):
    expected = {}
    for series in catalogue.series.values():
        dates = set()
        for issue in series.issues:
            figures = [part.figures for part in issue.parts] or [issue.figures]
            if not all(each.proofs_only for each in figures):
                dates.add(issue.date.key)
        found = {
            coin.date.key
            for coin in regular
            if catalogue.find_series(coin.series) is series and coin.strike.value == "ordinary"
        }
        expected[series.name] = f"{len(dates & found)} of {len(dates)}"
    rows = rows_of(edition.pages["figures/index.html"], "Completeness by run")
    assert {row[0]: row[1].split(",")[0] for row in rows} == expected


def test_every_date_whose_number_is_known_has_its_mark(demo, regular, catalogue):
    known, held = 0, 0
    for series in catalogue.series.values():
        found = {
            coin.date.key
            for coin in regular
            if catalogue.find_series(coin.series) is series and coin.strike.value == "ordinary"
        }
        for issue in series.issues:
            figures = [issue.figures] if issue.figures.mintage else [part.figures for part in issue.parts]
            told = figures and all(len(each.mintage) == 1 or each.proofs_only for each in figures)
            if told or issue.figures.mintage:
                struck = sum(min(each.mintage) for each in figures if each.mintage)
                less = 0 if issue.figures.proofs_apart else (issue.figures.proofs or 0)
                if struck - less > 0:
                    known += 1
                    held += issue.date.key in found
    page = demo.pages["figures/struck/index.html"]
    marks = Counter(
        each.attrib["class"]
        for each in page.root.iter()
        if str(each.tag).endswith("circle") and "class" in each.attrib
    )
    assert (marks["dot"] - 1, marks["ring"] - 1) == (held, known - held)  # one of each stands in the legend
    assert f"{known} dates whose number struck is known; {held} of them held." in page.words


def test_own_grades_fared_against_certificates_as_a_second_reckoning_says(keepers_demo, catalogue):
    off, problems, total = [], Counter(), 0
    steps = []
    for coin in catalogue.coins:
        for certificate in coin.certificates:
            before = [each for each in coin.own_grades if each.on and str(each.on) < str(certificate.on)]
            own = before[-1] if before else coin.own_grades[0] if len(coin.own_grades) == 1 else None
            assert own is not None
            total += 1
            if "details" in certificate.grade.text:
                problems[certificate.grade.text.split(", ")[1]] += 1
            else:
                pair = step(own.grade), step(certificate.grade)
                steps.append(pair)
                off.append(pair[0] - pair[1])
    facts = facts_of(keepers_demo.pages["figures/certificates/index.html"])
    assert facts["Compared"].startswith(f"{len(off)} pairs")
    assert facts["Bias"].startswith(f"{numpy.mean(off):+.2f} steps".replace("-", "\u2212"))
    assert facts["Mean difference without its sign"] == f"{numpy.mean(numpy.abs(off)):.2f} steps"
    assert facts["Median difference"].startswith(f"{numpy.median(off):+.2f} steps")
    assert facts["The same step"] == f"{100 * off.count(0) / len(off):.0f} %"
    assert facts["Within one step"] == f"{100 * sum(abs(each) <= 1 for each in off) / len(off):.0f} %"
    own, certified = (numpy.array(column) for column in zip(*steps, strict=True))
    chance = numpy.mean((own[:, None] - certified[None, :]) ** 2)
    assert facts["Kappa"].startswith(f"{1 - numpy.mean((own - certified) ** 2) / chance:.2f}")
    returned = sum(problems.values())
    said = f"{100 * returned / total:.0f} %, {returned} of {total}"
    assert facts["Came back as problem coins"].startswith(said)
    assert all(
        f"{reason}: {count}" in facts["Came back as problem coins"] for reason, count in problems.items()
    )


def test_the_pairs_stand_in_the_clubs_edition_and_not_in_the_publics(demo, clubs_demo, keepers_demo):
    address = "figures/certificates/index.html"
    assert address not in demo.files
    pairs = rows_of(clubs_demo.pages[address], "The pairs")
    assert pairs == rows_of(keepers_demo.pages[address], "The pairs")
    assert len(pairs) == 24


def test_money_stands_in_the_keepers_edition_alone(demo, clubs_demo, keepers_demo):
    for address in ("figures/costs/index.html", "figures/acquired/2009/index.html"):
        assert address in keepers_demo.files
        assert address not in demo.files and address not in clubs_demo.files
    for edition in (demo, clubs_demo):
        figures = [page for address, page in edition.pages.items() if address.startswith("figures/")]
        assert len(figures) > 20
        assert [page.address for page in figures if "VKR" in page.words] == []


def test_weights_lie_against_the_remedy_as_the_law_allows(edition, regular, catalogue):
    expected = {}
    for coin in regular:
        standard = standard_of(coin, catalogue)
        if coin.weight is None or standard is None:
            continue
        off = coin.weight.grams - standard.weight.grams
        row = expected.setdefault(catalogue.find_series(coin.series).name, [0, 0, 0, 0])
        row[0] += 1
        if -standard.remedy.grams <= off <= standard.remedy.grams + Decimal("0.01"):
            row[1] += 1
        else:
            row[2 if off < 0 else 3] += 1
    rows = rows_of(edition.pages["figures/weights/index.html"], "Weighed coins by series")
    assert {row[0]: [int(each) for each in row[1:]] for row in rows} == expected


def test_the_median_losses_are_what_numpy_finds(edition, regular, catalogue):
    losses = defaultdict(list)
    for coin in regular:
        standard, grade = standard_of(coin, catalogue), in_force(coin)
        if coin.weight is not None and standard is not None and grade is not None:
            begins = max(number for number in WORDS if number <= STEPS[step(grade)])
            losses[begins].append(100 * float(1 - coin.weight.grams / standard.weight.grams))
    rows = rows_of(edition.pages["figures/weights/index.html"], "Loss of weight by grade")
    assert [row[0] for row in rows] == [f"{WORDS[each]}, from {each}" for each in sorted(losses)]
    for row, begins in zip(rows, sorted(losses), strict=True):
        assert int(row[1]) == len(losses[begins])
        shown = [float(each.removesuffix(" %").replace("\u2212", "-")) for each in row[2:]]
        assert shown == pytest.approx(list(numpy.quantile(losses[begins], [0.25, 0.5, 0.75])), abs=0.0051)


def test_coins_that_a_figure_leaves_out_are_named(demo, held, catalogue):
    facts = facts_of(demo.pages["figures/metal/index.html"])
    odd = [each for each in held if each.kind.value != "regular"]
    assert facts["Not of the regular issue"].startswith(f"{len(odd)} coins:")
    unsettled = [
        each for each in held if each.kind.value == "regular" and standard_of(each, catalogue) is None
    ]
    assert unsettled
    assert facts["Standard not settled by the date"].startswith(f"{len(unsettled)} coins:")


def test_the_coins_of_a_type_stand_in_order_of_grade(edition, regular, catalogue):
    shown = 0
    for address, page in edition.pages.items():
        if address.count("/") == 4 and address.startswith("grades/"):
            names = [text_of(each) for each in page.root.iter("span") if each.get("class") == "grade"]
            shown += len(names)
            graded = [each for each in names if each != "not graded"]
            places = [
                step(next(in_force(c) for c in regular if in_force(c) and in_force(c).text == name))
                for name in graded
            ]
            assert places == sorted(places, reverse=True), address
            assert names == [*graded, *["not graded"] * (len(names) - len(graded))]
    assert shown > 150
