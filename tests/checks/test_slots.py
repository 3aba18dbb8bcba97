import pytest

from daterun.checks.slots import name_without_needless, slots_of, without_needless
from daterun.records.aims import Divider
from daterun.records.coins import Strike
from daterun.records.fields import Reading
from daterun.records.located import read_located
from daterun.records.series import read_series
from daterun.trade.dates import Span

ORT = """
name: Ort
issuer: vessmark
types:
  - {id: ingrith, dates: 1891–1893, monarch: ingrith}
  - {id: torvald, dates: 1893–1906, monarch: torvald-iii}
varieties:
  - {id: old-spelling, dates: 1891–1899}
  - {id: new-spelling, dates: 1899–1906}
issues:
  source: Mint reports, 1891 to 1906
  struck:
    1891: 341,000
    1892: {mintage: 2310, scarce: yes}
    1893: {by type: {ingrith: 500, torvald: 700}}
    1894: {proofs: 60}
    1895-96: {by type: {torvald: 120000}}
    1897: {by mint: {none: 98000, K: {proofs: 12}}}
    1899: {mintage: 298000, proofs: 40, by variety: {old-spelling: 210000, new-spelling: 88000}}
    1902: {by mint: {none: 12000, K: 40000}}
    1903:
      issues:
        - {mint: none, variety: new-spelling, mintage: 100}
        - {mint: K, variety: new-spelling, mintage: 30}
        - {mint: K, variety: old-spelling, mintage: 4}
    1904–1906: unknown
  not struck: [1898, 1900–1901]
"""


def read(text):
    node, problems = read_located(text, "content/series/vessmark/ort.yaml")
    reading = Reading("content/series/vessmark/ort.yaml")
    series = read_series("ort", node, reading)
    assert not problems
    assert not reading.problems
    return series


@pytest.fixture
def ort():
    return read(ORT)


def names(slots):
    return [each.name for each in slots]


def test_a_run_has_one_slot_for_each_date_in_the_order_of_its_dates(ort):
    run = "1891 1892 1893 1895-96 1897 1899 1902 1903 1904 1905 1906"
    assert " ".join(names(slots_of(ort))) == run


def test_a_date_struck_only_as_proofs_is_a_slot_only_where_proofs_count(ort):
    assert "1894" not in names(slots_of(ort))
    assert "1894" in names(slots_of(ort, strikes=(Strike.ORDINARY, Strike.PROOF)))


def test_an_aim_of_proofs_alone_asks_only_for_dates_with_proofs_told(ort):
    assert names(slots_of(ort, strikes=(Strike.PROOF,))) == ["1894", "1897", "1899"]


def test_an_aim_of_proofs_or_specimens_asks_only_for_dates_with_proofs_told(ort):
    assert names(slots_of(ort, strikes=(Strike.PROOF, Strike.SPECIMEN))) == ["1894", "1897", "1899"]


def test_an_aim_of_specimens_alone_asks_for_every_date_for_no_series_tells_of_them(ort):
    assert names(slots_of(ort, strikes=(Strike.SPECIMEN,))) == names(slots_of(ort))


def test_a_mint_that_struck_only_proofs_is_no_slot_of_ordinary_strikes(ort):
    by_mint = (Divider.DATE, Divider.MINT)
    assert names(slots_of(ort, Span(1897, 1897), by_mint)) == ["1897 none"]
    both = slots_of(ort, Span(1897, 1897), by_mint, (Strike.ORDINARY, Strike.PROOF))
    assert names(both) == ["1897 none", "1897 K"]
    assert names(slots_of(ort, Span(1897, 1897), by_mint, (Strike.PROOF,))) == ["1897 K"]


def test_a_date_whose_every_part_is_proofs_only_is_struck_only_as_proofs():
    series = read(
        "name: Ort\nissuer: vessmark\nissues:\n"
        "  struck: {1890: 5, 1891: {by mint: {none: {proofs: 3}, K: {proofs: 4}}}}\n"
    )
    assert names(slots_of(series)) == ["1890"]


def test_a_date_is_divided_by_mint_only_where_the_aim_says_so(ort):
    assert names(slots_of(ort, Span(1902, 1902))) == ["1902"]
    assert names(slots_of(ort, Span(1902, 1902), (Divider.DATE, Divider.MINT))) == ["1902 none", "1902 K"]


