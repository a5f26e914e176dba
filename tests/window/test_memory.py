"""The window gives memory back: by rules asked of the C library, and by holding no more than it needs."""

import subprocess
import sys
import weakref

import pytest

from dynoan.batch.memory import _glibc, give_back, keep_small
from dynoan.library import Library
from dynoan.window.desk import Desk
from dynoan.window.dropped import MOST_LOOKED
from dynoan.window.working import Works
from tests.window.conftest import DEMO

#: threads that make and drop arrays of many sizes, a few small ones kept in between as any program keeps some
_CHURN = """
import sys, threading
import numpy as np
import psutil
from dynoan.batch.memory import give_back, keep_small
if sys.argv[1] == "small":
    assert keep_small()
kept, together = [], threading.Barrier(6)  # or on a machine with nothing else to do they run one after the other
def churn(seed):
    dice = np.random.default_rng(seed)
    for _ in range(60):
        held = [np.ones(int(n)) for n in dice.integers(20_000, 400_000, 24)]
        together.wait()
        kept.append(np.ones(6_000))
        del held
before = psutil.Process().memory_info().rss
threads = [threading.Thread(target=churn, args=(seed,)) for seed in range(6)]
for t in threads: t.start()
for t in threads: t.join()
if sys.argv[1] == "small":
    give_back()
held = sum(a.nbytes for a in kept)
print((psutil.Process().memory_info().rss - before - held) / 1e6)
"""


#: the same arrays made and dropped again and again: how many pages the system hands out for them
_AGAIN = """
import resource, sys
import numpy as np
from dynoan.batch import memory
assert getattr(memory, sys.argv[1])()
held = [np.ones(300_000) for _ in range(4)]
del held
before = resource.getrusage(resource.RUSAGE_SELF).ru_minflt
for _ in range(30):
    held = [np.ones(300_000) for _ in range(4)]
    del held
print(resource.getrusage(resource.RUSAGE_SELF).ru_minflt - before)
"""


@pytest.mark.skipif(_glibc() is None, reason="no glibc here")
@pytest.mark.parametrize("rules", ["keep_small", "keep_ready"])
def test_the_rules_are_taken(rules):
    told = subprocess.run(
        [sys.executable, "-c", f"from dynoan.batch import memory; print(memory.{rules}())"],
        capture_output=True, text=True, check=True,
    )  # fmt: skip
    assert told.stdout == "True\n"


@pytest.mark.skipif(_glibc() is None, reason="no glibc here")
def test_what_a_worker_freed_is_there_for_its_next_arrays():
    def new_pages(rules):
        told = subprocess.run([sys.executable, "-c", _AGAIN, rules], capture_output=True, text=True, check=True)
        return int(told.stdout)

    assert 20 * new_pages("keep_ready") < new_pages("keep_small")


@pytest.mark.thorough  # how much is kept without the rules hangs on how the threads of a machine fall
@pytest.mark.skipif(_glibc() is None, reason="no glibc here")
def test_what_threads_freed_goes_back_to_the_system():
    def left(rules):
        told = subprocess.run([sys.executable, "-c", _CHURN, rules], capture_output=True, text=True, check=True)
        return float(told.stdout)

    assert left("small") < 40 < left("as it is")  # megabytes beside what is in use: 8 to 13 against 189


def test_another_c_library_is_left_alone(monkeypatch):
    monkeypatch.setattr(sys, "platform", "darwin")
    assert not keep_small()
    give_back()


def test_the_rows_of_few_dropped_files_are_held_and_the_cards_of_all(tmp_path, monkeypatch):
    monkeypatch.setattr("dynoan.window.dropped.MOST_LOOKED", 1_000_000)
    desk = Desk(Library.create(tmp_path / "team"))
    runs = sorted((DEMO / "dyno").iterdir())
    for i, path in enumerate(runs):
        desk.dropped.put(path.name, path.read_bytes(), float(i))
    with desk.bench() as bench:
        cards = desk.cards.all(bench, (), "metric")
        held = sum(len(one.question.brought.data) for _, one in desk.dropped._looked.values())
        assert 0 < held <= 1_000_000 < sum(path.stat().st_size for path in runs)
        assert all(card.ready for card in cards)
        assert desk.cards.all(bench, (), "metric") == cards
    assert MOST_LOOKED < 32 << 20


def test_a_work_that_is_over_lets_go_of_what_it_worked_on():
    class Logs:
        pass

    works, logs = Works(), Logs()
    left = weakref.ref(logs)
    work = works.begin("learn", "Learning", lambda _, held=logs: None)
    assert work.over.wait(5)
    del logs
    assert works.get(work.number) is work
    assert left() is None
    works.close()
