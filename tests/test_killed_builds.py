"""Builds that are killed outright, that meet what stands in their way, or that run two at once.

At the end of a run the stages are told in which builds were killed: pytest -rP shows it.
"""

import os
import random
import shutil
import signal
import subprocess
import sys
import threading
from collections import Counter
from contextlib import suppress
from pathlib import Path

import pytest
from PIL import Image, ImageDraw

from daterun.problems import CannotContinue
from daterun.readers.reader import Reader
from daterun.records import stamps
from daterun.site import build
from daterun.standing import bring_up_to_date
from editions import read_all

KILLED = int(os.environ.get("DATERUN_KILLS", "20"))
"""Moments at which a build is killed; DATERUN_KILLS=200 asks for more."""

# A build that counts its own steps on disk, and is killed for good at one of them, unless that is done before
# from outside. A step is all that a build does to files: opening them for writing, renaming, making and
# removing. Where it was is written at every stage into a file that is open already.
KILLER = """
import os, signal, sys, time
from pathlib import Path
from daterun.readers.reader import Reader
from daterun.site import build

left, total, begun = int(sys.argv[3]), 0, time.monotonic()
where = os.open(sys.argv[4], os.O_CREAT | os.O_WRONLY)

def watch(event, args):
    global left, total
    writes = event == "open" and isinstance(args[1], str) and set("wax+") & set(args[1])
    if writes or event in ("os.rename", "os.remove", "os.mkdir", "os.rmdir"):
        left, total = left - 1, total + 1
        if left < 0:
            os.kill(os.getpid(), signal.SIGKILL)

def tell(stage, done, whole):
    os.pwrite(where, stage.ljust(20).encode(), 0)

if len(sys.argv) > 5:
    from daterun import pressing, shares
    shares.WORTH_A_COPY = pressing._TOGETHER = 1
    shares._shares = lambda things: 3

tell("beginning", 0, 0)
sys.addaudithook(watch)
print("ready", flush=True)
begun = time.monotonic()
build(Path(sys.argv[1]), Reader(sys.argv[2]), progress=tell)
print(total, time.monotonic() - begun)
"""

# A preview's workshop, or a command, that has built, and is killed at a step of taking up a change of a note.
REVISER = """
import os, signal, sys
from pathlib import Path
from daterun.readers.reader import Reader
from daterun.records import stamps
from daterun.standing import bring_up_to_date
from daterun.workshop import Workshop

stamps.JUST_NOW_NS = -10**15
folder, left = Path(sys.argv[1]), int(sys.argv[2])
if sys.argv[3] == "preview":
    workshop = Workshop(folder, Reader.PUBLIC)
    workshop.build()
else:
    bring_up_to_date(folder, Reader.PUBLIC)
coin = folder / "content/coins/ort/1900.md"
coin.write_text(coin.read_text().replace("Weak.", "Weak at the rim."))

def watch(event, args):
    global left
    writes = event == "open" and isinstance(args[1], str) and set("wax+") & set(args[1])
    if writes or event in ("os.rename", "os.remove", "os.mkdir", "os.rmdir"):
        left -= 1
        if left < 0:
            os.kill(os.getpid(), signal.SIGKILL)

sys.addaudithook(watch)
if sys.argv[3] == "preview":
    result = workshop.follow({"content/coins/ort/1900.md"})
else:
    result = bring_up_to_date(folder, Reader.PUBLIC)
assert 0 < result.pages_written < result.pages_total, "this was no revision"
"""

POSIX = pytest.mark.skipif(sys.platform == "win32", reason="Windows has no SIGKILL")


@pytest.fixture
def folder(catalogue_folder, coin):
    kept = "kept: Quillon cupboard"
    made = catalogue_folder(
        {
            "content/coins/ort/1891.md": coin("1891", "grade: VF30", kept, notes="Sharp; see [[ort/1900]]."),
            "content/coins/ort/1900.md": coin("1900", "grade: EF40", kept, notes="Weak."),
            "content/pages/on-orts.md": "---\ntitle: On orts\n---\nThe first is [[ort/1891]].\n",
        }
    )
    for name in ("1891.obverse", "1891.reverse", "1900.obverse"):
        photograph(made / f"content/photos/ort/{name}.jpg", name)
    return made


