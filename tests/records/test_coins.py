"""A coin as its file tells it."""

import re

import pytest

from daterun.records.coins import COIN, CoinKind, Strike
from daterun.records.ownership import ACQUIRED, PARTED, How
from daterun.records.series import Side


def test_a_coin_needs_no_more_than_its_series_and_date(coin_of):
    coin = coin_of("")
    assert (coin.id, coin.series, coin.date.key, coin.grade, coin.is_held) == ("a", "ort", "1899", None, True)


def test_marks_and_numbers_stay_as_they_are_typed(coin_of):
    coin = coin_of(
        "mint: NO\ncertificate: {by: North Pier Grading, grade: EF40, number: 0640}\nkept: 12.50\n"
    )
    assert (coin.mint, coin.certificates[0].number, coin.kept) == ("NO", "0640", "12.50")


@pytest.mark.parametrize("typed", ["variety: a", "variety: [a]"])
def test_one_variety_needs_no_list(coin_of, typed):
    assert coin_of(typed).varieties == ("a",)


@pytest.mark.parametrize(
    "typed",
    [
        "grade: VF30",
        "grades: VF30",
        "grades: [VF30]",
        "grades: [{grade: VF30}]",
        "grade: {grade: VF30}",
        "grades:\n- VF30",
    ],
)
def test_a_grade_alone_is_the_short_form_of_a_list_of_one(coin_of, typed):
    (own,) = coin_of(typed).own_grades
    assert (own.grade.text, own.on, own.reasons) == ("VF30", None, "")


def test_own_grades_stay_in_their_order_and_the_last_counts(coin_of):
    coin = coin_of("grades: [{grade: EF40, on: 2020-01-01}, {grade: VF30, on: 2024-02-11}]")
    assert [each.grade.text for each in coin.own_grades] == ["EF40", "VF30"]
    assert coin.grade.text == coin.newest_own_grade.grade.text == "VF30"


def test_the_grade_is_that_of_the_certificate_while_the_coin_is_sealed(coin_of):
    coin = coin_of("grade: VF30\ncertificate: {by: North Pier Grading, grade: AU55}")
    assert (coin.grade.text, coin.sealed_certificate.by) == ("AU55", "North Pier Grading")


def test_the_newest_certificate_counts_whatever_its_place_in_the_file(coin_of):
    coin = coin_of(
        "certificates:\n  - {by: A, grade: AU55, on: 2025-05-02}\n  - {by: B, grade: EF40, on: 2019}\n"
        "  - {by: C, grade: F12}\n"
    )
    assert coin.sealed_certificate.by == "A"


def test_of_two_certificates_without_a_day_the_later_in_the_file_counts(coin_of):
    assert coin_of("certificates: [{by: A, grade: AU55}, {by: B, grade: EF40}]").grade.text == "EF40"


def test_a_coin_out_of_its_newest_holder_is_not_back_in_an_older_one(coin_of):
    coin = coin_of(
        "grade: VF30\ncertificates: [{by: A, grade: AU55, on: 2019}, {by: B, grade: EF40, on: 2022, sealed: no}]"
    )
    assert (coin.sealed_certificate, coin.grade.text) == (None, "VF30")


@pytest.mark.parametrize(
    ("matter", "problem"),
    [
        ("grade: VF30", False),
        ("grade: VF30\nproblem: cleaned", True),
        ("grade: VF30 details, cleaned", True),
        ("certificate: {by: A, grade: AU55, problem: [cleaned, holed]}", True),
        ("certificate: {by: A, grade: 'AU55 details, holed'}", True),
        ("grade: VF30\ncertificate: {by: A, grade: AU55, problem: cleaned, sealed: no}", False),
        ("grade: VF30 details, cleaned\ncertificate: {by: A, grade: AU55}", False),
    ],
)
def test_a_problem_coin_is_one_by_the_keepers_word_or_the_grade_in_force(coin_of, matter, problem):
    assert coin_of(matter).is_problem is problem


def test_a_coin_that_has_left_stays_on_record(coin_of):
    coin = coin_of("parted: {on: 2024-05-01, to: M. Orre, how: sold, price: 90 VKR}")
    assert not coin.is_held
    assert (coin.parted.to, coin.parted.how, str(coin.parted.price)) == ("M. Orre", How.SOLD, "90 VKR")


def test_a_photo_is_named_alone_or_with_its_crop(coin_of):
    photos = coin_of(
        "photos: {reverse: b.jpg, obverse: {crop: {x: 1, y: 2.5, diameter: 3}}, edge: {file: c.jpg}}"
    ).photos
    assert list(photos) == [Side.OBVERSE, Side.REVERSE, Side.EDGE]
    assert (photos[Side.OBVERSE].file, photos[Side.OBVERSE].crop.y) == ("", 2.5)
    assert (photos[Side.REVERSE].file, photos[Side.REVERSE].crop) == ("b.jpg", None)


