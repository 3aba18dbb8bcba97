"""A photo replaced in a running preview gives the bytes of a clean build, and reads and plans nothing again."""

import os
import shutil
import signal
import subprocess
import sys
from pathlib import Path

import pytest
from PIL import Image, ImageDraw, ImageOps

from daterun import replacing
from daterun import workshop as module
from daterun.bundled import content_folder
from daterun.photos.memory import PhotoMemory
from daterun.press import faces
from daterun.problems import CannotContinue
from daterun.readers.reader import Reader
from daterun.records import stamps
from daterun.site import build
from daterun.workshop import Workshop
from editions import clean, read_all

COIN = "content/coins/ort/1891.md"
APART = 1 if int(os.environ.get("DATERUN_KILLS", "20")) > 20 else 3
"""How far apart the steps are at which a preview is killed; DATERUN_KILLS=200 asks for every one."""

# A preview's workshop that has built, and is killed at a step of taking up a replaced photo.
REPLACER = """
import os, signal, sys
from pathlib import Path
from daterun.readers.reader import Reader
from daterun.workshop import Workshop

folder, path, left = Path(sys.argv[1]), sys.argv[2], int(sys.argv[3])
workshop = Workshop(folder, Reader.PUBLIC)
workshop.build()
workshop.make_ready()
os.replace(folder / "new.png", folder / path)

def watch(event, args):
    global left
    writes = event == "open" and isinstance(args[1], str) and set("wax+") & set(args[1])
    if writes or event in ("os.rename", "os.remove", "os.mkdir", "os.rmdir"):
        left -= 1
        if left < 0:
            os.kill(os.getpid(), signal.SIGKILL)

sys.addaudithook(watch)
result = workshop.follow({path})
assert 0 < result.pages_written < result.pages_total, "this was no replacement"
workshop.make_ready()
"""

OBVERSE, REVERSE = (f"content/photos/ort/1891.{side}.png" for side in ("obverse", "reverse"))
CROPPED = "content/photos/ort/1892.obverse.png"
PARTED = "content/photos/ort/1901.obverse.png"


@pytest.fixture
def folder(catalogue_folder, base_files, coin, monkeypatch):
    monkeypatch.setattr(stamps, "JUST_NOW_NS", -(10**15))
    crop = "photos: {obverse: {crop: {x: 200, y: 200, diameter: 310}}}"
    made = catalogue_folder(
        {
            "content/catalogue.yaml": base_files["content/catalogue.yaml"]
            + "web: https://example.org/coins/\n",
            COIN: coin("1891", "grade: VF30", "kept: Quillon cupboard", "added: 2024-01-02", notes="Sharp."),
            "content/coins/ort/1892.md": coin("1892", "grade: VF20", crop, notes="See [[ort/1891 both]]."),
            "content/coins/ort/1900.md": coin("1900", "grade: EF40", notes="Weak; see [[ort/1891]]."),
            "content/coins/ort/1901.md": coin("1901", "parted: {on: 2020-01-01, how: sold}", notes="Sold."),
            "content/pages/on-orts.md": "---\ntitle: On orts\n---\n[[ort/1891 obverse]], then [[ort 1892]].\n",
        }
    )
    for path in (OBVERSE, REVERSE, CROPPED, PARTED):
        photograph(made / path, path)
    return made


def photograph(path: Path, name: str, size: int = 400, radius: int = 150) -> None:
    """Make a photo of a disc with a few figures on it; without a radius, of nothing but the figures."""
    path.parent.mkdir(parents=True, exist_ok=True)
    photo = Image.new("RGB", (size, size), "white")
    drawn = ImageDraw.Draw(photo)
    middle = size // 2
    if radius:
        box = (middle - radius, middle - radius, middle + radius, middle + radius)
        drawn.ellipse(box, fill=(130, 120, 100))
    drawn.text((middle - 50, middle - 10), name[-20:], fill="black")
    photo.save(path)


def without_whole_builds(monkeypatch):
    def refuse(*args):
        raise AssertionError("the whole edition was built")

    monkeypatch.setattr(module, "build_with", refuse)


def started(folder, reader=Reader.PUBLIC, is_ready=True):
    shop = Workshop(folder, reader)
    assert not shop.build().has_errors
    if is_ready:
        shop.make_ready()
    return shop


