"""Pictures are made ahead of the pages that show them, and only by those who want them."""

import errno
import io
import os
from pathlib import Path

import pytest
from PIL import Image, ImageDraw

from daterun.pages.pictures import order_pictures
from daterun.photos.memory import PhotoMemory
from daterun.press import ahead as making_ahead
from daterun.press import faces
from daterun.press import pictures as making
from daterun.press.ahead import Ahead
from daterun.press.faces import FaceStore
from daterun.press.fingerprints import mark_picture
from daterun.press.inspection import Inspection
from daterun.press.output import digest_of, open_output
from daterun.press.pictures import make_pictures
from daterun.press.searching import Search
from daterun.readers.reader import Reader
from daterun.records.catalogue import read_catalogue
from daterun.records.series import Side
from daterun.site import build

WIDTHS = (1600, 640, 160)
LONG_AGO = 1_500_000_000

FILES = {
    "content/catalogue.yaml": "title: Two coins\n",
    "content/issuers/vessmark.yaml": "name: Vessmark\nmoney: {ort: 24 skilling}\n",
    "content/series/vessmark/ort.yaml": "name: Ort\nissuer: vessmark\nface: 1 ort\n"
    "standards: [{dates: 1891–1892, metal: silver, fineness: .750, weight: 9 g, source: Law}]\n"
    "types: [{id: one, dates: 1891–1892, obverse: {legend: A}, reverse: {legend: B}}]\n"
    "issues: {source: Reports, struck: {1891: 10, 1892: 20}}\n",
    "content/coins/one.md": "---\nseries: ort\ndate: 1891\n---\n",
    "content/coins/two.md": "---\nseries: ort\ndate: 1892\n---\n",
}

PARTED = "---\nseries: ort\ndate: 1892\nparted: {on: 2020-01-01, how: sold}\n---\n"
CROPPED = "---\nseries: ort\ndate: 1892\nphotos: {obverse: {crop: {x: 300, y: 200, diameter: 120}}}\n---\n"


def photo(shade=120, size=(900, 700), orientation=1):
    image = Image.effect_noise(size, 12).convert("RGB")
    image = Image.blend(image, Image.new("RGB", size, (240, 238, 234)), 0.8)
    ImageDraw.Draw(image).ellipse((180, 80, 700, 600), fill=(shade, shade - 8, 90))
    exif = Image.Exif()
    exif[0x0112] = orientation
    out = io.BytesIO()
    image.save(out, "JPEG", quality=90, exif=exif)
    return out.getvalue()


@pytest.fixture
def folder(tmp_path):
    for name, text in FILES.items():
        path = tmp_path / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    photos = tmp_path / "content/photos"
    photos.mkdir()
    (photos / "one.obverse.jpg").write_bytes(photo())
    (photos / "two.obverse.jpg").write_bytes(photo(90, orientation=6))
    return tmp_path


def examined(folder, with_parted=False):
    """Examine both photos and make their pictures ahead; give what waits, and the photos."""
    catalogue, _ = read_catalogue(folder)
    claimed = {(name, Side.OBVERSE): f"content/photos/{name}.obverse.jpg" for name in ("one", "two")}
    store = FaceStore(folder / ".daterun/faces")
    ahead = Ahead(folder / ".daterun/public.ahead", folder / "output/public", store, with_parted)
    memory = PhotoMemory.load(folder / ".daterun/photos.json")
    photos = memory.examine_all(folder, sorted(claimed.values()), use=ahead.making(catalogue, claimed))
    return ahead, photos


def edition_of(folder, orders):
    """Open the edition, of which these pictures are expected."""
    edition = open_output(folder / "output/public", "public", folder / ".daterun/public.json")
    for order in orders:
        edition.expect(order.address, mark_picture(order), "it is new")
    return edition


def handed_over(folder, ahead, orders):
    """Have pictures put into the edition; give those that were, by their addresses."""
    edition = edition_of(folder, orders)
    inspection = Inspection(Search(()), edition)
    given = [each.address for each in orders if ahead.hand_over(each, inspection)]
    assert inspection.finds == []
    found = {each: (edition.root / each).read_bytes() for each in given}
    for each, data in found.items():
        made = edition.made[each]
        assert (made.digest, made.size) == (digest_of(data), len(data))
        assert made.time_ns == (edition.root / each).stat().st_mtime_ns
    return found


def orders_of(photo, disc=None):
    return order_pictures(photo.key, photo.width_px, photo.height_px, disc or photo.disc, WIDTHS, "jpeg")


def made_anew(folder, photo, orders):
    made = {}
    found = {photo.key: (folder / photo.path, photo.path)}
    assert make_pictures(orders, found, made.__setitem__) == ()
    return made


def test_a_picture_made_ahead_has_the_bytes_of_one_made_later(folder):
    ahead, photos = examined(folder)
    for each in photos.values():
        assert each.disc is not None
        orders = orders_of(each)
        later = made_anew(folder, each, orders)
        assert handed_over(folder, ahead, orders) == later


