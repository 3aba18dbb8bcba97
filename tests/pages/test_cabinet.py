from daterun.pages.cabinet import years_of
from daterun.readers.reader import Reader
from daterun.trade.dates import parse_coin_date


def ids(standings):
    return [each.coin.id for each in standings]


def test_coins_stand_in_order_of_denomination_date_and_id(planned, series, coin):
    files = {
        "content/series/vessmark/daler.yaml": series("1891: 5", "face: 1 daler", name="Daler"),
        "content/coins/a.md": coin("undated"),
        "content/coins/b.md": coin("18?2"),
        "content/coins/c.md": coin("1895-96"),
        "content/coins/d.md": coin("1895"),
        "content/coins/e.md": coin("1891"),
        "content/coins/e2.md": coin("1891"),
        "content/coins/f.md": "---\nseries: daler\ndate: 1891\n---\n",
    }
    assert ids(planned(files).binder.cabinet.coins) == ["f", "e", "e2", "d", "c", "b", "a"]


def test_a_coins_mint_type_and_variety_follow_from_its_date_where_it_leaves_no_choice(planned, series, coin):
    lines = ("types: [{id: i, dates: 1891–1892}]", "varieties: [{id: small, dates: 1891}]")
    ort = series("1891: {by mint: {K: 5}}; 1892: {by mint: {none: 4, K: 3}}", *lines)
    files = {
        "content/series/vessmark/ort.yaml": ort,
        "content/coins/a.md": coin("1891"),
        "content/coins/b.md": coin("1892"),
    }
    cabinet = planned(files).binder.cabinet
    settled, open_ = cabinet.by_id["a"], cabinet.by_id["b"]
    assert (settled.coin.mint, settled.coin.type, settled.coin.varieties) == ("K", "i", ("small",))
    assert (open_.coin.mint, open_.coin.type, open_.coin.varieties) == (None, "i", ())
    assert (settled.divided, open_.divided) == (frozenset(), {"mint"})


def test_series_of_one_denomination_stand_together_the_earliest_first(planned, series):
    files = {
        "content/series/vessmark/a-later.yaml": series("1911: 5", "denomination: Ort", name="Bronze ort")
    }
    (denomination,) = planned(files).binder.cabinet.denominations
    assert [each.id for each in denomination.series] == ["ort", "a-later"]


def test_the_best_coin_is_held_regular_pictured_sound_and_of_the_highest_grade(planned, coin, photo):
    files = {
        "content/coins/sold.md": coin("1891", "grade: MS67", "parted: {how: sold}"),
        "content/coins/mule.md": coin("1891", "grade: MS66", "kind: mule"),
        "content/coins/bare.md": coin("1891", "grade: MS65"),
        "content/coins/cleaned.md": coin("1891", "grade: MS64", "problem: cleaned"),
        "content/coins/fine.md": coin("1891", "grade: F12"),
        "content/coins/finer.md": coin("1891", "grade: VF20/MS60"),
        "content/coins/plain.md": coin("1891"),
    }
    photos = {
        (each, "obverse"): photo(each) for each in ("sold", "mule", "cleaned", "fine", "finer", "plain")
    }
    cabinet = planned(files, Reader.KEEPER, photos).binder.cabinet
    coins, order = list(cabinet.coins), []
    while coins:
        best = cabinet.best(coins)
        order.append(best.coin.id)
        coins.remove(best)
    assert order == ["finer", "fine", "plain", "cleaned", "bare", "mule", "sold"]
    assert cabinet.best([]) is None


def test_the_standard_weight_decides_between_equal_coins(planned, coin):
    files = {
        "content/coins/a.md": coin("1891", "grade: VF30", "weight: 8.80 g"),
        "content/coins/b.md": coin("1891", "grade: VF30", "weight: 9.01 g"),
    }
    cabinet = planned(files).binder.cabinet
    series = cabinet.catalogue.series["vessmark/ort"]
    assert cabinet.state(series, parse_coin_date("1891")).coin == "b"
    assert cabinet.state(series, parse_coin_date("1894")) is None


def test_a_date_stands_for_its_years():
    assert list(years_of(parse_coin_date("1899"))) == [1899]
    assert list(years_of(parse_coin_date("1899-00"))) == [1899, 1900]
    assert list(years_of(parse_coin_date("18?2"))) == []


def test_what_is_asked_for_and_is_not_there_is_empty(planned):
    cabinet = planned().binder.cabinet
    assert cabinet.of_set("none") == ()
    assert cabinet.of_monarch("vessmark", "nobody") == ()
    assert cabinet.monarchs("nowhere") == ()
    assert cabinet.of_date(cabinet.catalogue.series["vessmark/ort"], parse_coin_date("1891")) == ()
    assert not cabinet.has_page(1898)
