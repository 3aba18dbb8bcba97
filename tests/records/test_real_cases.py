"""What the trade really meets can be written down."""

from daterun.records.attribution import attribute
from daterun.records.coins import CoinKind
from daterun.records.ownership import How
from daterun.trade.dates import DateKind, Span

TWO_TYPES = """
name: Ort
issuer: vessmark
types:
  - {id: ordinary, dates: 1899–1903}
  - {id: jubilee, dates: 1902}
varieties:
  - {id: old-spelling, dates: 1899, side: reverse, reading: value spelt OORT}
  - {id: new-spelling, dates: 1899–1902, side: reverse, reading: value spelt ORT}
  - {id: nine-over-eight, dates: 1899, side: reverse, reading: last figure cut over an 8}
issues:
  struck:
    1899: {mintage: 298000, by variety: {old-spelling: 210000, new-spelling: 88000}}
    1900: {proofs: 60}
    1901: {mintage: [764, 1128], note: two reports disagree, source: Reports of 1902 and 1903}
    1902: {issues: [
      {mint: none, variety: old-spelling, type: ordinary, mintage: 1000},
      {mint: none, variety: new-spelling, type: ordinary, mintage: 2000},
      {mint: K, variety: old-spelling, type: ordinary, mintage: 3000},
      {mint: K, variety: new-spelling, type: jubilee, mintage: unknown}]}
    1902-03: {mintage: 75000, melted: 21000, by type: {jubilee: 75000}}
    1903: {by type: {ordinary: 5000, jubilee: 400}}
"""


def test_an_overdate_can_be_a_variety_of_the_legend_too(coin_of):
    coin = coin_of("variety: [old-spelling, nine-over-eight]", series=TWO_TYPES)
    assert coin.varieties == ("old-spelling", "nine-over-eight")


def test_an_overdate_bears_the_date_that_was_cut_last(problems_of):
    (said,) = problems_of({"coins/a.md": "---\nseries: ort\ndate: 1899/8\n---\n"})
    assert said == 'coins/a.md:3:7: "1899/8" is not a date [date]'


def test_a_mule_says_how_it_departs(coin_of):
    coin = coin_of("kind: mule\ndeparts: obverse of the ort, reverse of the 12 skilling")
    assert (coin.kind, coin.departs) == (CoinKind.MULE, "obverse of the ort, reverse of the 12 skilling")


def test_an_off_metal_strike_is_of_a_date_that_the_series_may_not_have(coin_of):
    coin = coin_of("kind: off metal\ndeparts: struck in copper\nweight: 7.11 g", date="1911")
    assert (coin.kind, str(coin.weight), coin.date.year) == (CoinKind.OFF_METAL, "7.11 g", 1911)


def test_a_worn_date_is_written_with_its_gaps(coin_of):
    date = coin_of("", date="18?9").date
    assert (date.kind, date.year, date.key) == (DateKind.WORN, None, "18?9")
    assert (date.possible(1899), date.possible(1898)) == (True, False)


def test_a_coin_without_a_date_says_so(coin_of):
    assert coin_of("", date="undated").date.kind is DateKind.UNDATED


def test_a_double_date_is_one_coin_of_two_years_however_it_is_typed(coin_of):
    for typed in ("1902-03", "1902–03", "1902/03"):
        date = coin_of("", date=typed, series=TWO_TYPES).date
        assert (date.kind, date.key, date.year, date.last_year) == (DateKind.DOUBLE, "1902-03", 1902, 1903)


def test_one_year_can_have_two_types_and_the_coin_says_which(read):
    coin = "---\nseries: ort\ndate: 1903\ntype: jubilee\n---\n"
    catalogue, problems = read({"series/vessmark/ort.yaml": TWO_TYPES, "coins/a.md": coin})
    assert problems == []
    series = catalogue.series["vessmark/ort"]
    assert series.issue("1903").values_of("type") == ("ordinary", "jubilee")
    assert attribute(catalogue.coins[0], series, None).type.id == "jubilee"


