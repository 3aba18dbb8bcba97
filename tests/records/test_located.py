"""YAML is read as the text that was typed, with line and column, and what cannot be meant is said."""

import gc

import pytest
import yaml

from daterun.problems import Place
from daterun.records.located import DEEPEST, MOST_NODES, Items, Mapping, Text, read_located, read_with


def said(text):
    return [
        (each.sentence, each.place.line, each.place.column, each.hint) for each in read_located(text, "a")[1]
    ]


def mapping(text):
    node, problems = read_located(text, "a")
    assert problems == []
    return node


@pytest.mark.parametrize(
    "typed",
    [
        *("NO", "0640", "12.50", "1_000", "yes", "off", "~", "null", "1e3", "0x1F", "2024-02-11", ".750"),
        *("12:30", "<<", "=", "18?2", "1,250 VKR", "1/2 skilling", "é 😀", "K: no space:here"),
    ],
)
def test_a_scalar_is_the_text_that_was_typed(typed):
    quoted = ": " in typed
    written = f"mint: '{typed}'" if quoted else f"mint: {typed}"
    value = mapping(written).get("mint")
    assert (value.value, value.quoted) == (typed, quoted)


def test_keys_are_texts_too():
    assert list(mapping("{NO: a, 0640: b, 1895-96: c, ~: d}").entries) == ["NO", "0640", "1895-96", "~"]


@pytest.mark.parametrize("typed", ["18?2", "is it?", "?8?2", "what? this"])
def test_a_question_mark_in_a_text_is_part_of_it_in_braces_too(typed):
    assert mapping(f"{{date: {typed}, next: a}}").get("date").value == typed


def test_every_node_knows_its_line_and_column():
    node = mapping("series: ort\ngrades:\n  - {grade: VF30}\n")
    grades = node.get("grades")
    assert node.get("series").place == Place("a", 1, 9, 3)
    assert node.place_of_key("grades") == Place("a", 2, 1, 6)
    assert isinstance(grades, Items)
    assert grades.items[0].get("grade").place == Place("a", 3, 13, 4)


def test_lines_count_from_the_line_at_which_the_text_begins_in_its_file():
    node, _ = read_located("series: ort\ndate: 1899\n", "a", first_line=2)
    assert node.get("date").place == Place("a", 3, 7, 4)


def test_columns_count_letters_not_bytes():
    assert mapping("{é😀: a, K: b}").get("K").place.column == 12


def test_a_place_is_found_by_keys_and_positions_and_else_is_the_nearest_above():
    node = mapping("grades: [{grade: VF30}, {grade: EF40}]")
    assert node.place_of("grades", 1, "grade").column == 33
    assert node.place_of("grades", 1, "reasons") == node.get("grades").items[1].place
    assert node.place_of("grades", 7) == node.get("grades").place
    assert node.place_of("kept") == node.place


def test_a_value_standing_alone_is_the_first_of_a_list():
    node = mapping("variety: old-spelling")
    assert node.place_of("variety", 0) == node.get("variety").place


def test_an_empty_value_stands_where_its_key_does():
    empty = mapping("series:\ndate: 1899\n").get("series")
    assert (empty.value, empty.quoted, empty.place) == ("", False, Place("a", 1, 1, 6))


def test_a_text_in_quotes_or_over_several_lines_is_kept():
    node = mapping("a: ' x '\nb: |\n  one\n  two\nc: three\n  four\n")
    assert [node.get(each).value for each in "abc"] == [" x ", "one\ntwo\n", "three four"]
    assert [node.get(each).quoted for each in "abc"] == [True, True, False]


@pytest.mark.parametrize("text", ["", "\n\n", "# only a remark\n", "---\n", "--- # nothing\n"])
def test_nothing_is_no_node_and_no_problem(text):
    assert read_located(text, "a") == (None, [])


def test_a_repeated_key_is_a_problem_that_names_both_places():
    node, (problem,) = read_located("date: 1899\nkept: here\ndate: 1900\n", "a")
    assert node.get("date").value == "1899"
    assert problem.sentence == '"date" is said twice; only one of them can be meant'
    assert problem.rule == "repeated key"
    assert (problem.place, problem.others) == (Place("a", 3, 1, 4), (Place("a", 1, 1, 4),))


def test_a_number_cut_off_by_a_comma_in_braces_is_met_with_a_problem_that_says_just_that():
    node, (problem,) = read_located("1892: {mintage: 2,310, scarce: yes}\n", "a")
    assert problem.rule == "number in braces"
    assert problem.sentence == 'inside braces a comma ends a value, so of "2,310" only 2 is read'
    assert problem.hint == "write the number without the comma: 2310"
    assert problem.place == Place("a", 1, 19, 3)
    assert list(node.get("1892").entries) == ["mintage", "scarce"]


