from daterun.readers.reader import Reader


def groups(view):
    return [(each.heading.text, each.line, [one.link.text for one in each.coins]) for each in view.groups]


def test_coins_are_listed_by_denomination_then_the_odd_ones_then_those_sold(planned, series, coin):
    files = {
        "content/series/vessmark/daler.yaml": series("1891: 5", "face: 1 daler", name="Daler"),
        "content/coins/a.md": coin("1892"),
        "content/coins/b.md": coin("1891"),
        "content/coins/c.md": "---\nseries: daler\ndate: 1891\n---\n",
        "content/coins/d.md": coin("1891", "kind: mule"),
        "content/coins/e.md": coin("1893", "parted: {how: sold}"),
    }
    view = planned(files, Reader.KEEPER).body("coins")
    assert view.lead == "4 coins"
    assert groups(view) == [
        ("Daler", "1 coin", ["Daler 1891"]),
        ("Ort", "2 coins", ["Ort 1891", "Ort 1892"]),
        (
            "Out of the ordinary",
            "Errors, mules, patterns, and coins that are not what they seem",
            ["Ort 1891, mule"],
        ),
        ("No longer held", "1 coin", ["Ort 1893"]),
    ]
    assert groups(planned(files).body("coins"))[-1][0] == "Out of the ordinary"


def test_a_denomination_of_which_no_coin_is_held_is_not_listed(planned):
    view = planned().body("coins")
    assert (view.lead, view.groups) == ("0 coins", ())


def test_a_card_marks_what_must_not_be_overlooked(planned, coin):
    lines = ("grade: VF30", "problem: cleaned", "kind: off metal", "parted: {how: sold}")
    view = planned({"content/coins/a.md": coin("1891", *lines)}, Reader.KEEPER).body("coins")
    (card,) = view.groups[0].coins
    assert (card.line, card.marks) == (
        "VF30, cleaned",
        ("off-metal strike", "problem coin", "no longer held"),
    )
