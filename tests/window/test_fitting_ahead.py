"""Curves of dropped files: who takes which, and that what belongs together is fitted together."""

import threading
import time

import pytest

from dynoan.library import Library
from dynoan.reading import read
from dynoan.window.desk import Desk
from dynoan.window.dropped import Dropped
from dynoan.window.fitting_ahead import AHEAD, Waiting
from dynoan.workbench import Workbench
from tests.window.conftest import DEMO

RUN = DEMO / "dyno" / "FL-01_gravel_lsc10_hsc10_lsr10_hsr10.csv"


def never():
    return False


@pytest.fixture
def table(tmp_path):
    return Dropped(Library.create(tmp_path / "team").path)


def lay(table, *names):
    for name in names:
        table.put(name, name.encode(), time.time())


def test_no_file_is_taken_twice(table):
    lay(table, "a.csv", "b.csv")
    waiting = Waiting(table)
    assert {waiting.take(never).name, waiting.take(never).name} == {"a.csv", "b.csv"}
    assert waiting.progress == (0, 2)
    waiting.give_back()
    waiting.give_back()
    assert waiting.take(never) is None
    assert waiting.progress == (2, 2)


def test_who_is_free_takes_what_is_laid_there_while_another_is_fitted(table):
    lay(table, "a.csv")
    waiting, found = Waiting(table), []
    waiting.take(never)
    free = threading.Thread(target=lambda: found.append(waiting.take(never)), daemon=True)
    free.start()
    lay(table, "b.csv")
    free.join(300)
    assert [file.name for file in found] == ["b.csv"]


def test_who_waits_goes_once_the_others_are_done_and_where_the_work_is_stopped(table):
    lay(table, "a.csv")
    waiting, stopped, found = Waiting(table), threading.Event(), []
    waiting.take(never)
    free = [
        threading.Thread(target=lambda until=until: found.append(waiting.take(until)), daemon=True)
        for until in (stopped.is_set, never)
    ]
    for thread in free:
        thread.start()
    stopped.set()
    free[0].join(300)
    assert (found, free[1].is_alive()) == ([None], True)
    waiting.give_back()
    free[1].join(300)
    assert found == [None, None]


def test_no_more_than_so_many_are_fitted_unasked(table):
    lay(table, *(f"{i}.csv" for i in range(AHEAD + 1)))
    waiting = Waiting(table)
    assert all(waiting.take(never) for _ in range(AHEAD))
    assert waiting.take(never) is None


def test_two_runs_of_a_setting_are_fitted_together_before_they_are_kept(tmp_path):
    desk = Desk(Library.create(tmp_path / "team"))
    desk.workers.warm = lambda: None
    first, again = RUN.read_bytes(), RUN.read_bytes().replace(b"\n", b" \n", 1)
    for name, data in ((RUN.name, first), (f"again_{RUN.name}", again)):
        desk.dropped.put(name, data, time.time())
    desk.fit_ahead()
    (work,) = desk.works.under_way()
    assert work.over.wait(300)
    assert (work.state, work.done, work.all) == ("done", 2, 2)
    path = tmp_path / f"again_{RUN.name}"
    path.write_bytes(again)
    with desk.bench() as bench:
        for one, data in ((read(RUN)[0], first), (read(path)[0], again)):
            bench.library.add(one, data)
    ((runs, curve),) = Workbench(Library(desk.path)).fitted("gravel")
    assert len(curve.sweeps) == len(runs) == 2
    desk.close()
