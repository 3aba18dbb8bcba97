import pytest

from daterun.exchange.cells import Habits, splits_mint, write_cell
from daterun.problems import Misread

PLAIN = Habits()
BRITISH = Habits(day_first=True, currency="GBP")
AMERICAN = Habits(day_first=False, currency="USD")
GERMAN = Habits(day_first=True, decimal_comma=True, currency="EUR")


@pytest.mark.parametrize(
    ("column", "typed", "habits", "written"),
    [
        ("acquired price", "45.00 VKR", BRITISH, "45.00 VKR"),
        ("acquired price", "45", BRITISH, "45 GBP"),
        ("acquired price", "£4.50", AMERICAN, "4.50 GBP"),
        ("acquired price", "£ 1,250", PLAIN, "1250 GBP"),
        ("acquired price", "4,50 €", PLAIN, "4.50 EUR"),
        ("acquired price", "1.250,00 EUR", PLAIN, "1250.00 EUR"),
        ("acquired price", "1,250.00", BRITISH, "1250.00 GBP"),
        ("acquired price", "1,250", GERMAN, "1.250 EUR"),
        ("acquired price", "1.250", GERMAN, "1250 EUR"),
        ("acquired price", "$12", AMERICAN, "12 USD"),
        ("acquired price", "eur 12", PLAIN, "12 EUR"),
        ("value amount", "1'250", BRITISH, "1250 GBP"),
        ("acquired on", "2019-04-03", PLAIN, "2019-04-03"),
        ("acquired on", "2019", PLAIN, "2019"),
        ("acquired on", "3/4/2019", BRITISH, "2019-04-03"),
        ("acquired on", "3/4/2019", AMERICAN, "2019-03-04"),
        ("acquired on", "13/4/2019", PLAIN, "2019-04-13"),
        ("acquired on", "4/13/2019", PLAIN, "2019-04-13"),
        ("acquired on", "4/4/2019", PLAIN, "2019-04-04"),
        ("acquired on", "3.4.2019", GERMAN, "2019-04-03"),
        ("acquired on", "2019/4/3", PLAIN, "2019-04-03"),
        ("acquired on", "3 April 2019", PLAIN, "2019-04-03"),
        ("acquired on", "3rd Apr 2019", PLAIN, "2019-04-03"),
        ("acquired on", "3. März 2019", PLAIN, "2019-03-03"),
        ("acquired on", "15. Okt. 2018", PLAIN, "2018-10-15"),
        ("acquired on", "1er août 2019", PLAIN, "2019-08-01"),
        ("acquired on", "12 Sept. 2019", PLAIN, "2019-09-12"),
        ("acquired on", "3-Apr-2019", PLAIN, "2019-04-03"),
        ("acquired on", "April 3, 2019", PLAIN, "2019-04-03"),
        ("acquired on", "April 2019", PLAIN, "2019-04"),
        ("acquired on", "2019-04-03 00:00:00", PLAIN, "2019-04-03"),
        ("weight", "8.97", PLAIN, "8.97 g"),
        ("weight", "8,97", PLAIN, "8.97 g"),
        ("weight", "8,97 g", PLAIN, "8.97 g"),
        ("weight", "138.4 gr", PLAIN, "138.4 gr"),
        ("diameter", "26,5", PLAIN, "26.5 mm"),
        ("axis", "6", PLAIN, "6h"),
        ("axis", "180", Habits(hours=False), "180°"),
        ("date", "1899.0", PLAIN, "1899"),
        ("date", "n.d.", PLAIN, "undated"),
        ("quantity", "3.0", PLAIN, "3"),
        ("acquired how", "Purchased", PLAIN, "bought"),
        ("strike", "Proof", PLAIN, "proof"),
        ("certificate sealed", "Y", PLAIN, "yes"),
        ("grade", " VF ", PLAIN, "VF"),
        ("grade", "-", PLAIN, ""),
        ("grade", "?", PLAIN, ""),
        ("kept", "-", PLAIN, "-"),
        ("notes", " =1+1", PLAIN, " =1+1"),
    ],
)
def test_a_cell_is_written_as_a_catalogue_does(column, typed, habits, written):
    assert write_cell(column, typed, habits) == written


@pytest.mark.parametrize(
    ("column", "typed", "said"),
    [
        ("acquired price", "45", "names no currency"),
        ("acquired price", "$45", "which dollar"),
        ("acquired price", "4/6", "is not an amount of money"),
        ("acquired price", "about ten", "is not an amount of money"),
        ("acquired price", "1,25,0 GBP", "is not an amount of money"),
        ("acquired on", "3/4/2019", "not said whether day or month comes first"),
        ("acquired on", "3/4/19", "a year of two figures"),
        ("acquired on", "31/2/2019", "no day of the calendar"),
        ("acquired on", "13/13/2019", "no day of the calendar"),
        ("acquired on", "last spring", "is not a day"),
        ("acquired on", "3 Marble 2019", "is not a day"),
        ("acquired on", "3 jui 2019", "is not a day"),
        ("weight", "heavy", "is not a weight"),
        ("axis", "400", "is not a die axis"),
    ],
)
def test_what_can_be_read_in_two_ways_or_in_none_is_refused(column, typed, said):
    with pytest.raises(Misread, match=said):
        write_cell(column, typed, Habits())


def test_a_mint_mark_typed_with_the_date_is_parted_from_it():
    assert splits_mint("1902 K") == splits_mint("1902-K") == splits_mint("1902K") == ("1902", "K")
    assert splits_mint("1895-96") is None
    assert splits_mint("undated") is None
