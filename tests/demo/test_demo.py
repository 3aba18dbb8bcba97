"""The demo as it is published: whole, valid, and the same on any day in any folder."""

import json
import os
import posixpath
import re
import subprocess
import sys
from collections import Counter
from itertools import pairwise
from pathlib import Path
from urllib.parse import unquote, urlsplit

import pytest

from daterun.bundled import content_folder
from daterun.readers.reader import Reader
from daterun.records.catalogue import read_catalogue
from daterun.site import build

PICTURES = (".jpg", ".jpeg", ".webp", ".avif", ".png")

# Builds on another day: the clock of the machine is ten years on before any of the program is imported.
TEN_YEARS_ON = """
import datetime, sys, time
TEN_YEARS = 3652 * 86400
real = {name: getattr(time, name) for name in ("time", "time_ns", "localtime", "gmtime", "strftime")}
time.time = lambda: real["time"]() + TEN_YEARS
time.time_ns = lambda: real["time_ns"]() + TEN_YEARS * 10**9
time.localtime = lambda seconds=None: real["localtime"](time.time() if seconds is None else seconds)
time.gmtime = lambda seconds=None: real["gmtime"](time.time() if seconds is None else seconds)
time.strftime = lambda form, when=None: real["strftime"](form, when or time.localtime())

class Day(datetime.date):
    @classmethod
    def today(cls):
        return cls.fromtimestamp(time.time())

class Moment(datetime.datetime):
    @classmethod
    def now(cls, tz=None):
        return cls.fromtimestamp(time.time(), tz)

    @classmethod
    def today(cls):
        return cls.now()

    @classmethod
    def utcnow(cls):
        return cls.fromtimestamp(time.time(), datetime.timezone.utc).replace(tzinfo=None)

datetime.date, datetime.datetime = Day, Moment
assert datetime.date.today().year - real["gmtime"]().tm_year in (9, 10, 11)
from daterun.command.main import main
sys.exit(main(sys.argv[1:]))
"""


@pytest.fixture(scope="module")
def catalogue():
    found, problems = read_catalogue(content_folder().parent)
    assert [each for each in problems if each.is_error] == []
    return found


def target_of(reference) -> tuple[str, str]:
    """Work out the file and the id that a reference leads to, from the root of the edition."""
    parts = urlsplit(reference.to)
    path = unquote(parts.path)
    address = (
        posixpath.normpath(posixpath.join(posixpath.dirname(reference.by), path)) if path else reference.by
    )
    return address, unquote(parts.fragment)


def test_the_demo_has_no_error(demo):
    assert [each for each in demo.result.problems if each.is_error] == []


def test_the_only_advice_on_the_demo_is_of_what_it_shows(demo):
    advised = Counter(each.rule for each in demo.result.problems)
    assert sum(advised.values()) <= 15, advised


def test_daterun_check_finds_no_error_in_the_demo(demo):
    ran = subprocess.run(
        [sys.executable, "-m", "daterun", "check", "--folder", str(demo.folder), "--json"],
        capture_output=True,
        text=True,
        encoding="utf-8",
    )
    assert ran.returncode == 0, ran.stdout + ran.stderr
    assert json.loads(ran.stdout)["errors"] == 0


def test_every_link_leads_to_a_file_and_a_place_in_it(edition):
    lost = []
    for each in edition.references:
        if each.is_elsewhere:
            continue
        address, fragment = target_of(each)
        if address not in edition.files:
            lost.append(f"{each.by}: {each.attribute}={each.to}")
        elif fragment and address.endswith(".html") and fragment not in edition.pages[address].ids:
            lost.append(f"{each.by}: there is no #{fragment} in {address}")
    assert lost == []
    assert sum(each.tag == "a" for each in edition.references) > 1000


def test_every_page_is_led_to_from_the_first(edition):
    ways: dict[str, set[str]] = {}
    for each in edition.references:
        if each.tag == "a" and not each.is_elsewhere:
            ways.setdefault(each.by, set()).add(target_of(each)[0])
    reached, waiting = {"index.html"}, ["index.html"]
    while waiting:
        new = ways.get(waiting.pop(), set()) - reached
        reached |= new
        waiting += new
    assert set(edition.pages) - reached == {"404.html"}


