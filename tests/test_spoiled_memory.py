"""What Daterun remembers may be lost, spoilt or forged: the edition comes out the same, and all else is left."""

import json
import os
import random
import shutil
from pathlib import Path

import pytest
from PIL import Image, ImageDraw

from daterun.problems import CannotContinue
from daterun.readers.reader import Reader
from daterun.sealed import seal, unseal
from daterun.standing import bring_up_to_date
from editions import read_all

SPOILT = {
    "empty": b"",
    "a list": b"[]",
    "nothing": b"null",
    "a mapping": b"{}",
    "a number": b"7",
    "a version alone": b'{"version": 1}',
    "another version": b'{"version": 999, "made": {}, "photos": {}, "files": {}}',
    "wrong sorts": b'{"version": 1, "made": [1], "photos": [2], "files": 3}',
    "wrong rows": b'{"version": 1, "made": {"index.html": [1]}, "photos": {"x": {}}, "files": {"x": [1]}}',
    "not a number": b'{"version": 1, "made": {"index.html": [["a","b","c"], NaN, Infinity, "", "", ""]}}',
    "deep": b"[" * 100_000,
    "deep mappings": b'{"version":' * 50_000,
    "not text": b"\xff\xfe\0\0" * 50,
    "a huge number": b'{"version": 1' + b"0" * 5_000 + b"}",
}


@pytest.fixture
def folder(catalogue_folder, coin, monkeypatch):
    monkeypatch.setattr("daterun.records.stamps.JUST_NOW_NS", -(10**15))
    made = catalogue_folder(
        {
            "content/coins/a.md": coin("1891", "kept: Quillon cupboard", notes="Sharp."),
            "content/coins/b.md": coin("1900"),
        }
    )
    photo = Image.new("RGB", (300, 300), "white")
    ImageDraw.Draw(photo).ellipse((40, 40, 260, 260), fill="grey")
    (made / "content/photos").mkdir()
    photo.save(made / "content/photos/a.obverse.jpg")
    os.utime(made / "content/photos/a.obverse.jpg", ns=(10**18, 10**18))
    return made


def remembered(folder: Path) -> list[Path]:
    return [each for each in sorted((folder / ".daterun").rglob("*")) if each.is_file()]


@pytest.mark.parametrize("spoilt", SPOILT)
def test_a_spoilt_memory_counts_as_none(folder, spoilt):
    root = bring_up_to_date(folder, Reader.PUBLIC).output
    wanted, names = read_all(root), {each.name for each in remembered(folder)}
    assert {"photos.json", "public.json", "public.searched", "public.standing"} <= names
    for path in remembered(folder):
        path.write_bytes(SPOILT[spoilt])
        assert not bring_up_to_date(folder, Reader.PUBLIC).has_errors
        assert read_all(root) == wanted, path.name


def test_a_memory_spoilt_at_random_counts_as_none_or_as_it_says(folder):
    root = bring_up_to_date(folder, Reader.PUBLIC).output
    wanted, chance = read_all(root), random.Random(1891)
    for _ in range(30):
        path = chance.choice(remembered(folder))
        data = bytearray(path.read_bytes())
        for _ in range(chance.randint(1, 3)):
            at = chance.randrange(len(data) + 1)
            data[at : at + chance.randrange(9)] = chance.choice(
                [b"", b"0", b'"', b"}", b"[", b"\xff", b"-1", b"e9"]
            )
        path.write_bytes(data)
        if chance.random() < 0.5:
            (root / chance.choice(sorted(wanted))).unlink(missing_ok=True)
        assert not bring_up_to_date(folder, Reader.PUBLIC).has_errors
        left = read_all(root)
        assert {name for name in wanted if left.get(name) != wanted[name]} == set(), (path, bytes(data[:300]))


def test_a_forged_memory_has_nothing_removed_that_lies_elsewhere(folder, tmp_path):
    bring_up_to_date(folder, Reader.PUBLIC)
    outside = tmp_path / "outside.html"
    shutil.copy(folder / "output/public/index.html", outside)
    path = folder / ".daterun/public.json"
    stored = json.loads(unseal(path.read_text(encoding="utf-8")))
    for address in ("../../../outside.html", str(outside), "../../content/coins/a.md"):
        stored["made"][address] = stored["made"]["index.html"]
    path.write_text(seal(json.dumps(stored)), encoding="utf-8")
    coin = folder / "content/coins/b.md"
    coin.write_text(coin.read_text(encoding="utf-8") + "More.\n", encoding="utf-8")
    assert not bring_up_to_date(folder, Reader.PUBLIC).has_errors
    assert outside.is_file()
    assert (folder / "content/coins/a.md").is_file()


def test_a_memory_that_is_a_folder_is_named_or_done_without(folder):
    root = bring_up_to_date(folder, Reader.PUBLIC).output
    wanted = read_all(root)
    for path in remembered(folder):
        path.unlink()
        (path / "inside").mkdir(parents=True)
        try:
            assert not bring_up_to_date(folder, Reader.PUBLIC).has_errors
        except CannotContinue as reason:
            assert path.name in str(reason)
        assert read_all(root) == wanted
        shutil.rmtree(path)
