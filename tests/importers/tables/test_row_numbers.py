"""Rows whose number has no name, as statistics programs write them."""

from __future__ import annotations

import numpy as np
import pytest

from dynoan.reading import read_bytes
from tests.importers.making import RATE, F, T, X

V, C, R = (25, 50, 100, 200, 300), (210, 380, 560, 810, 1010), (330, 610, 980, 1450, 1880)


@pytest.mark.parametrize(
    ("head", "row"),
    [
        ('"Velocity [mm/s]" "Compression [N]" "Rebound [N]"', '"{}" {} {} {}'),
        ("velocity_mm_s comp_N reb_N", "{} {} {} {}"),
        ('"velocity.mm.s" "comp.N" "reb.N"', '"{}" {} {} {}'),
        ('"Velocity..mm.s." "Comp..N." "Reb..N."', '"{}" {} {} {}'),
        ("     velocity_mm_s  comp_N  reb_N", "{}       {}    {}   {}"),
        ("# shock FL-03\nvelocity_mm_s comp_N reb_N", "{} {} {} {}"),
    ],
)
@pytest.mark.parametrize("base", [0, 1])
def test_a_table_of_peaks(head, row, base):
    rows = [row.format(k, *cells) for k, cells in enumerate(zip(V, C, R, strict=True), start=base)]
    (sweep,) = read_bytes("\n".join([head, *rows, ""]).encode(), "peaks.txt")
    v, force = sweep.channels["velocity"], sweep.channels["force"]
    np.testing.assert_allclose(sorted(v[v > 0]), np.array(V) / 1e3)
    assert (sorted(force[v > 0]), sorted(-force[v < 0])) == (list(C), list(R))


def test_a_record():
    rows = [f'"{k}" {t:.4f} {1e3 * x:.3f} {f:.1f}' for k, (t, x, f) in enumerate(zip(T, X, F, strict=True), start=1)]
    (sweep,) = read_bytes("\n".join(['"time.s" "disp.mm" "force.N"', *rows, ""]).encode(), "run.txt")
    assert sweep.rate == pytest.approx(RATE)
    np.testing.assert_allclose(sweep.channels["force"], F, atol=0.06)


def test_speeds_that_count_by_ones_are_no_numbers_of_rows():
    rows = [f"{k} {100 * k} {150 * k}" for k in (1, 2, 3, 4, 5)]
    (sweep,) = read_bytes("\n".join(["in/s comp_N reb_N", *rows, ""]).encode(), "peaks.txt")
    assert sweep.channels["velocity"].max() == pytest.approx(0.127)
