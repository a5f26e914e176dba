"""Work shared out: fitted before it is asked for, side by side, by processes that go when nothing is left to do."""

import threading
import time
from dataclasses import replace

import pytest

from dynoan.errors import CallError
from dynoan.library import Library
from dynoan.reading import read
from dynoan.window.desk import Desk
from dynoan.window.sharing import RestingWorkers, beside
from dynoan.window.working import Works
from dynoan.workbench import Workbench
from tests.window.conftest import DEMO

RUN = DEMO / "dyno" / "FL-01_gravel_lsc10_hsc10_lsr10_hsr10.csv"


class Pool:
    """In the place of processes."""

    def __init__(self):
        self.given, self.over = [], 0

    def submit(self, *given):
        self.given.append(given)

    def shutdown(self, **_):
        self.over += 1


@pytest.fixture
def pool(monkeypatch):
    made = Pool()
    monkeypatch.setattr("dynoan.batch.workers.pool_of", lambda _count: made)
    monkeypatch.setattr("dynoan.window.sharing.IDLE", 0.05)
    return made


def test_processes_go_when_nothing_is_left_to_do_and_not_before(pool):
    workers = RestingWorkers("json")
    with workers.at_hand():
        workers.warm()
        workers.warm()
        time.sleep(0.2)
        assert len(pool.given) == workers.workers
        assert not pool.over
    until = time.monotonic() + 300
    while not pool.over and time.monotonic() < until:
        time.sleep(0.01)
    assert pool.over == 1


def test_parts_side_by_side_tell_how_far_all_of_them_are():
    works, told, both = Works(), [], threading.Barrier(2, timeout=300)

    def part(many):
        def do(progress):
            progress("fitting", 0, many)
            both.wait()
            progress("fitting", many, many)

        return do

    def run(work):
        beside(work, {"gravel": part(11), "tarmac": part(5)})
        told.append((work.step, work.done, work.all))

    assert works.begin("maps", "Maps", run).over.wait(300)
    assert told == [("fitting", 16, 16)]


def test_what_one_part_raises_is_raised_once_all_have_ended():
    works, ended = Works(), []

    def refuse(_progress):
        raise CallError("no such pack")

    def last(_progress):
        time.sleep(0.05)
        ended.append(True)

    work = works.begin("maps", "Maps", lambda work: beside(work, {"none": refuse, "gravel": last}))
    assert work.over.wait(300)
    assert (work.state, work.error, ended) == ("failed", "no such pack", [True])


def test_curves_of_dropped_files_are_there_once_they_are_kept(tmp_path, monkeypatch):
    desk = Desk(Library.create(tmp_path / "team"))
    desk.workers.warm = lambda: None
    for path in (
        RUN,
        DEMO / "unlabelled.csv",
    ):  # the second names no pack: nobody knows yet what it will be pooled with
        desk.dropped.put(path.name, path.read_bytes(), time.time())
    desk.fit_ahead()
    (work,) = desk.works.under_way()
    assert work.over.wait(300)
    assert work.state == "done"
    with desk.bench() as bench:
        kept = bench.library.add(read(RUN)[0], RUN.read_bytes())
    fresh = Workbench(Library(desk.path))
    monkeypatch.setattr("dynoan.workbench.fitting_jobs.fit_curve", lambda _job: pytest.fail("fitted again"))
    assert fresh.curve(kept.id).sweeps == (kept.id,)
    assert len(list((desk.path / "cache" / "curve").iterdir())) == 1
    desk.close()


def test_a_file_that_cannot_be_kept_hides_no_other(tmp_path):
    bench = Workbench(Library.create(tmp_path / "team"))
    sweep, data = read(RUN)[0], RUN.read_bytes()
    bench.fit_ahead([(replace(sweep, pack="a\nb"), data), (sweep, data)])
    assert len(list((tmp_path / "team" / "cache" / "curve").iterdir())) == 1


def test_what_reads_and_fits_files_begins_a_moment_after_their_page_and_not_where_the_window_is_shut(
    tmp_path, pool, monkeypatch
):
    monkeypatch.setattr("dynoan.window.desk.A_MOMENT", 0.05)
    desk, loaded = Desk(Library.create(tmp_path / "team")), threading.Event()
    desk.ready_to_read(loaded.set)
    desk.close()
    time.sleep(0.2)
    assert not pool.given
    assert not loaded.is_set()
    desk.ready_to_read(loaded.set)
    desk.ready_to_read(loaded.set)
    until = time.monotonic() + 300
    while len(pool.given) < desk.workers.workers and time.monotonic() < until:
        time.sleep(0.01)
    assert len(pool.given) == desk.workers.workers
    assert loaded.wait(300)
    desk.close()


def test_what_is_loaded_ahead_waits_for_a_page_that_is_made_and_a_moment_longer(tmp_path, pool, monkeypatch):
    monkeypatch.setattr("dynoan.window.desk.A_MOMENT", 0.05)
    desk, loaded = Desk(Library.create(tmp_path / "team")), threading.Event()
    with desk.page_first():
        desk.ready_to_read(loaded.set)
        assert not loaded.wait(0.3)
        assert not pool.given
    made = time.monotonic()
    assert loaded.wait(300)
    assert time.monotonic() - made >= 0.05
    desk.close()


def test_what_waits_for_a_page_loads_nothing_once_the_window_is_shut(tmp_path, pool, monkeypatch):
    monkeypatch.setattr("dynoan.window.desk.A_MOMENT", 0.02)
    desk, loaded = Desk(Library.create(tmp_path / "team")), threading.Event()
    with desk.page_first():
        desk.ready_to_read(loaded.set)
        time.sleep(0.1)
        desk.close()
    assert not loaded.wait(0.2)
    assert not pool.given
