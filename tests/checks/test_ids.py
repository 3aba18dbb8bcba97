"""Which coin is offered for a misspelt id."""

from daterun.checks.ids import hint_for_coin

IDS = ["ort/1891", "ort/1892", "skilling/1891", "skilling/1893-k", "daler/1871"]


def test_a_slip_in_the_name_finds_the_nearest_of_the_folder():
    assert hint_for_coin("skilling/1893k", IDS) == 'did you mean "skilling/1893-k"?'


def test_a_name_that_only_one_coin_has_is_found_in_any_folder():
    assert hint_for_coin("1871", IDS) == 'did you mean "daler/1871"?'
    assert hint_for_coin("half-daler/1871", IDS) == 'did you mean "daler/1871"?'


def test_of_several_coins_of_one_name_the_nearest_is_offered():
    assert hint_for_coin("skiling/1891", IDS) == 'did you mean "skilling/1891"?'


def test_nothing_is_offered_for_what_is_like_no_coin():
    assert hint_for_coin("pattern/one", IDS) == ""
    assert hint_for_coin("anything", []) == ""


def test_the_one_that_begins_alike_is_found_among_thousands():
    many = [f"ort/{year}-{nth}" for year in range(1000, 2000) for nth in range(5)]
    assert hint_for_coin("ort/1899-44", many) == 'did you mean "ort/1899-4"?'
