"""A force's name may say that gas force is out of it: it is a force still, and the sweep says so."""

from __future__ import annotations

import numpy as np
import pytest

from dynoan.model.importing import ReadOptions
from dynoan.reading import read_bytes


@pytest.mark.parametrize(
    ("name", "removed"),
    [("Damper Force (gas removed) N", True), ("Force, gas not removed (N)", False),
     ("Kraft (Gaskraft abgezogen) [N]", True), ("Force (N)", None)],
)  # fmt: skip
def test_it_is_a_force_and_known_to_be_without_gas(name, removed):
    t = np.arange(2000) / 500
    v = 0.2 * np.sin(2 * np.pi * 1.5 * t)
    x = 20 - 0.2 / (2 * np.pi * 1.5) * 1e3 * np.cos(2 * np.pi * 1.5 * t)
    rows = "\n".join(f"{a:.4f};{b:.3f};{c:.2f}" for a, b, c in zip(t, x, 2500 * v, strict=True))
    (sweep,) = read_bytes(f"Time (s);Displacement (mm);{name}\n{rows}\n".encode(), "a.csv", ReadOptions())
    assert sweep.decisions["force"].column == name
    assert sweep.gas_removed is removed


def test_gas_out_of_another_column_is_not_out_of_the_one_that_is_taken():
    t = np.arange(0, 2, 0.002)
    x, v = 25 * np.sin(5 * t), 0.125 * np.cos(5 * t)
    force = 4000 * v + 130
    rows = "".join(f"{a:.3f},{b:.3f},{c:.1f},{c - 130:.1f}\n" for a, b, c in zip(t, x, force, strict=True))
    text = "Time (s),Position (mm),Force [N],Gas compensated force [N]\n" + rows
    (sweep,) = read_bytes(text.encode(), "both.csv")
    assert (sweep.decisions["force"].column, sweep.gas_removed) == ("Force [N]", None)
    assert "gas" in sweep.decisions["force"].evidence
