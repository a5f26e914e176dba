"""The compiled step made ready ahead is the one a launch takes: nothing is compiled again."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from dynoan.analysis.launch.large import compiled
from dynoan.jobs import compiled_ahead

LAUNCH = """
import sys
from dynoan.analysis.launch.drive import Scene, full_grip
from dynoan.analysis.launch.large import compiled
from dynoan.analysis.launch.large.model import large_car
from dynoan.analysis.launch.large.rows import run
from dynoan.analysis.launch.model import half_car
from dynoan.analysis.launch.run import sides
from tests.analysis.launch_cars import FLAT, kestrel, linear
car = kestrel()
half = half_car(car)
run(large_car(car, half), sides(*linear(car, 3e3)), [Scene(full_grip(half, FLAT), FLAT, 0.1)], [(0, 0)], keep=True)
print(sum(compiled.run_rows.stats.cache_hits.values()), sum(compiled.run_rows.stats.cache_misses.values()))
"""


def of_process(code, folder):
    env = os.environ | {"NUMBA_CACHE_DIR": str(folder), "PYTHONPATH": str(Path(__file__).parents[2])}
    return subprocess.run([sys.executable, "-c", code], env=env, capture_output=True, text=True, check=True).stdout


@pytest.mark.thorough
def test_what_is_made_ahead_is_what_a_launch_takes(tmp_path, monkeypatch):
    """Takes as long as compiling does, some five seconds of it."""
    monkeypatch.setenv("NUMBA_CACHE_DIR", str(tmp_path))
    assert not compiled_ahead.is_kept()
    of_process("from dynoan.jobs.compiled_ahead import make; make()", tmp_path)
    assert compiled_ahead.is_kept()
    assert of_process(LAUNCH, tmp_path).split() == ["1", "0"]


def test_what_is_kept_is_not_made_again(tmp_path, monkeypatch):
    monkeypatch.setenv("NUMBA_CACHE_DIR", str(tmp_path))
    begun = []
    monkeypatch.setattr(compiled_ahead.subprocess, "Popen", lambda *words, **_: begun.append(words))
    compiled_ahead.begin()
    assert len(begun) == 1
    line = compiled.run_rows.py_func.__code__.co_firstlineno
    (tmp_path / "large").mkdir()
    (tmp_path / "large" / f"compiled.run_rows-{line}.py3{sys.version_info.minor}.nbi").write_text("")
    assert compiled_ahead.begin() is None
    assert len(begun) == 1


class TestMark:
    """Two processes do not compile the same, and a launch waits for the one that does."""

    @pytest.fixture(autouse=True)
    def place(self, tmp_path, monkeypatch):
        monkeypatch.setenv("NUMBA_CACHE_DIR", str(tmp_path))
        monkeypatch.setattr(compiled_ahead.tempfile, "gettempdir", lambda: str(tmp_path))
        self.begun = []
        monkeypatch.setattr(
            compiled_ahead.subprocess, "Popen", lambda *words, **_: self.begun.append(words) or object()
        )

    def test_a_second_process_is_not_begun(self):
        assert compiled_ahead.begin() is not None
        assert compiled_ahead.begin(awaited=True) is None
        assert len(self.begun) == 1

    def test_the_mark_of_a_dead_process_holds_nobody_up(self):
        compiled_ahead.begin()
        assert compiled_ahead.under_way()
        os.utime(compiled_ahead.mark(), (0, 0))
        compiled_ahead.wait()
        assert compiled_ahead.begin() is not None

    def test_the_mark_goes_even_where_compiling_fails(self, monkeypatch):
        compiled_ahead.begin()
        monkeypatch.setattr(compiled_ahead, "_run_nothing", lambda _nice: 1 / 0)
        with pytest.raises(ZeroDivisionError):
            compiled_ahead.make()
        assert not compiled_ahead.under_way()

    def test_where_no_process_can_be_begun_nobody_waits(self, monkeypatch):
        def refused(*_words, **_more):
            raise OSError

        monkeypatch.setattr(compiled_ahead.subprocess, "Popen", refused)
        assert compiled_ahead.begin() is None
        assert not compiled_ahead.under_way()
