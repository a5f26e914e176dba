"""Python's search for garbage goes on after the last that held it, whoever came first."""

import gc
import threading

import pytest

from dynoan.library.uncollected import uncollected


def test_it_is_held_and_goes_on():
    assert gc.isenabled()
    with uncollected():
        assert not gc.isenabled()
    assert gc.isenabled()


def test_what_fails_lets_it_go_on():
    with pytest.raises(ZeroDivisionError), uncollected():
        1 / 0  # noqa: B018
    assert gc.isenabled()


def test_two_threads_that_overlap_leave_it_on():
    first_in, second_in, first_out = threading.Event(), threading.Event(), threading.Event()
    seen = []

    def first():
        with uncollected():
            first_in.set()
            second_in.wait(10)
        seen.append(gc.isenabled())
        first_out.set()

    def second():
        first_in.wait(10)
        with uncollected():
            second_in.set()
            first_out.wait(10)
            seen.append(gc.isenabled())

    threads = [threading.Thread(target=job) for job in (first, second)]
    for one in threads:
        one.start()
    for one in threads:
        one.join()
    assert seen == [False, False]
    assert gc.isenabled()


def test_who_switched_it_off_finds_it_off():
    gc.disable()
    try:
        with uncollected():
            pass
        assert not gc.isenabled()
    finally:
        gc.enable()
