"""Structures in MATLAB files as different people make them: values with units, names beside a matrix, signals."""

from __future__ import annotations

import io

import numpy as np
import pytest
from scipy.io import savemat

from dynoan.errors import ReadError
from dynoan.reading import read_bytes
from tests.importers.making import RATE, F, T, X

MATRIX = np.column_stack([T, 1e3 * X, F])


def cells(*words: str) -> np.ndarray:
    return np.array(words, object)


NAMED = {"data": MATRIX, "names": cells("time", "position", "force"), "units": cells("s", "mm", "N")}


def read(value):
    out = io.BytesIO()
    savemat(out, value)
    return read_bytes(out.getvalue(), "run.mat")


@pytest.mark.parametrize(
    "value",
    [
        {"data": {k: {"value": v, "unit": u} for k, v, u in
                  (("time", T, "s"), ("displacement", 1e3 * X, "mm"), ("force", F, "N"))}},
        NAMED,
        {"run": NAMED},
        {**NAMED, "names": np.array(["time", "position", "force"]), "units": np.array(["s", "mm", "N"])},
        {"Force": {"x": T, "y": F, "unit": "N"}, "Position": {"x": T, "y": 1e3 * X, "unit": "mm"}},
    ],
    ids=["values", "matrix", "matrix in a structure", "words as characters", "signals"],
)  # fmt: skip
def test_they_are_read_alike(value):
    (sweep,) = read(value)
    assert sweep.rate == pytest.approx(RATE)
    np.testing.assert_allclose(np.abs(sweep.channels["force"]), np.abs(F), rtol=1e-9)
    np.testing.assert_allclose(np.ptp(sweep.channels["displacement"]), np.ptp(X), rtol=1e-9)


def test_an_axis_of_a_few_speeds_is_no_time():
    speeds, forces = np.array([50.0, 100, 200, 300]), np.array([200.0, 300, 400, 500])
    with pytest.raises(ReadError, match="no velocity column"):
        read({way: {"x": speeds, "y": forces, "unit": "N"} for way in ("Compression", "Rebound")})
