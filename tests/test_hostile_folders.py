"""Hostile folders: what lies in a catalogue folder is read or is a problem, and nothing outside is touched."""

import os
import sys

import pytest

from daterun.problems import CannotContinue
from daterun.readers.reader import Reader
from daterun.site import build, check

POSIX = pytest.mark.skipif(sys.platform == "win32", reason="Windows has no pipes and asks for rights to link")


def sentences(folder):
    return {each.sentence for each in check(folder).problems if each.is_error}


@POSIX
@pytest.mark.parametrize(
    "name",
    ["coins/pipe.md", "pages/pipe.md", "lots/pipe.yaml", "issuers/pipe.yaml", "photos/a.obverse.jpg"],
)
def test_a_pipe_is_not_waited_for(catalogue_folder, coin, name):
    folder = catalogue_folder({"content/coins/a.md": coin("1891")})
    path = folder / "content" / name
    path.parent.mkdir(parents=True, exist_ok=True)
    os.mkfifo(path)
    check(folder)
    build(folder, Reader.PUBLIC)


@POSIX
def test_a_photo_that_is_a_link_out_of_the_folder_is_not_read(catalogue_folder, coin, tmp_path_factory):
    secret = tmp_path_factory.mktemp("elsewhere") / "secret.jpg"
    secret.write_bytes(b"secret")
    folder = catalogue_folder({"content/coins/a.md": coin("1891")})
    (folder / "content/photos").mkdir()
    (folder / "content/photos/a.obverse.jpg").symlink_to(secret)
    checked = check(folder)
    assert checked.photos == {}
    assert build(folder, Reader.PUBLIC).pictures_made == 0


@POSIX
def test_settings_that_are_a_link_out_of_the_folder_are_not_read(catalogue_folder, tmp_path_factory):
    secret = tmp_path_factory.mktemp("elsewhere") / "secret.yaml"
    secret.write_text("title: Secret\n")
    folder = catalogue_folder()
    (folder / "content/catalogue.yaml").unlink()
    (folder / "content/catalogue.yaml").symlink_to(secret)
    with pytest.raises(CannotContinue, match="leads out of the catalogue folder"):
        check(folder)


@pytest.mark.parametrize(
    "path",
    ["../../secret.jpg", "/etc/hostname", "a/../../../secret.jpg", "C:\\secret.jpg", "\\\\host\\a.jpg"],
)
def test_a_photo_named_outside_the_photos_is_a_problem(catalogue_folder, coin, path):
    folder = catalogue_folder({"content/coins/a.md": coin("1891", f"photos: {{obverse: '{path}'}}")})
    (folder / "secret.jpg").write_bytes(b"secret")
    assert sentences(folder)


@pytest.mark.parametrize("name", ["../secret", "/etc", "a/b", "..", "tray\\x"])
def test_a_theme_named_outside_the_themes_is_a_problem(catalogue_folder, name):
    folder = catalogue_folder({"content/catalogue.yaml": f"title: A\ntheme: '{name}'\n"})
    assert sentences(folder)


@pytest.mark.parametrize(
    ("name", "suffix"), [("coins/a", "md"), ("series/vessmark/ort", "yaml"), ("catalogue", "yaml")]
)
def test_a_file_of_a_hundred_megabytes_is_a_problem_and_is_not_read(catalogue_folder, name, suffix):
    folder = catalogue_folder()
    path = folder / "content" / f"{name}.{suffix}"
    path.parent.mkdir(parents=True, exist_ok=True)
    with path.open("wb") as file:
        file.truncate(100_000_000)
    assert any("100,000,000 bytes" in each for each in sentences(folder))


BOMBS = {
    "aliases": "title: &a [x,x,x,x,x,x]\nkeeper: &b [*a,*a,*a,*a,*a,*a,*a]\nsummary: [*b,*b,*b,*b,*b,*b]\n",
    "nesting": "title: " + "[" * 100_000 + "\n",
    "braces": "title: " + "{a: " * 50_000 + "\n",
    "merging": "<<: {<<: {<<: {title: x}}}\n",
    "tag": "title: !!python/object/apply:os.system ['touch ran']\n",
    "long key": "x" * 200_000 + ": y\n",
    "nul": "title: a\0b\n",
    "utf-16": "\ufefftitle: A".encode("utf-16"),
    "surrogates": b"title: \xed\xa0\x80\n",
    "many keys": "".join(f"k{n}: 1\n" for n in range(3_000)),
    "directive": "%YAML 9.9\n---\ntitle: A\n",
    "huge number": "title: A\npictures: {widths: [" + "9" * 5_000 + ", 640]}\n",
    "huge date": "title: A\nas of: " + "9" * 5_000 + "\n",
}


@pytest.mark.parametrize("name", BOMBS)
def test_a_bomb_in_the_settings_is_a_problem(catalogue_folder, name, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    folder = catalogue_folder({"content/catalogue.yaml": BOMBS[name]})
    assert sentences(folder)
    assert not (tmp_path / "ran").exists()


HOSTILE_COINS = [
    "weight: " + "9" * 5_000 + " g",
    "weight: 1e999999 g",
    "acquired: {price: " + "9" * 5_000 + " VKR}",
    "grade: " + "VF" * 2_000,
    "axis: " + "9" * 5_000 + "h",
    "quantity: " + "9" * 5_000,
    "gravity: {dry: 0 g, wet: 0 g}",
    "photos: {obverse: {file: a.jpg, crop: {x: " + "9" * 5_000 + ", y: 0, diameter: 0}}}",
    "certificates: " + "[" * 11 + "]" * 11,
]


@pytest.mark.parametrize("line", HOSTILE_COINS, ids=lambda each: each[:30])
def test_a_field_of_absurd_size_is_a_problem_or_harmless(catalogue_folder, coin, line):
    folder = catalogue_folder({"content/coins/a.md": coin("1891", line)})
    check(folder)


@pytest.mark.parametrize(
    "date", ["9" * 5_000, "1" * 300 + "–" + "9" * 300, "?" * 5_000, "0", "-1", "1891" + "\u0301" * 999]
)
def test_a_date_of_absurd_size_is_a_problem(catalogue_folder, coin, date):
    folder = catalogue_folder({"content/coins/a.md": coin(f"'{date}'")})
    assert sentences(folder)


def test_a_note_of_deep_quotes_and_brackets_is_shown(catalogue_folder, coin):
    notes = ">" * 300 + " deep\n\n" + "[" * 3_000 + "\n\n" + "*" * 5_000 + "\n\n" + "- " * 300 + "x\n"
    folder = catalogue_folder({"content/coins/a.md": coin("1891", notes=notes)})
    build(folder, Reader.PUBLIC)
