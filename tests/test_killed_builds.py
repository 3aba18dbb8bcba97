"""Builds that are killed outright, that meet what stands in their way, or that run two at once."""

import os
import random
import shutil
import signal
import subprocess
import sys
import threading
from pathlib import Path

import pytest

from daterun.problems import CannotContinue
from daterun.readers.reader import Reader
from daterun.site import build

KILLED = int(os.environ.get("DATERUN_KILLS", "20"))
"""Moments at which a build is killed; DATERUN_KILLS=200 asks for more."""

# A build that counts its own steps on disk, and is killed for good at one of them. What the count goes over are
# all that a build does to files: opening them for writing, renaming, making and removing.
KILLER = """
import os, signal, sys
from pathlib import Path
left = int(sys.argv[3])

def watch(event, args):
    global left
    writes = event == "open" and isinstance(args[1], str) and set("wax+") & set(args[1])
    if writes or event in ("os.rename", "os.remove", "os.mkdir", "os.rmdir"):
        left -= 1
        if left < 0:
            os.kill(os.getpid(), signal.SIGKILL)

from daterun.readers.reader import Reader
from daterun.site import build
sys.addaudithook(watch)
build(Path(sys.argv[1]), Reader(sys.argv[2]))
"""

POSIX = pytest.mark.skipif(sys.platform == "win32", reason="Windows has no SIGKILL")


@pytest.fixture
def folder(catalogue_folder, coin):
    kept = "kept: Quillon cupboard"
    return catalogue_folder(
        {
            "content/coins/ort/1891.md": coin("1891", "grade: VF30", kept, notes="Sharp; see [[ort/1900]]."),
            "content/coins/ort/1900.md": coin("1900", "grade: EF40", kept, notes="Weak."),
            "content/pages/on-orts.md": "---\ntitle: On orts\n---\nThe first is [[ort/1891]].\n",
        }
    )


def read_all(root: Path) -> dict[str, bytes]:
    return {
        path.relative_to(root).as_posix(): path.read_bytes()
        for path in sorted(root.rglob("*"))
        if path.is_file()
    }


def change(folder: Path) -> None:
    """Change what nearly every page shows, and take one page away."""
    path = folder / "content/catalogue.yaml"
    path.write_text(path.read_text(encoding="utf-8").replace("A small cabinet", "Another"), encoding="utf-8")
    (folder / "content/pages/on-orts.md").unlink(missing_ok=True)


def kill_after(folder: Path, reader: Reader, steps: int) -> bool:
    """Build in a process of its own that is killed after some steps; tell whether it was."""
    done = subprocess.run(
        [sys.executable, "-c", KILLER, str(folder), reader.value, str(steps)],
        capture_output=True,
        timeout=120,
    )
    assert done.returncode in (0, -signal.SIGKILL), done.stderr.decode()
    return done.returncode != 0


@POSIX
def test_a_killed_build_leaves_whole_files_and_the_next_gives_the_clean_result(folder, tmp_path):
    root = build(folder, Reader.PUBLIC).output
    before = read_all(root)
    shutil.copytree(folder, tmp_path / "before")
    change(folder)
    wanted = read_all(build(folder, Reader.PUBLIC, tmp_path / "clean").output)
    chance = random.Random(1891)
    killed = 0
    for _ in range(KILLED):
        again = tmp_path / "again"
        shutil.copytree(tmp_path / "before", again)
        change(again)
        killed += kill_after(again, Reader.PUBLIC, chance.randrange(3 * len(wanted)))
        left = read_all(again / "output/public")
        for address, data in left.items():
            if not address.endswith(".daterun-new"):
                assert data in (before.get(address), wanted.get(address)), address
            assert b"Quillon" not in data
        build(again, Reader.PUBLIC)
        assert read_all(again / "output/public") == wanted
        shutil.rmtree(again)
    assert killed > KILLED // 2


