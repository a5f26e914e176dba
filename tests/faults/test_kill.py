"""A killed process loses nothing that it reported as kept, and leaves no half file in sight."""

from __future__ import annotations

import os
import time

import pytest

from dynoan.library import Library
from tests.faults.killing import Ledger, begin, kill_once, verify
from tests.library.made import made_sweep


@pytest.mark.slow
@pytest.mark.thorough
def test_forty_kills_at_random_moments(tmp_path):
    library = tmp_path / "library"
    begin(library)
    ledger = Ledger()
    for seed in range(1, 41):
        kill_once(library, seed, ledger)
    verify(library, ledger)
    assert len(ledger.packs) + len(ledger.setups) > 40


def test_the_ledger_sees_a_loss(tmp_path):
    """The check above can fail: a sweep that goes missing, an edit that is undone, a file cut short are seen."""
    library = Library.create(tmp_path / "library")
    ids = [library.add(*made_sweep(n)).id for n in range(2)]
    ledger = Ledger()
    for line in (f"add {ids[0]} gravel", f"add {ids[1]} gravel"):
        ledger.take(line)
    verify(library.path, ledger)
    ledger.take(f"edit {ids[0]} tarmac")
    with pytest.raises(AssertionError, match=r"reported \{'tarmac'\}"):
        verify(library.path, ledger)
    library.edit(ids[0], pack="tarmac")
    verify(library.path, ledger)
    library.remove(ids[1])
    with pytest.raises(AssertionError, match="None, reported"):
        verify(library.path, ledger)


@pytest.mark.parametrize("point", ["open", "fsync", "link", "unlink"])
def test_a_write_that_stops_at_any_step_is_all_or_nothing(tmp_path, monkeypatch, point):
    """Where a kill between two steps would leave the folder, seen without the luck of a random moment."""

    class Killed(BaseException):
        """Stands for a kill: no handler of the library catches it."""

    def die(*_args: object, **_kwargs: object) -> None:
        raise Killed

    library = Library.create(tmp_path / "library")
    old = library.add(*made_sweep(1)).id
    with monkeypatch.context() as patch:
        patch.setattr("pathlib.Path.unlink", die)  # a killed process tidies nothing up
        patch.setattr(f"os.{point}", die)
        with pytest.raises(Killed):
            library.add(*made_sweep(2))
    again = Library(library.path)
    assert again.check().faults == ()
    assert old in {r.id for r in again.records()}
    missing = len(again.records()) == 1
    assert again.add(*made_sweep(2)).new is missing
    assert len(again.records()) == 2


def test_leftover_temporary_files_are_no_data_and_go_when_old(tmp_path):
    library = Library.create(tmp_path / "library")
    library.add(*made_sweep())
    young, old, text = (library.path / f / f".tmp-{n}-abc" for n, f in enumerate(("sweeps", "sweeps", "setups")))
    for file in (young, old, text):
        file.write_bytes(b"half a sweep")
    for file in (old, text):
        os.utime(file, (time.time() - 7200, time.time() - 7200))
    assert library.setups() == ()
    assert not text.exists()
    assert len(library.records()) == 1
    assert library.check().faults == ()
    assert young.exists(), "a writer may still be at work on it"
    assert not old.exists()
