"""A row of gains over the samples of a record is no sample."""

from __future__ import annotations

import numpy as np
import pytest

from dynoan.reading import read_bytes

T = np.arange(400) / 200
ROWS = "\n".join(f"{t:.3f},{20 * np.sin(2 * np.pi * t):.3f},{900 * np.cos(2 * np.pi * t) + 200:.1f}" for t in T)


@pytest.mark.parametrize("gains", ["1000,1,1", "1,1,1", "10,0.1,100"])
def test_a_first_row_of_powers_of_ten_that_time_does_not_begin_with_is_left_out_and_said(gains):
    (sweep,) = read_bytes(f"Time,Disp,Force\ns,mm,N\n{gains}\n{ROWS}\n".encode(), "run.csv")
    assert sweep.samples == 400
    assert any(f"the first row ({gains.replace(',', ', ')}) is no sample" in w for w in sweep.warnings)
    assert not any("time jumps back" in w for w in sweep.warnings)


@pytest.mark.parametrize("first", ["-0.005,1,1", "1000,1.5,1", "1000,-1,1"])
def test_another_first_row_stays(first):
    (sweep,) = read_bytes(f"Time,Disp,Force\ns,mm,N\n{first}\n{ROWS}\n".encode(), "run.csv")
    assert not any("is no sample" in w for w in sweep.warnings)
