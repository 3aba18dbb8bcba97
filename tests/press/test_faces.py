"""The faces on plates are kept, and one made again is the same."""

import io

import pytest
from PIL import Image, ImageDraw

from daterun.pages.pictures import FACE_PX, order_face, order_pictures
from daterun.photos.memory import PhotoMemory
from daterun.press.faces import FACES_PX, HALF_PX, Faces, FaceStore
from daterun.problems import CannotContinue
from daterun.readers.reader import Reader
from daterun.site import build

COIN = "---\nseries: ort\ndate: 1891\ngrade: VF20\n---\n"

FILES = {
    "content/catalogue.yaml": "title: One coin\n",
    "content/issuers/vessmark.yaml": "name: Vessmark\nmoney: {ort: 24 skilling}\n",
    "content/series/vessmark/ort.yaml": "name: Ort\nissuer: vessmark\nface: 1 ort\n"
    "standards: [{dates: 1891–1892, metal: silver, fineness: .750, weight: 9 g, source: Law}]\n"
    "types: [{id: one, dates: 1891–1892, obverse: {legend: A}, reverse: {legend: B}}]\n"
    "issues: {source: Reports, struck: {1891: 10, 1892: 20}}\n",
    "content/coins/one.md": COIN,
}


@pytest.fixture
def folder(tmp_path):
    for name, text in FILES.items():
        path = tmp_path / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    for nth, side in enumerate(("obverse", "reverse")):
        image = Image.effect_noise((1300, 1200), 12).convert("RGB")
        image = Image.blend(image, Image.new("RGB", image.size, (240, 238, 234)), 0.8)
        pen = ImageDraw.Draw(image)
        pen.ellipse((150, 100, 1150, 1100), fill=(120, 112 + nth, 90))
        pen.rectangle((500, 400 + 60 * nth, 800, 600), fill=(90, 80, 60))
        path = tmp_path / f"content/photos/one.{side}.jpg"
        path.parent.mkdir(exist_ok=True)
        image.save(path, quality=90)
    return tmp_path


def plates(folder):
    return {path.name: path.read_bytes() for path in (folder / "output/public/pictures/plates").iterdir()}


def faces(folder):
    return {path.name: path.read_bytes() for path in (folder / ".daterun/faces").iterdir()}


def regraded(folder):
    """Build, then again with another grade, which stands on the plate."""
    build(folder, Reader.PUBLIC)
    (folder / "content/coins/one.md").write_text(COIN.replace("VF20", "VF30"), encoding="utf-8")


def test_a_build_keeps_the_face_of_each_side(folder):
    build(folder, Reader.PUBLIC)
    kept = faces(folder)
    assert len(kept) == 2
    for data in kept.values():
        with Image.open(io.BytesIO(data)) as face:
            assert face.size == (HALF_PX, FACES_PX)
            assert not face.getexif() and "icc_profile" not in face.info


@pytest.mark.parametrize("lost", ["kept", "lost", "broken"])
def test_a_plate_drawn_again_is_that_of_a_clean_build_whether_its_faces_were_kept_or_not(folder, lost):
    regraded(folder)
    for path in (folder / ".daterun/faces").iterdir():
        if lost == "lost":
            path.unlink()
        elif lost == "broken":
            path.write_bytes(path.read_bytes()[:500])
    build(folder, Reader.PUBLIC)
    again = plates(folder)
    assert len(again) == 1
    assert len(faces(folder)) == 2
    for path in sorted((folder / "output").rglob("*"), reverse=True):
        path.unlink() if path.is_file() else path.rmdir()
    for path in sorted((folder / ".daterun").rglob("*"), reverse=True):
        path.unlink() if path.is_file() else path.rmdir()
    build(folder, Reader.PUBLIC)
    assert plates(folder) == again


def test_the_face_of_a_photo_that_was_replaced_is_removed(folder):
    build(folder, Reader.PUBLIC)
    before = faces(folder)
    path = folder / "content/photos/one.obverse.jpg"
    with Image.open(path) as image:
        image.transpose(Image.Transpose.FLIP_LEFT_RIGHT).save(path, quality=90)
    build(folder, Reader.PUBLIC)
    after = faces(folder)
    assert len(after) == 2
    assert len(before.keys() & after.keys()) == 1


def test_where_the_photo_is_gone_the_picture_serves(folder):
    build(folder, Reader.PUBLIC)
    path = "content/photos/one.obverse.jpg"
    seen = PhotoMemory.load(folder / ".daterun/photos.json").examine_all(folder, [path])[path]
    orders = order_pictures(seen.key, seen.width_px, seen.height_px, seen.disc, (1600, 640, 160), "jpeg")
    store = FaceStore(folder / "elsewhere")
    photos = {seen.key: (folder / "gone.jpg", "gone.jpg")}
    face = Faces(folder / "output/public", store, orders, photos).face_of(orders[-1].address, True)
    with Image.open(io.BytesIO(face)) as image:
        assert image.size == (HALF_PX, FACES_PX)
    assert not (folder / "elsewhere").exists()


def test_a_picture_no_wider_than_a_face_has_none():
    orders = order_pictures("0" * 32, 900, FACE_PX, None, (1600, 640), "jpeg")
    assert order_face(orders) is None
    wider = order_face(order_pictures("0" * 32, 900, FACE_PX + 1, None, (1600, 640), "jpeg"))
    assert wider is not None
    assert wider.steps == (FACE_PX + 1,)


@pytest.mark.parametrize("left", [None, b"", b"\xff\xd8\xff"])
def test_a_picture_taken_away_or_spoilt_meanwhile_is_named(tmp_path, left):
    if left is not None:
        (tmp_path / "gone.jpg").write_bytes(left)
    with pytest.raises(CannotContinue, match=r"gone\.jpg"):
        Faces(tmp_path).face_of("gone.jpg", True)


def test_a_face_is_kept_apart_for_each_outline(folder):
    build(folder, Reader.PUBLIC)
    path = "content/photos/one.obverse.jpg"
    seen = PhotoMemory.load(folder / ".daterun/photos.json").examine_all(folder, [path])[path]
    orders = order_pictures(seen.key, seen.width_px, seen.height_px, seen.disc, (1600, 640, 160), "jpeg")
    faces_shown = Faces(
        folder / "output/public", FaceStore(folder / "apart"), orders, {seen.key: (folder / path, path)}
    )
    shown = {is_round: faces_shown.face_of(orders[-1].address, is_round) for is_round in (True, False)}
    assert shown[True] != shown[False]
    assert sorted(each.read_bytes()[:-16] for each in (folder / "apart").iterdir()) == sorted(shown.values())
    assert shown[True] in {each[:-16] for each in faces(folder).values()}