def test_a_picture_made_ahead_is_handed_over_once(folder):
    ahead, photos = examined(folder)
    orders = orders_of(photos["content/photos/one.obverse.jpg"])[:1]
    assert len(handed_over(folder, ahead, orders)) == 1
    assert handed_over(folder, ahead, orders) == {}


def test_a_crop_given_by_the_keeper_is_obeyed_ahead(folder):
    (folder / "content/coins/two.md").write_text(CROPPED, encoding="utf-8")
    ahead, photos = examined(folder)
    two = photos["content/photos/two.obverse.jpg"]
    from daterun.photos.photo import Disc

    cropped = orders_of(two, Disc(300.0, 200.0, 120.0))
    assert handed_over(folder, ahead, orders_of(two)) == {}
    assert len(handed_over(folder, ahead, cropped)) == len(cropped)


def test_of_a_parted_coin_pictures_are_made_ahead_for_the_keeper_alone(folder):
    (folder / "content/coins/two.md").write_text(PARTED, encoding="utf-8")
    ahead, photos = examined(folder)
    two = photos["content/photos/two.obverse.jpg"]
    assert handed_over(folder, ahead, orders_of(two)) == {}
    (folder / ".daterun/photos.json").unlink(missing_ok=True)
    ahead, photos = examined(folder, with_parted=True)
    assert len(handed_over(folder, ahead, orders_of(two))) == len(orders_of(two))


def test_what_lies_in_the_edition_already_is_not_made_ahead(folder):
    ahead, photos = examined(folder)
    one = photos["content/photos/one.obverse.jpg"]
    small, *others = orders_of(one)
    place = folder / "output/public" / small.address
    place.parent.mkdir(parents=True)
    place.write_bytes(b"there")
    ahead.clear()
    ahead, _ = examined(folder)
    given = handed_over(folder, ahead, [small, *others])
    assert sorted(given) == sorted(each.address for each in others)


def left_by(folder, spoil=lambda path: None):
    """Have pictures made ahead that no build took, and a new build come upon them."""
    _, photos = examined(folder)
    for path in (folder / ".daterun/public.ahead").iterdir():
        spoil(path)
    orders = orders_of(photos["content/photos/one.obverse.jpg"])
    (folder / ".daterun/photos.json").unlink(missing_ok=True)
    catalogue, _ = read_catalogue(folder)
    ahead = Ahead(
        folder / ".daterun/public.ahead", folder / "output/public", FaceStore(folder / ".daterun/faces")
    )
    ahead.making(catalogue, {})
    return ahead, photos, orders


def test_what_an_earlier_build_left_is_taken_where_it_is_as_it_was_made(folder):
    ahead, photos, orders = left_by(folder)
    later = made_anew(folder, photos["content/photos/one.obverse.jpg"], orders)
    assert handed_over(folder, ahead, orders) == later


def test_what_a_build_that_was_cut_short_left_is_not_made_again(folder, monkeypatch):
    examined(folder)
    left = {each.name: each.stat().st_mtime_ns for each in (folder / ".daterun/public.ahead").iterdir()}
    (folder / ".daterun/photos.json").unlink(missing_ok=True)
    monkeypatch.setattr(faces, "cut", lambda opened, orders: pytest.fail("made again"))
    ahead, photos = examined(folder)
    assert {
        each.name: each.stat().st_mtime_ns for each in (folder / ".daterun/public.ahead").iterdir()
    } == left
    orders = orders_of(photos["content/photos/one.obverse.jpg"])
    assert len(handed_over(folder, ahead, orders)) == len(orders)


@pytest.mark.parametrize("kept", [0, 500])
def test_what_an_earlier_build_left_spoilt_is_not_taken(folder, kept):
    ahead, _, orders = left_by(folder, lambda path: path.write_bytes(path.read_bytes()[:kept]))
    assert handed_over(folder, ahead, orders) == {}


def test_what_a_killed_build_left_half_written_is_passed_over(folder):
    ahead, _, orders = left_by(folder, lambda path: path.rename(path.with_name(f".{path.name}.1.2")))
    assert handed_over(folder, ahead, orders) == {}
    ahead.clear()
    assert not (folder / ".daterun/public.ahead").exists()


def test_where_it_cannot_be_moved_a_picture_made_ahead_is_written(folder, monkeypatch):
    ahead, photos = examined(folder)
    one = photos["content/photos/one.obverse.jpg"]
    later = made_anew(folder, one, orders_of(one))
    honest = Path.replace

    def on_two_disks(path, target):
        if path.parent.name == "public.ahead":
            raise OSError(errno.EXDEV, "on two disks")
        return honest(path, target)

    monkeypatch.setattr(Path, "replace", on_two_disks)
    assert handed_over(folder, ahead, orders_of(one)) == later