@pytest.mark.parametrize("is_ready", [True, False])
@pytest.mark.parametrize("reader", Reader)
def test_a_replaced_photo_is_brought_to_the_pages_that_show_it_alone(folder, reader, is_ready, monkeypatch):
    shop = started(folder, reader, is_ready)
    before = read_all(shop.root)
    without_whole_builds(monkeypatch)
    photograph(folder / OBVERSE, "another")
    result = shop.follow([OBVERSE])
    after = read_all(shop.root)
    assert after == clean(folder, reader)
    assert (result.pictures_made, result.pages_total) == (4, build(folder, reader).pages_total)
    written = {each for each in after if after[each] != before.get(each) and each.endswith(".html")}
    assert result.pages_written == len(written)
    assert "coins/ort/1901/index.html" not in written


@pytest.mark.parametrize("reader", Reader)
def test_photos_and_notes_follow_each_other(folder, reader, monkeypatch):
    shop = started(folder, reader)
    without_whole_builds(monkeypatch)

    def note(text):
        path = folder / COIN
        path.write_text(path.read_text(encoding="utf-8").rpartition("---\n")[0] + f"---\n{text}\n")
        shop.follow([COIN])

    def photo(path, **kinds):
        photograph(folder / path, f"{path} {kinds}", **kinds)
        shop.follow([path])

    steps = [
        lambda: photo(OBVERSE, radius=140),
        lambda: photo(OBVERSE, radius=120),
        lambda: note("Weak at the rim; see [[ort/1892]] and [[ort/1900]]."),
        lambda: photo(REVERSE, size=500, radius=155),
        lambda: photo(CROPPED),
        shop.make_ready,
        lambda: note("Toned."),
        lambda: photo(PARTED, radius=100),
        lambda: photo(OBVERSE, size=240, radius=70),
        lambda: photo(OBVERSE, size=1200, radius=520),
        lambda: note("Toned since; see [[ort 1891]]."),
        lambda: photo(OBVERSE),
    ]
    for step in steps:
        step()
        assert read_all(shop.root) == clean(folder, reader)
    later = build(folder, reader)
    assert (later.pages_written, later.pictures_made, later.removed, later.strangers) == (0, 0, (), ())


def test_what_a_program_laid_beside_a_photo_for_a_moment_is_passed_over(folder, monkeypatch):
    shop = started(folder)
    without_whole_builds(monkeypatch)
    photograph(folder / OBVERSE, "another")
    assert shop.follow([f"{OBVERSE}_tmp", OBVERSE]).pictures_made == 4
    assert read_all(shop.root) == clean(folder)


def test_what_lies_beside_a_photo_for_good_is_built_as_ever(folder):
    beside = f"{OBVERSE}.heic"
    (folder / beside).write_bytes(b"")
    shop = started(folder)
    photograph(folder / OBVERSE, "another")
    (folder / beside).unlink()
    result = shop.follow([beside, OBVERSE])
    assert result.problems == build(folder, Reader.PUBLIC).problems
    photograph(folder / OBVERSE, "one more")
    (folder / beside).write_bytes(b"")
    result = shop.follow([beside, OBVERSE])
    assert result.problems == build(folder, Reader.PUBLIC).problems != ()
    assert read_all(shop.root) == clean(folder)


def test_the_first_photo_again_gives_the_first_edition_again(folder, monkeypatch):
    shop = started(folder)
    before, first = read_all(shop.root), (folder / OBVERSE).read_bytes()
    without_whole_builds(monkeypatch)
    photograph(folder / OBVERSE, "another")
    shop.follow([OBVERSE])
    assert read_all(shop.root) != before
    (folder / OBVERSE).write_bytes(first)
    shop.follow([OBVERSE])
    assert read_all(shop.root) == before


def test_a_photo_saved_as_it_was_changes_nothing(folder, monkeypatch):
    shop = started(folder)
    before = read_all(shop.root)
    without_whole_builds(monkeypatch)
    (folder / OBVERSE).write_bytes((folder / OBVERSE).read_bytes())
    result = shop.follow([OBVERSE])
    assert (result.pages_written, result.pictures_made, result.removed) == (0, 0, ())
    assert read_all(shop.root) == before