def test_a_date_without_the_divider_of_the_aim_is_one_slot(ort):
    assert names(slots_of(ort, Span(1904, 1904), (Divider.DATE, Divider.MINT))) == ["1904"]


def test_two_dividers_give_only_the_combinations_that_were_struck(ort):
    found = slots_of(ort, Span(1903, 1903), (Divider.DATE, Divider.MINT, Divider.VARIETY))
    assert names(found) == ["1903 none new-spelling", "1903 K old-spelling", "1903 K new-spelling"]


def test_a_change_of_reign_gives_a_date_two_slots_by_type(ort):
    assert names(slots_of(ort, Span(1893, 1893), (Divider.DATE, Divider.TYPE))) == [
        "1893 ingrith",
        "1893 torvald",
    ]


def test_a_double_date_belongs_to_a_span_by_its_first_year(ort):
    assert "1895-96" in names(slots_of(ort, Span(1891, 1895)))
    assert names(slots_of(ort, Span(1896, 1897))) == ["1897"]


def test_where_dates_do_not_count_one_slot_stands_for_all_dates_of_a_type(ort):
    found = slots_of(ort, one_per=(Divider.TYPE,))
    assert [(each.date.key, each.type) for each in found] == [("1891", "ingrith"), ("1893", "torvald")]


def test_the_figures_of_a_slot_are_those_of_its_part(ort):
    by_mint = slots_of(ort, Span(1902, 1902), (Divider.DATE, Divider.MINT))
    assert [each.figures.mintage for each in by_mint] == [(12000,), (40000,)]
    of_k = slots_of(ort, Span(1903, 1903), (Divider.DATE, Divider.MINT))
    assert [each.figures.mintage for each in of_k] == [(100,), (34,)]


def test_the_figures_of_an_undivided_slot_are_those_of_the_whole_date(ort):
    (scarce,) = slots_of(ort, Span(1892, 1892), (Divider.DATE, Divider.MINT))
    assert scarce.figures.mintage == (2310,)
    assert scarce.figures.scarce


def test_a_combination_that_no_part_speaks_of_has_no_number_known(ort):
    found = slots_of(ort, Span(1899, 1899), (Divider.DATE, Divider.VARIETY))
    assert [each.figures.mintage for each in found] == [(210000,), (88000,)]
    undivided = read(ORT.replace(", by variety: {old-spelling: 210000, new-spelling: 88000}", ""))
    apart = slots_of(undivided, Span(1899, 1899), (Divider.DATE, Divider.VARIETY))
    assert [each.name for each in apart] == ["1899 old-spelling", "1899 new-spelling"]
    assert [each.figures.mintage for each in apart] == [(), ()]


@pytest.mark.parametrize(
    ("divider", "short"),
    [
        (Divider.TYPE, ["1891", "1892", "1893 ingrith", "1893 torvald", "1895-96"]),
        (Divider.MONARCH, ["1891", "1892", "1893 ingrith", "1893 torvald-iii", "1895-96"]),
        (
            Divider.VARIETY,
            ["1891 old-spelling", "1892 old-spelling", "1893 old-spelling", "1895-96 old-spelling"],
        ),
    ],
)
def test_the_only_type_or_monarch_of_a_date_is_needless_and_its_only_variety_is_not(ort, divider, short):
    slots = slots_of(ort, Span(1891, 1896), (Divider.DATE, divider))
    assert names(without_needless(each, ort) for each in slots) == short
    assert [name_without_needless(each.name, ort) for each in slots] == short


def test_the_only_mint_of_a_date_is_needless_and_one_of_two_is_not():
    series = read(
        "name: Ort\nissuer: vessmark\nissues:\n"
        "  struck: {1890: {by mint: {K: 5}}, 1891: {by mint: {none: 3, K: 4}}}\n"
    )
    slots = slots_of(series, one_per=(Divider.DATE, Divider.MINT))
    assert names(slots) == ["1890 K", "1891 none", "1891 K"]
    assert names(without_needless(each, series) for each in slots) == ["1890", "1891 none", "1891 K"]


def test_nothing_is_needless_of_a_slot_for_all_the_dates_of_its_type(ort):
    slots = slots_of(ort, one_per=(Divider.TYPE,))
    assert [without_needless(each, ort) for each in slots] == list(slots)
    assert [name_without_needless(each.name, ort) for each in slots] == ["ingrith", "torvald"]
    assert name_without_needless("", ort) == ""
