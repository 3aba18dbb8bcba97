import pytest

from daterun.press.addresses import link_from, root_from


@pytest.mark.parametrize(
    ("page", "address", "link"),
    [
        ("coins/ort/1899/index.html", "index.html", "../../../index.html"),
        ("coins/ort/1899/index.html", "coins/ort/1900/index.html", "../1900/index.html"),
        ("coins/ort/1899/index.html", "coins/ort/1899/index.html", "index.html"),
        ("index.html", "pictures/ab/cd-160.jpg", "pictures/ab/cd-160.jpg"),
        ("index.html", "coins/½ ort/18?2/index.html", "coins/%C2%BD%20ort/18%3F2/index.html"),
        ("index.html", "coins/100%/index.html#grade", "coins/100%25/index.html#grade"),
        ("a/index.html", "#notes", "#notes"),
        ("a/index.html", "", ""),
        ("a/index.html", "https://example.org/x y", "https://example.org/x y"),
        ("coins/a/index.html", "coins/", "../"),
        ("coins/index.html", "coins/", "./"),
        ("coins/a/index.html", "coins/a/b/index.html", "b/index.html"),
        ("coins/a/b/index.html", "dates/a/b/index.html", "../../../dates/a/b/index.html"),
        ("index.html", "a:b/index.html", "a%3Ab/index.html"),
    ],
)
def test_a_link_leads_from_one_page_to_another(page, address, link):
    assert link_from(page, address) == link


def test_a_link_with_a_base_is_whole():
    assert link_from("404.html", "coins/a b/index.html#x", "/coins/") == "/coins/coins/a%20b/index.html#x"


def test_the_root_is_above_by_as_many_folders():
    assert root_from("index.html") == ""
    assert root_from("coins/ort/1899/index.html") == "../../../"
