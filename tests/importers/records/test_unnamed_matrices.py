"""Matrices without names, in arrays and in text: asked about with the options that name them, and read with them."""

from __future__ import annotations

import io
import json

import numpy as np
import pytest
import scipy.io

from dynoan.errors import ReadError
from dynoan.model.importing import ReadOptions
from dynoan.reading import read_bytes

TIME = np.arange(500) * 4e-3
TRAVEL = 20 * np.sin(2 * np.pi * 2 * TIME)
FORCE = 400 * np.cos(2 * np.pi * 2 * TIME) + 120
TRACE = np.column_stack([TIME, TRAVEL, FORCE])
PEAKS = np.array([[50.0, 310, 420], [130, 520, 800], [250, 780, 1290]])
NUMBERED = {"time": "1", "displacement": "2", "force": "3"}
UNITS = {"displacement": "mm", "force": "N"}


def saved(write, *values, **named):
    stream = io.BytesIO()
    write(stream, *values, **named)
    return stream.getvalue()


FILES = {
    "run.npy": saved(np.save, TRACE),
    "turned.npy": saved(np.save, TRACE.T),
    "run.npz": saved(np.savez, TRACE, clicks=np.array("C 4 R 6")),
    "run.mat": saved(scipy.io.savemat, {"data": TRACE, "info": {"shock": "FL-03"}}),
    "run.json": json.dumps({"rows": TRACE.tolist()}).encode(),
    "run.csv": "\n".join(",".join(f"{x:.5f}" for x in row) for row in TRACE).encode(),
}


@pytest.mark.parametrize("name", FILES)
def test_it_is_said_that_names_are_missing_and_how_they_are_given(name):
    with pytest.raises(ReadError, match="3 columns of numbers and no line that names them") as refused:
        read_bytes(FILES[name], name)
    assert "--column time=1 --column displacement=2 --column force=3" in str(refused.value)
    assert "--unit displacement=UNIT --unit force=UNIT" in str(refused.value)


@pytest.mark.parametrize("name", FILES)
def test_columns_named_by_number_are_read(name):
    (sweep,) = read_bytes(FILES[name], name, ReadOptions(columns=NUMBERED, units=UNITS))
    assert sweep.rate == pytest.approx(250)
    assert sweep.channels["force"] == pytest.approx(FORCE, abs=1e-4)
    assert sweep.channels["displacement"] == pytest.approx(TRAVEL / 1e3, abs=1e-7)


def test_what_stands_beside_a_matrix_is_taken():
    options = ReadOptions(columns=NUMBERED, units=UNITS)
    assert read_bytes(FILES["run.mat"], "run.mat", options)[0].shock == "FL-03"
    assert read_bytes(FILES["run.npz"], "run.npz", options)[0].clicks == {"c": 4, "r": 6}


def test_a_stack_of_matrices_is_a_run_each():
    stack = saved(np.save, np.stack([TRACE, 2 * TRACE]))
    assert len(read_bytes(stack, "stack.npy", ReadOptions(columns=NUMBERED, units=UNITS))) == 2


@pytest.mark.parametrize(
    ("matrix", "named"),
    [
        (PEAKS, "--column velocity=1 --column compression=2 --column rebound=3"),
        (PEAKS[:, :2], "--column velocity=1 --column force=2"),
        (TRACE[:, 1:], "--column displacement=1 --column force=2"),
    ],
)
def test_the_options_fit_the_numbers(matrix, named):
    with pytest.raises(ReadError) as refused:
        read_bytes(saved(np.save, matrix), "run.npy")
    assert named in str(refused.value)
    assert ("--rate 'NUMBER Hz'" in str(refused.value)) == ("displacement" in named)


def test_columns_are_shown_by_their_numbers():
    options = ReadOptions(columns={"velocity": "1", "force": "2"}, units={"velocity": "mm/s", "force": "N"})
    (sweep,) = read_bytes(saved(np.save, PEAKS[:, :2]), "run.npy", options)
    assert [sweep.decisions[c].column for c in ("velocity", "force")] == ["column 1", "column 2"]
