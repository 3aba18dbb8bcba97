"""Photos found by name."""

import os

import pytest

from daterun.photos.named import claim, find_photos


def test_a_photo_is_claimed_by_the_coin_and_side_that_its_name_says():
    photos = ["content/photos/ort/1899.obverse.jpg", "content/photos/ort/1899.reverse.PNG"]
    assert claim(photos, ["ort/1899"]) == {
        ("ort/1899", "obverse"): ["content/photos/ort/1899.obverse.jpg"],
        ("ort/1899", "reverse"): ["content/photos/ort/1899.reverse.PNG"],
    }


def test_a_name_without_a_side_or_of_another_coin_claims_nothing():
    photos = ["content/photos/ort/1899.jpg", "content/photos/ort/1900.obverse.jpg"]
    assert claim(photos, ["ort/1899"]) == {}


def test_hidden_files_are_passed_over(tmp_path):
    folder = tmp_path / "content/photos/.cache"
    folder.mkdir(parents=True)
    (folder / "a.obverse.jpg").write_bytes(b"x")
    (folder.parent / ".b.obverse.jpg").write_bytes(b"x")
    (folder.parent / "c.obverse.jpg").write_bytes(b"x")
    assert find_photos(tmp_path) == ("content/photos/c.obverse.jpg",)


@pytest.mark.skipif(not hasattr(os, "symlink"), reason="this system has no symbolic links")
def test_a_link_out_of_the_catalogue_folder_is_no_photo(tmp_path):
    outside = tmp_path / "outside.jpg"
    outside.write_bytes(b"x")
    photos = tmp_path / "catalogue/content/photos"
    photos.mkdir(parents=True)
    (photos / "a.obverse.jpg").symlink_to(outside)
    assert find_photos(tmp_path / "catalogue") == ()


def test_a_coin_id_may_hold_points():
    photos = ["content/photos/ort/1899.2.reverse.jpg", "content/photos/ort/1899.edge.tiff"]
    assert claim(photos, ["ort/1899", "ort/1899.2"]) == {
        ("ort/1899.2", "reverse"): ["content/photos/ort/1899.2.reverse.jpg"],
        ("ort/1899", "edge"): ["content/photos/ort/1899.edge.tiff"],
    }


def test_only_the_suffix_may_be_in_capitals():
    photos = ["content/photos/a.obverse.JPG", "content/photos/b.Obverse.jpg", "content/photos/C.obverse.jpg"]
    assert claim(photos, ["a", "b", "c"]) == {("a", "obverse"): ["content/photos/a.obverse.JPG"]}


def test_a_letter_with_a_mark_is_the_same_composed_or_apart():
    path = "content/photos/o\u0308re.obverse.jpg"
    assert claim([path], ["\u00f6re"]) == {("\u00f6re", "obverse"): [path]}


def test_two_photos_of_one_side_are_both_given():
    photos = ["content/photos/a.obverse.jpg", "content/photos/a.obverse.png"]
    assert claim(photos, ["a"]) == {("a", "obverse"): photos}


def test_photos_are_listed_in_order_from_every_folder_and_nothing_else_is(tmp_path):
    names = ["b.obverse.jpg", "a/z.reverse.WEBP", "a/y/x.edge.tif", "notes.txt", "a/raw.cr2"]
    for name in names:
        path = tmp_path / "content/photos" / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(b"x")
    assert find_photos(tmp_path) == (
        "content/photos/a/y/x.edge.tif",
        "content/photos/a/z.reverse.WEBP",
        "content/photos/b.obverse.jpg",
    )


def test_a_catalogue_without_photos_has_none(tmp_path):
    assert find_photos(tmp_path) == ()
