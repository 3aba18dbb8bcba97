"""Private values are found however a page tells them, and what cannot be told from public words is left."""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from daterun.press.needles import Needle, make_needles
from daterun.press.searching import Search, word_finds
from daterun.press.veiled import VeiledSearch
from daterun.problems import Place
from daterun.readers.said import Said
from daterun.readers.withheld import Withheld
from daterun.records.located import Mapping
from daterun.trade.dates import parse_day
from daterun.trade.money import Money, parse_money

WRITTEN = Mapping({}, Place("content/coins/a.md", 3))

MONTHS = [
    *("January", "February", "March", "April", "May", "June"),
    *("July", "August", "September", "October", "November", "December"),
]


@pytest.fixture
def words():
    from daterun.pages.words import Words

    phrases = {f"month.{nth}": name for nth, name in enumerate(MONTHS, 1)}
    return Words("en-GB", phrases | {"date.day": "{day} {month} {year}", "date.month": "{month} {year}"})


@pytest.fixture
def seek(words):
    """Seek one value in a page, and tell whether it is found."""

    def search(value, page, said=None, allowed=(), theme=(), strict=True, address="a.html"):
        withheld = Withheld(value, "kept", "coin a", strict, WRITTEN, "")
        needles = make_needles([withheld], said or Said(), words, theme, allowed)
        search = Search(needles)
        found = bool(search.in_file(address, page.encode()))
        veiled = VeiledSearch(search.veiled, search.spared)
        assert (veiled.fingerprint, bool(veiled)) == (search.fingerprint, bool(search))
        is_found = bool(veiled.in_file(address, page.encode()))
        assert is_found == found or (is_found and any(each.proper for each in needles))
        return found

    return search


PRICE = parse_money("45.00 VKR")


@pytest.mark.parametrize(
    "page", ["45 VKR", "45.00&nbsp;VKR", "VKR 45.00", "<b>45</b> VKR", "45,00 VKR", "45VKR", "45.0 vkr"]
)
def test_an_amount_is_found_with_its_currency_on_either_side(seek, page):
    assert seek(PRICE, f"<p>paid {page}.</p>")


@pytest.mark.parametrize(
    "page", ["45", "45.00 g", "145.00 VKR", "45.5 VKR", "45.001 VKR", "VKR, and 45 coins"]
)
def test_a_bare_number_and_another_amount_are_no_find(seek, page):
    assert not seek(PRICE, f"<p>{page}</p>")


def test_a_large_amount_is_found_grouped_and_an_exact_one_without_its_currency(seek):
    assert seek(parse_money("1250 VKR"), "<p>1,250.00 VKR</p>")
    assert seek(parse_money("1234.56 VKR"), '<p data-x="1,234.56">')
    assert not seek(parse_money("1250 VKR"), "<p>1,250 coins</p>")


def test_an_amount_is_found_with_the_sign_of_its_currency(seek):
    assert seek(Money(Decimal(45), "GBP"), "<p>for £45 only</p>")


def test_an_amount_that_is_public_anyway_is_not_sought(seek):
    assert not seek(PRICE, "<p>45 VKR</p>", Said(amounts={PRICE}))


@pytest.mark.parametrize("page", ["3 April 2019", "2019-04-03", "April 3, 2019", "3.4.2019", "03/04/2019"])
def test_a_day_is_found_in_any_of_its_forms(seek, page):
    assert seek(parse_day("2019-04-03"), f"<p>on {page},</p>")


def test_a_month_a_year_and_a_public_day_are_not_sought(seek):
    assert not seek(parse_day("2019-04"), "<p>April 2019</p>")
    assert not seek(parse_day("2019"), "<p>2019</p>")
    assert not seek(parse_day("2019-04-03"), "<p>3 April 2019</p>", Said(days={parse_day("2019-04-03")}))


def test_a_name_is_found_within_a_text_in_any_case_and_in_names_of_files(seek):
    assert seek("R. Tarn", "<p>bought of R.\u00a0Tarn</p>")
    assert seek("R. Tarn", "<p>R. TARN</p>")
    assert seek("R. Tarn", "<p>J. R. Tarn</p>")
    assert not seek("R. Tarn", "<p>R. Tarning</p>")


