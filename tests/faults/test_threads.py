"""Several threads of one program at one library: each gets what one thread alone gets, nothing lost or double."""

from __future__ import annotations

import sys
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest

from dynoan.errors import DynoanError
from dynoan.jobs.read import SweepRead
from dynoan.library import Library, files
from dynoan.reading import read
from tests.importers.strangers import MAKERS
from tests.importers.strangers.judging import verdict
from tests.library.made import made_sweep

THREADS = 6
CORPUS = Path(__file__).parents[2] / "fixtures" / "layouts"
FILES = [p for p in sorted(CORPUS.iterdir()) if not p.name.endswith(".truth.json")][::9]


@pytest.fixture(autouse=True)
def _eager_switches():
    """Threads take turns a thousand times as often as usual, so that what can go wrong between them does."""
    usual = sys.getswitchinterval()
    sys.setswitchinterval(5e-6)
    yield
    sys.setswitchinterval(usual)


def each_in_threads(work, items, threads=THREADS):
    with ThreadPoolExecutor(threads) as pool:
        return list(pool.map(work, items))


def as_read(path: Path) -> object:
    try:
        return [repr(SweepRead.of(s).to_dict()) for s in read(path)]
    except DynoanError as error:
        return str(error)


def test_files_read_by_several_threads_are_read_as_by_one():
    alone = [as_read(path) for path in FILES]
    # Each file thrice, so that the same and others are under way beside it.
    order = [*FILES, *FILES[::-1], *FILES[1::2], *FILES[::2]]
    found = each_in_threads(as_read, order)
    for path, got in zip(order, found, strict=True):
        assert got == alone[FILES.index(path)], path.name


@pytest.mark.thorough
def test_odd_files_read_by_several_threads_are_read_as_by_one():
    made = [maker() for maker in MAKERS.values()]
    alone = [verdict(file) for file in made]
    assert each_in_threads(verdict, made) == alone


def test_threads_that_add_list_edit_and_read_lose_nothing(tmp_path):
    library = Library.create(tmp_path / "library")
    held = [library.add(*made_sweep(number, samples=50)).id for number in range(THREADS)]
    alone = {sweep_id: library.load(sweep_id).channels["force"].tobytes() for sweep_id in held}

    def work(thread: int) -> list[str]:
        mine = Library(library.path)
        added = []
        for number in range(6):
            added.append(mine.add(*made_sweep(100 + 10 * thread + number, samples=50)).id)
            mine.edit(held[thread], shock=f"shock-{number}")
            mine.edit(held[(thread + 1) % THREADS], pack=f"pack-{number}")
            assert {r.id for r in mine.records()} >= {*held, *added}
            for sweep_id in held:
                assert mine.load(sweep_id).channels["force"].tobytes() == alone[sweep_id]
        return added

    added = [sweep_id for each in each_in_threads(work, range(THREADS)) for sweep_id in each]
    again = Library(library.path)
    assert len(set(added)) == 6 * THREADS
    assert {r.id for r in again.records()} == {*held, *added}
    assert {(r.shock, r.pack) for r in again.records() if r.id in held} == {("shock-5", "pack-5")}
    assert again.check().faults == ()


def test_threads_that_add_the_same_sweeps_keep_each_once(tmp_path):
    library = Library.create(tmp_path / "library")
    found = each_in_threads(lambda _: [library.add(*made_sweep(n, samples=50)).new for n in range(8)], range(THREADS))
    assert [sum(one[n] for one in found) for n in range(8)] == [1] * 8
    assert len(library.records()) == 8
    assert library.check().faults == ()


def test_one_library_object_shared_by_threads_lists_and_reads_the_same(tmp_path):
    library = Library.create(tmp_path / "library")
    ids = [library.add(*made_sweep(number, samples=50)).id for number in range(12)]
    alone = {i: library.load(i).channels["force"].tobytes() for i in ids}

    def work(turn: int) -> bool:
        one = ids[turn % len(ids)]
        listed = {r.id for r in library.records()} == set(ids)
        return listed and library.load(one).channels["force"].tobytes() == alone[one]

    assert all(each_in_threads(work, range(120)))


def test_another_threads_batch_does_not_leave_an_addition_unsynced(tmp_path, monkeypatch):
    library = Library.create(tmp_path / "library")
    synced = []

    def write_new(path, data, *, sync=True):
        synced.append(sync)
        return whole(path, data, sync=sync)

    whole = files.write_new
    monkeypatch.setattr(files, "write_new", write_new)
    with library.batch():
        library.add(*made_sweep(1, samples=50))
        each_in_threads(lambda number: library.add(*made_sweep(number, samples=50)), [2])
        library.add(*made_sweep(3, samples=50))
    assert synced == [False, True, False]
