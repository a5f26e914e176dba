"""Long runs of what can go wrong with a library, to be left alone; each prints its figures and fails at the first loss.

    python -m tests.faults.long                     all of it, in the short counts of one coffee
    python -m tests.faults.long kills=9500 commands=500 flips=2000 full=50

kills   processes killed at random moments, and at calls of the system, of all ways to write; see `tests.faults.victim`
commands  whole commands killed, each a fresh process; see `tests.faults.commands`
written   commands that put an answer into a car's file killed; see `tests.faults.written`
flips   single bits flipped, of sweeps and caches; see `tests.faults.flipping`
full    every write of every way to change a library refused once by a full disk, in turn
"""

from __future__ import annotations

import errno
import itertools
import os
import random
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from unittest import mock

from dynoan.errors import DynoanError
from dynoan.library import Library
from dynoan.library.car_file import car_from_text
from dynoan.model.setup import Setup
from tests.faults import commands, kill_many, written
from tests.faults.flipping import flip_many, make
from tests.library.made import CAR, made_sweep
from tests.once import remembered

_CHOOSE = random.Random(1)
STEPS = ("open", "fsync", "link", "replace")
_DAYS = itertools.cycle(range(1971, 2200))  # a day of its own for each setup
SHORT = {"kills": 100, "commands": 10, "written": 5, "flips": 100, "full": 3}


@contextmanager
def full_at(step: str, number: int) -> Iterator[list[int]]:
    """Let the system's call of that name fail as on a full disk, the one of that number alone; count the calls."""
    whole, calls = getattr(os, step), [0]

    def fail(*what: object, **how: object) -> object:
        calls[0] += 1
        if calls[0] == number:
            raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC), str(what[0]))
        return whole(*what, **how)

    with mock.patch.object(os, step, fail):
        yield calls


def changes(library: Library) -> dict[str, Callable[[], object]]:
    """Return each way to change a library."""
    car = car_from_text(CAR, "cars/kestrel.toml")
    return {
        "add": lambda: library.add(*made_sweep(time.monotonic_ns() % 10**9)),
        "edit": lambda: library.edit(_drawn(library), pack=f"p{_CHOOSE.randrange(99)}"),
        "setup": lambda: library.record_setup(Setup("", car, f"{next(_DAYS)}-05-02"), CAR),
        "remove": lambda: library.remove(_drawn(library)),
        "edit what is not there": lambda: library.edit(_absent(), pack="p"),
        "remove what is not there": lambda: library.remove(_absent()),
        "list": library.records,
    }


def _drawn(library: Library) -> str:
    """Return the id of any of a library's sweeps."""
    return _CHOOSE.choice([r.id for r in library.records()])


def _absent() -> str:
    """Return an id that is not there."""
    return f"{_CHOOSE.getrandbits(40):010x}"


def full(rounds: int) -> int:
    """Let each call of each step of each change fail in turn, hold that the library stays sound; return how many."""
    failed = 0
    with tempfile.TemporaryDirectory() as folder:
        library = Library.create(Path(folder) / "library")
        for number in range(4):
            library.add(*made_sweep(number))
        for name in list(changes(library)) * rounds:
            for step in STEPS:
                failed += _each_call(library, name, step)
    return failed


def _each_call(library: Library, name: str, step: str) -> int:
    for number in range(1, 100):
        before = {r.id for r in library.records()}
        while len(before) < 3:
            before.add(library.add(*made_sweep(time.monotonic_ns() % 10**9)).id)
        job = changes(library)[name]
        with full_at(step, number) as calls, suppress(DynoanError):
            job()
        assert library.check().faults == (), f"{name}: {step} {number}"
        lost = before - {r.id for r in library.records()}
        assert len(lost) <= (name == "remove"), f"{name}: {step} {number} lost {lost}"
        if calls[0] < number:
            return number - 1
    raise AssertionError(f"{name}: {step} goes on for ever")


def flips(count: int) -> dict[str, int]:
    """Flip bits of a library with warm caches; return how often the answer stayed, and how often the file was named."""
    # What is fitted anew because a cache is not believed comes out as before: it is reckoned once.
    with tempfile.TemporaryDirectory() as folder, remembered(Path(folder)):
        return flip_many(make(Path(folder) / "team"), count, seed=1)


def main(words: list[str]) -> None:
    """Run what is asked for as NAME=COUNT, or all of it in short."""
    asked = {name: int(count) for name, _, count in (word.partition("=") for word in words)} or SHORT
    jobs: dict[str, Callable[[int], object]] = {
        "kills": kill_many.main, "commands": commands.main, "written": written.main, "flips": flips, "full": full,
    }  # fmt: skip
    for name, count in asked.items():
        started = time.monotonic()
        found = jobs[name](count)
        print(f"{name}={count}: {'' if found is None else found} in {time.monotonic() - started:.0f} s", flush=True)


if __name__ == "__main__":
    main(sys.argv[1:])
