"""Several processes at one library: nothing lost, nothing double, no lock left behind."""

from __future__ import annotations

import multiprocessing
from pathlib import Path

import pytest

from dynoan.library import Library, files
from dynoan.library.car_file import car_from_text
from dynoan.model.setup import Setup
from tests.library.made import CAR, made_sweep

CONTEXT = multiprocessing.get_context("forkserver")


def add_some(folder: Path, first: int, count: int, results: object) -> None:
    library = Library.open_or_create(folder)
    results.put([library.add(*made_sweep(number, samples=50)) for number in range(first, first + count)])


def edit_some(folder: Path, sweep_id: str, key: str, results: object) -> None:
    library = Library(folder)
    for number in range(12):
        library.edit(sweep_id, **{key: f"{key}-{number}"})
    results.put(key)


def record_some(folder: Path, who: str, results: object) -> None:
    library = Library(folder)
    car = car_from_text(CAR, "cars/kestrel.toml")
    results.put([library.record_setup(Setup("", car, "2026-05-02", remarks=f"{who} {n}"), CAR).name for n in range(5)])


def together(target, arguments: list[tuple[object, ...]]) -> list:
    CONTEXT.set_forkserver_preload(["tests.faults.victim"])
    results = CONTEXT.Queue()
    processes = [CONTEXT.Process(target=target, args=(*each, results)) for each in arguments]
    for process in processes:
        process.start()
    found = [results.get(timeout=300) for _ in processes]
    for process in processes:
        process.join(300)
        assert process.exitcode == 0
    return found


@pytest.mark.parametrize("processes", [2, 8])
def test_processes_that_add_different_sweeps_lose_none(tmp_path, processes):
    folder = tmp_path / "library"  # which each of them also wants to make
    found = together(add_some, [(folder, n * 100, 12) for n in range(processes)])
    added = [a for each in found for a in each]
    assert all(a.new for a in added)
    library = Library(folder)
    assert {r.id for r in library.records()} == {a.id for a in added}
    assert len(added) == 12 * processes
    assert library.check().faults == ()


@pytest.mark.parametrize("processes", [2, 8])
def test_processes_that_add_the_same_sweeps_keep_each_once(tmp_path, processes):
    folder = tmp_path / "library"
    found = together(add_some, [(folder, 0, 12)] * processes)
    library = Library(folder)
    assert len(library.records()) == 12
    for number in range(12):
        assert [each[number].new for each in found].count(True) == 1
    assert library.check().faults == ()


def test_edits_of_different_facts_at_once_all_count(tmp_path):
    library = Library.create(tmp_path / "library")
    sweep_id = library.add(*made_sweep()).id
    together(edit_some, [(library.path, sweep_id, key) for key in ("shock", "pack")])
    (record,) = library.records()
    assert (record.shock, record.pack) == ("shock-11", "pack-11")


def test_setups_recorded_at_once_get_names_of_their_own(tmp_path):
    library = Library.create(tmp_path / "library")
    found = together(record_some, [(library.path, who) for who in "abcd"])
    names = [name for each in found for name in each]
    assert len(set(names)) == 20
    assert {s.remarks for s in library.setups()} == {f"{who} {n}" for who in "abcd" for n in range(5)}


def test_without_hard_links_nothing_is_written_over(tmp_path, monkeypatch):
    """As on a FAT stick: placing a file then goes by a lock instead."""

    def no_links(*_args: object) -> None:
        raise PermissionError(1, "Operation not permitted")

    monkeypatch.setattr("os.link", no_links)
    library = Library.create(tmp_path / "library")
    first = library.add(*made_sweep())
    assert first.new
    assert library.add(*made_sweep()).new is False
    path = library.path / "sweeps" / f"{first.id}.h5"
    before = path.read_bytes()
    assert files.write_new(path, b"another") is False
    assert path.read_bytes() == before
    assert library.check().faults == ()
    assert [r.id for r in library.records()] == [first.id]
