import pytest

from daterun.readers.reader import Reader
from daterun.trade.scales import CORRESPONDENCE

INGRITH = "grades/vessmark/ort/ingrith"


def graded(view):
    return [(each.link.text, each.grade) for strip in view.strips for each in strip.coins]


@pytest.fixture
def three(coin):
    return {
        "content/coins/a.md": coin("1891", "grade: VF20"),
        "content/coins/b.md": coin("1892", "grades: [{grade: EF40, reasons: the braid is sharp}]"),
        "content/coins/c.md": coin("1893"),
        "content/coins/d.md": coin("1893", "grade: VF20–VF30"),
        "content/coins/e.md": coin("1892", "kind: forgery", "departs: cast", "grade: MS63"),
        "content/coins/f.md": coin("1897", "grade: MS63"),
    }


def test_the_coins_of_a_type_stand_in_order_of_grade_the_ungraded_last(planned, three):
    assert graded(planned(three).body(INGRITH)) == [
        ("Ort 1892", "EF40"),
        ("Ort 1893", "VF20–VF30"),
        ("Ort 1891", "VF20"),
        ("Ort 1893", "not graded"),
    ]


def test_what_shows_the_grade_stands_under_it(planned, three):
    first, second, *_ = planned(three).body(INGRITH).strips[0].coins
    assert (first.reasons, second.reasons) == ("the braid is sharp", "")


def test_both_sides_are_shown(planned, three):
    for each in planned(three).body(INGRITH).strips[0].coins:
        assert (each.obverse.name, each.reverse.name) == ("obverse", "reverse")


def test_of_one_grade_the_sound_coin_stands_before_the_problem_coin(planned, coin):
    files = {
        "content/coins/a.md": coin("1891", "grade: VF20", "problem: [cleaned]"),
        "content/coins/b.md": coin("1892", "grade: VF20"),
    }
    view = planned(files).body(INGRITH)
    assert graded(view) == [("Ort 1892", "VF20"), ("Ort 1891", "VF20")]
    assert [each.marks for each in view.strips[0].coins] == [(), ("problem coin",)]


def test_a_grade_of_the_ladder_says_where_it_lies_about(planned, coin):
    files = {
        "content/coins/a.md": coin("1891", "grade: GVF"),
        "content/coins/b.md": coin("1892", "grade: EF40"),
    }
    scales = {each.grade: each.scale for each in planned(files).body(INGRITH).strips[0].coins}
    assert scales == {"GVF": "about 35–45", "EF40": ""}


def test_the_two_habits_stand_beside_each_other_and_are_said_to_be_approximate(planned, three):
    view = planned(three).body("grades")
    (table,) = (each for section in view.sections for each in section.tables)
    rows = {row[0].text: (row[1].text, row[2].text) for row in table.rows}
    assert list(rows) == list(CORRESPONDENCE)
    assert rows["NVF"] == ("Nearly Very Fine", "about 20 to 25")
    assert rows["AUNC"] == ("About Uncirculated", "about 58 to 60")
    assert "approximate" in table.notes[0] and "no published authority" in table.notes[0]
    assert any("approximate" in each for each in planned(three).body(INGRITH).cautions)


def test_a_type_leads_to_its_coins_side_by_side_where_any_is_held(planned, three):
    del three["content/coins/f.md"]
    found = planned(three)
    links = {each.heading: each.grades.address for each in found.body("denominations/vessmark/ort").types}
    assert links == {"Ingrith": f"{INGRITH}/index.html", "Torvald III": ""}
    assert "grades/vessmark/ort/torvald/index.html" not in found.pages


def test_the_list_of_types_tells_from_which_grade_to_which_they_run(planned, three):
    cards = planned(three).body("grades").cards
    assert [(each.link.text, each.line, each.tally) for each in cards] == [
        ("Ort, Ingrith", "VF20 to EF40", "4 coins"),
        ("Ort, Torvald III", "MS63", "1 coin"),
    ]


def test_many_coins_stand_in_several_even_strips(planned, coin):
    files = {f"content/coins/c{nth:02}.md": coin("1891", "grade: VF20") for nth in range(30)}
    strips = planned(files).body(INGRITH).strips
    assert [(each.caption, len(each.coins)) for each in strips] == [
        ("In order of grade, 1 to 7", 7),
        ("In order of grade, 8 to 15", 8),
        ("In order of grade, 16 to 22", 7),
        ("In order of grade, 23 to 30", 8),
    ]


OWN = (
    "grades:",
    "  - {grade: EF40, on: 2019-01-01, reasons: hair over the ear is flat}",
    "certificate: {by: North Pier Grading, grade: VF35, on: 2021-06-15}",
)


def test_the_keepers_words_on_a_certified_coin_name_their_grade_and_are_not_for_the_public(planned, coin):
    files = {"content/coins/a.md": coin("1891", *OWN)}
    said = {reader: planned(files, reader).body(INGRITH).strips[0].coins[0].reasons for reader in Reader}
    assert said == {
        Reader.PUBLIC: "",
        Reader.CLUB: "EF40: hair over the ear is flat",
        Reader.KEEPER: "EF40: hair over the ear is flat",
    }
    assert planned(files).body(INGRITH).strips[0].coins[0].by == "certified by North Pier Grading"
