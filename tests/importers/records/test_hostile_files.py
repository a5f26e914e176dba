"""Small files that claim to be huge are refused in one line, in bounded time and memory."""

from __future__ import annotations

import json
import os
import re
import subprocess
import sys

import pytest

from tests.importers.records.hostile import FILES, array, element, mat

SAID = {
    "wide.xlsx": "more than 20 million cells, empty ones included; take out cells far below or beside",
    "far.xlsx": "the file is empty; wanted a table",
    "bomb.xlsx": "unpacks to more than 400 MB; save the sheets as CSV",
    "long.xlsx": "a sheet of 1300000 rows, more than the 1048576 that a sheet can have; export the run again",
    "rows.xlsx": "a sheet of 6000000 rows, more than the 1048576",
    "names.json": "JSON without columns of one length by name",
    "circle.xls": r"the workbook is damaged \(it cannot be read\); open and save it again, or save it as CSV",
    "rows.ods": "no table of numbers",
    "wide.json": r"the columns are: 'c0', .* and 380 more; name one",
    "large.json": "66 MB of JSON, more than the 64 MB that are read; export the run as CSV",
    "deep.json": "this JSON cannot be read",
    "numbers.mat": r"claims more values than are read \(60 million\); save a part of the run, or as CSV",
    "cells_in_cells.mat": "claims more values than are read",
    "zeros.mat": "claims more values than are read",
    "long.mat": "the MATLAB file is damaged",
}
QUICK = (
    "cells.mat",
    "circle.xls",
    "deep.json",
    "far.xlsx",
    "liar.ods",
    "numbers.mat",
    "repeated.ods",
    "structures.mat",
)
MOST_MEMORY, MOST_TIME = 700.0, 10.0  #: [MB], [s of processor]


@pytest.mark.parametrize(
    "names", [QUICK, pytest.param(tuple(sorted(FILES)), marks=pytest.mark.thorough)], ids=["some", "all"]
)
def test_hostile_files_are_refused_in_bounded_time_and_memory(names, tmp_path):
    """In a process of its own, which can be stopped, and whose memory is no other test's."""
    for name in names:
        (tmp_path / name).write_bytes(FILES[name]())
    command = [sys.executable, "-m", "tests.importers.records.hostile", str(tmp_path)]
    limits = {
        "OPENBLAS_NUM_THREADS": "1",
        "PATH": os.environ.get("PATH", ""),
        "PYTHONPATH": os.environ.get("PYTHONPATH", ""),
    }
    # What a file may take is bounded below, in time of the processor; this stops one that hangs, on a busy machine too.
    done = subprocess.run(command, capture_output=True, text=True, timeout=600, check=False, env=limits)
    assert done.returncode == 0, done.stderr[-2000:]
    found = [json.loads(line) for line in done.stdout.splitlines()]
    assert [name for name, *_ in found] == sorted(names)
    assert not done.stderr
    for name, grown, spent, said in found:
        assert said.startswith(name)
        assert re.search(SAID.get(name, ""), said)
        assert "\n" not in said
        assert len(said) < 500
        assert grown < MOST_MEMORY, (name, grown)
        assert spent < MOST_TIME, (name, spent)


def test_a_cell_array_as_large_as_its_content_is_no_claim():
    from importers.records.mat_bounds import claims_too_much

    inner = array(6, (2, 1), element(9, bytes(16)))
    assert not claims_too_much(mat(array(1, (3, 1), inner * 3)))
    assert claims_too_much(mat(array(1, (30_000, 1), inner * 3)))
