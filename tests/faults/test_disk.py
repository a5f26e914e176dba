"""Disks that are full, read-only, gone or failing: one line that says so, and nothing changed."""

from __future__ import annotations

import errno
import os
import shutil
import subprocess
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from dynoan.errors import LibraryError, LookupFault
from dynoan.jobs.demo import make_library
from dynoan.jobs.demo.files import leave_files
from dynoan.jobs.undo import LibraryChange
from dynoan.library import Library
from dynoan.library.car_edit import CornerSetting
from dynoan.library.car_file import car_from_text
from dynoan.model.setup import Setup
from dynoan.model.trial import Trial, TrialRun
from dynoan.window.desk import Desk
from dynoan.window.dropped import Dropped
from dynoan.window.undo_shelf import Undoable, UndoShelf
from tests.fuzz.window_forms import filled
from tests.library.calling import dynoan
from tests.library.made import CAR, LAYOUT, made_sweep


@pytest.fixture
def library(tmp_path):
    library = Library.create(tmp_path / "library")
    library.add(*made_sweep(0))
    return library


def snapshot(library: Library) -> dict[str, bytes]:
    """Every file but the caches and the lock, by name."""
    found = (p for p in library.path.rglob("*") if p.is_file() and p.name != ".lock" and "cache" not in p.parts)
    return {str(p.relative_to(library.path)): p.read_bytes() for p in found}


def changes(library: Library) -> dict[str, object]:
    """Each way of changing a library."""
    sweep_id = library.records()[0].id
    car = car_from_text(CAR, "cars/kestrel.toml")
    return {
        "add": lambda: library.add(*made_sweep(1)),
        "edit": lambda: library.edit(sweep_id, pack="tarmac"),
        "setup": lambda: library.record_setup(Setup("", car, "2026-05-02"), CAR),
    }


@pytest.mark.parametrize("change", ["add", "edit", "setup"])
@pytest.mark.parametrize(
    ("number", "words"),
    [
        (errno.ENOSPC, "the disk is full"), (errno.EROFS, "the disk is read-only"), (errno.EACCES, "no permission"),
        (errno.EIO, "the disk reports a fault"), (errno.EDQUOT, "quota"), (errno.EFBIG, "too large"),
    ],
)  # fmt: skip
@pytest.mark.parametrize("step", ["fsync", "open"])
def test_a_disk_that_fails_at_a_step_changes_nothing(library, monkeypatch, change, number, words, step):
    """Running as root, a folder without write permission does not refuse: the system's answer is put in its place."""
    before, job = snapshot(library), changes(library)[change]
    whole = getattr(os, step)

    def fail(path: object, *rest: object, **more: object) -> object:
        if step == "fsync" or ".tmp-" in str(path):
            raise OSError(number, os.strerror(number), str(path))
        return whole(path, *rest, **more)

    with monkeypatch.context() as patch:
        patch.setattr(os, step, fail)
        with pytest.raises(LibraryError, match=words) as caught:
            job()
    assert "\n" not in str(caught.value)
    assert "nothing was changed" in str(caught.value)
    assert snapshot(library) == before
    job()  # and it can be done again once the disk is well
    assert library.check().faults == ()


@contextmanager
def mounted(place: Path, size: str) -> Iterator[Path]:
    """A disk of that size, mounted as long as it is needed; the test is skipped where that is not allowed."""
    done = shutil.which("mount") and subprocess.run(
        ["mount", "-t", "tmpfs", "-o", f"size={size}", "tmpfs", str(place)], capture_output=True, check=False
    )
    if not done or done.returncode:
        pytest.skip("a small disk cannot be mounted here")
    try:
        yield place
    finally:
        subprocess.run(["umount", "-l", str(place)], check=True)


@pytest.fixture
def small_disk(tmp_path):
    """A disk of 1 MB."""
    disk = tmp_path / "disk"
    disk.mkdir()
    with mounted(disk, "1m"):
        yield disk


