"""The settings of a catalogue."""

import pytest

from daterun.records.aims import Divider, End, Problems
from daterun.records.coins import CoinKind, Strike
from daterun.records.settings import PictureFormat, Pictures
from daterun.trade.grading import Habit


@pytest.fixture
def settings_of(read):
    def reading(text):
        catalogue, problems = read({"catalogue.yaml": f"title: Cabinet\n{text}"})
        assert problems == []
        return catalogue.settings

    return reading


def test_a_title_is_all_that_settings_need(settings_of):
    settings = settings_of("")
    assert (settings.language, settings.grading, settings.theme) == ("en-GB", Habit.SEVENTY, "tray")
    assert (settings.web, settings.currency, settings.as_of) == ("", "", None)
    assert (settings.pictures, settings.metals, settings.readers) == (Pictures(), {}, {})
    assert (settings.aims, settings.wants) == ((), ())


def test_grades_in_the_settings_are_meant_by_their_own_habit_wherever_it_stands(settings_of):
    settings = settings_of("aims: [{id: a, name: A, series: ort, at least: EF}]\ngrading: british\n")
    assert settings.grading is Habit.BRITISH
    assert settings.aims[0].at_least.low == 50


def test_amounts_in_the_settings_take_the_currency_wherever_it_stands(settings_of):
    assert (
        str(settings_of("wants: [{slot: ort 1892, at most: 400}]\ncurrency: VKR\n").wants[0].at_most)
        == "400 VKR"
    )


def test_grades_and_amounts_of_coins_go_by_the_settings(read):
    files = {
        "catalogue.yaml": "title: Cabinet\ngrading: british\ncurrency: VKR\n",
        "coins/a.md": "---\nseries: ort\ndate: 1899\ngrade: EF\nacquired: {price: 45.00}\n---\n",
    }
    catalogue, problems = read(files)
    assert problems == []
    assert catalogue.coins[0].grade.low == 50
    assert str(catalogue.coins[0].acquired.price) == "45.00 VKR"


def test_an_aim_asks_for_one_ordinary_coin_a_date_in_any_grade_unless_it_says_otherwise(settings_of):
    (aim,) = settings_of("aims: {id: all, name: All, series: ort}\n").aims
    assert (aim.series, aim.span, aim.one_per, aim.strikes) == (
        ("ort",),
        None,
        (Divider.DATE,),
        (Strike.ORDINARY,),
    )
    assert (aim.at_least, aim.counts, aim.problems, aim.kinds, aim.leave_out) == (
        None,
        End.LOW,
        Problems.ACCEPTED,
        (CoinKind.REGULAR,),
        {},
    )


def test_an_aim_can_ask_for_more(settings_of):
    (aim,) = settings_of(
        "aims:\n  - id: all\n    name: All\n    series: [ort, daler]\n"
        "    one per: [date, mint, variety, type, monarch]\n    across series: yes\n"
        "    strikes: [ordinary, proof]\n    counts: middle\n    kinds: [regular, off metal]\n"
        "    leave out: {ort: {1892: dear, 1895-96: none seen}, daler: {1900: dear}}\n"
    ).aims
    assert aim.one_per == tuple(Divider)
    assert aim.across_series
    assert (aim.strikes, aim.counts) == ((Strike.ORDINARY, Strike.PROOF), End.MIDDLE)
    assert aim.kinds == (CoinKind.REGULAR, CoinKind.OFF_METAL)
    assert aim.leave_out == {"ort": {"1892": "dear", "1895-96": "none seen"}, "daler": {"1900": "dear"}}


def test_what_a_reader_may_see_is_said_or_as_usual(settings_of):
    readers = settings_of("readers: {public: {wants: yes}}\n").readers
    assert (readers["public"].wants, readers["public"].certificate_numbers) == (True, None)
    assert "club" not in readers


def test_pictures_are_made_widest_first_and_once_in_each_width(settings_of):
    pictures = settings_of("pictures: {format: webp, widths: [160, 1600, 640, 640]}\n").pictures
    assert (pictures.format, pictures.widths) == (PictureFormat.WEBP, (1600, 640, 160))
    assert settings_of("pictures: {format: avif}\n").pictures.widths == (1600, 640, 160, 48)


def test_plates_are_made_unless_they_are_left_out(settings_of):
    assert settings_of("pictures: {format: avif}\n").pictures.plates
    assert not settings_of("pictures: {plates: no}\n").pictures.plates


def test_a_web_address_ends_in_one_stroke(settings_of):
    assert settings_of("web: https://example.org/coins\n").web == "https://example.org/coins/"


@pytest.mark.parametrize(
    ("text", "problem"),
    [
        ("currency: vkr", '2:11: "vkr" is not a currency [money]'),
        ("web: example.org", '2:6: "example.org" is not a web address [value]'),
        ("theme: ../tray", '2:8: "../tray" is not the name of a folder under themes [path]'),
        ("language: English (old)", '2:11: "English (old)" is not a language [value]'),
        ("grading: french", '2:10: "french" is not a habit of grading [choice]'),
        ("as of: today", '2:8: "today" is not a day [day]'),
        ("readers: {keeper: {wants: yes}}", '2:11: the list of readers has no "keeper" [unknown key]'),
        ("readers: public", "2:10: readers are written with what each may see [value]"),
        ("readers: {public: {kept: yes}}", '2:20: what a reader may see has no "kept" [unknown key]'),
        ("pictures: {widths: [1600]}", "2:20: at least 2 of these must be given [number]"),
        (
            "pictures: {widths: [1600, 8]}",
            "2:20: the widths of pictures are two or more, from 16 to 8000 pixels [number]",
        ),
        ("pictures: jpeg", "2:11: pictures are written as a format and widths [value]"),
        ("aims: [{id: a, name: A}]", '2:9: an aim needs "series": the series it is made of [missing field]'),
        (
            "aims: [{id: a, name: A, series: ort, one per: year}]",
            '2:47: "year" is not something an aim can ask',
        ),
        ("wants: [ort 1892]", "2:9: a want is written as keys with values here [value]"),
        ("metals: {silver: 0.61 VKR}", "2:18: a metal price is written as keys with values here [value]"),
    ],
)
def test_what_is_misread_of_the_settings_is_a_problem_at_its_place(problems_of, text, problem):
    said = problems_of({"catalogue.yaml": f"title: Cabinet\n{text}\n"})
    assert [each[: len(problem) + 15] for each in said] == [f"catalogue.yaml:{problem}"]


@pytest.mark.parametrize(
    ("text", "problem"),
    [
        (
            "keeper: Ida Quennell\n",
            '1:1: the catalogue needs "title": the title of the catalogue [missing field]',
        ),
        ("title:\n", '1:1: "title" is written without a value [empty field]'),
        ("title: [\n", "2:1: a value is missing before this [yaml]"),
        ("", "0:0: nothing is written in this file [empty file]"),
        ("Cabinet\n", "1:1: keys with values are asked for here [yaml]"),
    ],
)
def test_settings_that_give_no_record_are_one_problem_and_are_stood_in_for(read, problems_of, text, problem):
    catalogue, _ = read({"catalogue.yaml": text})
    assert catalogue.settings.title == "Untitled"
    assert catalogue.broken == {"content/catalogue.yaml"}
    assert problems_of({"catalogue.yaml": text}) == [f"catalogue.yaml:{problem}"]
