"""Whole builds of small catalogues."""

import io
import json
import shutil
import socket

import pytest
from PIL import Image, ImageDraw

from daterun.problems import CannotContinue
from daterun.readers.reader import Reader
from daterun.site import build, check
from editions import read_all

NOTES = "A *sharp* strike; see [[ort/1891 both]] and [[ort 1892]].\n\n<script>alert(1)</script>\n"


def photograph(colour, secret="Secret Camera"):
    """A round coin of one colour on a light ground, with what a camera writes beside it."""
    image = Image.new("RGB", (400, 400), (240, 240, 236))
    ImageDraw.Draw(image).ellipse((60, 60, 340, 340), fill=colour, outline=(30, 30, 30), width=4)
    exif = Image.Exif()
    exif[0x010F] = secret
    exif.get_ifd(0x8825)[1] = "N"
    out = io.BytesIO()
    image.save(out, "JPEG", quality=92, exif=exif.tobytes(), comment=b"cabinet 2, tray 4")
    return out.getvalue()


@pytest.fixture
def files(coin):
    return {
        "content/coins/ort/1891.md": coin("1891", "grade: VF30", "kept: cabinet 2", notes=NOTES),
        "content/coins/ort/1900.md": coin("1900", "grade: EF40"),
        "content/pages/on-orts.md": "---\ntitle: On orts\n---\nThe first is [[ort/1891]].\n",
        "content/photos/ort/1891.obverse.jpg": photograph((150, 150, 146)),
        "content/photos/ort/1891.reverse.jpg": photograph((140, 142, 150)),
    }


@pytest.fixture
def folder(catalogue_folder, files):
    return catalogue_folder(files)


def edit(folder, name, before, after):
    path = folder / name
    text = path.read_text(encoding="utf-8")
    assert before in text
    path.write_text(text.replace(before, after), encoding="utf-8")


def built(folder, reader=Reader.PUBLIC, output=None):
    result = build(folder, reader, output)
    assert not result.has_errors, result.problems
    return result


def test_a_build_writes_a_page_for_every_coin_and_a_picture_of_every_photo(folder):
    result = built(folder)
    site = read_all(result.output)
    assert result.output == (folder / "output" / "public").resolve()
    assert {"index.html", "404.html", "coins/ort/1891/index.html", "essays/on-orts/index.html"} <= set(site)
    assert result.pages_total == result.pages_written == sum(each.endswith(".html") for each in site)
    assert result.pictures_made == sum(each.startswith("pictures/") for each in site) > 0
    assert "robots.txt" not in site


def test_nothing_is_written_by_a_second_build(folder):
    root = built(folder).output
    times = {path: path.stat().st_mtime_ns for path in root.rglob("*")}
    memory = (folder / ".daterun" / "public.json").stat().st_mtime_ns
    again = built(folder)
    assert (again.pages_written, again.pictures_made, again.removed) == (0, 0, ())
    assert times == {path: path.stat().st_mtime_ns for path in root.rglob("*")}
    assert memory == (folder / ".daterun" / "public.json").stat().st_mtime_ns


def test_the_same_catalogue_in_another_folder_gives_the_same_bytes(folder, tmp_path):
    first = read_all(built(folder).output)
    shutil.copytree(folder / "content", tmp_path / "elsewhere" / "else" / "content")
    assert read_all(built(tmp_path / "elsewhere" / "else").output) == first


def test_another_output_folder_gives_the_same_bytes(folder, tmp_path):
    first = read_all(built(folder).output)
    assert read_all(built(folder, output=tmp_path / "site").output) == first
    assert built(folder).pages_written == 0


def test_an_edited_catalogue_is_built_as_if_from_nothing(folder, tmp_path):
    root = built(folder).output
    edit(folder, "content/coins/ort/1891.md", "VF30", "VF20")
    edit(folder, "content/catalogue.yaml", "A small cabinet", "A smaller cabinet")
    (folder / "content/photos/ort/1891.reverse.jpg").write_bytes(photograph((120, 90, 60)))
    (folder / "content/coins/ort/1903.md").write_text("---\nseries: ort\ndate: 1903\n---\n")
    (folder / "content/pages/on-orts.md").unlink()
    result = built(folder)
    assert "essays/on-orts/index.html" in result.removed
    assert read_all(root) == read_all(built(folder, output=tmp_path / "clean").output)


def test_one_edit_writes_only_the_pages_that_show_it(folder):
    total = built(folder).pages_total
    edit(folder, "content/coins/ort/1891.md", "A *sharp* strike", "A *weak* strike")
    # The coin's own page, and the table of coins, which names its texts by what they hold.
    assert built(folder).pages_written == 2 < total


