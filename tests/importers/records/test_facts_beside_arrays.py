"""What stands beside arrays in records: notes in a few texts, structures of facts, few numbers, what cannot be read."""

from __future__ import annotations

import io
import json

import numpy as np
import pytest
from scipy.io import savemat

from dynoan.reading import read_bytes
from tests.importers.making import F, T, X

ARRAYS = {"time_s": T, "disp_mm": 1e3 * X, "force_N": F}
NOTE = ("Shock: RL-02", "tested on 14 June 2025", "LSC 6 LSR 8, gas 10 bar")


def read_mat(value):
    out = io.BytesIO()
    savemat(out, value)
    (sweep,) = read_bytes(out.getvalue(), "run.mat")
    return sweep


def told(sweep):
    return sweep.shock, dict(sweep.clicks), sweep.date, sweep.gas_pressure


@pytest.mark.parametrize(
    "value",
    [
        {**ARRAYS, "notes": np.array([line.ljust(30) for line in NOTE])},
        {**ARRAYS, "info": np.array(NOTE, object)},
        {**ARRAYS, "info": "; ".join(NOTE)},
        {"run": {**ARRAYS, "about": {"notes": np.array(NOTE, object)}}},
        {
            "meta": {"damper": "RL-02", "tested": "2025-06-14", "set": {"LSC": 6, "LSR": 8, "gas_bar": 10.0}},
            "run": ARRAYS,
        },
        {"meta": {"shock": "RL-02", "log": np.array(NOTE[1:], object), "gain": np.array([1.0, 2.0])}, "run": ARRAYS},
        {
            "M": np.column_stack([T, 1e3 * X, F]),
            "cols": np.array(["time [s]", "disp [mm]", "force [N]"], object),
            "log": np.array(NOTE, object),
        },
    ],
    ids=["characters", "cells", "text", "structure", "structures", "beside numbers", "beside names of as many columns"],
)
def test_matlab(value):
    assert told(read_mat(value)) == ("RL-02", {"lsc": 6, "lsr": 8}, "2025-06-14", 1e6)


def test_json():
    meta = {"shock": "RL-02", "tags": ["gravel", "wet"], "remarks": list(NOTE[1:]), "clicks": {"lsc": 6, "lsr": 8}}
    rows = [{"v_mm_s": v, "comp_N": 3 * v + 100, "reb_N": 5 * v + 90} for v in (25, 50, 100, 200)]
    (sweep,) = read_bytes(json.dumps({"meta": meta, "data": rows}).encode(), "run.json")
    assert told(sweep) == ("RL-02", {"lsc": 6, "lsr": 8}, "2025-06-14", 1e6)


def test_two_numbers_for_clicks_are_asked_about():
    sweep = read_mat({**ARRAYS, "info": {"shock": "RL-02", "clicks": np.array([6.0, 8.0])}})
    assert (sweep.shock, sweep.clicks) == ("RL-02", {})
    assert any("'clicks: 6 / 8' names no adjusters" in w for w in sweep.warnings)
