"""Photos looked at in copies of the process come to what they come to in threads."""

import os
import sys

import pytest

from daterun import shares
from daterun.photos import memory as remembering
from daterun.photos.memory import PhotoMemory

pytestmark = pytest.mark.skipif(
    not hasattr(os, "fork") or sys.platform == "darwin", reason="this machine copies no processes"
)

LONG_AGO = 1_500_000_000
PATHS = tuple(f"content/photos/{nth}.obverse.png" for nth in range(9))


@pytest.fixture
def folder(tmp_path, photograph):
    (tmp_path / "content/photos").mkdir(parents=True)
    for nth, path in enumerate(PATHS[:-2]):
        photograph(size=(200, 210), disc=(100 + nth, 100, 150)).save(tmp_path / path)
    (tmp_path / PATHS[-2]).write_bytes((tmp_path / PATHS[0]).read_bytes())
    (tmp_path / PATHS[-1]).write_bytes(b"no picture")
    for path in PATHS:
        os.utime(tmp_path / path, (LONG_AGO, LONG_AGO))
    return tmp_path


def looked_at(folder, among, monkeypatch, use=None, progress=None):
    monkeypatch.setattr(shares, "_shares", lambda things: among)
    memory = PhotoMemory.load(folder / "none.json")
    return memory.examine_all(folder, PATHS, progress, use), memory


@pytest.mark.parametrize("among", [2, 3, 8])
def test_copies_see_and_remember_what_threads_do(folder, among, monkeypatch):
    found, memory = looked_at(folder, 1, monkeypatch)
    assert sum(each.disc is not None for each in found.values()) == len(PATHS) - 1
    assert len(memory.by_path) == len(PATHS)
    shared, of_shared = looked_at(folder, among, monkeypatch)
    assert shared == found
    assert (of_shared.by_path, of_shared.rows) == (memory.by_path, memory.rows)


def test_a_photo_too_large_for_a_part_of_the_memory_is_looked_at_when_the_copies_are_gone(
    folder, monkeypatch
):
    monkeypatch.setattr(remembering, "MOST_HELD", 50_000)
    here, alone, told = os.getpid(), [], []

    def use(photo, opened):
        if os.getpid() == here:
            with pytest.raises(ChildProcessError):
                os.waitpid(-1, os.WNOHANG)
            alone.append(photo.path)

    found, _ = looked_at(folder, 2, monkeypatch, use, lambda done, total: told.append((done, total)))
    assert sorted(found) == sorted(PATHS)
    assert set(PATHS[:-2]) <= set(alone)  # the last but one is the first again
    assert told == sorted(told)
    assert told[-1] == (len(PATHS), len(PATHS))


def test_what_a_copy_that_is_killed_did_not_see_is_seen_here(folder, monkeypatch):
    expected, _ = looked_at(folder, 1, monkeypatch)
    here = os.getpid()

    def die(photo, opened):
        if os.getpid() != here:
            os.kill(os.getpid(), 9)

    found, memory = looked_at(folder, 2, monkeypatch, die)
    assert found == expected
    assert len(memory.by_path) == len(PATHS)


def test_an_interruption_ends_the_copies(folder, monkeypatch):
    here = os.getpid()

    def interrupt(photo, opened):
        if os.getpid() == here:
            raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        looked_at(folder, 2, monkeypatch, interrupt)
    with pytest.raises(ChildProcessError):
        os.waitpid(-1, os.WNOHANG)


def test_a_photo_changed_just_before_is_not_remembered_by_its_file(folder, monkeypatch):
    os.utime(folder / PATHS[3])
    _, memory = looked_at(folder, 2, monkeypatch)
    assert set(PATHS) - set(memory.by_path) == {PATHS[3]}
