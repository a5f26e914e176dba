"""Gas pressure and rod stated above a peak table tell its gas force, unless the table holds none."""

from __future__ import annotations

import numpy as np
import pytest

from dynoan.analysis.conditioning.condition import condition
from dynoan.model.sweep import Source, Sweep
from dynoan.reading import read_bytes

V = np.concatenate([np.geomspace(0.03, 0.5, 9), -np.geomspace(0.03, 0.5, 9)])
#: a valve of unlike directions, so that their middle at low speed is no gas force
DAMPING = np.where(V > 0, 900.0 * np.abs(V) ** 0.4, -300.0 * np.abs(V) ** 0.6)
PRESSURE, ROD = 15e5, 0.014
GAS = PRESSURE * np.pi / 4 * ROD**2


def table(gas: float, **stated) -> Sweep:
    noise = np.random.default_rng(4).normal(0.0, 2.0, len(V))
    return Sweep("peaks", {"velocity": V, "force": DAMPING + gas + noise}, Source("made.csv", "0"), **stated)


def test_it_is_used_and_narrows_what_is_known():
    open_, stated = condition(table(GAS)), condition(table(GAS, gas_pressure=PRESSURE, rod=ROD))
    assert stated.offset_sd < 0.9 * open_.offset_sd
    assert stated.offset == pytest.approx(GAS, abs=2 * stated.offset_sd)
    assert any("stated pressure on a 14.0 mm rod makes 231 N" in line for line in stated.findings)


def test_a_table_that_holds_none_is_said_so():
    found = condition(table(0.0, gas_pressure=PRESSURE, rod=ROD))
    assert abs(found.offset) < 10.0
    assert any("the table holds none" in line for line in found.findings)


def test_it_is_read_off_the_file():
    text = "Gas pressure: 15 bar\nRod diameter: 14 mm\nVelocity [mm/s],Compression force [N],Rebound force [N]\n"
    rows = "\n".join(f"{1e3 * v:.0f},{300 + 900 * v:.0f},{-150 + 900 * v:.0f}" for v in V[:9])
    (sweep,) = read_bytes((text + rows + "\n").encode(), "table.csv")
    assert sweep.rod == pytest.approx(0.014)
