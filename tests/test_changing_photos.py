"""Photos that are replaced while a build is at work: each picture is wholly of the one or of the other."""

import os
from pathlib import Path

import pytest
from PIL import Image, ImageDraw

from daterun.readers.reader import Reader
from daterun.site import build
from editions import read_all

STAGES = ("photos", "checking", "pages", "pictures", "writing")


@pytest.fixture
def folder(catalogue_folder, coin):
    made = catalogue_folder({"content/coins/a.md": coin("1891"), "content/coins/b.md": coin("1900")})
    photograph(made, "a", 800, "grey")
    photograph(made, "b", 700, "brown")
    return made


def photograph(folder: Path, coin_id: str, width: int, colour: str) -> None:
    """Make a photo of a disc in the place of the one that is there."""
    path = folder / f"content/photos/{coin_id}.obverse.jpg"
    path.parent.mkdir(exist_ok=True)
    photo = Image.new("RGB", (width, width), "white")
    ImageDraw.Draw(photo).ellipse((60, 60, width - 60, width - 60), fill=colour)
    photo.save(path.with_name("new.jpg"))
    path.with_name("new.jpg").replace(path)


def replacing(folder: Path, wanted: str):
    """Replace a photo as soon as a build is in a stage."""
    done = []

    def progress(stage: str, _: int, __: int) -> None:
        if stage == wanted and not done:
            done.append(stage)
            photograph(folder, "a", 900, "black")

    return progress


@pytest.mark.parametrize("stage", STAGES)
@pytest.mark.parametrize("seen", [False, True], ids=["seen for the first time", "known already"])
def test_a_photo_replaced_during_a_build_gives_no_mix(folder, tmp_path, stage, seen):
    if seen:  # then no picture of it is made ahead
        build(folder, Reader.KEEPER)
    before = read_all(build(folder, Reader.PUBLIC, tmp_path / "before").output)
    result = build(folder, Reader.PUBLIC, progress=replacing(folder, stage))
    photograph(folder, "a", 900, "black")
    wanted = read_all(build(folder, Reader.PUBLIC, tmp_path / "after").output)
    left = read_all(result.output)
    assert [
        address for address in left if left[address] not in (before.get(address), wanted.get(address))
    ] == []
    assert result.has_errors or left in (before, wanted)
    assert {each.place.path for each in result.problems if each.is_error} <= {"content/photos/a.obverse.jpg"}
    assert not build(folder, Reader.PUBLIC).has_errors
    assert read_all(folder / "output/public") == wanted


def test_a_photo_replaced_before_its_pictures_are_made_is_named(folder, tmp_path):
    build(folder, Reader.KEEPER)
    result = build(folder, Reader.PUBLIC, progress=replacing(folder, "checking"))
    (error,) = [each for each in result.problems if each.is_error]
    assert "it was changed while this build was at work; build again" in error.sentence
    assert not (result.output / "index.html").exists()


def test_a_photo_of_other_bytes_with_the_same_stamp_is_noticed_and_looked_at_again(folder):
    path = folder / "content/photos/a.obverse.jpg"
    os.utime(path, ns=(10**18, 10**18))
    build(folder, Reader.KEEPER)
    path.write_bytes(path.read_bytes()[:-2] + b"\xff\xd9")
    changed = bytearray(path.read_bytes())
    changed[14] = 2  # another resolution
    path.write_bytes(changed)
    os.utime(path, ns=(10**18, 10**18))
    assert build(folder, Reader.PUBLIC).has_errors
    assert not build(folder, Reader.PUBLIC).has_errors
