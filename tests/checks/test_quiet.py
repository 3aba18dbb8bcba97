"""One mistake gives one problem: rules are quiet where another has spoken, and of what is in order."""

import pytest

COINS = "content/coins/"
SERIES = "content/series/vessmark/"


@pytest.mark.parametrize(
    ("date", "lines"),
    [
        ("1895/96", []),
        ("undated", []),
        ("190?", []),
        ("1?92", []),
        ("1894", ["strike: proof", "grade: PF64"]),
        ("1894", ["strike: specimen"]),
        ("1899", ["variety: [old-spelling, nine-over-eight]"]),
        ("1891", ["standard: 1891-1903", "weight: 8.98 g"]),
        ("1898", ["kind: forgery", "departs: cast in white metal", "weight: 7.20 g", "mint: Q", "type: x"]),
        ("1891", ["mint: none"]),
        ("1891", ["struck in: 1892"]),
        ("1891", ["struck in: 1890"]),
        ("1891", ["problem: [cleaned, chased by a lion]"]),
        (
            "1891",
            ["acquired: {on: 2019-04, how: bought}", "added: 2019-04-10", "parted: {on: 2019, how: sold}"],
        ),
    ],
)
def test_a_coin_in_order_gives_no_problem(rules_of, coin, date, lines):
    assert rules_of({COINS + "one.md": coin(date, *lines)}) == []


def test_a_coin_of_an_unknown_series_gives_one_problem(rules_of, coin):
    text = coin("1911", "variety: x", "mint: Q", "type: y", "standard: z", "weight: 30 g")
    assert rules_of({COINS + "one.md": text.replace("series: ort", "series: orrt")}) == ["unknown series"]


def test_a_coin_of_a_series_that_cannot_be_read_adds_nothing(rules_of, coin):
    broken = {SERIES + "skilling.yaml": "name: Skilling\nissuer: vessmark\n"}
    one = coin("1911", "mint: Q").replace("series: ort", "series: skilling")
    assert rules_of({**broken, COINS + "one.md": one}) == ["missing field"]
    two = one.replace("series: skilling", "series: vessmark/skilling")
    assert rules_of({**broken, COINS + "one.md": two}) == ["missing field"]


def test_a_date_whose_number_cannot_be_read_counts_as_struck(rules_of, coin, base_files):
    path = SERIES + "ort.yaml"
    series = base_files[path].replace("1892: {mintage: 2310, scarce: yes}", "1892: two thousand")
    assert rules_of({path: series, COINS + "one.md": coin("1892", notes="See [[ort 1892]].")}) == ["number"]


def test_a_year_that_cannot_be_read_is_not_said_to_be_missing_too(rules_of, base_files):
    path = SERIES + "ort.yaml"
    assert rules_of({path: base_files[path].replace("    1892:", "    189z:")}) == ["date"]
    assert rules_of({path: base_files[path].replace("[1898]", "[189]")}) == ["date"]


def test_a_type_that_cannot_be_read_leaves_no_date_without_one(rules_of, coin, base_files):
    path = SERIES + "ort.yaml"
    series = base_files[path].replace("dates: 1891–1893\n", "dates: 1891–93\n")
    assert rules_of({path: series, COINS + "one.md": coin("1892", "type: ingrith")}) == ["date"]


def test_a_variety_that_cannot_be_read_is_not_unknown(rules_of, coin, base_files):
    path = SERIES + "ort.yaml"
    series = base_files[path].replace("id: old-spelling, dates: 1891–1899", "id: old-spelling, dates: then")
    assert rules_of({path: series, COINS + "one.md": coin("1899", "variety: old-spelling")}) == ["date"]


def test_a_monarch_who_cannot_be_read_is_not_unknown(rules_of, base_files):
    path = "content/issuers/vessmark.yaml"
    assert rules_of({path: base_files[path].replace("from: 1869-05-02", "from: 1869-05-32")}) == ["day"]


@pytest.mark.parametrize(
    ("date", "line", "rule"),
    [
        ("1899", "variety: old spelling", "short name"),
        ("1902", "mint: K*", "mint mark"),
        ("1898", "kind: mull", "choice"),
        ("1894", "strike: prof", "choice"),
        ("1891", "departs: thick blank\nkind: mull", "choice"),
    ],
)
def test_a_word_that_cannot_be_read_is_not_said_to_be_wanting_too(rules_of, coin, date, line, rule):
    assert rules_of({COINS + "one.md": coin(date, line)}) == [rule]


def test_a_link_to_a_file_that_cannot_be_read_is_let_be(rules_of, coin):
    broken = {COINS + "broken.md": coin("1891").replace("date: 1891", "dat: 1891")}
    found = rules_of(
        {
            **broken,
            COINS + "one.md": coin(
                "1892", "acquired: {how: exchanged, for: broken}", notes="See [[broken]]."
            ),
        }
    )
    assert found == ["missing field", "unknown key"]


def test_a_lot_that_cannot_be_read_is_not_unknown(rules_of, coin):
    broken = {"content/lots/fair.yaml": "- price\n"}
    assert rules_of({**broken, COINS + "one.md": coin("1891", "lot: fair")}) == ["yaml"]


def test_a_share_that_cannot_be_read_does_not_upset_the_sum(rules_of, coin):
    lot = {"content/lots/fair.yaml": "price: 80 VKR\nshare: {one: 50 VKR, two: thirty}\n"}
    coins = {COINS + f"{name}.md": coin("1891", "lot: fair") for name in ("one", "two")}
    assert rules_of({**lot, **coins}) == ["money"]


def test_one_bad_coin_does_not_hide_the_next(rules_of, coin):
    files = {COINS + f"{date}.md": coin(date) for date in ("1898", "1911")}
    assert rules_of({**files, COINS + "bad.md": "nothing\n"}) == ["not struck", "not struck", "front matter"]