def test_two_numbers_cut_off_alike_are_two_such_problems():
    _, problems = read_located("by mint: {none: 12,000, K: 40,000}\n", "a")
    assert [each.rule for each in problems] == ["number in braces", "number in braces"]


def test_a_sum_of_money_cut_off_by_a_comma_is_met_in_the_same_way():
    _, (problem,) = read_located("value: {amount: 1,250 VKR}\n", "a")
    assert problem.sentence == 'inside braces a comma ends a value, so of "1,250 VKR" only 1 is read'


def test_a_number_cut_off_twice_is_one_problem_where_it_is_first_cut():
    _, (problem,) = read_located("1892: {mintage: 1,250,000, scarce: yes}\n", "a")
    assert problem.sentence == 'inside braces a comma ends a value, so of "1,250,000" only 1 is read'
    assert problem.hint == "write the number without the comma: 1250000"
    assert problem.place == Place("a", 1, 19, 3)


@pytest.mark.parametrize(
    ("typed", "whole", "rule", "hint"),
    [
        ("price: 45,50 VKR", "45,50 VKR", "number", "write the number with a point: 45.50 VKR"),
        ("dry: 4,80 g", "4,80 g", "number", "write the number with a point: 4.80 g"),
        (
            "price: 1,250,50 VKR",
            "1,250,50 VKR",
            "number",
            "write the number without commas, its decimals behind a point",
        ),
        ("from: Moss, Holm", "Moss, Holm", "text", 'write it in quotes, as in from: "Moss, Holm"'),
        ("from: Moss,Holm, 3, Elm", "Moss,Holm, 3, Elm", "text", None),
        ("from: Moss, 12 Elm Lane", "Moss, 12 Elm Lane", "text", None),
        ("on: 2019-04-03,12", "2019-04-03,12", "text", None),
        ('from: Moss "Mo", Holm', 'Moss "Mo", Holm', "text", "put it in quotes"),
    ],
)
def test_a_text_cut_off_by_a_comma_in_braces_is_told_as_a_whole(typed, whole, rule, hint):
    node, (problem,) = read_located(f"acquired: {{{typed}, how: bought}}\n", "a")
    read = whole.partition(",")[0]
    assert problem.sentence == f'inside braces a comma ends a value, so of "{whole}" only {read} is read'
    assert problem.rule == f"{rule} in braces"
    assert problem.hint == (hint or f'write it in quotes, as in {typed.partition(":")[0]}: "{whole}"')
    assert list(node.get("acquired").entries) == [typed.partition(":")[0], "how"]


def test_a_small_word_cut_off_by_a_comma_may_also_be_a_key_without_its_colon():
    _, (problem,) = read_located("1892: {mintage: 2310, scarce}\n", "a")
    assert problem.hint == (
        'write it in quotes, as in mintage: "2310, scarce", or give "scarce" a colon and a value if it is a key'
    )


@pytest.mark.parametrize("typed", ["{a, b: c}", "{a: 'x', b}", "{a: , b}", "{a: x, 'b'}", "{a: [x], b}"])
def test_a_key_without_a_colon_stays_one_where_no_text_stands_before_it(typed):
    assert list(mapping(f"all: {typed}").get("all").entries) == ["a", "b"]


def test_a_number_with_commas_outside_braces_is_whole():
    assert mapping("1891: 341,000").get("1891").value == "341,000"