def test_a_disk_that_really_fills_up(small_disk):
    library = Library.create(small_disk / "library")
    kept: list[str] = []

    def fill() -> None:
        for number in range(1000):
            kept.append(library.add(*made_sweep(number, samples=5000)).id)

    with pytest.raises(LibraryError, match="the disk is full; nothing was changed") as caught:
        fill()
    assert str(small_disk) in str(caught.value)
    assert len(kept) >= 2
    assert sorted(kept) == [r.id for r in library.records()]
    assert library.check().faults == ()
    assert not list(library.path.rglob(".tmp-*"))
    library.remove(kept[0])
    assert library.add(*made_sweep(2000, samples=5000)).new


def test_a_disk_that_really_is_read_only(small_disk):
    library = Library.create(small_disk / "library")
    kept = library.add(*made_sweep(1)).id
    subprocess.run(["mount", "-o", "remount,ro", str(small_disk)], check=True)
    for change in (
        lambda: library.add(*made_sweep(2)),
        lambda: library.edit(kept, pack="x"),
        lambda: library.remove(kept),
    ):
        with pytest.raises(LibraryError, match="read-only"):
            change()
    assert [r.id for r in library.records()] == [kept]
    assert library.load(kept).samples == 200
    assert library.check().faults == ()


def test_a_folder_that_vanishes_is_named(library):
    moved = library.path.with_name("elsewhere")
    library.path.rename(moved)
    sweep_id = Library(moved).records()[0].id
    car, run = car_from_text(CAR, "cars/kestrel.toml"), TrialRun("a", 4.8, "4.8 s", "2026-05-02")
    planned = Trial("start", "soft", "hard", less=True, unit="s")
    jobs = (
        lambda: library.add(*made_sweep(3)), library.records, library.check,
        lambda: library.record_setup(Setup("", car, "2026-05-02"), CAR), lambda: library.trials.keep_new(planned),
        lambda: library.write_text_file("cars", "new", CAR), lambda: library.save_layout("odd", LAYOUT),
        lambda: library.trials.add_runs("start", (run,)), lambda: Desk(library).write("cars/new.toml", CAR.encode()),
        lambda: Dropped(library.path).put("run.csv", b"1,2", 1.0), lambda: library.car("kestrel"),
        lambda: library.trial("start"),
    )  # fmt: skip
    for job in jobs:
        with pytest.raises(LibraryError, match="is gone"):
            job()
    library.cache("curve", "key", b"x")
    UndoShelf(library.path).put(Undoable(LibraryChange("x", {"cars/x.toml": None}, {"cars/x.toml": None})))
    assert not library.path.exists(), "nothing lies where a stick may be put in again"
    for job in (lambda: library.load(sweep_id), lambda: library.remove(sweep_id)):
        with pytest.raises((LookupFault, LibraryError)):
            job()
    with pytest.raises(LookupFault, match="no such folder"):
        Library.find(library.path)
    moved.rename(library.path)
    assert library.add(*made_sweep(3)).new


def test_a_file_in_place_of_the_sweeps_folder_is_named(tmp_path):
    library = Library.create(tmp_path / "library")
    (library.path / "sweeps").rmdir()
    (library.path / "sweeps").write_bytes(b"")
    with pytest.raises(LibraryError, match="a file is in the way"):
        library.add(*made_sweep())


def test_a_library_copied_without_its_empty_folders_takes_sweeps(tmp_path):
    """Version control and some sync tools drop empty folders."""
    library = Library.create(tmp_path / "library")
    for folder in library.path.iterdir():
        if folder.is_dir():
            folder.rmdir()
    assert library.records() == ()
    assert library.add(*made_sweep()).new
    assert len(library.records()) == 1


def test_a_cache_that_cannot_be_written_stops_nothing(library, monkeypatch):
    def full(self: Path, *_args: object, **_kwargs: object) -> None:
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr(Path, "write_bytes", full)
    monkeypatch.setattr(Path, "write_text", full)
    library.cache("curve", "key", b"data")
    assert library.cached("curve", "key") is None
    assert len(library.records()) == 1