def test_with_errors_the_last_good_site_stays_as_it_was(folder):
    root = built(folder).output
    before = read_all(root)
    edit(folder, "content/coins/ort/1900.md", "grade: EF40", "grade: MS-72")
    result = build(folder, Reader.PUBLIC)
    assert result.has_errors
    assert [each.place.path for each in result.problems if each.is_error] == ["content/coins/ort/1900.md"]
    assert read_all(root) == before


def test_a_mistake_in_a_theme_leaves_the_last_good_site(folder):
    root = built(folder).output
    before = read_all(root)
    edit(folder, "content/catalogue.yaml", "title:", "theme: mine\ntitle:")
    template = folder / "themes/mine/templates/coin.html.j2"
    template.parent.mkdir(parents=True)
    template.write_text("<p>\n{{ view.no_such_thing }}\n")
    (error,) = [each for each in build(folder, Reader.PUBLIC).problems if each.is_error]
    assert (error.place.path, error.place.line) == ("themes/mine/templates/coin.html.j2", 2)
    assert read_all(root) == before
    template.write_text("<title>{{ page.title }}</title>\n")
    assert built(folder).pages_written > 0
    assert b"<title>" in (root / "coins/ort/1891/index.html").read_bytes()


def test_a_theme_that_is_not_there_is_a_problem_where_it_is_named(folder):
    edit(folder, "content/catalogue.yaml", "title:", "theme: trya\ntitle:")
    (error,) = [each for each in build(folder, Reader.PUBLIC).problems if each.is_error]
    assert error.sentence == 'there is no theme "trya"'
    assert (error.place.path, error.place.line) == ("content/catalogue.yaml", 1)


def test_a_stranger_s_file_in_the_output_stays_and_is_named(folder):
    root = built(folder).output
    (root / "CNAME").write_text("coins.example.org")
    edit(folder, "content/catalogue.yaml", "A small cabinet", "Another")
    result = built(folder)
    assert result.strangers == ("CNAME",)
    assert (root / "CNAME").read_text() == "coins.example.org"


def test_the_page_and_pictures_of_a_removed_coin_go(folder):
    root = built(folder).output
    for name in ("coins/ort/1891.md", "photos/ort/1891.obverse.jpg", "photos/ort/1891.reverse.jpg"):
        (folder / "content" / name).unlink()
    edit(folder, "content/pages/on-orts.md", "[[ort/1891]]", "gone")
    built(folder)
    assert not (root / "coins/ort/1891").exists()
    assert not (root / "pictures").exists()


def test_no_page_or_picture_carries_what_a_camera_wrote_or_where_a_coin_is_kept(folder):
    for address, data in read_all(built(folder).output).items():
        for secret in (b"Secret Camera", b"cabinet 2", b"1891.obverse.jpg", str(folder).encode()):
            assert secret not in data, address
        if address.startswith("pictures/"):
            image = Image.open(io.BytesIO(data))
            assert not image.getexif()
            assert not {"comment", "icc_profile", "exif", "xmp"} & set(image.info)


def test_nothing_typed_in_notes_runs(folder):
    html = (built(folder).output / "coins/ort/1891/index.html").read_text(encoding="utf-8")
    assert "alert(1)" not in html
    assert '<figure class="plate">' in html


def test_the_keeper_s_edition_keeps_robots_out(folder):
    root = built(folder, Reader.KEEPER).output
    assert root == (folder / "output" / "keeper").resolve()
    assert (root / "robots.txt").read_text() == "User-agent: *\nDisallow: /\n"
    assert "noindex" in (root / "index.html").read_text()
    assert "cabinet 2" in (root / "coins/ort/1891/index.html").read_text()


def test_an_edition_inside_another_is_refused_before_anything_is_written(folder):
    root = built(folder).output
    before = read_all(root)
    with pytest.raises(CannotContinue, match="lies inside the public edition"):
        build(folder, Reader.KEEPER, root / "mine")
    assert read_all(root) == before


def test_a_lost_memory_costs_nothing_but_time(folder):
    root = built(folder).output
    before = read_all(root)
    shutil.rmtree(folder / ".daterun")
    assert built(folder).pages_written == 0
    assert read_all(root) == before


