"""The table of all coins, and the rows of data that the page's script reads."""

from daterun.press.datafiles import write_data
from daterun.readers.reader import Reader


def rows(planned):
    return [row for file in planned.plan.data if file.name == "daterunCoins" for row in file.rows]


def texts(planned):
    return [text for file in planned.plan.data if file.name == "daterunTexts" for text in file.rows]


def test_every_coin_held_has_a_row_a_text_and_a_line_of_the_table(planned, coin):
    found = planned(
        {
            "content/coins/ort/1891.md": coin("1891", "grade: VF30"),
            "content/coins/ort/1900.md": coin("1900", "parted: {on: 2020-01-01, how: sold}"),
        },
        Reader.KEEPER,
    )
    assert [row[0] for row in rows(found)] == ["ort/1891"]
    assert len(texts(found)) == 1
    view = found.body("find")
    assert [row.link.address for row in view.rows] == ["coins/ort/1891/index.html"]
    assert view.data == tuple(each.address for each in found.plan.data)
    assert view.rest.text == ""


def test_a_range_of_grades_is_found_by_either_end(planned, coin):
    (row,) = rows(planned({"content/coins/ort/1891.md": coin("1891", "grade: VF30–EF40")}))
    assert row[7:10] == ("VF30–EF40", 3000, 4000)


def test_a_coin_without_a_grade_has_none_to_be_found_by(planned, coin):
    (row,) = rows(planned({"content/coins/ort/1891.md": coin("1891")}))
    assert row[7:10] == ("", 0, 0)


def test_the_text_of_a_coin_has_its_notes_without_their_marks_and_addresses(planned, coin):
    notes = "A *Sharp* strike, see [[ort/1891]] and https://example.org/a."
    (text,) = texts(planned({"content/coins/ort/1891.md": coin("1891", "design: Weak date", notes=notes)}))
    assert "weak date a sharp strike, see ort/1891 and" in text
    assert "http" not in text and "*" not in text


def test_nothing_private_stands_in_the_data(planned, coin):
    found = planned(
        {
            "content/coins/ort/1891.md": coin(
                "1891", "kept: cabinet 2", "acquired: {from: R. Tarn, price: 45.00 VKR}", "private: a hoard"
            )
        }
    )
    for file in found.plan.data:
        said = write_data(file).decode()
        assert not [each for each in ("cabinet 2", "Tarn", "45", "hoard") if each in said]


def test_the_address_of_data_changes_with_what_it_holds_and_only_then(planned, coin):
    one, same, other = (
        planned({"content/coins/ort/1891.md": coin("1891", f"grade: {grade}")}).plan.data[0].address
        for grade in ("VF30", "VF30", "VF35")
    )
    assert one == same != other


def test_a_choice_is_offered_where_there_is_one(planned, coin):
    alone = planned({"content/coins/ort/1891.md": coin("1891")}).body("find")
    assert alone.choices == ()
    found = planned(
        {
            "content/coins/ort/1891.md": coin("1891", "problem: [cleaned]"),
            "content/coins/ort/1900.md": coin("1900"),
        }
    ).body("find")
    (problem,) = (each for each in found.choices if each.name == "problem")
    assert [each.text for each in problem.options] == ["without a problem", "problem coins alone", "cleaned"]


def test_data_is_a_script_that_adds_to_what_stands_before_it(planned, coin):
    file = planned({"content/coins/ort/1891.md": coin("1891")}).plan.data[0]
    said = write_data(file).decode()
    assert said.startswith("window.daterunCoins=(window.daterunCoins||[]).concat([[")
    assert said.endswith("]]);\n")
