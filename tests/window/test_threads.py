"""Questions asked at once, by several threads, are answered as one after the other."""

import random
from concurrent.futures import ThreadPoolExecutor
from threading import Barrier

import pytest

ASKED = (
    "/api/ratio?car=kestrel", "/api/ratio?car=kestrel&units=us", "/api/choose?car=kestrel", "/api/health?shock=RR-04",
    "/api/predict?pack=gravel&clicks=lsc%3D5", "/api/plan?pack=tarmac", "/api/curve?what=gravel%40lsc%3D10",
    "/api/curve?what=shock%3DRR-04&units=us", "/api/identify?what=unlabelled.csv",
    "/api/match?what=shock%3DRL-03&what=shock%3DRR-04", "/curves/data?s=gravel%40lsc%3D5&s=tarmac",
    "/car/data?car=kestrel&front.spring=50%20N/mm", "/api/sweeps", "/api/setup-list",
)  # fmt: skip
THREADS = 6


@pytest.mark.slow
def test_six_threads_get_what_one_gets(demo):
    alone = {path: demo.get(path).json() for path in ASKED}
    again = {path: demo.get(path).json() for path in ASKED}
    assert again == alone, "or two answers of one thread differ already"
    begin = Barrier(THREADS)

    def ask(number):
        order = random.Random(number).sample(ASKED, len(ASKED))
        begin.wait(60)
        return {path: demo.get(path).json() for path in order}

    with ThreadPoolExecutor(THREADS) as threads:
        for found in threads.map(ask, range(THREADS)):
            assert found == alone
