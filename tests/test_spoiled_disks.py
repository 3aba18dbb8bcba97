"""Disks that are full or may not be written to, and files that may not grow: real ones, where they can be had."""

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from PIL import Image, ImageDraw

from daterun.problems import CannotContinue
from daterun.readers.reader import Reader
from daterun.site import build
from editions import read_all

POSIX = pytest.mark.skipif(
    sys.platform == "win32", reason="Windows mounts no such disk and sets no such limit"
)

LIMITED = """
import resource, sys
from pathlib import Path
from daterun.problems import CannotContinue
from daterun.readers.reader import Reader
from daterun.site import build
resource.setrlimit(resource.RLIMIT_FSIZE, (int(sys.argv[2]), int(sys.argv[2])))
try:
    build(Path(sys.argv[1]), Reader.PUBLIC)
except CannotContinue as reason:
    print(reason)
"""


@pytest.fixture
def folder(catalogue_folder, coin):
    kept = "kept: Quillon cupboard"
    made = catalogue_folder(
        {
            "content/coins/ort/1891.md": coin("1891", "grade: VF30", kept, notes="Sharp."),
            "content/coins/ort/1900.md": coin("1900", "grade: EF40", kept, notes="Weak."),
            "content/pages/on-orts.md": "---\ntitle: On orts\n---\nThe first is [[ort/1891]].\n",
        }
    )
    photograph(made / "content/photos/ort/1891.obverse.jpg", 1)
    return made


def photograph(path: Path, nth: int) -> None:
    """Make a photo of a grainy disc, of which no picture is small."""
    path.parent.mkdir(parents=True, exist_ok=True)
    photo = Image.effect_noise((900, 900), 60 + nth).convert("RGB")
    white = Image.new("RGB", photo.size, "white")
    mask = Image.new("L", photo.size)
    ImageDraw.Draw(mask).ellipse((90, 90, 810, 810), fill=255)
    Image.composite(photo, white, mask).save(path)


def change(folder: Path) -> None:
    """Change what nearly every page shows, add a photo, and take one page away."""
    path = folder / "content/catalogue.yaml"
    path.write_text(path.read_text(encoding="utf-8").replace("A small cabinet", "Another"), encoding="utf-8")
    photograph(folder / "content/photos/ort/1900.obverse.jpg", 2)
    (folder / "content/pages/on-orts.md").unlink(missing_ok=True)


def check_whole(root: Path, before: dict[str, bytes], wanted: dict[str, bytes]) -> None:
    for address, data in read_all(root).items():
        if not address.endswith(".daterun-new") and address != "filler":
            assert data in (before.get(address), wanted.get(address)), address
        assert b"Quillon" not in data, address


@pytest.fixture
def small_disk():
    """Mount a disk of some megabytes at a folder, with what is in that; unmount it in the end."""
    mounted = []

    def mount(path: Path, size: str = "8m") -> Path:
        if not (sys.platform.startswith("linux") and os.geteuid() == 0):
            pytest.skip("only root on Linux can mount a small disk")
        waiting = path.with_name(f"{path.name}-waiting")
        if path.exists():
            path.rename(waiting)
        path.mkdir(parents=True)
        done = subprocess.run(
            ["mount", "-t", "tmpfs", "-o", f"size={size}", "tmpfs", str(path)], capture_output=True, text=True
        )
        if done.returncode:
            pytest.skip(f"this machine lets no small disk be mounted: {done.stderr.strip()}")
        mounted.append(path)
        if waiting.exists():
            shutil.copytree(waiting, path, dirs_exist_ok=True)
            shutil.rmtree(waiting)
        return path

    yield mount
    for path in reversed(mounted):
        subprocess.run(["mount", "-o", "remount,rw", str(path)], check=False)
        subprocess.run(["umount", str(path)], check=True)


def fill(disk: Path, left: int) -> Path:
    """Fill a disk with one file but for so many bytes."""
    filler = disk / "filler"
    with filler.open("wb") as file:
        free = os.statvfs(disk)
        file.write(b"\1" * max(free.f_bavail * free.f_frsize - left, 0))
    return filler


