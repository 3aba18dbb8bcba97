"""Who is at work on an edition is told to whoever comes meanwhile, and a dead process keeps nobody out."""

import errno
import os
import subprocess
import sys
import threading
from contextlib import contextmanager

import pytest

from daterun.press.folders import memory_of
from daterun.press.turns import AnotherAtWork, taking_turns
from daterun.problems import CannotContinue
from daterun.readers.reader import Reader
from daterun.site import build

HOLDER = """
import sys
from pathlib import Path
from daterun.press.turns import taking_turns
folder = Path(sys.argv[1])
with taking_turns(folder, sys.argv[2], (folder / "output" / sys.argv[2]).resolve()):
    print("held", flush=True)
    sys.stdin.read()
"""


@pytest.fixture
def folder(catalogue_folder, coin):
    return catalogue_folder({"content/coins/ort/1891.md": coin("1891", "grade: VF30")})


@pytest.fixture
def root(folder):
    return (folder / "output" / "public").resolve()


@pytest.fixture
def held_elsewhere(folder):
    """Let another process hold the lock of a reader's edition; give that process."""

    @contextmanager
    def hold(reader):
        with subprocess.Popen(
            [sys.executable, "-c", HOLDER, str(folder), reader],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            text=True,
        ) as process:
            assert process.stdout.readline() == "held\n"
            try:
                yield process
            finally:
                process.kill()

    return hold


def test_a_second_build_says_that_another_is_at_work_and_which_process(folder, root, held_elsewhere):
    with held_elsewhere("public") as process, pytest.raises(AnotherAtWork) as caught:
        build(folder, Reader.PUBLIC)
    assert str(caught.value) == (
        f"another daterun (process {process.pid}) is at work on {root}; let it end, then try again"
    )
    assert not root.exists()


def test_a_process_that_was_killed_keeps_nobody_out(folder, root, held_elsewhere):
    with held_elsewhere("public") as process:
        process.kill()
        process.wait()
        assert memory_of(folder, "public", root).with_suffix(".lock").read_text() == f"{process.pid}\n"
        assert not build(folder, Reader.PUBLIC).has_errors


@pytest.mark.skipif(not hasattr(os, "fork"), reason="processes are not copied here")
def test_a_copy_of_a_process_that_was_killed_keeps_nobody_out_and_ends_in_peace(folder):
    copying = HOLDER.replace(
        "    sys.stdin.read()",
        "    import os\n    if os.fork() == 0:\n        print('copied', flush=True)\n    sys.stdin.read()",
    )
    with subprocess.Popen(
        [sys.executable, "-c", copying, str(folder), "public"],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
    ) as process:
        assert [process.stdout.readline(), process.stdout.readline()] == [b"held\n", b"copied\n"]
        process.kill()
        process.wait()
        assert not build(folder, Reader.PUBLIC).has_errors
        process.stdin.close()
        assert process.stderr.read() == b""


def test_other_editions_and_other_folders_are_built_meanwhile(folder, tmp_path, held_elsewhere):
    with held_elsewhere("public"):
        assert not build(folder, Reader.CLUB).has_errors
        assert not build(folder, Reader.PUBLIC, tmp_path / "elsewhere").has_errors


def test_work_within_work_goes_on_and_another_thread_is_kept_out(folder, root):
    told = []

    def come():
        try:
            with taking_turns(folder, "public", root):
                told.append("in")
        except AnotherAtWork:
            told.append("kept out")

    with taking_turns(folder, "public", root):
        with taking_turns(folder, "public", root):
            pass
        thread = threading.Thread(target=come)
        thread.start()
        thread.join()
    come()
    assert told == ["kept out", "in"]


def test_in_what_is_no_catalogue_nothing_is_written(tmp_path):
    with taking_turns(tmp_path, "public", tmp_path / "output/public"):
        pass
    assert list(tmp_path.iterdir()) == []


@pytest.mark.skipif(sys.platform == "win32", reason="Windows always has locks")
@pytest.mark.parametrize("number", [errno.ENOLCK, errno.EOPNOTSUPP])
def test_where_a_system_has_no_locks_the_build_goes_on(folder, monkeypatch, number):
    import fcntl

    def refuse(*_):
        raise OSError(number, "no locks")

    monkeypatch.setattr(fcntl, "flock", refuse)
    assert not build(folder, Reader.PUBLIC).has_errors


def test_a_folder_in_the_place_of_the_lock_is_named(folder, root):
    lock = memory_of(folder, "public", root).with_suffix(".lock")
    lock.mkdir(parents=True)
    with pytest.raises(CannotContinue, match=r"public\.lock cannot be written"):
        build(folder, Reader.PUBLIC)
