"""The same job for many items, however it is shared out."""

from __future__ import annotations

import os
import subprocess
import sys
from dataclasses import replace

import psutil
import pytest

from dynoan.batch import are_kept, iterate, kept_workers
from dynoan.errors import CallError, LibraryError, QuantityError
from dynoan.jobs.read.understanding import understand
from dynoan.model.importing import ReadOptions
from tests.library.calling import write_run
from tests.library.shared_out import die, map_all, refuse, squared, squared_by, where, whose


def test_in_one_process_results_keep_their_order():
    assert map_all(squared, range(5), 1) == [0, 1, 4, 9, 16]
    assert map_all(squared, []) == []


def test_one_process_does_no_more_than_is_asked_for():
    asked = []
    results = iterate(asked.append, [1, 2, 3], 1)
    assert asked == []
    next(results)
    assert asked == [1]


@pytest.mark.slow
def test_processes_give_the_same_results_in_the_same_order():
    numbers = list(range(60))
    found = map_all(squared_by, numbers, 2)
    assert [square for square, _ in found] == [squared(n) for n in numbers]
    assert os.getpid() not in {worker for _, worker in found}
    with pytest.raises(QuantityError, match="three is no number"):
        map_all(refuse, numbers, 1)
    with pytest.raises(LibraryError, match="a worker process was killed"):
        map_all(die, numbers, 2)


@pytest.fixture(scope="module")
def cluster():
    """A real scheduler with two worker processes on this machine."""
    distributed = pytest.importorskip("distributed")  # here: it takes a second of whoever collects
    with distributed.LocalCluster(
        n_workers=2, threads_per_worker=1, processes=True, dashboard_address=None, host="127.0.0.1"
    ) as local:
        yield local.scheduler_address


@pytest.mark.slow
def test_a_cluster_of_two_workers_gives_the_same_results(cluster, tmp_path):
    numbers = list(range(60))
    assert map_all(squared, numbers, cluster=cluster) == [squared(n) for n in numbers]
    workers = set(map_all(whose, numbers, cluster=cluster))
    assert len(workers) == 2
    assert os.getpid() not in workers
    with pytest.raises(QuantityError, match="three is no number"):
        map_all(refuse, numbers, cluster=cluster)


@pytest.mark.slow
def test_a_cluster_keeps_the_same_sweeps(cluster, tmp_path, monkeypatch):
    from dynoan.library import Library
    from tests.library.calling import dynoan

    files = [write_run(tmp_path / f"{n}.csv", seed=n) for n in range(4)]
    options = ("--shock", "FL-01", "--pack", "gravel", "--clicks", "lsc=1", "--json")
    here = dynoan("add", *files, *options, "--library", tmp_path / "here")
    there = dynoan("add", *files, *options, "--library", tmp_path / "there", "--cluster", cluster)
    assert (here.code, there.code) == (0, 0)
    one, two = Library(tmp_path / "here"), Library(tmp_path / "there")
    assert len(one.records()) == 4
    assert [r.id for r in one.records()] == [r.id for r in two.records()]
    for record in one.records():
        mine, theirs = one.load(record.id), two.load(record.id)
        assert replace(mine, channels={}) == replace(theirs, channels={})
        assert {n: v.tobytes() for n, v in mine.channels.items()} == {
            n: v.tobytes() for n, v in theirs.channels.items()
        }
        assert one.original(record.id) == two.original(record.id)


def test_a_cluster_that_does_not_answer_is_named(monkeypatch):
    pytest.importorskip("distributed")
    monkeypatch.setattr("dynoan.batch.sharing.CONNECT", 1)
    with pytest.raises(CallError, match=r"--cluster tcp://127\.0\.0\.1:9: no scheduler answers there"):
        map_all(squared, [1, 2], cluster="tcp://127.0.0.1:9")


def test_without_the_extra_it_says_what_to_install(monkeypatch):
    monkeypatch.setitem(__import__("sys").modules, "distributed", None)
    with pytest.raises(CallError, match=r"pip install 'dynoan\[cluster\]'"):
        map_all(squared, [1, 2], cluster="tcp://127.0.0.1:9")


def test_a_worker_turns_any_fault_of_an_importer_into_a_line(monkeypatch, tmp_path):
    def broken(*_args: object) -> None:
        raise ZeroDivisionError("division by zero")

    monkeypatch.setattr("dynoan.jobs.read.understanding.read_bytes", broken)
    found = understand(write_run(tmp_path / "a.csv"), ReadOptions())
    assert found.error == "a.csv: a fault of the program (ZeroDivisionError: division by zero)"


@pytest.mark.slow
def test_kept_workers_serve_every_call_inside_and_stand_in_the_callers_folder(tmp_path, monkeypatch):
    monkeypatch.setattr("dynoan.batch.workers.cores", lambda: 2)
    assert not are_kept()
    with kept_workers():
        assert are_kept()
        # The second begins once there is more to do than the first takes, so a call may be served by one or both.
        served = [{worker for _, worker in map_all(squared_by, range(40), 2)} for _ in range(2)]
        monkeypatch.chdir(tmp_path)
        assert set(map_all(where, range(4), 2)) == {str(tmp_path)}
        served.append({worker for _, worker in map_all(squared_by, range(40), 2)})
        there = {child.pid for child in psutil.Process().children()}
        assert len(set.union(*served)) <= 2, "new ones for each call would be three or more"
        assert set.union(*served) <= there, "who served once serves on"
        with pytest.raises(QuantityError, match="three is no number"):
            map_all(refuse, range(5), 2)
        with pytest.raises(LibraryError, match="a worker process was killed"):
            map_all(die, range(5), 2)
        assert map_all(squared, range(5), 2) == [0, 1, 4, 9, 16]
    assert not are_kept()


def test_a_script_without_a_guard_around_it_is_not_run_again_by_its_workers(tmp_path):
    script = tmp_path / "few_lines.py"
    script.write_text(
        "from dynoan.batch import iterate\nprint('begun')\nprint(list(iterate(abs, [-1, 2, -3], workers=2)))\n"
    )
    done = subprocess.run([sys.executable, script], capture_output=True, text=True, check=False)
    assert (done.stdout, done.stderr) == ("begun\n[1, 2, 3]\n", "")