def photograph(path: Path, name: str) -> None:
    """Make a photo of a disc with a few figures on it."""
    path.parent.mkdir(parents=True, exist_ok=True)
    photo = Image.new("RGB", (400, 400), "white")
    drawn = ImageDraw.Draw(photo)
    drawn.ellipse((50, 50, 350, 350), fill=(130, 120, 100))
    drawn.text((150, 190), name, fill="black")
    photo.save(path)


def change(folder: Path) -> None:
    """Change what nearly every page shows, exchange a photo, and take one page away."""
    path = folder / "content/catalogue.yaml"
    path.write_text(path.read_text(encoding="utf-8").replace("A small cabinet", "Another"), encoding="utf-8")
    photograph(folder / "content/photos/ort/1900.obverse.jpg", "another")
    (folder / "content/pages/on-orts.md").unlink(missing_ok=True)


class Killing:
    """A build in a process of its own that is killed, and where it was then; "" once it ran to its end."""

    def __init__(
        self,
        folder: Path,
        reader: Reader,
        steps: int = sys.maxsize,
        seconds: float = 60,
        copies: bool = False,
    ) -> None:
        told = folder / "where"
        with subprocess.Popen(
            [sys.executable, "-c", KILLER, str(folder), reader.value, str(steps), str(told)]
            + ["in copies"] * copies,
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            text=True,
        ) as process:
            assert process.stdout.readline() == "ready\n", process.stderr.read()
            killer = threading.Timer(seconds, process.kill)
            killer.start()
            out, faults = process.communicate()
            killer.cancel()
        assert process.returncode in (0, -signal.SIGKILL), faults
        self.steps, self.seconds = (float(each) for each in out.split()) if out else (0.0, 0.0)
        self.where = told.read_text().strip() if process.returncode else ""


