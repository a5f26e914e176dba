"""Numbers that are seconds or milliseconds of the day run on over midnight; a run that begins anew does not."""

from __future__ import annotations

import numpy as np
import pytest

from dynoan.reading import read_bytes

T = np.arange(600) / 200
X, F = 25 * np.sin(9 * T), 450 * np.cos(9 * T) + 130 + 10 * np.sin(9 * T)


def read(stamps: np.ndarray, unit: str):
    rows = "".join(f"{t:.3f},{x:.3f},{f:.2f}\n" for t, x, f in zip(stamps, X, F, strict=True))
    return read_bytes(f"Time ({unit}),Position (mm),Force (N)\n{rows}".encode(), "night.csv")


@pytest.mark.parametrize(("unit", "scale"), [("s", 1.0), ("ms", 1000.0)])
def test_time_of_the_day_runs_on_over_midnight(unit, scale):
    (sweep,) = read(scale * ((86398.5 + T) % 86400), unit)
    assert sweep.rate == pytest.approx(200)
    assert np.ptp(sweep.channels["time"]) == pytest.approx(T[-1])
    assert not [w for w in sweep.warnings if "time" in w]


def test_time_that_begins_anew_elsewhere_does_not():
    sweeps = read(np.where(T < 1.5, 80000 + T, T - 1.5), "s")
    assert len(sweeps) == 2 or any("jumps back" in w for w in sweeps[0].warnings)
