"""Which photo shows which side."""

from daterun.checks.claims import claimed_photos
from daterun.records.catalogue import read_catalogue


def claims(folder, *files):
    catalogue, problems = read_catalogue(folder)
    assert problems == []
    found = claimed_photos(catalogue, tuple(f"content/photos/{each}" for each in files))
    return {
        f"{coin_id} {side.value}": path.removeprefix("content/photos/")
        for (coin_id, side), path in found.items()
    }


def test_a_photo_named_after_a_coin_and_side_is_claimed_by_it(catalogue_folder, coin):
    folder = catalogue_folder({"content/coins/ort/1891.md": coin("1891")})
    assert claims(folder, "ort/1891.obverse.jpg", "ort/1891.edge.png", "ort/1892.obverse.jpg") == {
        "ort/1891 obverse": "ort/1891.obverse.jpg",
        "ort/1891 edge": "ort/1891.edge.png",
    }


def test_a_photo_that_the_file_names_wins_over_one_named_after_the_coin(catalogue_folder, coin):
    text = coin("1891", "photos: {obverse: trays/4.jpg, reverse: {crop: {x: 1, y: 1, diameter: 1}}}")
    folder = catalogue_folder({"content/coins/1891.md": text})
    assert claims(folder, "1891.obverse.jpg", "1891.reverse.jpg", "trays/4.jpg") == {
        "1891 obverse": "trays/4.jpg",
        "1891 reverse": "1891.reverse.jpg",
    }


def test_a_side_whose_named_photo_is_gone_has_none(catalogue_folder, coin):
    folder = catalogue_folder({"content/coins/1891.md": coin("1891", "photos: {obverse: trays/4.jpg}")})
    assert claims(folder, "1891.obverse.jpg") == {}


def test_of_two_named_after_one_side_the_first_is_taken(catalogue_folder, coin):
    folder = catalogue_folder({"content/coins/1891.md": coin("1891")})
    assert claims(folder, "1891.obverse.png", "1891.obverse.jpg") == {"1891 obverse": "1891.obverse.jpg"}
