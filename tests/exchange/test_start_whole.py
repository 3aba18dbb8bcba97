"""A site made of starter series lies well in any folder of a host that serves only what it is asked for."""

import re
import shutil
from urllib.parse import unquote, urldefrag

from daterun.exchange.carried import carried_series
from daterun.exchange.start import lay_out
from daterun.naming import slug
from daterun.readers.reader import Reader
from daterun.records.catalogue import read_catalogue
from daterun.site import build

LINK = re.compile(r'(?:href|src)="([^"]+)"')


def test_every_link_of_the_site_names_a_file_in_whatever_folder_it_lies(tmp_path):
    lay_out(tmp_path / "coins", ["new-zealand/crown", "australia/florin"])
    built = build(tmp_path / "coins", Reader.PUBLIC)
    assert not built.has_errors
    host = tmp_path / "host"
    shutil.copytree(built.output, host / "some" / "folder")
    pages = sorted(host.rglob("*.html"))
    assert len(pages) > 50
    lost = []
    for page in pages:
        for link in LINK.findall(page.read_text(encoding="utf-8")):
            path = unquote(urldefrag(link).url)
            if path and ":" not in path and not (page.parent / path).is_file():
                lost.append((page.name, link))
    assert lost == []


def test_each_page_of_a_series_says_whether_any_of_it_is_from_memory(tmp_path):
    lay_out(tmp_path / "coins", sorted({key.partition("/")[0] for key in carried_series()}))
    built = build(tmp_path / "coins", Reader.PUBLIC)
    expected = {}
    for key, series in read_catalogue(tmp_path / "coins")[0].series.items():
        is_from_memory = (
            not series.struck.checked
            or not all(each.checked for each in series.standards)
            or any("from memory" in each.source for each in series.types)
        )
        page = f"{series.issuer}/{slug(series.denomination)}" if series.denomination else key
        expected[page] = expected.get(page, False) or is_from_memory
    said = {
        page: "from memory, not checked"
        in (built.output / "denominations" / page / "index.html").read_text(encoding="utf-8")
        for page in expected
    }
    assert said == expected
    assert set(expected.values()) == {True, False}


def test_proofs_of_a_number_not_known_are_said_to_be_that(tmp_path):
    lay_out(tmp_path / "coins", ["union-of-south-africa/shilling"])
    built = build(tmp_path / "coins", Reader.PUBLIC)
    pages = [each.read_text(encoding="utf-8") for each in built.output.rglob("1939/index.html")]
    assert any("proofs only, their number not known" in each for each in pages)
