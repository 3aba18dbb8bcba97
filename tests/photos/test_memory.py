"""What is remembered of photos, and when they are looked at again."""

import json
import os
import shutil
import warnings

import pytest
from PIL import Image

from daterun.photos import examine as examining
from daterun.photos.memory import VERSION, PhotoMemory

LONG_AGO = 1_500_000_000

A = "content/photos/a.obverse.jpg"
B = "content/photos/b.obverse.jpg"


@pytest.fixture
def folder(tmp_path, photograph):
    photos = tmp_path / "content/photos"
    photos.mkdir(parents=True)
    photograph(size=(200, 200), disc=(100, 100, 150)).save(photos / "a.obverse.jpg")
    os.utime(photos / "a.obverse.jpg", (LONG_AGO, LONG_AGO))
    return tmp_path


@pytest.fixture
def looks(monkeypatch):
    """Count how often a photo is examined."""
    seen = []
    honest = examining.examine_source

    def counting(source, photo, use, bound):
        seen.append(photo.path)
        return honest(source, photo, use, bound)

    monkeypatch.setattr(examining, "examine_source", counting)
    return seen


def recall(folder, *paths):
    memory = PhotoMemory.load(folder / ".daterun/photos.json")
    found = memory.examine_all(folder, paths)
    memory.save()
    return found


def test_a_photo_is_examined_once(folder, looks):
    assert recall(folder, A) == recall(folder, A)
    assert looks == [A]


def test_a_renamed_photo_is_not_examined_again(folder, looks):
    first = recall(folder, A)[A]
    shutil.move(folder / A, folder / B)
    second = recall(folder, B)[B]
    assert looks == [A]
    assert (second.key, second.path, second.disc) == (first.key, B, first.disc)


def test_a_changed_photo_is_examined_again(folder, looks, photograph):
    before = recall(folder, A)[A]
    photograph(size=(240, 240), disc=(120, 120, 190)).save(folder / A)
    after = recall(folder, A)[A]
    assert looks == [A, A]
    assert (before.width_px, after.width_px) == (200, 240)


def test_a_photo_changed_just_before_is_read_again_but_not_examined(folder, looks):
    os.utime(folder / A)
    recall(folder, A)
    memory = PhotoMemory.load(folder / ".daterun/photos.json")
    assert memory.by_path == {}
    recall(folder, A)
    assert looks == [A]


@pytest.mark.parametrize(
    "broken",
    [
        "",
        "{",
        "[]",
        json.dumps({"version": VERSION}),
        '{"version": 99, "photos": {}, "files": {}}',
        json.dumps({"version": VERSION, "photos": {"k": {}}, "files": {}}),
        json.dumps({"version": VERSION, "photos": {}, "files": {A: [1, 2]}}),
        "[" * 100_000,
    ],
    ids=["empty", "cut", "a list", "nothing", "another version", "no facts", "no stamp", "deep"],
)
def test_a_broken_memory_counts_as_an_empty_one(folder, looks, broken):
    recall(folder, A)
    (folder / ".daterun/photos.json").write_text(broken, encoding="utf-8")
    assert recall(folder, A)[A].disc is not None
    assert looks == [A, A]


def test_nothing_is_written_where_nothing_changed(folder):
    recall(folder, A)
    stored = folder / ".daterun/photos.json"
    os.utime(stored, (LONG_AGO, LONG_AGO))
    recall(folder, A)
    assert stored.stat().st_mtime == LONG_AGO


def test_progress_is_told_of_what_is_examined_alone(folder, photograph):
    photograph(size=(160, 160), disc=(80, 80, 120)).save(folder / B)
    told = []
    memory = PhotoMemory.load(folder / ".daterun/photos.json")
    memory.examine_all(folder, (A, B), lambda done, total: told.append((done, total)))
    assert told == [(1, 2), (2, 2)]


def test_a_fault_is_remembered_too(folder, looks):
    (folder / B).write_bytes(b"no picture")
    os.utime(folder / B, (LONG_AGO, LONG_AGO))
    assert recall(folder, B)[B] == recall(folder, B)[B]
    assert recall(folder, B)[B].fault == "is not a picture that can be read"
    assert looks == [B]


def test_two_files_of_the_same_bytes_have_one_key_and_their_own_paths(folder):
    shutil.copy2(folder / A, folder / B)
    found = recall(folder, A, B)
    assert found[A].key == found[B].key
    assert (found[A].path, found[B].path) == (A, B)


def test_what_is_recalled_is_what_was_examined(folder, photograph):
    Image.new("RGB", (90, 60), (230, 230, 230)).save(folder / B)
    first = recall(folder, A, B)
    assert first[A].disc is not None
    assert first[B].fallback
    assert recall(folder, A, B) == first


def test_a_photo_that_is_gone_has_a_fault_and_is_not_remembered(folder):
    missing = "content/photos/missing.obverse.jpg"
    assert recall(folder, missing)[missing].fault.startswith("cannot be read: ")
    assert missing not in PhotoMemory.load(folder / ".daterun/photos.json").by_path


def test_a_file_given_up_is_forgotten(folder):
    shutil.copy2(folder / A, folder / B)
    recall(folder, A, B)
    recall(folder, A)
    assert set(PhotoMemory.load(folder / ".daterun/photos.json").by_path) == {A}


def test_the_memory_leaves_nothing_beside_it(folder):
    recall(folder, A)
    assert [each.name for each in (folder / ".daterun").iterdir()] == ["photos.json"]


def test_warnings_are_as_they_were_after_many_photos_were_examined(folder):
    (folder / B).write_bytes(b"no picture")
    before = list(warnings.filters)
    recall(folder, A, B)
    assert list(warnings.filters) == before