def test_a_picture_that_lies_in_the_edition_as_it_is_made_is_not_touched(folder):
    ahead, photos = examined(folder)
    orders = orders_of(photos["content/photos/one.obverse.jpg"])
    for address, data in made_anew(folder, photos["content/photos/one.obverse.jpg"], orders).items():
        place = folder / "output/public" / address
        place.parent.mkdir(parents=True, exist_ok=True)
        place.write_bytes(data)
        os.utime(place, (LONG_AGO, LONG_AGO))
    assert len(handed_over(folder, ahead, orders)) == len(orders)
    assert all((folder / "output/public" / each.address).stat().st_mtime == LONG_AGO for each in orders)


def test_a_picture_that_carries_more_than_its_pixels_is_not_made_ahead(folder, monkeypatch):
    honest = faces.encode
    monkeypatch.setattr(faces, "encode", lambda picture, of: honest(picture, of) + b"camera of R. Tarn")
    ahead, photos = examined(folder)
    assert handed_over(folder, ahead, orders_of(photos["content/photos/one.obverse.jpg"])) == {}


def test_what_is_not_asked_for_is_thrown_away(folder):
    ahead, _ = examined(folder)
    assert list((folder / ".daterun/public.ahead").iterdir())
    ahead.clear()
    assert not (folder / ".daterun/public.ahead").exists()


def decodings(monkeypatch):
    """Count how often pictures are made of a photo that had to be decoded again."""
    seen = []
    honest = making.decode

    def counting(image, scale):
        seen.append(scale)
        return honest(image, scale)

    monkeypatch.setattr(making, "decode", counting)
    return seen


def files_of(folder):
    root = folder / "output/public"
    return {
        path.relative_to(root).as_posix(): path.read_bytes() for path in root.rglob("*") if path.is_file()
    }


def test_a_first_build_decodes_each_photo_once_and_leaves_nothing_behind(folder, monkeypatch):
    again = decodings(monkeypatch)
    result = build(folder, Reader.PUBLIC)
    assert result.problems == ()
    assert again == []
    assert sorted(each.name for each in (folder / ".daterun").iterdir() if each.is_dir()) == []


def test_a_build_that_makes_nothing_ahead_gives_the_same_bytes(folder, monkeypatch):
    build(folder, Reader.PUBLIC)
    first = files_of(folder)
    assert sum(name.endswith(".jpg") for name in first) >= 6
    for path in sorted((folder / "output").rglob("*"), reverse=True):
        path.unlink() if path.is_file() else path.rmdir()
    for path in (folder / ".daterun").iterdir():
        path.unlink()
    monkeypatch.setattr(making_ahead, "order_pictures", lambda *asked: ())
    again = decodings(monkeypatch)
    build(folder, Reader.PUBLIC)
    assert again == [1, 1]
    assert files_of(folder) == first


def test_a_build_that_errors_stopped_leaves_the_pictures_for_the_next(folder, monkeypatch):
    again = decodings(monkeypatch)
    sound = (folder / "content/coins/one.md").read_text(encoding="utf-8")
    (folder / "content/coins/one.md").write_text(sound.replace("1891", "1991"), encoding="utf-8")
    assert build(folder, Reader.PUBLIC).has_errors
    assert not (folder / "output").exists()
    (folder / "content/coins/one.md").write_text(sound, encoding="utf-8")
    assert not build(folder, Reader.PUBLIC).has_errors
    assert again == []


@pytest.mark.parametrize("kept", [0, 1, 2])
def test_a_picture_lost_is_made_as_it_was(folder, kept):
    build(folder, Reader.PUBLIC)
    first = files_of(folder)
    pictures = sorted(name for name in first if name.endswith(".jpg") and "plates" not in name)
    for name in pictures[kept::3]:
        Path(folder / "output/public" / name).unlink()
    build(folder, Reader.PUBLIC)
    assert files_of(folder) == first


def test_a_renamed_or_touched_photo_makes_no_picture_again(folder, monkeypatch):
    build(folder, Reader.PUBLIC)
    first = files_of(folder)
    again = decodings(monkeypatch)
    monkeypatch.setattr(faces, "cut", lambda opened, orders: pytest.fail("made ahead again"))
    photos = folder / "content/photos"
    (photos / "one.obverse.jpg").rename(photos / "other.jpg")
    (photos / "two.obverse.jpg").touch()
    (folder / "content/coins/one.md").write_text(
        "---\nseries: ort\ndate: 1891\nphotos: {obverse: {file: other.jpg}}\n---\n", encoding="utf-8"
    )
    result = build(folder, Reader.PUBLIC)
    assert (result.pictures_made, again) == (0, [])
    assert {name: data for name, data in files_of(folder).items() if name.endswith(".jpg")} == {
        name: data for name, data in first.items() if name.endswith(".jpg")
    }
