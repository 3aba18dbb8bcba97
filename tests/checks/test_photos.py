"""The rules of photos on small real pictures, from the folder to the problem."""

from pathlib import Path

import pytest
from PIL import Image, ImageDraw

from daterun.checks.catalogue import check_catalogue
from daterun.checks.photos import PhotoFacts
from daterun.photos.examine import examine
from daterun.photos.named import find_photos
from daterun.records.catalogue import read_catalogue

PHOTOS = "content/photos"
COINS = {"content/coins/1891.md": "1891", "content/coins/1892.md": "1892"}


def draw(folder: Path, name: str, colour: str, coin: bool = True) -> None:
    path = folder / PHOTOS / name
    path.parent.mkdir(parents=True, exist_ok=True)
    image = Image.new("RGB", (200, 160), "white" if coin else colour)
    if coin:
        ImageDraw.Draw(image).ellipse((40, 20, 160, 140), colour)
    image.save(path)


def look(folder: Path) -> PhotoFacts:
    files = find_photos(folder)
    return PhotoFacts(files, {each: examine(folder / each, each) for each in files})


@pytest.fixture
def folder(catalogue_folder, coin):
    return catalogue_folder({path: coin(date) for path, date in COINS.items()})


def said(folder: Path) -> list[str]:
    catalogue, problems = read_catalogue(folder)
    assert problems == []
    found = check_catalogue(catalogue, look(folder))
    return [f"{each.place.path.removeprefix(PHOTOS + '/')}: {each.sentence} [{each.rule}]" for each in found]


def test_two_sides_of_two_coins_are_in_order(folder):
    for nth, name in enumerate(("1891.obverse.png", "1891.reverse.png", "1892.obverse.png")):
        draw(folder, name, ("brown", "black", "gray")[nth])
    assert said(folder) == []


def test_the_same_bytes_under_two_names_are_one_photo(folder):
    draw(folder, "1891.obverse.png", "brown")
    draw(folder, "1891.reverse.png", "brown")
    draw(folder, "1892.obverse.png", "brown")
    assert said(folder) == [
        "1891.reverse.png: the reverse shows the same photo as the obverse [same photo]",
        "1892.obverse.png: the obverse shows the same photo as the obverse of 1891 [photo used twice]",
    ]


def test_a_file_that_only_calls_itself_a_picture_is_broken(folder):
    (folder / PHOTOS).mkdir()
    (folder / PHOTOS / "1891.obverse.jpg").write_bytes(b"no picture at all")
    assert said(folder) == ["1891.obverse.jpg: this photo is not a picture that can be read [broken photo]"]


def test_a_picture_without_a_coin_is_advised_of(folder):
    draw(folder, "1891.obverse.png", "white", coin=False)
    assert said(folder) == [
        "1891.obverse.png: the coin was not found in this photo: nothing stands out from the background [no disc]"
    ]


def test_a_picture_that_only_a_text_names_is_shown_nowhere_and_both_are_said(folder, coin):
    draw(folder, "cabinet/tray.png", "brown")
    (folder / "content/coins/1892.md").write_text(
        coin("1892", notes="![The tray](../photos/cabinet/tray.png)"), encoding="utf-8"
    )
    words = "notes show no picture but those of coins, so only its words will stand here"
    assert said(folder) == [
        f"content/coins/1892.md: {words} [link]",
        "cabinet/tray.png: no coin claims this photo [unclaimed photo]",
    ]
