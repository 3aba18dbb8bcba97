import calendar
import datetime

import pytest
from hypothesis import given
from hypothesis import strategies as some

from daterun.problems import Misread
from daterun.trade.dates import CoinDate, DateKind, Day, Span, parse_coin_date, parse_day, parse_span

YEARS = some.integers(1000, 9980)
LABELS = {"AH 1320": 1902, "Meiji 3": 1870}


def misread(parse, *given_texts):
    with pytest.raises(Misread) as caught:
        parse(*given_texts)
    return caught.value.sentence, caught.value.hint


# --- spans -------------------------------------------------------------------


@pytest.mark.parametrize("text", ["1871–1903", "1871-1903", "1871 – 1903", " 1871—1903 "])
def test_a_span_is_read_with_any_dash(text):
    span = parse_span(text)
    assert span == Span(1871, 1903)
    assert str(span) == "1871–1903"
    assert len(span) == len(span.years) == 33


def test_a_span_holds_both_its_ends():
    span = parse_span("1871–1903")
    assert 1871 in span and 1903 in span
    assert 1870 not in span and 1904 not in span
    assert list(span)[::32] == [1871, 1903]


def test_a_span_of_one_year_is_written_as_that_year():
    assert str(parse_span("1899")) == "1899"
    assert parse_span("1899") == parse_span("1899-1899")


def test_spans_that_share_a_year_overlap():
    assert Span(1891, 1899).overlaps(Span(1899, 1906))
    assert Span(1899, 1899).overlaps(Span(1891, 1906))
    assert not Span(1891, 1898).overlaps(Span(1899, 1906))


def test_a_range_with_two_figures_at_its_end_is_misread_with_the_full_form():
    assert misread(parse_span, "1871-03") == (
        '"1871-03" is not a range of years',
        "a range has four figures at both ends, such as 1871–1803",
    )
    assert misread(parse_span, "1887/88")[1] == "a range has four figures at both ends, such as 1887–1888"


def test_a_span_that_runs_backward_is_misread():
    assert misread(parse_span, "1903–1871") == ('"1903–1871" runs backward', "write 1871–1903")
    with pytest.raises(Misread):
        Span(1903, 1871)


@pytest.mark.parametrize(
    "text", ["", "18", "18999", "1899-", "-1899", "1899–1900–1901", "about 1899", "١٨٩٩"]
)
def test_what_is_not_years_is_no_span(text):
    assert misread(parse_span, text)[0] == f'"{text}" is not a range of years'


@given(YEARS, some.integers(0, 400))
def test_every_span_is_read_back_from_its_own_text(first, more):
    span = Span(first, min(first + more, 9999))
    assert parse_span(str(span)) == span


@given(YEARS, some.integers(0, 30), YEARS, some.integers(0, 30))
def test_spans_overlap_when_some_year_is_in_both(a, longer, b, wider):
    one, two = Span(a, min(a + longer, 9999)), Span(b, min(b + wider, 9999))
    assert one.overlaps(two) == two.overlaps(one) == any(year in two for year in one)


# --- dates on coins ----------------------------------------------------------


def test_a_plain_year_is_its_own_key():
    date = parse_coin_date("1899")
    assert (date.kind, date.year, date.last_year, date.key, str(date)) == (
        DateKind.YEAR,
        1899,
        1899,
        "1899",
        "1899",
    )


@pytest.mark.parametrize("text", ["1887-88", "1887/88", "1887–88", "1887/1888", "1887 / 88"])
def test_a_double_date_is_one_date_however_it_is_written(text):
    date = parse_coin_date(text)
    assert (date.kind, date.year, date.last_year, date.key) == (DateKind.DOUBLE, 1887, 1888, "1887-88")
    assert date == parse_coin_date("1887-88")
    assert date.text == text


def test_a_double_date_over_a_turn_of_the_century_ends_in_the_next_one():
    date = parse_coin_date("1899-00")
    assert (date.year, date.last_year, date.key) == (1899, 1900, "1899-00")


def test_one_coin_of_two_years_is_read_as_such():
    # Australian florin 1934-35, one coin: https://collections.museumsvictoria.com.au/items/55697
    date = parse_coin_date("1934-35")
    assert date.kind is DateKind.DOUBLE
    assert [year for year in range(1930, 1940) if date.possible(year)] == [1934, 1935]


def test_a_double_date_sorts_after_its_first_year_alone_and_worn_and_undated_come_last():
    texts = ["undated", "1888", "18?2", "1887-88", "AH 1320", "1887", "1903", "1901"]
    dates = sorted((parse_coin_date(text, LABELS) for text in texts), key=lambda date: date.sort)
    assert [date.key for date in dates] == [
        "1887",
        "1887-88",
        "1888",
        "1901",
        "AH 1320",
        "1903",
        "18?2",
        "undated",
    ]


def test_a_worn_date_could_be_any_year_that_fits_its_figures():
    date = parse_coin_date("18?2")
    assert (date.kind, date.year, date.key) == (DateKind.WORN, None, "18?2")
    assert [year for year in range(1790, 1910) if date.possible(year)] == list(range(1802, 1893, 10))