@POSIX
@pytest.mark.parametrize(
    ("what", "left"),
    [
        *(("output", left) for left in (0, 8_000, 100_000, 250_000, 500_000)),
        (".daterun", 0),
        (".daterun", 8_000),
    ],
)
def test_a_full_disk_is_told_of_and_the_next_build_mends_the_rest(folder, tmp_path, small_disk, what, left):
    root = build(folder, Reader.PUBLIC).output
    before = read_all(root)
    change(folder)
    wanted = read_all(build(folder, Reader.PUBLIC, tmp_path / "clean").output)
    filler = fill(small_disk(folder / what), left)
    try:
        result = build(folder, Reader.PUBLIC)
    except CannotContinue as reason:
        assert "No space left on device" in str(reason)
    else:
        assert not result.has_errors
        assert left or what == ".daterun"
    check_whole(root, before, wanted)
    filler.unlink()
    assert not build(folder, Reader.PUBLIC).has_errors
    assert read_all(root) == wanted


@POSIX
@pytest.mark.parametrize("left", [0, 300_000])
def test_a_full_disk_leaves_no_half_of_a_first_edition(folder, tmp_path, small_disk, left):
    wanted = read_all(build(folder, Reader.PUBLIC, tmp_path / "clean").output)
    filler = fill(small_disk(folder / "output"), left)
    with pytest.raises(CannotContinue, match="No space left on device"):
        build(folder, Reader.PUBLIC)
    check_whole(folder / "output/public", {".daterun-edition": b""}, wanted)
    filler.unlink()
    assert not build(folder, Reader.PUBLIC).has_errors
    assert read_all(folder / "output/public") == wanted


@POSIX
@pytest.mark.parametrize("what", ["output", ".daterun", "."])
def test_a_disk_that_may_not_be_written_to_is_told_of_and_stays_as_it_was(folder, tmp_path, small_disk, what):
    root = build(folder, Reader.PUBLIC).output
    change(folder)
    wanted = read_all(build(folder, Reader.PUBLIC, tmp_path / "clean").output)
    disk = small_disk(folder / what if what != "." else folder)
    before = read_all(root)
    subprocess.run(["mount", "-o", "remount,ro", str(disk)], check=True)
    with pytest.raises(CannotContinue, match="Read-only file system"):
        build(folder, Reader.PUBLIC)
    assert read_all(root) == before
    subprocess.run(["mount", "-o", "remount,rw", str(disk)], check=True)
    assert not build(folder, Reader.PUBLIC).has_errors
    assert read_all(root) == wanted


@pytest.mark.skipif(sys.platform == "win32" or os.geteuid() == 0, reason="root may write where nobody may")
@pytest.mark.parametrize("what", ["output/public", "output/public/coins/ort/1891", ".daterun"])
def test_a_folder_that_may_not_be_written_to_is_told_of(folder, what):
    build(folder, Reader.PUBLIC)
    change(folder)
    (folder / what).chmod(0o555)
    try:
        with pytest.raises(CannotContinue, match="Permission denied"):
            build(folder, Reader.PUBLIC)
    finally:
        (folder / what).chmod(0o755)
    assert not build(folder, Reader.PUBLIC).has_errors


@POSIX
@pytest.mark.parametrize("most", [100, 3_000, 20_000, 60_000])
def test_a_file_that_may_not_grow_is_told_of_and_no_half_of_it_stays(folder, tmp_path, most):
    root = build(folder, Reader.PUBLIC).output
    before = read_all(root)
    change(folder)
    wanted = read_all(build(folder, Reader.PUBLIC, tmp_path / "clean").output)
    done = subprocess.run(
        [sys.executable, "-c", LIMITED, str(folder), str(most)], capture_output=True, text=True, timeout=300
    )
    assert (done.returncode, done.stderr) == (0, "")
    assert "File too large" in done.stdout
    check_whole(root, before, wanted)
    assert not build(folder, Reader.PUBLIC).has_errors
    assert read_all(root) == wanted
