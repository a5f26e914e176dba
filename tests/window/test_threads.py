"""Questions asked at once, by several threads, are answered as one after the other."""

import random
from concurrent.futures import ThreadPoolExecutor
from threading import Barrier

import pytest

from dynoan.window.rendering import last_of_each
from dynoan.window.working import Work

ASKED = (
    "/api/ratio?car=kestrel", "/api/ratio?car=kestrel&units=us", "/api/predict?pack=gravel&clicks=lsc%3D5",
    "/api/curve?what=gravel%40lsc%3D10", "/curves/data?s=gravel%40lsc%3D5&s=tarmac",
    "/car/data?car=kestrel&front.spring=50%20N/mm", "/api/sweeps", "/api/setup/list",
)  # fmt: skip
SLOW = (
    "/api/choose?car=kestrel", "/api/health?shock=RR-04", "/api/plan?pack=tarmac", "/api/launch?car=kestrel",
    "/api/curve?what=shock%3DRR-04&units=us", "/api/match?what=shock%3DRL-03&what=shock%3DRR-04",
)  # fmt: skip
THREADS = 6


@pytest.mark.parametrize("asked", [ASKED, pytest.param(ASKED + SLOW, marks=pytest.mark.thorough)], ids=["", "all"])
def test_six_threads_get_what_one_gets(demo, asked):
    answers = {path: demo.get(path) for path in asked}
    assert {path: a.status_code for path, a in answers.items()} == dict.fromkeys(asked, 200)
    alone = {path: a.json() for path, a in answers.items()}
    begin = Barrier(THREADS)

    def ask(number):
        order = random.Random(number).sample(asked, len(asked))
        begin.wait(300)
        return {path: demo.get(path).json() for path in order}

    with ThreadPoolExecutor(THREADS) as threads:
        for found in threads.map(ask, range(THREADS)):
            assert found == alone


def test_work_that_was_asked_for_again_stands_in_one_line():
    works = [Work(1, "wear a", "Checking shocks for wear", print), Work(2, "x", "Else", print),
             Work(3, "wear b", "Checking shocks for wear", print)]  # fmt: skip
    assert [work.number for work in last_of_each(works)] == [3, 2]