def test_one_word_with_a_capital_counts_as_typed(seek):
    assert seek("Stone", "<p>bought of Stone</p>")
    assert not seek("Stone", "<p>set with a stone</p>")


@pytest.mark.parametrize("value", ["A3", "bank", "a dealer", "K"])
def test_a_short_value_and_an_ordinary_word_are_found_only_where_they_stand_alone(seek, value):
    assert not seek(value, f"<p>of {value} and so on</p>")
    assert seek(value, f"<dd>{value}</dd>")
    assert seek(value, f'<p title="{value}">')
    assert seek(value, f'x=["{value}"]', address="find.js")


@pytest.mark.parametrize("value", ["5", "1899", "212"])
def test_a_bare_number_or_year_is_not_sought(seek, value):
    assert not seek(value, f"<dd>{value}</dd>")


def test_a_long_number_is_found(seek):
    assert seek("4417-0092", "<p>no. 4417-0092</p>")
    assert seek("98765", "<p>no. 98765</p>")


def test_a_part_of_a_long_note_is_found(seek):
    note = (
        "Came by post. The seller hinted at a hoard found in spring.\nNever tell neighbours about the tray."
    )
    assert seek(note, "<p>the seller hinted at a hoard found in spring</p>")
    assert seek(note, "<p>Never tell neighbours about the tray.</p>")
    assert not seek(note, "<p>came by post</p>")


def test_what_is_a_public_name_of_the_coinage_or_in_the_programs_theme_is_not_sought(seek):
    page = "<p>Kaldhamn autumn sale</p>"
    assert seek("Kaldhamn autumn sale", page)
    assert not seek("Kaldhamn autumn sale", page, Said(names={"Kaldhamn autumn sale"}))
    assert seek("Kaldhamn autumn sale", page, Said(names={"The Kaldhamn autumn sale of 1988"}))
    assert not seek("Kaldhamn", "<p>Kaldhamn</p>", Said(known={"struck at Kaldhamn"}))
    assert not seek("Light or dark", "<p>Light or dark</p>", theme=["look: Light or dark"])


def test_a_private_name_in_a_text_of_the_keepers_is_a_find_and_a_lenient_value_there_is_not(seek):
    said = Said(free={"Hair over the ear is flat, says R. Tarn"})
    assert seek("R. Tarn", "<p>R. Tarn</p>", said)
    assert not seek("Hair over the ear is flat", "<p>hair over the ear is flat</p>", said, strict=False)


def test_the_keeper_allows_by_name(seek):
    assert not seek("R. Tarn", "<p>R. Tarn</p>", allowed=["R. Tarn"])
    assert not seek(PRICE, "<p>VKR 45</p>", allowed=["45.00 VKR"])
    assert seek("R. Tarn", "<p>R. Tarn</p>", allowed=["Tarn"])


def test_a_file_name_is_searched(words):
    withheld = Withheld("R. Tarn", "acquired from", "coin a", True, WRITTEN, "")
    search = Search(make_needles([withheld], Said(), words, (), ()))
    (find,) = search.in_name("essays/r-tarn/index.html")
    (problem,) = word_finds([find, find], "public")
    assert problem.rule == "private value"
    assert problem.sentence == (
        'the public edition would tell "R. Tarn", which is private (acquired from, coin a), in'
        " essays/r-tarn/index.html"
    )


def test_a_picture_that_carries_a_comment_is_a_find_whatever_it_says(words):
    import io

    from PIL import Image

    out = io.BytesIO()
    Image.new("RGB", (16, 16)).save(out, "JPEG", comment=b"from R. Tarn")
    withheld = Withheld("R. Tarn", "acquired from", "coin a", True, WRITTEN, "")
    needles = make_needles([withheld], Said(), words, (), ())
    assert Search(needles).in_file("pictures/a.jpg", out.getvalue())[0].needle is not None
    (find,) = Search(()).in_file("pictures/a.jpg", out.getvalue())
    (problem,) = word_finds([find], "club")
    assert problem.sentence == "pictures/a.jpg of the club edition would carry more than its pixels"


def test_many_files_are_counted_not_listed(words):
    withheld = Withheld("R. Tarn", "kept", "coin a", True, WRITTEN, "")
    search = Search(make_needles([withheld], Said(), words, (), ()))
    finds = [each for n in range(9) for each in search.in_file(f"{n}.html", b"<p>R. Tarn</p>")]
    (problem,) = word_finds(finds, "public")
    assert problem.sentence.endswith("in 0.html, 1.html, 2.html and 6 other files")