def test_nothing_made_lies_about_unused(demo):
    used = {target_of(each)[0] for each in demo.references if not each.is_elsewhere}
    assert {each for each in demo.files if each.endswith(PICTURES)} - used == set()


def test_every_page_is_valid(edition):
    assert [error for page in edition.pages.values() for error in page.errors] == []


def test_no_page_has_one_id_twice(edition):
    twice = {
        address: [name for name, count in Counter(page.ids).items() if count > 1]
        for address, page in edition.pages.items()
    }
    assert {address: names for address, names in twice.items() if names} == {}


def test_no_two_pages_have_one_title_but_those_of_coins_of_one_date(edition):
    pages = [page for page in edition.pages.values() if not page.address.startswith("coins/")]
    titles = Counter(page.elements("title")[0].text for page in pages)
    assert [title for title, count in titles.items() if count > 1] == []


def test_every_page_has_one_main_heading(edition):
    assert [address for address, page in edition.pages.items() if len(page.elements("h1")) != 1] == []


def test_headings_go_down_a_step_at_a_time(edition):
    jumps = []
    for address, page in edition.pages.items():
        levels = [int(each.tag[1]) for each in page.root.iter() if re.fullmatch(r"h[1-6]", str(each.tag))]
        jumps += [address for before, after in pairwise(levels) if after > before + 1]
    assert jumps == []


def test_every_picture_has_its_size_and_a_text(edition):
    lacking = []
    for address, page in edition.pages.items():
        for each in page.elements("img"):
            if not {"src", "alt", "width", "height"} <= set(each.attrib):
                lacking.append(f"{address}: {each.attrib}")
    assert lacking == []


def test_every_table_outside_of_notes_has_a_caption_and_headings(edition):
    lacking = []
    tables = 0
    for address, page in edition.pages.items():
        if address.startswith("essays/"):
            continue
        for table in page.elements("table"):
            tables += 1
            scopes = {each.attrib.get("scope") for each in table.iter("th")}
            if table.find("caption") is None or not scopes & {"col", "colgroup"}:
                lacking.append(address)
    assert lacking == []
    assert tables > 100


def test_nothing_is_fetched_from_another_host(edition):
    fetched = [each for each in edition.references if each.is_elsewhere and each.tag != "a"]
    assert [each for each in fetched if not each.to.startswith("data:")] == []
    for address, data in edition.files.items():
        if address.endswith((".js", ".css")):
            without_names = data.decode("utf-8").replace("http://www.w3.org/2000/svg", "")
            assert (
                re.search(r"https?://|@import|\bfetch\(|XMLHttpRequest|WebSocket|sendBeacon", without_names)
                is None
            )


def test_every_address_is_relative_to_its_page(edition):
    assert [each for each in edition.references if each.to.startswith("/") or "\\" in each.to] == []


def test_no_file_tells_where_it_was_made(edition):
    telling = [
        str(edition.folder),
        str(edition.folder.parent),
        str(content_folder()),
        str(Path.home()),
        "file://",
    ]
    for address, data in edition.files.items():
        assert not [each for each in telling if len(each) > 5 and each.encode() in data], address


def segments_of(jpeg: bytes) -> list[int]:
    """List the markers of a JPEG file up to its scan."""
    assert jpeg[:2] == b"\xff\xd8"
    at, found = 2, []
    while jpeg[at] == 0xFF:
        marker = jpeg[at + 1]
        found.append(marker)
        if marker == 0xDA:
            break
        at += 2 + int.from_bytes(jpeg[at + 2 : at + 4], "big")
    return found


APP0, APP15, COMMENT = 0xE0, 0xEF, 0xFE


def test_no_picture_carries_anything_but_itself(demo):
    pictures = {address: data for address, data in demo.files.items() if address.endswith(PICTURES)}
    assert len(pictures) >= 300
    for address, data in pictures.items():
        assert address.endswith(".jpg")
        carried = [each for each in segments_of(data) if APP0 < each <= APP15 or each == COMMENT]
        assert carried == [], address
        assert data.endswith(b"\xff\xd9"), address


