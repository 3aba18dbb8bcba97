import pytest

from daterun.pages.keeper import MOST_FELLOWS
from daterun.readers.reader import Reader


@pytest.fixture
def private(planned, coin):
    def make(*lines, **files):
        return planned({"content/coins/a.md": coin("1891", *lines), **files}, Reader.KEEPER).private("a")

    return make


def test_how_a_coin_came_is_told_in_one_line(private):
    acquired = "acquired: {on: 2019-04-03, from: R. Tarn, how: bought, price: 45.00 VKR, note: at the fair}"
    assert private(acquired) == {
        "Acquired": ("bought from R. Tarn, 3 April 2019", "at the fair"),
        "Cost": ("45.00 VKR", ""),
    }


def test_a_price_alone_leaves_no_empty_line(private):
    assert private("acquired: {price: 45.00 VKR}") == {"Cost": ("45.00 VKR", "")}


def test_how_a_coin_left_is_told(private):
    assert private("parted: {on: 2024-05, to: O. Brekke, how: given}") == {
        "Parted with": ("given away to O. Brekke, May 2024", "")
    }


def test_coins_of_an_exchange_are_named_and_lead_to_their_pages(planned, coin):
    files = {
        "content/coins/a.md": coin("1891", "acquired: {how: exchanged, for: [b, gone]}"),
        "content/coins/b.md": coin("1892", "parted: {how: exchanged, for: [a]}"),
    }
    found = planned(files, Reader.KEEPER)
    came = next(each for each in found.coin("a").private if each.name == "Acquired")
    assert [(each.text, each.address) for each in came.links] == [
        ("Ort 1892", "coins/b/index.html"),
        ("gone", ""),
    ]


def test_a_coin_of_a_lot_costs_its_part(private):
    lot = "name: Fair of 2019\nprice: 90.00 VKR\nshare: {a: 60.00 VKR, b: 30.00 VKR}\n"
    found = private("lot: fair", **{"content/lots/fair.yaml": lot})
    assert found == {"Cost": ("60.00 VKR", "its part of the lot"), "Lot": ("Fair of 2019", "")}


def test_where_it_is_kept_what_it_is_worth_and_what_is_remarked(private):
    assert private(
        "kept: cabinet 2, tray 4",
        "value: {amount: 80 VKR, on: 2026-01-10, basis: two sales in 2025}",
        "private: seller hinted at a hoard",
        "quantity: 3",
    ) == {
        "Kept": ("cabinet 2, tray 4", ""),
        "Value": ("80 VKR", "10 January 2026; two sales in 2025"),
        "Quantity": ("3 pieces", ""),
        "Private note": ("seller hinted at a hoard", ""),
    }


def test_pieces_of_a_set_lead_to_one_another(planned, coin):
    files = {f"content/coins/{each}.md": coin("1891", "set: year-set") for each in "abc"}
    found = planned(files, Reader.KEEPER)
    fact = next(each for each in found.coin("b").private if each.name == "Set")
    assert (fact.value, fact.remark) == ("year-set", "")
    assert [each.address for each in fact.links] == ["coins/a/index.html", "coins/c/index.html"]


def test_a_set_of_very_many_names_some_and_counts_the_rest(planned, coin):
    files = {f"content/coins/{nth:02}.md": coin("1891", "set: all") for nth in range(MOST_FELLOWS + 4)}
    found = planned(files, Reader.KEEPER)
    fact = next(each for each in found.coin("00").private if each.name == "Set")
    assert (len(fact.links), fact.remark) == (MOST_FELLOWS, "and 3 more")


def test_photo_files_are_named_to_the_keeper(planned, coin, photo):
    photos = {("a", "obverse"): photo("b"), ("a", "reverse"): photo("a")}
    found = planned({"content/coins/a.md": coin("1891")}, Reader.KEEPER, photos)
    assert found.private("a")["Photo files"] == ("content/photos/a.jpg and content/photos/b.jpg", "")


@pytest.mark.parametrize("reader", [Reader.PUBLIC, Reader.CLUB])
def test_nobody_else_sees_a_private_fact(planned, coin, reader):
    lines = (
        "kept: cabinet 2",
        "acquired: {how: found}",
        "set: year-set",
        "value: {amount: 80 VKR}",
        "quantity: 2",
    )
    assert planned({"content/coins/a.md": coin("1891", *lines)}, reader).coin("a").private == ()
