"""Prints that are killed outright, that run two at once, or that meet a full disk."""

import os
import shutil
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from daterun.press.turns import AnotherAtWork, taking_turns
from daterun.printing import print_sheets
from daterun.problems import CannotContinue
from daterun.readers.reader import Reader

# A print that counts its own steps on disk, as a build does in the tests of builds, and is killed at one of them.
KILLER = """
import os, signal, sys
from pathlib import Path
from daterun.pages import printcatalogue
from daterun.printing import print_sheets
from daterun.press.typeset import Typesetter
from daterun.readers.reader import Reader

printcatalogue.COINS_OF_A_VOLUME = 2
real = Typesetter.set
Typesetter.set = lambda self, template, data, day, apart=False: real(self, template, data, day)
left, total = int(sys.argv[2]), 0

def watch(event, args):
    global left, total
    writes = event == "open" and isinstance(args[1], str) and set("wax+") & set(args[1])
    if writes or event in ("os.rename", "os.remove", "os.mkdir", "os.rmdir"):
        left, total = left - 1, total + 1
        if left < 0:
            os.kill(os.getpid(), signal.SIGKILL)

sys.addaudithook(watch)
print_sheets(Path(sys.argv[1]), "catalogue", Reader.PUBLIC)
print(total)
"""

POSIX = pytest.mark.skipif(sys.platform == "win32", reason="Windows has no SIGKILL")

KILLED = int(os.environ.get("DATERUN_KILLS", "5"))


def killed_at(folder, steps):
    """Print in a process that is killed at a step; give how many there were, None where it was killed."""
    ran = subprocess.run(
        [sys.executable, "-c", KILLER, str(folder), str(steps)], capture_output=True, text=True, timeout=120
    )
    assert ran.returncode in (0, -signal.SIGKILL), ran.stderr
    return int(ran.stdout) if ran.returncode == 0 else None


def files(root: Path):
    return {each.name: each.read_bytes() for each in sorted(root.rglob("*")) if each.is_file()}


@POSIX
def test_a_killed_print_leaves_whole_files_and_the_next_gives_the_clean_result(folder, tmp_path):
    again = tmp_path / "again"
    shutil.copytree(folder, tmp_path / "first")
    killed_at(tmp_path / "first", sys.maxsize)
    old = files(tmp_path / "first/output")
    settings = tmp_path / "first/content/catalogue.yaml"
    settings.write_text(settings.read_text().replace("A small cabinet", "Another cabinet"))
    shutil.copytree(tmp_path / "first", tmp_path / "changed")
    shutil.copytree(tmp_path / "first", again)
    total = killed_at(again, sys.maxsize)
    new = files(again / "output")
    assert sorted(old) == sorted(new) == [".daterun-edition", "catalogue-1.pdf", "catalogue-2.pdf"]
    assert old["catalogue-1.pdf"] != new["catalogue-1.pdf"]
    for steps in sorted({nth * total // KILLED for nth in range(KILLED)} | set(range(total - 5, total))):
        shutil.rmtree(again)
        shutil.copytree(tmp_path / "changed", again)
        assert killed_at(again, steps) is None
        for name, data in files(again / "output").items():
            if not name.endswith(".daterun-new"):
                assert data in (old[name], new[name]), (steps, name)
        assert killed_at(again, sys.maxsize) is not None
        assert files(again / "output") == new, steps


@POSIX
def test_the_very_first_print_may_be_killed_at_any_step(folder, tmp_path):
    again = tmp_path / "again"
    shutil.copytree(folder, again)
    total = killed_at(again, sys.maxsize)
    new = files(again / "output")
    for steps in range(max(total - 10, 0), total, 2):
        shutil.rmtree(again)
        shutil.copytree(folder, again)
        assert killed_at(again, steps) is None
        assert killed_at(again, sys.maxsize) is not None
        assert files(again / "output") == new, steps


def test_two_at_once_are_not_at_work_on_one_edition(folder, printed):
    lock = folder / "output/public"
    ready = "import sys; from pathlib import Path; from daterun.press.turns import taking_turns\n"
    ready += (
        "with taking_turns(Path(sys.argv[1]), 'public', Path(sys.argv[2])):\n    print('held', flush=True)\n"
    )
    ready += "    sys.stdin.read()\n"
    with subprocess.Popen(
        [sys.executable, "-c", ready, str(folder), str(lock.resolve())],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
    ) as other:
        assert other.stdout.readline() == "held\n"
        with pytest.raises(AnotherAtWork):
            print_sheets(folder, "wants", Reader.PUBLIC)
        printed(folder, "wants", Reader.CLUB)
        other.stdin.close()
    printed(folder, "wants", Reader.PUBLIC)
    with taking_turns(folder, "public", lock.resolve()):
        printed(folder, "wants", Reader.PUBLIC)


def test_on_a_full_disk_the_last_print_stays_whole(folder, printed, monkeypatch):
    (path,) = printed(folder, "wants").files
    before = path.read_bytes()
    settings = folder / "content/catalogue.yaml"
    settings.write_text(settings.read_text().replace("A small cabinet", "Another cabinet"))
    real = Path.write_bytes

    def full(self, data):
        if self.suffixes[-2:] == [".pdf", ".daterun-new"]:
            real(self, data[:100])
            raise OSError(28, "No space left on device")
        return real(self, data)

    monkeypatch.setattr(Path, "write_bytes", full)
    with pytest.raises(CannotContinue, match="No space left"):
        print_sheets(folder, "wants", Reader.KEEPER)
    assert path.read_bytes() == before
    assert [each.name for each in path.parent.iterdir()] == ["wants.pdf"]


def test_the_progress_of_a_print_is_told_from_reading_to_writing(folder):
    told = []
    print_sheets(folder, "catalogue", Reader.PUBLIC, progress=lambda *each: told.append(each))
    stages = list(dict.fromkeys(stage for stage, _, _ in told))
    assert stages == ["reading", "photos", "checking", "pictures", "typesetting", "writing"]
    pictures = [(done, total) for stage, done, total in told if stage == "pictures"]
    assert pictures[-1][0] == pictures[-1][1] > 1
