"""A peak table's gas force is told by the rod and the pressure that the shock's file states."""

from __future__ import annotations

import hashlib

import numpy as np
import pytest

from dynoan.library import Library
from dynoan.model.sweep import Source, Sweep
from dynoan.workbench import Workbench

SHOCK = """rod = "14 mm"
gas_pressure = "8 bar"

[adjusters.lsc]
clicks = 12
"""


def bench(tmp_path, name: str, text: str) -> Workbench:
    library = Library.create(tmp_path / name)
    (library.path / "shocks").mkdir(exist_ok=True)
    (library.path / "shocks" / "kestrel-front.toml").write_text(text)
    speed = np.geomspace(0.05, 0.5, 9)
    v = np.concatenate([speed, -speed])
    source = Source("table.csv", hashlib.sha256(b"invented").hexdigest())
    sweep = Sweep("peaks", {"velocity": v, "force": 2000.0 * v + 60.0}, source,
                  shock="kestrel-front", pack="gravel", clicks={"lsc": 4})  # fmt: skip
    library.add(sweep, b"invented")
    return Workbench(library)


def test_rod_and_pressure_of_the_shock_narrow_the_gas_force(tmp_path):
    (stated,) = bench(tmp_path, "stated", SHOCK).resolve("pack=gravel")
    (silent,) = bench(tmp_path, "silent", SHOCK.split("\n", 3)[3]).resolve("pack=gravel")
    (line,) = (line for line in stated.curve.findings if line.startswith("gas force and zero"))
    extended = 8e5 * np.pi / 4 * 0.014**2
    assert f"14.0 mm rod makes {extended:.0f} N" in line
    assert not any("mm rod" in line for line in silent.curve.findings)
    # The table by itself says 60 N.
    assert stated.curve.gas_force == pytest.approx(1.12 * extended, abs=0.22 * extended)
    assert stated.curve.gas_force > silent.curve.gas_force + 0.2 * extended