@POSIX
def test_a_killed_build_leaves_whole_files_and_the_next_gives_the_clean_result(folder, tmp_path):
    readers = (Reader.PUBLIC, Reader.KEEPER)
    before = {each: read_all(build(folder, each).output) for each in readers}
    shutil.copytree(folder, tmp_path / "before")
    change(folder)
    wanted = {each: read_all(build(folder, each, tmp_path / each.value).output) for each in readers}
    again, chance = tmp_path / "again", random.Random(1891)
    hit: Counter[str] = Counter()

    def lay_out() -> None:
        shutil.rmtree(again, ignore_errors=True)
        shutil.copytree(tmp_path / "before", again)
        change(again)

    lay_out()
    whole = Killing(again, Reader.PUBLIC)
    assert read_all(again / "output/public") == wanted[Reader.PUBLIC]
    for nth in range(KILLED):
        lay_out()
        reader, moment = readers[nth // 2 % 2], (nth + chance.random()) / KILLED
        if nth % 2:
            seconds = moment * whole.seconds
            while not (killing := Killing(again, reader, seconds=seconds)).where:
                seconds *= 0.7  # the machine was less busy this time
                lay_out()
        else:
            killing = Killing(again, reader, steps=int(moment * whole.steps))
        hit[killing.where] += 1
        for each in readers:
            for address, data in read_all(again / "output" / each.value).items():
                if not address.endswith(".daterun-new"):
                    assert data in (before[each].get(address), wanted[each].get(address)), address
                assert each is Reader.KEEPER or b"Quillon" not in data, address
        other = readers[readers.index(reader) - 1]
        assert read_all(again / "output" / other.value) == before[other]
        build(again, reader)
        assert read_all(again / "output" / reader.value) == wanted[reader]
    print(dict(hit))
    assert sum(hit.values()) == KILLED
    assert hit["writing"]
    assert "" not in hit, "the build has fewer steps than at first"
    assert len(hit) > 2


@POSIX
def test_a_build_that_is_killed_with_its_copies_at_work_is_mended_by_the_next(folder, tmp_path):
    before = read_all(build(folder, Reader.PUBLIC).output)
    shutil.copytree(folder, tmp_path / "before")
    change(folder)
    wanted = read_all(build(folder, Reader.PUBLIC, tmp_path / "clean").output)
    again, steps, where = tmp_path / "again", 2, set()
    while True:
        shutil.rmtree(again, ignore_errors=True)
        shutil.copytree(tmp_path / "before", again)
        change(again)
        killing = Killing(again, Reader.PUBLIC, steps, copies=True)
        for address, data in read_all(again / "output/public").items():
            if not address.endswith(".daterun-new"):
                assert data in (before.get(address), wanted.get(address)), address
        if not killing.where:
            break
        where.add(killing.where)
        build(again, Reader.PUBLIC)
        assert read_all(again / "output/public") == wanted, steps
        steps += 1 if KILLED > 20 else 11
    assert read_all(again / "output/public") == wanted
    assert "writing" in where
    assert len(where) > 2


@POSIX
@pytest.mark.parametrize("way", ["preview", "command"])
def test_a_note_whose_taking_up_is_killed_at_any_step_bars_no_build(folder, tmp_path, monkeypatch, way):
    monkeypatch.setattr(stamps, "JUST_NOW_NS", -(10**15))
    shutil.copytree(folder, tmp_path / "before")
    coin = folder / "content/coins/ort/1900.md"
    coin.write_text(coin.read_text(encoding="utf-8").replace("Weak.", "Weak at the rim."), encoding="utf-8")
    wanted = read_all(build(folder, Reader.PUBLIC, tmp_path / "clean").output)
    again, steps, was_killed = tmp_path / "again", 0, True
    while was_killed:
        shutil.rmtree(again, ignore_errors=True)
        shutil.copytree(tmp_path / "before", again)
        done = subprocess.run(
            [sys.executable, "-c", REVISER, str(again), str(steps), way],
            capture_output=True,
            text=True,
            timeout=300,
        )
        assert done.returncode in (0, -signal.SIGKILL), done.stderr
        was_killed = done.returncode != 0
        assert not any(b"Quillon" in data for data in read_all(again / "output/public").values())
        assert not bring_up_to_date(again, Reader.PUBLIC).has_errors
        assert read_all(again / "output/public") == wanted, steps
        steps += 1 if KILLED > 20 else 5
    assert steps > 9


@POSIX
def test_no_word_of_the_keepers_is_told_to_others_by_what_a_killed_build_left(folder):
    steps = int(Killing(folder, Reader.KEEPER).steps)
    was_told = False
    while not was_told and (steps := steps - 3) > 0:
        shutil.rmtree(folder / "output")
        killing = Killing(folder, Reader.KEEPER, steps=steps)
        data = read_all(folder / "output/keeper").values()
        was_told = bool(killing.where) and any(b"Quillon" in each for each in data)
    assert was_told
    build(folder, Reader.PUBLIC)
    assert not any(b"Quillon" in data for data in read_all(folder / "output/public").values())


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


@pytest.mark.parametrize("moment", [1, 2, 4, 9, 16])
def test_a_folder_deleted_during_a_build_is_mended_by_the_next(folder, monkeypatch, moment):
    from daterun.press.output import Output

    root = build(folder, Reader.PUBLIC).output
    change(folder)
    whole, calls = Output.write, []

    def deleting(self, address, data):
        calls.append(address)
        if len(calls) == moment:
            root.rename(folder.parent / "deleted")  # in one step: pictures are written by threads meanwhile
        return whole(self, address, data)

    monkeypatch.setattr(Output, "write", deleting)
    with suppress(CannotContinue):  # it says why where it came to want a picture that was there
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


@pytest.mark.parametrize("moment", [1, 4_000_000_000], ids=["set back", "set forward"])
def test_a_clock_that_is_wrong_changes_nothing(folder, moment):
    root = build(folder, Reader.PUBLIC).output
    wanted = read_all(root)
    for path in [*root.rglob("*"), *(folder / ".daterun").rglob("*"), *(folder / "content").rglob("*")]:
        if path.is_file():
            os.utime(path, (moment, moment))
    build(folder, Reader.PUBLIC)
    assert read_all(root) == wanted
