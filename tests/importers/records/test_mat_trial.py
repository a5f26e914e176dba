"""The process that tries a MATLAB file is bounded in memory and in time."""

from __future__ import annotations

import io
import subprocess
import sys

import numpy as np
import pytest
from scipy.io import savemat

from dynoan.errors import ReadError
from importers.records import mat_file, mat_trial

resource = pytest.importorskip("resource")


def small_file() -> bytes:
    out = io.BytesIO()
    savemat(out, {"force": np.arange(5.0)})
    return out.getvalue()


def test_what_it_may_take_is_limited():
    ask = (
        "import resource; from importers.records import mat_trial as m; m._limit_memory();"
        "print(resource.getrlimit(resource.RLIMIT_AS)[0])"
    )
    done = subprocess.run([sys.executable, "-c", ask], capture_output=True, text=True, check=True)
    assert int(done.stdout) <= mat_trial.MOST_MEMORY


def test_a_sound_file_is_read_within_a_tighter_limit_too():
    limit = "import resource; resource.setrlimit(resource.RLIMIT_AS, (3 << 30, 3 << 30)); "
    script = f"{limit}exec(open({mat_trial.__file__!r}).read())"
    done = subprocess.run([sys.executable, "-c", script], input=small_file(), capture_output=True, check=False)
    assert (done.returncode, done.stderr) == (mat_trial.READ, b"")


def test_a_file_that_takes_for_ever_is_refused(monkeypatch):
    def for_ever(*_args: object, timeout: float, **_more: object) -> None:
        raise subprocess.TimeoutExpired("python", timeout)

    monkeypatch.setattr(subprocess, "run", for_ever)
    with pytest.raises(ReadError, match=r"run\.mat: not read within 60 s; save it as CSV"):
        mat_file.mat_records(small_file(), "run.mat")
