"""Long work shared out among processes comes to what one process makes."""

import os
import sys

import pytest

from daterun import shares
from daterun.shares import share_out

pytestmark = pytest.mark.skipif(
    not hasattr(os, "fork") or sys.platform == "darwin", reason="this machine copies no processes"
)


@pytest.fixture(params=[1, 2, 3])
def among(request, monkeypatch):
    monkeypatch.setattr(shares, "_shares", lambda things: request.param)
    return request.param


def made_by(make, things, progress=lambda done: None):
    return sorted(share_out(things, make, progress))


def test_everything_is_made_once_and_comes_with_its_number(among):
    things = [f"thing {n}" for n in range(20)]
    assert made_by(str.upper, things) == list(enumerate(map(str.upper, things)))


def test_fewer_things_than_processes_are_made(among):
    assert made_by(str.upper, ["a"]) == [(0, "A")]
    assert made_by(str.upper, []) == []


def test_a_large_share_comes_back_whole(among):
    things = list(range(40))
    assert made_by(lambda n: bytes([n]) * 100_000, things) == [(n, bytes([n]) * 100_000) for n in things]


def test_what_the_making_raises_is_raised_here(among):
    def fail(n):
        if n == 7:
            raise ValueError("the seventh fails")
        return n

    with pytest.raises(ValueError, match="the seventh fails"):
        made_by(fail, list(range(20)))


def test_what_a_copy_that_is_killed_did_not_make_is_made_here(among):
    here = os.getpid()

    def die(n):
        if n > 9 and os.getpid() != here:
            os.kill(os.getpid(), 9)
        return n

    assert made_by(die, list(range(20))) == [(n, n) for n in range(20)]


def test_work_that_is_given_up_leaves_no_process_behind(among):
    made = share_out(list(range(20)), lambda n: n, lambda done: None)
    next(made)
    made.close()
    with pytest.raises(ChildProcessError):
        os.waitpid(-1, os.WNOHANG)


def test_the_progress_never_goes_back_and_never_beyond_the_end(among):
    told = []
    made_by(str, list(range(20)), told.append)
    assert told == sorted(told)
    assert max(told) <= 20


def test_little_work_is_not_shared_out():
    assert shares._shares(shares.WORTH_A_COPY - 1) == 1


def test_a_process_with_threads_is_not_copied(monkeypatch):
    monkeypatch.setattr(shares.threading, "active_count", lambda: 2)
    assert shares._shares(10_000) == 1