def test_two_mints_and_two_varieties_in_one_year_are_a_list_of_parts(series_of):
    issue = series_of(TWO_TYPES.partition("vessmark\n")[2]).issue("1902")
    assert [(each.mint, each.variety, each.type, each.figures.mintage) for each in issue.parts] == [
        ("none", "old-spelling", "ordinary", (1000,)),
        ("none", "new-spelling", "ordinary", (2000,)),
        ("K", "old-spelling", "ordinary", (3000,)),
        ("K", "new-spelling", "jubilee", ()),
    ]


def test_a_coin_dated_one_year_and_struck_in_another_says_both(coin_of):
    coin = coin_of("struck in: 1902", date="1899")
    assert (coin.date.key, coin.struck_in) == ("1899", "1902")
    assert coin_of("struck in: 1941 to 1943").struck_in == "1941 to 1943"


def test_disputed_mintages_stand_side_by_side(series_of):
    figures = series_of(TWO_TYPES.partition("vessmark\n")[2]).issue("1901").figures
    assert (figures.mintage, figures.note) == ((764, 1128), "two reports disagree")
    assert figures.source == "Reports of 1902 and 1903"


def test_a_year_of_proofs_only_has_no_ordinary_strike(series_of):
    figures = series_of(TWO_TYPES.partition("vessmark\n")[2]).issue("1900").figures
    assert (figures.proofs, figures.proofs_only, figures.ordinary) == (60, True, (0,))


def test_a_coin_taken_out_of_its_holder_has_the_newest_grade_of_the_keepers(coin_of):
    grades = "grades: [{grade: VF30, on: 2019-01-01}, {grade: VF35, on: 2024-02-11}]\n"
    sealed = coin_of(grades + "certificate: {by: North Pier Grading, grade: EF40, on: 2022, sealed: yes}")
    out = coin_of(grades + "certificate: {by: North Pier Grading, grade: EF40, on: 2022, sealed: no}")
    assert (sealed.grade.text, out.grade.text) == ("EF40", "VF35")
    assert coin_of("certificate: {by: A, grade: EF40, sealed: no}").grade is None


def test_an_exchange_names_the_coins_on_the_other_side(coin_of):
    coin = coin_of(
        "acquired: {on: 2021-06, how: exchanged, for: [ort/1901-b, ort/1902]}\n"
        "parted: {on: 2024, how: exchanged, for: ort/1893}"
    )
    assert (coin.acquired.how, coin.acquired.exchanged_for) == (How.EXCHANGED, ("ort/1901-b", "ort/1902"))
    assert (coin.parted.how, coin.parted.exchanged_for) == (How.EXCHANGED, ("ort/1893",))
    assert coin.acquired.price is None


def test_a_lot_with_one_price_is_shared_equally_or_by_coin(read):
    coin = "---\nseries: ort\ndate: 1899\nlot: {}\n---\n"
    files = {
        "coins/a.md": coin.format("equal"),
        "coins/b.md": coin.format("equal"),
        "coins/c.md": coin.format("named"),
        "lots/equal.yaml": "price: 5.01 VKR\n",
        "lots/named.yaml": "price: 9 VKR\nshare: {c: 9 VKR}\n",
    }
    catalogue, problems = read(files)
    assert problems == []
    shares = {}
    for each in catalogue.coins:
        together = {other.id: other.quantity for other in catalogue.coins if other.lot == each.lot}
        shares[each.id] = str(catalogue.lots[each.lot].share_of(each.id, together))
    assert shares == {"a": "2.51 VKR", "b": "2.50 VKR", "c": "9 VKR"}


def test_several_alike_can_be_one_file(coin_of):
    assert coin_of("quantity: 12").quantity == 12


def test_a_split_grade_and_remaining_lustre_are_kept_as_written(coin_of):
    assert coin_of("grade: GVF/EF").grade.text == "GVF/EF"
    assert coin_of('grade: "UNC, 50% lustre"').grade.lustre == "50% lustre"


def test_a_year_of_a_change_of_metal_has_two_standards(series_of):
    series = series_of(
        "standards: [{dates: 1899–1902, metal: silver}, {dates: 1902–1903, metal: cupro-nickel}]\n"
        "issues: {struck: {1899–1903: unknown}}\n"
    )
    date = series.issue("1902").date
    assert [each.metal.name for each in series.standards_of(date)] == ["silver", "cupro-nickel"]
    assert series.struck.years == Span(1899, 1903)
