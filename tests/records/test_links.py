"""The links in notes and essays, with their places."""

import pytest

from daterun.problems import Place
from daterun.records.links import Link, Plate, find_images, find_links, parse_link


@pytest.mark.parametrize(
    ("inside", "link"),
    [
        ("ort/1897", Link("ort/1897", None, "", "", "")),
        ("ort/1897 both", Link("ort/1897", Plate.BOTH, "", "", "")),
        ("ort/1897 obverse", Link("ort/1897", Plate.OBVERSE, "", "", "")),
        ("ort/1897  reverse ", Link("ort/1897", Plate.REVERSE, "", "", "")),
        ("ort 1881", Link("", None, "ort", "1881", "")),
        ("vessmark/ort 1895-96", Link("", None, "vessmark/ort", "1895-96", "")),
        ("ort AH 1320", Link("", None, "ort", "AH 1320", "")),
        ("ort/1897|the melted year", Link("ort/1897", None, "", "", "the melted year")),
        ("ort 1881 | the gap", Link("", None, "ort", "1881", "the gap")),
        ("ort/1897 both|plate 3", Link("ort/1897", Plate.BOTH, "", "", "plate 3")),
        (" ", Link("", None, "", "", "")),
    ],
)
def test_a_link_leads_to_a_coin_or_a_date_and_can_have_a_label(inside, link):
    assert parse_link(inside) == link


def test_a_link_to_a_coin_knows_that_it_is_one():
    assert parse_link("ort/1897").is_coin
    assert not parse_link("ort 1897").is_coin


def test_links_are_found_with_their_places():
    text = "See [[ort/1897]] and [[ort 1881]].\n\nA plate: [[ort/1897 both|Plate 1]]\n"
    assert [(each.text, each.place) for each in find_links(text, "a.md", 10)] == [
        ("[[ort/1897]]", Place("a.md", 10, 5, 12)),
        ("[[ort 1881]]", Place("a.md", 10, 22, 12)),
        ("[[ort/1897 both|Plate 1]]", Place("a.md", 12, 10, 25)),
    ]


@pytest.mark.parametrize(
    "text",
    [
        "`[[ort/1897]]`",
        "``a ` [[ort/1897]] b``",
        "```\n[[ort/1897]]\n```",
        "~~~ text\n[[ort/1897]]\n~~~~",
        "````\n```\n[[ort/1897]]\n````",
        "```\n```python\n[[ort/1897]]\n```",
        "```\nnever closed [[ort/1897]]",
        "[[]]",
        "[[ort/1897]",
        "[[ort\n1897]]",
        "[[" + "x" * 201 + "]]",
    ],
)
def test_what_stands_as_code_or_is_not_closed_is_no_link(text):
    assert find_links(text, "a.md", 1) == ()


@pytest.mark.parametrize(
    "text",
    [
        "a ` b [[ort/1897]]",
        "```\ncode\n```\n[[ort/1897]]",
        "`a` [[ort/1897]] `b`",
        "``` `[[no]]` ```\n[[ort/1897]]",
        "[[[ort/1897]]]",
    ],
)
def test_what_only_stands_beside_code_is_a_link(text):
    assert [each.link.coin for each in find_links(text, "a.md", 1)] == ["ort/1897"]


def test_a_link_behind_code_keeps_its_column():
    (found,) = find_links("`[[x]]` [[ort/1897]]", "a.md", 1)
    assert found.place.column == 9


def test_pictures_typed_in_markdown_are_found_with_their_places():
    text = "`![no](a.jpg)` ![The tray](tray.jpg)\n```\n![no](b.jpg)\n```\n![](c.png) [page](d.md) ![open](e"
    assert find_images(text, "a.md", 4) == (Place("a.md", 4, 16, 21), Place("a.md", 8, 1, 10))
