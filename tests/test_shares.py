"""Long work shared out among processes comes to what one process makes."""

import os
import select
import signal
import subprocess
import sys

import pytest

from daterun import shares
from daterun.shares import meanwhile, share_out

pytestmark = pytest.mark.skipif(
    not hasattr(os, "fork") or sys.platform == "darwin", reason="this machine copies no processes"
)


@pytest.fixture(params=[1, 2, 3])
def among(request, monkeypatch):
    monkeypatch.setattr(shares, "_shares", lambda things: request.param)
    return request.param


@pytest.fixture
def copies(monkeypatch):
    """The numbers of the copies that a test makes."""
    numbers, fork = [], os.fork

    def noted():
        number = fork()
        numbers.append(number)
        return number

    monkeypatch.setattr(os, "fork", noted)
    return numbers


def is_gone(number):
    """Tell whether a copy has ended and was waited for."""
    try:
        os.kill(number, 0)
    except ProcessLookupError:
        return True
    return False


def made_by(make, things, progress=lambda done: None):
    return sorted(share_out(things, make, progress))


def test_everything_is_made_once_and_comes_with_its_number(among):
    things = [f"thing {n}" for n in range(20)]
    assert made_by(str.upper, things) == list(enumerate(map(str.upper, things)))


@pytest.mark.parametrize("together", [2, 3, 16, 40])
def test_what_goes_together_is_made_by_one_process(among, together):
    made = dict(share_out(range(20), lambda n: os.getpid(), lambda done: None, together=together))
    assert sorted(made) == list(range(20))
    for first in range(0, 20, together):
        assert len({made[nth] for nth in range(first, min(first + together, 20))}) == 1


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


def test_work_that_is_given_up_leaves_no_process_behind(among, copies):
    made = share_out(list(range(20)), lambda n: n, lambda done: None)
    next(made)
    made.close()
    assert len(copies) == among - 1
    assert all(map(is_gone, copies))


@pytest.mark.parametrize("together", [1, 16])
@pytest.mark.parametrize("at_once", [3, 10, 3000])
def test_the_progress_never_goes_back_and_never_beyond_the_end(among, monkeypatch, at_once, together):
    monkeypatch.setattr(shares, "AT_ONCE", at_once)
    told = []
    made = share_out(list(range(50)), str, told.append, together=together)
    assert len(dict(made)) == 50
    assert told == sorted(told)
    assert max(told) <= 50


def test_no_copy_is_made_for_nothing(among, copies):
    assert len(list(share_out(list(range(16)), str, lambda done: None, together=16))) == 16
    assert copies == []


def test_copies_are_made_anew_after_so_many_things_and_do_not_outlive_their_turn(among, copies, monkeypatch):
    monkeypatch.setattr(shares, "AT_ONCE", 4)
    made, told = {}, []
    for nth, thing in share_out(list(range(40)), str, told.append):
        made[nth] = thing
        if nth >= 4 * among:
            assert all(map(is_gone, copies[: among - 1]))
    assert made == {nth: str(nth) for nth in range(40)}
    assert told == sorted(told)
    assert len(copies) == (among - 1) * -(-40 // (4 * among))


KILLED = """
import os, signal
from daterun import shares

ends = os.pipe()

def make(n):
    if n:
        os.write(ends[1], b"at work")
        signal.pause()
    os.read(ends[0], 7)
    print(shares_of[0], flush=True)
    os.kill(os.getpid(), signal.SIGKILL)

shares_of = []
fork = os.fork

def noted():
    shares_of.append(fork())
    return shares_of[-1]

os.fork = noted
shares._shares = lambda things: 2
list(shares.share_out([0, 1], make, print))
"""


@pytest.mark.skipif(sys.platform != "linux", reason="other systems have no such signal")
def test_a_copy_ends_at_once_when_the_first_process_is_killed():
    with subprocess.Popen([sys.executable, "-c", KILLED], stdout=subprocess.PIPE, text=True) as first:
        copy = int(first.stdout.readline())
        try:
            watched = os.pidfd_open(copy)
        except ProcessLookupError:
            return
        ended, _, _ = select.select([watched], [], [], 60)
        os.close(watched)
    assert ended
    assert first.returncode == -signal.SIGKILL


def test_what_is_made_beside_is_given_as_often_as_it_is_called_for(among):
    with meanwhile(lambda: ["made"], 1000) as given:
        assert given() is given()
        assert given() == ["made"]


def test_what_is_made_beside_and_never_called_for_leaves_no_process_behind(among, copies):
    with meanwhile(lambda: 1, 1000):
        pass
    assert len(copies) == (among > 1)
    assert all(map(is_gone, copies))


def test_what_a_copy_fails_to_make_beside_is_made_here_and_raises_here(among):
    here = os.getpid()

    def fail():
        if os.getpid() == here:
            raise ValueError("made here")
        raise OSError("in the copy")

    with meanwhile(fail, 1000) as given, pytest.raises(ValueError, match="made here"):
        given()


def test_what_cannot_be_handed_over_is_made_here(among):
    with meanwhile(lambda: lambda: 1, 1000) as given:
        assert given()() == 1


@pytest.mark.parametrize("lacking", ["fork", "file"])
def test_where_no_copy_can_be_had_everything_is_made_here(among, monkeypatch, lacking):
    def none(*given):
        raise OSError("there are no more")

    if lacking == "fork":
        monkeypatch.setattr(os, "fork", none)
    else:
        monkeypatch.setattr(shares, "TemporaryFile", none)
    assert made_by(str.upper, ["a", "b", "c"]) == [(0, "A"), (1, "B"), (2, "C")]
    with meanwhile(lambda: 1, 1000) as given:
        assert given() == 1


def test_where_the_system_gathers_ended_copies_by_itself_what_they_made_is_had(among):
    before = signal.signal(signal.SIGCHLD, signal.SIG_IGN)
    try:
        assert made_by(str.upper, ["a", "b", "c"]) == [(0, "A"), (1, "B"), (2, "C")]
    finally:
        signal.signal(signal.SIGCHLD, before)


def test_little_work_is_not_shared_out():
    assert shares._shares(shares.WORTH_A_COPY - 1) == 1


def test_a_process_with_threads_is_not_copied(monkeypatch):
    monkeypatch.setattr(shares.threading, "active_count", lambda: 2)
    assert shares._shares(10_000) == 1