def test_two_builds_at_once_give_what_one_gives_or_say_why_not(folder, tmp_path):
    wanted = read_all(build(folder, Reader.PUBLIC, tmp_path / "clean").output)
    faults: list[BaseException] = []

    def run() -> None:
        try:
            build(folder, Reader.PUBLIC)
        except CannotContinue:
            pass
        except BaseException as fault:
            faults.append(fault)

    runs = [threading.Thread(target=run) for _ in range(3)]
    for each in runs:
        each.start()
    for each in runs:
        each.join()
    assert faults == []
    build(folder, Reader.PUBLIC)
    assert read_all(folder / "output/public") == wanted


def test_a_folder_deleted_before_or_between_builds_is_made_again(folder):
    root = build(folder, Reader.PUBLIC).output
    wanted = read_all(root)
    shutil.rmtree(root)
    build(folder, Reader.PUBLIC)
    assert read_all(root) == wanted
    shutil.rmtree(root / "coins")
    build(folder, Reader.PUBLIC)
    assert read_all(root) == wanted


def test_a_folder_deleted_during_a_build_is_mended_by_the_next(folder, monkeypatch):
    from daterun.press.output import Output

    root = build(folder, Reader.PUBLIC).output
    change(folder)
    whole, calls = Output.write, []

    def deleting(self, address, data):
        calls.append(address)
        if len(calls) == 4:
            shutil.rmtree(root)
        return whole(self, address, data)

    monkeypatch.setattr(Output, "write", deleting)
    build(folder, Reader.PUBLIC)
    monkeypatch.setattr(Output, "write", whole)
    build(folder, Reader.PUBLIC)
    assert "index.html" in read_all(root)
    assert read_all(root) == read_all(build(folder, Reader.PUBLIC, folder.parent / "clean").output)


@pytest.mark.parametrize("way", ["output", "output/public"])
def test_a_file_in_the_way_is_named_and_left_alone(folder, way):
    path = folder / way
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text("mine")
    with pytest.raises(CannotContinue):
        build(folder, Reader.PUBLIC)
    assert path.read_text() == "mine"


def test_a_file_where_is_to_be_remembered_is_named_and_left_alone(folder):
    (folder / ".daterun").write_text("mine")
    with pytest.raises(CannotContinue):
        build(folder, Reader.PUBLIC)
    assert (folder / ".daterun").read_text() == "mine"


def test_a_folder_where_a_page_is_to_be_is_named_and_left_alone(folder):
    path = folder / "output/public/index.html/mine.txt"
    path.parent.mkdir(parents=True)
    path.write_text("mine")
    with pytest.raises(CannotContinue):
        build(folder, Reader.PUBLIC)
    assert path.read_text() == "mine"


def test_a_clock_set_back_changes_nothing(folder):
    root = build(folder, Reader.PUBLIC).output
    wanted = read_all(root)
    for path in [*root.rglob("*"), *(folder / ".daterun").rglob("*"), *(folder / "content").rglob("*")]:
        if path.is_file():
            os.utime(path, (1, 1))
    build(folder, Reader.PUBLIC)
    assert read_all(root) == wanted


def test_a_full_disk_is_told_of_and_the_next_build_mends_the_rest(folder, monkeypatch, tmp_path):
    import errno

    root = build(folder, Reader.PUBLIC).output
    before = read_all(root)
    change(folder)
    wanted = read_all(build(folder, Reader.PUBLIC, tmp_path / "clean").output)
    whole = Path.write_bytes

    def full(self, data):
        if self.name.endswith(".daterun-new"):
            whole(self, data[: len(data) // 2])
            raise OSError(errno.ENOSPC, "No space left on device")
        return whole(self, data)

    monkeypatch.setattr(Path, "write_bytes", full)
    with pytest.raises(CannotContinue, match="No space left"):
        build(folder, Reader.PUBLIC)
    monkeypatch.setattr(Path, "write_bytes", whole)
    for address, data in read_all(root).items():
        assert address.endswith(".daterun-new") or data in (before.get(address), wanted.get(address))
    build(folder, Reader.PUBLIC)
    assert read_all(root) == wanted
