"""A lone spike is told where it stands out from the noise of the samples, and noise alone is none."""

from __future__ import annotations

import numpy as np
import pytest

from dynoan.reading import read_bytes
from importers.channels.doubts import _spikes
from importers.tables import Extent

FORCE = 700 * np.sin(np.linspace(0, 40, 3001))


@pytest.mark.parametrize(("noise", "spike", "said"), [(45.0, 0.0, False), (0.0, 200.0, True), (10.0, 400.0, True)])
def test_spikes(noise, spike, said):
    force = FORCE + np.random.default_rng(4).normal(0.0, noise or 1e-9, len(FORCE))
    force[1234] += spike
    assert bool(_spikes(force, Extent.of(force))) == said


def test_a_peak_of_nines_at_which_a_record_begins_and_ends_is_measured():
    phase = 2 * np.pi * np.arange(1000) / 500
    rows = [f"{k / 500:.3f},{99.99 * np.cos(p):.2f},{800 * np.cos(p) + 120:.1f}" for k, p in enumerate(phase)]
    (sweep,) = read_bytes("\n".join(["Time (s),Velocity (mm/s),Force (N)", *rows, ""]).encode(), "run.csv")
    assert np.nanmax(sweep.channels["velocity"]) == pytest.approx(0.09999)
    assert np.isfinite(sweep.channels["velocity"]).all()