def test_a_former_owner_is_not_published_unless_it_is_said(coin_of):
    owners = coin_of(
        "provenance: [{owner: A}, {owner: B, publish: yes, since: 1950, until: 1988-03}]"
    ).provenance
    assert [each.publish for each in owners] == [False, True]
    assert (str(owners[1].since), str(owners[1].until)) == ("1950", "1988-03")


def test_every_way_of_striking_and_every_kind_is_known(coin_of):
    for strike in Strike:
        assert coin_of(f"strike: {strike}").strike is strike
    for kind in CoinKind:
        assert coin_of(f"kind: {kind}").kind is kind


def test_a_place_in_the_file_is_found_by_the_coins_own_words(coin_of):
    coin = coin_of("grades: [{grade: VF30}]")
    place = coin.at.place_of("grades", 0, "grade")
    assert (place.path, place.line, place.column, place.length) == ("content/coins/a.md", 4, 18, 4)


@pytest.mark.parametrize(
    ("matter", "problem"),
    [
        ("grade: MS-72", '4:8: grade "MS-72" is above the top of the 70-point scale [grade]'),
        ("grades: [VF30, XX99]", '4:16: grade "XX99" begins with no word of the 70-point scale [grade]'),
        ("weight: 8.97", '4:9: "8.97" has no unit [measure]'),
        ("axis: 13h", '4:7: "13h" is not a die axis [measure]'),
        ("strike: prof", '4:9: "prof" is not a way of striking [choice]'),
        ("quantity: two", '4:11: "two" is not a whole number [number]'),
        ("certificate: {grade: AU55}", '4:15: a certificate needs "by": the grading firm [missing field]'),
        ("acquired: {on: 2019-02-30}", '4:16: "2019-02-30" is not a day: February 2019 has 28 days [day]'),
        ("acquired: R. Tarn", "4:11: an acquisition is written as keys with values here [value]"),
        ("acquired: {price: 45}", '4:19: "45" names no currency [money]'),
        (
            "value: {amount: 1,250 VKR}",
            '4:19: inside braces a comma ends a value, so of "1,250 VKR" only 1 is read',
        ),
        ("photos: a.jpg", "4:9: photos are named side by side [path]"),
        ("photos: {front: a.jpg}", '4:10: the list of photos has no "front" [unknown key]'),
        ("photos: {obverse: ../a.jpg}", '4:19: "../a.jpg" leads out of the folder of photos [path]'),
        (
            "photos: {obverse: {crop: {x: 1, y: 1, diameter: 0}}}",
            "4:26: a crop has a diameter of more than nothing [number]",
        ),
        ("wieght: 9.0 g", '4:1: a coin has no "wieght" [unknown key]'),
        ("date: 1900", '4:1: "date" is said twice; only one of them can be meant [repeated key]'),
        ("kept:", '4:1: "kept" is written without a value [empty field]'),
    ],
)
def test_what_is_misread_of_a_coin_is_a_problem_at_its_place(problems_of, matter, problem):
    (said, *more) = problems_of({"coins/a.md": f"---\nseries: ort\ndate: 1899\n{matter}\n---\n"})
    assert said.startswith(f"coins/a.md:{problem}")
    assert all(each.endswith("[money]") for each in more)


@pytest.mark.parametrize("key", [*COIN.elsewhere])
def test_where_a_key_belongs_that_a_coin_does_not_have_is_told_of_keys_that_it_has(key):
    named = re.findall(r"(\w+):", COIN.elsewhere[key]) + re.findall(r'"(\w+)"', COIN.elsewhere[key])
    known = {*COIN.keys, *ACQUIRED.keys, *PARTED.keys}
    assert key not in COIN.keys
    assert key == key.casefold()
    assert known.issuperset(named)


@pytest.mark.parametrize(
    ("date", "sentence"),
    [
        ("1899/8", '"1899/8" is not a date'),
        ("1899–1901", '"1899–1901" is a range of years, not the date of one coin'),
        ("99", '"99" is not a year'),
        ("????", '"????" shows no figure of the date'),
    ],
)
def test_a_coin_whose_date_is_misread_gives_no_record(read, date, sentence):
    catalogue, problems = read({"coins/a.md": f"---\nseries: ort\ndate: {date}\n---\n"})
    assert catalogue.coins == ()
    assert catalogue.broken == {"content/coins/a.md"}
    assert [each.sentence for each in problems] == [sentence]