def test_what_was_seen_of_photos_is_remembered_between_two_changes(folder, monkeypatch):
    shop = started(folder)
    without_whole_builds(monkeypatch)
    photograph(folder / OBVERSE, "another")
    shop.follow([OBVERSE])
    shop.make_ready()
    memory = PhotoMemory.load(folder / ".daterun/photos.json")
    found = memory.examine_all(folder, (OBVERSE, REVERSE, CROPPED, PARTED))
    assert not memory.changed  # nothing was looked at again
    shutil.rmtree(folder / ".daterun")
    fresh = PhotoMemory.load(folder / ".daterun/photos.json")
    assert found == fresh.examine_all(folder, (OBVERSE, REVERSE, CROPPED, PARTED))


def test_faces_are_kept_for_the_new_photo_and_let_go_of_the_old(folder, monkeypatch):
    photograph(folder / OBVERSE, "large", size=2400, radius=1000)
    shop = started(folder)
    without_whole_builds(monkeypatch)
    faces = folder / ".daterun/faces"
    (before,) = faces.iterdir()
    photograph(folder / OBVERSE, "larger", size=2400, radius=1050)
    shop.follow([OBVERSE])
    assert read_all(shop.root) == clean(folder)
    shop.make_ready()
    (after,) = faces.iterdir()
    assert after != before
    kept = after.read_bytes()
    after.unlink()
    photograph(folder / REVERSE, "other")
    shop.follow([REVERSE])
    assert read_all(shop.root) == clean(folder)
    assert after.read_bytes() == kept


def test_what_a_picture_carries_is_looked_at(folder, monkeypatch):
    shop = started(folder)
    with monkeypatch.context() as patched:
        encode = faces.encode

        def talkative(picture, picture_format):
            data = encode(picture, picture_format)
            said = b"from the Quillon cupboard"
            return data[:2] + b"\xff\xfe" + (len(said) + 2).to_bytes(2, "big") + said + data[2:]

        patched.setattr(faces, "encode", talkative)
        photograph(folder / OBVERSE, "another")
        shop.follow([OBVERSE])
    assert read_all(shop.root) == clean(folder)


def spoilt(path):
    path.write_bytes(path.read_bytes()[:500])


OTHER = {
    "a photo that is broken": lambda folder: spoilt(folder / OBVERSE),
    "a photo without a coin": lambda folder: photograph(folder / OBVERSE, "nothing", radius=0),
    "the photo of another side": lambda folder: shutil.copy(folder / REVERSE, folder / OBVERSE),
    "the photo of another coin": lambda folder: shutil.copy(folder / CROPPED, folder / OBVERSE),
    "no photo": lambda folder: (folder / OBVERSE).unlink(),
    "a crop that no longer fits": lambda folder: photograph(folder / CROPPED, "small", size=240, radius=90),
}


@pytest.mark.parametrize("change", OTHER.values(), ids=OTHER)
def test_whatever_else_a_photo_changes_is_built_as_ever(folder, change):
    shop = started(folder)
    stood = read_all(shop.root)
    path = CROPPED if "crop" in next(name for name, each in OTHER.items() if each is change) else OBVERSE
    whole = (folder / path).read_bytes()
    change(folder)
    result = shop.follow([path])
    assert result.problems == build(folder, Reader.PUBLIC).problems
    assert read_all(shop.root) == (stood if result.has_errors else clean(folder))
    (folder / path).write_bytes(whole)
    shop.follow([path])
    shop.make_ready()
    assert read_all(shop.root) == clean(folder) == stood


def test_a_new_photo_is_built_as_ever(folder):
    shop = started(folder)
    path = "content/photos/ort/1900.obverse.png"
    photograph(folder / path, "new")
    shop.follow([path])
    assert read_all(shop.root) == clean(folder)


def test_a_photo_that_is_found_again_is_built_as_ever(folder):
    photograph(folder / OBVERSE, "nothing", radius=0)
    shop = started(folder)
    photograph(folder / OBVERSE, "found")
    result = shop.follow([OBVERSE])
    assert not any(each.rule == "no disc" for each in result.problems)
    assert read_all(shop.root) == clean(folder)


@pytest.mark.skipif(sys.platform == "win32", reason="links need rights there")
def test_a_link_in_place_of_a_photo_is_built_as_ever(folder, tmp_path):
    shop = started(folder)
    photograph(tmp_path / "elsewhere.png", "elsewhere")
    (folder / OBVERSE).unlink()
    (folder / OBVERSE).symlink_to(tmp_path / "elsewhere.png")
    shop.follow([OBVERSE])
    assert read_all(shop.root) == clean(folder)