def test_a_picture_of_a_car_with_an_axle_that_has_no_curves_is_written(tmp_path):
    library = filled(tmp_path / "lib")  # the rear of its car has no pack
    at = np.arange(3000) / 1000.0
    whole, original = made_sweep(7)
    moving = {"time": at, "velocity": 0.3 * np.sin(9 * at), "force": 900 * np.sin(9 * at) + 60}
    library.add(replace(whole, channels=moving, clicks={"lsc": 9, "lsr": 9}), original)
    for record in library.records():
        if record.clicks["lsc"] != 9:
            library.remove(record.id)
    done = dynoan("--library", library.path, "ratio", "kestrel", "--plot", tmp_path / "ratio.png")
    assert (done.code, (tmp_path / "ratio.png").stat().st_size > 10_000) == (0, True), done.err


@pytest.mark.parametrize("size", ["4k", "20k", "60k", "200k"])
def test_a_demo_on_a_disk_that_fills_up_leaves_nothing_behind(tmp_path, size):
    disk = tmp_path / "disk"
    disk.mkdir()
    with mounted(disk, size):
        with pytest.raises(LibraryError, match="the disk is full"):
            make_library(disk / "new" / "demo")
        assert list(disk.iterdir()) == []


def test_a_library_on_a_full_disk_leaves_no_folders(tmp_path, monkeypatch):
    def full(*_what: object) -> None:
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    monkeypatch.setattr(os, "fsync", full)
    for make in (Library.create, leave_files):
        with pytest.raises(LibraryError, match="the disk is full"):
            make(tmp_path / "a" / "library")
    assert list(tmp_path.iterdir()) == []


def test_a_change_that_the_disk_does_not_confirm_is_not_said_to_be_undone(library, monkeypatch):
    """A file is in place before its folder is synced: from there on nothing is taken back."""
    sweep_id, whole = library.records()[0].id, os.fsync

    def fail(handle: int) -> None:
        if os.path.isdir(f"/proc/self/fd/{handle}"):
            raise OSError(errno.EIO, os.strerror(errno.EIO))
        whole(handle)

    jobs = (lambda: library.edit(sweep_id, pack="tarmac"), lambda: library.add(*made_sweep(1)),
            lambda: library.remove(sweep_id))  # fmt: skip
    with monkeypatch.context() as patch:
        patch.setattr(os, "fsync", fail)
        for job in jobs:
            with pytest.raises(LibraryError, match="changed, but the disk does not confirm") as caught:
                job()
            assert "nothing was changed" not in str(caught.value)
    assert [r.id for r in library.records()] != [sweep_id]


def test_who_may_read_a_file_and_where_it_really_lies_stay_as_they_were(library, tmp_path):
    real = tmp_path / "elsewhere.toml"
    real.write_text(CAR)
    real.chmod(0o640)
    (library.path / "cars").mkdir(exist_ok=True)
    (library.path / "cars" / "kestrel.toml").symlink_to(real)
    library.write_settings("kestrel", {"fl": CornerSetting("gravel", {"lsc": 3})})
    assert 'clicks = "lsc=3"' in real.read_text()
    assert (library.path / "cars" / "kestrel.toml").is_symlink()
    assert real.stat().st_mode & 0o777 == 0o640


@pytest.mark.parametrize(("mask", "mode"), [(0o077, 0o600), (0o022, 0o644), (0o002, 0o664)])
def test_a_new_file_may_be_read_by_whom_the_system_is_told_to_let(tmp_path, mask, mode):
    old = os.umask(mask)
    try:
        library = Library.create(tmp_path / "library")
        sweep = library.add(*made_sweep())
        library.edit(sweep.id, pack="tarmac")
    finally:
        os.umask(old)
    files = [p for p in library.path.rglob("*") if p.is_file() and "cache" not in p.parts]
    assert {p.stat().st_mode & 0o777 for p in files} == {mode}
