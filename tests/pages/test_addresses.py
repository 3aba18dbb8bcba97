from daterun.pages import addresses
from daterun.trade.dates import parse_coin_date


def test_a_coins_page_lies_where_its_file_does():
    assert addresses.of_coin("ort/1899-nine-over-eight") == "coins/ort/1899-nine-over-eight/index.html"


def test_a_double_date_leads_to_the_page_of_its_first_year():
    assert addresses.of_date(parse_coin_date("1895-96")) == addresses.of_year(1895) == "dates/1895/index.html"


def test_a_date_that_cannot_be_read_leads_to_the_page_of_all_such():
    assert addresses.of_date(parse_coin_date("18?2")) == addresses.UNDATED
    assert addresses.of_date(parse_coin_date("undated")) == addresses.UNDATED


def test_series_of_one_denomination_share_an_address(planned, series):
    files = {
        "content/series/vessmark/half.yaml": series("1891: 5", name="½ Ort"),
        "content/series/vessmark/later.yaml": series(
            "1911: 5", "denomination: ½ Ort", name="½ Ort in bronze"
        ),
    }
    every = planned(files).binder.catalogue.series.values()
    found = {each.id: addresses.of_denomination(each) for each in every}
    assert found["half"] == found["later"] == "denominations/vessmark/half-ort/index.html"
    assert found["ort"] == "denominations/vessmark/ort/index.html"
