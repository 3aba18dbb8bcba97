"""The formats of the catalogue, each written out once in full in the folder ``example``, are read as they say."""

from decimal import Decimal
from fractions import Fraction
from pathlib import Path

import pytest

from daterun.records.aims import Divider, End, Problems
from daterun.records.catalogue import read_catalogue
from daterun.records.coins import CoinKind, Strike
from daterun.records.lots import Lot
from daterun.records.ownership import How
from daterun.records.series import Side
from daterun.records.settings import PictureFormat
from daterun.trade.dates import Span
from daterun.trade.grading import Habit
from daterun.trade.money import Money


@pytest.fixture(scope="module")
def catalogue():
    found, problems = read_catalogue(Path(__file__).parent / "example")
    assert problems == []
    return found


def test_the_whole_example_is_read(catalogue):
    assert list(catalogue.issuers) == ["vessmark"]
    assert list(catalogue.series) == ["vessmark/ort"]
    assert [each.id for each in catalogue.coins] == ["ort/1892", "ort/1899"]
    assert list(catalogue.lots) == ["fair-2019"]
    assert [each.id for each in catalogue.essays] == ["spellings"]
    assert catalogue.broken == frozenset()


def test_an_issuer_has_its_money_mints_and_monarchs(catalogue):
    issuer = catalogue.issuers["vessmark"]
    assert issuer.name == "Kingdom of Vessmark"
    assert [(each.name, each.value) for each in issuer.money.units] == [
        ("daler", 96),
        ("ort", 24),
        ("skilling", 1),
    ]
    assert str(issuer.decimal.on) == "1919-01-01"
    assert issuer.decimal.equivalent(issuer.money.parse_face("1 ort"), issuer.money) == (Fraction(1), "kron")
    assert issuer.mints == {"none": "Vessborg", "K": "Kaldhamn"}
    assert [(each.id, each.reign.years) for each in issuer.monarchs] == [
        ("ingrith", "1869–1893"),
        ("torvald-iii", "1893–1908"),
        ("sunniva", "1908–"),
    ]
    assert issuer.monarch("sunniva").reign.last is None


def test_a_series_has_its_standards(catalogue):
    first, second = catalogue.series["vessmark/ort"].standards
    assert (first.span, first.name, first.metal.name) == (Span(1891, 1903), "1891–1903", "silver")
    assert (first.fineness.value, second.fineness.value) == (Fraction(3, 4), Fraction(1, 2))
    assert (first.weight.grams, first.remedy.grams) == (Decimal("9.000"), Decimal("0.040"))
    assert (first.diameter.mm, first.edge, first.axis.hours) == (Decimal("26.5"), "milled", 12)
    assert (first.source, first.checked) == ("Coinage Law of 1870", True)


def test_a_series_has_its_types_and_varieties(catalogue):
    series = catalogue.series["vessmark/ort"]
    assert series.type("torvald").obverse.legend == "TORVALD III KING OF VESSMARK"
    assert series.type("ingrith").reverse.design == "A spruce above three waves"
    assert series.type("ingrith").monarch == "ingrith"
    overdate = series.variety("nine-over-eight")
    assert (overdate.side, overdate.reading) == (Side.REVERSE, "last figure cut over an 8")


def test_a_series_has_what_was_struck_in_order_of_date(catalogue):
    struck = catalogue.series["vessmark/ort"].struck
    assert struck.source == "Mint reports, 1891 to 1906"
    assert [each.date.key for each in struck.issues] == [
        *("1891", "1892", "1893", "1894", "1895-96", "1897", "1899", "1900", "1901", "1902", "1903"),
        *("1904", "1905", "1906"),
    ]
    figures = {each.date.key: each.figures for each in struck.issues}
    assert figures["1891"].mintage == (341_000,)
    assert (figures["1892"].mintage, figures["1892"].scarce) == ((2310,), True)
    assert (figures["1893"].mintage, figures["1893"].proofs_only) == ((), False)
    assert (figures["1894"].proofs, figures["1894"].proofs_only, figures["1894"].ordinary) == (60, True, (0,))
    assert (figures["1897"].melted, figures["1897"].source) == (21_000, "Report of 1898")
    assert figures["1899"].ordinary == (297_960,)
    assert (figures["1903"].mintage, figures["1903"].note) == ((764, 1128), "two reports disagree")
    assert struck.not_struck == (Span(1898, 1898),)
    assert struck.not_known == ()


def test_an_issue_is_divided_by_variety_or_by_mint(catalogue):
    series = catalogue.series["vessmark/ort"]
    by_variety, by_mint = series.issue("1899"), series.issue("1902")
    assert [(each.variety, each.figures.mintage) for each in by_variety.parts] == [
        ("old-spelling", (210_000,)),
        ("new-spelling", (88_000,)),
    ]
    assert [(each.mint, each.figures.mintage) for each in by_mint.parts] == [
        ("none", (12_000,)),
        ("K", (40_000,)),
    ]


def test_a_coin_says_what_it_is(catalogue):
    coin = catalogue.coin("ort/1899")
    assert (coin.series, coin.date.key, coin.mint) == ("ort", "1899", "none")
    assert coin.varieties == ("old-spelling", "nine-over-eight")
    assert (coin.strike, coin.kind) == (Strike.ORDINARY, CoinKind.REGULAR)
    assert (coin.weight.grams, coin.diameter.mm, coin.axis.degrees) == (Decimal("8.97"), Decimal("26.4"), 0)
    assert (coin.gravity.wet.grams, coin.gravity.reading.grams) == (Decimal("8.08"), Decimal("0.01"))
    assert coin.design == "Strong strike on the spruce, weak on the date"
    assert coin.references == ("Report of 1899 plate 3",)


