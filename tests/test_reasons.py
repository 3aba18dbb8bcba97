"""What a thing of an edition is found to be made from, and why it was made again or left."""

import io
import shutil
from pathlib import Path

import pytest
from PIL import Image, ImageDraw

from daterun.bundled import themes_folder
from daterun.edition import Kind
from daterun.problems import CannotContinue
from daterun.readers.reader import Reader
from daterun.reasons import Absent, Bearing, Lack, Made, Unknown, Unsound, explain
from daterun.site import build
from daterun.sourcefiles import Part

SETTINGS = (
    "title: A small cabinet\ncurrency: VKR\nweb: https://example.org/coins/\npictures: {widths: [200, 48]}\n"
)
COIN = "content/coins/ort/1891.md"
PAGE = "coins/ort/1891/index.html"
NEW, SHOWN = "it is new", "what it shows has changed"


def photograph():
    image = Image.new("RGB", (260, 260), (240, 240, 236))
    ImageDraw.Draw(image).ellipse((30, 30, 230, 230), fill=(150, 150, 146), outline=(30, 30, 30), width=3)
    out = io.BytesIO()
    image.save(out, "JPEG", quality=92)
    return out.getvalue()


@pytest.fixture
def folder(catalogue_folder, coin):
    return catalogue_folder(
        {
            "content/catalogue.yaml": SETTINGS,
            COIN: coin("1891", "grade: VF30", "added: 2020-01-01", notes="Sharp."),
            "content/coins/ort/1900.md": coin("1900", "grade: EF40"),
            "content/coins/ort/1901.md": coin("1901", "parted: {on: 2020-01-01, how: sold}"),
            "content/pages/on-orts.md": "---\ntitle: On orts\n---\nThe first is [[ort/1891]].\n",
            "content/photos/ort/1891.obverse.jpg": photograph(),
        }
    )


@pytest.fixture
def ask(folder):
    """Ask for something in the catalogue, as from its folder."""

    def asked(what, reader=Reader.PUBLIC, here=None, output=None):
        return explain(folder, reader, output, what, here or folder)

    return asked


def rewrite(path, before, after):
    text = path.read_text(encoding="utf-8")
    assert before in text
    path.write_text(text.replace(before, after), encoding="utf-8")


def address_of(root, pattern):
    return next(root.rglob(pattern)).relative_to(root).as_posix()


@pytest.mark.parametrize(
    "asked",
    [
        PAGE,
        "coins/ort/1891",
        "coins/ort/1891/",
        "/coins/ort/1891/",
        "coins/ort/1891/?at=VF20#notes",
        "coins/ort/%31891/",
        "./coins/./ort/1891",
        "https://example.org/coins/coins/ort/1891/",
        "https://example.org/coins/coins/ort/1891/index.html#notes",
        "output/public/coins/ort/1891/index.html",
        "output/public/coins/ort/1891",
    ],
)
def test_a_page_is_found_by_its_address_however_that_is_written(ask, folder, asked):
    assert ask(asked).address == PAGE
    assert explain(folder, Reader.PUBLIC, None, asked, folder / "content").address == PAGE


@pytest.mark.parametrize(
    "asked", ["/", "index.html", "https://example.org/coins", "https://example.org/coins/"]
)
def test_the_first_page_is_found(ask, asked):
    assert ask(asked).address == "index.html"


def test_a_file_of_the_edition_is_found_from_its_own_folder_and_by_its_whole_path(ask, folder):
    root = build(folder, Reader.PUBLIC).output
    assert ask("index.html", here=root / "coins/ort/1891").address == PAGE
    assert ask(str(root / PAGE), here=Path("/")).address == PAGE
    assert ask(".", here=root).address == "index.html"


def test_an_edition_in_another_folder_is_asked_for_by_that(ask, folder, tmp_path):
    build(folder, Reader.PUBLIC, tmp_path / "site")
    assert ask(PAGE, output=tmp_path / "site").fate.last == NEW
    assert ask(str(tmp_path / "site" / PAGE), output=tmp_path / "site").address == PAGE
    assert ask(PAGE).fate.last is None


def test_nothing_is_written_by_asking(ask, folder):
    before = sorted(folder.rglob("*"))
    for what in (PAGE, COIN, "content/photos/ort/1891.obverse.jpg", "nowhere"):
        ask(what)
    assert sorted(folder.rglob("*")) == before


