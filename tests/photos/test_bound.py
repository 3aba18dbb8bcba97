"""What threads hold at once is bounded."""

import threading
from concurrent.futures import ThreadPoolExecutor

import pytest

from daterun.photos.bound import Bound, HeldTooMuch


def test_threads_never_hold_more_than_the_bound():
    bound = Bound(10)
    lock = threading.Lock()
    held, most = 0, 0

    def work(pixels):
        nonlocal held, most
        with bound.holding(pixels):
            with lock:
                held += pixels
                most = max(most, held)
            with lock:
                held -= pixels

    with ThreadPoolExecutor(8) as pool:
        list(pool.map(work, [1, 4, 9, 3, 10, 2, 7, 5] * 60))
    assert 0 < most <= 10
    assert held == 0


def test_what_is_larger_than_the_bound_is_held_alone():
    bound = Bound(10)
    lock = threading.Lock()
    inside: list[int] = []
    beside: list[tuple[int, ...]] = []

    def work(pixels):
        with bound.holding(pixels):
            with lock:
                inside.append(pixels)
                beside.append(tuple(inside))
            with lock:
                inside.remove(pixels)

    with ThreadPoolExecutor(4) as pool:
        list(pool.map(work, [25, 3, 25, 4] * 50))
    assert all(each == (25,) for each in beside if 25 in each)


def test_what_was_held_is_free_again_after_a_failure():
    bound = Bound(10)
    try:
        with bound.holding(10):
            raise RuntimeError
    except RuntimeError:
        pass
    with bound.holding(10):
        pass


def test_what_is_larger_than_a_bound_that_does_not_wait_is_refused():
    bound = Bound(10, waits=False)
    with pytest.raises(HeldTooMuch), bound.holding(11):
        pass
    with bound.holding(10):
        pass
