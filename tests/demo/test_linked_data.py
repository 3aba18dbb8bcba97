"""The linked data of every coin of the demo, read by a processor of JSON-LD that may fetch nothing."""

import json
from dataclasses import replace

import pytest
from pyld import jsonld

from daterun.bundled import themes_folder
from daterun.pages.plan import plan_pages
from daterun.press.theme import find_theme
from daterun.press.words import read_words
from daterun.problems import Place
from daterun.readers.closing import close_catalogue
from daterun.readers.reader import Reader
from daterun.site import check

WEB = "https://example.org/coins/"
SCHEMA = "https://schema.org/"


def refuse(url, options):
    raise AssertionError(f"the processor asked for {url}")


@pytest.fixture(scope="module")
def tagged(demo):
    """The coins' pages of the demo, as if it lay at an address: their tags by their address."""
    checked = check(demo.folder)
    settings = replace(checked.catalogue.settings, web=WEB)
    catalogue = replace(checked.catalogue, settings=settings)
    theme = find_theme(settings.theme, demo.folder, themes_folder(), Place("catalogue.yaml"))
    closed = close_catalogue(catalogue, checked.photos, Reader.PUBLIC)
    pages = plan_pages(closed, read_words(theme, settings.language)).pages
    return {each.address: each.frame.tags for each in pages if each.frame.tags is not None}


@pytest.fixture(scope="module")
def expanded(tagged):
    """What a processor makes of each: whole names of terms, and nothing that it could not read."""
    found = {}
    for address, tags in tagged.items():
        if tags.linked_data:
            said = json.loads(tags.linked_data)
            (found[address],) = jsonld.expand(said, {"documentLoader": refuse})
    return found


def of_term(node, term):
    (value,) = node[SCHEMA + term]
    return value


def test_every_coin_is_read_as_a_work_of_its_own_address(expanded, tagged):
    coins = [each for each in tagged if each.startswith("coins/") and each.count("/") > 1]
    assert sorted(expanded) == sorted(coins)
    for address, coin in expanded.items():
        assert coin["@id"] == WEB + address.removesuffix("index.html")
        assert coin["@type"] == [SCHEMA + "VisualArtwork"]
        assert of_term(coin, "url") == {"@value": coin["@id"]}
        assert of_term(coin, "artform") == {"@value": "coin"}


def test_no_term_is_lost_and_none_is_but_of_the_vocabulary(expanded, tagged):
    for address, coin in expanded.items():
        said = json.loads(tagged[address].linked_data)
        terms = {SCHEMA + each for each in said if not each.startswith("@")}
        assert {each for each in coin if not each.startswith("@")} == terms


def test_a_coins_measures_year_and_metal_are_read(expanded):
    coin = expanded["coins/ort/1897/index.html"]
    assert of_term(coin, "name") == {"@value": "Ort 1897"}
    assert of_term(coin, "dateCreated") == {"@value": "1897"}
    assert of_term(coin, "artMedium") == {"@value": "silver"}
    width = of_term(coin, "width")
    assert width["@type"] == [SCHEMA + "QuantitativeValue"]
    assert of_term(width, "unitCode") == {"@value": "MMT"}
    assert 20 < of_term(width, "value")["@value"] < 40
    assert of_term(of_term(coin, "isPartOf"), "name") == {"@value": "The Wrenfield cabinet"}


def test_as_triples_each_coin_has_its_name_and_its_picture(expanded, tagged):
    said = json.loads(tagged["coins/ort/1897/index.html"].linked_data)
    triples = jsonld.to_rdf(said, {"documentLoader": refuse})["@default"]
    by_term = {each["predicate"]["value"].removeprefix(SCHEMA): each["object"]["value"] for each in triples}
    assert by_term["name"] in ("Ort 1897", "The Wrenfield cabinet")
    assert by_term["contentUrl"].startswith(f"{WEB}pictures/plates/")


def test_every_picture_by_which_a_page_is_shown_is_a_file_of_the_edition(tagged, demo):
    pictures = {each.picture.url for each in tagged.values() if each.picture is not None}
    assert len(pictures) > 150
    assert {each.removeprefix(WEB) for each in pictures} <= set(demo.files)
    essays = [tags for address, tags in tagged.items() if address.startswith("essays/")]
    assert sum(each.picture is not None for each in essays) > 3
    shown = [
        each for each in tagged if each.startswith(("denominations/v", "monarchs/v")) or each == "index.html"
    ]
    assert len(shown) > 13
    assert [each for each in shown if tagged[each].picture is None] == []