def test_a_page_tells_why_each_build_made_it_or_left_it(ask, folder):
    assert ask(PAGE).fate.last is None
    assert ask(PAGE).fate.now == NEW
    build(folder, Reader.PUBLIC)
    assert (ask(PAGE).fate.last, ask(PAGE).fate.now) == (NEW, "")
    rewrite(folder / COIN, "Sharp", "Weak")
    assert (ask(PAGE).fate.last, ask(PAGE).fate.now) == (NEW, SHOWN)
    build(folder, Reader.PUBLIC)
    assert (ask(PAGE).fate.last, ask(PAGE).fate.now) == (SHOWN, "")
    build(folder, Reader.PUBLIC)
    fate = ask(PAGE).fate
    assert (fate.last, fate.before, fate.now) == ("", SHOWN, "")


def test_a_file_gone_or_changed_by_hand_would_be_made_again(ask, folder):
    root = build(folder, Reader.PUBLIC).output
    picture = address_of(root, "pictures/**/*-48.jpg")
    (root / picture).unlink()
    (root / PAGE).write_text("by hand", encoding="utf-8")
    assert ask(picture).fate.now == "its file was gone"
    assert ask(PAGE).fate.now == "its file was not as it was made"
    build(folder, Reader.PUBLIC)
    assert ask(picture).fate.last == "its file was gone"
    assert ask("404.html").fate.last == ""


def test_another_theme_makes_every_page_again_and_no_picture(ask, folder):
    root = build(folder, Reader.PUBLIC).output
    shutil.copytree(themes_folder() / "tray", folder / "themes/tray")
    rewrite(folder / "themes/tray/templates/find.html.j2", "{% block content %}", "{% block content %} ")
    assert ask(PAGE).fate.now == "the theme has changed"
    assert ask(address_of(root, "pictures/**/*-48.jpg")).fate.now == ""


def test_every_file_that_a_build_writes_is_known_with_its_sources(ask, folder):
    for reader in Reader:
        root = build(folder, reader).output
        kinds = set()
        for path in sorted(root.rglob("*")):
            address = path.relative_to(root).as_posix()
            if path.is_file() and address != ".daterun-edition":
                made = ask(address, reader)
                assert isinstance(made, Made), address
                assert made.fate.now == ""
                assert made.sources or made.kind is Kind.ROBOTS
                kinds.add(made.kind)
        common = {Kind.PAGE, Kind.PICTURE, Kind.PLATE, Kind.DATA, Kind.ASSET}
        own = {Reader.PUBLIC: {Kind.FEED, Kind.SITE_MAP}, Reader.KEEPER: {Kind.ROBOTS}}
        assert kinds == common | own.get(reader, set())


def test_a_picture_is_made_from_its_photo_the_coin_and_the_settings(ask, folder):
    root = build(folder, Reader.PUBLIC).output
    photo = "content/photos/ort/1891.obverse.jpg"
    settings = ("content/catalogue.yaml",)
    picture = ask(address_of(root, "pictures/**/*-48.jpg"))
    assert picture.sources == {Part.PHOTO: (photo,), Part.SHOWN: (COIN,), Part.SETTINGS: settings}
    plate = ask(address_of(root, "pictures/plates/*.jpg"))
    assert plate.kind is Kind.PLATE
    assert plate.sources[Part.PHOTO] == (photo,)
    assert plate.sources[Part.SHOWN] == (COIN,)
    assert plate.sources[Part.ASSET] == ("themes/tray/assets/eb-garamond-regular.woff2",)


def test_the_templates_of_a_page_are_those_that_take_part(ask):
    coin = ask(PAGE).sources[Part.TEMPLATE]
    assert {"coin", "base", "parts/side", "parts/note"} <= {
        each.removeprefix("themes/tray/templates/").removesuffix(".html.j2") for each in coin
    }
    assert "themes/tray/templates/find.html.j2" not in coin
    assert "themes/tray/templates/parts/note.html.j2" not in ask("404.html").sources[Part.TEMPLATE]


def test_a_file_of_the_keepers_tells_what_is_made_from_it(ask, folder):
    for asked, here in (
        (COIN, None),
        ("ort/1891.md", folder / "content/coins"),
        (str(folder / COIN), Path("/")),
    ):
        found = ask(asked, here=here)
        assert isinstance(found, Bearing)
        assert found.path == COIN
        parts = {each.address: each.part for each in found.things}
        assert parts[PAGE] is Part.OWN
        assert parts["essays/on-orts/index.html"] is Part.SHOWN
        assert parts["dates/index.html"] in (Part.SHOWN, Part.COUNTED)
        assert "404.html" not in parts or parts["404.html"] is Part.THERE
        assert "dates/1905/index.html" not in parts or parts["dates/1905/index.html"] is Part.THERE


