"""The site map in one file or several, and the feed of the newest arrivals."""

import xml.etree.ElementTree as ElementTree

import pytest

from daterun.pages.tags import MOST_ARRIVALS
from daterun.pages.tagviews import Announcements, Arrival
from daterun.press.announcements import MOST_BYTES, MOST_URLS, write_feed, write_site_maps

WEB = "https://example.org/coins/"
SPACE = "{http://www.sitemaps.org/schemas/sitemap/0.9}"


def told(many, arrivals=1):
    arrival = Arrival("Ort 1891", f"{WEB}coins/a/", "2020-01-02", "VF30", "")
    pages = tuple(f"{WEB}coins/{nth}&{nth % 7}/" for nth in range(many))
    return Announcements("A", "", "Ida", "en-GB", WEB, (arrival,) * arrivals, pages)


def places(file):
    return [each.text for each in ElementTree.fromstring(file).iter(f"{SPACE}loc")]


def test_pages_that_fit_are_one_map():
    files = write_site_maps(told(5), "sitemap.xml", 5)
    assert list(files) == ["sitemap.xml"]
    assert ElementTree.fromstring(files["sitemap.xml"]).tag == f"{SPACE}urlset"
    assert places(files["sitemap.xml"]) == list(told(5).pages)


def test_more_pages_are_several_maps_and_their_index():
    files = write_site_maps(told(12), "sitemap.xml", 5)
    assert list(files) == ["sitemap.xml", "sitemap-1.xml", "sitemap-2.xml", "sitemap-3.xml"]
    assert ElementTree.fromstring(files["sitemap.xml"]).tag == f"{SPACE}sitemapindex"
    assert places(files["sitemap.xml"]) == [f"{WEB}sitemap-{nth}.xml" for nth in (1, 2, 3)]
    parts = [places(files[f"sitemap-{nth}.xml"]) for nth in (1, 2, 3)]
    assert [len(each) for each in parts] == [5, 5, 2]
    assert [each for part in parts for each in part] == list(told(12).pages)


@pytest.mark.parametrize("most_bytes", [220, 300, 1000])
def test_no_map_is_larger_than_it_may_be(most_bytes):
    files = write_site_maps(told(20), "sitemap.xml", 50, most_bytes)
    maps = [file for address, file in files.items() if address != "sitemap.xml"]
    assert maps and all(len(each) <= most_bytes for each in maps)
    assert [each for file in maps for each in places(file)] == list(told(20).pages)


def test_the_limits_are_those_of_the_protocol():
    files = write_site_maps(told(MOST_URLS + 1), "sitemap.xml")
    assert [len(places(files[f"sitemap-{nth}.xml"])) for nth in (1, 2)] == [MOST_URLS, 1]
    assert all(len(each) <= MOST_BYTES for each in files.values())


def test_a_feed_has_an_entry_for_each_arrival_told():
    feed = write_feed(told(1, MOST_ARRIVALS), "feed.xml").decode()
    assert feed.count("<entry>") == MOST_ARRIVALS
