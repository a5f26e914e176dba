"""A record that lacks a channel says what it is instead; an option that did nothing is said."""

from __future__ import annotations

import numpy as np
import pytest

from dynoan.errors import ReadError
from dynoan.model.importing import ReadOptions
from dynoan.reading import read_bytes

T = np.arange(300) / 100
X = 20 * np.sin(2 * np.pi * T)


def file(header, *columns):
    rows = (",".join(f"{x:.4f}" for x in row) for row in zip(*columns, strict=True))
    return "\n".join([header, *rows, ""]).encode()


def test_a_log_of_travel_says_what_it_is_good_for():
    with pytest.raises(ReadError, match=r"no force column; .*log for 'dynoan travel' or 'dynoan bounce'"):
        read_bytes(file("Time [s],Travel [mm]", T, X), "log.csv")


@pytest.mark.parametrize("name", ["Acceleration [g]", "Accel x (m/s²)", "az [g]", "Beschleunigung [m/s^2]"])
def test_an_acceleration_is_no_displacement(name):
    with pytest.raises(ReadError, match="is an acceleration, which is no displacement of a shock"):
        read_bytes(file(f"Time [s],{name},Force [N]", T, X / 9.81, 10 * X), "log.csv")


def test_a_rate_of_a_peak_table_had_no_effect():
    table = file("Velocity [mm/s],Compression [N],Rebound [N]", [50, 100, 200], [90, 150, 210], [110, 190, 260])
    assert read_bytes(table, "rig.csv")[0].layout == "peaks"
    with pytest.raises(ReadError, match="--rate had no effect, as the file is a peak table"):
        read_bytes(table, "rig.csv", ReadOptions(rate=1000.0))