def test_a_photo_tells_its_pictures_and_the_pages_that_show_them(ask):
    found = ask("content/photos/ort/1891.obverse.jpg")
    kinds = {each.kind for each in found.things}
    assert {Kind.PAGE, Kind.PICTURE, Kind.PLATE, Kind.DATA} <= kinds
    assert {each.part for each in found.things if each.kind is Kind.PICTURE} == {Part.PHOTO}


def test_a_template_tells_the_pages_in_which_it_takes_part(ask, folder):
    addresses = {each.address for each in ask("themes/tray/templates/essay.html.j2").things}
    assert addresses == {"essays/on-orts/index.html"}
    path = themes_folder() / "tray/templates/essay.html.j2"
    assert {each.address for each in ask(str(path)).things} == addresses
    shutil.copytree(themes_folder() / "tray", folder / "themes/tray")
    assert {each.address for each in ask("themes/tray/templates/essay.html.j2").things} == addresses
    assert len(ask("themes/tray/words/en.yaml").things) > len(addresses)


@pytest.mark.parametrize(
    ("asked", "lack"),
    [
        ("content/coins/ort/1901.md", Lack.PARTED),
        ("themes/tray/print/wants.typ", Lack.FOR_PRINT),
        ("themes/other/templates/a.html.j2", Lack.OTHER_THEME),
        ("content/photos/stray.jpg", Lack.UNCLAIMED),
        ("themes/tray/words/sv.yaml", Lack.NOT_READ),
    ],
)
def test_of_a_file_from_which_nothing_is_made_the_reason_is_told(ask, folder, asked, lack):
    path = folder / asked
    if not path.exists():
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(photograph() if asked.endswith(".jpg") else b"a: b\n")
    assert ask(asked) == Bearing(asked, (), lack)


def test_a_coin_that_was_parted_with_is_in_the_keepers_edition_alone(ask):
    assert ask("coins/ort/1901/") == Absent("coins/ort/1901/index.html", Lack.PARTED, (Reader.KEEPER,))
    assert ask("coins/ort/1901/", Reader.KEEPER).address == "coins/ort/1901/index.html"


def test_what_other_readers_have_is_told(ask):
    assert ask("robots.txt") == Absent("robots.txt", Lack.OTHER_READER, (Reader.KEEPER,))
    assert ask("feed.xml", Reader.CLUB) == Absent("feed.xml", Lack.OTHER_READER, (Reader.PUBLIC,))


def test_what_no_build_makes_is_told_from_what_the_last_has_left(ask, folder):
    root = build(folder, Reader.PUBLIC).output
    (root / "CNAME").write_text("example.org", encoding="utf-8")
    (folder / "content/pages/on-orts.md").unlink()
    assert ask("CNAME").lack is Lack.STRANGER
    assert ask("print/catalogue.pdf").lack is Lack.PRINTED
    assert ask("output/public/.daterun-edition").lack is Lack.SIGN
    assert ask("essays/on-orts/").lack is Lack.LEFT_OVER
    build(folder, Reader.PUBLIC)
    assert isinstance(ask("essays/on-orts/"), Unknown)


@pytest.mark.parametrize(
    ("asked", "hint"),
    [
        ("coins/ort/1819/", 'did you mean "coins/ort/1891/"?'),
        ("content/coins/ort/1819.md", 'did you mean "content/coins/ort/1891.md"?'),
        ("https://example.com/coins/ort/1891/", "the site lies at https://example.org/coins/"),
        ("https://example.org/coinsel/", "the site lies at https://example.org/coins/"),
    ],
)
def test_what_is_nothing_is_met_with_what_is_near(ask, asked, hint):
    assert ask(asked) == Unknown(asked, hint)


def test_with_an_error_in_the_catalogue_or_the_theme_nothing_can_be_planned(ask, folder):
    shutil.copytree(themes_folder() / "tray", folder / "themes/tray")
    words = folder / "themes/tray/words/en.yaml"
    sound = words.read_text(encoding="utf-8")
    words.write_text("- a\n", encoding="utf-8")
    assert [each.rule for each in ask(PAGE).problems] == ["theme"]
    words.write_text(sound, encoding="utf-8")
    rewrite(folder / COIN, "VF30", "MS72")
    found = ask(PAGE)
    assert isinstance(found, Unsound)
    assert [each.rule for each in found.problems if each.is_error] == ["grade"]


def test_an_edition_cannot_be_asked_for_where_it_may_not_lie(ask, folder):
    with pytest.raises(CannotContinue, match="lies in content"):
        ask(PAGE, output=folder / "content/site")