def test_a_find_is_found_in_every_file_that_holds_it(words):
    withheld = Withheld("R. Tarn", "kept", "coin a", True, WRITTEN, "")
    search = Search(make_needles([withheld], Said(), words, (), ()))
    pages = [b"<p>clean</p>", b"<p>R. Tarn</p><i>clean</i>", b"<p>clean</p><p>R. Tarn</p>", b"<p>clean</p>"]
    assert [len(search.in_file("a.html", page)) for page in pages] == [0, 1, 1, 0]


def test_what_is_sought_has_a_fingerprint(words):
    def fingerprint(value):
        withheld = Withheld(value, "kept", "coin a", True, WRITTEN, "")
        return Search(make_needles([withheld], Said(), words, (), ())).fingerprint

    assert fingerprint("R. Tarn") == fingerprint("R. Tarn") != fingerprint("R. Tarm")


@pytest.mark.parametrize(
    "page",
    [
        "<h1>A small cabinet</h1><p>2 coins</p>",
        "<title>A small cabinet</title>\n<meta content='2 coins'>",
        "<p>In the cabinet: 2 of 13</p>",
        "<p>In the cabinet.</p> 2 of 13",
        "<li><a href='#'>A small cabinet</a></li><li>2</li>",
        '<script>x={"title":"A small cabinet","count":2}</script>',
        '<p title="of the cabinet" data-count="2">',
    ],
)
def test_a_title_beside_a_number_is_no_place_where_a_coin_is_kept(seek, page):
    said = Said(names={"A small cabinet"})
    assert not seek("cabinet 2", page, said)
    assert seek("cabinet 2", f"{page}<p>kept in cabinet 2</p>", said)


PIECES = st.sampled_from(
    [
        "<p>",
        "</p>",
        "<b>",
        "</b>",
        "<br>",
        '<p title="',
        '">',
        "<",
        "sold to R.",
        "Tarn",
        "sold to R. Tarn",
        "\n",
        " ",
    ]
)
PAGES = st.lists(st.lists(PIECES, max_size=12).map("".join), min_size=2, max_size=6)


@given(PAGES)
def test_a_page_is_searched_as_if_none_had_been_before(pages):
    withheld = Withheld("R. Tarn", "from", "coin a", True, WRITTEN, "")
    needle = Needle(("r", "tarn"), withheld)
    search = Search([needle])
    for nth, page in enumerate(pages):
        alone = Search([needle]).in_file(f"{nth}.html", page.encode())
        assert search.in_file(f"{nth}.html", page.encode()) == alone


@pytest.mark.parametrize("first", ["<p>the Tarns</p>", "<p>a tarn</p>"])
def test_a_name_is_no_part_of_a_longer_one_whatever_page_comes_first(seek, words, first):
    withheld = Withheld("Tarn", "from", "coin a", True, WRITTEN, "")
    search = Search(make_needles([withheld], Said(), words, (), ()))
    assert search.in_file("0.html", first.encode()) == []
    assert search.in_file("1.html", b"<p>the Tarns</p>\n<p>a tarn</p>") == []
    assert search.in_file("2.html", b"<p>the Tarns</p>\n<p>of Tarn</p>")


def test_what_stands_between_tags_within_an_attribute_is_found(seek):
    assert seek("Anna Berg", '<p title="<b>Anna Berg</b>">')


@pytest.mark.parametrize("strict", [True, False])
def test_what_only_the_keepers_free_words_say_is_spared_and_known_to_be(words, strict):
    withheld = Withheld("Found under the hearth", "notes", "coin a", strict, WRITTEN, "")
    said = Said(free={"It was found under the hearth."})
    search = Search(make_needles([withheld], said, words, (), ()))
    assert bool(search) == strict
    for each in (search, VeiledSearch(search.veiled, search.spared)):
        assert each.spares("*Found under* the hearth, they say.") == (not strict)
        assert not each.spares("Found by the hearth.")


@pytest.mark.parametrize("line", ["", "1 2 3", "a b c d", "1 2 3 4 5"])
def test_what_is_no_veiled_needle_is_refused(line):
    with pytest.raises(ValueError):
        VeiledSearch([line], [])
