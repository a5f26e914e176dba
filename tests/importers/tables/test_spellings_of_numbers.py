"""Numbers and columns in spellings that plain parsers refuse are read as what they say."""

from __future__ import annotations

import numpy as np
import pytest

from dynoan.reading import read_bytes

T = np.arange(400) / 200
X, F = 20 * np.sin(2 * np.pi * T), 377 * np.cos(2 * np.pi * T) + 120


def trace(header, columns, form=lambda x: f"{x:.4f}"):
    rows = (",".join(map(form, row)) for row in zip(*columns, strict=True))
    return "\n".join([header, *rows, ""]).encode()


@pytest.mark.parametrize("letter", ["D", "d"])
def test_exponents_with_a_d(letter):
    data = trace("Time [s],Disp [mm],Force [N]", (T, X, F), lambda x: f"{x:.6e}".replace("e", letter))
    (sweep,) = read_bytes(data, "rig.csv")
    np.testing.assert_allclose(sweep.channels["force"], F, rtol=1e-6)


def test_fixed_width_with_blank_cells_in_utf_16():
    rows = [(50.0, "200.0", 300.0), (100.0, "400.0", 500.0), (200.0, "", 800.0), (400.0, "900.0", 1200.0)]
    lines = ["   v mm/s   comp N    reb N", *(f"{v:9.1f}{c:>9}{r:9.1f}" for v, c, r in rows)]
    (sweep,) = read_bytes("\n".join(lines).encode("utf-16"), "rig.txt")
    np.testing.assert_allclose(sweep.channels["force"], [200, 400, 900, -300, -500, -800, -1200])


def test_a_time_stamp_beside_the_time_is_none_of_the_run():
    data = trace("Timestamp [s],Time [s],Disp [mm],Force [N]", (1e6 + np.arange(400), T, X, F))
    (sweep,) = read_bytes(data, "rig.csv")
    assert (sweep.rate, sweep.decisions["time"].column) == (200.0, "Time [s]")
