"""The table of all coins, and the rows of data that the page's script reads."""

from hypothesis import given
from hypothesis import strategies as st

from daterun.pages.comparing import COLUMNS
from daterun.pages.findrows import lay_down, rank
from daterun.pages.findtexts import plain_words, text_with
from daterun.press.datafiles import read_data, write_data
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
    addresses = [each.address for each in found.plan.data]
    assert [*view.data, *view.texts] == [each for each in addresses if "/records-" not in each]
    compare = found.body("compare")
    assert [each.address for each in compare.records] == [each for each in addresses if "/records-" in each]
    assert compare.coins == view.data[:1]
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
    assert "weak date a sharp strike, see ort 1891 and" in text
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
    assert said.startswith('(window.daterunCoins=window.daterunCoins||[])[0]=[["ort/1891",')
    assert said.endswith("]];\n")


def test_data_comes_in_parts_and_each_record_in_the_part_of_its_id(planned, coin):
    found = planned(
        {f"content/coins/{'zyxab'[n % 5]}/{n}.md": coin(str(1891 + n % 3), "grade: VF30") for n in range(20)}
    )
    data = lay_down(found.binder, 8)
    assert [len(each.rows) for each in data.coins] == [8, 8, 4]
    assert [len(each.rows) for each in data.texts] == [8, 8, 4]
    assert [len(each.rows) for each in data.orders] == [32, 32, 16]
    assert [each.part for each in data.records] == list(range(10))
    ids = [row[0] for file in data.records for row in file.rows]
    assert ids == sorted(ids) and set(ids) == {row[0] for file in data.coins for row in file.rows}
    assert len({each.address for each in data.files}) == len(data.files)


def test_ranks_put_numbers_by_size_and_letters_whatever_their_marks():
    names = ["Ort 1900", "ort 190", "Öre 1899", "Ore 1899", "Ort 1900", "", "½ ort", "10 ort", "2 ort"]
    places = rank(names)
    assert places[0] == places[4]
    ordered = sorted(set(names), key=lambda each: places[names.index(each)])
    assert ordered == ["", "½ ort", "2 ort", "10 ort", "Ore 1899", "Öre 1899", "ort 190", "Ort 1900"]


def test_a_record_has_what_is_compared_in_its_place(planned, coin):
    found = planned({"content/coins/ort/1891.md": coin("1891", "grade: VF30", "weight: 8.97 g")})
    (record,) = lay_down(found.binder).records[0].rows
    places = dict(COLUMNS)
    assert record[places["date"]] == "1891"
    assert record[places["grade"]] == "VF30"
    assert record[places["weight"]] == "8.97 g"
    assert len(record) == 19


def test_data_are_read_as_they_were_written(planned, coin):
    found = planned(
        {
            "content/coins/ort/1891.md": coin(
                "1891", "grade: VF30", "design: \"A ship; 'x'\\u2028\"", notes="é"
            )
        }
    )
    assert len(found.plan.data) > 2
    for each in found.plan.data:
        assert read_data(each.address, write_data(each)) == each


@given(*[st.text(st.sampled_from("ab:/*_[]#Σσİ\u0301\u00ad \n") | st.characters(), max_size=30)] * 3)
def test_other_notes_give_the_words_that_all_of_it_anew_would_give(head, before, after):
    text = plain_words(f"{head} {before}")
    with_other_notes = text_with(text, before, after)
    assert with_other_notes == plain_words(f"{head} {after}")


def test_words_that_do_not_end_in_the_notes_are_not_changed():
    assert text_with("ort 1891 sharp", "blunt", "plain") is None
    assert text_with("ort 1891 unsharp", "sharp", "plain") is None