def test_an_undated_coin_could_be_of_any_year():
    date = parse_coin_date("Undated")
    assert (date.kind, date.year, date.key) == (DateKind.UNDATED, None, "undated")
    assert date.possible(1899)


def test_a_plain_year_is_possible_for_itself_alone():
    assert parse_coin_date("1899").possible(1899)
    assert not parse_coin_date("1899").possible(1898)


def test_a_label_of_the_series_sorts_by_the_year_it_is_given():
    date = parse_coin_date("ah  1320", LABELS)
    assert (date.kind, date.year, date.key) == (DateKind.LABEL, 1902, "AH 1320")
    assert date.possible(1902) and not date.possible(1903)


def test_a_label_is_not_a_date_in_a_series_without_it():
    sentence, hint = misread(parse_coin_date, "AH 1320")
    assert sentence == '"AH 1320" is not a date'
    assert hint.startswith("write 1899, 1887-88, 18?2 or undated")


def test_a_range_is_not_the_date_of_one_coin():
    assert misread(parse_coin_date, "1887-1888") == (
        '"1887-1888" is a range of years, not the date of one coin',
        "write one year; a double date on one coin is written 1887-88",
    )


def test_an_overdate_is_sent_to_the_varieties():
    assert misread(parse_coin_date, "1899/8") == (
        '"1899/8" is not a date',
        "an overdate is a variety: write 1899 and name the variety",
    )
    sentence, hint = misread(parse_coin_date, "1899/98")
    assert sentence == '"1899/98" is not a double date'
    assert hint.endswith("for an overdate write 1899 and name the variety")


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("????", '"????" shows no figure of the date'),
        ("189", '"189" is not a year'),
        ("18999", '"18999" is not a year'),
        ("1887-87", '"1887-87" is not a double date'),
        ("c. 1899", '"c. 1899" is not a date'),
        ("18?", '"18?" is not a date'),
        ("", '"" is not a date'),
    ],
)
def test_what_no_coin_bears_is_misread(text, sentence):
    found, hint = misread(parse_coin_date, text)
    assert found == sentence
    assert hint


@given(YEARS, some.integers(1, 9))
def test_every_double_date_is_read_back_from_its_key(first, more):
    date = parse_coin_date(f"{first}/{first + more}")
    assert parse_coin_date(date.key) == date
    assert (date.year, date.last_year) == (first, first + more)
    assert parse_coin_date(str(first)).sort < date.sort < parse_coin_date(str(first + 1)).sort


@given(some.from_regex(r"[0-9?]{4}", fullmatch=True).filter(lambda text: text != "????"))
def test_four_figures_or_marks_are_always_a_date_and_its_own_key(text):
    date = parse_coin_date(text)
    assert date.key == text
    assert date.possible(int(text.replace("?", "7")))


def test_two_spellings_of_a_date_are_equal_and_hash_alike():
    assert len({parse_coin_date("1887/88"), parse_coin_date("1887–88")}) == 1
    assert isinstance(parse_coin_date("1887/88"), CoinDate)


# --- days --------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "first", "last"),
    [
        ("2024-02-11", datetime.date(2024, 2, 11), datetime.date(2024, 2, 11)),
        ("2024-02", datetime.date(2024, 2, 1), datetime.date(2024, 2, 29)),
        ("1988", datetime.date(1988, 1, 1), datetime.date(1988, 12, 31)),
    ],
)
def test_a_day_known_to_the_month_or_year_lasts_as_long(text, first, last):
    day = parse_day(text)
    assert (day.first, day.last, str(day)) == (first, last, text)


def test_days_are_ordered_by_the_earliest_they_can_be():
    texts = ["2024-02-11", "2023", "2024", "2024-02", "2023-12-31", "2024-02-01"]
    assert [str(day) for day in sorted(map(parse_day, texts))] == [
        "2023",
        "2023-12-31",
        "2024",
        "2024-02",
        "2024-02-01",
        "2024-02-11",
    ]
    assert parse_day("2024-02-11") <= parse_day(" 2024-02-11") > parse_day("2024")


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("2023-02-29", '"2023-02-29" is not a day: February 2023 has 28 days'),
        ("2024-13-01", '"2024-13-01" is not a day: there is no month 13'),
        ("2024-04-00", '"2024-04-00" is not a day: April 2024 has 30 days'),
        ("11.02.2024", '"11.02.2024" is not a day'),
        ("2024-2-11", '"2024-2-11" is not a day'),
        ("0000", '"0000" is not a day'),
        ("", '"" is not a day'),
    ],
)
def test_impossible_days_are_misread(text, sentence):
    assert misread(parse_day, text)[0] == sentence


@given(some.dates())
def test_every_day_of_the_calendar_is_read_back(date):
    day = parse_day(date.isoformat())
    assert (day.first, day.last, str(day)) == (date, date, date.isoformat())
    month = parse_day(date.isoformat()[:7])
    assert month.last.day == calendar.monthrange(date.year, date.month)[1]
    assert Day("", date.year) <= month <= day
