"""What the store of pictures for print keeps, and what it takes away."""

import io
import tempfile
from pathlib import Path

import pytest
from PIL import Image

from daterun.pages.pictures import PRINTED, order_pictures
from daterun.photos.copied import copied
from daterun.press.printstore import PrintStore
from daterun.problems import CannotContinue

PHOTO = Image.linear_gradient("L").resize((300, 300)).convert("RGB")


def key_of(image):
    """Give the key by which orders name a photo."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "a.png"
        image.save(path)
        with copied(path) as (_, key):
            return key


KEY = key_of(PHOTO)


@pytest.fixture
def store(tmp_path):
    return PrintStore(tmp_path / "print")


@pytest.fixture
def photo(tmp_path):
    PHOTO.save(tmp_path / "a.png")
    return {KEY: (tmp_path / "a.png", "a.png")}


def order(width):
    return order_pictures(KEY, 300, 300, None, (width,), PRINTED)[0]


def make(store, photo, *widths):
    return store.make([order(each) for each in widths], photo, lambda done, total: None)


def kept(store):
    return sorted(int(each.stem.rpartition("-")[2]) for each in (store.root / "pictures").glob("*/*.jpg"))


def test_a_picture_is_made_once(store, photo):
    assert make(store, photo, 100, 50) == (2, ())
    assert make(store, photo, 100, 50, 25) == (1, ())


def test_what_no_print_used_the_last_time_is_taken_away(store, photo):
    make(store, photo, 100, 50, 25)
    store.note("club-catalogue", [order(100).address], is_whole=True)
    store.note("keeper-schedule", [order(50).address], is_whole=True)
    assert store.prune() == 1
    assert kept(store) == [50, 100]
    store.note("keeper-schedule", [], is_whole=True)
    store.prune()
    assert kept(store) == [100]


def test_a_choice_of_coins_takes_nothing_from_the_whole(store, photo):
    make(store, photo, 100, 50, 25)
    store.note("club-catalogue", [order(100).address, order(50).address], is_whole=True)
    store.note("club-catalogue", [order(25).address], is_whole=False)
    assert store.prune() == 0
    store.note("club-catalogue", [order(100).address], is_whole=True)
    store.prune()
    assert kept(store) == [100]


def test_what_another_program_made_is_made_again_and_taken_away(store, photo, monkeypatch):
    make(store, photo, 100)
    store.note("club-catalogue", [order(100).address], is_whole=True)
    monkeypatch.setattr("daterun.press.printstore.program_of_pictures", lambda: "another")
    other = PrintStore(store.under)
    assert make(other, photo, 100) == (1, ())
    other.note("club-catalogue", [order(100).address], is_whole=True)
    other.prune()
    assert [each.name for each in store.under.iterdir()] == ["another"]
    assert kept(other) == [100]


def test_half_a_picture_is_kept_for_the_print_at_work_on_it_and_else_taken_away(store):
    folder = store.root / order(100).address
    folder.parent.mkdir(parents=True)
    mine = folder.with_name(f".{folder.name}.daterun-new")
    lost = folder.with_name(".lost-9.jpg.daterun-new")
    for each in (mine, lost):
        each.write_bytes(b"half")
    store.note("club-catalogue", [order(100).address], is_whole=True)
    assert store.prune() == 1
    assert mine.exists() and not lost.exists()


@pytest.mark.parametrize("broken", [b"", b"{}", b"[1]", b"\xff"])
def test_a_broken_note_counts_as_none(store, photo, broken):
    make(store, photo, 100, 50)
    store.note("club-catalogue", [order(50).address], is_whole=True)
    (store.root / "used" / "keeper-catalogue.json").write_bytes(broken)
    store.note("keeper-catalogue", [order(100).address], is_whole=False)
    assert store.prune() == 0


def test_where_nothing_was_ever_printed_there_is_nothing_to_take_away(store):
    assert store.prune() == 0


def test_a_place_that_cannot_be_written_is_told(tmp_path):
    (tmp_path / "print").write_bytes(b"in the way")
    with pytest.raises(CannotContinue, match="cannot be written"):
        PrintStore(tmp_path / "print").note("club-catalogue", [], is_whole=True)


def test_a_picture_for_print_is_a_plain_jpeg_with_nothing_beside_its_pixels(store, photo):
    make(store, photo, 100)
    with Image.open(io.BytesIO((store.root / order(100).address).read_bytes())) as image:
        assert image.format == "JPEG" and not image.info.get("progressive")
        assert image.size == (100, 100)
        assert not image.getexif() and "icc_profile" not in image.info