def test_a_coin_says_how_good_it_is(catalogue):
    coin = catalogue.coin("ort/1899")
    (own,), (certificate,) = coin.own_grades, coin.certificates
    assert (own.grade.low, own.grade.high, str(own.on)) == (30, 40, "2024-02-11")
    assert own.reasons == "hair over the ear is flat"
    assert coin.problems == ("cleaned",)
    assert (certificate.by, certificate.number, certificate.sealed) == (
        "North Pier Grading",
        "4417-0092",
        True,
    )
    assert (coin.grade.text, coin.is_problem) == ("AU55", True)


def test_a_coin_says_where_it_comes_from_and_what_only_the_keeper_may_know(catalogue):
    coin = catalogue.coin("ort/1899")
    assert (coin.set, coin.lot, str(coin.added)) == ("year-set-1899", "fair-2019", "2019-04-10")
    assert (str(coin.acquired.on), coin.acquired.source, coin.acquired.how) == (
        "2019-04-03",
        "R. Tarn",
        How.BOUGHT,
    )
    assert coin.acquired.price == Money(Decimal("45.00"), "VKR")
    (owner,) = coin.provenance
    assert (owner.owner, str(owner.until), owner.sale, owner.lot, owner.publish) == (
        "Hallin collection",
        "1988",
        "Kaldhamn autumn sale",
        "212",
        True,
    )
    assert (coin.kept, coin.private) == ("cabinet 2, tray 4", "seller hinted at a hoard")
    assert (coin.value.amount, coin.value.basis) == (Money(Decimal(80), "VKR"), "two sales in 2025")
    assert coin.is_held


def test_a_coin_names_a_photo_and_where_the_coin_is_in_it(catalogue):
    photos = catalogue.coin("ort/1899").photos
    assert list(photos) == [Side.OBVERSE]
    assert photos[Side.OBVERSE].file == "a.jpg"
    assert (photos[Side.OBVERSE].crop.x, photos[Side.OBVERSE].crop.diameter) == (812, 1480)


def test_the_notes_begin_on_their_line_of_the_file(catalogue):
    coin = catalogue.coin("ort/1899")
    whole = (Path(__file__).parent / "example" / coin.path).read_text(encoding="utf-8")
    assert whole.split("\n")[coin.notes_line - 1] == coin.notes.split("\n")[0]


def test_a_coin_of_which_little_is_told_has_the_usual_values(catalogue):
    coin = catalogue.coin("ort/1892")
    assert (coin.strike, coin.kind, coin.quantity) == (Strike.ORDINARY, CoinKind.REGULAR, 1)
    assert (coin.varieties, coin.mint, coin.type, coin.standard, coin.weight) == ((), None, None, None, None)
    assert (coin.acquired, coin.parted, coin.value, coin.added, coin.photos) == (None, None, None, None, {})
    assert (coin.grade.text, coin.notes, coin.is_problem) == ("VF30", "", False)


def test_a_lot_has_one_price(catalogue):
    lot = catalogue.lots["fair-2019"]
    assert isinstance(lot, Lot)
    assert (lot.name, str(lot.on), lot.source, lot.how) == (
        "A tray at the Kaldhamn fair",
        "2019-04-03",
        "R. Tarn",
        How.BOUGHT,
    )
    assert (lot.price, lot.shares) == (Money(Decimal("145.01"), "VKR"), {})


def test_an_essay_has_its_title_day_and_place_among_the_essays(catalogue):
    (essay,) = catalogue.essays
    assert (essay.title, essay.summary) == (
        "Two spellings of one value",
        "Why the reports do not settle the order",
    )
    assert (str(essay.on), essay.order, essay.text_line) == ("2025-11-02", 1, 7)
    assert essay.text.startswith("The value is spelt OORT")


def test_the_settings_say_how_the_catalogue_is_made(catalogue):
    settings = catalogue.settings
    assert (settings.title, settings.keeper) == ("The Wrenfield cabinet", "Ida Quennell")
    assert (settings.summary, settings.language) == ("The coinage of Vessmark, by date", "en-GB")
    assert (settings.grading, settings.theme) == (Habit.SEVENTY, "tray")
    assert (settings.web, settings.currency) == ("https://example.org/coins/", "VKR")
    assert str(settings.as_of) == "2026-11-01"
    silver = settings.metals["silver"]
    assert (silver.price, silver.per) == (Money(Decimal("0.61"), "VKR"), "g")
    assert (str(silver.on), silver.source) == ("2026-10-02", "evening paper")
    assert (settings.readers["public"].wants, settings.readers["public"].certificate_numbers) == (
        False,
        False,
    )
    assert (settings.pictures.format, settings.pictures.widths) == (PictureFormat.JPEG, (1600, 640, 160))


def test_the_settings_hold_aims_and_wants(catalogue):
    (aim,), (want,) = catalogue.settings.aims, catalogue.settings.wants
    assert (aim.id, aim.name) == ("silver-by-date", "Silver by date, Fine or better")
    assert (aim.series, aim.span) == (("ort", "half-daler", "12-skilling"), Span(1891, 1906))
    assert (aim.one_per, aim.strikes, aim.kinds) == ((Divider.DATE,), (Strike.ORDINARY,), (CoinKind.REGULAR,))
    assert (aim.at_least.low, aim.counts, aim.problems) == (12, End.LOW, Problems.REFUSED)
    assert aim.leave_out == {"ort": {"1892": "beyond my means"}}
    assert (want.slot, want.at_most, want.remark) == (
        "ort 1892",
        Money(Decimal(400), "VKR"),
        "ask at the Kaldhamn fair",
    )
