"""What a published edition says of itself to other programs, and that it says nothing where it has no address."""

import json
import xml.etree.ElementTree as ElementTree

import html5lib
import pytest

from daterun.readers.reader import Reader
from daterun.site import build

WEB = "https://example.org/coins/"
ATOM = "{http://www.w3.org/2005/Atom}"
SITE_MAP = "{http://www.sitemaps.org/schemas/sitemap/0.9}"
NOTES = "A </script><b>sharp</b> strike & more."


@pytest.fixture
def make(catalogue_folder, base_files, coin):
    """Build a small catalogue with these lines of settings, and give its files."""

    def build_it(*lines, reader=Reader.PUBLIC, title="A small cabinet"):
        settings = base_files["content/catalogue.yaml"].replace("A small cabinet", title)
        settings += "\n".join(lines) + "\n"
        folder = catalogue_folder(
            {
                "content/catalogue.yaml": settings,
                "content/coins/ort/1891.md": coin(
                    "1891",
                    "grade: VF30",
                    "weight: 8.97 g",
                    "added: 2019-04-10",
                    "kept: drawer nine",
                    notes=NOTES,
                ),
                "content/coins/ort/1900.md": coin("1900", "added: 2021-02"),
                "content/coins/ort/1901.md": coin("1901"),
                "content/pages/on-orts.md": "---\ntitle: On orts & <others>\n---\nText.\n",
            }
        )
        result = build(folder, reader)
        assert not result.has_errors, result.problems
        return {
            path.relative_to(result.output).as_posix(): path.read_text(encoding="utf-8")
            for path in result.output.rglob("*")
            if path.suffix in (".html", ".xml", ".txt")
        }

    return build_it


def head(html):
    tree = html5lib.HTMLParser(strict=True, namespaceHTMLElements=False).parse(html)
    return tree.find("head")


def properties(html):
    return {each.get("property"): each.get("content") for each in head(html).findall("meta[@property]")}


def canonical(html):
    return [each.get("href") for each in head(html).findall("link[@rel='canonical']")]


def linked_data(html):
    found = [each.text for each in head(html).findall("script[@type='application/ld+json']")]
    return [json.loads(each) for each in found]


def test_without_an_address_nothing_is_said(make):
    files = make()
    assert "feed.xml" not in files and "sitemap.xml" not in files
    for html in files.values():
        assert "canonical" not in html and "og:" not in html and "ld+json" not in html


@pytest.mark.parametrize("reader", [Reader.CLUB, Reader.KEEPER])
def test_only_the_public_edition_lies_at_the_address(make, reader):
    files = make(f"web: {WEB}", reader=reader)
    assert "feed.xml" not in files and "sitemap.xml" not in files
    assert "canonical" not in files["coins/ort/1891/index.html"]


def test_every_page_names_its_own_address(make):
    files = make(f"web: {WEB}")
    assert canonical(files["index.html"]) == [WEB]
    assert canonical(files["coins/ort/1891/index.html"]) == [f"{WEB}coins/ort/1891/"]
    assert canonical(files["404.html"]) == []


def test_a_slash_at_the_end_of_the_address_may_be_left_out(make):
    assert canonical(make("web: https://example.org/coins")["index.html"]) == [WEB]


def test_a_page_says_how_it_is_shown_elsewhere(make):
    files = make(f"web: {WEB}")
    said = properties(files["essays/on-orts/index.html"])
    assert said["og:title"] == "On orts & <others>"
    assert said["og:type"] == "article"
    assert said["og:url"] == f"{WEB}essays/on-orts/"
    assert properties(files["index.html"])["og:type"] == "website"
    assert "og:image" not in said


def test_the_feed_tells_arrivals_newest_first(make):
    feed = ElementTree.fromstring(make(f"web: {WEB}")["feed.xml"])
    entries = feed.findall(f"{ATOM}entry")
    assert [each.findtext(f"{ATOM}title") for each in entries] == ["Ort 1900", "Ort 1891"]
    assert [each.findtext(f"{ATOM}updated") for each in entries] == [
        "2021-02-28T00:00:00Z",
        "2019-04-10T00:00:00Z",
    ]
    assert feed.findtext(f"{ATOM}updated") == "2021-02-28T00:00:00Z"
    assert entries[1].findtext(f"{ATOM}id") == f"{WEB}coins/ort/1891/"
    assert entries[1].findtext(f"{ATOM}summary") == "VF30"
    assert feed.find(f"{ATOM}link[@rel='self']").get("href") == f"{WEB}feed.xml"
    assert feed.findtext(f"{ATOM}author/{ATOM}name")


def test_the_feed_is_led_to_from_every_page(make):
    files = make(f"web: {WEB}")
    (link,) = head(files["coins/ort/1891/index.html"]).findall("link[@rel='alternate']")
    assert (link.get("type"), link.get("href")) == ("application/atom+xml", "../../../feed.xml")


def test_the_site_map_names_every_page_but_that_for_lost_addresses(make):
    files = make(f"web: {WEB}")
    tree = ElementTree.fromstring(files["sitemap.xml"])
    said = [each.text for each in tree.iter(f"{SITE_MAP}loc")]
    pages = [each for each in files if each.endswith(".html") and each != "404.html"]
    assert sorted(said) == sorted(WEB + each.removesuffix("index.html") for each in pages)


def test_a_coin_is_told_as_linked_data_with_its_context_within(make):
    files = make(f"web: {WEB}")
    (said,) = linked_data(files["coins/ort/1891/index.html"])
    assert said["@context"] == {"@vocab": "https://schema.org/"}
    assert said["@id"] == f"{WEB}coins/ort/1891/"
    assert (said["@type"], said["name"], said["dateCreated"]) == ("VisualArtwork", "Ort 1891", "1891")
    assert said["weight"] == {"@type": "QuantitativeValue", "value": 8.97, "unitCode": "GRM"}
    assert linked_data(files["index.html"]) == []


def test_what_would_end_a_script_stands_as_an_escape_in_linked_data(make):
    files = make(f"web: {WEB}", title="A </script> & cabinet")
    (said,) = linked_data(files["coins/ort/1891/index.html"])
    assert said["isPartOf"]["name"] == "A </script> & cabinet"


def test_nothing_private_is_told(make):
    files = make(f"web: {WEB}")
    assert not [name for name, text in files.items() if "drawer nine" in text]