def test_a_second_build_writes_nothing(demo):
    before = {path: path.stat().st_mtime_ns for path in demo.output.rglob("*")}
    again = build(demo.folder, Reader.PUBLIC)
    assert (again.pages_written, again.pictures_made, again.removed) == (0, 0, ())
    assert again.pages_total == demo.result.pages_total == demo.result.pages_written
    assert {path: path.stat().st_mtime_ns for path in demo.output.rglob("*")} == before


def test_a_build_in_another_folder_on_another_day_gives_the_same_bytes(
    demo, tmp_path, copy_of_content, files_in
):
    folder = copy_of_content(tmp_path / "elsewhere, with a space")
    elsewhere = {
        **os.environ,
        "TZ": "Pacific/Kiritimati",
        "SOURCE_DATE_EPOCH": "1",
        "PYTHONHASHSEED": "7",
        "LC_ALL": "C",
        "PYTHONUTF8": "1",
    }
    ran = subprocess.run(
        [sys.executable, "-c", TEN_YEARS_ON, "build", "--folder", str(folder)],
        capture_output=True,
        text=True,
        encoding="utf-8",
        env=elsewhere,
    )
    assert ran.returncode == 0, ran.stdout + ran.stderr
    found = files_in(folder / "output" / "public")
    assert sorted(found) == sorted(demo.files)
    assert [address for address in found if found[address] != demo.files[address]] == []


def test_the_keepers_edition_says_on_every_page_that_it_is_private_and_keeps_robots_out(keepers_demo):
    for address, page in keepers_demo.pages.items():
        robots = [
            each.attrib["content"] for each in page.elements("meta") if each.attrib.get("name") == "robots"
        ]
        assert robots and "noindex" in robots[0], address
        assert "private" in page.words.casefold(), address
    assert b"Disallow: /" in keepers_demo.files["robots.txt"]


def test_the_public_edition_asks_no_robot_to_keep_out(demo):
    assert "robots.txt" not in demo.files
    assert not [page.address for page in demo.pages.values() if 'name="robots"' in page.text]


def test_every_coin_held_has_a_page_and_no_coin_parted_with_has_one(demo, catalogue):
    for coin in catalogue.coins:
        assert (f"coins/{coin.id}/index.html" in demo.pages) is coin.is_held, coin.id
    assert any(not coin.is_held for coin in catalogue.coins)


def test_every_date_struck_has_a_page(demo, catalogue):
    years = {
        each.date.year for series in catalogue.series.values() for each in series.issues if each.date.year
    }
    assert {f"dates/{year}/index.html" for year in years} <= set(demo.pages)


def test_the_demo_is_large_enough_to_show_the_program_by(catalogue):
    (issuer,) = catalogue.issuers.values()
    series = catalogue.series.values()
    years = {each.date.year for one in series for each in one.issues if each.date.year}
    assert len({each.denomination or each.name for each in series}) >= 9
    assert len(issuer.monarchs) == 3
    assert max(years) - min(years) >= 45
    assert 320 <= sum(len(one.issues) for one in series) <= 400
    assert len(catalogue.coins) >= 160
    assert len(catalogue.essays) >= 5
    assert len(catalogue.settings.aims) >= 3


def test_the_demo_shows_every_kind_of_coin(catalogue):
    kinds = {"regular", "error", "mule", "off metal", "pattern", "counterstamped", "forgery", "doubtful"}
    assert {each.kind.value for each in catalogue.coins} == kinds
    assert {each.strike.value for each in catalogue.coins} == {"ordinary", "proof", "specimen"}
    assert any(each.grade and each.grade.sides for each in catalogue.coins)
    assert any(each.problems for each in catalogue.coins)
    assert any(each.certificates for each in catalogue.coins)
    assert any(each.gravity for each in catalogue.coins)
    assert any(each.provenance for each in catalogue.coins)
    assert {each.date.kind.value for each in catalogue.coins} >= {"year", "double", "worn", "undated"}


def test_the_demo_has_photographs_enough_and_is_light_enough_to_carry(catalogue):
    photos = [each for each in (content_folder() / "photos").rglob("*") if each.is_file()]
    assert len(photos) >= 300
    assert sum(each.stat().st_size for each in photos) < 14_000_000
    photographed = {each.name.split(".")[0] for each in photos}
    assert len(photographed) < len(catalogue.coins)