@pytest.mark.parametrize("after", [0, 1, 7, 15])
def test_a_build_that_is_killed_leaves_whole_files_and_the_next_mends_the_rest(
    folder, tmp_path, monkeypatch, after
):
    from daterun.press.output import Output

    root = built(folder).output
    before = read_all(root)
    edit(folder, "content/catalogue.yaml", "A small cabinet", "Another cabinet")
    wanted = read_all(built(folder, output=tmp_path / "clean").output)
    whole, calls = Output.write, []

    def killed(self, address, data):
        calls.append(address)
        if len(calls) > after:
            raise KeyboardInterrupt
        return whole(self, address, data)

    monkeypatch.setattr(Output, "write", killed)
    with pytest.raises(KeyboardInterrupt):
        build(folder, Reader.PUBLIC)
    monkeypatch.setattr(Output, "write", whole)
    for address, data in read_all(root).items():
        assert data in (before.get(address), wanted.get(address))
    built(folder)
    assert read_all(root) == wanted


def test_a_build_asks_no_network(folder, monkeypatch):
    def refuse(*args, **kwargs):
        raise AssertionError("a build opened a socket")

    monkeypatch.setattr(socket, "socket", refuse)
    monkeypatch.setattr(socket, "getaddrinfo", refuse)
    built(folder)


def test_pages_ask_nothing_of_another_host(folder):
    for address, data in read_all(built(folder).output).items():
        if address.endswith((".html", ".css", ".js")):
            text = data.decode().replace("http://www.w3.org/2000/svg", "")
            assert "http://" not in text and "https://" not in text, address


def test_progress_is_told_by_stages(folder):
    stages = []
    build(folder, Reader.PUBLIC, progress=lambda stage, done, total: stages.append(stage))
    assert list(dict.fromkeys(stages)) == [
        "reading",
        "photos",
        "checking",
        "pages",
        "pictures",
        "plates",
        "writing",
    ]


def test_a_check_finds_everything_at_once(catalogue_folder, coin):
    folder = catalogue_folder(
        {
            "content/coins/a.md": coin("1891", "grade: MS-72"),
            "content/coins/b.md": coin("1898"),
        }
    )
    paths = [each.place.path for each in check(folder).problems if each.is_error]
    assert paths == ["content/coins/a.md", "content/coins/b.md"]


def test_a_catalogue_without_a_coin_has_a_site(catalogue_folder):
    assert built(catalogue_folder()).pages_total > 3


def test_what_was_made_is_remembered_with_its_reason(folder):
    built(folder)
    edit(folder, "content/coins/ort/1891.md", "A *sharp* strike", "A *weak* strike")
    built(folder)
    made = json.loads((folder / ".daterun" / "public.json").read_text(encoding="utf-8"))["made"]
    assert made["coins/ort/1891/index.html"][-1] == "what it shows has changed"
    assert made["index.html"][-1] == "it is new"


FULL = """variety: [old-spelling, nine-over-eight]
standard: 1891–1903
kind: regular
strike: ordinary
struck in: 1900
grades: [{grade: VF20, on: 2019-05-01}, {grade: VF30, on: 2020-05-01}]
problem: cleaned
certificates: [{by: North Pier Grading, number: NP-7, grade: VF35, on: 2021-05-01, problem: cleaned}]
weight: 8.97 g
gravity: {dry: 8.97 g, wet: 8.08 g}
quantity: 1
set: pair-of-1899
lot: fair
added: 2019-04-11
acquired: {on: 2019-04-03, how: exchanged, for: [left], from: R. Tarn}
parted: {on: 2022-04-03, how: sold, price: 80 VKR}
provenance: [{owner: Hallin collection, since: 1970, until: 1988}]
kept: cabinet 2
value: {amount: 80 VKR}
private: dug up beneath the smithy"""


def test_where_all_is_sound_no_coin_is_read_a_second_time_for_its_places(files, folder, coin, monkeypatch):
    def again(*_):
        raise AssertionError("a place was asked for that nothing tells of")

    for name in ("1899-a", "1899-b"):
        text = coin("1899", FULL).replace("NP-7", f"NP-7{name}")
        (folder / f"content/coins/ort/{name}.md").write_text(text, encoding="utf-8")
    left = coin("1900", "parted: {on: 2019-04-03, how: exchanged}")
    (folder / "content/coins/left.md").write_text(left, encoding="utf-8")
    (folder / "content/lots").mkdir()
    (folder / "content/lots/fair.yaml").write_text("on: 2019-04-03\nhow: bought\n", encoding="utf-8")
    settings = folder / "content/catalogue.yaml"
    settings.write_text(settings.read_text(encoding="utf-8") + "as of: 2025-01-01\n", encoding="utf-8")
    monkeypatch.setattr("daterun.records.located._Source.entries_again", again)
    for reader in Reader:
        assert built(folder, reader).problems == ()
