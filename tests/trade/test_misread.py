import pytest
from hypothesis import given
from hypothesis import strategies as some

from daterun.problems import Misread
from daterun.trade.dates import parse_coin_date, parse_day, parse_span
from daterun.trade.faces import MoneySystem
from daterun.trade.measures import parse_axis, parse_length, parse_weight
from daterun.trade.metals import parse_fineness, parse_metal
from daterun.trade.mints import parse_mint_mark
from daterun.trade.money import parse_money
from daterun.trade.numerals import parse_count

STERLING = MoneySystem.read([("pound", "20 shillings"), ("shilling", "12 pence")])
READERS = [
    parse_axis,
    parse_coin_date,
    parse_count,
    parse_day,
    parse_fineness,
    parse_length,
    parse_metal,
    parse_mint_mark,
    parse_money,
    parse_span,
    parse_weight,
    STERLING.parse_face,
]
TYPED = some.text(alphabet="0123456789/.,-–_ £$dsp°h↑↓½+grmtoz?\"'VKR", max_size=12) | some.text(max_size=8)


@pytest.mark.parametrize("read", READERS, ids=lambda read: read.__name__)
@given(text=TYPED)
def test_any_text_is_either_read_or_misread_in_a_sentence(read, text):
    try:
        value = read(text)
    except Misread as caught:
        assert caught.sentence
    else:
        assert value == read(f" {text} ")