def test_a_photo_that_changes_again_meanwhile_is_built_as_ever(folder, monkeypatch):
    shop = started(folder)
    stamp_of, stamps_seen = replacing.stamp_of, []

    def restless(path):
        stamps_seen.append(path)
        return (*stamp_of(path)[:2], len(stamps_seen))

    monkeypatch.setattr(replacing, "stamp_of", restless)
    built = []
    build_with = module.build_with
    monkeypatch.setattr(module, "build_with", lambda *args: built.append(1) or build_with(*args))
    photograph(folder / OBVERSE, "another")
    shop.follow([OBVERSE])
    assert built
    assert read_all(shop.root) == clean(folder)


def test_a_build_by_another_process_meanwhile_is_seen(folder):
    shop = started(folder)
    photograph(folder / REVERSE, "another")
    build(folder, Reader.PUBLIC)
    photograph(folder / OBVERSE, "another one")
    shop.follow([OBVERSE])
    assert read_all(shop.root) == clean(folder)


def test_a_file_of_somebody_elses_is_not_written_over(folder, monkeypatch):
    shop = started(folder)
    first = (folder / OBVERSE).read_bytes()
    photograph(folder / OBVERSE, "another")
    shop.follow([OBVERSE])
    mine = {each: each.read_bytes() for each in shop.root.rglob("*-48.jpg")}
    (folder / OBVERSE).write_bytes(first)
    shop.follow([OBVERSE])
    gone = [each for each in mine if not each.exists()]
    assert len(gone) == 1
    gone[0].parent.mkdir(exist_ok=True)
    gone[0].write_bytes(b"somebody else's")
    built = []
    build_with = module.build_with
    monkeypatch.setattr(module, "build_with", lambda *args: built.append(1) or build_with(*args))
    photograph(folder / OBVERSE, "another")
    with pytest.raises(CannotContinue, match="is there already"):
        shop.follow([OBVERSE])
    assert built
    assert gone[0].read_bytes() == b"somebody else's"


@pytest.mark.skipif(sys.platform == "win32", reason="Windows has no SIGKILL")
def test_a_preview_killed_at_any_step_of_taking_up_a_photo_bars_no_build(folder, tmp_path):
    photograph(folder / "new.png", "another", radius=140)
    build(folder, Reader.PUBLIC)
    shutil.copytree(folder, tmp_path / "before")
    first = (folder / OBVERSE).read_bytes()
    shutil.copy(folder / "new.png", folder / OBVERSE)
    expected = clean(folder)
    (folder / OBVERSE).write_bytes(first)
    steps = 0
    while True:
        command = [sys.executable, "-c", REPLACER, str(folder), OBVERSE, str(steps)]
        done = subprocess.run(command, capture_output=True, text=True, timeout=60, check=False)
        if not done.returncode:
            break
        assert done.returncode == -signal.SIGKILL, done.stderr
        assert not build(folder, Reader.PUBLIC).has_errors
        assert read_all(folder / "output/public") == expected
        again = folder.with_name(f"again-{steps}")
        shutil.copytree(tmp_path / "before", again)
        folder = again
        steps += APART
    assert steps > 20


@pytest.mark.parametrize("reader", Reader)
def test_photos_of_the_demo_are_replaced_wherever_they_are_shown(tmp_path, reader, monkeypatch):
    monkeypatch.setattr(stamps, "JUST_NOW_NS", -(10**15))
    folder = tmp_path / "demo"
    shutil.copytree(content_folder(), folder / "content", ignore=shutil.ignore_patterns("photos"))
    settings = folder / "content/catalogue.yaml"
    settings.write_text(
        settings.read_text(encoding="utf-8") + "web: https://example.org/\n", encoding="utf-8"
    )
    photos = sorted((content_folder() / "photos").rglob("*.*"))[::9]
    paths = [f"content/{each.relative_to(content_folder()).as_posix()}" for each in photos]
    for photo, path in zip(photos, paths, strict=True):
        (folder / path).parent.mkdir(parents=True, exist_ok=True)
        with Image.open(photo) as large:
            large.reduce(max(large.size) // 240).save(folder / path, quality=90)
    shop = started(folder, reader)
    without_whole_builds(monkeypatch)
    for path in paths:
        with Image.open(folder / path) as photo:
            other = ImageOps.mirror(photo).crop((0, 0, photo.width - 2, photo.height - 2))
        other.save(folder / path, quality=90)
        shop.follow([path])
    assert read_all(shop.root) == clean(folder, reader)
