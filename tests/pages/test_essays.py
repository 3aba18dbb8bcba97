ESSAYS = {
    "content/pages/two.md": (
        "---\ntitle: On spelling\nsummary: Two spellings\norder: 2\n---\nSee [[gone]] and [[a]].\n"
    ),
    "content/pages/one.md": "---\ntitle: On orts\non: 2024-02-11\norder: 1\n---\nText.\n",
}


def test_without_essays_there_is_no_list_of_them(planned):
    found = planned()
    assert not [each for each in found.pages if each.startswith("essays/")]
    assert "Essays" not in [each.link.text for each in found.pages["index.html"].frame.navigation]


def test_essays_stand_in_the_order_the_keeper_gives(planned):
    found = planned(ESSAYS)
    view = found.body("essays")
    assert view.lead == "2 essays"
    assert [(each.link.text, each.line, each.tally) for each in view.cards] == [
        ("On orts", "", "11 February 2024"),
        ("On spelling", "Two spellings", ""),
    ]
    assert found.body("essays/one").written == "11 February 2024"
    assert [each.text for each in found.body("essays/one").neighbours] == ["", "On spelling"]
    assert [each.text for each in found.body("essays/two").neighbours] == ["On orts", ""]
    assert "Essays" in [each.link.text for each in found.pages["index.html"].frame.navigation]
    assert [each.link.text for each in found.body("index.html").essays] == ["On orts", "On spelling"]


def test_an_essay_is_shown_by_the_first_of_its_coins_that_the_reader_sees(planned, coin):
    cards = planned({**ESSAYS, "content/coins/a.md": coin("1891")}).body("essays").cards
    assert cards[0].sides == ()
    assert cards[1].sides[0].drawing.text.startswith("Ort 1891")


def test_an_empty_essay_has_a_page(planned):
    found = planned({"content/pages/one.md": "---\ntitle: On orts\n---\n"})
    assert found.body("essays/one").text.markdown == ""


SET = {
    "content/pages/last.md": "---\ntitle: Last\norder: 9\npart of: at-the-mint\n---\nText.\n",
    "content/pages/first.md": "---\ntitle: First\norder: 3\npart of: at-the-mint\n---\nText.\n",
}


def test_essays_of_a_set_have_contents_and_lead_to_each_other(planned):
    found = planned({**ESSAYS, **SET})
    first, last = found.body("essays/first"), found.body("essays/last")
    assert first.set_name == last.set_name == "At the mint"
    assert [(each.text, each.address) for each in first.contents] == [
        ("First", ""),
        ("Last", "essays/last/index.html"),
    ]
    assert [each.text for each in first.neighbours] == ["", "Last"]
    assert [each.text for each in last.neighbours] == ["First", ""]
    assert [each.text for each in found.body("essays/two").neighbours] == ["On orts", ""]
    tallies = {each.link.text: each.tally for each in found.body("essays").cards}
    assert tallies["Last"] == "2 of 2 in At the mint"


def test_an_essay_of_the_sets_own_name_opens_it_and_names_it(planned):
    opening = {"content/pages/at-the-mint.md": "---\ntitle: Three days at Vessborg\norder: 50\n---\nText.\n"}
    found = planned({**SET, **opening})
    view = found.body("essays/at-the-mint")
    assert view.set_name == "Three days at Vessborg"
    assert [each.text for each in view.contents] == ["Three days at Vessborg", "First", "Last"]
    assert [each.text for each in view.neighbours] == ["", "First"]


def test_one_essay_alone_is_no_set(planned):
    view = planned({"content/pages/last.md": SET["content/pages/last.md"]}).body("essays/last")
    assert (view.set_name, view.contents) == ("", ())
