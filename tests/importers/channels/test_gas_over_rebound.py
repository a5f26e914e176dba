"""Rebound that gas outweighs at every row: positive, falling with speed, and no magnitudes."""

import numpy as np
import pytest

from dynoan.reading import read_bytes

HEAD = "Shock: K-52\nGas force: included\n"
COLUMNS = "Speed (mm/s),Compression force (N),Rebound force (N)\n"


def forces(rows, head=HEAD):
    (sweep,) = read_bytes((head + COLUMNS + "\n".join(rows)).encode(), "gas.csv")
    down = sweep.channels["velocity"] < 0
    return sweep.channels["force"][~down], sweep.channels["force"][down], sweep.warnings


@pytest.mark.parametrize("head", [HEAD, HEAD + "Sign: compression positive, rebound negative\n"])
def test_forces_that_fall_keep_their_sign_and_that_is_said(head):
    compression, rebound, warnings = forces(["52,660,310", "131,750,190", "262,880,30"], head)
    np.testing.assert_allclose(compression, [660, 750, 880])
    np.testing.assert_allclose(rebound, [310, 190, 30])
    assert any("gas outweighs" in w for w in warnings)


def test_magnitudes_rise_and_are_turned():
    compression, rebound, warnings = forces(["52,260,310", "131,350,590", "262,480,830"])
    np.testing.assert_allclose(compression, [260, 350, 480])
    np.testing.assert_allclose(rebound, [-310, -590, -830])
    assert not any("gas outweighs" in w for w in warnings)


def test_a_valve_that_blows_off_at_its_last_row_is_none_that_gas_outweighs():
    rebound = forces(["52,260,310", "131,350,590", "262,480,560"])[1]
    np.testing.assert_allclose(rebound, [-310, -590, -560])


def test_a_slight_fall_from_row_to_row_is_none():
    rebound = forces(["52,260,600", "131,350,590", "262,480,570"])[1]
    np.testing.assert_allclose(rebound, [-600, -590, -570])