@pytest.mark.parametrize(
    ("text", "sentence", "line", "column"),
    [
        ("a: *b\n", "a text cannot begin with *", 1, 4),
        ("a: &b c\n", "a text cannot begin with &", 1, 4),
        ("a: !b c\n", "a text cannot begin with !", 1, 4),
        ("a: !!python/name:os.system x\n", "a text cannot begin with !", 1, 4),
        ("a: @b\n", "a text cannot begin with this sign", 1, 4),
        ("a: `b`\n", "a text cannot begin with this sign", 1, 4),
        ("a: - b\n", 'a text cannot begin with "- "', 1, 4),
        ("design: Weak: the date\n", "a colon stands here where a text goes on", 1, 13),
        ("a: [1, 2\nb: 3\n", "a list in brackets is not closed before this", 2, 2),
        ("a: {b: 1\n", "braces are not closed before this", 2, 1),
        ('a: "b\nc: d\n', "this quote is never closed", 1, 4),
        ("a: b\nc: {d: 'e, f: g}\n", "this quote is never closed", 2, 8),
        ('a: "b\n---\n', "this quote is never closed", 1, 4),
        ("a: b\nc\nd: e\n", "a key has no colon before this", 3, 1),
        ('a: "C:\\z"\n', "a backslash means something else here", 1, 8),
        ("a: }\n", "a value is missing before this", 1, 4),
        ("  a: b\n c: d\n", "this does not line up with what is above it", 2, 2),
        ("a: b\n\tc: d\n", "a tab stands here", 2, 1),
        ("a:\n  \tb: c\n", "a tab stands here", 2, 3),
        ("a: b\n---\nc: d\n", "a second document begins here", 2, 1),
        ("? [a, b]\n: c\n", "a list or a mapping cannot be a key", 1, 3),
        ("a: b\x07\n", "a character that no text file should hold (U+0007) stands here", 1, 5),
        ("a: b\nc: \u2028d\n", "a character that no text file should hold (U+2028) stands here", 2, 4),
        ("a: b\n\ufeffc: d\n", "a character that no text file should hold (U+FEFF) stands here", 2, 1),
    ],
)
def test_what_yaml_would_make_something_else_of_is_a_problem_in_plain_words(text, sentence, line, column):
    assert [each[:3] for each in said(text)] == [(sentence, line, column)]


def test_a_tab_after_a_value_means_no_more_than_a_space():
    assert mapping("a: b\t# said\nc:\td\n").get("c").value == "d"


def test_an_alias_is_not_followed():
    node, problems = read_located("a: &x [1]\nb: *x\n", "a")
    assert [each.sentence for each in problems] == [
        "a text cannot begin with &",
        "a text cannot begin with *",
    ]
    assert node.get("b").value == ""


def test_merging_is_a_key_like_any_other():
    node = mapping("a: {<<: {b: c}}")
    assert list(node.get("a").entries) == ["<<"]


@pytest.mark.parametrize("opening", ["[", "{a: ", "- "])
def test_endless_nesting_is_refused(opening):
    node, (problem,) = read_located(opening * 300, "a")
    assert node is None
    assert problem.sentence == "this is nested too deeply to be read"


def test_nesting_as_deep_as_any_format_needs_is_read():
    assert mapping("[" * DEEPEST + "]" * DEEPEST)


def test_a_file_of_endless_values_is_refused():
    node, (problem,) = read_located("- a\n" * (MOST_NODES + 1), "a")
    assert node is None
    assert problem.sentence == "this is too long to be read"


def test_a_file_without_libyaml_is_read_alike():
    text = "series: ort\ngrades: [{grade: VF30, on: 2024-02-11}]\nkept: 'a'\nempty:\nlong: |\n  x\n"
    slow, fast = read_with(yaml.SafeLoader, text, "a"), read_located(text, "a")
    assert slow == fast
    assert isinstance(slow[0], Mapping)
    assert slow[0].get("empty") == Text("", Place("a", 4, 1, 5))


def test_a_mapping_that_has_let_go_is_found_out_about_without_its_text_being_read(monkeypatch):
    node = mapping("series: ort\nacquired: {on: 2019-04-03}\n")
    acquired = node.get("acquired")
    node.let_go()
    monkeypatch.setattr("daterun.records.located._Reading", None)
    assert "series" in node
    assert "on" in acquired
    assert "kept" not in node
    assert node.get("kept") is None
    assert (node.place_of("kept"), acquired.place_of("from")) == (Place("a", 1, 1, 1), Place("a", 2, 11, 1))
    with pytest.raises(TypeError):
        node.get("series")


def test_nothing_that_was_let_go_holds_itself_so_that_it_is_freed_without_a_collector():
    texts = [f"series: ort\nacquired: {{on: {year}-04-03}}\n" for year in range(1900, 1960)]
    nodes = [mapping(each) for each in texts]
    for each in nodes:
        each.let_go()
    places = [each.place_of("acquired", "on") for each in nodes]
    assert len(set(places)) == 1
    gc.collect()
    gc.disable()
    try:
        del nodes, each
        for text in texts:
            node = mapping(text)
            node.let_go()
            assert node.get("series").value == "ort"
        del node
        assert gc.collect() == 0
    finally:
        gc.enable()


def test_a_text_cut_in_very_many_pieces_is_told_once_and_not_at_length():
    node, (problem,) = read_located("{a: x" + ",b1" * 20_000 + ", c: d}", "a")
    assert node.get("c").value == "d"
    assert problem.rule == "text in braces"
    assert problem.sentence.startswith('inside braces a comma ends a value, so of "x,b1,')
    assert problem.sentence.endswith(', …" only x is read')
